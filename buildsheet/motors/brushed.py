"""What motors with brushes have in common: what is stated of each, and what heat and a choke make of them."""

from abc import abstractmethod
from typing import ClassVar

from pydantic import Field

from buildsheet.formulas import choke
from buildsheet.formulas import motor as f
from buildsheet.formulas.cooling import current_share
from buildsheet.formulas.protection import current_by_heat
from buildsheet.given.bench import AlternatingTest, Asked, FreeRun, HeldRotor, Plate
from buildsheet.given.fields import Henries, Ohms
from buildsheet.motors.motor import Machine, Motor, Rating, Reversal, no_runaway, nothing_made
from buildsheet.reference import Region
from buildsheet.sizing.waist import Applied, Point, Steered
from buildsheet.units import AMPERE, OHM, RADIAN_PER_SECOND
from buildsheet.worksheet import Value, Worksheet

NO_PLATE = "no nameplate"


class BrushedMachine(Machine):
    """A motor with brushes: cold and hot resistance, brush drop, least and greatest inductance. It runs on a voltage of one
    direction, steered by pulses or smooth."""

    direct: ClassVar[bool] = True

    def __init__(self, R: Value, R_hot: Value, U_b: Value, L: tuple[Value, Value], plate: Plate | None):
        self.R, self.R_hot, self.U_b, self.L, self.plate = R, R_hot, U_b, L, plate
        self.R_loop = R_hot  # of the motor's circuit

    def behind_choke(self, sheet: Worksheet, inductance: Value, resistance: Value) -> None:
        """Puts a choke in a row with the motor: what is solved from now on is the circuit of both."""
        label = "of motor and choke in a row"
        self.R_loop = sheet.work("motor.R_loop", choke.resistance_in_a_row, f"resistance {label}", R_1=self.R_hot, R_2=resistance)
        same = self.L[0] is self.L[1]
        ends = [
            sheet.work(f"motor.L_loop{end}", choke.inductance_in_a_row, f"{word}inductance {label}", L_1=one, L_2=inductance)
            for end, word, one in (("", "", self.L[0]), ("_high", "high ", self.L[1]))[: 1 if same else 2]
        ]
        self.L, self.where = (ends[0], ends[-1]), "motor and choke"

    def connect(self, sheet: Worksheet, applied: Applied) -> None:
        del sheet, applied  # brushes take what they are given

    @property
    def reversal(self) -> Reversal:
        """By its armature: a field's many turns make an arc in the switch, and magnets have no ends."""
        return Reversal(
            self.windings[0],
            "switched over while it turns, this motor's own voltage drives with the supply and not against it",
            "It takes more current than at a start, jerks the machine and burns contacts and commutator.",
        )

    def rating(self, sheet: Worksheet) -> Rating | None:
        plate = self.plate
        if plate is None:
            return None
        if "motor.I_n_rms" not in sheet.values:
            heat = sheet.work("motor.I_n_rms", current_by_heat, "plate current as heat feels it", I=plate.current, F=self.rated_form(sheet))
        else:
            heat = sheet.values["motor.I_n_rms"]
        return Rating(plate.voltage, plate.current, heat, plate.speed, plate.power)

    def rated_form(self, sheet: Worksheet) -> Value:
        """The form factor for which the plate's current holds."""
        key = "motor.plate.form_factor~"
        if self.plate is None or key in sheet.values:
            return sheet.values[key]
        return sheet.known_or_assumed(self.plate.form_factor, "rated form factor")

    def point(self, sheet: Worksheet, tag: str, label: str, applied: Applied, omega: Value, torque: Value) -> Point:
        if not isinstance(applied, Steered):
            return nothing_made(sheet, tag, label, applied, omega, torque, f"a motor with brushes is not worked on {applied.shape}")
        return self.steered(sheet, tag, label, applied, omega, torque)

    @abstractmethod
    def steered(self, sheet: Worksheet, tag: str, label: str, applied: Steered, omega: Value, torque: Value) -> Point:
        """The operating point on a voltage of one direction."""

    def runaway(self, sheet: Worksheet, applied: Applied) -> Value:
        if not isinstance(applied, Steered):
            return no_runaway(sheet, f"a motor with brushes is not worked on {applied.shape}")
        return self.loose(sheet, applied)

    @abstractmethod
    def loose(self, sheet: Worksheet, applied: Steered) -> Value:
        """Speed with the power device shorted, the supply at its highest and no load on the shaft."""

    def allowed(self, sheet: Worksheet, share: Value, hardest: Point) -> Value:
        label = "average current that the winding stands on this drive"
        if self.plate is None:
            return sheet.unsolved("heat.I_allow", AMPERE, NO_PLATE, label)
        if hardest.form_factor is None:  # alternating current, for which its plate is
            return sheet.work("heat.I_allow", current_share, "current that the motor stands at this height", I=self.plate.current, k=share)
        here = sheet.work("motor.I_h", current_share, "current that the motor stands at this height", I=self.plate.current, k=share)
        return sheet.work("heat.I_allow", f.current_derated_by_form_factor, label,
                          I_rated=here, F_rated=self.rated_form(sheet), F=hardest.form_factor)  # fmt: skip

    def winding_loss(self, sheet: Worksheet, point: Point) -> Value:
        return sheet.work("heat.P_cu", f.copper_loss, "heat of the winding", I_rms=point.rms, R=self.R_hot)

    def lowest_speed(self, sheet: Worksheet) -> Value:
        label = "lowest speed at full torque for long"
        if self.plate is None:
            return sheet.unsolved("heat.omega_low", RADIAN_PER_SECOND, NO_PLATE, label)
        share = sheet.assume("heat.n_share", "own fan share")
        return sheet.work("heat.omega_low", f.lowest_speed_on_own_fan, label, omega=self.plate.speed, n_share=share)

    @abstractmethod
    def free_speed(self, sheet: Worksheet, id: str, label: str, volts: Value) -> Value:
        """Speed without load on smooth direct voltage."""

    @abstractmethod
    def bridge_speed(self, sheet: Worksheet, region: Region, line: Value, frequency: Value) -> Value:
        """Speed without load on a bare bridge on the line."""

    @abstractmethod
    def asked(self, sheet: Worksheet, ask: Asked) -> tuple[Value, Value]:
        """Current and speed at volts and a torque, on smooth direct current."""


class BrushedMotor(Motor):
    """A motor with brushes."""

    plate: Plate | None = Field(None, description="What the nameplate says.")
    held: HeldRotor | None = Field(None, description="Two readings with the rotor held.")
    winding: Ohms = Field(
        description="Resistance from lead to lead, if it was measured otherwise.", examples=["1.5 ohm"]
    )
    free_run: FreeRun | None = Field(None, description="A run without load at a low voltage.")
    alternating: AlternatingTest | None = Field(None, description="Low-voltage AC test for the inductance.")
    inductance: Henries = Field(description="Inductance from lead to lead, if known.", examples=["10 mH"])
    ask: Asked | None = Field(
        None, description="A question: what it would do at these volts and this torque."
    )

    @abstractmethod
    def constants(self, sheet: Worksheet) -> BrushedMachine:
        """Works out what plate and bench say."""

    def resistances(self, sheet: Worksheet, what: str) -> tuple[Value, Value, Value]:
        """Cold and warm resistance from lead to lead, and the drop of both brushes."""
        cold, drop = self._resistance(sheet, what)
        warm, bench = sheet.assume("motor.T_w", "winding temperature"), sheet.assume("motor.T_b", "bench temperature")
        hot = sheet.work(
            "motor.R_hot",
            f.resistance_at_temperature,
            f"resistance of the warm {what}",
            R_1=cold,
            T_1=bench,
            T_2=warm,
        )
        return cold, hot, drop

    def _resistance(self, sheet: Worksheet, what: str) -> tuple[Value, Value]:
        if self.held:
            h = self.held
            label = f"{what} resistance, from two currents"
            slope = (
                sheet.unsolved("motor.R_a", OHM, "the volts must rise with the amperes", label)
                if h.impossible
                else sheet.work(
                    "motor.R_a", f.slope_resistance, label,
                    V_1=h.voltage_1, I_1=h.current_1, V_2=h.voltage_2, I_2=h.current_2,
                )
            )  # fmt: skip
            return slope, sheet.work(
                "motor.U_b", f.brush_drop, "drop of both brushes", V_1=h.voltage_1, I_1=h.current_1, R=slope
            )
        return sheet.take(self.winding), sheet.assume("motor.U_b", "brush drop")

    def plate_power(self, sheet: Worksheet) -> None:
        """What the plate claims against what volts, amperes and a believable efficiency leave."""
        if self.plate is None or not self.plate.power.known:
            return
        sheet.work(
            "motor.eta_n",
            f.plate_efficiency,
            "efficiency that the plate claims",
            P=self.plate.power,
            V=self.plate.voltage,
            I=self.plate.current,
        )
        believed = sheet.assume("motor.eta_b", "believable efficiency")
        sheet.work(
            "motor.P_h",
            f.honest_power,
            "power to plan with",
            V=self.plate.voltage,
            I=self.plate.current,
            eta=believed,
        )

    def inductances(self, sheet: Worksheet, resistance: Value) -> tuple[Value, Value]:
        """Least and greatest inductance: the same value twice when it was measured, else the assumed band."""
        if self.inductance.known:
            found = sheet.take(self.inductance)
            return found, found
        if self.alternating:
            a = self.alternating
            found = sheet.work("motor.L_a", f.winding_inductance, "armature inductance, by the AC test",
                               V=a.voltage, I=a.current, R=resistance, f=a.frequency)  # fmt: skip
            return found, found
        return sheet.assume("motor.L_low", "low inductance"), sheet.assume("motor.L_high", "high inductance")
