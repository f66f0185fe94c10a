"""What flows from the supply, for a moment and for hours, and what of its volts is lost on the way to the motor."""

from buildsheet.design.design import WireSize
from buildsheet.design.field import FieldSupply
from buildsheet.formulas import choice, conductors, protection
from buildsheet.project import Project
from buildsheet.reference import Region
from buildsheet.sizing.supply import Supplied
from buildsheet.sizing.waist import Point
from buildsheet.units import AMPERE, METRE
from buildsheet.worksheet import Value, Worksheet, unknown


def continuous_limit(region: Region, sheet: Worksheet, supplied: Supplied) -> Value | None:
    """What may flow for hours behind a wall breaker."""
    if supplied.guard is None:
        return None
    share = sheet.pick(
        "rule.k_c",
        region.tables["rules"],
        "value",
        "share of the breaker for a continuous load",
        key="continuous share",
    )
    return sheet.work(
        "line.I_limit",
        protection.continuous_limit,
        "most that may flow for hours",
        I_b=supplied.guard,
        k=share,
    )


def largest(sheet: Worksheet, id: str, label: str, values: tuple[Value, ...]) -> Value:
    if not values:
        return unknown(id, AMPERE, "no operating point", label)
    found = values[0]
    for number, value in enumerate(values[1:], 1):
        found = sheet.work(
            f"{id}{'' if number == len(values) - 1 else f'_{number}'}",
            choice.larger_of,
            label,
            a=found,
            b=value,
        )
    return found


def line_current(project: Project, sheet: Worksheet, points: tuple[Point, ...], idle: Value | None, field: FieldSupply | None) -> Value:
    """Largest line current of the operating points, and beside it those of the field, of the fan and of what the builder adds."""
    drive = largest(
        sheet, "line.I_drive", "largest line current of the operating points", tuple(point.line for point in points)
    )
    fan = project.controls.fan if project.controls else None
    beside = [("fan.I", "fan", fan.power, fan.voltage)] if fan is not None else []
    beside += [
        (f"extra{number}.I", extra.name or extra.what, extra.power, extra.voltage)
        for number, extra in enumerate(project.extras, 1)
    ]
    total = drive
    if field is not None:  # through a bridge into so much inductance the line's RMS current is the field's own
        total = sheet.work("line.I_with_f" if beside or idle is not None else "line.I", protection.sum_of_currents, "the same with the field's, cold, line high", I_1=drive, I_2=field.most)
    if idle is not None:
        total = sheet.work(
            "line.I_with" if beside else "line.I", protection.sum_of_currents, "the same with what its iron takes", I_1=total, I_2=idle
        )
    for number, (key, name, power, voltage) in enumerate(beside, 1):
        current = sheet.work(key, protection.current_of_power, f"current of the {name}", P=power, V=voltage)
        last = number == len(beside)
        total = sheet.work(
            "line.I" if last else f"line.I_{number}", protection.sum_of_currents, "line current, RMS", I_1=total, I_2=current
        )
    return total


def fault_at_fuse(project: Project, sheet: Worksheet, supplied: Supplied, cord: WireSize | None) -> Value:
    """Prospective current at the line fuse: behind the cord, or at the battery's posts."""
    if cord is None:
        return supplied.fault
    length = (
        project.runs.cord
        if project.runs
        else unknown("runs.cord", METRE, "no cord length in the file", "length of the cord")
    )
    loop = sheet.work(
        "cord.R",
        conductors.loop_resistance,
        "resistance of the cord, out and back",
        l=length,
        r=cord.resistance,
    )
    return sheet.work(
        "F1.I_fault",
        protection.fault_current_at_end,
        "fault current at the line fuse",
        V=supplied.voltage,
        I_s=supplied.fault,
        R=loop,
    )


def volts_lost(
    project: Project,
    region: Region,
    sheet: Worksheet,
    supplied: Supplied,
    cord: WireSize | None,
    wires: tuple[WireSize, ...],
    line: Value,
    points: tuple[Point, ...],
) -> tuple[Value, Value, Value]:
    """Volts lost from the supply to the motor, as a share of the supply, and the most that may be lost."""
    runs = project.runs
    first, name, what = (
        (cord, "cord", "cord") if cord is not None else (wires[0], "battery", "wires from the battery")
    )
    lengths: list[Value] = [
        getattr(runs, key) if runs else unknown(f"runs.{key}", METRE, "not in the file", words)
        for key, words in ((name, f"length of the {what}"), ("motor", "run to the motor"))
    ]
    armature = next(size for size in wires if size.role == "armature")
    current = largest(
        sheet, "motor.I_max", "largest average armature current", tuple(point.current for point in points)
    )
    on_cord = sheet.work(
        f"drop.U_{name}",
        conductors.voltage_drop,
        f"drop in the {what}",
        l=lengths[0],
        r=first.resistance,
        I=line,
    )
    on_motor = sheet.work(
        "drop.U_motor",
        conductors.voltage_drop,
        "drop to the motor",
        l=lengths[1],
        r=armature.resistance,
        I=current,
    )
    total = sheet.work(
        "drop.U", conductors.total_drop, f"drop from {supplied.word} to motor", U_1=on_cord, U_2=on_motor
    )
    share = sheet.work(
        "drop.share",
        conductors.drop_share,
        "drop as a share of the supply voltage",
        U=total,
        V=supplied.voltage,
    )
    limit = sheet.pick("drop.limit", region.tables["rules"], "value", "most drop", key="drop limit")
    return total, share, limit
