"""Pulse-width drive on the rectified line: a bridge and a capacitor make a steady voltage, a chopper cuts it up.

The motor sees pulses as high as the line's peak, at a current that hardly ripples (form factor near one). The line sees
the short, high current pulses of a capacitor that is charged at the crests: much more than the average behind it.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar, Literal

from pydantic import Field

from buildsheet.formulas.battery import voltage_behind
from buildsheet.formulas.conductors import total_drop
from buildsheet.formulas.cooling import bridge_loss
from buildsheet.formulas.motor import back_emf, continuous_duty
from buildsheet.formulas.protection import peak_voltage
from buildsheet.formulas.smoothing import capacitor_peak
from buildsheet.formulas.supplies import source_resistance
from buildsheet.given.fields import Farads, PulseHertzes, Times, Volts
from buildsheet.sizing.supply import Supplied
from buildsheet.sizing.waist import GAPS, LOOSE, Applied, Point, Setting, Wave
from buildsheet.units import SHARE
from buildsheet.waveforms import (
    DIODE_BRIDGE,
    Capacitor,
    Chopped,
    ConstantCurrent,
    NotSolved,
    Source,
    SteadySource,
    duty_for,
    smoothed,
)
from buildsheet.ways.drive import Drive
from buildsheet.worksheet import Value, Worksheet

ROUNDS, CLOSE = 30, 1e-6  # of the search for the steady voltage that belongs to the current drawn from it


@dataclass(frozen=True, slots=True)
class RectifiedPulsed:
    """A chopper behind a bridge and a capacitor. `voltage` and `highest` are the line's; `source` its resistance;
    `rectifier` the drop of the bridge, `drop` and `freewheel` those of the chopper's switch and diode."""

    voltage: Value
    highest: Value
    line_frequency: Value
    source: Value
    capacitor: Value
    rectifier: Value
    frequency: Value
    drop: Value
    freewheel: Value
    bus: Value
    full: Value
    ceiling: Value
    loose: Value
    shape: str = "chopper behind a bridge and a capacitor"
    period: str = "one switching period"
    fault: str = "smooth"
    direct: bool = False
    gaps: str = GAPS

    @property
    def setting(self) -> Setting:
        return Setting("D", SHARE, "duty of the pulses")

    @property
    def drops(self) -> Mapping[str, Value]:
        return {"U_path": self.drop, "U_free": self.freewheel}

    @property
    def inputs(self) -> Mapping[str, Value]:
        return {"V_s": self.voltage, "f": self.line_frequency, "R_s": self.source, "C": self.capacitor, "U_r": self.rectifier, "f_c": self.frequency}

    def wave(self, R: float, L: float, E: float, current: float, drops: tuple[float, ...]) -> Wave:
        line = Source(float(self.voltage), float(self.line_frequency), float(self.source), float(self.rectifier))
        store = Capacitor(float(self.capacitor))
        volts = float(self.bus)
        for _ in range(ROUNDS):
            pulses = duty_for(SteadySource(volts, float(self.frequency), *drops), R, L, E, current)
            rectified = smoothed(DIODE_BRIDGE, line, ConstantCurrent(pulses.line_average), store)
            if abs(rectified.average_voltage - volts) <= CLOSE * volts:
                return pulses.fed_by(rectified.line_current)
            volts = rectified.average_voltage
        raise NotSolved("the steady voltage behind the bridge was not found")

    def set_to(self, wave: Wave) -> float:
        if not isinstance(wave, Chopped):
            raise TypeError("not a wave of this drive")
        return wave.duty

    def textbook(self, sheet: Worksheet, id: str, label: str, terminal: Value, drops: tuple[Value, ...]) -> Value:
        return sheet.work(
            id, continuous_duty, f"duty by the textbook, {label}", V=terminal, V_b=self.bus, U_d=drops[0], U_f=drops[1]
        )

    def loose_emf(self, sheet: Worksheet, R: Value, L: Value, I_0: Value, U_b: Value) -> Value:
        del L  # behind its capacitor the voltage hardly moves, and a steady current feels no inductance
        return sheet.work("runaway.E", back_emf, LOOSE, V=self.loose, I=I_0, R=R, U_b=U_b)


class LinePulseDrive(Drive):
    """A drive that rectifies the line and switches it on and off some thousand times a second."""

    printed: ClassVar[str] = "Pulse drive"
    does: ClassVar[Literal["controls", "chops", "inverts"]] = "chops"

    way: Literal["line-pulse-drive"] = Field(description="Way of powering.")
    line_voltage: Volts = Field(description="Line voltage that the drive is made for.", examples=["120 V"])
    output_high: Volts = Field(description="Most average output that it is set to.", examples=["130 V"])
    pulses: PulseHertzes = Field(description="Frequency of its pulses, if known.", examples=["16 kHz"])
    capacitor: Farads = Field(description="Its capacitor behind the bridge, if known.", examples=["470 µF"])
    discharged_after: Times = Field(
        description="Time after which its data say that the capacitor is below 60 V, plug out.", examples=["60 s"]
    )
    separation: Literal["none", "galvanic"] | None = Field(
        None,
        description="Whether its control terminals are separated from the line. Unanswered keeps the packet a draft.",
    )

    def applied(self, sheet: Worksheet, supplied: Supplied) -> Applied:
        rectifier = sheet.assume("drive.U_r", "drive drop", "drop of the drive's bridge")
        drop = sheet.known_or_assumed(self.drop, "switch drop")
        bus = sheet.work("drive.V_bus", capacitor_peak, "steady voltage behind the bridge, without load", V=supplied.voltage, U_d=rectifier)
        full = sheet.work("drive.V_full", voltage_behind, "volts at the motor with the switch on all the time", V=bus, U_d=drop)
        loose = sheet.work("drive.V_peak", peak_voltage, "peak of the line at the top of its tolerance", V=supplied.highest)
        return RectifiedPulsed(
            sheet.take(supplied.voltage),
            supplied.highest,
            sheet.take(supplied.line_frequency),
            sheet.work("drive.R_s", source_resistance, "resistance of the line, as its fault current shows it", V=supplied.voltage, I_s=supplied.fault),
            sheet.known_or_assumed(self.capacitor, "bus capacitor"),
            rectifier,
            sheet.known_or_assumed(self.pulses, "pulse frequency"),
            drop,
            sheet.assume("drive.U_f", "freewheel drop"),
            bus,
            full,
            sheet.take(self.output_high),
            loose,
        )

    def loss(self, sheet: Worksheet, applied: Applied, current: Value, points: tuple[Point, ...]) -> Value:
        del points
        # the current passes the bridge, and then the switch or the diode: the larger drop is on the careful side
        drops = sheet.work("heat.U_drive", total_drop, "drops in the drive", U_1=applied.inputs["U_r"], U_2=applied.drops["U_free"])
        return sheet.work("heat.P_drive", bridge_loss, "heat of the drive", U_d=drops, I=current)

    @property
    def made_for(self) -> Value:
        return self.line_voltage

    @property
    def output_most(self) -> Value:
        return self.output_high

    def pulse_height(self, applied: Applied) -> Value | None:
        return applied.bus if isinstance(applied, RectifiedPulsed) else None

    @property
    def keeps_charge(self) -> Value | None:
        return self.discharged_after

    @property
    def live_controls(self) -> bool | None:
        """Whether its control terminals are at line potential; None when the file does not say."""
        return None if self.separation is None else self.separation == "none"

    def say(self, supplied: Supplied, applied: Applied) -> tuple[Value | str, ...]:
        return ("pulse-width DC drive, ", supplied.voltage, " in, ", applied.ceiling, " DC out, ", self.rated)
