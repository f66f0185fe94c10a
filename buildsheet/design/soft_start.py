"""The soft start: its resistor by the current that a start is kept to, its timer by the time constant of the run-up, its watts by
the heat of one start; its parts and their places.
"""

from buildsheet.design.design import SoftStart
from buildsheet.design.needs import LINE_SLACK, kind_need, volts_need
from buildsheet.formulas import braking as b
from buildsheet.formulas import choice
from buildsheet.formulas import starting as s
from buildsheet.formulas import transformer as t
from buildsheet.formulas.choke import resistance_in_a_row
from buildsheet.formulas.motor import copper_loss, standstill_current
from buildsheet.formulas.protection import fuse_for_run_up
from buildsheet.formulas.series import held_alternating_current, motion_resistance, series_torque
from buildsheet.motors.motor import Machine
from buildsheet.motors.series import SeriesMachine
from buildsheet.project import Project
from buildsheet.sizing.places import Need, Place
from buildsheet.sizing.spelt import row_of
from buildsheet.sizing.supply import Supplied
from buildsheet.sizing.waist import Point
from buildsheet.ways.way import HardStart
from buildsheet.worksheet import Value, Worksheet


def work_soft_start(project: Project, sheet: Worksheet, motor: Machine, hard: HardStart | None, points: tuple[Point, ...]) -> SoftStart | None:
    """A soft start where one is asked for and the way puts the motor on its voltage at once: a motor that makes its own field, or a
    series motor on alternating voltage. None else, and where what is there already keeps the start to its current."""
    controls = project.controls
    hardest = max((point for point in points if point.current.known), key=lambda point: float(point.current), default=None)
    if controls is None or not controls.soft_start or hard is None or hardest is None:
        return None
    if motor.own_field is not None and hard.ohms is not None:
        return _own_field(sheet, motor.own_field, hard, hard.ohms, hardest)
    if isinstance(motor, SeriesMachine) and motor.at_start is not None and motor.plate is not None:
        return _series(sheet, motor, motor.at_start, _most(sheet, motor.plate.current), hard.volts, hardest.current)
    return None


def _most(sheet: Worksheet, plate: Value) -> Value:
    times = sheet.pick("rule.k_s", "bench_limits", "value", "starting current over the plate's", key="soft start factor")
    return sheet.work("R5.I_max", s.allowed_start_current, "current that the start is kept to", I_n=plate, k=times)


def _rating(sheet: Worksheet, energy: Value, pulse: Value) -> Value:
    """Watts of the resistor: by its heat again and again, and by that of one start within the time constant of its `pulse`."""
    apart = sheet.pick("R5.t_s", "bench_limits", "value", "time from start to start, at the least", key="stop interval")
    often = sheet.work("R5.P_m", b.mean_brake_power, "its heat when it is started that often", W=energy, t=apart)
    overload = sheet.pick("R5.k_o", "bench_limits", "value", "what a wire-wound resistor stands for some seconds, over its rating", key="resistor overload")
    once = sheet.work("R5.P_p", b.pulse_rating, "its rating by the pulse of one start", W=energy, tau=pulse, k=overload)
    return sheet.work("R5.P_n", choice.larger_of, "rating of the start resistor, at the least", a=often, b=once)


def _own_field(sheet: Worksheet, constants: tuple[Value, Value, Value], hard: HardStart, ahead: Value, hardest: Point) -> SoftStart | None:
    """A motor whose run-up has a time constant."""
    constant, armature, plate = constants
    work, felt_as = hardest.current, hardest.rms  # torque goes by the one, heat by the other
    most = _most(sheet, plate)
    there = sheet.work("R5.R_1", resistance_in_a_row, "resistance that is there without it", R_1=armature, R_2=ahead)
    drop = sheet.values.get("motor.U_b", sheet.values.get("motor.U_b~"))
    if drop is None:
        return None
    need = asked = sheet.work("R5.R_m", s.start_resistor, "start resistor, as the motor feels it, at the least", V=hard.volts, U_b=drop, I=most, R_1=there)
    if need.known and float(need) <= 0:
        return None
    if hard.line is not None:
        asked = sheet.work("R5.R_need", t.referred_resistance, "the same on the line's side of the transformer", R=need, V_1=hard.volts, V_2=hard.line)
    resistor = felt = sheet.pick("R5.R", "resistors_e6_low", "resistance", "start resistor", at_least=asked)
    if hard.line is not None:
        felt = sheet.work("R5.R_f", t.referred_resistance, "start resistor, as the motor feels it", R=resistor, V_1=hard.line, V_2=hard.volts)
    first = sheet.work("R5.I_1", standstill_current, "current at the moment of start, with it", V=hard.volts, R_1=there, R_2=felt, U_b=drop)
    tau = sheet.work("R5.tau", b.brake_time_constant, "time constant of the run-up with it", J=sheet.values["coast.J"], R_a=there, R_b=felt, K_e=constant)
    share = sheet.pick("rule.p_s", "bench_limits", "value", "share of the run-up that is left when it is bridged", key="soft start share")
    waits = sheet.work("K4.t_need", b.time_to_share_of_speed, "time until it is bridged", tau=tau, p=share)
    time = sheet.pick("K4.t", "timer_steps", "upper", "range of the run-up timer", at_least=waits)
    second = sheet.work("R5.I_2", s.bridging_current, "current when it is bridged, the hardest work on", I=work, R_1=there, R_s=felt)
    energy = sheet.work("R5.W", s.start_heat, "heat in it at a start, the hardest work on", I_1=first, I=felt_as, R=felt, tau=tau, t=waits)
    rating = _rating(sheet, energy, tau)
    stuck = sheet.work("R5.P_s", copper_loss, "its heat if it is never bridged, the hardest work on", I_rms=felt_as, R=felt)
    passes = sheet.values["rule.k_st"]
    fuse = sheet.work("F2.I_soft", s.fuse_for_start_heat, "fuse in the motor's lead, for the soft run-up", W=energy, R=felt, k=passes)
    again = sheet.work("F2.I_bridge", fuse_for_run_up, "the same, for the moment in which the resistor is bridged", I_s=second, tau=sheet.values["start.tau"], k=passes)
    motor_fuse = line_fuse = sheet.work("F2.I_both", choice.larger_of, "fuse in the motor's lead, for the soft start", a=fuse, b=again)
    if hard.turns is not None:
        line_fuse = sheet.work("F1.I_soft", t.auto_line_current, "line fuse, for the soft start", I_2=motor_fuse, x=hard.turns)
    return SoftStart(resistor, rating, waits, time, most, sheet.values["start.I"], first, second, stuck, (line_fuse, motor_fuse))


def _series(sheet: Worksheet, motor: SeriesMachine, held: Value, most: Value, volts: Value, work: Value) -> SoftStart | None:
    """A series motor on alternating voltage: it runs up to most of the speed at which, with the resistor in, it makes the hardest
    work's torque."""
    if held.known and most.known and held <= most:
        return None
    need = sheet.work("R5.R_need", s.alternating_start_resistor, "start resistor, at the least", V=volts, I=most, R=motor.R, X=motor.X)
    resistor = sheet.pick("R5.R", "resistors_e6_low", "resistance", "start resistor", at_least=need)
    whole = sheet.work("R5.R_1", resistance_in_a_row, "resistance with it, cold", R_1=motor.R, R_2=resistor)
    warm = sheet.work("R5.R_2", resistance_in_a_row, "resistance with it, warm", R_1=motor.R_loop, R_2=resistor)
    first = sheet.work("R5.I_1", held_alternating_current, "current at the moment of start, with it", V=volts, R=whole, X=motor.X)
    torque = sheet.work("R5.T", series_torque, "torque of the hardest work and of its own losses", k=motor.k, I=work)
    nominal = sheet.values["supply.voltage"]
    settled = sheet.work("R5.omega_s", s.series_settled_speed, "speed that it would settle at with it, the hardest work on", k=motor.k, T=torque, V=nominal, R=warm, X=motor.X)
    if not settled.known or float(settled) <= 0:
        return None  # with the resistor in, the work holds it still
    part = sheet.pick("rule.p_s", "bench_limits", "value", "share of the run-up that is left when it is bridged", key="soft start share")
    most_of_it = sheet.work("R5.omega_p", s.speed_when_bridged, "most of that speed", omega=settled, p=part)
    enough = sheet.work("R5.omega_m", s.series_speed_at_current, "speed at which the motor alone takes no more than the start is kept to", V=volts, I=most, R=motor.R, X=motor.X, k=motor.k)
    speed = sheet.work("R5.omega", choice.smaller_of, "speed at which it is bridged", a=most_of_it, b=enough)
    inertia = sheet.values["coast.J"]
    waits = sheet.work("K4.t_need", s.series_run_up_time, "time until it is bridged", J=inertia, k=motor.k, T=torque, V=nominal, R=warm, X=motor.X, omega=speed)
    time = sheet.pick("K4.t", "timer_steps", "upper", "range of the run-up timer", at_least=waits)
    motion = sheet.work("R5.R_w", motion_resistance, "back-EMF as a resistance, at that speed", k=motor.k, omega=speed)
    bare = sheet.work("R5.R_3", resistance_in_a_row, "the same with that of the windings, cold", R_1=motor.R, R_2=motion)
    second = sheet.work("R5.I_2", held_alternating_current, "current when it is bridged", V=volts, R=bare, X=motor.X)
    energy = sheet.work("R5.W", s.series_start_heat, "heat in it at a start, the hardest work on", R=resistor, J=inertia, k=motor.k, T=torque, omega=speed, t=waits)
    rating = _rating(sheet, energy, waits)
    stuck = sheet.work("R5.P_s", copper_loss, "its heat if it is never bridged, the hardest work on", I_rms=work, R=resistor)
    draws = sheet.work("R5.I_top", choice.larger_of, "the most that it takes at such a start", a=first, b=second)
    return SoftStart(resistor, rating, waits, time, most, held, first, second, stuck, (None, None), draws)


def soft_start_places(soft: SoftStart, supplied: Supplied, line: Value) -> tuple[Place, ...]:
    """Resistor, its thermostat, timer and relay; `line` is the current that the relay carries."""
    volts, kind = volts_need(supplied), kind_need(supplied)
    current = " AC" if supplied.alternating else " DC"
    marked = (volts, *(() if supplied.alternating else (kind,)))
    coil = Need("coil", "=", supplied.voltage, "coil", LINE_SLACK)
    return (
        Place(
            "start-resistor", "resistor", "Start resistor",
            (Need("resistance", "=", soft.resistor, "resistance", LINE_SLACK), Need("power", "≥", soft.rating, "power")),
            (f"wire-wound resistor in a metal case, {row_of(soft.resistor)}, ", soft.rating, " or more, screwed flat to the box"), "R5", "two of half the value in a row",
        ),
        Place(
            "start-thermostat", "thermostat", "Thermostat of the start resistor", (*marked, Need("contact", "=", "normally closed", "contact")),
            ("bimetal thermostat that opens at about 100 °C, one normally closed contact, ", volts.value, current, ", screwed to the resistor's case"), "F8", "the one of a heater, once its temperature is read by a thermometer",
            safety=True, proof="opens before the resistor scorches paper, tried on the bench",
        ),
        Place(
            "run-up-timer", "timer", "Run-up timer",
            (coil, Need("delay", "=", "on-delay", "kind of delay"), *marked, Need("contact", "=", "normally open", "contact", also=("changeover",)), Need("range", "≥", soft.time, "longest time")),
            ("on-delay timer relay, up to ", soft.time, ", coil ", supplied.voltage, current, ", one normally open or changeover contact for ", volts.value, current), "K4", "the same with several ranges, set to this one",
        ),
        Place(
            "bridging-relay", "contactor", "Bridging relay",
            (Need("current", "≥", line, "amperes"), coil, *marked),
            ("contactor or power relay, one normally open pole, ", line, " or more at ", volts.value, current, ", coil ", supplied.voltage, current), "K5", "one pole of a larger contactor",
        ),
    )  # fmt: skip
