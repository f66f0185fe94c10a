"""Alternating voltage at the waist: the line's own sine, what a triac leaves of it, and the three phases that an inverter makes of it."""

from collections.abc import Mapping
from dataclasses import dataclass

from buildsheet.waveforms import Alternating, SeriesMotor, Source, alternating_angle_for
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
class CutLine:
    """The line behind a triac, which takes the first part of each half-cycle away: `voltage`, `frequency` and `highest` as on the
    line itself, `drop` that of the triac. Shorted, it leaves the whole line."""

    voltage: Value
    frequency: Value
    highest: Value
    drop: Value
    shape: str = "the line behind a triac"
    period: str = "one half of the line period"
    fault: str = "pulsating"
    direct: bool = False

    @property
    def ceiling(self) -> Value:
        return self.voltage

    @property
    def full(self) -> Value:
        return self.voltage

    @property
    def drops(self) -> Mapping[str, Value]:
        return {"U_path": self.drop}

    @property
    def inputs(self) -> Mapping[str, Value]:
        return {"V_s": self.voltage, "f": self.frequency}

    def wave(self, R: float, L: float, motion: float, current: float, drop: float) -> Alternating:
        """What flows at the firing angle that gives an RMS current into a series motor whose back-EMF is `motion` times its current.
        Raises NotSolved."""
        return alternating_angle_for(Source(float(self.voltage), float(self.frequency), drop=drop), SeriesMotor(R, L, motion), current)


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
