"""Ideal joins contracted: which terminals are one node in given switch positions."""

from collections.abc import Iterator
from functools import lru_cache
from itertools import product

from buildsheet.circuit.netlist import (
    Circuit,
    Contact,
    Device,
    Diode,
    Electronics,
    Fuse,
    Link,
    Positions,
    Resistance,
    Terminal,
)


class Nodes:
    """Sets of joined terminals (union-find)."""

    def __init__(self, terminals: tuple[Terminal, ...]):
        self._parent = {terminal: terminal for terminal in terminals}

    def copy(self) -> "Nodes":
        """The same sets, to join further."""
        other = Nodes(())
        other._parent = dict(self._parent)
        return other

    def join(self, a: Terminal, b: Terminal) -> None:
        self._parent[self.of(a)] = self.of(b)

    def of(self, terminal: Terminal) -> Terminal:
        """The terminal that stands for the node."""
        while self._parent[terminal] != terminal:
            self._parent[terminal] = self._parent[self._parent[terminal]]
            terminal = self._parent[terminal]
        return terminal

    def same(self, a: Terminal, b: Terminal) -> bool:
        return self.of(a) == self.of(b)


def joins(
    device: Device, positions: Positions, *, blown: frozenset[str] = frozenset()
) -> Iterator[tuple[str, str]]:
    """Pairs of the device's terminals that are joined ideally: links, closed contacts, fuses that are whole."""
    for inside in device.inside:
        match inside:
            case Link(a=a, b=b):
                yield a, b
            case Contact(a=a, b=b, closed_in=closed) if positions.get(device.code) in closed:
                yield a, b
            case Fuse(a=a, b=b) if device.code not in blown:
                yield a, b


def bridges(device: Device, positions: Positions) -> Iterator[tuple[str, str]]:
    """Pairs of terminals between which current may flow though they are not one node: loads, heaters, electronics."""
    for inside in device.inside:
        match inside:
            case Resistance(a=a, b=b, position=where) if where in ("", positions.get(device.code, "")):
                yield a, b
            case Electronics(terminals=names):
                yield from ((names[0], other) for other in names[1:])


@lru_cache(maxsize=64)
def _wired(circuit: Circuit, off: frozenset[str]) -> Nodes:
    """Terminals joined by wires alone, which no switch changes."""
    nodes = Nodes(circuit.terminals)
    for wire in circuit.wires:
        if wire.a.device not in off and wire.b.device not in off:
            nodes.join(wire.a, wire.b)
    return nodes


def contract(
    circuit: Circuit,
    positions: Positions,
    *,
    blown: frozenset[str] = frozenset(),
    off: frozenset[str] = frozenset(),
) -> Nodes:
    """Nodes in these positions. `blown` fuses are open; devices in `off` have their wires taken off."""
    nodes = _wired(circuit, off).copy()
    for device in circuit.devices.values():
        for a, b in joins(device, positions, blown=blown):
            nodes.join(Terminal(device.code, a), Terminal(device.code, b))
    return nodes


def reached(
    circuit: Circuit,
    positions: Positions,
    start: Terminal,
    *,
    blown: frozenset[str] = frozenset(),
    off: frozenset[str] = frozenset(),
    around: frozenset[str] = frozenset(),
) -> dict[Terminal, Terminal | None]:
    """Every terminal that current from `start` can reach through anything, each with the terminal before it. From a
    battery's plus it passes a diode one way only.

    `blown` fuses are open; devices in `off` have their wires taken off; nothing passes through those in `around`.
    The protective conductor's own net counts like any other: what reaches it is a path to it.
    """
    beside: dict[Terminal, list[Terminal]] = {terminal: [] for terminal in circuit.terminals}
    for wire in circuit.wires:
        if wire.a.device not in off and wire.b.device not in off:
            beside[wire.a].append(wire.b)
            beside[wire.b].append(wire.a)
    for device in circuit.devices.values():
        if device.code in around:
            continue
        for a, b in (*joins(device, positions, blown=blown), *bridges(device, positions)):
            beside[Terminal(device.code, a)].append(Terminal(device.code, b))
            beside[Terminal(device.code, b)].append(Terminal(device.code, a))
        for inside in device.inside:
            if isinstance(
                inside, Diode
            ):  # on alternating current each half-wave passes it from one of its sides
                beside[Terminal(device.code, inside.a)].append(Terminal(device.code, inside.b))
                if not circuit.direct:
                    beside[Terminal(device.code, inside.b)].append(Terminal(device.code, inside.a))
    found: dict[Terminal, Terminal | None] = {start: None}
    waiting = [start]
    while waiting:
        here = waiting.pop(0)
        for there in beside[here]:
            if there not in found:
                found[there] = here
                waiting.append(there)
    return found


def path_to(found: dict[Terminal, Terminal | None], end: Terminal) -> tuple[Terminal, ...]:
    """The terminals from the start to `end`, both included."""
    path = [end]
    while (before := found[path[-1]]) is not None:
        path.append(before)
    return tuple(reversed(path))


def all_positions(circuit: Circuit) -> Iterator[dict[str, str]]:
    """Every combination of switch positions that can happen: a coil's device is in only while its coil is fed, or may
    be out at any time. A device without contacts stays at rest: its position joins nothing."""
    switched = [device for device in circuit.devices.values() if device.positions and _has_contact(device)]
    for choice in product(*(device.positions for device in switched)):
        positions = circuit.rest | dict(zip((device.code for device in switched), choice, strict=True))
        if all(_held(circuit, device, positions) for device in switched if device.coil):
            yield positions


def _has_contact(device: Device) -> bool:
    return any(isinstance(inside, Contact) for inside in device.inside)


def _held(circuit: Circuit, device: Device, positions: Positions) -> bool:
    return positions[device.code] == device.positions[0] or device.lingers or fed(circuit, device, positions)


def pulled_in(circuit: Circuit, positions: Positions) -> dict[str, str]:
    """The positions that follow by themselves: each coil that is fed pulls its device in, until none is left."""
    at = dict(positions)
    waiting = [device for device in circuit.devices.values() if device.coil and device.positions]
    while pulling := [d for d in waiting if at[d.code] == d.positions[0] and fed(circuit, d, at)]:
        at.update({device.code: device.positions[1] for device in pulling})
    return at


def fed(circuit: Circuit, device: Device, positions: Positions) -> bool:
    """Whether the device's coil lies between the poles of the source; True for one without a coil."""
    if device.coil is None:
        return True
    source, poles = circuit.source
    nodes = contract(circuit, positions)
    ends = {nodes.of(Terminal(device.code, name)) for name in device.coil}
    return ends == {nodes.of(Terminal(source.code, pole)) for pole in poles.poles}
