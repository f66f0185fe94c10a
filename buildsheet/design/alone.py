"""A motor alone: what it would do on a battery, on a usual drive, and on a bare bridge."""

from dataclasses import dataclass

from buildsheet.formulas import motor as f
from buildsheet.given.bench import Asked
from buildsheet.motors.magnet_dc import Constants
from buildsheet.reference import Region
from buildsheet.sizing.waist import SOLVED
from buildsheet.units import VOLT
from buildsheet.waveforms import DIODE_BRIDGE, NotSolved, Source, back_emf_for
from buildsheet.worksheet import Model, Value, Worksheet


@dataclass(frozen=True, slots=True)
class Alone:
    """Speeds without load on the three supplies that are usually at hand, each with the voltage of that supply."""

    battery: Value
    on_battery: Value
    drive: Value
    on_drive: Value
    line: Value
    on_bridge: Value


def work_alone(sheet: Worksheet, region: Region, motor: Constants) -> Alone:
    """What the constants say the motor would do; unknown where one of them is."""
    rules = region.tables["rules"]
    battery = sheet.pick("alone.V_b", "bench_limits", "value", "battery", key="bonding battery")
    drive = sheet.pick("alone.V_d", rules, "value", "full output of a usual drive", key="usual drive output")
    line = sheet.pick("alone.V_s", rules, "value", "nominal line", key="nominal line")
    frequency = sheet.pick("alone.f", rules, "value", "line frequency", key="line frequency")
    speeds = [
        sheet.work(
            f"alone.omega_{name}",
            f.speed_at_voltage,
            f"speed without load on {words}",
            V=volts,
            I=motor.I_0,
            R=motor.R,
            U_b=motor.U_b,
            K_e=motor.K_e,
        )
        for name, words, volts in (("b", "a battery", battery), ("d", "a drive's full output", drive))
    ]
    emf = _bridge(sheet, line, frequency, motor)
    bridge = sheet.work(
        "alone.omega_s", f.speed_of_emf, "speed without load on a bare bridge", E=emf, K_e=motor.K_e
    )
    return Alone(battery, speeds[0], drive, speeds[1], line, bridge)


def work_asked(sheet: Worksheet, motor: Constants, ask: Asked | None) -> tuple[Value, ...]:
    """Volts and torque of the file, current and speed there, on smooth direct current; nothing when nothing was asked."""
    if ask is None:
        return ()
    current = sheet.work(
        "ask.I",
        f.armature_current,
        "current at the torque that was asked",
        T=ask.torque,
        K_t=motor.K_t,
        I_0=motor.I_0,
    )
    sheet.work("ask.E", f.back_emf, "back-EMF there", V=ask.voltage, I=current, R=motor.R, U_b=motor.U_b)
    speed = sheet.work(
        "ask.omega",
        f.speed_at_voltage,
        "speed there",
        V=ask.voltage,
        I=current,
        R=motor.R,
        U_b=motor.U_b,
        K_e=motor.K_e,
    )
    return sheet.take(ask.voltage), sheet.take(ask.torque), current, speed


def _bridge(sheet: Worksheet, line: Value, frequency: Value, motor: Constants) -> Value:
    label = "back-EMF on a bare bridge, without load"
    asked = {"V_s": line, "f": frequency, "R": motor.R, "L": motor.L[0], "I_0": motor.I_0}
    missing = tuple(value for value in asked.values() if not value.known)
    if missing:
        return sheet.unsolved("alone.E", VOLT, f"needs {missing[0].label}", label, missing)
    try:
        wave = back_emf_for(
            DIODE_BRIDGE,
            Source(float(line), float(frequency)),
            float(motor.R),
            float(motor.L[0]),
            float(motor.I_0),
        )
    except NotSolved as refusal:
        return sheet.unsolved("alone.E", VOLT, str(refusal), label)
    return sheet.solved(
        "alone.E",
        wave.load.E,
        VOLT,
        Model(DIODE_BRIDGE.label, asked, "the back-EMF at which the no-load current still flows", SOLVED),
        label,
    )
