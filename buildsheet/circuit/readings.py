"""What a pocket meter shows between two points of the unplugged machine, solved from the resistance network."""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise
from math import inf
from typing import Literal

from buildsheet.circuit.contraction import Nodes, contract, reached
from buildsheet.circuit.netlist import (
    Capacitor,
    Circuit,
    Diode,
    Electronics,
    Positions,
    Resistance,
    Terminal,
    Winding,
)

ReadingKind = Literal["near zero", "value", "open", "diode drop", "rising", "record"]
DIODE_DROP = (0.4, 0.9)  # V that a meter's diode range shows on silicon, forward
Edges = list[tuple[Terminal, Terminal, float]]


@dataclass(frozen=True, slots=True)
class Reading:
    """A reading between two probes in given positions. `low` and `high` in ohms, in volts for a diode drop; both infinite
    when open; where it is rising, they are where it ends."""

    red: Terminal
    black: Terminal
    positions: Mapping[str, str]
    kind: ReadingKind
    low: float
    high: float


def expected(
    circuit: Circuit,
    red: Terminal,
    black: Terminal,
    positions: Positions,
    *,
    off: frozenset[str] = frozenset(),
    joined: float = 0.5,
) -> Reading:
    """The reading between two terminals, with the wires of the devices in `off` taken off those devices.

    `joined` is the most ohms that leads and contacts add. "record" where electronics lie in a path, or a diode that the
    meter, whose red tip is its plus, opens: for then no figure can be foretold. A diode alone, the right way round, is a
    "diode drop"; a capacitor makes the reading rise until it is full.
    """
    at = {**circuit.rest, **positions}
    nodes = contract(circuit, at, off=off)
    if nodes.same(red, black):
        return Reading(red, black, at, "near zero", 0.0, joined)
    ends = (nodes.of(red), nodes.of(black))
    low, high = _network(circuit, at, nodes, "low"), _network(circuit, at, nodes, "high")
    if _through_electronics(circuit, at, red, black, off):
        return Reading(red, black, at, "record", 0.0, inf)
    below, above = _potentials(low, *ends), _potentials(high, *ends)
    if _through_diode(circuit, nodes, high, ends):
        if below is None and _lies_between(circuit, nodes, ends, Diode):
            return Reading(red, black, at, "diode drop", *DIODE_DROP)
        return Reading(red, black, at, "record", 0.0, inf)
    kind: ReadingKind = "rising" if _lies_between(circuit, nodes, (*ends, *ends[:1]), Capacitor) else "value"
    if below is None or above is None:
        return Reading(red, black, at, "open" if kind == "value" else kind, inf, inf)
    return Reading(red, black, at, kind, below[ends[0]], above[ends[0]])


def _lies_between(circuit: Circuit, nodes: Nodes, ends: tuple[Terminal, ...], kind: type[Diode | Capacitor]) -> bool:
    """Whether a part of this kind lies right between two of the nodes, in their order."""
    pairs = set(pairwise(ends))
    return any(
        (nodes.of(Terminal(device.code, part.a)), nodes.of(Terminal(device.code, part.b))) in pairs
        for device in circuit.devices.values()
        for part in device.inside
        if isinstance(part, kind)
    )


def _network(
    circuit: Circuit, at: Positions, nodes: Nodes, which: Literal["low", "high"], *, windings: bool = True
) -> Edges:
    """Every resistance between nodes, at its least or greatest ohms, that of `windings` included or not."""
    return [
        (nodes.of(Terminal(device.code, part.a)), nodes.of(Terminal(device.code, part.b)), getattr(part, which))
        for device in circuit.devices.values()
        for part in device.inside
        if isinstance(part, Resistance)
        and part.position in ("", at.get(device.code, ""))
        and (windings or not isinstance(part, Winding))
    ]


def resistance(circuit: Circuit, positions: Positions, a: Terminal, b: Terminal) -> float:
    """The most ohms between two terminals that are sure to be there, infinite when nothing joins them: no current through
    a diode or electronics counts, nor through a winding, whose brushes may not touch, or which hangs on a plug."""
    nodes = contract(circuit, positions)
    if nodes.same(a, b):
        return 0.0
    found = _potentials(_network(circuit, positions, nodes, "high", windings=False), nodes.of(a), nodes.of(b))
    return inf if found is None else found[nodes.of(a)]


def potentials(circuit: Circuit, positions: Positions, red: Terminal, black: Terminal) -> dict[Terminal, float]:
    """Volts of every terminal over `black` that one ampere from `red` to `black` makes; empty when nothing joins them, or all does."""
    nodes = contract(circuit, positions)
    if nodes.same(red, black):
        return {}
    found = _potentials(_network(circuit, positions, nodes, "high"), nodes.of(red), nodes.of(black)) or {}
    return {terminal: found[nodes.of(terminal)] for terminal in circuit.terminals if nodes.of(terminal) in found}


def _through_electronics(
    circuit: Circuit, at: Positions, red: Terminal, black: Terminal, off: frozenset[str]
) -> bool:
    """Whether the probes see each other only, or also, through electronics whose wires are on: each probe reaches
    another of its terminals without passing it. A board at the end of a dead branch is seen by nobody."""
    for device in circuit.devices.values():
        if device.code in off or not any(isinstance(part, Electronics) for part in device.inside):
            continue
        alone = frozenset({device.code})
        ends = [
            {end for end in reached(circuit, at, probe, off=off, around=alone) if end.device == device.code}
            for probe in (red, black)
        ]
        if any(a != b for a in ends[0] for b in ends[1]):
            return True
    return False


def _through_diode(circuit: Circuit, nodes: Nodes, edges: Edges, ends: tuple[Terminal, Terminal]) -> bool:
    """Whether the meter opens a diode: without it, its anode would stand above its cathode, or it alone joins the two."""
    red, black = ends
    volts = _potentials(edges, red, black) or {}
    sides = [set(_component(edges, red)), set(_component(edges, black))]
    for device in circuit.devices.values():
        for part in device.inside:
            if not isinstance(part, Diode):
                continue
            anode, cathode = (nodes.of(Terminal(device.code, name)) for name in (part.a, part.b))
            if volts and anode in volts and cathode in volts and volts[anode] > volts[cathode]:
                return True
            if not volts and anode in sides[0] and cathode in sides[1]:
                return True
    return False


def _potentials(edges: Edges, red: Terminal, black: Terminal) -> dict[Terminal, float] | None:
    """Volts of the nodes over `black` when one ampere goes in at `red`, so that red's are its ohms (nodal analysis); None
    when nothing joins the two."""
    joined = _component(edges, red)
    if black not in joined:
        return None
    order = [node for node in joined if node != black]
    index = {node: row for row, node in enumerate(order)}
    size = len(order)
    matrix = [[0.0] * (size + 1) for _ in range(size)]
    for a, b, ohms in edges:
        if a == b or a not in joined:
            continue
        conductance = 1.0 / max(ohms, 1e-6)
        for here, there in ((a, b), (b, a)):
            if here in index:
                matrix[index[here]][index[here]] += conductance
                if there in index:
                    matrix[index[here]][index[there]] -= conductance
    matrix[index[red]][size] = 1.0
    solved = _eliminate(matrix)
    return {black: 0.0, **{node: solved[row] for node, row in index.items()}}


def _component(edges: Edges, start: Terminal) -> list[Terminal]:
    found = [start]
    for node in found:
        for a, b, _ in edges:
            for here, there in ((a, b), (b, a)):
                if here == node and there not in found:
                    found.append(there)
    return found


def _eliminate(matrix: list[list[float]]) -> list[float]:
    size = len(matrix)
    for column in range(size):
        best = max(range(column, size), key=lambda row: abs(matrix[row][column]))
        matrix[column], matrix[best] = matrix[best], matrix[column]
        for row in range(size):
            if row != column and matrix[row][column]:
                factor = matrix[row][column] / matrix[column][column]
                matrix[row] = [
                    there - factor * here for there, here in zip(matrix[row], matrix[column], strict=True)
                ]
    return [matrix[row][size] / matrix[row][row] for row in range(size)]


def span(readings: tuple[Reading, ...]) -> tuple[float, float]:
    """Lowest and highest of several readings, for a strip that shows them together."""
    return min(r.low for r in readings), max(r.high for r in readings)


__all__ = ["Reading", "ReadingKind", "expected", "potentials", "resistance", "span"]
