"""Three-phase induction motor behind an inverter: linked in delta or star by the inverter's volts, frequency by the speed."""

from collections.abc import Mapping
from typing import ClassVar, Literal

from pydantic import Field

from buildsheet.formulas import induction as f
from buildsheet.formulas import inverter as v
from buildsheet.given.alternating import ThreePhasePlate
from buildsheet.given.fields import Amperes, Ohms
from buildsheet.motors.induction import (
    NEAR,
    InductionMachine,
    empty_rating,
    idle_share,
    no_frequency,
    not_on_plate,
    plate_rating,
    warm,
)
from buildsheet.motors.motor import Motor, MotorWinding, Rating, Reversal, no_runaway, nothing_made
from buildsheet.sizing.alternating import ThreePhase
from buildsheet.sizing.waist import Applied, Point
from buildsheet.units import AMPERE, SHARE, VOLT
from buildsheet.worksheet import Value, Worksheet, unknown

Link = Literal["delta", "star"]


class ThreePhaseMotor(Motor):
    """An induction motor for three phases."""

    printed: ClassVar[str] = "Motor, three-phase"
    stands_as: ClassVar[str] = "three-phase motor"
    drawn: ClassVar[str] = "AC"

    kind: Literal["three-phase"] = Field(description="Kind of motor.")
    plate: ThreePhasePlate | None = Field(None, description="What the nameplate says.")
    leads: Literal["three", "six"] | None = Field(
        None, description="How many leads come out: three are linked inside, six are linked by you in delta or star."
    )
    winding: Ohms = Field(description="Resistance between two leads, linked as it is run.", examples=["28 ohm"])
    idle: Amperes = Field(description="Current without load at full frequency, if measured.", examples=["1.1 A"])

    def constants(self, sheet: Worksheet) -> "ThreePhaseMachine":
        """Works out field, slip and torque by the plate; how it is linked follows from what feeds it."""
        plate = self.plate
        rating, frequency = empty_rating(), no_frequency()
        if plate is not None:
            rating, frequency = plate_rating(plate.voltage, plate.current, plate.speed, plate.power), sheet.take(plate.frequency)
        return ThreePhaseMachine(sheet, rating, frequency, self)


class ThreePhaseMachine(InductionMachine):
    """A three-phase motor with its constants. `link` is how its windings are joined, None where nothing fits.

    Between its leads lie three equal windings in a triangle: so reads a star too from outside.
    """

    suits: ClassVar[Mapping[str, str]] = {
        "power": "power: {way: frequency-inverter, line_voltage: $line, input: one phase, rated: 4 A}",
        "controls": "controls: {overload: {by: inverter, setting: 2 A}}",
    }
    runs_away = "Runaway: the inverter at the highest frequency that it can give, by a fault or a wrong setting, no load. Its shorted device makes no turning field."
    link: Link | None = None

    def __init__(self, sheet: Worksheet, rating: Rating, frequency: Value, given: ThreePhaseMotor):
        super().__init__(sheet, rating, frequency)
        self.given = given
        self.R_hot = warm(sheet, given.winding)
        self.R_d = sheet.work("motor.R_d", v.delta_winding, "winding as it reads between two leads, taken as a triangle", R=given.winding)
        self.idle = unknown("motor.p_0", SHARE, "not linked yet")

    @property
    def windings(self) -> tuple[MotorWinding, ...]:
        return tuple(MotorWinding(a, b, "phase", self.R_d) for a, b in (("U", "V"), ("V", "W"), ("W", "U")))

    @property
    def to_set(self) -> tuple[tuple[str, Value], ...]:
        rated = self.rated
        return (
            ("Motor volts", rated.voltage),
            ("Motor frequency, the base", self.frequency),
            ("Motor current, its overload protection", rated.current),
            ("Motor speed", rated.speed),
        )

    @property
    def reversal(self) -> Reversal:
        return Reversal(
            why="An inverter reverses by its own input alone; a switch in the motor's leads would kill it.",
            instead="Write reverse: false, and turn it round once by swapping two of U, V, W.",
        )

    @property
    def linking(self) -> str:
        if self.given.leads != "six" or self.link is None:
            return ""
        bars = "W2 to U1, U2 to V1 and V2 to W1" if self.link == "delta" else "W2, U2 and V2 to one another"
        return f"Open the motor's terminal box and link its six ends in {self.link}: {bars}, by the sketch in its lid. The cable goes on U1, V1 and W1."

    def connect(self, sheet: Worksheet, applied: Applied) -> None:
        """Delta or star, by which of the plate's volts the inverter gives."""
        if not isinstance(applied, ThreePhase):
            self.refuses = self.refuses or f"a three-phase motor is not worked on {applied.shape}"
            return
        plate, most = self.given.plate, applied.ceiling
        volts, amperes = self.rated.voltage, self.rated.current
        star = (plate.star_voltage, plate.star_current) if plate is not None else (not_on_plate("star_voltage", VOLT, "higher volts on the plate"), amperes)
        if _same(volts, most):
            self.link = "delta"
        elif _same(star[0], most):
            self.link = "star"
            volts, amperes = star
        elif volts.known and most.known:
            why = "neither voltage of the plate is what the inverter gives"
            self.refuses = self.refuses or why
            volts = sheet.unsolved("motor.V_n", VOLT, why, "volts of the plate for this inverter")
            amperes = sheet.unsolved("motor.I_n", AMPERE, why, "current of the plate for this inverter")
        self.rated = plate_rating(sheet.take(volts), sheet.take(amperes), self.rated.speed, self.rated.power)
        self.idle = idle_share(sheet, self.given.idle, self.rated.current, "idle share, three phases")
        self.loss = self._loss(sheet)

    def _loss(self, sheet: Worksheet) -> Value:
        plate = self.given.plate
        if plate is None:
            factor = sheet.assume("motor.cos", "power factor, three phases")
        else:
            factor = sheet.known_or_assumed(plate.factor, "power factor, three phases")
        share = sheet.work("motor.eta_n", v.three_phase_efficiency, "efficiency by the plate",
                           P=self.rated.power, V=self.rated.voltage, I=self.rated.current, k_p=factor)  # fmt: skip
        return sheet.work("motor.P_l", v.loss_of_power, "losses of the motor at its rated point", P=self.rated.power, eta=share)

    def point(self, sheet: Worksheet, tag: str, label: str, applied: Applied, omega: Value, torque: Value) -> Point:
        """The frequency that gives the wanted speed at this torque, its volts, and currents of motor and line."""
        if self.refuses or not isinstance(applied, ThreePhase):
            return nothing_made(sheet, tag, label, applied, omega, torque, self.refuses or f"a three-phase motor is not worked on {applied.shape}")
        k = self.share(sheet, tag, label, torque)
        frequency = sheet.work(f"{tag}.f", v.frequency_at_share, f"frequency, {label}", omega=omega, p=self.poles, f_n=self.frequency, s_n=self.slip, k=k)
        volts = sheet.work(f"{tag}.V", v.volts_at_frequency, f"volts between two leads, {label}", V_n=self.rated.voltage, f_n=self.frequency, f=frequency)
        flux = sheet.work(f"{tag}.q", v.flux_share, f"flux over the rated one, {label}", f_n=self.frequency, f=frequency)
        current = sheet.work(f"{tag}.I", v.current_at_flux, f"current of the motor, {label}", I_n=self.rated.current, p_0=self.idle, k=k, q=flux)
        crest = sheet.work(f"{tag}.I_peak", f.sine_crest, f"crest of the current, {label}", I=current)
        power = sheet.work(f"{tag}.P", v.inverter_input_power, f"power that the inverter takes, {label}",
                           T=torque, omega=omega, P_l=self.loss, eta=applied.efficiency)  # fmt: skip
        line = sheet.work(f"{tag}.I_line", v.rectifier_input_current, f"supply current, RMS, {label}", P=power, V=applied.voltage, k_p=applied.factor)
        lasting = self._lasting(sheet, tag, label, frequency, flux, omega)
        return Point(
            tag, label, omega, torque,
            current=current, emf=None, terminal=volts, rms=current, peak=crest, form_factor=None,
            line=line, drawn=None, setting=frequency, inductance=None, wave=None, more=(power, lasting),
        )  # fmt: skip

    def _lasting(self, sheet: Worksheet, tag: str, label: str, frequency: Value, flux: Value, omega: Value) -> Value:
        """Torque for long: the rated one up to base, the same power above, and at low speed what its own fan cools."""
        weak = sheet.work(f"{tag}.T_w", v.weakening_torque, f"torque for long, cooling aside, {label}", T_n=self.torque, f_n=self.frequency, f=frequency)
        multiple = sheet.values["motor.k_b"] if "motor.k_b" in sheet.values else sheet.assume("motor.k_b", "breakdown multiple")
        sheet.work(f"{tag}.T_b", v.greatest_torque, f"greatest torque, {label}", T_n=self.torque, k=multiple, q=flux)
        return self.cooled(sheet, tag, label, weak, omega)

    def runaway(self, sheet: Worksheet, applied: Applied) -> Value:
        """No failed device makes a turning field: what is left is the highest frequency that the inverter can give."""
        if not isinstance(applied, ThreePhase):
            return no_runaway(sheet, f"a three-phase motor is not worked on {applied.shape}")
        return sheet.work("runaway.omega", f.synchronous_speed, "motor speed at the inverter's highest frequency", f=applied.fastest, p=self.poles)

    def winding_loss(self, sheet: Worksheet, point: Point) -> Value:
        return sheet.work("heat.P_cu", v.three_phase_copper_loss, "heat of the stator's windings", I=point.rms, R=self.R_hot)


def _same(a: Value, b: Value) -> bool:
    return a.known and b.known and abs(float(a) / float(b) - 1) <= NEAR
