"""What motors whose field does not follow the armature's current have in common, magnets or a winding fed by itself: back-EMF
in proportion to speed, torque in proportion to current.
"""

from buildsheet.formulas import motor as f
from buildsheet.given.bench import Asked, Plate
from buildsheet.motors.brushed import BrushedMachine, BrushedMotor
from buildsheet.motors.solved import Solved, worst
from buildsheet.reference import Region
from buildsheet.sizing.waist import SOLVED, Point, Steered
from buildsheet.units import AMPERE, VOLT, VOLT_SECOND_PER_RADIAN
from buildsheet.waveforms import DIODE_BRIDGE, NotSolved, Source, back_emf_for
from buildsheet.worksheet import Model, Value, Worksheet, unknown


class ConstantFieldMotor(BrushedMotor):
    """A motor with a field that stands."""

    def constant(self, sheet: Worksheet, resistance: Value, drop: Value, spun: tuple[Value, Value] | None, *, run: bool = True) -> Value:
        """The back-EMF constant: by volts and speed of a spin test, else by a run without load where that counts, else by the
        plate."""
        plate = unknown(
            "motor.K_e_plate", VOLT_SECOND_PER_RADIAN, "no nameplate", "back-EMF constant by the plate"
        )
        if self.plate:
            emf = self.rated_emf(sheet, self.plate, resistance, drop)
            plate = sheet.work(
                "motor.K_e_plate",
                f.back_emf_constant,
                "back-EMF constant by the plate",
                E=emf,
                omega=self.plate.speed,
            )
        if run and self.free_run and self.free_run.current.known:
            free = self.free_run
            sheet.work("motor.K_e_run", f.free_run_constant, "back-EMF constant by the free run",
                       V=free.voltage, I_0=free.current, R=resistance, U_b=drop, omega_0=free.speed)  # fmt: skip
        if spun is not None and all(value.known for value in spun):
            return sheet.work("motor.K_e", f.back_emf_constant, "back-EMF constant, spun", E=spun[0], omega=spun[1])
        return sheet.values.get("motor.K_e_run", plate)

    @staticmethod
    def rated_emf(sheet: Worksheet, plate: Plate, resistance: Value, drop: Value) -> Value:
        """Back-EMF at the plate's volts and amperes."""
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

    def no_load_current(self, sheet: Worksheet, resistance: Value, drop: Value) -> Value:
        """Current that its own losses take: by the run without load, else by the plate."""
        if self.free_run and self.free_run.current.known:
            return sheet.take(self.free_run.current.relabelled("current of the motor running free", "I_0"))
        if self.plate:
            emf = self.rated_emf(sheet, self.plate, resistance, drop)
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


class ConstantFieldMachine(BrushedMachine):
    """A motor with a field that stands, with its constants: K_e, K_t, and the current I_0 that it takes running free."""

    def __init__(self, R: Value, R_hot: Value, U_b: Value, L: tuple[Value, Value], plate: Plate | None, K_e: Value, K_t: Value, I_0: Value):
        super().__init__(R, R_hot, U_b, L, plate)
        self.K_e, self.K_t, self.I_0 = K_e, K_t, I_0

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
        return sheet.work("runaway.omega", f.speed_of_emf, "motor speed at runaway", E=emf, K_e=self.weakest(sheet))

    def weakest(self, sheet: Worksheet) -> Value:
        """Its back-EMF constant with its field as weak as it may become."""
        del sheet
        return self.K_e

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
