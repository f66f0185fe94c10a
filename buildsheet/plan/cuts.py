"""Wire to cut: how many pieces of which length, by size and colour, and how much that is in all; a cable is cut whole."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from buildsheet.circuit import Circuit, Wire
from buildsheet.citations import derivation
from buildsheet.design import Design
from buildsheet.units import METRE
from buildsheet.worksheet import Model, Value

ADDED = derivation("pieces times length, added up")


@dataclass(frozen=True, slots=True)
class Cut:
    """Wire of one size and colour: pieces as (how many, length of one), and the total. For a cable its name, its colours
    and its cores as (how many, size of one); it is one piece."""

    size: str
    colours: tuple[str, ...]
    pieces: tuple[tuple[int, Value], ...]
    total: Value
    cable: str = ""
    cores: tuple[tuple[int, str], ...] = ()


def run_lengths(design: Design) -> dict[str, Value]:
    """Length of a wire by its run, as a Value."""
    ids = {"box": "runs.box", "panel": "wire.l_panel", "motor": "wire.l_motor", "cord": "runs.cord", "supply": "wire.l_supply", "post": "wire.l_post"}
    return {run: design.sheet.values[name] for run, name in ids.items() if name in design.sheet.values}


def cables(circuit: Circuit) -> dict[str, tuple[Wire, ...]]:
    """The conductors of each cable, by its name, protective conductor first."""
    found: dict[str, list[Wire]] = {}
    for wire in circuit.wires:
        if wire.cable:
            found.setdefault(wire.cable, []).append(wire)
    return {name: tuple(sorted(found[name], key=lambda wire: wire.role != "protective")) for name in sorted(found)}


def on_a_plug(wire: Wire, circuit: Circuit) -> bool:
    """Whether a conductor is a core of the cord: that comes with its plug and is no wire to cut."""
    plug, _ = circuit.source
    return bool(wire.cable) and any(plug.code in (core.a.device, core.b.device) for core in cables(circuit)[wire.cable])


def cuts(design: Design, circuit: Circuit) -> tuple[Cut, ...]:
    """The cut list: single wires, whose totals are entered into the worksheet so that each has its parent, then cables."""
    lengths = run_lengths(design)
    runs: dict[tuple[str, str], Counter[str]] = {}
    for wire in circuit.wires:
        if not wire.cable:
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
        found.append(Cut(size, (colour,), pieces, value))
    return (*found, *_of_cables(circuit, lengths))


def _of_cables(circuit: Circuit, lengths: dict[str, Value]) -> Iterator[Cut]:
    """Every cable but the cord, cut to its longest run."""
    for name, cores in cables(circuit).items():
        if on_a_plug(cores[0], circuit):
            continue
        length = max((lengths[core.run] for core in cores), key=float)
        sizes = Counter(core.size for core in cores)
        yield Cut(" and ".join(sizes), tuple(core.colour for core in cores), ((1, length),), length, name,
                  tuple((count, size) for size, count in sizes.items()))  # fmt: skip
