"""Sizes between supply and motor: fuses, overload, disconnect, contactor, cord and wires, drop; what a battery needs."""

from buildsheet.design.design import Precharge, Sizes, WireSize
from buildsheet.design.feed import continuous_limit, fault_at_fuse, largest, line_current, volts_lost
from buildsheet.design.field import FieldSupply
from buildsheet.design.soft_start import work_soft_start
from buildsheet.design.starting import fuse_for_start, work_bleeder
from buildsheet.design.wire_sizes import cord_size, guarded, wire_size
from buildsheet.formulas import battery as b
from buildsheet.formulas import choice, controls, protection
from buildsheet.motors.motor import Machine
from buildsheet.project import Project
from buildsheet.reference import Region, table
from buildsheet.sizing.supply import Supplied
from buildsheet.sizing.waist import Applied, Point
from buildsheet.units import AMPERE
from buildsheet.worksheet import Value, Worksheet, unknown


def work_sizes(
    project: Project,
    region: Region,
    sheet: Worksheet,
    supplied: Supplied,
    applied: Applied,
    points: tuple[Point, ...],
    inside: Value,
    motor: Machine,
    field: FieldSupply | None = None,
) -> Sizes:
    """Every size; `inside` is the temperature of the air in the box, which the wires lie in."""
    power = project.power
    if power is None:
        raise ValueError("a way of powering is needed")
    rules = region.tables["rules"]
    share = _fuse_share(region, sheet, inside)
    outfit = power.fit_out(sheet, region, supplied, applied, points, share)
    line = line_current(project, sheet, points, outfit.idle, field)
    soft = work_soft_start(project, sheet, motor, outfit.hard_start, points)
    starts = soft.fuses if soft is not None else outfit.start_needs
    running = sheet.work("F1.I_need", protection.least_fuse_rating, "line fuse, at least", I=line, k=share)
    fuse_need = _with_start(sheet, "F1", "line fuse, at least, the start counted", starts[0], fuse_for_start(region, sheet, soft.draws if soft is not None and soft.draws is not None else motor.at_start, running))
    fuse = sheet.pick("F1.I_n", region.tables["fuse"], "rating", "line fuse", at_least=fuse_need)
    rms = largest(
        sheet, "motor.I_rms_max", "largest RMS armature current", tuple(point.rms for point in points)
    )
    motor_fuse_need = motor_fuse = None
    if power.fuses_motor:
        by_work = sheet.work("F2.I_need", protection.least_fuse_rating, "motor fuse, at least", I=rms, k=share)
        motor_fuse_need = _with_start(sheet, "F2", "motor fuse, at least, the start counted", starts[1], by_work)
        motor_fuse = sheet.pick("F2.I_n", region.tables["fuse"], "rating", "motor fuse", at_least=motor_fuse_need)
    disconnect_factor = sheet.pick(
        "rule.k_d", rules, "value", "disconnect over full-load current", key="disconnect factor"
    )
    load = sheet.work(
        "Q1.I_load", protection.disconnect_rating, "disconnect, by its load", I=line, k=disconnect_factor
    )
    # What stands before it sets how much may flow for minutes: the breaker in the wall, or the battery's own fuse.
    before = fuse if supplied.guard is None else supplied.guard
    disconnect_need = sheet.work("Q1.I_need", choice.larger_of, "disconnect, at least", a=load, b=before)
    steps = region.tables["switch"]
    cord = None if supplied.guard is None else cord_size(project, region, sheet, supplied.guard)
    charger_fuse = _charger_fuse(project, region, sheet, share)
    ratings = {"F1": fuse}
    lead = "F1"  # what guards the wires to the motor: its own fuse, what lets out its current, or the line fuse
    if motor_fuse is not None:
        lead, ratings["F2"] = "F2", motor_fuse
    elif outfit.lets_out is not None:
        lead = power.first[0]
        ratings[lead] = outfit.lets_out
    ratings |= outfit.fuses
    ratings |= {"F4": charger_fuse} if charger_fuse is not None else {}
    behind = {code: guarded(region, sheet, code, rating, inside) for code, rating in ratings.items()}
    wired = power.control is not None and power.control.wired
    guards = {"line": "F1", "control": "F1", "secondary": "", "armature": lead, "signal": "F1", "charger": "F4", **outfit.guards}
    roles = [(role, code) for role, code in guards.items() if code in behind and (wired or role != "signal")]
    wires = tuple(wire_size(region, sheet, role, behind[code]) for role, code in roles)
    lost, lost_share, lost_most = volts_lost(project, region, sheet, supplied, cord, wires, line, points)
    overload_range = sheet.pick(
        "F3.I_high", "overload_ranges", "high", "overload relay, top of its range", at_least=rms
    )
    return Sizes(
        line_current=line,
        continuous_limit=continuous_limit(region, sheet, supplied),
        fault_current=supplied.fault,
        fault_at_fuse=fault_at_fuse(project, sheet, supplied, cord),
        line_fuse_breaks=_breaks(region, sheet, supplied),
        line_fuse_need=fuse_need,
        line_fuse=fuse,
        motor_fuse_need=motor_fuse_need,
        motor_fuse=motor_fuse,
        motor_fuse_volts=outfit.direct_most if outfit.direct_most is not None else _motor_fuse_volts(sheet, supplied),
        limit_rms=outfit.lets_out
        if outfit.lets_out is not None
        else motor_fuse  # which follows right behind, in a row with it
        if power.current_limit_set is None and motor_fuse is not None
        else _limit_rms(power.current_limit_set, sheet, points),
        overload_need=rms,
        overload_top=_overload_top(motor, region, sheet),
        overload_range=overload_range,
        overload_dial=_overload_dial(motor, sheet, overload_range),
        disconnect_need=disconnect_need,
        disconnect=sheet.pick("Q1.I_n", steps, "rating", "disconnect", at_least=disconnect_need),
        contactor=sheet.pick(
            "Q2.I_n", steps, "rating", "contactor", at_least=disconnect_need if supplied.guard is None else load
        ),
        cord=cord,
        wires=wires,
        protective=_protective(region, sheet, supplied, cord),
        drop=lost,
        drop_share=lost_share,
        drop_limit=lost_most,
        outfit=outfit,
        charger_fuse=charger_fuse,
        precharge=_precharge(project, sheet, supplied),
        bleeder=None if power.fuses_motor else work_bleeder(region, sheet, motor),
        field=field,
        field_fuse=_field_fuse(project, region, sheet, field, share),
        soft_start=soft,
    )


def _with_start(sheet: Worksheet, code: str, label: str, start: Value | None, running: Value) -> Value:
    """The larger of what runs and what starts asks of a fuse."""
    return running if start is None else sheet.work(f"{code}.I_needs", choice.larger_of, label, a=running, b=start)


def _fuse_share(region: Region, sheet: Worksheet, inside: Value) -> Value:
    """Share of its rating that a fuse carries all day in the air of the box."""
    cool = sheet.pick(
        "rule.k_f",
        region.tables["rules"],
        "value",
        "share of its rating that a fuse carries all day, 25 °C",
        key="fuse share",
    )
    warm = sheet.pick(
        "rule.k_fT",
        region.tables["fuse-air"],
        "factor",
        "what the warm air of the box leaves of a fuse",
        where="up_to",
        at_least=inside,
    )
    return sheet.work(
        "rule.k_fh",
        protection.share_in_warm_air,
        "share of its rating that a fuse carries in the box",
        k=cool,
        k_T=warm,
    )


def _breaks(region: Region, sheet: Worksheet, supplied: Supplied) -> Value:
    """What the line fuse to buy breaks: by its kind on the line, by the battery's highest voltage on a battery."""
    label = "breaking capacity of the line fuse to buy"
    if supplied.alternating:
        return sheet.pick(
            "F1.I_cn", region.tables["breaking"], "alternating", label, key=region.words["fuse-style"]
        )
    by_fault = sheet.pick(
        "F1.I_cnf", "battery_fuses", "breaks", "kind of fuse, by what it must break", at_least=supplied.fault
    )
    by_volts = sheet.pick(
        "F1.I_cnv",
        "battery_fuses",
        "breaks",
        "kind of fuse, by the battery's highest voltage",
        where="voltage",
        at_least=supplied.highest,
    )
    return sheet.work("F1.I_cn", choice.larger_of, label, a=by_fault, b=by_volts)


def _motor_fuse_volts(sheet: Worksheet, supplied: Supplied) -> Value:
    """The greatest voltage that can stand across the motor fuse, as direct voltage."""
    if not supplied.alternating:
        return supplied.highest
    return sheet.work(
        "line.V_peak",
        protection.peak_voltage,
        "peak of the line at the top of its tolerance",
        V=supplied.highest,
    )


def _protective(region: Region, sheet: Worksheet, supplied: Supplied, cord: WireSize | None) -> Value | None:
    """Section of the protective conductor: a region's table is searched by the breaker or by the cord's section."""
    if cord is None or supplied.guard is None:
        return None
    name = region.tables["protective"]
    bound = supplied.guard if table(name).columns["up_to"].unit is AMPERE else cord.area
    return sheet.pick("PE.A", name, "area", "protective conductor", where="up_to", at_least=bound)


def _charger_fuse(project: Project, region: Region, sheet: Worksheet, share: Value) -> Value | None:
    """The fuse of the charger's socket, by the most that this battery may be charged with."""
    if project.battery is None or not project.battery.charger_inlet:
        return None
    part = sheet.pick(
        "rule.k_ch", "bench_limits", "value", "charging current over capacity", key="charge share"
    )
    given = project.battery.charger
    current = (
        given
        if given.known
        else sheet.work(
            "F4.I", b.charge_current, "charging current, at the most", C=project.battery.capacity, p=part
        )
    )
    need = sheet.work("F4.I_need", protection.least_fuse_rating, "charger fuse, at least", I=current, k=share)
    return sheet.pick("F4.I_n", region.tables["fuse"], "rating", "charger fuse", at_least=need)


def _field_fuse(project: Project, region: Region, sheet: Worksheet, field: FieldSupply | None, share: Value) -> Value | None:
    """The fuse of a field's supply, by its current while it is cold; None where none is asked for. Its wires need none: they are
    of the line's size."""
    if field is None or project.controls is None or not project.controls.field_fuse:
        return None
    need = sheet.work("F7.I_need", protection.least_fuse_rating, "field fuse, at least", I=field.most, k=share)
    return sheet.pick("F7.I_n", region.tables["fuse"], "rating", "field fuse", at_least=need)


def _precharge(project: Project, sheet: Worksheet, supplied: Supplied) -> Precharge | None:
    """Resistor and time that fill the capacitor of a drive on a battery; None when nothing is to be filled."""
    capacitor = project.power.capacitor_in if project.power is not None else None
    if supplied.alternating or capacitor is None:
        return None
    resistor = sheet.pick(
        "R1.R", "precharge", "resistance", "charging resistor", where="up_to", at_least=supplied.highest
    )
    power = sheet.pick("R1.P_n", "precharge", "power", "power of the charging resistor", where="up_to", at_least=supplied.highest)
    diode_current, diode_voltage = (
        sheet.pick(key, "bench_limits", "value", f"{what} of each charging diode", key=f"charging diode {what}")
        for key, what in (("V1.I_n", "current"), ("V1.V_n", "voltage"))
    )
    left = sheet.pick(
        "rule.p_ch", "bench_limits", "value", "share of the voltage that may be left", key="charged"
    )
    need = sheet.work(
        "K2.t_need", b.charging_time, "time to fill the drive's capacitor", R=resistor, C=capacitor, p=left
    )
    time = sheet.pick("K2.t", "timer_steps", "upper", "range of the charging timer", at_least=need)
    current = sheet.work(
        "R1.I", b.charging_current, "charging current at first", V=supplied.highest, R=resistor
    )
    energy = sheet.work(
        "R1.W", controls.stored_energy, "heat in the resistor at each start", C=capacitor, V=supplied.highest
    )
    return Precharge(capacitor, resistor, power, diode_current, diode_voltage, need, time, current, energy)


def _limit_rms(limit: Value | None, sheet: Worksheet, points: tuple[Point, ...]) -> Value:
    """What the motor fuse sees when the drive limits: the limit is an average, the fuse feels its RMS value."""
    factors = tuple(point.form_factor for point in points if point.form_factor is not None)
    if limit is None or not factors:
        return unknown("drive.I_lim_rms", AMPERE, "nothing limits the current", "current limit as the motor fuse feels it")
    worst = factors[0]
    for number, factor in enumerate(factors[1:], 1):
        worst = sheet.work(
            f"motor.F_max_{number}", choice.larger_of, "largest form factor", a=worst, b=factor
        )
    return sheet.work(
        "drive.I_lim_rms",
        protection.current_by_heat,
        "current limit as the motor fuse feels it",
        I=limit,
        F=worst,
    )


def _overload_top(motor: Machine, region: Region, sheet: Worksheet) -> Value:
    """The most that the plate's current allows an overload relay to be set to."""
    factor = sheet.pick(
        "rule.k_o",
        region.tables["rules"],
        "value",
        "overload setting over plate current",
        key="overload factor",
    )
    rating = motor.rating(sheet)
    if rating is None:
        return unknown("F3.I_top", AMPERE, "no nameplate", "highest setting of the overload relay")
    return sheet.work("F3.I_top", protection.overload_setting, "highest setting of the overload relay", I_n=rating.heat, k=factor)


def _overload_dial(motor: Machine, sheet: Worksheet, top: Value) -> Value:
    """What the relay is set to: the plate's current as heat feels it, or the end of its dial if that comes first."""
    rating = motor.rating(sheet)
    plate = rating.heat if rating is not None else unknown("motor.I_n_rms", AMPERE, "no nameplate", "plate current as heat feels it")
    return sheet.work("F3.I_set", choice.smaller_of, "setting of the overload relay", a=plate, b=top)


