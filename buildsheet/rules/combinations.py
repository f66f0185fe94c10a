"""What may stand behind what: each two neighbours from the supply to the motor are looked up in the matrix."""

from collections.abc import Iterator
from itertools import pairwise

from buildsheet.circuit import Circuit
from buildsheet.citations import Citation
from buildsheet.design import Design
from buildsheet.reference import table
from buildsheet.sizing.finding import Finding, Said

LITHIUM = "lithium"


def chain(design: Design) -> tuple[str, ...]:
    """The machine from its supply to its motor, in the words of the matrix; empty while supply, way or motor is open."""
    project = design.project
    if project.power is None or project.motor is None:
        return ()
    battery = project.battery
    if project.fed_by == "battery":
        if battery is None:
            return ()
        bare = battery.kind is not None and battery.kind.startswith(LITHIUM) and battery.protection != "protection board"
        source = "unprotected lithium pack" if bare else "battery"
    elif project.supply is not None:
        source = "line"
    else:
        return ()
    choke = ("choke",) if project.controls is not None and project.controls.choke is not None else ()
    return (source, *project.power.links, *choke, project.motor.stands_as)


def _a(link: str) -> str:
    """A link with its article."""
    return f"{'an' if link[0] in 'aeiou' else 'a'} {link}"


def combinations(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """A pair that is never built, or that nobody has judged, is a stop with its reason and what would go together."""
    del circuit
    matrix = table("combinations")
    for before, behind in pairwise(chain(design)):
        pair = f"{before} > {behind}"
        row = matrix.rows.get(pair)
        name = f"together-{before}-{behind}".replace(" ", "-")
        if row is None:
            yield Finding(name, "stop", "WARNING", Said.of(f"Nobody has judged {_a(behind)} behind {_a(before)}."), "What is not known to go together is not built.", "Ask somebody who knows both, or take a pair that the matrix knows: `buildsheet table combinations`.", matrix.source, key="power.way")  # fmt: skip
        elif row["verdict"] == "stop":
            yield Finding(name, "stop", "DANGER", Said.of(f"{_a(behind).capitalize()} does not go behind {_a(before)}: {row['reason']}."), "It fails, or it hurts somebody.", f"What goes together: {row['instead']}.", Citation(row["basis"], read_from="secondary copy"), key="battery.protection" if before.startswith("unprotected") else "power.way")  # fmt: skip
