"""From the tool back to the motor: speeds and torque through the belts, and every turning part at its fastest."""

from buildsheet.design.design import Law, Load, Turning
from buildsheet.design.rotor import work_homemade
from buildsheet.formulas import cutting as c
from buildsheet.formulas import loads
from buildsheet.formulas import mechanics as m
from buildsheet.formulas.controls import blocking_time
from buildsheet.given.machine import BeltStep, Cut, Machine
from buildsheet.project import Project
from buildsheet.reference import table
from buildsheet.units import METRE_PER_SECOND, NEWTON_METRE, RADIAN_PER_SECOND
from buildsheet.worksheet import Value, Worksheet, unknown

# What carries the torque from the highest speed to another one; a law that is not here is the same at all speeds.
LAWS = {
    "constant power": loads.torque_at_constant_power,
    "viscous torque": loads.torque_at_speed_viscous,
    "quadratic torque": loads.torque_at_speed_quadratic,
}


def work_load(project: Project, sheet: Worksheet) -> Load | None:
    """Speeds, ratio and torques between tool and motor; None without a machine that has a speed.

    Power or torque of the file is at the highest speed; the load's law carries it to the lowest.
    """
    machine = project.machine
    if machine is None or machine.speed is None:
        return None
    law = law_of(machine)
    tool_low = _tool_speed(sheet, machine, machine.speed.low, "low")
    tool_high = _tool_speed(sheet, machine, machine.speed.high, "high")
    ratio, share = _belts(sheet, project.belts)
    motor_low, motor_high = (
        sheet.work(f"load.omega_{end}", m.driving_speed, f"motor speed at the {word} tool speed", omega_2=speed, i=ratio)
        for end, word, speed in (("low", "lowest", tool_low), ("high", "highest", tool_high))
    )
    torque = _tool_torque(sheet, machine, tool_high)
    where = "torque at the motor" if law.constant else "torque at the motor at its highest speed"
    motor_torque = sheet.work("load.T_m", m.motor_torque, where, T=torque, i=ratio, eta=share)
    slow, motor_slow = torque, motor_torque
    if not law.constant:
        slow = sheet.work("load.T_t_low", LAWS[law.name], f"torque at the tool at its lowest speed, {law.name}", T=torque, omega=tool_low, omega_ref=tool_high)
        motor_slow = sheet.work("load.T_m_low", m.motor_torque, "torque at the motor at its lowest speed", T=slow, i=ratio, eta=share)
    power = _tool_power(sheet, machine, torque, tool_high)
    hardest = motor_low if law.hardest_when_slow else None
    speeds, lengths, wraps, pulls = _belt_facts(sheet, project.belts, power, motor_high, hardest)
    return Load(
        law, ratio, tool_low, tool_high, motor_low, motor_high, slow, torque, motor_slow, motor_torque, speeds, lengths, wraps, pulls
    )


def law_of(machine: Machine) -> Law:
    """The law of its load: what the file says, else what is usual for its kind."""
    usual = table("machine_kinds").rows[machine.kind or "other"]
    name = machine.load or usual["load"]
    row = table("load_laws").rows[name]
    because = "by your file" if machine.load else usual["pulls"]
    return Law(name, row["torque"], row["power"], row["hardest"] == "slowest", because)


def _tool_speed(sheet: Worksheet, machine: Machine, given: Value, name: str) -> Value:
    sheet.take(given)
    if given.unit is RADIAN_PER_SECOND:
        return given
    label = f"{'lowest' if name == 'low' else 'highest'} tool speed"
    return sheet.work(f"load.omega_t_{name}", m.speed_for_surface_speed, label, v=given, d=machine.drum)


def _tool_torque(sheet: Worksheet, machine: Machine, tool_high: Value) -> Value:
    if machine.torque.known:
        return sheet.take(machine.torque)
    if machine.power.known:
        return sheet.work(
            "load.T_t", m.torque_of_power, "torque at the tool", P=machine.power, omega=tool_high
        )
    if machine.cut is not None:
        power = _cut_power(sheet, machine.cut)
        return sheet.work("load.T_t", m.torque_of_power, "torque at the tool", P=power, omega=tool_high)
    return unknown("load.T_t", NEWTON_METRE, "neither power nor torque is in the file", "torque at the tool")


def _tool_power(sheet: Worksheet, machine: Machine, torque: Value, tool_high: Value) -> Value:
    if machine.power.known:
        return machine.power
    return sheet.work(
        "load.P_t", m.shaft_power, "power at the tool at its highest speed", T=torque, omega=tool_high
    )


def _cut_power(sheet: Worksheet, cut: Cut) -> Value:
    """Power at the cut, from what is cut and how fast."""
    constant = sheet.pick("cut.K_p", "cutting_power", "metric", "power constant of the steel", key=cut.steel)
    rate = sheet.work(
        "cut.Q", c.removal_rate, "metal removed in a time", v=cut.speed, f=cut.feed, d=cut.depth
    )
    return sheet.work("cut.P", c.cutting_power, "power at the cut", K_p=constant, Q=rate)


def _belts(sheet: Worksheet, belts: tuple[BeltStep, ...]) -> tuple[Value, Value]:
    """The ratio of all belts and the share of the power that they pass on. Without a belt the tool sits on the motor."""
    if not belts:
        direct = sheet.pick(
            "load.i", "direct_drive", "value", "no belt: the tool sits on the motor", key="ratio"
        )
        whole = sheet.pick("load.eta", "direct_drive", "value", "no belt: nothing is lost", key="efficiency")
        return direct, whole
    first, *others = belts
    ratio, share = _step(sheet, 1, first)
    for number, belt in enumerate(others, 2):
        step, passed = _step(sheet, number, belt)
        ratio = sheet.work(
            f"load.i_{number}", m.ratio_of_steps, "ratio of the belts together", i_1=ratio, i_2=step
        )
        share = sheet.work(
            f"load.eta_{number}", m.share_of_steps, "share that the belts pass on", eta_1=share, eta_2=passed
        )
    return ratio, share


def _step(sheet: Worksheet, number: int, belt: BeltStep) -> tuple[Value, Value]:
    ratio = sheet.work(
        f"belt{number}.i", m.belt_ratio, f"ratio of belt {number}", d_1=belt.driver, d_2=belt.driven
    )
    return ratio, sheet.assume(
        f"belt{number}.eta", "belt efficiency", f"share of the power that belt {number} passes on"
    )


def _power_into(sheet: Worksheet, belts: tuple[BeltStep, ...], power: Value) -> dict[int, Value]:
    """What each belt has to take in so that the tool gets its power, by number: walked from the tool back."""
    found: dict[int, Value] = {}
    for number in range(len(belts), 0, -1):
        power = sheet.work(
            f"belt{number}.P",
            m.power_before,
            f"power into belt {number}",
            P=power,
            eta=sheet.values[f"belt{number}.eta"],
        )
        found[number] = power
    return found


def _belt_facts(
    sheet: Worksheet, belts: tuple[BeltStep, ...], power: Value, motor_high: Value, hardest: Value | None
) -> tuple[tuple[Value, ...], tuple[Value, ...], tuple[Value, ...], tuple[Value, ...]]:
    """Speed at the highest speed, length, wrap and pull of each belt. A pull is that at the highest speed, or at the motor
    speed `hardest` where the same power is carried slower."""
    speeds, lengths, wraps, pulls = [], [], [], []
    omega, slow = motor_high, hardest
    pulled = _power_into(sheet, belts, power)
    for number, belt in enumerate(belts, 1):
        small, large = (
            sorted((belt.driver, belt.driven), key=float)
            if belt.driver.known and belt.driven.known
            else (belt.driver, belt.driven)
        )
        speed = sheet.work(
            f"belt{number}.v", m.surface_speed, f"speed of belt {number}", omega=omega, d=belt.driver
        )
        speeds.append(speed)
        lengths.append(
            sheet.work(
                f"belt{number}.L", m.belt_length, f"length of belt {number}", C=belt.centres, d=small, D=large
            )
        )
        wraps.append(
            sheet.work(
                f"belt{number}.theta",
                m.wrap_angle,
                f"wrap on the small pulley of belt {number}",
                C=belt.centres,
                d=small,
                D=large,
            )
        )
        ratio = sheet.values[f"belt{number}.i"]
        if slow is not None:
            speed = sheet.work(
                f"belt{number}.v_low", m.surface_speed, f"speed of belt {number} at the lowest speed", omega=slow, d=belt.driver
            )
            slow = sheet.work(
                f"belt{number}.omega_2_low", m.driven_speed, f"lowest speed behind belt {number}", omega_1=slow, i=ratio
            )
        pulls.append(
            sheet.work(f"belt{number}.F", m.belt_pull, f"pull of belt {number}", P=pulled[number], v=speed)
        )
        omega = sheet.work(
            f"belt{number}.omega_2", m.driven_speed, f"speed behind belt {number}", omega_1=omega, i=ratio
        )
    return tuple(speeds), tuple(lengths), tuple(wraps), tuple(pulls)


def _countershafts(sheet: Worksheet, belts: int, runaway: Value) -> dict[str, tuple[Value, Value]]:
    """Speeds of the shafts between two belts, at set maximum and at runaway."""
    found = {}
    for number in range(1, belts):
        runaway = sheet.work(
            f"runaway.omega_{number}",
            m.driven_speed,
            f"speed behind belt {number} at runaway",
            omega_1=runaway,
            i=sheet.values[f"belt{number}.i"],
        )
        found[f"after belt {number}"] = (sheet.values[f"belt{number}.omega_2"], runaway)
    return found


def work_turning(project: Project, sheet: Worksheet, load: Load, runaway: Value) -> tuple[Turning, ...]:
    """Every turning part, the rotor first, at set maximum and at runaway, in the unit of its rating."""
    tool_runaway = sheet.work(
        "runaway.omega_t", m.driven_speed, "tool speed at runaway", omega_1=runaway, i=load.ratio
    )
    shafts = {"motor": (load.motor_high, runaway), **_countershafts(sheet, len(project.belts), runaway)}
    shafts["tool"] = (load.tool_high, tool_runaway)
    found = []
    if project.motor is not None:
        proven, basis = project.motor.proven_speed(sheet)
        found.append(Turning("motor's rotor", basis, proven, load.motor_high, runaway))
    for number, part in enumerate(project.turning, 1):
        nowhere = unknown(f"turning{number}.omega", RADIAN_PER_SECOND, f"there is no shaft {part.shaft}")
        maximum, fastest = shafts.get(part.shaft, (nowhere, nowhere))
        if part.homemade is not None:
            found.append(work_homemade(sheet, f"turning{number}", part, part.homemade, maximum, fastest))
            continue
        if part.rated.unit is METRE_PER_SECOND:
            maximum = sheet.work(
                f"turning{number}.v_max",
                m.surface_speed,
                f"rim of the {part.part} at set maximum",
                omega=maximum,
                d=part.diameter,
            )
            fastest = sheet.work(
                f"turning{number}.v_run",
                m.surface_speed,
                f"rim of the {part.part} at runaway",
                omega=fastest,
                d=part.diameter,
            )
        found.append(Turning(part.part, part.basis or "", sheet.take(part.rated), maximum, fastest))
    return tuple(found)


def work_inertia(project: Project, sheet: Worksheet, load: Load) -> Value:
    """Inertia of everything that turns, as the motor sees it."""
    machine, motor = project.machine, project.motor
    if machine is None or motor is None:
        raise ValueError("a machine and a motor are needed")
    return sheet.work(
        "coast.J",
        m.inertia_at_motor,
        "inertia as the motor sees it",
        J_m=motor.inertia,
        J_t=machine.inertia,
        i=load.ratio,
    )


def work_coast(sheet: Worksheet, highest: Value, inertia: Value, loss_torque: Value) -> Value:
    """Longest coast from the highest speed that the motor may have in work, on the motor's own losses alone."""
    return sheet.work(
        "coast.t",
        m.coast_time,
        "longest coast to standstill",
        J=inertia,
        omega=highest,
        T_0=loss_torque,
    )


def work_wait(project: Project, sheet: Worksheet, coast: Value) -> Value | None:
    """Range of the timer that keeps a machine which is reversed from starting before it stands; None for one direction."""
    if project.machine is None or not project.machine.reverse:
        return None
    factor = sheet.pick(
        "rule.k_w_t", "bench_limits", "value", "standstill timer over the longest coast", key="wait factor"
    )
    need = sheet.work(
        "K1.t_need", blocking_time, "time for which the standstill timer must block", t=coast, k=factor
    )
    return sheet.pick("K1.t", "timer_steps", "upper", "range of the standstill timer", at_least=need)
