"""Which way round: the current through a motor's windings, and so which way it turns; the ends of the speed knob."""

from collections.abc import Iterator

from buildsheet.circuit.breach import Breach, breach, of_kind
from buildsheet.circuit.contraction import feeders
from buildsheet.circuit.netlist import Circuit, Device, Electronics, Positions, Terminal, Winding
from buildsheet.circuit.readings import potentials, resistance
from buildsheet.circuit.sequence import runs


def direction(circuit: Circuit) -> Iterator[Breach]:
    """A reversing switch reverses: over its places the motor turns both ways, and never stands still under current. Asked as
    it starts: a start winding whose switch has opened at speed no longer says which way."""
    starts = [run for run in runs(circuit) if all(run.positions[d.code] == d.positions[0] for d in of_kind(circuit, "motor") if d.automatic)]
    for switch in of_kind(circuit, "reversing-switch"):
        for motor in of_kind(circuit, "motor"):
            ways = {run.positions[switch.code]: turns(circuit, run.positions, motor) for run in starts}
            if ways and len({way for way in ways.values() if way}) < 2:
                words = f"{motor.code} turns the same way in every place of {switch.code}"
                yield breach("reversal", (Terminal(switch.code, switch.terminals[0]),), {switch.code: next(iter(ways))}, words)
            still = next((place for place, way in ways.items() if not way), None)
            if still is not None:
                words = f"no current passes {motor.code} though the machine is on"
                yield breach("reversal", (Terminal(motor.code, motor.terminals[0]),), {switch.code: still}, words)


def knob(circuit: Circuit) -> Iterator[Breach]:
    """At slow the wiper stands at the drive's low terminal, at fast at its high one."""
    for drive in of_kind(circuit, "drive"):
        if len(drive.control) != 3:
            continue
        low, wiper, high = (Terminal(drive.code, name) for name in drive.control)
        for pot in of_kind(circuit, "potentiometer"):
            for place, near, far in (("slow", low, high), ("fast", high, low)):
                at = {**circuit.rest, pot.code: place}
                if not resistance(circuit, at, wiper, near) < resistance(circuit, at, wiper, far):
                    words = f"with {pot.code} at {place}, {wiper} is not nearer to {near} than to {far}"
                    yield breach("knob", (wiper, near), {pot.code: place}, words)
                    break


def turns(circuit: Circuit, positions: Positions, motor: Device) -> int:
    """1 or -1 for the two ways that the motor can turn, 0 when one of its windings carries no current. Each winding that
    is reversed reverses it: an armature alone, an armature and its field, a main and a start winding. A capacitor in a row
    with a winding counts by the resistor that empties it: it shifts the current, but alike in both places of a switch."""
    feeds = {False: _feed(circuit), True: _own_feed(circuit)}
    along = {apart: potentials(circuit, positions, *feed) for apart, feed in feeds.items() if feed is not None}
    way = 1
    for winding in (part for part in motor.inside if isinstance(part, Winding)):
        volts = along.get(winding.apart, {})
        ends = [volts.get(Terminal(motor.code, name)) for name in (winding.a, winding.b)]
        if ends[0] is None or ends[1] is None or ends[0] == ends[1]:
            return 0
        way *= 1 if ends[0] > ends[1] else -1
    return way


def _own_feed(circuit: Circuit) -> tuple[Terminal, Terminal] | None:
    """The two terminals that feed a winding which lies apart."""
    for device in feeders(circuit):
        if device.gives is not None:
            return Terminal(device.code, device.gives[0]), Terminal(device.code, device.gives[1])
    return None


def _feed(circuit: Circuit) -> tuple[Terminal, Terminal] | None:
    """The two terminals between which the motor's current is driven: a drive's output, else the poles of the source, one of which
    may lie behind a triac."""
    for drive in of_kind(circuit, "drive"):
        names = list(drive.limits)
        if len(names) > 1:
            return Terminal(drive.code, names[0]), Terminal(drive.code, names[1])
    source, poles = circuit.source
    if len(poles.poles) < 2:
        return None
    first, second = (Terminal(source.code, pole) for pole in poles.poles[:2])
    for device in circuit.devices.values():
        for part in device.inside:
            if isinstance(part, Electronics) and part.converts and len(part.terminals) == 2:
                first = Terminal(device.code, part.terminals[1])
    return first, second
