"""What a motor that starts on the line asks of its fuse, and the bleed resistor of its capacitor."""

from buildsheet.design.design import Bleeder
from buildsheet.formulas import choice, protection, smoothing
from buildsheet.formulas.induction import capacitor_crest
from buildsheet.motors.motor import Machine
from buildsheet.reference import Region
from buildsheet.worksheet import Value, Worksheet


def fuse_for_start(region: Region, sheet: Worksheet, draws: Value | None, running: Value) -> Value:
    """The line fuse's least rating: for the current that runs, or for the one that starts, whichever is more; `draws` is the most
    that the start takes, None where it is counted otherwise."""
    if draws is None:
        return running
    times = sheet.pick("rule.k_st", region.tables["rules"], "value", "what a time-lag fuse carries for a start", key="start multiple")
    start = sheet.work("F1.I_st", protection.fuse_for_start, "line fuse, for the start", I_s=draws, k=times)
    return sheet.work("F1.I_need2", choice.larger_of, "line fuse, at least, its start counted", a=running, b=start)


def work_bleeder(region: Region, sheet: Worksheet, motor: Machine) -> Bleeder | None:
    """The resistor across a motor's capacitor, which empties it within the time for pulling a plug; None without one."""
    starting = motor.starting
    if starting is None or starting.capacitor is None or starting.volts is None:
        return None
    rules = region.tables["rules"]
    capacitor, volts = sheet.take(starting.capacitor), sheet.take(starting.volts)
    crest = sheet.work("C1.V_m", capacitor_crest, "most that the motor's capacitor can hold", V=volts)
    time = sheet.pick("C1.t", "bench_limits", "value", "time in which its bleed resistor empties it", key="bleed time")
    safe = sheet.pick("C1.V_s", rules, "value", "highest voltage that may stay after switching off", key="safe voltage")
    most = sheet.work("R2.R_max", smoothing.bleeder_resistance, "bleed resistor, at most", t=time, C=capacitor, V_0=crest, V_s=safe)
    resistor = sheet.pick("R2.R", "resistors_e12", "resistance", "bleed resistor, next smaller of E12", at_most=most)
    power = sheet.work("R2.P_n", smoothing.bleeder_rating, "bleed resistor, watts at least", V=volts, R=resistor)
    return Bleeder(capacitor, volts, crest, resistor, power)
