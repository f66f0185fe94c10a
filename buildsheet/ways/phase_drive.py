"""Phase-controlled drive: a half-controlled or fully controlled bridge on the line, with a three-terminal speed potentiometer."""

from typing import ClassVar, Literal

from pydantic import Field

from buildsheet.formulas.cooling import bridge_loss
from buildsheet.formulas.motor import continuous_firing_angle
from buildsheet.formulas.protection import full_bridge_average
from buildsheet.formulas.triac import full_converter_angle
from buildsheet.given.fields import Volts
from buildsheet.sizing.supply import Supplied
from buildsheet.sizing.waist import Applied, Point, Rectified
from buildsheet.waveforms import DIODE_BRIDGE, FULLY_CONTROLLED_BRIDGE, HALF_CONTROLLED_BRIDGE
from buildsheet.ways.drive import Drive
from buildsheet.worksheet import Value, Worksheet

HALF = ("half-controlled bridge", HALF_CONTROLLED_BRIDGE, continuous_firing_angle)
FULLY = ("fully controlled bridge", FULLY_CONTROLLED_BRIDGE, full_converter_angle)


class PhaseControlledDrive(Drive):
    """A DC drive that chops the line by thyristors."""

    stands_as: ClassVar[tuple[str, ...]] = ("phase control",)
    feeds_apart: ClassVar[bool] = True

    way: Literal["phase-controlled-drive"] = Field(description="Way of powering.")
    line_voltage: Volts = Field(description="Line voltage that the drive is made for.", examples=["120 V"])
    output_high: Volts = Field(description="Most average output at nominal line voltage.", examples=["90 V"])
    bridge: Literal["half-controlled", "fully controlled"] = Field(
        "half-controlled", description="Its bridge: thyristors and diodes, or four thyristors, which make the current rougher."
    )
    separation: Literal["none", "galvanic"] | None = Field(
        None,
        description="Whether its control terminals are separated from the line. Unanswered keeps the packet a draft.",
    )

    def applied(self, sheet: Worksheet, supplied: Supplied) -> Applied:
        return phase_control(sheet, supplied, self.drop, self.output_high, fully=self.bridge == "fully controlled")

    def loss(self, sheet: Worksheet, applied: Applied, current: Value, points: tuple[Point, ...]) -> Value:
        del points
        return sheet.work(
            "heat.P_drive", bridge_loss, "heat of the drive", U_d=applied.drops["U_path"], I=current
        )

    @property
    def made_for(self) -> Value:
        return self.line_voltage

    @property
    def output_most(self) -> Value:
        return self.output_high

    @property
    def live_controls(self) -> bool | None:
        """Whether its control terminals are at line potential; None when the file does not say."""
        return None if self.separation is None else self.separation == "none"

    def say(self, supplied: Supplied, applied: Applied) -> tuple[Value | str, ...]:
        return ("phase-controlled DC drive, ", supplied.voltage, " in, ", applied.ceiling, " DC out, ", self.rated)


def phase_control(sheet: Worksheet, supplied: Supplied, drop: Value, output_high: Value, *, fully: bool = False) -> Rectified:
    """A half-controlled bridge on the line, or a `fully` controlled one, with its drop and the most that its trims let it give."""
    drop = sheet.known_or_assumed(drop, "drive drop")
    label = "most average volts that a bridge on this line gives"
    sheet.work("drive.V_full", full_bridge_average, label, V=supplied.voltage, U_d=drop)
    most = sheet.take(output_high)
    shape, converter, angle = FULLY if fully else HALF
    return Rectified(shape, converter, supplied.voltage, supplied.line_frequency, drop, most, DIODE_BRIDGE, supplied.highest, by_textbook=angle)
