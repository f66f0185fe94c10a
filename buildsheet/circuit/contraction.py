"""Ideal joins contracted: which terminals are one node in given switch positions, and what current can reach.

A circuit keeps what no switch changes (`_Map`), so that thousands of positions and faults are walked fast.
"""

from collections.abc import Iterable, Iterator
from copy import copy
from dataclasses import replace
from itertools import product
from typing import Literal

from buildsheet.circuit.netlist import (
    Barrier,
    Capacitor,
    Circuit,
    Contact,
    Device,
    Diode,
    Electronics,
    Fuse,
    Inside,
    Link,
    Positions,
    Resistance,
    Terminal,
    Wire,
)

NONE: frozenset[str] = frozenset()


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
    device: Device, positions: Positions, *, blown: frozenset[str] = NONE
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


def bridges(device: Device, positions: Positions, *, barred: bool = False) -> Iterator[tuple[str, str]]:
    """Pairs of terminals between which current may flow though they are not one node: loads, heaters, electronics, and
    what power passes through; when `barred`, marked separation stops it."""
    for inside in device.inside:
        match inside:
            case Resistance(a=a, b=b, position=where) if where in ("", positions.get(device.code, "")):
                yield a, b
            case Barrier(a=a, b=b, marked=marked) if not (barred and marked):
                yield a, b
            case Capacitor(a=a, b=b, passes=True):
                yield a, b
            case Electronics(terminals=names):
                yield from ((names[0], other) for other in names[1:])


Beside = dict[str, tuple[Terminal, ...]]
How = tuple[str, bool, bool]


class _Map:
    """What lies beside each terminal: by wires, ideally inside its device, and by anything inside it."""

    def __init__(self, circuit: Circuit):
        self.circuit = circuit
        self.wired: dict[Terminal, tuple[Terminal, ...]] = {
            terminal: tuple(wire.b if wire.a == terminal else wire.a for wire in circuit.at(terminal))
            for terminal in circuit.terminals
        }
        self.walked: dict[How, dict[tuple[str, str | None, bool], Beside]] = {}

    def changed(self, circuit: Circuit, code: str) -> "_Map":
        """The map of a circuit that differs in what lies inside one device: the rest is taken over."""
        other = copy(self)
        other.circuit = circuit
        other.walked = {how: {key: beside for key, beside in rows.items() if key[0] != code} for how, rows in self.walked.items()}
        return other

    def without(self, circuit: Circuit, wire: Wire) -> "_Map":
        """The map of a circuit that lacks one wire."""
        other = copy(self)
        other.circuit = circuit
        other.wired = self.wired | {
            end: tuple(one.b if one.a == end else one.a for one in circuit.at(end)) for end in (wire.a, wire.b)
        }
        return other

    def inside(self, how: How, code: str, position: str | None, *, whole: bool) -> Beside:
        """Terminals beside each name inside a device; `whole` unless it is a fuse that has blown; `how` it is walked: `ideal`
        as in `reached`, whether `barred`, whether `back`, against the current."""
        rows = self.walked.setdefault(how, {})
        key = (code, position, whole)
        found = rows.get(key)
        if found is None:
            found = rows[key] = self._work(*key, *how)
        return found

    def _work(self, code: str, position: str | None, whole: bool, ideal: str, barred: bool, back: bool) -> Beside:
        device = self.circuit.devices[code]
        at = {} if position is None else {code: position}
        beside: dict[str, list[str]] = {}
        pairs = list(joins(device, at, blown=NONE if whole else frozenset({code})))
        if not ideal or (ideal == "weak" and device.kind == "resistor"):
            pairs += bridges(device, at, barred=barred)
        for a, b in pairs:
            beside.setdefault(a, []).append(b)
            beside.setdefault(b, []).append(a)
        if ideal != "ideal":
            for inside in device.inside:
                if isinstance(inside, Diode):
                    one, other = (inside.b, inside.a) if back else (inside.a, inside.b)
                    beside.setdefault(one, []).append(other)
                    if not self.circuit.direct:  # on alternating current each half-wave passes it from one of its sides
                        beside.setdefault(other, []).append(one)
        return {name: tuple(Terminal(code, other) for other in others) for name, others in beside.items()}


def _map_of(circuit: Circuit) -> _Map:
    kept = circuit.kept.get("map")
    if kept is None:
        kept = circuit.kept["map"] = _Map(circuit)
    found: _Map = kept
    return found


def contract(
    circuit: Circuit,
    positions: Positions,
    *,
    blown: frozenset[str] = NONE,
    off: frozenset[str] = NONE,
) -> Nodes:
    """Nodes in these positions. `blown` fuses are open; devices in `off` have their wires taken off."""
    key = ("wired", off)
    if key not in circuit.kept:
        nodes = Nodes(circuit.terminals)
        for wire in circuit.wires:
            if wire.a.device not in off and wire.b.device not in off:
                nodes.join(wire.a, wire.b)
        circuit.kept[key] = nodes
    wired: Nodes = circuit.kept[key]
    nodes = wired.copy()
    for device in circuit.devices.values():
        for a, b in joins(device, positions, blown=blown):
            nodes.join(Terminal(device.code, a), Terminal(device.code, b))
    return nodes


def reached(
    circuit: Circuit,
    positions: Positions,
    start: Terminal,
    *,
    blown: frozenset[str] = NONE,
    off: frozenset[str] = NONE,
    around: frozenset[str] = NONE,
    ideal: Literal["", "ideal", "coil", "weak"] = "",
    barred: bool = False,
    stop: frozenset[Terminal] = frozenset(),
) -> dict[Terminal, Terminal | None]:
    """Every terminal that current from `start` can reach through anything, each with the terminal before it. From a
    battery's plus it passes a diode one way only; toward its minus the other way.

    `blown` fuses are open; devices in `off` have their wires taken off; nothing passes through those in `around`;
    `ideal` passes wires, contacts and fuses only, "coil" diodes too, "weak" also resistors, through which a coil that is in
    may stay in; `barred` stops at marked separation; from the terminals of `stop`, such
    as those of another pole, it goes no further.
    The protective conductor's own net counts like any other: what reaches it is a path to it.
    """
    known = _map_of(circuit)
    back = circuit.direct and start in _toward(circuit)
    found: dict[Terminal, Terminal | None] = {start: None}
    waiting = [start]
    how = (ideal, barred, back)
    rows = known.walked.setdefault(how, {})
    for here in waiting:
        if here in stop:
            continue
        code, name = here
        if code not in off:
            for there in known.wired[here]:
                if there not in found and there.device not in off:
                    found[there] = here
                    waiting.append(there)
        if code in around:
            continue
        where = positions.get(code)
        beside = rows.get((code, where, code not in blown))
        if beside is None:
            beside = known.inside(how, code, where, whole=code not in blown)
        for there in beside.get(name, ()):
            if there not in found:
                found[there] = here
                waiting.append(there)
    return found


def _toward(circuit: Circuit) -> set[Terminal]:
    """The poles of a battery that current comes back to."""
    source, poles = circuit.source
    return {Terminal(source.code, name) for name in poles.poles if name not in poles.live}


def path_to(found: dict[Terminal, Terminal | None], end: Terminal) -> tuple[Terminal, ...]:
    """The terminals from the start to `end`, both included."""
    path = [end]
    while (before := found[path[-1]]) is not None:
        path.append(before)
    return tuple(reversed(path))


def has_contact(device: Device) -> bool:
    """Whether the device's position joins anything."""
    return any(isinstance(inside, Contact) for inside in device.inside)


def all_positions(circuit: Circuit) -> tuple[dict[str, str], ...]:
    """Every combination of switch positions that can happen: a coil's device is in only while its coil is fed, or may
    be out at any time. A device without contacts stays at rest: its position joins nothing."""
    if "positions" not in circuit.kept:
        circuit.kept["positions"] = tuple(_all_positions(circuit))
    found: tuple[dict[str, str], ...] = circuit.kept["positions"]
    return found


def _all_positions(circuit: Circuit) -> Iterator[dict[str, str]]:
    switched = [device for device in circuit.devices.values() if device.positions and has_contact(device)]
    coils = [device for device in switched if device.coil]
    for choice in product(*(device.positions for device in switched)):
        positions = circuit.rest | dict(zip((device.code for device in switched), choice, strict=True))
        if all(_held(circuit, device, positions) for device in coils):
            yield positions


def _held(circuit: Circuit, device: Device, positions: Positions) -> bool:
    return positions[device.code] == device.positions[0] or device.lingers or kept_in(circuit, device, positions)


def pulled_in(circuit: Circuit, positions: Positions) -> dict[str, str]:
    """The positions that follow by themselves: each coil that is fed pulls its device in, until none is left."""
    at = dict(positions)
    waiting = [device for device in circuit.devices.values() if device.coil and device.positions]
    while pulling := [d for d in waiting if at[d.code] == d.positions[0] and fed(circuit, d, at)]:
        at.update({device.code: device.positions[1] for device in pulling})
    return at


def fed(circuit: Circuit, device: Device, positions: Positions) -> bool:
    """Whether the device's coil lies between the poles of the source, or the current of its load passes it where it lies in a
    row with one; True for one without a coil."""
    if device.coil is None:
        return True
    coil = _coil_of(device)
    if coil is None:
        return False  # its winding is broken
    if device.in_a_row:
        return carries(circuit, positions, device.code, coil)
    return _between_poles(circuit, device, positions, "coil")


def kept_in(circuit: Circuit, device: Device, positions: Positions) -> bool:
    """Whether a device that is in stays in: its coil is fed, if only through a resistor, since a coil holds with a part of
    the voltage that it pulls in with."""
    return fed(circuit, device, positions) or (
        not device.in_a_row
        and any(other.kind == "resistor" for other in circuit.devices.values()) and _coil_of(device) is not None and _between_poles(circuit, device, positions, "weak")
    )


def _between_poles(circuit: Circuit, device: Device, positions: Positions, how: Literal["coil", "weak"]) -> bool:
    """Whether the two ends of a coil lie on two different poles of the source. Where the poles are joined it counts as fed:
    what would happen then is asked as long as the fuse stands."""
    source, poles = circuit.source
    ends = [Terminal(device.code, name) for name in device.coil or ()]
    sides = []
    for left, pole in zip(reversed(range(len(poles.poles))), poles.poles, strict=True):
        sides.append(reached(circuit, positions, Terminal(source.code, pole), ideal=how))
        if left == 1 and not any(end in side for end in ends for side in sides):
            return False  # one pole alone is left for both ends
    return any(
        ends[0] in one and ends[1] in other
        for one in sides
        for other in sides
        if one is not other
    )


def _coil_of(device: Device) -> Resistance | None:
    ends = set(device.coil or ())
    return next((part for part in device.inside if isinstance(part, Resistance) and {part.a, part.b} == ends), None)


def with_inside(circuit: Circuit, device: Device, inside: tuple[Inside, ...]) -> Circuit:
    """The circuit with other things inside one device."""
    made = replace(circuit, devices={**circuit.devices, device.code: replace(device, inside=inside)})
    if made.direct == circuit.direct:  # which way a diode passes hangs on the source
        made.kept["map"] = _map_of(circuit).changed(made, device.code)
    return made


def without_wire(circuit: Circuit, wire: Wire) -> Circuit:
    """The circuit with one wire broken."""
    made = replace(circuit, wires=tuple(one for one in circuit.wires if one is not wire))
    made.kept["map"] = _map_of(circuit).without(made, wire)
    return made


def without_part(circuit: Circuit, device: Device, part: Inside) -> Circuit:
    """The circuit with one part of a device open."""
    key = ("opened", device.code, part)
    if key not in circuit.kept:
        circuit.kept[key] = with_inside(circuit, device, tuple(one for one in device.inside if one is not part))
    found: Circuit = circuit.kept[key]
    return found


def feeders(circuit: Circuit) -> list[Device]:
    """The devices that give a fixed direct voltage, those with nothing left inside aside."""
    return [device for device in circuit.devices.values() if device.gives and any(isinstance(part, Electronics) for part in device.inside)]


def carries(circuit: Circuit, positions: Positions, code: str, part: Resistance, *, behind_only: bool = False) -> bool:
    """Whether what gives a fixed direct voltage drives a current through a part: its two terminals reach the part's ends from
    both sides, nothing joins these past the part, and it is fed itself by wires, contacts and fuses alone. `behind_only`: the
    last is not asked, so that only what opens the direct current makes a difference."""
    device = circuit.devices[code]
    pair = {part.a, part.b}
    for feeder in feeders(circuit):
        if not (behind_only or _on_two_poles(circuit, positions, feeder)):
            continue
        lifted = without_part(circuit, device, part)
        around = frozenset({feeder.code, *(other.code for other in circuit.devices.values() if other.kind == "drive")})
        outputs = [Terminal(feeder.code, name) for name in feeder.gives or ()]
        if differ(names & pair for names in flows(lifted, positions, outputs, code, around).values()):
            return Terminal(code, part.b) not in reached(circuit, positions, Terminal(code, part.a), ideal="ideal")
    return False


def _on_two_poles(circuit: Circuit, positions: Positions, device: Device) -> bool:
    """Whether two poles of the source lie on different terminals of a device."""
    source, poles = circuit.source
    nodes = (reached(circuit, positions, Terminal(source.code, pole), ideal="ideal") for pole in poles.poles)
    return differ([{name for name in device.terminals if Terminal(device.code, name) in node} for node in nodes])


def flows(
    circuit: Circuit, positions: Positions, feeds: Iterable[Terminal], code: str, around: frozenset[str]
) -> dict[Terminal, set[str]]:
    """For each of several poles, the terminals of a device that its current reaches without passing the devices in
    `around`, or the node of another pole."""
    poles = tuple(feeds)
    nodes = {pole: frozenset(reached(circuit, positions, pole, ideal="ideal", around=around)) for pole in poles}
    found = {}
    for pole in poles:
        others = frozenset[Terminal]().union(*(nodes[other] for other in poles if other != pole)) - nodes[pole]
        ends = reached(circuit, positions, pole, around=around, stop=others)
        found[pole] = {end.name for end in ends if end.device == code and end not in others}
        found[pole] |= {end.name for end in nodes[pole] if end.device == code}
    return found


def differ(ends: Iterable[set[str]]) -> bool:
    """Whether two of several poles reach different terminals, so that current flows between them."""
    sets = [names for names in ends if names]
    return any(a != b for i, one in enumerate(sets) for other in sets[i + 1 :] for a in one for b in other)


def powered(circuit: Circuit, positions: Positions, codes: Iterable[str], around: frozenset[str] = NONE) -> str | None:
    """The first of these devices that current can flow through: two poles of the source reach different terminals of
    it, without passing those in `around`. None when there is none."""
    source, poles = circuit.source
    feeds = [Terminal(source.code, pole) for pole in poles.poles]
    return next((code for code in codes if differ(flows(circuit, positions, feeds, code, around | {code}).values())), None)
