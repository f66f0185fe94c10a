"""Wire to cut: how many pieces of which length, by size and colour, and how much that is in all."""

from collections import Counter
from dataclasses import dataclass

from buildsheet.circuit import Circuit
from buildsheet.citations import derivation
from buildsheet.design import Design
from buildsheet.units import METRE
from buildsheet.worksheet import Model, Value

IN_A_CORD = "W1"  # its conductors are cut with the cord
ADDED = derivation("pieces times length, added up")


@dataclass(frozen=True, slots=True)
class Cut:
    """Wire of one size and colour: pieces as (how many, length of one), and the total."""

    size: str
    colour: str
    pieces: tuple[tuple[int, Value], ...]
    total: Value


def run_lengths(design: Design) -> dict[str, Value]:
    """Length of a wire by its run, as a Value."""
    ids = {"box": "runs.box", "panel": "wire.l_panel", "motor": "wire.l_motor", "cord": "runs.cord"}
    return {run: design.sheet.values[name] for run, name in ids.items() if name in design.sheet.values}


def cuts(design: Design, circuit: Circuit) -> tuple[Cut, ...]:
    """The cut list, entered into the worksheet so that each total has its parent."""
    lengths = run_lengths(design)
    runs: dict[tuple[str, str], Counter[str]] = {}
    for wire in circuit.wires:
        if wire.cable != IN_A_CORD:
            runs.setdefault((wire.size, wire.colour), Counter())[wire.run] += 1
    found = []
    for (size, colour), counted in sorted(runs.items()):
        pieces = tuple((count, lengths[run]) for run, count in counted.items())
        arguments = {f"l_{run}": lengths[run] for run in counted}
        name = f"sum of {' and '.join(f'{count} pieces' for count in counted.values())}"
        total = sum(count * float(length) for count, length in pieces)
        label = f"{size} {colour}, in all"
        value = design.sheet.solved(
            f"cut.{size}.{colour}".replace(" ", "-"),
            total,
            METRE,
            Model(name, arguments, "the wire to buy", ADDED),
            label,
        )
        found.append(Cut(size, colour, pieces, value))
    return tuple(found)
