"""Single-phase induction motors straight on the line: split-phase, capacitor-start, permanent-split-capacitor, shaded-pole."""

from collections.abc import Mapping
from typing import ClassVar, Literal, NamedTuple

from pydantic import Field

from buildsheet.formulas import induction as f
from buildsheet.formulas.motor import copper_loss
from buildsheet.given.alternating import LinePlate, MotorCapacitor
from buildsheet.given.fields import Amperes, Ohms
from buildsheet.motors.induction import (
    NEAR,
    InductionMachine,
    empty_rating,
    idle_share,
    no_frequency,
    plate_rating,
    warm,
)
from buildsheet.motors.motor import Motor, MotorWinding, Rating, Reversal, Starting, no_runaway, nothing_made
from buildsheet.sizing.alternating import AlternatingLine
from buildsheet.sizing.waist import Applied, Point
from buildsheet.units import FARAD, SHARE, VOLT
from buildsheet.worksheet import Value, Worksheet, unknown

SinglePhaseKind = Literal["split-phase", "capacitor-start", "permanent-split-capacitor", "shaded-pole"]


class Build(NamedTuple):
    """How a kind is built: its name on paper and in the matrix of what may stand behind what; whether a second winding, a
    switch that opens at speed and a capacitor turn its field round."""

    printed: str
    stands_as: str
    second: bool
    switch: bool
    capacitor: bool


BUILDS: dict[SinglePhaseKind, Build] = {
    "split-phase": Build("Motor, split-phase", "split-phase motor", second=True, switch=True, capacitor=False),
    "capacitor-start": Build("Motor, capacitor-start", "capacitor-start motor", second=True, switch=True, capacitor=True),
    "permanent-split-capacitor": Build("Motor, capacitor-run", "capacitor-run motor", second=True, switch=False, capacitor=True),
    "shaded-pole": Build("Motor, shaded-pole", "fan motor", second=False, switch=False, capacitor=False),
}


class SinglePhase(Motor):
    """An induction motor for one phase: which kind, says what turns its field round."""

    drawn: ClassVar[str] = "AC"

    kind: SinglePhaseKind = Field(description="Kind of motor.")
    plate: LinePlate | None = Field(None, description="What the nameplate says.")
    run_winding: Ohms = Field(description="Resistance of the run winding alone.", examples=["2.1 ohm"])
    start_winding: Ohms = Field(
        description="Resistance of the start or auxiliary winding alone; a shaded-pole motor has none.", examples=["9 ohm"]
    )
    leads: Literal["three", "four"] | None = Field(
        None,
        description="How many leads come out of its two windings: four are both ends of each; of three, run and start winding share one inside. Only four can be reversed.",
    )
    capacitor: MotorCapacitor | None = Field(None, description="Its own capacitor, by its marks.")
    idle: Amperes = Field(description="Current without load on its line, belt off, if measured.", examples=["5.2 A"])

    @property
    def build(self) -> Build:
        """How its kind is built."""
        return BUILDS[self.kind]

    @property
    def printed(self) -> str:
        return self.build.printed

    @property
    def stands_as(self) -> str:
        return self.build.stands_as

    @property
    def windings(self) -> tuple[MotorWinding, ...]:
        """Its windings for the circuit: IEC 60034-8 marks the main one U and the auxiliary one Z."""
        run = MotorWinding("U1", "U2", "run", self.run_winding)
        if not self.build.second:
            return (run,)
        return run, MotorWinding("Z1", run.b if self.leads == "three" else "Z2", "start", self.start_winding)

    @property
    def reversal(self) -> Reversal:
        """By its start winding, whose current then leads or lags the other way round against the run winding's."""
        if not self.build.second:
            return Reversal(why="Copper rings on its poles set its direction: no wire turns it round.", instead="Write reverse: false, or take another motor. Taken apart and put together with its stator end for end it turns the other way, and then only so.")
        if self.leads is None:
            return Reversal(
                why="Both ends of its start winding must come out by themselves, and the file does not say whether they do.",
                instead="Look for four leads, in two pairs that show nothing from pair to pair, and write motor: leads: four; or write reverse: false.",
                asks="motor.leads",
            )
        if self.leads == "three":
            return Reversal(
                why="With three leads one end of its start winding is joined to its run winding inside, where no switch reaches.",
                instead="Let a winder bring that end out, then write motor: leads: four; or write reverse: false; or take another motor.",
            )
        if self.build.switch:
            return Reversal(self.windings[-1], "switched over while it turns, this motor goes on the old way", "At speed its start winding is out: the lever says one way, and the tool runs the other.")
        return Reversal(self.windings[-1], "switched over while it turns, this motor may go on the old way, or brake with a jerk", "Either winding alone keeps a turning rotor turning; against each other they draw current as at a start.")

    @property
    def starting(self) -> Starting | None:
        """What turns its field round; None where a ring of copper in each pole does."""
        if not self.build.second:
            return None
        given = self.capacitor
        if not self.build.capacitor:
            return Starting(self.build.switch, None, None)
        if given is None:
            missing = unknown("motor.capacitor.capacitance", FARAD, "not in the file", "capacitance of the motor's capacitor")
            return Starting(self.build.switch, missing, unknown("motor.capacitor.voltage", VOLT, "not in the file", "volts on the motor's capacitor"))
        return Starting(self.build.switch, given.capacitance, given.voltage)

    def constants(self, sheet: Worksheet) -> "SinglePhaseMachine":
        """Works out field, slip and torque by the plate."""
        plate = self.plate
        rating, frequency = empty_rating(), no_frequency()
        if plate is not None:
            rating, frequency = plate_rating(plate.voltage, plate.current, plate.speed, plate.power), sheet.take(plate.frequency)
        idle = idle_share(sheet, self.idle, rating.current, "idle share, one phase")
        if plate is not None and plate.locked.known:
            locked = sheet.take(plate.locked)
        else:
            times = sheet.assume("motor.k_lr", "locked rotor")
            locked = sheet.work("motor.I_lr", f.locked_rotor_estimate, "current with the rotor held", I_n=rating.current, k=times)
        return SinglePhaseMachine(sheet, rating, frequency, idle, locked, warm(sheet, self.run_winding), self)


class SinglePhaseMachine(InductionMachine):
    """A single-phase motor with its constants: idle share, current with the rotor held, warm resistance of its run winding."""

    suits: ClassVar[Mapping[str, str]] = {
        "power": "power: {way: straight-on-line}",
        "machine": "machine: {name: ..., kind: other, speed: 60..60 rpm, torque: 2 N·m}",
    }
    runs_away = "Runaway: no load, when the motor nears the speed of its field and can't pass it."

    def __init__(
        self, sheet: Worksheet, rating: Rating, frequency: Value, idle: Value, locked: Value, R_hot: Value,
        given: SinglePhase,
    ):  # fmt: skip
        super().__init__(sheet, rating, frequency)
        self.idle, self.at_start, self.R_hot = idle, locked, R_hot
        self.given, self.starting = given, given.starting

    @property
    def windings(self) -> tuple[MotorWinding, ...]:
        return self.given.windings

    @property
    def reversal(self) -> Reversal:
        return self.given.reversal

    def connect(self, sheet: Worksheet, applied: Applied) -> None:
        del sheet
        self.refuses = self.refuses or self._refusal(applied)

    def _refusal(self, applied: Applied) -> str:
        if not isinstance(applied, AlternatingLine):
            return f"a single-phase induction motor is not worked on {applied.shape}"
        made, line = (self.rated.voltage, self.frequency), (applied.voltage, applied.frequency)
        if all(value.known for value in (*made, *line)):
            if round(float(made[1])) != round(float(line[1])):
                return "the motor is made for another frequency than the line's"
            if abs(float(made[0]) / float(line[0]) - 1) > NEAR:
                return "the motor is made for another voltage than the line's"
        return ""

    def point(self, sheet: Worksheet, tag: str, label: str, applied: Applied, omega: Value, torque: Value) -> Point:
        """The speed is the motor's own, whatever is asked: `omega` is what the tool wants. Current by the plate; unknown
        where the torque is beyond what the straight line of slip holds for."""
        if self.refuses or not isinstance(applied, AlternatingLine):
            return nothing_made(sheet, tag, label, applied, omega, torque, self.refuses or self._refusal(applied))
        k = self.share(sheet, tag, label, torque)
        slip = sheet.work(f"{tag}.s", f.slip_near_rated, f"slip, {label}", s_n=self.slip, k=k)
        speed = sheet.work(f"{tag}.omega", f.speed_at_slip, f"speed that the motor has, {label}", omega_s=self.field, s=slip)
        current = sheet.work(f"{tag}.I", f.current_at_share, f"current of the motor, {label}", I_n=self.rated.current, p_0=self.idle, k=k)
        crest = sheet.work(f"{tag}.I_peak", f.sine_crest, f"crest of the current, {label}", I=current)
        return Point(
            tag, label, speed, torque,
            current=current, emf=None, terminal=applied.voltage, rms=current, peak=crest, form_factor=None,
            line=current, drawn=None, setting=unknown(f"{tag}.x", SHARE, "nothing sets its speed", f"setting, {label}"), inductance=None, wave=None, more=(slip,),
        )  # fmt: skip

    def runaway(self, sheet: Worksheet, applied: Applied) -> Value:
        """Without load it nears the speed of its field and can't pass it."""
        if not isinstance(applied, AlternatingLine):
            return no_runaway(sheet, self._refusal(applied))
        return sheet.work("runaway.omega", f.synchronous_speed, "fastest that the line can turn the motor: its field", f=applied.frequency, p=self.poles)

    def winding_loss(self, sheet: Worksheet, point: Point) -> Value:
        return sheet.work("heat.P_cu", copper_loss, "heat of the run winding", I_rms=point.rms, R=self.R_hot)
