"""Shunt motor, fed as a separately excited one: its field lies on a supply of its own, and sets the speed with the armature's
volts. With the field weak it is faster, with the field lost nothing holds it.
"""

from typing import ClassVar, Literal

from pydantic import Field

from buildsheet.formulas import motor as f
from buildsheet.formulas import shunt as s
from buildsheet.given.bench import FieldPlate, FieldRun, Plate, SpunField
from buildsheet.given.fields import Ohms
from buildsheet.motors.constant_field import ConstantFieldMachine, ConstantFieldMotor
from buildsheet.motors.motor import MotorWinding, SeparateField
from buildsheet.units import VOLT, VOLT_SECOND_PER_RADIAN
from buildsheet.worksheet import Value, Worksheet, unknown

FULL = (0.9, 1.1)  # shares of the full field that count as the whole of it: what a line's tolerance does to it


class ShuntMotor(ConstantFieldMotor):
    """A motor with a field winding of many turns, whose ends come out apart from the armature's."""

    printed: ClassVar[str] = "Motor, shunt field"
    stands_as: ClassVar[str] = "shunt motor"

    kind: Literal["shunt"] = Field(description="Kind of motor: shunt, or separately excited.")
    field_plate: FieldPlate | None = Field(None, description="What the nameplate says of the field.")
    field_winding: Ohms = Field(description="Resistance of the field, cold, as it is joined here.", examples=["145 ohm"])
    spun_field: SpunField | None = Field(
        None, description="Armature volts when turned at a known speed with the whole current in the field."
    )
    free_run: FieldRun | None = Field(None, description="A run without load at low armature volts, the field at the whole of its current.")

    def constants(self, sheet: Worksheet) -> "ShuntMachine":
        """Works out what plate and bench say. Only a test at the whole field tells its constant: iron saturates, so that a test
        at a weak one says nothing of it."""
        resistance, hot, drop = self.resistances(sheet, "armature")
        own = self._field(sheet)
        no_load = self.no_load_current(sheet, resistance, drop)
        spun, run = self.spun_field, self.free_run
        by_spin = spun is not None and _whole(sheet, "motor.p_spun", "field in the spin test, of the whole", spun.current, own.current)
        by_run = run is not None and _whole(sheet, "motor.p_run", "field in the free run, of the whole", run.field, own.current)
        constant = self.constant(sheet, resistance, drop, (spun.voltage, spun.speed) if spun is not None and by_spin else None, run=by_run)
        torque = sheet.work("motor.K_t", f.torque_constant, "torque for each ampere", K_e=constant)
        inductances = self.inductances(sheet, resistance)
        self.plate_power(sheet)
        return ShuntMachine(resistance, hot, drop, inductances, self.plate, constant, torque, no_load, own)

    def _field(self, sheet: Worksheet) -> SeparateField:
        """The field's ohms, cold and warm, and its full current: by the plate, else by volts over warm ohms."""
        cold = sheet.take(self.field_winding)
        warm = sheet.work("motor.R_f_hot", f.resistance_at_temperature, "resistance of the warm field",
                          R_1=cold, T_1=sheet.values["motor.T_b"], T_2=sheet.values["motor.T_w"])  # fmt: skip
        plate = self.field_plate
        volts = sheet.take(plate.voltage) if plate is not None else unknown("motor.field_plate.voltage", VOLT, "not in the file", "field volts on the plate")
        if plate is not None and plate.current.known:
            return SeparateField(cold, warm, volts, sheet.take(plate.current))
        return SeparateField(cold, warm, volts, sheet.work("motor.I_f", s.field_current, "full current of the warm field", V_f=volts, R_f=warm))


def _whole(sheet: Worksheet, id: str, label: str, current: Value, full: Value) -> bool:
    """Whether a test was made at the whole field."""
    share = sheet.work(id, s.field_share, label, I_f=current, I_n=full)
    return share.known and FULL[0] <= float(share) <= FULL[1]


class ShuntMachine(ConstantFieldMachine):
    """A shunt motor with its constants at the whole field, and from when its supply is known at the field that it has."""

    runs_away = (
        "Runaway: the drive's power device shorted, the supply at its highest, no load, the field as weak as its relay lets it become. "
        "With the field lost no sum gives a bound: that is caught by the relay, not survived."
    )

    def __init__(
        self, R: Value, R_hot: Value, U_b: Value, L: tuple[Value, Value], plate: Plate | None, K_e: Value, K_t: Value, I_0: Value, own: SeparateField
    ):
        super().__init__(R, R_hot, U_b, L, plate, K_e, K_t, I_0)
        self.separate_field = self.field = own
        self.whole = K_e
        self.least: Value | None = None

    @property
    def windings(self) -> tuple[MotorWinding, ...]:
        return (MotorWinding("A1", "A2", "armature", self.R), MotorWinding("E1", "E2", "field", self.field.cold, apart=True))

    def excited(self, sheet: Worksheet, share: Value, least: Value) -> None:
        self.least = least
        self.K_e = sheet.work("motor.K_e_w", s.constant_at_share, "back-EMF constant with its field warm", K_e=self.whole, p=share)
        self.K_t = sheet.work("motor.K_t_w", f.torque_constant, "torque for each ampere with its field warm", K_e=self.K_e)
        self.I_0 = sheet.work("motor.I_0_w", s.weak_field_current, "current of the motor running free, its field warm", I=self.I_0, p=share)

    def weakest(self, sheet: Worksheet) -> Value:
        label = "back-EMF constant with its field as weak as its relay lets it become"
        if self.least is None:
            return sheet.unsolved("runaway.K_e", VOLT_SECOND_PER_RADIAN, "nothing says how weak its field may become", label)
        return sheet.work("runaway.K_e", s.constant_at_share, label, K_e=self.whole, p=self.least)
