"""Dividing a circuit that one sheet cannot hold: line and control first, then by wire number.

A device may stand on several sheets, on each with the terminals that are wired there; a note under its
rating names the others.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from buildsheet.circuit import Circuit, Device, Electronics, Inside, Source, Wire
from buildsheet.packet.diagram.forms import BAR

CONTROL = frozenset({"control", "signal"})


@dataclass(frozen=True)
class Part:
    """Some wires of a circuit that are to go on one sheet, and the sheet's name."""

    name: str
    wires: tuple[Wire, ...]


def halves(part: Part) -> tuple[Part, Part] | None:
    """A part in two; None if it cannot be divided."""
    control = tuple(wire for wire in part.wires if wire.role in CONTROL)
    line = tuple(wire for wire in part.wires if wire.role not in CONTROL)
    if not part.name and control and line:
        return Part("line", line), Part("control", control)
    if len(part.wires) < 2:
        return None
    middle = len(part.wires) // 2
    name = part.name or "part"
    return Part(f"{name} 1", part.wires[:middle]), Part(f"{name} 2", part.wires[middle:])


def circuit_of(circuit: Circuit, part: Part) -> Circuit:
    """The circuit of one sheet: the part's wires with what they touch."""
    used: dict[str, set[str]] = {}
    for wire in part.wires:
        for end in (wire.a, wire.b):
            used.setdefault(end.device, set()).add(end.name)
    devices = {
        code: device if device.kind == BAR else _cut(device, used[code])
        for code, device in circuit.devices.items()
        if code in used
    }
    return Circuit(devices, part.wires, circuit.fault_current, circuit.wall_breaker)


def _cut(device: Device, used: set[str]) -> Device:
    """A device with the terminals used, and whatever is joined to them inside."""
    inside: list[Inside] = []
    kept = set(used)
    for _ in device.terminals:  # until nothing more is drawn in
        for thing in device.inside:
            if not isinstance(thing, Electronics | Source) and kept & {thing.a, thing.b}:
                kept |= {thing.a, thing.b}
    for thing in device.inside:
        if isinstance(thing, Electronics):
            left = tuple(name for name in thing.terminals if name in kept)
            if left:
                inside.append(Electronics(left, thing.does))
        elif isinstance(thing, Source):
            poles = tuple(name for name in thing.poles if name in kept)
            earth = thing.earth if thing.earth in kept else ""
            inside.append(Source(poles, tuple(name for name in thing.live if name in poles), earth, thing.direct))
        elif thing.a in kept:
            inside.append(thing)
    terminals = tuple(name for name in device.terminals if name in kept)
    return replace(device, terminals=terminals, inside=tuple(inside))


def notes(circuit: Circuit, part: Part, parts: Sequence[Part]) -> dict[str, str]:
    """For each device of a part that stands on other sheets too, the words that name them."""
    found: dict[str, str] = {}
    on = {p.name: {end.device for wire in p.wires for end in (wire.a, wire.b)} for p in parts}
    for code in circuit.devices:
        others = [name for name, codes in on.items() if code in codes and name != part.name]
        if code in on[part.name] and others and circuit.devices[code].kind != BAR:
            found[code] = f"also on: {', '.join(others)}"
    return found
