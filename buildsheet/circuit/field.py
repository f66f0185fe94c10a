"""A motor's field that has a supply of its own: without it the motor has no speed of its own, so that whatever opens it must
take the contactor out, and keep it out.
"""

from collections.abc import Iterator
from typing import Literal

from buildsheet.circuit.breach import Breach, breach, of_kind
from buildsheet.circuit.contraction import feeders, powered, reached, without_part, without_wire
from buildsheet.circuit.moving import fed_winding
from buildsheet.circuit.netlist import (
    Circuit,
    Contact,
    Device,
    Electronics,
    Fuse,
    Positions,
    Resistance,
    Terminal,
    Winding,
)
from buildsheet.circuit.sequence import Run, driven, runs, settle


def field(circuit: Circuit) -> Iterator[Breach]:
    """Breaches of what feeds and watches a field: the drive is never fed while the field carries no current, with all parts
    sound or with one of those that feed it open."""
    for motor, winding in apart(circuit):
        ends = (Terminal(motor.code, winding.a), Terminal(motor.code, winding.b))
        for run in runs(circuit):
            if not fed_winding(circuit, run.positions, motor.code, winding):
                yield breach("field", ends, run.positions, f"the machine runs while the field {ends[0]} carries no current")
                return
        for words, opened in openings(circuit, _concerned(circuit)):
            at = runs_on(opened, motor, winding, runs(circuit))
            if at is not None:
                yield breach("field", ends, at, f"with {words} the machine runs and its field carries no current")
                return


def apart(circuit: Circuit) -> Iterator[tuple[Device, Winding]]:
    """The motors' windings that have a supply of their own."""
    for motor in of_kind(circuit, "motor"):
        for part in motor.inside:
            if isinstance(part, Winding) and part.apart:
                yield motor, part


def _concerned(circuit: Circuit) -> set[Terminal]:
    """The terminals that a field's current passes while the machine runs: its loop behind what feeds it, and the nodes ahead of
    that. No other part can take it away."""
    found: set[Terminal] = set()
    for feeder in feeders(circuit):
        alone = frozenset({feeder.code})
        for run in runs(circuit):
            for name in feeder.terminals:
                how: Literal["", "ideal"] = "" if name in (feeder.gives or ()) else "ideal"
                found |= set(reached(circuit, run.positions, Terminal(feeder.code, name), around=alone, ideal=how))
    return found


def openings(circuit: Circuit, among: set[Terminal]) -> Iterator[tuple[str, Circuit]]:
    """Each part and wire that a current passes, with an end among some terminals, open: in words, and the circuit that has it."""
    for device in circuit.devices.values():
        for part in device.inside:
            ends = part.terminals if isinstance(part, Electronics) else (part.a, part.b) if isinstance(part, Fuse | Resistance | Contact) else ()
            if any(Terminal(device.code, name) in among for name in ends):
                yield f"{device.code} {'–'.join(ends[:2])} open", without_part(circuit, device, part)
    for wire in circuit.wires:
        if wire.role != "protective" and (wire.a in among or wire.b in among):
            yield f"wire {wire.number} broken", without_wire(circuit, wire)


def runs_on(broken: Circuit, motor: Device, winding: Winding, sound: tuple[Run, ...]) -> Positions | None:
    """The positions in which the machine runs on, or can be started, without current in the winding; None where it can't."""
    loads = driven(broken)
    for run in sound:
        if all(_carries(broken, at, motor, winding) for at in (run.positions, {**broken.rest, **run.set_to})):
            continue  # fed at rest and at work, as in the sound machine
        on = settle(broken, run.positions)
        started = settle(broken, {**broken.rest, **run.set_to})
        if run.button:
            pressed = settle(broken, {**started, run.button: broken.devices[run.button].positions[1]})
            started = settle(broken, {**pressed, run.button: broken.devices[run.button].positions[0]})
        for at in (on, started):
            if powered(broken, at, loads) and not _carries(broken, at, motor, winding):
                return at
    return None


def _carries(broken: Circuit, at: Positions, motor: Device, winding: Winding) -> bool:
    if winding not in broken.devices[motor.code].inside:
        return False
    ends = (Terminal(motor.code, winding.a), Terminal(motor.code, winding.b))
    return ends[1] not in reached(broken, at, ends[0], ideal="ideal") and fed_winding(broken, at, motor.code, winding)
