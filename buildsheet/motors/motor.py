"""What all motors have in common: what a builder states of each, and what everything behind asks of a motor."""

from abc import ABC, abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar, Literal

from pydantic import Field

from buildsheet.formulas import mechanics
from buildsheet.given.bench import OldRun
from buildsheet.given.fields import Flags, Inertias, Speeds
from buildsheet.given.model import Given
from buildsheet.sizing.waist import Applied, Point, Steered
from buildsheet.units import AMPERE, RADIAN_PER_SECOND, SHARE, VOLT, Unit
from buildsheet.worksheet import Value, Worksheet


@dataclass(frozen=True, slots=True)
class MotorWinding:
    """A winding as the circuit knows it: its two screws, which part of the motor it is, the ohms that it has, and whether it
    lies `apart`, on a supply of its own."""

    a: str
    b: str
    part: Literal["armature", "field", "run", "start", "phase"]
    ohms: Value
    apart: bool = False


@dataclass(frozen=True, slots=True)
class SeparateField:
    """A field on a supply of its own: its ohms cold and warm, the volts and amperes at which it has the whole of its strength.
    Its screws are those of the winding that lies apart."""

    cold: Value
    warm: Value
    volts: Value
    current: Value


@dataclass(frozen=True, slots=True)
class Rating:
    """What the plate says, for the way in which the motor is linked here. `heat` is its current as heat feels it."""

    voltage: Value
    current: Value
    heat: Value
    speed: Value
    power: Value


@dataclass(frozen=True, slots=True)
class Reversal:
    """How a switch in its leads turns a motor round: the `winding` whose two ends are changed over while the rest stays, and
    what the motor does when that is done while it turns, with what follows. Without such a winding: why, and what to do
    instead; `asks` is the key of the file that decides it, where the file does not say."""

    winding: MotorWinding | None = None
    thrown: str = ""
    follows: str = ""
    why: str = ""
    instead: str = ""
    asks: str = ""


@dataclass(frozen=True, slots=True)
class Starting:
    """What turns a single-phase motor's field round: a second winding behind a `switch` that opens at speed, behind a
    `capacitor` marked for `volts`, or both; None for a part that it has not."""

    switch: bool
    capacitor: Value | None
    volts: Value | None


class Machine(ABC):
    """A motor with its constants worked out. It says what it makes of what a way puts on its terminals.

    `direct`: it runs on direct current, and so on a battery or a bridge on the bench. `where` its volts are told.
    """

    direct: ClassVar[bool]
    runs_away: str = "Runaway: the drive's power device shorted, the supply at its highest, no load."
    suits: ClassVar[Mapping[str, str]] = {}  # lines to paste for groups of a file, where this motor wants others than most
    where = "the motor"
    starting: Starting | None = None
    separate_field: SeparateField | None = None
    at_start: Value | None = None  # current that it takes from the line with its rotor still, where it starts on the line

    @abstractmethod
    def behind_choke(self, sheet: Worksheet, inductance: Value, resistance: Value) -> None:
        """Puts a choke in a row with the motor."""

    @abstractmethod
    def connect(self, sheet: Worksheet, applied: Applied) -> None:
        """Settles what depends on what feeds it, such as how its windings are linked; called once, before any point."""

    def excited(self, sheet: Worksheet, share: Value, least: Value) -> None:
        """Tells a motor with a separate field what share of its full current the field has at work, and the least that it can
        have before the machine stops by itself; called once, before any point."""
        del sheet, share, least

    @property
    def to_set(self) -> tuple[tuple[str, Value], ...]:
        """What of it has to be set on what feeds it, each with its name."""
        return ()

    @property
    def linking(self) -> str:
        """How its leads are to be linked at the motor itself, as a step says it; empty where nothing is to be done."""
        return ""

    @property
    @abstractmethod
    def windings(self) -> tuple[MotorWinding, ...]:
        """Its windings in the order of the current; run and start winding, which lie side by side."""

    @property
    @abstractmethod
    def reversal(self) -> Reversal:
        """How a switch in its leads turns it round. Swapping its supply never does: that turns the current in all windings."""

    @property
    def own_field(self) -> tuple[Value, Value, Value] | None:
        """Back-EMF constant, armature resistance and plate current of a motor whose field needs no supply, so that it brakes
        itself on a resistor; None for any other."""
        return None

    @abstractmethod
    def rating(self, sheet: Worksheet) -> Rating | None:
        """What its plate says; None without a plate."""

    @abstractmethod
    def point(self, sheet: Worksheet, tag: str, label: str, applied: Applied, omega: Value, torque: Value) -> Point:
        """The operating point at a speed and a shaft torque; of a shape that it makes nothing of, unknown with the reason."""

    @abstractmethod
    def runaway(self, sheet: Worksheet, applied: Applied) -> Value:
        """The fastest that what feeds it can turn it, with a device failed and no load on the shaft."""

    @abstractmethod
    def losses(self, sheet: Worksheet) -> Value:
        """Torque of its own losses, which slows a coast; entered as coast.T_0."""

    @abstractmethod
    def allowed(self, sheet: Worksheet, share: Value, hardest: Point) -> Value:
        """Current that its winding stands for long where a `share` of its rating is left; entered as heat.I_allow."""

    @abstractmethod
    def winding_loss(self, sheet: Worksheet, point: Point) -> Value:
        """Heat of its winding; entered as heat.P_cu."""

    @abstractmethod
    def lowest_speed(self, sheet: Worksheet) -> Value:
        """The slowest at which its own fan cools it at full torque; entered as heat.omega_low."""


class Motor(Given):
    """A motor, as a builder states it."""

    drawn: ClassVar[str] = "DC"  # what stands behind its volts in the diagram

    kind: str = Field(description="Kind of motor.")
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
    protector: Literal["none", "manual reset", "self-resetting"] | None = Field(
        None, description="Thermal protector inside the motor. Unanswered keeps the packet a draft."
    )
    double_insulated: Flags = Field(None, description="Whether the old appliance was double insulated.")
    cooling: Literal["own fan", "fan on the flywheel", "none"] | None = Field(
        None, description="What cools it."
    )
    spare_wires: tuple[Literal["field tap", "tachometer", "other speed", "unknown wire"], ...] = Field(
        (), description="Wires of the motor that this machine leaves unused, beside those of the wire list."
    )
    pulley: Literal["set screw", "key", "left-hand thread", "right-hand thread"] | None = Field(
        None, description="How the pulley sits."
    )

    @property
    @abstractmethod
    def printed(self) -> str:
        """Its name on paper."""

    @property
    @abstractmethod
    def stands_as(self) -> str:
        """Its word in the matrix of what may stand behind what."""

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


def nothing_made(sheet: Worksheet, tag: str, label: str, applied: Applied, omega: Value, torque: Value, why: str) -> Point:
    """The operating point of a motor that makes nothing of what feeds it: every figure unknown, with the reason."""
    kind = applied.setting if isinstance(applied, Steered) else None
    setting = None if kind is None else sheet.unsolved(f"{tag}.{kind.symbol}", kind.unit, why, f"{kind.name}, {label}")

    def none(symbol: str, unit: Unit, name: str) -> Value:
        return sheet.unsolved(f"{tag}.{symbol}", unit, why, f"{name}, {label}")

    return Point(
        tag, label, omega, torque,
        current=none("I", AMPERE, "current of the motor"),
        emf=None,
        terminal=none("V", VOLT, "volts at the motor"),
        rms=none("I_rms", AMPERE, "current as heat feels it"),
        peak=none("I_peak", AMPERE, "peak current"),
        form_factor=None,
        line=none("I_line", AMPERE, "supply current, RMS"),
        drawn=None,
        setting=setting if setting is not None else none("x", SHARE, "setting of the control"),
        inductance=None, wave=None,
    )  # fmt: skip


def no_runaway(sheet: Worksheet, why: str) -> Value:
    """The speed at runaway of such a motor."""
    return sheet.unsolved("runaway.omega", RADIAN_PER_SECOND, why, "motor speed at runaway")
