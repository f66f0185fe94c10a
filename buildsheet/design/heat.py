"""Heat: in the box, in the motor's winding, and at low speed on its own fan."""

from buildsheet.design.design import Heat, Load, Slow
from buildsheet.design.field import FieldSupply
from buildsheet.formulas import cooling as c
from buildsheet.formulas import motor as f
from buildsheet.formulas.choice import smaller_of
from buildsheet.formulas.protection import current_by_heat
from buildsheet.motors.brushed import BrushedMachine
from buildsheet.motors.motor import Machine
from buildsheet.project import Project
from buildsheet.sizing.waist import Applied, Point
from buildsheet.units import AMPERE, KELVIN, RADIAN_PER_SECOND, WATT
from buildsheet.worksheet import Value, Worksheet, unknown


def work_box(
    project: Project, sheet: Worksheet, applied: Applied, points: tuple[Point, ...], field: FieldSupply | None = None
) -> tuple[Value | None, Value, Value, Value, Value, Value]:
    """(drive loss, heat in the box, rise, temperature inside, limit, air that would carry it away)."""
    hardest = max((p.current for p in points if p.current.known), default=None)
    current = (
        hardest if hardest is not None else unknown("drive.I", AMPERE, "no operating point", "drive current")
    )
    noun = project.power.noun if project.power is not None else "drive"
    loss = (
        project.power.loss(sheet, applied, current, points)
        if project.power
        else unknown("heat.P_drive", WATT, "no drive", "heat of the drive")
    )
    fan = project.controls.fan if project.controls else None
    others = sheet.assume("heat.P_other", "other losses in the box")
    own = others if loss is None else sheet.work("heat.P_own", c.total_heat, f"heat of {noun}, coil, relay and fuses", P_1=loss, P_2=others)
    own = _with_choke(project, sheet, own, points)
    if field is not None:
        own = sheet.work("heat.P_with_f", c.total_heat, "the same with the field's bridge and resistor", P_1=own, P_2=field.box_heat)
    heat = (
        own if fan is None else sheet.work("heat.P", c.total_heat, "heat in the box", P_1=own, P_2=fan.power)
    )
    ambient = ambient_air(project, sheet)
    height = _height(project, sheet)
    share = sheet.work("heat.k_a", c.share_at_altitude, "share of its rating that thin air leaves", h=height)
    rise = _rise(project, sheet, heat, share)
    inside = sheet.work("heat.T_in", c.temperature_after_rise, "air inside the box", T_a=ambient, dT=rise)
    limit = (
        unknown("heat.T_max", KELVIN, "no drive")
        if project.power is None
        else sheet.assume("heat.T_max~", project.power.limits_air)
        if project.power.air_most is None
        else sheet.known_or_assumed(project.power.air_most, project.power.limits_air)
    )
    allowed = sheet.work(
        "heat.dT_max", c.allowed_rise, "rise that the parts in the box allow", T_max=limit, T_a=ambient
    )
    thin = sheet.work("heat.k_h", c.air_share, "density of the air at this height", h=height)
    flow = sheet.work(
        "heat.Q", c.air_flow, "air that would carry this heat away", P=heat, dT=allowed, k_h=thin
    )
    return loss, heat, rise, inside, limit, flow


def _with_choke(project: Project, sheet: Worksheet, heat: Value, points: tuple[Point, ...]) -> Value:
    """The box's heat with that of a choke in it."""
    choke = project.controls.choke if project.controls else None
    if choke is None:
        return heat
    hardest = max((point.rms for point in points if point.rms.known), default=None)
    current = hardest if hardest is not None else unknown("choke.I", AMPERE, "no operating point", "current of the choke")
    loss = sheet.work("heat.P_choke", f.copper_loss, "heat of the choke", I_rms=current, R=choke.resistance)
    return sheet.work("heat.P_with", c.total_heat, "the same with the choke's", P_1=heat, P_2=loss)


def ambient_air(project: Project, sheet: Worksheet) -> Value:
    """Warmest air around the machine, as written or assumed; an assumption is entered once."""
    assumed = sheet.values.get("site.ambient~")
    if assumed is not None:  # a Value has no truth of its own, so no `or` here
        return assumed
    if project.site is not None:
        return sheet.known_or_assumed(project.site.ambient, "ambient")
    return sheet.assume("site.ambient~", "ambient")


def _height(project: Project, sheet: Worksheet) -> Value:
    if project.site:
        return sheet.known_or_assumed(project.site.altitude, "altitude")
    return sheet.assume("site.altitude~", "altitude")


def _rise(project: Project, sheet: Worksheet, heat: Value, share: Value) -> Value:
    box = project.box
    if box is None:
        return sheet.unsolved("heat.dT", c.box_rise.gives, "no box in the file", "rise of the air in the box")
    formula = c.wall_box_area if box.mounting == "on a wall" else c.free_box_area
    area = sheet.work("heat.A", formula, "cooling surface of the box", w=box.width, h=box.height, d=box.depth)
    coefficient = sheet.assume("heat.k", "box coefficient")
    rise = sheet.work(
        "heat.dT_0", c.box_rise, "rise of the air in the box, in thick air", P=heat, k=coefficient, A=area
    )
    return sheet.work("heat.dT", c.rise_in_thin_air, "rise of the air in the box", dT=rise, k=share)


def work_heat(
    project: Project,
    sheet: Worksheet,
    motor: Machine,
    load: Load,
    points: tuple[Point, ...],
    box: tuple[Value | None, Value, Value, Value, Value, Value],
) -> Heat:
    """The motor's heat beside the box's: what current its plate allows at the worst form factor, what the duty asks."""
    hardest = max((p for p in points if p.rms.known), key=lambda p: float(p.rms), default=None)
    share = sheet.values["heat.k_a"]
    gives = project.power.gives if project.power else None
    drive = (
        None
        if gives is None
        else sheet.work("drive.I_h", c.current_share, f"current that the {project.power.noun if project.power is not None else 'drive'} gives at this height", I=project.power.derated(sheet, gives) if project.power is not None else gives, k=share)
    )
    if hardest is None or project.motor is None or project.motor.plate is None:
        why = "no nameplate" if hardest is not None else "no operating point"
        allowed = unknown("heat.I_allow", AMPERE, why, "current that the winding stands")
        duty = unknown("heat.I_duty", AMPERE, why, "current over run and rest")
        loss = unknown("heat.P_cu", WATT, why, "heat of the winding")
        lowest = unknown("heat.omega_low", RADIAN_PER_SECOND, why, "lowest speed at full torque")
        return Heat(*box, drive, allowed, duty, loss, lowest)
    allowed = motor.allowed(sheet, share, hardest)
    machine = project.machine
    if machine is not None and machine.duty is not None:
        duty = sheet.work(
            "heat.I_duty",
            f.duty_current,
            "current that heats as much, run all the time",
            I=hardest.current,
            t_on=machine.duty.on,
            t_off=machine.duty.off,
        )
    else:
        duty = hardest.current
    loss, lowest = motor.winding_loss(sheet, hardest), motor.lowest_speed(sheet)
    slow = None
    if isinstance(motor, BrushedMachine) and "motor.I_h" in sheet.values and not load.law.constant:
        slow = _slow(project, sheet, load, points[0], lowest, sheet.values["motor.I_h"], motor.rated_form(sheet))
    return Heat(*box, drive, allowed, duty, loss, lowest, slow)


def _slow(project: Project, sheet: Worksheet, load: Load, low: Point, fan: Value, stands: Value, rated: Value) -> Slow:
    """The motor's heat at its lowest speed. A load that is the same at all speeds needs no such sum: for that one the lowest
    speed at full torque says it."""
    heat = sheet.work("heat.I_n", current_by_heat, "current that heat lets the motor stand at full cooling", I=stands, F=rated)
    blown = sheet.work("heat.I_fan", c.current_on_slow_fan, "current that its own fan cools at the lowest speed", I=heat, omega=load.motor_low, omega_f=fan)
    allowed = sheet.work("heat.I_low", smaller_of, "current that the motor stands at its lowest speed", a=heat, b=blown)
    duty = project.machine.duty if project.machine is not None else None
    carried = low.rms
    if duty is not None:
        carried = sheet.work("heat.I_slow", f.duty_current, "current at the lowest speed that heats as much, run all the time", I=low.rms, t_on=duty.on, t_off=duty.off)
    return Slow(carried, allowed)
