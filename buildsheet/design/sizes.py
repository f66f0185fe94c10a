"""Sizes between plug and motor: fuses, overload, disconnect, contactor, cord and wires, drop, potentiometer trims."""

from buildsheet.design.design import Sizes, WireSize
from buildsheet.design.wire_sizes import cord_size, guarded, wire_size
from buildsheet.formulas import choice, conductors, controls, protection
from buildsheet.project import Project
from buildsheet.reference import Region
from buildsheet.sizing.waist import Applied, Point
from buildsheet.units import AMPERE, METRE, VOLT
from buildsheet.worksheet import Value, Worksheet, unknown

ROLES = ("line", "control", "armature", "signal")


def work_sizes(
    project: Project,
    region: Region,
    sheet: Worksheet,
    applied: Applied,
    points: tuple[Point, ...],
    inside: Value,
) -> Sizes:
    """Every size; `inside` is the temperature of the air in the box, which the wires lie in."""
    supply = project.supply
    if supply is None:
        raise ValueError("a supply is needed")
    rules = region.tables["rules"]
    line = _line_current(project, sheet, points)
    share = sheet.pick(
        "rule.k_c", rules, "value", "share of the breaker for a continuous load", key="continuous share"
    )
    limit = sheet.work(
        "line.I_limit",
        protection.continuous_limit,
        "most that may flow for hours",
        I_b=supply.breaker,
        k=share,
    )
    fuse_share = sheet.pick(
        "rule.k_f", rules, "value", "share of its rating that a fuse carries all day", key="fuse share"
    )
    fuse_need = sheet.work(
        "F1.I_need", protection.least_fuse_rating, "line fuse, at least", I=line, k=fuse_share
    )
    fuse = sheet.pick("F1.I_n", region.tables["fuse"], "rating", "line fuse", at_least=fuse_need)
    rms = _largest(
        sheet, "motor.I_rms_max", "largest RMS armature current", tuple(point.rms for point in points)
    )
    motor_fuse_need = sheet.work(
        "F2.I_need", protection.least_fuse_rating, "motor fuse, at least", I=rms, k=fuse_share
    )
    motor_fuse = sheet.pick("F2.I_n", region.tables["fuse"], "rating", "motor fuse", at_least=motor_fuse_need)
    overload_top = _overload_top(project, region, sheet)
    overload_range = sheet.pick(
        "F3.I_high", "overload_ranges", "high", "overload relay, top of its range", at_least=rms
    )
    disconnect_factor = sheet.pick(
        "rule.k_d", rules, "value", "disconnect over full-load current", key="disconnect factor"
    )
    disconnect_load = sheet.work(
        "Q1.I_load", protection.disconnect_rating, "disconnect, by its load", I=line, k=disconnect_factor
    )
    disconnect_need = sheet.work(
        "Q1.I_need", choice.larger_of, "disconnect, at least", a=disconnect_load, b=supply.breaker
    )
    disconnect = sheet.pick("Q1.I_n", "ampere_steps", "rating", "disconnect", at_least=disconnect_need)
    contactor = sheet.pick("Q2.I_n", "ampere_steps", "rating", "contactor", at_least=disconnect_load)
    cord = cord_size(project, region, sheet)
    behind = {
        code: guarded(region, sheet, code, rating, inside)
        for code, rating in (("F1", fuse), ("F2", motor_fuse))
    }
    wires = tuple(
        wire_size(region, sheet, role, behind["F2" if role == "armature" else "F1"]) for role in ROLES
    )
    fault = sheet.known_or_assumed(supply.fault_current, "fault current")
    fault_here = _fault(project, sheet, cord, fault)
    protective = sheet.pick(
        "PE.A",
        region.tables["protective"],
        "circular_mils",
        "protective conductor",
        where="up_to",
        at_least=supply.breaker,
    )
    drop, drop_share, drop_limit = _drop(project, region, sheet, cord, wires, line, points)
    pot, low, high, slow_end, fast_end = _potentiometer(project, sheet, applied, points)
    return Sizes(
        line, limit, fault, fault_here, fuse_need, fuse, motor_fuse_need, motor_fuse, rms, overload_top, overload_range,
        disconnect_need, disconnect, contactor, cord, wires, protective, drop, drop_share, drop_limit, pot, low, high, slow_end, fast_end,
    )  # fmt: skip


def _largest(sheet: Worksheet, id: str, label: str, values: tuple[Value, ...]) -> Value:
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


def _line_current(project: Project, sheet: Worksheet, points: tuple[Point, ...]) -> Value:
    """Largest line current of the operating points, and the fan's beside it."""
    drive = _largest(
        sheet, "line.I_drive", "largest line current of the drive", tuple(point.line for point in points)
    )
    fan = project.controls.fan if project.controls else None
    if fan is None:
        return drive
    current = sheet.work(
        "fan.I", protection.current_of_power, "current of the fan", P=fan.power, V=fan.voltage
    )
    return sheet.work("line.I", protection.sum_of_currents, "line current, RMS", I_1=drive, I_2=current)


def _overload_top(project: Project, region: Region, sheet: Worksheet) -> Value:
    plate = project.motor.plate if project.motor else None
    if plate is None:
        return unknown("F3.I_top", AMPERE, "no nameplate", "highest setting of the overload relay")
    factor = sheet.pick(
        "rule.k_o",
        region.tables["rules"],
        "value",
        "overload setting over plate current",
        key="overload factor",
    )
    rated = sheet.known_or_assumed(plate.form_factor, "rated form factor")
    heat = sheet.work(
        "motor.I_n_rms",
        protection.current_by_heat,
        "plate current as heat feels it",
        I=plate.current,
        F=rated,
    )
    return sheet.work(
        "F3.I_top", protection.overload_setting, "highest setting of the overload relay", I_n=heat, k=factor
    )


def _fault(project: Project, sheet: Worksheet, cord: WireSize, fault: Value) -> Value:
    length = (
        project.runs.cord
        if project.runs
        else unknown("runs.cord", METRE, "no cord length in the file", "length of the cord")
    )
    voltage = project.supply.voltage if project.supply else unknown("supply.voltage", VOLT, "no supply")
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
        V=voltage,
        I_s=fault,
        R=loop,
    )


def _drop(
    project: Project,
    region: Region,
    sheet: Worksheet,
    cord: WireSize,
    wires: tuple[WireSize, ...],
    line: Value,
    points: tuple[Point, ...],
) -> tuple[Value, Value, Value]:
    runs, supply = project.runs, project.supply
    length = (
        runs.cord if runs else unknown("runs.cord", METRE, "no cord length in the file", "length of the cord")
    )
    motor_run = (
        runs.motor
        if runs
        else unknown("runs.motor", METRE, "no run to the motor in the file", "run to the motor")
    )
    armature = next(size for size in wires if size.role == "armature")
    current = _largest(
        sheet, "motor.I_max", "largest average armature current", tuple(point.current for point in points)
    )
    on_cord = sheet.work(
        "drop.U_cord", conductors.voltage_drop, "drop in the cord", l=length, r=cord.resistance, I=line
    )
    on_motor = sheet.work(
        "drop.U_motor",
        conductors.voltage_drop,
        "drop to the motor",
        l=motor_run,
        r=armature.resistance,
        I=current,
    )
    total = sheet.work(
        "drop.U", conductors.total_drop, "drop from outlet to motor", U_1=on_cord, U_2=on_motor
    )
    voltage = supply.voltage if supply else unknown("supply.voltage", VOLT, "no supply")
    share = sheet.work(
        "drop.share", conductors.drop_share, "drop as a share of the line voltage", U=total, V=voltage
    )
    return (
        total,
        share,
        sheet.pick("drop.limit", region.tables["rules"], "value", "most drop", key="drop limit"),
    )


def _potentiometer(
    project: Project, sheet: Worksheet, applied: Applied, points: tuple[Point, ...]
) -> tuple[Value, Value, Value, Value, Value]:
    """Heat in the potentiometer, and how far the drive's minimum and maximum trims go, as shares of its full output."""
    power = project.power
    if power is None:
        raise ValueError("a way of powering is needed")
    heat = sheet.work(
        "S4.P",
        controls.divider_power,
        "heat in the speed potentiometer",
        V=power.reference,
        R=power.potentiometer,
    )
    low, high = (next((p for p in points if p.tag == tag), None) for tag in ("low", "high"))
    nothing = unknown("trim.V", VOLT, "no operating point")
    low_trim = sheet.work(
        "trim.min",
        controls.share_of_voltage,
        "minimum trim",
        V=low.terminal if low else nothing,
        V_max=applied.ceiling,
    )
    high_trim = sheet.work(
        "trim.max",
        controls.share_of_voltage,
        "maximum trim",
        V=high.terminal if high else nothing,
        V_max=applied.ceiling,
    )
    total = sheet.work(
        "trim.R_s",
        controls.divider_total,
        "knob with end resistors, in all",
        R_p=power.potentiometer,
        a=low_trim,
        b=high_trim,
    )
    bottom = sheet.work(
        "trim.R_b",
        controls.bottom_resistor,
        "resistor at the slow end, if the drive has no trims",
        R_s=total,
        a=low_trim,
    )
    top = sheet.work(
        "trim.R_t",
        controls.top_resistor,
        "resistor at the fast end, if the drive has no trims",
        R_s=total,
        b=high_trim,
    )
    return (
        heat,
        low_trim,
        high_trim,
        sheet.pick(
            "trim.R_bE",
            "resistors_e12",
            "resistance",
            "resistor at the slow end, next smaller of E12",
            at_most=bottom,
        ),
        sheet.pick(
            "trim.R_tE",
            "resistors_e12",
            "resistance",
            "resistor at the fast end, next larger of E12",
            at_least=top,
        ),
    )
