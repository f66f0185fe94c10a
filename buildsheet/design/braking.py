"""The braking resistor: its ohms by the current that brushes and magnets stand, its watts by the energy of a stop, the time to
standstill, and the torque that it puts on the tool.
"""

from buildsheet.design.design import Braking, Load
from buildsheet.formulas import braking as b
from buildsheet.formulas import choice
from buildsheet.formulas.mechanics import turning_energy
from buildsheet.formulas.motor import emf_at_speed
from buildsheet.motors.motor import Machine
from buildsheet.project import Project
from buildsheet.worksheet import Value, Worksheet


def work_braking(project: Project, sheet: Worksheet, motor: Machine, load: Load, coast: Value) -> Braking | None:
    """A brake where one is asked for and the motor makes its own field; None else."""
    controls, constants = project.controls, motor.own_field
    if controls is None or not controls.brake or constants is None or project.motor is None:
        return None
    constant, armature, plate = constants
    times = sheet.pick("rule.k_b", "bench_limits", "value", "braking current over the plate's", key="brake factor")
    most = sheet.work("R3.I_max", b.largest_braking_current, "braking current, at the most", I_n=plate, k=times)
    emf = sheet.work("R3.E", emf_at_speed, "back-EMF at the highest speed", K_e=constant, omega=load.motor_high)
    need = sheet.work("R3.R_need", b.brake_resistor, "braking resistor, at the least", E=emf, I=most, R_a=armature)
    resistor = sheet.pick("R3.R", "resistors_e6_low", "resistance", "braking resistor", at_least=need)
    current = sheet.work("R3.I", b.brake_current, "current at the start of braking", E=emf, R_a=armature, R_b=resistor)
    inertia = sheet.values["coast.J"]
    tau = sheet.work("R3.tau", b.brake_time_constant, "time constant of the braking", J=inertia, R_a=armature, R_b=resistor, K_e=constant)
    part = sheet.pick("rule.p_b", "bench_limits", "value", "share of the speed below which it only coasts", key="brake share")
    braked = sheet.work("R3.t_b", b.time_to_share_of_speed, "time to that share of the speed", tau=tau, p=part)
    stands = sheet.work("R3.t", b.braked_standstill, "time to standstill with the brake", t_b=braked, t_c=coast, p=part)
    energy = sheet.work("R3.W_J", turning_energy, "energy of what turns, at the highest speed", J=inertia, omega=load.motor_high)
    share = sheet.work("R3.k", b.resistor_share, "share of it that ends in the resistor", R_a=armature, R_b=resistor)
    heat = sheet.work("R3.W", b.brake_energy, "heat in the resistor at each stop", W=energy, k=share)
    apart = sheet.pick("R3.t_s", "bench_limits", "value", "time from stop to stop, at the least", key="stop interval")
    often = sheet.work("R3.P_m", b.mean_brake_power, "its heat when it is stopped that often", W=heat, t=apart)
    overload = sheet.pick("R3.k_o", "bench_limits", "value", "what a wire-wound resistor stands for some seconds, over its rating", key="resistor overload")
    once = sheet.work("R3.P_p", b.pulse_rating, "its rating by the pulse of one stop", W=heat, tau=tau, k=overload)
    rating = sheet.work("R3.P_n", choice.larger_of, "rating of the braking resistor, at the least", a=often, b=once)
    torque = sheet.work("R3.T", b.armature_torque, "braking torque at the motor, at its start", K_t=sheet.values["motor.K_t"], I=current)
    return Braking(resistor, rating, current, stands, torque)
