"""A way of powering that the package does not know, in one module: a bench supply with a knob, which gives smooth current.

Nobody sells it; its figures are invented. It shows what a way has to say for itself, and `test_made_up_way` that this
is enough.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import pi
from typing import ClassVar, Literal

from pydantic import Field

from buildsheet.formulas.battery import voltage_behind
from buildsheet.formulas.conductors import total_drop
from buildsheet.formulas.controls import share_of_voltage
from buildsheet.formulas.cooling import bridge_loss
from buildsheet.formulas.motor import back_emf
from buildsheet.given.fields import PowerFactors, Shares, Volts
from buildsheet.sizing.supply import Supplied
from buildsheet.sizing.waist import GAPS, LOOSE, Applied, Point, Setting, Wave
from buildsheet.units import SHARE
from buildsheet.waveforms import NotSolved, Samples
from buildsheet.ways.drive import Drive
from buildsheet.worksheet import Value, Worksheet


@dataclass(frozen=True, slots=True)
class SmoothWave:
    """A current without ripple: its average, RMS and peak values are one. `open_voltage` is before the supply's drop."""

    open_voltage: float
    terminal: float
    average_current: float
    line_current: float
    continuous: bool = True

    @property
    def line_average(self) -> float:
        return 0.0  # alternating current has none

    @property
    def rms_current(self) -> float:
        return self.average_current

    @property
    def peak_current(self) -> float:
        return self.average_current

    @property
    def form_factor(self) -> float:
        return 1.0

    def samples(self, n: int) -> Samples:
        """`n` points of three level lines."""
        return Samples(
            tuple(2 * pi * k / (n - 1) for k in range(n)),
            (self.open_voltage,) * n,
            (self.terminal,) * n,
            (self.average_current,) * n,
        )


@dataclass(frozen=True, slots=True)
class Smooth:
    """A steady voltage that a knob sets. `failed` is what it gives with its regulator shorted."""

    voltage: Value
    highest: Value
    full: Value
    ceiling: Value
    failed: Value
    drop: Value
    efficiency: Value
    power_factor: Value
    shape: str = "smooth direct voltage"
    period: str = "any time"
    fault: str = "smooth"
    direct: bool = False
    gaps: str = GAPS

    @property
    def setting(self) -> Setting:
        return Setting("k", SHARE, "turn of the supply's knob")

    @property
    def drops(self) -> Mapping[str, Value]:
        return {"U_path": self.drop}

    @property
    def inputs(self) -> Mapping[str, Value]:
        return {"V_s": self.voltage, "V_max": self.full, "eta": self.efficiency, "lambda": self.power_factor}

    def wave(self, R: float, L: float, E: float, current: float, drops: tuple[float, ...]) -> SmoothWave:
        del L  # a steady current feels no inductance
        volts = E + R * current + drops[0]
        if volts > float(self.full):
            raise NotSolved("the supply's knob is at its end")
        drawn = volts * current / (float(self.efficiency) * float(self.power_factor) * float(self.voltage))
        return SmoothWave(volts, volts - float(self.drop), current, drawn)

    def set_to(self, wave: Wave) -> float:
        if not isinstance(wave, SmoothWave):
            raise TypeError("not a wave of a bench supply")
        return wave.open_voltage / float(self.full)

    def textbook(self, sheet: Worksheet, id: str, label: str, terminal: Value, drops: tuple[Value, ...]) -> Value:
        volts = sheet.work(f"{id.rpartition('.')[0]}.V_d", total_drop, f"volts before the drop, {label}", U_1=terminal, U_2=drops[0])
        return sheet.work(id, share_of_voltage, f"turn of the knob, {label}", V=volts, V_max=self.full)

    def loose_emf(self, sheet: Worksheet, R: Value, L: Value, I_0: Value, U_b: Value) -> Value:
        del L
        return sheet.work("runaway.E", back_emf, LOOSE, V=self.failed, I=I_0, R=R, U_b=U_b)


class BenchSupply(Drive):
    """A supply on the line whose knob sets a smooth direct voltage."""

    printed: ClassVar[str] = "Bench supply"

    way: Literal["bench-supply"] = Field(description="Way of powering.")
    line_voltage: Volts = Field(description="Line voltage that it is made for.", examples=["120 V"])
    output_high: Volts = Field(description="Most that it gives.", examples=["95 V"])
    output_failed: Volts = Field(description="What it gives with its regulator shorted.", examples=["110 V"])
    efficiency: Shares = Field(description="Power out over power in.", examples=["80 %"])
    power_factor: PowerFactors = Field(description="Power in over volts times amperes.", examples=["0.9"])

    def applied(self, sheet: Worksheet, supplied: Supplied) -> Applied:
        drop = sheet.known_or_assumed(self.drop, "drive drop")
        ceiling = sheet.work(
            "drive.V_low", voltage_behind, "most that reaches the motor", V=self.output_high, U_d=drop
        )
        return Smooth(
            supplied.voltage,
            supplied.highest,
            sheet.take(self.output_high),
            ceiling,
            sheet.take(self.output_failed),
            drop,
            sheet.take(self.efficiency),
            sheet.take(self.power_factor),
        )

    def loss(self, sheet: Worksheet, applied: Applied, current: Value, points: tuple[Point, ...]) -> Value:
        del points
        return sheet.work(
            "heat.P_drive", bridge_loss, "heat of the supply", U_d=applied.drops["U_path"], I=current
        )

    @property
    def made_for(self) -> Value:
        return self.line_voltage

    @property
    def output_most(self) -> Value:
        return self.output_high

    @property
    def live_controls(self) -> bool | None:
        """Never: its output is separated from the line."""
        return False

    def say(self, supplied: Supplied, applied: Applied) -> tuple[Value | str, ...]:
        del applied
        return ("bench supply with a knob, ", supplied.voltage, " in, ", self.output_high, " DC out, ", self.rated)
