"""The waist between ways of powering and motors: what a way puts on the terminals, what a motor makes of it."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple, Protocol, runtime_checkable

from buildsheet.citations import derivation
from buildsheet.formulas.conductors import total_drop
from buildsheet.formulas.formula import Formula
from buildsheet.formulas.motor import back_emf, continuous_duty, continuous_firing_angle
from buildsheet.units import RADIAN, SHARE, VOLT, Unit
from buildsheet.waveforms import (
    Chopped,
    Converter,
    NotSolved,
    Samples,
    Source,
    Steady,
    SteadySource,
    back_emf_for,
    duty_for,
    firing_angle_for,
)
from buildsheet.worksheet import Model, Value, Worksheet

SOLVED = derivation("exact periodic solution of L·di/dt = v − R·i − E between switchings; no time steps")
LOOSE = "back-EMF at runaway: device shorted, highest supply, no load"
# why a pulsed current that stops differs from the hand formula, by what sets it
GAPS = "that holds for a current without gaps; here it stops in each pulse, and the motor's own voltage stands on the terminals meanwhile, so the pulse is shorter"


class Wave(Protocol):
    """What is read of a solved waveform. Currents in A: `line_*` of the supply; `continuous` when it never stops."""

    @property
    def rms_current(self) -> float: ...
    @property
    def peak_current(self) -> float: ...
    @property
    def form_factor(self) -> float: ...
    @property
    def line_current(self) -> float: ...
    @property
    def line_average(self) -> float: ...
    @property
    def continuous(self) -> bool: ...

    def samples(self, n: int) -> Samples:
        """`n` points over one period, for a chart."""
        ...


class Setting(NamedTuple):
    """What the control of a way sets: its symbol, kind and name, such as the firing angle."""

    symbol: str
    unit: Unit
    name: str


class Applied(Protocol):
    """What a way puts on the motor's terminals, as everything behind it reads it.

    `shape` in words; `voltage` is that of the supply, `highest` its most; `ceiling` the most that reaches the motor at the
    worst supply (an average on direct voltage, RMS on alternating), `full` what the control gives at its fast end;
    `drops` are the constant drops of the paths of the current, the one from the supply first, none on a sine; `inputs` what
    else it rests on, by printed symbol; `fault` the shape of a fault current behind it, a column of the table of
    residual-current devices; `direct` whether its supply is direct current, whose average is what a battery gives.
    """

    @property
    def shape(self) -> str: ...
    @property
    def voltage(self) -> Value: ...
    @property
    def highest(self) -> Value: ...
    @property
    def ceiling(self) -> Value: ...
    @property
    def full(self) -> Value: ...
    @property
    def drops(self) -> Mapping[str, Value]: ...
    @property
    def inputs(self) -> Mapping[str, Value]: ...
    @property
    def fault(self) -> str: ...
    @property
    def direct(self) -> bool: ...


@runtime_checkable
class Steered(Applied, Protocol):
    """Pulses or a smooth voltage of one direction, whose average a control sets: what a motor with brushes runs on."""

    @property
    def setting(self) -> Setting: ...
    @property
    def period(self) -> str: ...
    @property
    def gaps(self) -> str:
        """Why the hand formula differs when the current stops in each pulse."""
        ...

    def wave(self, R: float, L: float, E: float, current: float, drops: tuple[float, ...]) -> Wave:
        """The waveform that gives an average current against a back-EMF. Raises NotSolved."""
        ...

    def set_to(self, wave: Wave) -> float:
        """Where the control stands for this wave, in the kind of `setting`."""
        ...

    def textbook(self, sheet: Worksheet, id: str, label: str, terminal: Value, drops: tuple[Value, ...]) -> Value:
        """The setting by the hand formula for a current without gaps, for average volts at the motor and the drops of
        its paths; entered under `id`."""
        ...

    def loose_emf(self, sheet: Worksheet, R: Value, L: Value, I_0: Value, U_b: Value) -> Value:
        """Back-EMF to which a motor without load runs up when the power device is shorted; entered as runaway.E."""
        ...


@dataclass(frozen=True, slots=True)
class Rectified:
    """A rectifier, controlled or not, on alternating voltage. `unleashed` is what is left when its device is shorted.
    `fault` is the shape of a fault current behind it, a column of the table of residual-current devices."""

    shape: str
    converter: Converter
    voltage: Value
    frequency: Value
    drop: Value
    ceiling: Value
    unleashed: Converter
    highest: Value
    period: str = "one half of the line period"
    fault: str = "pulsating"
    direct: bool = False
    gaps: str = GAPS
    by_textbook: Formula[...] = continuous_firing_angle

    @property
    def setting(self) -> Setting:
        return Setting("alpha", RADIAN, "firing angle")

    @property
    def full(self) -> Value:
        return self.ceiling

    @property
    def drops(self) -> Mapping[str, Value]:
        return {"U_path": self.drop}

    @property
    def inputs(self) -> Mapping[str, Value]:
        return {"V_s": self.voltage, "f": self.frequency}

    def wave(self, R: float, L: float, E: float, current: float, drops: tuple[float, ...]) -> Wave:
        source = Source(float(self.voltage), float(self.frequency), drop=drops[0])
        return firing_angle_for(self.converter, source, R, L, E, current)

    def set_to(self, wave: Wave) -> float:
        if not isinstance(wave, Steady):
            raise TypeError("not a wave of a rectifier")
        return wave.alpha

    def textbook(self, sheet: Worksheet, id: str, label: str, terminal: Value, drops: tuple[Value, ...]) -> Value:
        volts = sheet.work(f"{id.rpartition('.')[0]}.V_d", total_drop, f"volts before the drops, {label}", U_1=terminal, U_2=drops[0])
        return sheet.work(id, self.by_textbook, f"firing angle by the textbook, {label}", V=volts, V_s=self.voltage)

    def loose_emf(self, sheet: Worksheet, R: Value, L: Value, I_0: Value, U_b: Value) -> Value:
        del U_b  # left out, on the fast side
        asked = {"V_max": self.highest, "f": self.frequency, "R": R, "L": L, "I_0": I_0}
        missing = tuple(value for value in asked.values() if not value.known)
        if missing:
            return sheet.unsolved("runaway.E", VOLT, f"needs {missing[0].label}", LOOSE, missing)
        try:
            source = Source(float(self.highest), float(self.frequency))
            wave = back_emf_for(self.unleashed, source, float(R), float(L), float(I_0))
        except NotSolved as refusal:
            return sheet.unsolved("runaway.E", VOLT, str(refusal), LOOSE)
        model = Model(
            self.unleashed.label,
            asked,
            "the back-EMF at which a bare bridge still drives the no-load current",
            SOLVED,
        )
        return sheet.solved("runaway.E", wave.load.E, VOLT, model, LOOSE)


@dataclass(frozen=True, slots=True)
class Pulsed:
    """A chopper on a steady voltage: `drop` through its switch, `freewheel` through its diode, `frequency` of switching."""

    shape: str
    voltage: Value
    frequency: Value
    drop: Value
    freewheel: Value
    full: Value
    ceiling: Value
    highest: Value
    period: str = "one switching period"
    fault: str = "smooth"
    direct: bool = True
    gaps: str = GAPS

    @property
    def setting(self) -> Setting:
        return Setting("D", SHARE, "duty of the pulses")

    @property
    def drops(self) -> Mapping[str, Value]:
        return {"U_path": self.drop, "U_free": self.freewheel}

    @property
    def inputs(self) -> Mapping[str, Value]:
        return {"V_b": self.voltage, "f_c": self.frequency}

    def wave(self, R: float, L: float, E: float, current: float, drops: tuple[float, ...]) -> Wave:
        source = SteadySource(float(self.voltage), float(self.frequency), *drops)
        return duty_for(source, R, L, E, current)

    def set_to(self, wave: Wave) -> float:
        if not isinstance(wave, Chopped):
            raise TypeError("not a wave of a chopper")
        return wave.duty

    def textbook(self, sheet: Worksheet, id: str, label: str, terminal: Value, drops: tuple[Value, ...]) -> Value:
        return sheet.work(
            id, continuous_duty, f"duty by the textbook, {label}", V=terminal, V_b=self.voltage, U_d=drops[0], U_f=drops[1]
        )

    def loose_emf(self, sheet: Worksheet, R: Value, L: Value, I_0: Value, U_b: Value) -> Value:
        del L  # a steady current feels no inductance
        return sheet.work("runaway.E", back_emf, LOOSE, V=self.highest, I=I_0, R=R, U_b=U_b)


@dataclass(frozen=True, slots=True)
class Point:
    """What a motor does at one speed and load.

    `omega` is the speed that it has there, `current` that of its winding: an average on direct voltage; `rms` and `peak`
    as heat and switches feel it; `terminal` its volts; `line` and `drawn` the supply's current, RMS and average. On pulses
    each is the worst over the inductance band, and `form_factor`, `inductance` and the solved `wave` stand beside it; on a sine
    they are None. `emf` is what it makes by itself at that speed, None for a motor whose field goes with the supply;
    `setting` where the control of the way stands, unknown without one; `more` what else is told of it, with a label each.
    """

    tag: str
    label: str
    omega: Value
    torque: Value
    current: Value
    emf: Value | None
    terminal: Value
    rms: Value
    peak: Value
    form_factor: Value | None
    line: Value
    drawn: Value | None
    setting: Value
    inductance: Value | None
    wave: Wave | None
    more: tuple[Value, ...] = ()
