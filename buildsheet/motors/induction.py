"""What induction motors have in common: their field's speed by poles and frequency, slip, and torque for long at a speed."""

from typing import ClassVar

from buildsheet.formulas import induction as f
from buildsheet.formulas.cooling import current_share
from buildsheet.formulas.inverter import torque_on_shaft_fan
from buildsheet.formulas.mechanics import torque_of_power
from buildsheet.formulas.motor import lowest_speed_on_own_fan, resistance_at_temperature
from buildsheet.motors.motor import Machine, Rating
from buildsheet.sizing.waist import Point
from buildsheet.units import AMPERE, HERTZ, NUMBER, RADIAN_PER_SECOND, VOLT, WATT, Unit
from buildsheet.worksheet import Value, Worksheet, unknown

FIELDS = {50.0: "at_50", 60.0: "at_60"}  # frequencies whose fields' speeds the table has, by its column
NEAR = 0.1  # two voltages that differ by less than the line's tolerance are the same voltage
NO_CHOKE = "this version works no choke before an induction motor"


def not_on_plate(name: str, unit: Unit, label: str) -> Value:
    """A figure of a plate that the file does not have."""
    return unknown(f"motor.plate.{name}", unit, "not in the file", label)


class InductionMachine(Machine):
    """An induction motor: poles, rated slip and torque, and the share of its current that it takes without load.

    `voltage` and `current` are the plate's for the way in which it is linked. `refuses` says why it makes nothing of what
    feeds it, empty when it does.
    """

    direct: ClassVar[bool] = False

    def __init__(self, sheet: Worksheet, rating: Rating, frequency: Value):
        self.refuses = ""
        self.rated = rating
        self.frequency = frequency
        self.poles = self._poles(sheet)
        self.field = sheet.work("motor.omega_s", f.synchronous_speed, "speed of its field at the plate's frequency", f=frequency, p=self.poles)
        self.slip = sheet.work("motor.s_n", f.slip, "slip at the rated point", omega_s=self.field, omega=rating.speed)
        self.torque = sheet.work("motor.T_n", torque_of_power, "rated torque", P=rating.power, omega=rating.speed)

    def _poles(self, sheet: Worksheet) -> Value:
        label = "number of its poles"
        if not self.frequency.known:
            return sheet.unsolved("motor.p", NUMBER, f"needs {self.frequency.label}", label, (self.frequency,))
        column = FIELDS.get(round(float(self.frequency), 3))
        if column is None:
            return sheet.unsolved("motor.p", NUMBER, "its plate's frequency is neither 50 nor 60 Hz", label)
        return sheet.pick("motor.p", "synchronous_speeds", "poles", label, where=column, at_least=self.rated.speed)

    def behind_choke(self, sheet: Worksheet, inductance: Value, resistance: Value) -> None:
        del sheet, inductance, resistance
        self.refuses = NO_CHOKE

    def rating(self, sheet: Worksheet) -> Rating:
        del sheet
        return self.rated

    def share(self, sheet: Worksheet, tag: str, label: str, torque: Value) -> Value:
        """The load over the rated torque; entered as k."""
        return sheet.work(f"{tag}.k", f.load_share, f"torque over the rated one, {label}", T=torque, T_n=self.torque)

    def losses(self, sheet: Worksheet) -> Value:
        part = sheet.assume("coast.p", "friction share")
        return sheet.work("coast.T_0", f.friction_torque, "torque of the motor's bearings and fan", T_n=self.torque, p=part)

    def allowed(self, sheet: Worksheet, share: Value, hardest: Point) -> Value:
        del hardest
        return sheet.work("heat.I_allow", current_share, "current that the motor stands at this height", I=self.rated.current, k=share)

    def lowest_speed(self, sheet: Worksheet) -> Value:
        label = "lowest speed at full torque for long"
        share = sheet.pick("heat.n_share", "own_cooling", "share", "share of base speed down to which its own fan cools", key="induction, fan on its shaft")
        return sheet.work("heat.omega_low", lowest_speed_on_own_fan, label, omega=self.rated.speed, n_share=share)

    def cooled(self, sheet: Worksheet, tag: str, label: str, torque: Value, omega: Value) -> Value:
        """What the fan on its shaft leaves of a torque for long at a speed; entered as T_s."""
        ratio = sheet.work(f"{tag}.p_s", f.share_of_speed, f"speed over the rated one, {label}", omega=omega, omega_n=self.rated.speed)
        left = sheet.pick(f"{tag}.k_s", "shaft_fan_torque", "torque", f"share of torque that its own fan allows, {label}", where="share", at_most=ratio)
        return sheet.work(f"{tag}.T_s", torque_on_shaft_fan, f"torque that it gives for long, {label}", T_n=torque, k=left)


def idle_share(sheet: Worksheet, idle: Value, current: Value, assumed: str) -> Value:
    """Current without load over the plate's, measured or assumed; entered as motor.p_0."""
    if idle.known:
        return sheet.work("motor.p_0", f.idle_share, "current without load over the plate's", I_0=idle, I_n=current)
    return sheet.assume("motor.p_0", assumed)


def warm(sheet: Worksheet, cold: Value) -> Value:
    """A winding's resistance when it is warm; entered as motor.R_hot."""
    hot, bench = sheet.assume("motor.T_w", "winding temperature"), sheet.assume("motor.T_b", "bench temperature")
    return sheet.work("motor.R_hot", resistance_at_temperature, "resistance of the warm winding", R_1=cold, T_1=bench, T_2=hot)


def plate_rating(voltage: Value, current: Value, speed: Value, power: Value) -> Rating:
    """What the plate says: heat feels a sine as its RMS value, which is what a plate gives."""
    return Rating(voltage, current, current, speed, power)


def empty_rating() -> Rating:
    """The rating of a motor whose plate is not in the file."""
    return plate_rating(
        not_on_plate("voltage", VOLT, "volts on the plate"),
        not_on_plate("current", AMPERE, "current on the plate"),
        not_on_plate("speed", RADIAN_PER_SECOND, "speed on the plate"),
        not_on_plate("power", WATT, "power on the plate"),
    )


def no_frequency() -> Value:
    """The frequency of a motor whose plate is not in the file."""
    return not_on_plate("frequency", HERTZ, "frequency on the plate")
