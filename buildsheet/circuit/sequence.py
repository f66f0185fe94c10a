"""What follows what: coils that pull in and fall out by themselves, how a hand starts the machine, and what then stops it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import product

from buildsheet.circuit.breach import of_kind
from buildsheet.circuit.contraction import fed, has_contact, kept_in, powered
from buildsheet.circuit.netlist import Circuit, Device, Positions


@dataclass(frozen=True, slots=True)
class Run:
    """A state in which the motor is fed with no hand on a button: the positions, the button that was pressed for it (empty
    when none was), and the places of the switches that stay where they are put."""

    positions: Mapping[str, str]
    button: str
    set_to: Mapping[str, str]


def settle(circuit: Circuit, positions: Positions, *, off: bool = False) -> dict[str, str]:
    """The positions that follow by themselves: fed coils pull in, others fall out; what lingers stays as it is. `off`: the
    source is away, so that no coil is fed. Ends after as many turns as there are coils: a circuit that never comes to
    rest (a buzzer) is left where it then stands."""
    at = dict(positions)
    coils = [device for device in circuit.devices.values() if device.coil and device.positions]
    for _ in range(len(coils) + 1):
        moved = False
        for device in coils:
            pulled = at[device.code] != device.positions[0]
            held = not off and (kept_in if pulled else fed)(circuit, device, at)
            place = device.positions[1] if held else at[device.code] if device.lingers else device.positions[0]
            moved = moved or place != at[device.code]
            at[device.code] = place
        if not moved:
            break
    return at


def later(circuit: Circuit, positions: Positions) -> dict[str, str]:
    """The positions after a long time: what lingers without its coil has gone back, and what follows from that."""
    gone = {d.code: d.positions[0] for d in circuit.devices.values() if d.lingers and not fed(circuit, d, positions)}
    return settle(circuit, {**positions, **gone})


def hands(circuit: Circuit) -> tuple[tuple[Device, ...], tuple[Device, ...]]:
    """The switches that stay where they are put, and those that spring back."""
    moved = [d for d in circuit.devices.values() if d.positions and not d.coil and has_contact(d)]
    return tuple(d for d in moved if not d.spring), tuple(d for d in moved if d.spring)


def driven(circuit: Circuit) -> tuple[str, ...]:
    """What must not be fed when the machine is stopped: the drive where there is one, else the motor."""
    drives = tuple(device.code for device in of_kind(circuit, "drive"))
    return drives or tuple(device.code for device in of_kind(circuit, "motor"))


def runs(circuit: Circuit) -> tuple[Run, ...]:
    """Every way in which hands can bring the machine to run and let go."""
    if "runs" not in circuit.kept:
        circuit.kept["runs"] = tuple(_runs(circuit))
    found: tuple[Run, ...] = circuit.kept["runs"]
    return found


def _runs(circuit: Circuit) -> Iterator[Run]:
    stay, spring = hands(circuit)
    loads = driven(circuit)
    for choice in product(*(device.positions for device in stay)):
        set_to = dict(zip((device.code for device in stay), choice, strict=True))
        at = settle(circuit, {**circuit.rest, **set_to})
        if powered(circuit, at, loads):
            yield Run(at, "", set_to)
            continue
        for button in spring:
            pressed = settle(circuit, {**at, button.code: button.positions[1]})
            free = settle(circuit, {**pressed, button.code: button.positions[0]})
            if powered(circuit, free, loads):
                yield Run(free, button.code, set_to)
                break
