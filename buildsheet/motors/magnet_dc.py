"""Permanent-magnet DC motor: what its plate and a bench test say, and its operating point."""

from typing import ClassVar, Literal

from pydantic import Field

from buildsheet.formulas import motor as f
from buildsheet.given.bench import Asked, Plate, Spun
from buildsheet.motors.brushed import BrushedMachine, BrushedMotor
from buildsheet.motors.motor import MotorWinding
from buildsheet.motors.solved import Solved, worst
from buildsheet.reference import Region
from buildsheet.sizing.waist import SOLVED, Point, Steered
from buildsheet.units import AMPERE, VOLT, VOLT_SECOND_PER_RADIAN
from buildsheet.waveforms import DIODE_BRIDGE, NotSolved, Source, back_emf_for
from buildsheet.worksheet import Model, Value, Worksheet, unknown


class MagnetDC(BrushedMotor):
    """A DC motor whose field is made by magnets."""

    printed: ClassVar[str] = "Motor, permanent magnet"
    stands_as: ClassVar[str] = "magnet motor"

    kind: Literal["magnet-dc"] = Field(description="Kind of motor.")
    spun: Spun | None = Field(None, description="Volts when turned at a known speed.")

    def constants(self, sheet: Worksheet) -> "MagnetMachine":
        """Works out what plate and bench say; where both say it, both stand on the sheet and the bench is used."""
        resistance, hot, drop = self.resistances(sheet, "armature")
        no_load = self._no_load_current(sheet, resistance, drop)
        constant = self._constant(sheet, resistance, drop)
        torque = sheet.work("motor.K_t", f.torque_constant, "torque for each ampere", K_e=constant)
        inductances = self.inductances(sheet, resistance)
        self.plate_power(sheet)
        return MagnetMachine(resistance, hot, drop, inductances, self.plate, constant, torque, no_load)

    def _constant(self, sheet: Worksheet, resistance: Value, drop: Value) -> Value:
        plate = unknown(
            "motor.K_e_plate", VOLT_SECOND_PER_RADIAN, "no nameplate", "back-EMF constant by the plate"
        )
        if self.plate:
            emf = self._rated_emf(sheet, self.plate, resistance, drop)
            plate = sheet.work(
                "motor.K_e_plate",
                f.back_emf_constant,
                "back-EMF constant by the plate",
                E=emf,
                omega=self.plate.speed,
            )
        if self.free_run and self.free_run.current.known:
            run = self.free_run
            sheet.work("motor.K_e_run", f.free_run_constant, "back-EMF constant by the free run",
                       V=run.voltage, I_0=run.current, R=resistance, U_b=drop, omega_0=run.speed)  # fmt: skip
        if self.spun and self.spun.voltage.known and self.spun.speed.known:
            return sheet.work(
                "motor.K_e",
                f.back_emf_constant,
                "back-EMF constant, spun",
                E=self.spun.voltage,
                omega=self.spun.speed,
            )
        return sheet.values.get("motor.K_e_run", plate)

    @staticmethod
    def _rated_emf(sheet: Worksheet, plate: Plate, resistance: Value, drop: Value) -> Value:
        if "motor.E_n" in sheet.values:  # a Value has no truth of its own, so no `or` here
            return sheet.values["motor.E_n"]
        return sheet.work(
            "motor.E_n",
            f.back_emf,
            "back-EMF at the rated point",
            V=plate.voltage,
            I=plate.current,
            R=resistance,
            U_b=drop,
        )

    def _no_load_current(self, sheet: Worksheet, resistance: Value, drop: Value) -> Value:
        if self.free_run and self.free_run.current.known:
            return sheet.take(self.free_run.current.relabelled("current of the motor running free", "I_0"))
        if self.plate:
            emf = self._rated_emf(sheet, self.plate, resistance, drop)
            return sheet.work(
                "motor.I_0",
                f.loss_current,
                "current that its own losses take",
                E=emf,
                I=self.plate.current,
                P=self.plate.power,
            )
        return unknown(
            "motor.I_0", AMPERE, "no free run and no nameplate", "current of the motor running free"
        )


class MagnetMachine(BrushedMachine):
    """A magnet motor with its constants: K_e, K_t, and the current I_0 that it takes running free."""

    def __init__(self, R: Value, R_hot: Value, U_b: Value, L: tuple[Value, Value], plate: Plate | None, K_e: Value, K_t: Value, I_0: Value):
        super().__init__(R, R_hot, U_b, L, plate)
        self.K_e, self.K_t, self.I_0 = K_e, K_t, I_0

    @property
    def windings(self) -> tuple[MotorWinding, ...]:
        return (MotorWinding("A1", "A2", "armature", self.R),)

    @property
    def own_field(self) -> tuple[Value, Value, Value] | None:
        return None if self.plate is None else (self.K_e, self.R, self.plate.current)

    def steered(
        self, sheet: Worksheet, tag: str, label: str, applied: Steered, omega: Value, torque: Value
    ) -> Point:
        """The operating point at a speed and a shaft torque. Form factor, RMS, peak and supply current are the worst of the
        inductance band; unknown inputs give unknown results."""
        current = sheet.work(
            f"{tag}.I_a", f.armature_current, f"armature current, {label}", T=torque, K_t=self.K_t, I_0=self.I_0
        )
        emf = sheet.work(f"{tag}.E", f.emf_at_speed, f"back-EMF, {label}", K_e=self.K_e, omega=omega)
        terminal = sheet.work(
            f"{tag}.V_a",
            f.terminal_voltage,
            f"volts at {self.where}, {label}",
            K_e=self.K_e,
            omega=omega,
            I=current,
            R=self.R_loop,
            U_b=self.U_b,
        )
        drops = {
            symbol: sheet.work(
                f"{tag}.{symbol}", f.path_drop, f"drops along the path, {label}", U_d=drop, U_b=self.U_b
            )
            for symbol, drop in applied.drops.items()
        }
        found = worst(applied, self.L, (self.R_loop, emf, current), tuple(drops.values()))
        asked = {**applied.inputs, **drops, "R": self.R_loop, "L": found.inductance, "E": emf, "I_a": current}
        solved = Solved(sheet, tag, label, applied, found, asked, terminal)
        return Point(tag, label, omega, torque, current, emf, terminal, *solved.figures())

    def loose(self, sheet: Worksheet, applied: Steered) -> Value:
        emf = applied.loose_emf(sheet, self.R, self.L[0], self.I_0, self.U_b)
        return sheet.work("runaway.omega", f.speed_of_emf, "motor speed at runaway", E=emf, K_e=self.K_e)

    def losses(self, sheet: Worksheet) -> Value:
        return sheet.work("coast.T_0", f.loss_torque, "torque of the motor's own losses", K_t=self.K_t, I_0=self.I_0)

    def free_speed(self, sheet: Worksheet, id: str, label: str, volts: Value) -> Value:
        return sheet.work(id, f.speed_at_voltage, label, V=volts, I=self.I_0, R=self.R, U_b=self.U_b, K_e=self.K_e)

    def bridge_speed(self, sheet: Worksheet, region: Region, line: Value, frequency: Value) -> Value:
        del region
        emf = self._bridge_emf(sheet, line, frequency)
        return sheet.work("alone.omega_s", f.speed_of_emf, "speed without load on a bare bridge", E=emf, K_e=self.K_e)

    def _bridge_emf(self, sheet: Worksheet, line: Value, frequency: Value) -> Value:
        label = "back-EMF on a bare bridge, without load"
        asked = {"V_s": line, "f": frequency, "R": self.R, "L": self.L[0], "I_0": self.I_0}
        missing = tuple(value for value in asked.values() if not value.known)
        if missing:
            return sheet.unsolved("alone.E", VOLT, f"needs {missing[0].label}", label, missing)
        try:
            source = Source(float(line), float(frequency))
            wave = back_emf_for(DIODE_BRIDGE, source, float(self.R), float(self.L[0]), float(self.I_0))
        except NotSolved as refusal:
            return sheet.unsolved("alone.E", VOLT, str(refusal), label)
        model = Model(DIODE_BRIDGE.label, asked, "the back-EMF at which the no-load current still flows", SOLVED)
        return sheet.solved("alone.E", wave.load.E, VOLT, model, label)

    def asked(self, sheet: Worksheet, ask: Asked) -> tuple[Value, Value]:
        current = sheet.work("ask.I", f.armature_current, "current at the torque that was asked",
                             T=ask.torque, K_t=self.K_t, I_0=self.I_0)  # fmt: skip
        sheet.work("ask.E", f.back_emf, "back-EMF there", V=ask.voltage, I=current, R=self.R, U_b=self.U_b)
        speed = sheet.work("ask.omega", f.speed_at_voltage, "speed there", V=ask.voltage, I=current, R=self.R, U_b=self.U_b, K_e=self.K_e)
        return current, speed
