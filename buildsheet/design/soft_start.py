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
from buildsheet.motors.motor import Machine
from buildsheet.project import Project
from buildsheet.sizing.places import Need, Place
from buildsheet.sizing.spelt import row_of
from buildsheet.sizing.supply import Supplied
from buildsheet.sizing.waist import Point
from buildsheet.ways.way import HardStart
from buildsheet.worksheet import Value, Worksheet


def work_soft_start(project: Project, sheet: Worksheet, motor: Machine, hard: HardStart | None, points: tuple[Point, ...]) -> SoftStart | None:
    """A soft start where one is asked for, the way puts the motor on its voltage at once, and the motor makes its own field; None
    else."""
    controls, constants = project.controls, motor.own_field
    hardest = max((point.current for point in points if point.current.known), key=float, default=None)
    if controls is None or not controls.soft_start or hard is None or constants is None or hardest is None:
        return None
    constant, armature, plate = constants
    times = sheet.pick("rule.k_s", "bench_limits", "value", "starting current over the plate's", key="soft start factor")
    most = sheet.work("R5.I_max", s.allowed_start_current, "current that the start is kept to", I_n=plate, k=times)
    there = sheet.work("R5.R_1", resistance_in_a_row, "resistance that is there without it", R_1=armature, R_2=hard.ohms)
    drop = sheet.values.get("motor.U_b", sheet.values.get("motor.U_b~"))
    if drop is None:
        return None
    need = asked = sheet.work("R5.R_m", s.start_resistor, "start resistor, as the motor feels it, at the least", V=hard.volts, U_b=drop, I=most, R_1=there)
    if need.known and float(need) <= 0:
        return None  # what is there keeps the start to that current
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
    second = sheet.work("R5.I_2", s.bridging_current, "current when it is bridged, the hardest work on", I=hardest, R_1=there, R_s=felt)
    energy = sheet.work("R5.W", s.start_heat, "heat in it at a start, the hardest work on", I_1=first, I=hardest, R=felt, tau=tau, t=waits)
    apart = sheet.pick("R5.t_s", "bench_limits", "value", "time from start to start, at the least", key="stop interval")
    often = sheet.work("R5.P_m", b.mean_brake_power, "its heat when it is started that often", W=energy, t=apart)
    overload = sheet.pick("R5.k_o", "bench_limits", "value", "what a wire-wound resistor stands for some seconds, over its rating", key="resistor overload")
    once = sheet.work("R5.P_p", b.pulse_rating, "its rating by the pulse of one start", W=energy, tau=tau, k=overload)
    rating = sheet.work("R5.P_n", choice.larger_of, "rating of the start resistor, at the least", a=often, b=once)
    stuck = sheet.work("R5.P_s", copper_loss, "its heat if it is never bridged, the hardest work on", I_rms=hardest, R=felt)
    passes = sheet.values["rule.k_st"]
    fuse = sheet.work("F2.I_soft", fuse_for_run_up, "fuse in the motor's lead, for the soft run-up", I_s=first, tau=tau, k=passes)
    again = sheet.work("F2.I_bridge", fuse_for_run_up, "the same, for the moment in which the resistor is bridged", I_s=second, tau=sheet.values["start.tau"], k=passes)
    motor_fuse = line_fuse = sheet.work("F2.I_both", choice.larger_of, "fuse in the motor's lead, for the soft start", a=fuse, b=again)
    if hard.line is not None:
        turns = sheet.values["T2.x"]
        line_fuse = sheet.work("F1.I_soft", t.auto_line_current, "line fuse, for the soft start", I_2=motor_fuse, x=turns)
    return SoftStart(resistor, rating, waits, time, most, first, second, stuck, (line_fuse, motor_fuse))


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
