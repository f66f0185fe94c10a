"""A soft start: what begins through a resistor is bridged by a relay only after its timer has counted."""

from collections.abc import Iterator

from buildsheet.circuit.breach import Breach, breach, of_kind
from buildsheet.circuit.contraction import fed, powered
from buildsheet.circuit.netlist import Circuit, Positions, Resistance, Terminal
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
            if not hard(circuit, run.positions):
                yield breach("soft start", (end,), run.positions, f"{relay.code} never bridges the start resistor")


def at_first(circuit: Circuit, running: Positions) -> dict[str, str]:
    """The moment in which the contactor has come in and the timer has not counted; a relay that is fed past the timer has come in
    with the contactor."""
    waiting = {**running, **{device.code: device.positions[0] for device in of_kind(circuit, *WAITS)}}
    return {**waiting, **{relay.code: relay.positions[1] for relay in of_kind(circuit, "bridging-relay") if fed(circuit, relay, waiting)}}


def hard(circuit: Circuit, positions: Positions) -> bool:
    """Whether the machine is fed past every resistor, which is made for a moment's current only."""
    around = frozenset(device.code for device in of_kind(circuit, "resistor") if any(isinstance(part, Resistance) for part in device.inside))  # one that is shorted is none
    return powered(circuit, positions, driven(circuit), around) is not None
