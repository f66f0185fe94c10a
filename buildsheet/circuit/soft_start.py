"""A soft start: what begins through a resistor is bridged by a relay only after its timer has counted."""

from collections.abc import Iterator

from buildsheet.circuit.breach import Breach, breach, of_kind
from buildsheet.circuit.contraction import fed, powered
from buildsheet.circuit.netlist import Circuit, Positions, Resistance, Terminal
from buildsheet.circuit.readings import potentials
from buildsheet.circuit.sequence import driven, runs

WAITS = ("run-up-timer", "bridging-relay")


def soft_start(circuit: Circuit) -> Iterator[Breach]:
    """Breaches of a soft start, where there is one: at the first moment the motor is fed, and only through the resistor; after
    that past it."""
    for relay in of_kind(circuit, "bridging-relay"):
        end = Terminal(relay.code, relay.terminals[0])
        for run in runs(circuit):
            first = at_first(circuit, run.positions)
            if powered(circuit, first, driven(circuit)) is None:
                yield breach("soft start", (end,), first, "no current flows through the start resistor")
            elif hard(circuit, first):
                yield breach("soft start", (end,), first, "the motor is fed past the start resistor from the first moment")
            for other in of_kind(circuit, *WAITS):
                if circuit.direct and other.coil and _held_by_the_motor(circuit, run.positions, other.coil, other.code):
                    yield breach("soft start", (end,), run.positions, f"the coasting motor holds {other.code} in, so that the next start is hard")
            if not hard(circuit, run.positions):
                yield breach("soft start", (end,), run.positions, f"{relay.code} never bridges the start resistor")


def at_first(circuit: Circuit, running: Positions) -> dict[str, str]:
    """The moment in which the contactor has come in and the timer has not counted; a relay that is fed past the timer has come in
    with the contactor."""
    waiting = {**running, **{device.code: device.positions[0] for device in of_kind(circuit, *WAITS)}}
    return {**waiting, **{relay.code: relay.positions[1] for relay in of_kind(circuit, "bridging-relay") if fed(circuit, relay, waiting)}}


def _held_by_the_motor(circuit: Circuit, running: Positions, coil: tuple[str, str], code: str) -> bool:
    """Whether the volts of a motor that turns on, the contactor out, stand on a coil that has not fallen out yet."""
    out = {**running, **{device.code: device.positions[0] for device in of_kind(circuit, "contactor")}}
    for motor in of_kind(circuit, "motor"):
        volts = potentials(circuit, out, *(Terminal(motor.code, name) for name in motor.terminals[:2]))
        ends = [volts.get(Terminal(code, name)) for name in coil]
        if ends[0] is not None and ends[1] is not None and ends[0] != ends[1]:
            return True
    return False


def hard(circuit: Circuit, positions: Positions) -> bool:
    """Whether the machine is fed past every resistor, which is made for a moment's current only."""
    around = frozenset(device.code for device in of_kind(circuit, "resistor") if any(isinstance(part, Resistance) for part in device.inside))  # one that is shorted is none
    return powered(circuit, positions, driven(circuit), around) is not None
