"""What a pocket meter shows between two points of the unplugged machine, solved from the resistance network."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from buildsheet.circuit.contraction import contract, reached
from buildsheet.circuit.netlist import Circuit, Electronics, Positions, Resistance, Terminal

ReadingKind = Literal["near zero", "value", "open", "record"]


@dataclass(frozen=True, slots=True)
class Reading:
    """A reading between two probes in given positions. `low` and `high` in ohms; both infinite when open."""

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

    `joined` is the most ohms that leads and contacts add. "record" where electronics lie in a path, for then no figure can be foretold.
    """
    at = {**circuit.rest, **positions}
    nodes = contract(circuit, at, off=off)
    if nodes.same(red, black):
        return Reading(red, black, at, "near zero", 0.0, joined)
    edges = [
        (
            nodes.of(Terminal(device.code, part.a)),
            nodes.of(Terminal(device.code, part.b)),
            part.low,
            part.high,
        )
        for device in circuit.devices.values()
        for part in device.inside
        if isinstance(part, Resistance) and part.position in ("", at.get(device.code, ""))
    ]
    if _through_electronics(circuit, at, red, black, off):
        return Reading(red, black, at, "record", 0.0, float("inf"))
    low = _between([(a, b, least) for a, b, least, _ in edges], nodes.of(red), nodes.of(black))
    high = _between([(a, b, most) for a, b, _, most in edges], nodes.of(red), nodes.of(black))
    if low is None or high is None:
        return Reading(red, black, at, "open", float("inf"), float("inf"))
    return Reading(red, black, at, "value", low, high)


def _through_electronics(
    circuit: Circuit, at: Positions, red: Terminal, black: Terminal, off: frozenset[str]
) -> bool:
    """Whether the probes see each other only, or also, through a drive whose wires are on."""
    boards = [
        d.code
        for d in circuit.devices.values()
        if d.code not in off and any(isinstance(p, Electronics) for p in d.inside)
    ]
    if not boards:
        return False
    nodes = contract(circuit, at, off=off)
    found = {nodes.of(terminal) for terminal in reached(circuit, at, red, off=off)}
    other = {nodes.of(terminal) for terminal in reached(circuit, at, black, off=off)}
    sees = found & other
    return any(
        nodes.of(Terminal(code, name)) in sees for code in boards for name in circuit.devices[code].terminals
    )


def _between(edges: list[tuple[Terminal, Terminal, float]], red: Terminal, black: Terminal) -> float | None:
    """Resistance between two nodes of a network of resistors; None when nothing joins them (nodal analysis)."""
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
    return _eliminate(matrix)[index[red]]


def _component(edges: list[tuple[Terminal, Terminal, float]], start: Terminal) -> list[Terminal]:
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


__all__ = ["Reading", "ReadingKind", "expected", "span"]
