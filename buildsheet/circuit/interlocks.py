"""What must never happen at once: reversing while it turns, running on the charger. Told as breaches, like the proofs."""

from collections.abc import Iterator
from itertools import product

from buildsheet.circuit.breach import Breach, breach, is_metal, of_kind
from buildsheet.circuit.contraction import all_positions, contract, fed, path_to, reached
from buildsheet.circuit.netlist import Circuit, Contact, Device, Resistance, Terminal

INTERLOCKS = ("reversal", "charging", "pre-charge")


def interlocks(circuit: Circuit, starts: tuple[Terminal, ...]) -> Iterator[Breach]:
    """Breaches of the interlocks that the circuit's devices call for."""
    yield from _reversal(circuit)
    yield from _charging(circuit, starts)
    yield from _precharge(circuit, starts)


def _motor_switches(circuit: Circuit) -> list[Device]:
    return [device for device in of_kind(circuit, "contactor") if device.coil]


def _reversal(circuit: Circuit) -> Iterator[Breach]:
    """A changeover of the armature. On its way from one direction to the other it passes a place in which the contactor
    falls out, and a timer that goes on after the contactor keeps it from coming in again."""
    for switch in of_kind(circuit, "reversing-switch"):
        between = switch.positions[0]
        timers = [device for device in of_kind(circuit, "timer") if device.lingers]
        if not timers:
            yield breach(
                "reversal",
                (Terminal(switch.code, switch.terminals[0]),),
                {},
                f"nothing makes {switch.code} wait for standstill",
            )
        for contactor in _motor_switches(circuit):
            coil = Terminal(contactor.code, contactor.coil[0]) if contactor.coil else None
            if coil is None:
                continue
            for positions in _every_position(circuit):
                if positions[switch.code] == between and fed(circuit, contactor, positions):
                    yield breach(
                        "reversal",
                        (coil,),
                        positions,
                        f"{contactor.code} stays in while {switch.code} changes over",
                    )
                    break
            for positions in _every_position(circuit):
                out = positions[contactor.code] == contactor.positions[0]
                waiting = any(positions[timer.code] != timer.positions[0] for timer in timers)
                if out and waiting and fed(circuit, contactor, positions):
                    yield breach(
                        "reversal",
                        (coil,),
                        positions,
                        f"{contactor.code} can come in while the timer still waits",
                    )
                    break
            for positions in _every_position(circuit):
                pulled = positions[contactor.code] != contactor.positions[0]
                timed = [fed(circuit, timer, positions) for timer in timers]
                if pulled and fed(circuit, contactor, positions) and not all(timed):
                    yield breach(
                        "reversal", (coil,), positions, f"{contactor.code} is in without its timer being set"
                    )
                    break
                if not pulled and any(timed):
                    yield breach(
                        "reversal",
                        (coil,),
                        positions,
                        f"the timer is set before {contactor.code} is in, and may keep it out",
                    )
                    break


def _every_position(circuit: Circuit) -> Iterator[dict[str, str]]:
    """Every combination of positions of what has contacts, possible or not, with the disconnect on: a coil is asked
    whether it would be fed, not whether it was."""
    switched = [
        device
        for device in circuit.devices.values()
        if device.positions and any(isinstance(part, Contact) for part in device.inside)
    ]
    places = [
        device.positions[-1:] if device.kind == "disconnect" else device.positions for device in switched
    ]
    for choice in product(*places):
        yield circuit.rest | dict(zip((device.code for device in switched), choice, strict=True))


def _charging(circuit: Circuit, starts: tuple[Terminal, ...]) -> Iterator[Breach]:
    """With the charger plugged in no motor circuit is live, in any position of the other switches."""
    inlets = of_kind(circuit, "charger-inlet")
    for positions in all_positions(circuit) if inlets else ():
        for inlet in inlets:
            if positions[inlet.code] == inlet.positions[0]:
                continue
            for start in starts:
                found = reached(circuit, positions, start)
                for device in of_kind(circuit, "motor", "drive"):
                    hit = next(
                        (t for t in found if t.device == device.code and not is_metal(circuit, t)), None
                    )
                    if hit:
                        words = f"{hit} is live with the charger plugged in"
                        yield breach("charging", path_to(found, hit), positions, words)
                        return


def _precharge(circuit: Circuit, starts: tuple[Terminal, ...]) -> Iterator[Breach]:
    """While start is held and the contactor is still out, both supply terminals of the drive reach a pole of the source:
    else its capacitor is not filled, and the contactor closes on it empty."""
    timers = [device for device in of_kind(circuit, "timer") if not device.lingers]
    source, poles = circuit.source
    for timer in timers:
        for positions in _every_position(circuit):
            out = all(positions[c.code] == c.positions[0] for c in _motor_switches(circuit))
            if not out or positions[timer.code] != timer.positions[0] or not fed(circuit, timer, positions):
                continue
            early = next((c for c in _motor_switches(circuit) if fed(circuit, c, positions)), None)
            if early is not None:
                yield breach(
                    "pre-charge",
                    (Terminal(early.code, early.terminals[0]),),
                    positions,
                    f"{early.code} is fed before {timer.code} has counted",
                )
                return
            for drive in of_kind(circuit, "drive"):
                alone = frozenset({drive.code})
                past = alone | {d.code for d in of_kind(circuit, "resistor") if any(isinstance(part, Resistance) for part in d.inside)}
                forth = {
                    end
                    for start in starts
                    for end in reached(circuit, positions, start, around=alone)
                    if end.device == drive.code
                }
                nodes = contract(circuit, positions)
                back = {
                    Terminal(drive.code, name)
                    for name in drive.terminals
                    for pole in poles.poles
                    if Terminal(source.code, pole) not in starts
                    and nodes.same(Terminal(drive.code, name), Terminal(source.code, pole))
                }
                unlimited = {
                    end
                    for start in starts
                    for end in reached(circuit, positions, start, around=past)
                    if end.device == drive.code
                } - back
                if unlimited:
                    yield breach(
                        "pre-charge",
                        (next(iter(unlimited)),),
                        positions,
                        f"{drive.code} is charged past its resistor",
                    )
                    return
                if not (forth - back) or not back:
                    yield breach(
                        "pre-charge",
                        (Terminal(drive.code, drive.terminals[0]),),
                        positions,
                        f"{drive.code} is not charged while {timer.code} counts",
                    )
                    return
