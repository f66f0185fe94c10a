"""Single faults: each part fails once in each way it is known to."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from buildsheet.circuit.contraction import (
    with_inside,
    without_wire,
)
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
    Resistance,
    Terminal,
    Winding,
)


@dataclass(frozen=True, slots=True)
class Fault:
    """A part that fails: its device or the number of its wire, the terminals it concerns, and what happened in words."""

    kind: Literal["welded", "stuck in", "shorted", "open", "broken wire", "blown"]
    device: str
    ends: tuple[Terminal, ...]
    wire: int = 0

    @property
    def words(self) -> str:
        """What failed, as it is printed."""
        if self.kind == "broken wire":
            return f"wire {self.wire} broken"
        names = "–".join(end.name for end in self.ends)
        return {
            "welded": f"{self.device} {names} stuck closed",
            "stuck in": f"{self.device} stuck in",
            "shorted": f"{self.device} {names} shorted".replace("  ", " "),
            "open": f"{self.device} {names} open".replace("  ", " "),
            "blown": f"{self.device} {names} blown",
        }[self.kind]


def faults(circuit: Circuit) -> Iterator[tuple[Fault, Circuit]]:
    """Every single fault with the circuit that has it. Left out, as excluded by how the part is built: a contact that its
    button pushes open (direct opening, IEC 60947-5-1 annex K) does not stay closed."""
    for device in circuit.devices.values():
        for index, part in enumerate(device.inside):
            yield from _of_part(circuit, device, index, part)
        if device.coil and len(device.positions) > 1:
            stuck = tuple(_stuck(part, device) for part in device.inside)
            yield Fault("stuck in", device.code, ()), with_inside(circuit, device, stuck)
    for wire in circuit.wires:
        yield Fault("broken wire", "", (wire.a, wire.b), wire.number), without_wire(circuit, wire)


def _of_part(circuit: Circuit, device: Device, index: int, part: Inside) -> Iterator[tuple[Fault, Circuit]]:
    def becomes(*parts: Inside) -> Circuit:
        return with_inside(circuit, device, (*device.inside[:index], *parts, *device.inside[index + 1 :]))

    match part:
        case Contact(a=a, b=b, direct=direct):
            ends = (Terminal(device.code, a), Terminal(device.code, b))
            if not direct:
                yield Fault("welded", device.code, ends), becomes(replace(part, closed_in=frozenset(device.positions)))
            yield Fault("open", device.code, ends), becomes()
        case Fuse(a=a, b=b):
            yield Fault("blown", device.code, (Terminal(device.code, a), Terminal(device.code, b))), becomes()
        case Winding(a=a, b=b):
            ends = (Terminal(device.code, a), Terminal(device.code, b))
            rest = becomes()
            if any(isinstance(one, Barrier) for one in device.inside):  # of a transformer: no power passes any more
                rest = with_inside(circuit, device, tuple(one for one in device.inside if one is not part and not isinstance(one, Barrier)))
            yield Fault("open", device.code, ends), rest
            yield Fault("shorted", device.code, ends), becomes(Link(a, b))
        case Resistance(a=a, b=b) | Capacitor(a=a, b=b) | Diode(a=a, b=b):
            if isinstance(part, Resistance) and part.position:  # of a potentiometer or a dial: its wires stand for it
                return
            ends = (Terminal(device.code, a), Terminal(device.code, b))
            yield Fault("open", device.code, ends), becomes()
            yield Fault("shorted", device.code, ends), becomes(Link(a, b))
        case Electronics() if part.converts:
            yield Fault("shorted", device.code, ()), circuit
            yield Fault("open", device.code, ()), becomes()


def _stuck(part: Inside, device: Device) -> Inside:
    """A contact that stays as it is while its coil is fed."""
    if not isinstance(part, Contact):
        return part
    closed = device.positions[1] in part.closed_in
    return replace(part, closed_in=frozenset(device.positions) if closed else frozenset())
