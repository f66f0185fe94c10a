"""The speed potentiometer: its heat, how far the drive's trims go, and resistors for a drive without trims."""

from dataclasses import dataclass

from buildsheet.formulas import controls
from buildsheet.sizing.waist import Applied, Point
from buildsheet.units import VOLT
from buildsheet.worksheet import Value, Worksheet, unknown


@dataclass(frozen=True, slots=True)
class Pot:
    """Heat in the potentiometer and the rating to buy."""

    heat: Value
    rated: Value


@dataclass(frozen=True, slots=True)
class Knob(Pot):
    """A potentiometer with the trims as shares of the full output, and end resistors."""

    min_trim: Value
    max_trim: Value
    slow_end_resistor: Value
    fast_end_resistor: Value


def work_pot(sheet: Worksheet, reference: Value, potentiometer: Value) -> Pot:
    """Heat in the potentiometer, and the rating to buy."""
    return Pot(_heat(sheet, reference, potentiometer), _rating(sheet))


def _heat(sheet: Worksheet, reference: Value, potentiometer: Value) -> Value:
    return sheet.work("S4.P", controls.divider_power, "heat in the speed potentiometer", V=reference, R=potentiometer)


def _rating(sheet: Worksheet) -> Value:
    return sheet.pick("S4.P_n", "bench_limits", "value", "usual rating of a sturdy potentiometer", key="potentiometer power")


def work_knob(
    sheet: Worksheet, reference: Value, potentiometer: Value, applied: Applied, points: tuple[Point, ...]
) -> Knob:
    """Heat in the potentiometer, and how far the drive's minimum and maximum trims go, as shares of its full output."""
    heat = _heat(sheet, reference, potentiometer)
    nothing = unknown("trim.V", VOLT, "no operating point")
    volts = {point.tag: point.terminal for point in points}
    low = sheet.work(
        "trim.min",
        controls.share_of_voltage,
        "minimum trim",
        V=volts.get("low", nothing),
        V_max=applied.full,
    )
    high = sheet.work(
        "trim.max",
        controls.share_of_voltage,
        "maximum trim",
        V=volts.get("high", nothing),
        V_max=applied.full,
    )
    total = sheet.work(
        "trim.R_s",
        controls.divider_total,
        "knob with end resistors, in all",
        R_p=potentiometer,
        a=low,
        b=high,
    )
    bottom = sheet.work(
        "trim.R_b",
        controls.bottom_resistor,
        "resistor at the slow end, if the drive has no trims",
        R_s=total,
        a=low,
    )
    top = sheet.work(
        "trim.R_t",
        controls.top_resistor,
        "resistor at the fast end, if the drive has no trims",
        R_s=total,
        b=high,
    )
    slow_end = sheet.pick(
        "trim.R_bE",
        "resistors_e12",
        "resistance",
        "resistor at the slow end, next smaller of E12",
        at_most=bottom,
    )
    fast_end = sheet.pick(
        "trim.R_tE",
        "resistors_e12",
        "resistance",
        "resistor at the fast end, next larger of E12",
        at_least=top,
    )
    return Knob(heat, _rating(sheet), low, high, slow_end, fast_end)
