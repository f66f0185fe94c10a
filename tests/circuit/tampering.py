"""How a circuit is tampered with: a wire off, a bridge on, a contact changed, and where it applies. What has no place in a
circuit gives None."""

from collections.abc import Callable
from dataclasses import replace

from buildsheet.circuit import Circuit, Contact, Device, Wire
from tests.circuit.small import adding, terminal, wire, with_device, with_wire, without

Break = Callable[[Circuit], Circuit | None]


def has(circuit: Circuit, *codes: str) -> bool:
    """Whether all these devices are in the circuit."""
    return all(code in circuit.devices for code in codes)


def of_kind(circuit: Circuit, kind: str) -> Device | None:
    """The first device of a kind."""
    return next((device for device in circuit.devices.values() if device.kind == kind), None)


def wire_on(circuit: Circuit, a: str) -> Wire | None:
    """The first wire on a terminal."""
    return next(iter(circuit.at(terminal(a))), None)


def numbered(circuit: Circuit, number: int) -> Wire | None:
    """The wire of this number."""
    return next((one for one in circuit.wires if one.number == number), None)


def added(circuit: Circuit, device: Device, *wires: Wire) -> Circuit:
    """The circuit with a device more, and its wires."""
    return adding(replace(circuit, devices={**circuit.devices, device.code: device}), *wires)


def drop(number: int) -> Break:
    """A wire off."""
    return lambda c: without(c, number) if numbered(c, number) else None


def drop_at(end: str) -> Break:
    """The first wire on a terminal off."""

    def broken(circuit: Circuit) -> Circuit | None:
        found = wire_on(circuit, end) if has(circuit, end.partition(":")[0]) else None
        return without(circuit, found.number) if found else None

    return broken


def bridge(a: str, b: str, role: str = "control") -> Break:
    """A wire more, between two terminals."""

    def broken(circuit: Circuit) -> Circuit | None:
        ends = (terminal(a), terminal(b))
        there = all(end.device in circuit.devices and end.name in circuit.devices[end.device].terminals for end in ends)
        return adding(circuit, wire(990, a, b, role)) if there else None

    return broken


def bridge_kind(kind: str, role: str = "control") -> Break:
    """A wire over the first contact of a device of this kind."""

    def broken(circuit: Circuit) -> Circuit | None:
        device = of_kind(circuit, kind)
        part = next((p for p in device.inside if isinstance(p, Contact)), None) if device else None
        return bridge(f"{device.code}:{part.a}", f"{device.code}:{part.b}", role)(circuit) if device and part else None

    return broken


def changed(code: str, **changes: object) -> Break:
    """A device that is otherwise made."""
    return lambda c: with_device(c, code, **changes) if has(c, code) else None


def contacts(code: str, change: Callable[[Contact], Contact]) -> Break:
    """A device whose contacts are otherwise made."""

    def broken(circuit: Circuit) -> Circuit | None:
        if not has(circuit, code):
            return None
        inside = tuple(change(p) if isinstance(p, Contact) else p for p in circuit.devices[code].inside)
        return with_device(circuit, code, inside=inside)

    return broken


def moving(number: int, end: str, to: str) -> Break:
    """A wire whose end (`a` or `b`) goes somewhere else."""

    def broken(circuit: Circuit) -> Circuit | None:
        return with_wire(circuit, number, **{end: terminal(to)}) if numbered(circuit, number) else None

    return broken


def earthed(of: Break) -> Break:
    """Where the source has a protective conductor."""
    return lambda c: of(c) if c.source[1].earth else None


def on_line(of: Break) -> Break:
    """Where the machine has a plug."""
    return lambda c: None if c.direct else of(c)


def on_battery(of: Break) -> Break:
    """Where the machine has a battery."""
    return lambda c: of(c) if c.direct else None


def reversing(of: Break) -> Break:
    """Where the machine runs both ways."""
    return lambda c: of(c) if has(c, "S5") else None
