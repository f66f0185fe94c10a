"""What all motors with brushes have in common: what a builder states of them, and what everything behind asks of a motor."""

from abc import ABC, abstractmethod
from dataclasses import dataclass
from typing import ClassVar, Literal

from pydantic import Field

from buildsheet.formulas import choke, mechanics
from buildsheet.formulas import motor as f
from buildsheet.given.bench import AlternatingTest, Asked, FreeRun, HeldRotor, OldRun, Plate
from buildsheet.given.fields import Flags, Henries, Inertias, Ohms, Speeds
from buildsheet.given.model import Given
from buildsheet.reference import Region
from buildsheet.sizing.waist import Applied, Point
from buildsheet.units import OHM
from buildsheet.worksheet import Value, Worksheet


@dataclass(frozen=True, slots=True)
class MotorWinding:
    """A winding as the circuit knows it: its two screws, which part of the motor it is, and the ohms that it has."""

    a: str
    b: str
    part: Literal["armature", "field"]
    ohms: Value


class Machine(ABC):
    """A motor with its constants worked out: cold and hot resistance, brush drop, least and greatest inductance. It says
    what it makes of what a way puts on its terminals."""

    def __init__(self, R: Value, R_hot: Value, U_b: Value, L: tuple[Value, Value]):
        self.R, self.R_hot, self.U_b, self.L = R, R_hot, U_b, L
        self.R_loop, self.where = R_hot, "the motor"  # of the motor's circuit, and where its volts are told

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

    @property
    @abstractmethod
    def windings(self) -> tuple[MotorWinding, ...]:
        """Its windings in the order of the current. Swapping the ends of the first alone turns the motor round."""

    @abstractmethod
    def point(self, sheet: Worksheet, tag: str, label: str, applied: Applied, omega: Value, torque: Value) -> Point:
        """The operating point at a speed and a shaft torque."""

    @abstractmethod
    def runaway(self, sheet: Worksheet, applied: Applied) -> Value:
        """Speed with the power device shorted, the supply at its highest and no load on the shaft."""

    @abstractmethod
    def losses(self, sheet: Worksheet) -> Value:
        """Torque of its own losses, which slows a coast; entered as coast.T_0."""

    @abstractmethod
    def free_speed(self, sheet: Worksheet, id: str, label: str, volts: Value) -> Value:
        """Speed without load on smooth direct voltage."""

    @abstractmethod
    def bridge_speed(self, sheet: Worksheet, region: Region, line: Value, frequency: Value) -> Value:
        """Speed without load on a bare bridge on the line."""

    @abstractmethod
    def asked(self, sheet: Worksheet, ask: Asked) -> tuple[Value, Value]:
        """Current and speed at volts and a torque, on smooth direct current."""


class Motor(Given):
    """A motor with brushes."""

    printed: ClassVar[str] = "Motor"
    stands_as: ClassVar[str]  # in the matrix of what may stand behind what
    drawn: ClassVar[str] = "DC"  # what stands behind its volts in the diagram

    kind: str = Field(description="Kind of motor.")
    plate: Plate | None = Field(None, description="What the nameplate says.")
    held: HeldRotor | None = Field(None, description="Two readings with the rotor held.")
    winding: Ohms = Field(
        description="Resistance from lead to lead, if it was measured otherwise.", examples=["1.5 ohm"]
    )
    free_run: FreeRun | None = Field(None, description="A run without load at a low voltage.")
    alternating: AlternatingTest | None = Field(None, description="Low-voltage AC test for the inductance.")
    inductance: Henries = Field(description="Inductance from lead to lead, if known.", examples=["10 mH"])
    inertia: Inertias = Field(
        description="Moment of inertia of the rotor and what stays on its shaft.", examples=["0.004 kg·m²"]
    )
    rotor: Speeds = Field(
        description="Speed that the rotor is proven for, from its plate or its old machine.",
        examples=["4000 rpm"],
    )
    rotor_basis: Literal["plate", "maker's data"] | None = Field(None, description="How that is proven.")
    old_run: OldRun | None = Field(
        None, description="What the motor's old machine ran it at, which proves that speed for its rotor."
    )
    ask: Asked | None = Field(
        None, description="A question: what it would do at these volts and this torque."
    )
    protector: Literal["none", "manual reset", "self-resetting"] | None = Field(
        None, description="Thermal protector inside the motor. Unanswered keeps the packet a draft."
    )
    double_insulated: Flags = Field(None, description="Whether the old appliance was double insulated.")
    cooling: Literal["own fan", "fan on the flywheel", "none"] | None = Field(
        None, description="What cools it."
    )
    pulley: Literal["set screw", "key", "left-hand thread", "right-hand thread"] | None = Field(
        None, description="How the pulley sits."
    )

    @abstractmethod
    def constants(self, sheet: Worksheet) -> Machine:
        """Works out what plate and bench say."""

    def proven_speed(self, sheet: Worksheet) -> tuple[Value, str]:
        """The speed that the rotor is proven for, and by what: its plate or maker, or what its old machine ran it at."""
        if self.old_run is None:
            return sheet.take(self.rotor), self.rotor_basis or ""
        run = self.old_run
        proven = sheet.work(
            "motor.omega_old",
            mechanics.speed_behind_belt,
            "motor speed in its old machine",
            v=run.speed,
            d=run.roller,
            d_1=run.driver,
            d_2=run.driven,
        )
        return proven, "ran at it in the old machine"

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
