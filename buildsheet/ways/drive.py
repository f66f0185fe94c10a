"""What drives have in common: a rating, a current limit, a three-terminal speed potentiometer; and their part of the
circuit. A way of powering builds on it and says what it puts on the motor's terminals.
"""

from abc import abstractmethod
from typing import ClassVar, Literal

from pydantic import Field

from buildsheet.circuit import Device, Electronics, Resistance
from buildsheet.circuit.builder import Board, Feed
from buildsheet.given.fields import Amperes, Flags, Ohms, PartTemperatures, Volts
from buildsheet.given.model import Given
from buildsheet.reference import Region
from buildsheet.sizing.knob import Knob
from buildsheet.sizing.places import Need, Place
from buildsheet.sizing.supply import Supplied
from buildsheet.sizing.waist import Applied
from buildsheet.units import AMPERE, VOLT
from buildsheet.worksheet import Value, Worksheet, unknown

POT_SLACK = 0.2  # a potentiometer's own tolerance
TERMINALS = ("P1", "P2", "P3")  # low end, wiper, high end


class Drive(Given):
    """A drive board with its speed potentiometer. What it is fed with, and what it does to that, says each way."""

    runs_on: ClassVar[Literal["line", "battery"]] = "line"
    printed: ClassVar[str] = "DC drive"
    feed_terminals: ClassVar[tuple[str, str]] = ("L", "N")
    chops: ClassVar[bool] = False
    stands_as: ClassVar[str] = "magnet-motor drive"  # in the matrix of what may stand behind what

    rated: Amperes = Field(
        description="Output current it may give for long with its heat sink or fan.", examples=["10 A"]
    )
    rated_bare: Amperes = Field(
        description="Output current it may give without heat sink and fan.", examples=["5 A"]
    )
    cooled_by: Literal["heat sink", "fan", "nothing"] | None = Field(
        None, description="What cools the drive in this machine."
    )
    potentiometer: Ohms = Field(description="Speed potentiometer that it wants.", examples=["5 kohm"])
    reference: Volts = Field(description="Voltage across the potentiometer.", examples=["10 V"])
    drop: Volts = Field(description="Drop along its path, if measured.", examples=["2.2 V"])
    current_limit: Amperes = Field(description="Setting of its current limit.", examples=["7.5 A"])
    starts_from_zero: Flags = Field(
        None, description="Whether it refuses to start until the knob was at zero."
    )
    open_low_end: Literal["stops", "full speed"] | None = Field(
        None, description="What it does when the wire at the slow end of the potentiometer comes off."
    )
    hottest_air: PartTemperatures = Field(
        description="Hottest air around it that its data allow.", examples=["50 degC"]
    )

    @abstractmethod
    def applied(self, sheet: Worksheet, supplied: Supplied) -> Applied:
        """What it puts on the motor's terminals."""

    @abstractmethod
    def loss(self, sheet: Worksheet, applied: Applied, current: Value) -> Value:
        """Its heat at an output current; entered as heat.P_drive."""

    @property
    @abstractmethod
    def made_for(self) -> Value:
        """Supply voltage that it is made for."""

    @property
    @abstractmethod
    def output_most(self) -> Value:
        """Most average output that its data give."""

    @property
    def stands(self) -> Value:
        """Highest supply voltage that it stands; a drive on the line stands that line's tolerance."""
        return self.made_for

    @property
    def stops_at(self) -> Value:
        """Supply voltage at which it stops by itself."""
        return unknown("power.cut_off", VOLT, "not in the file", "cut-off of the drive")

    @property
    def capacitor_in(self) -> Value | None:
        """The capacitor at its supply terminals, which must be filled before a contactor closes; None for a drive without."""
        return None

    def pulse_height(self, applied: Applied) -> Value | None:
        """Height of the pulses that reach the motor, where that is more than what it is set to; None elsewhere."""
        del applied
        return None

    @property
    def parts_of_old_machine(self) -> dict[str, str | None]:
        """What a salvaged board needs of its old machine, and where each is: kept, it had none, left behind, or not said."""
        return {}

    @property
    def limit_made_for(self) -> Value:
        """Current of the motor that its current limit was set for."""
        return unknown("power.old_current", AMPERE, "a drive for any motor", "current of its old motor")

    @property
    def keeps_charge(self) -> Value | None:
        """Time after which a capacitor behind its rectifier is below the safe voltage, unknown when nobody says; None for
        a drive that holds none at a dangerous voltage."""
        return None

    @property
    def gives(self) -> Value:
        """Output current that it may give for long as it is cooled here."""
        return self.rated if self.cooled_by in ("heat sink", "fan") else self.rated_bare

    @property
    @abstractmethod
    def live_controls(self) -> bool | None:
        """Whether its control terminals can be at a dangerous voltage; None when the file does not say."""

    @abstractmethod
    def say(self, supplied: Supplied, applied: Applied) -> tuple[Value | str, ...]:
        """How to ask for it at the counter."""

    def places(
        self, region: Region, supplied: Supplied, applied: Applied, knob: Knob
    ) -> tuple[Place, ...]:
        """The drive and its speed potentiometer."""
        del region
        needs = (
            Need("resistance", "=", self.potentiometer, "resistance", POT_SLACK),
            Need("taper", "=", "linear", "taper"),
            Need("power", "≥", knob.heat, "power"),
            Need("voltage", "≥", supplied.highest, "insulation of its case"),
            *((Need("shaft", "=", "plastic shaft", "shaft"),) if self.live_controls is not False else ()),
        )
        say = (self.potentiometer, " linear potentiometer, ", knob.rated, ", plastic shaft, insulated for ", supplied.highest, ", with knob and insulating bush")
        return (
            Place("drive", "drive", capital(self.printed), (), self.say(supplied, applied), "T1", "the drive named in your file; another one changes this packet"),
            Place("potentiometer", "potentiometer", "Speed potentiometer", needs, say, "S4", "the one of the drive's old machine, if it reads the same"),
        )  # fmt: skip

    def wire(
        self,
        board: Board,
        feed: Feed,
        *,
        potentiometer: tuple[float, float],
        end: float,
        limit: float,
        texts: dict[str, str],
        metal: bool,
    ) -> tuple[str, str]:
        """`limit` is the most RMS current that it lets out. The drive and its speed potentiometer, wires 301, 302 and 501 to 503; hands on the output terminals."""
        inward = self.feed_terminals
        terminals = (*inward, "A+", "A−", *TERMINALS)
        board.add(
            Device(
                "T1", "drive", self.printed, texts["T1"], (*terminals, "case") if metal else terminals,
                (Electronics(terminals, self.chops),), metal="case" if metal else "", place="box", column=4,
                limits={"A+": limit, "A−": limit}, control=TERMINALS, unleashed_by=frozenset() if self.open_low_end == "stops" else frozenset(TERMINALS[:2]),
            )
        )  # fmt: skip
        low, high = potentiometer
        board.add(
            Device(
                "S4", "potentiometer", "Speed knob", texts["S4"], ("1", "2", "3"),
                (
                    Resistance("1", "2", 0.0, end, "slow"), Resistance("2", "3", low, high, "slow"),
                    Resistance("1", "2", low, high, "fast"), Resistance("2", "3", 0.0, end, "fast"),
                ),
                positions=("slow", "fast"), place="panel", column=5, touched=self.live_controls is not False,
            )
        )  # fmt: skip
        board.wire(301, f"{feed[0]}", f"T1:{inward[0]}", "line")
        board.wire(302, f"{feed[1]}", f"T1:{inward[1]}", "neutral")
        for number, terminal, lug, index in ((501, "P1", "1", 0), (502, "P2", "2", 1), (503, "P3", "3", 2)):
            board.wire(
                number,
                f"T1:{terminal}",
                f"S4:{lug}",
                "signal",
                "panel",
                colour=board.conductors["signal"].colours[index],
                cable="W2",
            )
        return "T1:A+", "T1:A−"


def capital(words: str) -> str:
    """The same words with a capital first letter."""
    return f"{words[0].upper()}{words[1:]}"
