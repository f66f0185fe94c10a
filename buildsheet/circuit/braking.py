"""A brake: a resistor that lies across the armature whenever the machine is stopped, and never while it is fed."""

from collections.abc import Iterator

from buildsheet.circuit.breach import Breach, breach, of_kind
from buildsheet.circuit.contraction import reached
from buildsheet.circuit.netlist import Circuit, Device, Positions, Resistance, Terminal, Winding
from buildsheet.circuit.sequence import runs, settle

STOPS = ("stop", "emergency-stop")


def braking(circuit: Circuit) -> Iterator[Breach]:
    """Breaches of a brake, where there is one."""
    for resistor in of_kind(circuit, "brake-resistor"):
        end = Terminal(resistor.code, resistor.terminals[0])
        for run in runs(circuit):
            if across(circuit, run.positions, resistor):
                yield breach("brake", (end,), run.positions, f"{resistor.code} lies across the motor while it is fed")
            free = next((at for at in stopped(circuit, run.positions) if not across(circuit, at, resistor)), None)
            if free is not None:
                yield breach("brake", (end,), free, f"{resistor.code} does not lie across the motor when it is stopped")


def stopped(circuit: Circuit, running: Positions) -> Iterator[dict[str, str]]:
    """What the machine comes to when a running one is stopped by hand, or by a power cut."""
    for device in of_kind(circuit, *STOPS):
        yield settle(circuit, {**running, device.code: device.positions[1]})
    yield settle(circuit, running, off=True)


def across(circuit: Circuit, positions: Positions, resistor: Device) -> bool:
    """Whether a resistor lies between the two ends of an armature, by wires and closed contacts alone."""
    part = next((part for part in resistor.inside if isinstance(part, Resistance)), None)
    if part is None:
        return False
    one, other = (set(reached(circuit, positions, Terminal(resistor.code, name), ideal="ideal")) for name in (part.a, part.b))
    for motor in of_kind(circuit, "motor"):
        winding = next((inside for inside in motor.inside if isinstance(inside, Winding)), None)
        if winding is None:
            continue
        a, b = Terminal(motor.code, winding.a), Terminal(motor.code, winding.b)
        if (a in one and b in other) or (b in one and a in other):
            return True
    return False
