"""Alternating voltage at the waist: the line's own sine, and the three phases that an inverter makes of it."""

from collections.abc import Mapping
from dataclasses import dataclass

from buildsheet.worksheet import Value


@dataclass(frozen=True, slots=True)
class AlternatingLine:
    """The line straight on the motor: `voltage` and `frequency` are the line's, `highest` its most."""

    voltage: Value
    frequency: Value
    highest: Value
    shape: str = "the line's alternating voltage"
    fault: str = "sine"
    direct: bool = False

    @property
    def ceiling(self) -> Value:
        return self.voltage

    @property
    def full(self) -> Value:
        return self.voltage

    @property
    def drops(self) -> Mapping[str, Value]:
        return {}

    @property
    def inputs(self) -> Mapping[str, Value]:
        return {"V_s": self.voltage, "f": self.frequency}


@dataclass(frozen=True, slots=True)
class ThreePhase:
    """An inverter behind one phase: `voltage` and `highest` are the line's; `ceiling` the most that its output reaches
    between two leads; `fastest` the highest frequency that it can be set to or fail to. `efficiency` is its own, `factor` the power
    factor of its input; `bus` the steady voltage behind its bridge, and so the height of its pulses.
    """

    voltage: Value
    highest: Value
    ceiling: Value
    fastest: Value
    efficiency: Value
    factor: Value
    bus: Value
    shape: str = "three phases of an inverter"
    fault: str = "composite"
    direct: bool = False

    @property
    def full(self) -> Value:
        return self.ceiling

    @property
    def drops(self) -> Mapping[str, Value]:
        return {}

    @property
    def inputs(self) -> Mapping[str, Value]:
        return {"V_s": self.voltage, "eta": self.efficiency, "k_p": self.factor}
