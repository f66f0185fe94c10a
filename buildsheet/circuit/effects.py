"""What single faults lead to: the sequence of start, stop and disconnect is gone through again with each, and what then happens
is told, with what still stops the machine.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from buildsheet.circuit.braking import across, stopped
from buildsheet.circuit.breach import FUSES, of_kind
from buildsheet.circuit.contraction import (
    contract,
    fed,
    powered,
    reached,
    without_part,
)
from buildsheet.circuit.faults import Fault, faults
from buildsheet.circuit.field import apart, runs_on
from buildsheet.circuit.interlocks import interlocks
from buildsheet.circuit.moving import fed_winding, joined_outputs, shorted_outputs
from buildsheet.circuit.netlist import (
    Barrier,
    Capacitor,
    Circuit,
    Device,
    Electronics,
    Positions,
    Resistance,
    Terminal,
    Winding,
)
from buildsheet.circuit.protective import metal_without_protection
from buildsheet.circuit.sequence import Run, driven, later, runs, settle
from buildsheet.circuit.soft_start import at_first, hard
from buildsheet.circuit.stored import SAFE_VOLTS, WITHIN, discharge_time, without_supply

Outcome = Literal[
    "starts by itself",
    "stop fails",
    "emergency stop fails",
    "overload fails",
    "guard fails",
    "thermostat fails",
    "pedal fails",
    "disconnect fails",
    "full speed",
    "reverses without waiting",
    "runs on the charger",
    "charged at once",
    "knob fails",
    "no charging",
    "frame unprotected",
    "stays charged",
    "start winding burns",
    "fan stops",
    "fuse blows",
    "no pull-in",
    "no hold",
    "no turning",
    "brake fails",
    "brake drags",
    "field lost",
    "field unwatched",
    "starts hard",
    "resistor stays in",
    "nothing yet",
]
STOPPERS: dict[Outcome, str] = {
    "stop fails": "stop",
    "emergency stop fails": "emergency-stop",
    "overload fails": "overload",
    "guard fails": "guard",
    "thermostat fails": "thermostat",
    "pedal fails": "pedal",
    "disconnect fails": "disconnect",
}
JOINS = ("welded", "stuck in", "shorted")  # what is open or off makes no short circuit
INTERLOCKED: dict[str, Outcome] = {
    "reversal": "reverses without waiting",
    "charging": "runs on the charger",
    "pre-charge": "charged at once",
}


@dataclass(frozen=True, slots=True)
class Effect:
    """What a fault leads to, and by what the machine is still stopped then."""

    fault: Fault
    outcomes: tuple[Outcome, ...]
    stopped_by: tuple[str, ...]


def effects(circuit: Circuit, *, pole_may_swap: bool = False) -> tuple[Effect, ...]:
    """What each single fault leads to, in the order of the circuit; worked out once for a circuit."""
    key = ("effects", pole_may_swap)
    if key not in circuit.kept:
        circuit.kept[key] = _effects(circuit, pole_may_swap)
    found: tuple[Effect, ...] = circuit.kept[key]
    return found


def _effects(circuit: Circuit, pole_may_swap: bool) -> tuple[Effect, ...]:
    source, poles = circuit.source
    live = poles.poles if pole_may_swap else poles.live
    starts = tuple(Terminal(source.code, name) for name in live)
    sound = runs(circuit)
    return tuple(_effect(circuit, fault, broken, sound, starts) for fault, broken in faults(circuit))


def _effect(
    circuit: Circuit, fault: Fault, broken: Circuit, sound: tuple[Run, ...], starts: tuple[Terminal, ...]
) -> Effect:
    found: list[Outcome] = []
    electronics = _power_device(circuit, fault)
    if fault.kind == "open" and electronics is not None and circuit.devices[fault.device].gives is None:
        return Effect(fault, ("no turning",), ())
    if fault.kind in JOINS and (_short_circuit(broken, sound) or _shorted_turns(circuit, fault)):
        return Effect(fault, ("fuse blows",), ())
    stopped_by: list[str] = []
    tried = [_run(broken, run) for run in sound]
    ran = [one for one in tried if not isinstance(one, str)]
    if fault.kind == "shorted" and electronics is not None:
        if not electronics.unleashes:
            return Effect(fault, ("fuse blows",), ())
        found.append("full speed")
    for end in _knob_ends(circuit, fault):
        found.append("full speed" if end.name in circuit.devices[end.device].unleashed_by else "knob fails")
    if _starts(broken, sound):
        found.append("starts by itself")
    for name, kind in STOPPERS.items():
        works = _stops(broken, ran, kind, starts)
        if works is False:
            found.append(name)
        elif works:
            stopped_by.append(kind)
    if fault.kind == "broken wire" and any(True for _ in _bare_metal(circuit, broken)):
        found.append("frame unprotected")
    if _start_stays_in(circuit, fault):
        found.append("start winding burns")
    if _not_charged(circuit, broken):
        found.append("no charging")
    if _stays_charged(circuit, broken):
        found.append("stays charged")
    found += _field(circuit, broken, sound)
    for resistor in of_kind(broken, "brake-resistor"):
        if any(across(broken, at, resistor) for at in ran):
            found.append("brake drags")
        if any(not across(broken, at, resistor) and not powered(broken, at, driven(broken)) for one in ran for at in stopped(broken, one)):
            found.append("brake fails")
    if of_kind(broken, "bridging-relay") and any(hard(broken, first) or not powered(broken, first, driven(broken)) for first in (at_first(broken, at) for at in ran)):
        found.append("starts hard")
    if len(ran) < len(sound):
        found.append(next(one for one in tried if isinstance(one, str)))
    elif not all(_turns(circuit, broken, positions) for positions in ran):
        found.append("no turning")
    elif not found:
        found += dict.fromkeys(INTERLOCKED[one.proof] for one in interlocks(broken, starts))
    if any(not _blows(broken, positions, fan) for positions in ran for fan in of_kind(broken, "fan")):
        found.append("fan stops")
    if not found:
        found.append("nothing yet")
    return Effect(fault, tuple(found), tuple(stopped_by))


def _shorted_turns(circuit: Circuit, fault: Fault) -> bool:
    """Whether a whole winding of a transformer is shorted, which its other winding feels as a short of its own."""
    device = circuit.devices.get(fault.device)
    return fault.kind == "shorted" and device is not None and len(fault.ends) == 2 and any(isinstance(part, Barrier) for part in device.inside)


def _power_device(circuit: Circuit, fault: Fault) -> Electronics | None:
    """The electronics that failed, if the fault is that of a power device."""
    if not fault.device or fault.ends:
        return None
    return next((part for part in circuit.devices[fault.device].inside if isinstance(part, Electronics) and part.converts), None)


def _field(circuit: Circuit, broken: Circuit, sound: tuple[Run, ...]) -> Iterator[Outcome]:
    """Whether the machine runs without a field that has a supply of its own; or would, were that field to open next."""
    for motor, winding in apart(circuit):
        if runs_on(broken, motor, winding, sound) is not None:
            yield "field lost"
        elif winding in broken.devices[motor.code].inside and runs_on(without_part(broken, broken.devices[motor.code], winding), motor, winding, sound) is not None:
            yield "field unwatched"


def _knob_ends(circuit: Circuit, fault: Fault) -> tuple[Terminal, ...]:
    """The ends at a drive of a broken wire from what sets its speed."""
    if fault.kind != "broken wire":
        return ()
    return tuple(end for end in fault.ends if end.name in circuit.devices[end.device].control)


def _short_circuit(broken: Circuit, sound: tuple[Run, ...]) -> bool:
    """Whether the fault joins two poles of the source, or of a drive's output, while the machine rests or runs: then a
    fuse clears it."""
    source, poles = broken.source
    ends = [Terminal(source.code, pole) for pole in poles.poles]
    for positions in (broken.rest, *(run.positions for run in sound)):
        if any(True for _ in (*joined_outputs(broken, positions), *shorted_outputs(broken, positions))):
            return True
        for index, a in enumerate(ends):
            joined = reached(broken, positions, a, ideal="ideal")
            if any(b in joined for b in ends[index + 1 :]):
                return True
    return False


def _run(broken: Circuit, run: Run) -> dict[str, str] | Outcome:
    """The machine started as it was when it was sound; or how far it comes."""
    at = settle(broken, {**broken.rest, **run.set_to})
    pulled = True
    if run.button:
        held = {**at, run.button: broken.devices[run.button].positions[1]}
        at = settle(broken, held)
        pulled = hard(broken, at) or any(fed(broken, d, held) for d in of_kind(broken, "contactor"))
        at = settle(broken, {**at, run.button: broken.devices[run.button].positions[0]})
    if hard(broken, at):
        return at
    if of_kind(broken, "bridging-relay") and powered(broken, at, driven(broken)):
        return "resistor stays in"
    main = [d.code for d in of_kind(broken, "contactor") if d.coil and at[d.code] == run.positions[d.code]]
    return "no turning" if main else "no hold" if pulled else "no pull-in"


def _turns(circuit: Circuit, broken: Circuit, positions: Positions) -> bool:
    """Whether current passes every winding of the motors that it passes in the sound circuit, where they stand so: a start
    winding carries none at speed."""
    return _driven_whole(broken, positions) and all(
        part in broken.devices[motor.code].inside and fed_winding(broken, positions, motor.code, part)
        for motor in of_kind(circuit, "motor")
        for part in motor.inside
        if isinstance(part, Winding) and not part.apart and fed_winding(circuit, positions, motor.code, part)
    )


def _driven_whole(broken: Circuit, positions: Positions) -> bool:
    """Whether all three phases of an inverter reach a motor, and its run input is closed."""
    nodes = contract(broken, positions)
    motors = [nodes.of(end) for end in broken.terminals if broken.devices[end.device].kind == "motor"]
    for drive in of_kind(broken, "drive"):
        if drive.runs_by is not None and not nodes.same(*(Terminal(drive.code, name) for name in drive.runs_by)):
            return False
        phases = [Terminal(drive.code, name) for name in drive.limits]
        if len(phases) > 2 and not all(nodes.of(phase) in motors for phase in phases):
            return False
    return True


def _start_stays_in(circuit: Circuit, fault: Fault) -> bool:
    """Whether a fault leaves a start winding on the whole line: its switch is stuck, or its capacitor shorted."""
    device = circuit.devices[fault.device] if fault.device else None
    if device is None:
        return False
    if fault.kind == "welded":
        return device.kind == "motor"
    if fault.kind != "shorted":
        return False
    own = any(isinstance(part, Capacitor) and part.passes for part in device.inside)
    return own or device.kind == "bleeder"  # which lies across it


def _blows(broken: Circuit, positions: Positions, fan: Device) -> bool:
    return bool(powered(broken, positions, (fan.code,))) and any(isinstance(part, Resistance) for part in fan.inside)


def _starts(broken: Circuit, sound: tuple[Run, ...]) -> bool:
    """Whether the motor is fed though nobody pressed start: on switching on, or when power comes back after a cut."""
    loads = driven(broken)
    for run in sound:
        if not run.button:
            continue
        switched_on = settle(broken, {**broken.rest, **run.set_to})
        back = later(broken, settle(broken, settle(broken, run.positions, off=True)))
        if powered(broken, switched_on, loads) or powered(broken, back, loads):
            return True
    return False


def _stops(broken: Circuit, ran: list[dict[str, str]], kind: str, starts: tuple[Terminal, ...]) -> bool | None:
    """Whether the devices of a kind stop the running machine; None when there are none or it does not run."""
    devices = of_kind(broken, kind)
    if not devices or not ran:
        return None
    loads = driven(broken)
    for positions in ran:
        for device in devices:
            place = next(place for place in device.positions if place != positions[device.code])
            after = settle(broken, {**positions, device.code: place})
            if device.spring and not powered(broken, after, loads):  # the hand leaves it again
                after = later(broken, settle(broken, {**after, device.code: positions[device.code]}))
            if powered(broken, after, loads) or (kind == "disconnect" and _live_beyond(broken, after, device, starts)):
                return False
    return True


def _live_beyond(broken: Circuit, positions: dict[str, str], switch: Device, starts: tuple[Terminal, ...]) -> bool:
    source, _ = broken.source
    before = {source.code, switch.code}
    if broken.wall_breaker is None:  # at a battery the fuses come first, and the charger's socket is no load
        before |= {device.code for device in of_kind(broken, *FUSES, "charger-inlet")}
    return any(t.device not in before for start in starts for t in reached(broken, positions, start))


def _not_charged(circuit: Circuit, broken: Circuit) -> bool:
    """Whether a charger's socket has lost the battery."""
    source, poles = circuit.source
    for inlet in of_kind(broken, "charger-inlet"):
        joined = [
            any(there.device == inlet.code for there in reached(broken, broken.rest, Terminal(source.code, pole), ideal="ideal"))
            for pole in poles.poles
        ]
        if not all(joined):
            return True
    return False


def _bare_metal(circuit: Circuit, broken: Circuit) -> Iterator[Terminal]:
    sound = set(metal_without_protection(circuit))
    return (metal for metal in metal_without_protection(broken) if metal not in sound)


def _stays_charged(circuit: Circuit, broken: Circuit) -> bool:
    if not any(isinstance(part, Capacitor) and part.volts > SAFE_VOLTS for d in broken.devices.values() for part in d.inside):
        return False
    del circuit
    return any(
        discharge_time(broken, positions, device.code, part) > WITHIN
        for device in broken.devices.values()
        for part in device.inside
        if isinstance(part, Capacitor)
        for positions in without_supply(broken)
    )
