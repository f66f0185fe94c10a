"""A motor alone: what it would do on a battery, on a usual drive, and on a bare bridge."""

from dataclasses import dataclass

from buildsheet.given.bench import Asked
from buildsheet.motors.brushed import BrushedMachine
from buildsheet.reference import Region
from buildsheet.worksheet import Value, Worksheet


@dataclass(frozen=True, slots=True)
class Alone:
    """Speeds without load on the three supplies that are usually at hand, each with the voltage of that supply."""

    battery: Value
    on_battery: Value
    drive: Value
    on_drive: Value
    line: Value
    on_bridge: Value


def work_alone(sheet: Worksheet, region: Region, motor: BrushedMachine) -> Alone:
    """What the constants say the motor would do; unknown where one of them is."""
    rules = region.tables["rules"]
    battery = sheet.pick("alone.V_b", "bench_limits", "value", "battery", key="bonding battery")
    drive = sheet.pick("alone.V_d", rules, "value", "full output of a usual drive", key="usual drive output")
    line = sheet.pick("alone.V_s", rules, "value", "nominal line", key="nominal line")
    frequency = sheet.pick("alone.f", rules, "value", "line frequency", key="line frequency")
    speeds = [
        motor.free_speed(sheet, f"alone.omega_{name}", f"speed without load on {words}", volts)
        for name, words, volts in (("b", "a battery", battery), ("d", "a drive's full output", drive))
    ]
    bridge = motor.bridge_speed(sheet, region, line, frequency)
    return Alone(battery, speeds[0], drive, speeds[1], line, bridge)


def work_asked(sheet: Worksheet, motor: BrushedMachine, ask: Asked | None) -> tuple[Value, ...]:
    """Volts and torque of the file, current and speed there, on smooth direct current; nothing when nothing was asked."""
    if ask is None:
        return ()
    current, speed = motor.asked(sheet, ask)
    return sheet.take(ask.voltage), sheet.take(ask.torque), current, speed
