"""What drives have in common: a rating, a current limit, a three-terminal speed potentiometer; and their part of the
circuit. A way of powering builds on it and says what it puts on the motor's terminals.
"""

from abc import abstractmethod
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import ClassVar, Literal

from pydantic import Field

from buildsheet.circuit import Device, Electronics, Resistance
from buildsheet.circuit.builder import Board, Feed
from buildsheet.citations import Citation, practice
from buildsheet.given.fields import Amperes, Flags, Ohms, PartTemperatures, Volts
from buildsheet.reference import Region
from buildsheet.sizing.finding import Finding, Said
from buildsheet.sizing.knob import Knob, Pot, work_knob
from buildsheet.sizing.ohms import around, spread
from buildsheet.sizing.places import Need, Place
from buildsheet.sizing.spelt import spelt
from buildsheet.sizing.supply import Supplied
from buildsheet.sizing.waist import Applied, Point
from buildsheet.ways.way import Beside, Control, Outfit, Setting, Way, Words, capital
from buildsheet.worksheet import Value, Worksheet

POT_SLACK = 0.2  # a potentiometer's own tolerance
MANUALS = Citation("two drive makers' manuals", "control terminals are not isolated from the line")
TERMINALS = ("P1", "P2", "P3")  # low end, wiper, high end
OUTPUTS = ("A+", "A−")
CODE = "T1"  # of every drive


class Drive(Way):
    """A drive board with its speed potentiometer. What it is fed with, and what it does to that, says each way."""

    does: ClassVar[Literal["controls", "chops", "inverts"]] = "controls"
    control: ClassVar[Control | None] = Control("knob", "slow", "fast", wired=True)
    own_fan: ClassVar[bool] = False  # a fan that cools it is part of it
    inputs: ClassVar[tuple[str, str]] = ("L", "N")  # its own two terminals for what feeds it

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
    def say(self, supplied: Supplied, applied: Applied) -> Words:
        """How to ask for it at the counter."""

    @property
    def air_most(self) -> Value | None:
        return self.hottest_air

    @property
    def current_limit_set(self) -> Value | None:
        return self.current_limit

    @property
    def gives(self) -> Value | None:
        return self.rated if self.cooled_by in ("heat sink", "fan") else self.rated_bare

    @property
    def waits_for_zero(self) -> bool | None:
        return self.starts_from_zero

    @property
    def broken_low_end(self) -> Literal["stops", "full speed"] | None:
        return self.open_low_end

    def dangers(self, beside: Beside) -> Iterator[Finding]:
        rated, bare = self.rated, self.rated_bare
        if self.cooled_by == "fan" and not beside.fan and not self.own_fan:
            yield Finding("fan-not-wired", "heed", "WARNING", Said.of("The drive's rating counts on a fan, and none is wired beside it."), "Without its air the drive overheats; a power device that fails shorted gives full speed.",
                          "Write controls: fan, or make sure that the drive has its own and feeds it.", practice("drive ratings"), (CODE,), key="controls.fan")  # fmt: skip
        if rated.known and bare.known and bare > rated:
            yield Finding("ratings-swapped", "stop", "NOTICE", Said.of("The drive is said to give {0} without its heat sink and {1} with it.", bare, rated), "One of the two is wrong.",
                          "Read the drive's data again.", MANUALS, ("T1",))  # fmt: skip
        if not self.potentiometer.known:
            yield Finding("potentiometer-unknown", "stop", "WARNING", Said.of("Nobody knows which speed potentiometer the drive wants."), "A wrong one gives full speed early, or burns.",
                          "Read it off the drive or its old knob, and write power: potentiometer.", practice("drive manuals: 5 k or 10 k, by the drive"), ("S4",), key="power.potentiometer",
                          unknown=(self.potentiometer,))  # fmt: skip

    def fit_out(
        self, sheet: Worksheet, region: Region, supplied: Supplied, applied: Applied, points: tuple[Point, ...], share: Value
    ) -> Outfit:
        del region, share
        knob = work_knob(sheet, self.reference, self.potentiometer, applied, points)
        return DriveOutfit(self, supplied, applied, knob)


@dataclass(frozen=True, slots=True)
class DriveOutfit(Outfit):
    """A drive with its knob and trims worked out."""

    drive: Drive
    supplied: Supplied
    applied: Applied
    knob: Knob

    @property
    def needed(self) -> tuple[Value, ...]:
        return (self.drive.potentiometer,)

    @property
    def places(self) -> tuple[Place, ...]:
        return drive_places(self.drive, self.supplied, self.applied, self.knob)

    @property
    def settings(self) -> tuple[Setting, ...]:
        limit, knob = self.drive.current_limit, self.knob
        return (
            Setting("Minimum trim", (knob.min_trim, " of full output")),
            Setting("Maximum trim", (knob.max_trim, " of full output")),
            Setting("A drive without trims", (knob.slow_end_resistor, " at the slow end, ", knob.fast_end_resistor, " at the fast end of the knob"), turned=False),
            Setting("Current limit", (limit,) if limit.known else ("as low as the work allows",)),
            Setting("IR compensation", ("none at first; up until the speed holds under load, and back when it hunts",)),
            Setting("Acceleration", ("slow: a belt that is snatched slips or jumps",)),
        )

    @property
    def texts(self) -> Mapping[str, str]:
        separated = "its knob alone separated" if self.supplied.live else ""
        return {
            "T1": "not separated from the line" if self.drive.live_controls is not False else separated,
            **pot_text(self.drive),
        }

    def wire(self, board: Board, feed: Feed, *, limit: float, texts: Mapping[str, str], metal: bool) -> tuple[str, ...]:
        """The drive and its speed potentiometer, wires 301, 302 and 501 to 503."""
        add_drive(board, self.drive, limit, texts, metal=metal)
        board.wire(301, f"{feed[0]}", f"{CODE}:{self.drive.inputs[0]}", "line")
        board.wire(302, f"{feed[1]}", f"{CODE}:{self.drive.inputs[1]}", "neutral")
        return f"{CODE}:{OUTPUTS[0]}", f"{CODE}:{OUTPUTS[1]}"


def add_drive(board: Board, drive: Drive, limit: float, texts: Mapping[str, str], *, metal: bool) -> None:
    """The drive, whose feed is still to be wired, and its speed potentiometer."""
    terminals = (*drive.inputs, *OUTPUTS, *TERMINALS)
    board.add(
        Device(
            CODE, "drive", drive.printed, texts[CODE], (*terminals, "case") if metal else terminals,
            (Electronics(terminals, drive.does),), metal="case" if metal else "", place="box", column=4,
            limits=dict.fromkeys(OUTPUTS, limit), control=TERMINALS, unleashed_by=frozenset() if drive.open_low_end == "stops" else frozenset(TERMINALS[:2]),
        )
    )  # fmt: skip
    wire_pot(board, drive, texts)


def drive_places(drive: Drive, supplied: Supplied, applied: Applied, pot: Pot) -> tuple[Place, ...]:
    """The drive and its speed potentiometer."""
    needs = (
        Need("resistance", "=", drive.potentiometer, "resistance", POT_SLACK),
        Need("taper", "=", "linear", "taper"),
        Need("power", "≥", pot.heat, "power"),
        Need("voltage", "≥", supplied.highest, "insulation of its case"),
        *((Need("shaft", "=", "plastic shaft", "shaft"),) if drive.live_controls is not False else ()),
    )
    say = (drive.potentiometer, " linear potentiometer, ", pot.rated, ", plastic shaft, insulated for ", supplied.highest, ", with knob and insulating bush")
    return (
        Place("drive", "drive", capital(drive.printed), (), drive.say(supplied, applied), "T1", "the drive named in your file; another one changes this packet"),
        Place("potentiometer", "potentiometer", "Speed potentiometer", needs, say, "S4", "the one of the drive's old machine, if it reads the same"),
    )  # fmt: skip


def pot_text(drive: Drive) -> dict[str, str]:
    """The grey line under the speed potentiometer."""
    return {"S4": f"{spelt(drive.potentiometer)} linear"}


def wire_pot(board: Board, drive: Drive, texts: Mapping[str, str]) -> None:
    """The speed potentiometer on the door, wires 501 to 503."""
    ohms = float(drive.potentiometer)
    low, high = around("potentiometer", ohms)
    end = spread("end of a potentiometer")[1] * ohms
    board.add(
        Device(
            "S4", "potentiometer", "Speed knob", texts["S4"], ("1", "2", "3"),
            (
                Resistance("1", "2", 0.0, end, "slow"), Resistance("2", "3", low, high, "slow"),
                Resistance("1", "2", low, high, "fast"), Resistance("2", "3", 0.0, end, "fast"),
            ),
            positions=("slow", "fast"), place="panel", column=5, touched=drive.live_controls is not False,
        )
    )  # fmt: skip
    for index, terminal in enumerate(TERMINALS):
        colour = board.conductors["signal"].colours[index]
        board.wire(501 + index, f"{CODE}:{terminal}", f"S4:{index + 1}", "signal", "panel", colour=colour, cable="W2")
