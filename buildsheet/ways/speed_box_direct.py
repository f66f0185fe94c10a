"""A triac speed control made for brush-type tools, straight on a motor of such a tool or of a washer: a series motor on alternating
current, whose speed its firing angle sets. The box is no switch, and a motor without load runs away on what it lets through.
"""

from typing import ClassVar, Literal

from pydantic import Field

from buildsheet.formulas.cooling import bridge_loss
from buildsheet.formulas.induction import capacitor_current
from buildsheet.given.fields import Volts
from buildsheet.reference import Region
from buildsheet.sizing.alternating import CutLine
from buildsheet.sizing.supply import Supplied
from buildsheet.sizing.waist import SOLVED, Applied, Point
from buildsheet.units import RADIAN
from buildsheet.waveforms import Alternating, NotSolved
from buildsheet.ways.speed_box import BoxOutfit, SpeedBox
from buildsheet.worksheet import Model, Value, Worksheet


class SpeedBoxDirect(SpeedBox):
    """A speed box for brush-type tools with a series motor behind it."""

    stands_as: ClassVar[tuple[str, ...]] = ("brush-tool speed box",)
    fuses_motor: ClassVar[bool] = False

    way: Literal["speed-box-direct"] = Field(description="Way of powering.")  # type: ignore[assignment]
    drop: Volts = Field(description="Drop of its triac, if measured.", examples=["1.2 V"])

    def applied(self, sheet: Worksheet, supplied: Supplied) -> Applied:
        drop = sheet.known_or_assumed(self.drop, "triac drop")
        return CutLine(sheet.take(supplied.voltage), sheet.take(supplied.line_frequency), supplied.highest, drop)

    def loss(self, sheet: Worksheet, applied: Applied, current: Value, points: tuple[Point, ...]) -> Value:
        del points
        return sheet.work("heat.P_drive", bridge_loss, "heat of the triac, the RMS current in the place of the average", U_d=applied.drops["U_path"], I=current)

    def fit_out(
        self, sheet: Worksheet, region: Region, supplied: Supplied, applied: Applied, points: tuple[Point, ...], share: Value
    ) -> BoxOutfit:
        del region, share
        farads = sheet.known_or_assumed(self.snubber, "snubber of a speed box")
        leak = sheet.work("T2.I_off", capacitor_current, "current that its snubber passes when it is off", f=supplied.line_frequency, C=farads, V=supplied.highest)
        largest = max((point.current for point in points if point.current.known), key=float, default=self.rated)
        return BoxOutfit(self, supplied, leak, _begins(sheet, applied, points), largest)


def _begins(sheet: Worksheet, applied: Applied, points: tuple[Point, ...]) -> Value:
    """The firing angle at which the standing motor begins to turn: the one that drives the current of its own losses."""
    label = "firing angle at which it begins to turn"
    free = sheet.values.get("motor.free_run.current", sheet.values.get("motor.I_0"))
    wave = points[0].wave if points else None
    if free is None or not free.known or not isinstance(applied, CutLine) or not isinstance(wave, Alternating) or points[0].inductance is None:
        return sheet.unsolved("begin.alpha", RADIAN, "no operating point", label)
    try:
        found = applied.wave(wave.motor.R, wave.motor.L, 0.0, float(free), wave.source.drop)
    except NotSolved as refusal:
        return sheet.unsolved("begin.alpha", RADIAN, str(refusal), label)
    model = Model(applied.shape, {**applied.inputs, "I_0": free, "L": points[0].inductance}, "the angle at which the current that its own losses take flows at standstill", SOLVED)
    return sheet.solved("begin.alpha", found.alpha, RADIAN, model, label)
