"""How long a battery lasts on this machine."""

from buildsheet.design.design import Stored
from buildsheet.formulas import battery as b
from buildsheet.project import Project
from buildsheet.sizing.supply import Supplied
from buildsheet.sizing.waist import Point
from buildsheet.units import AMPERE
from buildsheet.worksheet import Value, Worksheet, unknown


def work_battery(
    project: Project, sheet: Worksheet, supplied: Supplied, points: tuple[Point, ...]
) -> Stored | None:
    """Runtime at the hardest point, run and rest counted; None without a battery."""
    battery, machine = project.battery, project.machine
    if battery is None or supplied.alternating:
        return None
    drawn = [point.drawn for point in points if point.drawn is not None and point.drawn.known]
    hardest = max(drawn, key=float, default=None)
    if hardest is None:
        hardest = unknown("battery.I", AMPERE, "no operating point", "current drawn from the battery")
    if machine is not None and machine.duty is not None:
        mean = sheet.work(
            "battery.I_mean",
            b.mean_current,
            "battery current over run and rest",
            I=hardest,
            t_on=machine.duty.on,
            t_off=machine.duty.off,
        )
    else:
        mean = hardest
    exponent, depth, usual = (
        sheet.pick(f"battery.{symbol}", "batteries", column, label, key=battery.kind or "")
        for symbol, column, label in (
            ("k", "exponent", "exponent of this kind of battery"),
            ("p", "depth", "share of the charge to use"),
            ("H", "rated", "time over which its capacity is rated"),
        )
    )
    over: Value = battery.rated_over if battery.rated_over.known else usual
    lasts = sheet.work(
        "battery.t", b.runtime, "time that would empty it", C=battery.capacity, H=over, I=mean, k=exponent
    )
    planned = sheet.work(
        "battery.t_p", b.planned_time, "runtime to plan with, rests included", t=lasts, p=depth
    )
    loaded = sheet.work(
        "battery.V_l",
        b.voltage_under_load,
        "battery voltage under the hardest load",
        V=supplied.voltage,
        I=hardest,
        R_i=battery.resistance if battery.resistance.known else sheet.assume("battery.R_sag", "battery sag"),
    )
    return Stored(mean, lasts, planned, loaded)
