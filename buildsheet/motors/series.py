"""Series motor, universal motors among them: what the bench says of it, and its operating point on direct current."""

from typing import ClassVar, Literal

from pydantic import Field

from buildsheet.formulas import motor as f
from buildsheet.formulas import series as s
from buildsheet.formulas.choke import resistance_in_a_row
from buildsheet.formulas.induction import sine_crest
from buildsheet.given.bench import Asked, Plate, SpunField
from buildsheet.given.fields import Ohms
from buildsheet.motors.brushed import BrushedMachine, BrushedMotor
from buildsheet.motors.motor import MotorWinding
from buildsheet.motors.solved import Found, Solved, worst_of
from buildsheet.reference import Region
from buildsheet.sizing.alternating import AlternatingLine, CutLine
from buildsheet.sizing.waist import Applied, Point, Steered, Wave
from buildsheet.units import (
    AMPERE,
    NEWTON_METRE_PER_AMPERE_SQUARED,
    RADIAN,
    RADIAN_PER_SECOND,
    SHARE,
    VOLT,
    Unit,
)
from buildsheet.waveforms import Alternating, NotSolved
from buildsheet.worksheet import Model, Value, Worksheet, unknown

RUNS_AWAY = "a series motor without load has no speed of its own: it runs away"
ON_LINE = "Runaway: nothing coupled, the supply at its highest."
BEHIND_TRIAC = "Runaway: the triac shorted or turned up, the supply at its highest, nothing coupled."
TURNS, CLOSE = 40, 1e-9  # of the search for the average current that makes the wanted RMS current


class SeriesMotor(BrushedMotor):
    """A motor whose field carries the armature's current: it runs on direct and on alternating current."""

    printed: ClassVar[str] = "Motor, series field"
    stands_as: ClassVar[str] = "series motor"
    drawn: ClassVar[str] = "AC/DC"

    kind: Literal["series"] = Field(description="Kind of motor: universal or series.")
    field_winding: Ohms = Field(
        description="Resistance of the field alone, both halves in a row.", examples=["1.2 ohm"]
    )
    spun_field: SpunField | None = Field(
        None, description="Armature volts when turned at a known speed with a current in the field alone."
    )

    def constants(self, sheet: Worksheet) -> "SeriesMachine":
        """Works out the constant by the spin test, or by the run at a low voltage."""
        resistance, hot, drop = self.resistances(sheet, "motor")
        constant = self._constant(sheet, resistance, drop)
        run = self.free_run
        free = unknown("motor.I_0", AMPERE, "no run without load at a low voltage", "current of the motor running free")
        if run is not None and run.current.known:
            free = sheet.take(run.current.relabelled("current of the motor running free", "I_0"))
        own = sheet.work("motor.T_0", s.series_torque, "torque of the motor's own losses", k=constant, I=free)
        armature = sheet.work("motor.R_arm", s.rest_of_resistance, "resistance of the armature alone", R=resistance, R_f=self.field_winding)
        self.plate_power(sheet)
        return SeriesMachine(resistance, hot, drop, self.inductances(sheet, resistance), self.plate, constant, own, free, armature, sheet.take(self.field_winding))

    def _constant(self, sheet: Worksheet, resistance: Value, drop: Value) -> Value:
        label = "constant of the series motor"
        run = self.free_run
        by_run = unknown("motor.k_run", NEWTON_METRE_PER_AMPERE_SQUARED, "no run at a low voltage and no spin test", f"{label}, by the run")
        if run is not None and run.current.known:
            by_run = sheet.work("motor.k_run", s.series_constant, f"{label}, by the run",
                                V=run.voltage, I=run.current, R=resistance, U_b=drop, omega=run.speed)  # fmt: skip
        spun = self.spun_field
        if spun is None:
            return by_run
        return sheet.work("motor.k", s.series_constant_spun, f"{label}, spun", E=spun.voltage, I=spun.current, omega=spun.speed)


class SeriesMachine(BrushedMachine):
    """A series motor with its constants: k, the torque T_0 of its own losses, the current I_0 that makes it, the resistances of armature and field.

    Its back-EMF goes with the current at every moment, as the volts of a resistor do, so that its waveform is that of a
    circuit with a larger resistance and no back-EMF: exact while the iron does not saturate.
    """

    def __init__(
        self, R: Value, R_hot: Value, U_b: Value, L: tuple[Value, Value], plate: Plate | None, k: Value, T_0: Value, I_0: Value, R_a: Value, R_f: Value
    ):
        super().__init__(R, R_hot, U_b, L, plate)
        self.k, self.T_0, self.I_0, self.R_a, self.R_f = k, T_0, I_0, R_a, R_f

    @property
    def windings(self) -> tuple[MotorWinding, ...]:
        return (MotorWinding("A1", "A2", "armature", self.R_a), MotorWinding("D1", "D2", "field", self.R_f))

    def connect(self, sheet: Worksheet, applied: Applied) -> None:
        """On the line its start is held back by its impedance alone, and nothing but its load holds its speed."""
        if isinstance(applied, AlternatingLine | CutLine):
            self.runs_away = ON_LINE if isinstance(applied, AlternatingLine) else BEHIND_TRIAC
            self.X = sheet.work("motor.X", s.coil_reactance, "reactance of its windings on this line", f=applied.frequency, L=self.L[0])
            self.at_start = sheet.work("motor.I_lr", s.held_alternating_current, "current with the rotor held", V=applied.highest, R=self.R, X=self.X)

    def point(self, sheet: Worksheet, tag: str, label: str, applied: Applied, omega: Value, torque: Value) -> Point:
        if isinstance(applied, AlternatingLine):
            return self._on_line(sheet, tag, label, applied, torque)
        if isinstance(applied, CutLine):
            return self._behind_triac(sheet, tag, label, applied, omega, torque)
        return super().point(sheet, tag, label, applied, omega, torque)

    def _on_line(self, sheet: Worksheet, tag: str, label: str, applied: AlternatingLine, torque: Value) -> Point:
        """The speed is what the load lets it have: its current makes the torque, and what the impedance leaves of the line is
        its back-EMF."""
        current = sheet.work(f"{tag}.I", s.loaded_series_current, f"current that makes the torque, RMS, {label}", T=torque, T_0=self.T_0, k=self.k)
        emf = sheet.work(f"{tag}.E", s.alternating_back_emf, f"back-EMF, RMS, {label}", V=applied.voltage, I=current, X=self.X, R=self.R_loop, U_b=self.U_b)
        speed = sheet.work(f"{tag}.omega", s.series_speed, f"speed that the motor has, {label}", E=emf, k=self.k, I=current)
        factor = sheet.work(f"{tag}.cos", s.series_power_factor, f"power factor, {label}", E=emf, I=current, R=self.R_loop, V=applied.voltage)
        crest = sheet.work(f"{tag}.I_peak", sine_crest, f"crest of the current, {label}", I=current)
        return Point(
            tag, label, speed, torque,
            current=current, emf=None, terminal=applied.voltage, rms=current, peak=crest, form_factor=None, line=current, drawn=None,
            setting=unknown(f"{tag}.x", SHARE, "nothing sets its speed", f"setting, {label}"), inductance=None, wave=None, more=(emf, factor),
        )  # fmt: skip

    def _behind_triac(self, sheet: Worksheet, tag: str, label: str, applied: CutLine, omega: Value, torque: Value) -> Point:
        """The firing angle at which the current that makes the torque flows at this speed, the worst of the inductance's band."""
        current = sheet.work(f"{tag}.I", s.loaded_series_current, f"current that makes the torque, RMS, {label}", T=torque, T_0=self.T_0, k=self.k)
        motion = sheet.work(f"{tag}.R_w", s.motion_resistance, f"back-EMF as a resistance, {label}", k=self.k, omega=omega)
        drop = sheet.work(f"{tag}.U_path", f.path_drop, f"drops along the path, {label}", U_d=applied.drop, U_b=self.U_b)
        emf = sheet.work(f"{tag}.E", s.series_emf, f"back-EMF, RMS, {label}", k=self.k, omega=omega, I=current)
        asked = {**applied.inputs, "U_path": drop, "R": self.R_loop, "R_w": motion, "I": current}
        missing = tuple(value for value in (*asked.values(), *self.L) if not value.known)
        found = Found(None, self.L[0]) if missing else worst_of(self.L, lambda L: applied.wave(float(self.R_loop), L, float(motion), float(current), float(drop)))
        model = Model(applied.shape, asked | {"L": found.inductance}, f"the current in the motor over {applied.period}", s.SERIES)
        wave = found.wave if isinstance(found.wave, Alternating) else None

        def out(symbol: str, unit: Unit, name: str, number: float | None) -> Value:
            if number is None:
                return sheet.unsolved(f"{tag}.{symbol}", unit, f"needs {missing[0].label}" if missing else found.refusal, f"{name}, {label}", missing)
            return sheet.solved(f"{tag}.{symbol}", number, unit, model, f"{name}, {label}")

        felt = out("I_rms", AMPERE, "current as heat feels it", wave.rms_current if wave else None)
        return Point(
            tag, label, omega, torque,
            current=current, emf=None, terminal=out("V", VOLT, "volts at the motor, RMS", wave.rms_voltage if wave else None), rms=felt,
            peak=out("I_peak", AMPERE, "crest of the current", wave.peak_current if wave else None), form_factor=None, line=felt, drawn=None,
            setting=out("alpha", RADIAN, "firing angle", wave.alpha if wave else None), inductance=found.inductance, wave=wave,
            more=(emf, out("cos", SHARE, "power factor", wave.power_factor if wave else None)),
        )  # fmt: skip

    def runaway(self, sheet: Worksheet, applied: Applied) -> Value:
        if not isinstance(applied, AlternatingLine | CutLine):
            return super().runaway(sheet, applied)
        label = "back-EMF without load, the line at its highest"
        emf = sheet.work("runaway.E", s.alternating_back_emf, label, V=applied.highest, I=self.I_0, X=self.X, R=self.R, U_b=self.U_b)
        return sheet.work("runaway.omega", s.series_runaway_speed, "motor speed at runaway", E=emf, k=self.k, T_0=self.T_0)

    def steered(self, sheet: Worksheet, tag: str, label: str, applied: Steered, omega: Value, torque: Value) -> Point:
        wanted = sheet.work(f"{tag}.I_T", s.loaded_series_current, f"current that makes the torque, {label}", T=torque, T_0=self.T_0, k=self.k)
        motion = sheet.work(f"{tag}.R_w", s.motion_resistance, f"back-EMF as a resistance, {label}", k=self.k, omega=omega)
        whole = sheet.work(f"{tag}.R", resistance_in_a_row, f"the same with that of the windings, {label}", R_1=self.R_loop, R_2=motion)
        drops = {
            symbol: sheet.work(f"{tag}.{symbol}", f.path_drop, f"drops along the path, {label}", U_d=drop, U_b=self.U_b)
            for symbol, drop in applied.drops.items()
        }
        asked = {**applied.inputs, **drops, "R": whole, "I_T": wanted}
        found = self._solve(applied, asked, whole, wanted, tuple(drops.values()))
        asked |= {"L": found.inductance}
        average = self._average(sheet, tag, label, applied, asked, found)
        emf = sheet.work(f"{tag}.E", s.series_emf, f"back-EMF, {label}", k=self.k, omega=omega, I=average)
        terminal = sheet.work(f"{tag}.V_a", f.terminal_voltage, f"volts at {self.where}, {label}",
                              K_e=sheet.work(f"{tag}.K_e", f.back_emf_constant, f"back-EMF for each unit of speed, {label}", E=emf, omega=omega),
                              omega=omega, I=average, R=self.R_loop, U_b=self.U_b)  # fmt: skip
        return Point(tag, label, omega, torque, average, emf, terminal, *Solved(sheet, tag, label, applied, found, asked, terminal).figures())

    def _solve(self, applied: Steered, asked: dict[str, Value], whole: Value, wanted: Value, drops: tuple[Value, ...]) -> Found:
        """The wave whose RMS current makes the torque: its average is searched for."""
        if not all(value.known for value in (*asked.values(), *self.L)):
            return Found(None, self.L[0])
        volts = tuple(float(drop) for drop in drops)

        def wave(L: float) -> Wave:
            average = float(wanted)
            for _ in range(TURNS):
                solved = applied.wave(float(whole), L, 0.0, average, volts)
                nearer = float(wanted) / solved.form_factor
                if abs(nearer - average) <= CLOSE * average:
                    return solved
                average = nearer
            raise NotSolved("the average current that makes the torque was not found")

        return worst_of(self.L, wave)

    def _average(self, sheet: Worksheet, tag: str, label: str, applied: Steered, asked: dict[str, Value], found: Found) -> Value:
        solved = Model(applied.shape, asked, f"the current in the motor over {applied.period}", s.SERIES)
        mean = float(asked["I_T"]) / found.wave.form_factor if found.wave is not None else None
        if mean is None:
            missing = tuple(value for value in asked.values() if not value.known)
            why = f"needs {missing[0].label}" if missing else found.refusal
            return sheet.unsolved(f"{tag}.I_a", asked["I_T"].unit, why, f"average current, {label}", missing)
        return sheet.solved(f"{tag}.I_a", mean, asked["I_T"].unit, solved, f"average current, {label}")

    def loose(self, sheet: Worksheet, applied: Steered) -> Value:
        emf = applied.loose_emf(sheet, self.R, self.L[0], self.I_0, self.U_b)
        return sheet.work("runaway.omega", s.series_runaway_speed, "motor speed at runaway", E=emf, k=self.k, T_0=self.T_0)

    def losses(self, sheet: Worksheet) -> Value:
        return sheet.work("coast.T_0", s.series_torque, "torque of the motor's own losses", k=self.k, I=self.I_0)

    def free_speed(self, sheet: Worksheet, id: str, label: str, volts: Value) -> Value:
        del volts
        return sheet.unsolved(id, RADIAN_PER_SECOND, RUNS_AWAY, label)

    def bridge_speed(self, sheet: Worksheet, region: Region, line: Value, frequency: Value) -> Value:
        del region, line, frequency
        return sheet.unsolved("alone.omega_s", RADIAN_PER_SECOND, RUNS_AWAY, "speed without load on a bare bridge")

    def asked(self, sheet: Worksheet, ask: Asked) -> tuple[Value, Value]:
        current = sheet.work("ask.I", s.loaded_series_current, "current at the torque that was asked", T=ask.torque, T_0=self.T_0, k=self.k)
        emf = sheet.work("ask.E", f.back_emf, "back-EMF there", V=ask.voltage, I=current, R=self.R, U_b=self.U_b)
        return current, sheet.work("ask.omega", s.series_speed, "speed there", E=emf, k=self.k, I=current)
