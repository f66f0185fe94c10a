"""Permanent-magnet DC motor: what its plate and a bench test say."""

from typing import ClassVar, Literal

from pydantic import Field

from buildsheet.formulas import motor as f
from buildsheet.given.bench import Spun
from buildsheet.motors.constant_field import ConstantFieldMachine, ConstantFieldMotor
from buildsheet.motors.motor import MotorWinding
from buildsheet.worksheet import Value, Worksheet


class MagnetDC(ConstantFieldMotor):
    """A DC motor whose field is made by magnets."""

    printed: ClassVar[str] = "Motor, permanent magnet"
    stands_as: ClassVar[str] = "magnet motor"

    kind: Literal["magnet-dc"] = Field(description="Kind of motor.")
    spun: Spun | None = Field(None, description="Volts when turned at a known speed.")

    def constants(self, sheet: Worksheet) -> "MagnetMachine":
        """Works out what plate and bench say; where both say it, both stand on the sheet and the bench is used."""
        resistance, hot, drop = self.resistances(sheet, "armature")
        no_load = self.no_load_current(sheet, resistance, drop)
        constant = self.constant(sheet, resistance, drop, (self.spun.voltage, self.spun.speed) if self.spun else None)
        torque = sheet.work("motor.K_t", f.torque_constant, "torque for each ampere", K_e=constant)
        inductances = self.inductances(sheet, resistance)
        self.plate_power(sheet)
        return MagnetMachine(resistance, hot, drop, inductances, self.plate, constant, torque, no_load)


class MagnetMachine(ConstantFieldMachine):
    """A magnet motor with its constants. Its field needs no supply, so that it brakes itself on a resistor."""

    @property
    def windings(self) -> tuple[MotorWinding, ...]:
        return (MotorWinding("A1", "A2", "armature", self.R),)

    @property
    def own_field(self) -> tuple[Value, Value, Value] | None:
        return None if self.plate is None else (self.K_e, self.R, self.plate.current)
