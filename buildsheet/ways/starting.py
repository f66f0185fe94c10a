"""A motor that is put on a fixed voltage at once: its first current, and the fuses that must carry it until it has run up."""

from buildsheet.formulas.braking import brake_time_constant
from buildsheet.formulas.motor import standstill_current
from buildsheet.formulas.protection import fuse_for_run_up
from buildsheet.reference import Region
from buildsheet.worksheet import Value, Worksheet

CONSTANTS = ("motor.K_e", "motor.K_e_run", "motor.K_e_plate")  # by spinning, by running free, by the plate
RESISTANCES = ("motor.R_a", "motor.winding")


def work_start(sheet: Worksheet, region: Region, volts: Value, ohms: Value) -> Value | None:
    """Least rating of a fuse in the motor's lead that carries the run-up on `volts` behind `ohms`; None for a motor without a
    back-EMF constant, such as a series motor."""
    constant = next((sheet.values[name] for name in CONSTANTS if name in sheet.values and sheet.values[name].known), None)
    armature = next((sheet.values[name] for name in RESISTANCES if name in sheet.values and sheet.values[name].known), None)
    inertia, drop = sheet.values.get("coast.J"), sheet.values.get("motor.U_b", sheet.values.get("motor.U_b~"))
    if constant is None or armature is None or inertia is None or drop is None:
        return None
    sheet.work("start.I", standstill_current, "current at the moment of start", V=volts, R_1=armature, R_2=ohms, U_b=drop)
    tau = sheet.work("start.tau", brake_time_constant, "time constant of the run-up", J=inertia, R_a=armature, R_b=ohms, K_e=constant)
    passes = sheet.pick("rule.k_st", region.tables["rules"], "value", "what a time-lag fuse lets pass at once, over the square of its rating", key="start let-through")
    return sheet.work("F2.I_st", fuse_for_run_up, "fuse in the motor's lead, for the run-up", I_s=sheet.values["start.I"], tau=tau, k=passes)
