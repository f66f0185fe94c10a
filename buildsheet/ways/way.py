"""What every way of powering publishes: facts, what it puts on the motor's terminals, and the parts that it sizes for itself."""

from abc import ABC, abstractmethod
from collections.abc import Iterator, Mapping
from typing import ClassVar, Literal, NamedTuple

from buildsheet.circuit.builder import Board, Feed
from buildsheet.given.model import Given
from buildsheet.reference import Region
from buildsheet.sizing.finding import Finding
from buildsheet.sizing.places import Place
from buildsheet.sizing.supply import Supplied
from buildsheet.sizing.waist import Applied, Point
from buildsheet.units import VOLT
from buildsheet.worksheet import Value, Worksheet, unknown

Words = tuple[Value | str, ...]  # text around Values


class Control(NamedTuple):
    """What sets the speed: its name on paper and its two ends. `stands`: at the slow end the motor stands still.
    `wired`: its own wires leave the part that it belongs to."""

    name: str
    slow: str
    fast: str
    stands: bool = False
    wired: bool = False


class Setting(NamedTuple):
    """Something to set: its name and to what. `turned` is False for what is built in once and not set by hand."""

    name: str
    to: Words
    turned: bool = True


class Trial(NamedTuple):
    """A step of first power that a way asks for by itself, before anything turns: its `fuse` is out, the machine is started
    with nothing behind; what is read between which two terminals, and what it must show."""

    fuse: str
    red: str
    black: str
    before: str
    right_when: str
    what: str
    want: Words
    unit: str = "V AC"
    note: str = ""


class Beside(NamedTuple):
    """What stands beside a way and bears on its own dangers: the region, the current on the motor's plate, unknown without
    one, whether a choke lies in the motor's lead, and whether a fan is wired beside it."""

    region: Region
    plate_current: Value
    choked: bool
    fan: bool


class HardStart(NamedTuple):
    """What a motor meets that is put on a voltage at once: the volts, the resistance that is ahead of it as it feels it, None for
    one that does not count beside its own; where a transformer lies between, also the line's voltage at that moment, and the
    secondary's over the line's."""

    volts: Value
    ohms: Value | None
    line: Value | None = None
    turns: Value | None = None


class Outfit(ABC):
    """A way with its own parts sized."""

    def dangers(self) -> Iterator[Finding]:
        """What its sized parts say against it."""
        yield from ()

    @property
    def needed(self) -> tuple[Value, ...]:
        """What its part of the circuit can't be drawn without."""
        return ()

    @property
    def fuses(self) -> Mapping[str, Value]:
        """Its own fuses by code."""
        return {}

    @property
    def guards(self) -> Mapping[str, str]:
        """The one of its fuses that wires of a role lie behind, where that is not one of the machine's."""
        return dict.fromkeys(("secondary",), next(iter(self.fuses))) if self.fuses else {}

    @property
    def idle(self) -> Value | None:
        """RMS current that it takes from the supply beside what it passes on; None for none to speak of."""
        return None

    @property
    def start_needs(self) -> tuple[Value | None, Value | None]:
        """Least ratings of line fuse and motor fuse that carry a start at full voltage; None for no more than the running
        current asks for."""
        return None, None

    @property
    def hard_start(self) -> HardStart | None:
        """What the motor meets at its start where nothing runs it up; None where something does."""
        return None

    @property
    def direct_most(self) -> Value | None:
        """Greatest direct voltage behind it; None where that is the peak of the supply."""
        return None

    @property
    def zero_contact(self) -> tuple[str, str] | None:
        """Terminals of a contact that is closed only while its control stands at the slow end; None where it has none."""
        return None

    @property
    def lets_out(self) -> Value | None:
        """Most RMS current that its own fuse lets out to the motor; None where a drive's current limit says it."""
        return None

    @property
    @abstractmethod
    def places(self) -> tuple[Place, ...]:
        """The places of its parts."""

    @property
    def settings(self) -> tuple[Setting, ...]:
        """What has to be set on it."""
        return ()

    @property
    def trials(self) -> tuple[Trial, ...]:
        """What is read at first power before its output is let on to the motor."""
        return ()

    @property
    def facts(self) -> tuple[tuple[str, Words], ...]:
        """What was decided about it, for the sheet that is read first."""
        return ()

    @property
    @abstractmethod
    def texts(self) -> Mapping[str, str]:
        """The grey line under each of its devices in the diagram, by code."""

    @abstractmethod
    def wire(self, board: Board, feed: Feed, *, limit: float, texts: Mapping[str, str], metal: bool) -> tuple[str, ...]:
        """Puts its devices and wires (the 300s, a control's 500s) behind `feed` and hands on the terminals that feed the
        motor. `limit` is the most RMS current that leaves it; `metal`: there is a protective conductor for its case."""


class Way(Given):
    """A way of powering a motor."""

    runs_on: ClassVar[Literal["line", "battery"]] = "line"
    printed: ClassVar[str] = "DC drive"
    noun: ClassVar[str] = "drive"  # what a sentence calls it
    icon: ClassVar[str] = "drive"  # its sign on the cover
    first: ClassVar[tuple[str, str, str]] = ("T1", "L", "N")  # the device that takes the supply in, and its two terminals
    stands_as: ClassVar[tuple[str, ...]] = ("magnet-motor drive",)  # its links in the matrix, whatever its data
    control: ClassVar[Control | None] = None
    separates: ClassVar[str] = ""  # a sentence on what lies between the line and the motor, where one would be misled
    runaway_by: ClassVar[str] = ""  # what its runaway is, where that is not a shorted device
    limits_air: ClassVar[str] = "electronics limit"  # the assumed value for the hottest air around it
    fuses_motor: ClassVar[bool] = True  # a fuse lies in the motor's lead behind it
    switches_motor: ClassVar[bool] = False  # the contactor opens the motor's own direct current
    display: ClassVar[bool] = False  # it tells its output by itself, and is set by its own keys
    feeds_apart: ClassVar[bool] = False  # a field on a bridge of its own may stand beside it, and its stop leaves that fed
    guards_motor: ClassVar[bool] = False  # its own electronics see the motor's overload, and nothing may lie behind it

    @property
    def links(self) -> tuple[str, ...]:
        """Its links in the matrix of what may stand behind what, from the supply on."""
        return self.stands_as

    @abstractmethod
    def applied(self, sheet: Worksheet, supplied: Supplied) -> Applied:
        """What it puts on the motor's terminals."""

    @abstractmethod
    def fit_out(
        self, sheet: Worksheet, region: Region, supplied: Supplied, applied: Applied, points: tuple[Point, ...], share: Value
    ) -> Outfit:
        """Its own parts, sized for the operating points. `share` of its rating is what a fuse carries in the box."""

    @abstractmethod
    def loss(self, sheet: Worksheet, applied: Applied, current: Value, points: tuple[Point, ...]) -> Value | None:
        """Its heat at an output current, the hardest of the points'; entered as heat.P_drive. None where it makes none."""

    @property
    @abstractmethod
    def made_for(self) -> Value | None:
        """Supply voltage that it is made for; None where nothing of it is made for one."""

    @property
    def output_most(self) -> Value:
        """Most average output that its data give, unknown where there is none in its data."""
        return unknown("power.output_high", VOLT, "no such figure is in its data", "most average output")

    @property
    def air_most(self) -> Value | None:
        """Hottest air around it that its data allow, None where it has no such figure."""
        return None

    @property
    def stands(self) -> Value | None:
        """Highest supply voltage that it stands; what is fed by the line stands that line's tolerance."""
        return self.made_for

    @property
    def stops_at(self) -> Value:
        """Supply voltage at which it stops by itself."""
        return unknown("power.cut_off", VOLT, "not in the file", f"cut-off of the {self.noun}")

    @property
    def capacitor_in(self) -> Value | None:
        """The capacitor at its supply terminals, which must be filled before a contactor closes; None where there is none."""
        return None

    def pulse_height(self, applied: Applied) -> Value | None:
        """Height of the pulses that reach the motor, where that is more than what it is set to; None elsewhere."""
        del applied
        return None

    def reach(self, applied: Applied, point: Point) -> tuple[Value, Value]:
        """What a point asks of it and the most that it has for that, in the same unit."""
        return point.terminal, applied.ceiling

    @property
    def current_limit_set(self) -> Value | None:
        """Setting of its current limit; None where it has none."""
        return None

    @property
    def keeps_charge(self) -> Value | None:
        """Time after which a capacitor inside it is below the safe voltage, unknown when nobody says; None where it holds
        none at a dangerous voltage, or where its capacitor is a part of the circuit by itself."""
        return None

    @property
    def gives(self) -> Value | None:
        """Output current that it may give for long as it is cooled here; None where it is made of parts that are sized
        one by one."""
        return None

    def derated(self, sheet: Worksheet, gives: Value) -> Value:
        """What of that current its supply leaves."""
        del sheet
        return gives

    @property
    def waits_for_zero(self) -> bool | None:
        """Whether it starts only after its control was at the slow end; None when nobody says."""
        return None

    @property
    def low_behind(self) -> str:
        """What keeps the line out of everything behind it, by a mark or its data; empty where nothing does."""
        return ""

    @property
    def broken_low_end(self) -> Literal["stops", "full speed"] | None:
        """What it does when the wire at the slow end of its control comes off; None when nobody says."""
        return None

    @property
    @abstractmethod
    def live_controls(self) -> bool | None:
        """Whether wires of its control can be at a dangerous voltage; None when the file does not say."""

    def dangers(self, beside: Beside) -> Iterator[Finding]:
        """What its own data say against it, beside what holds for every way."""
        del beside
        yield from ()


def capital(words: str) -> str:
    """The same words with a capital first letter."""
    return f"{words[0].upper()}{words[1:]}"


__all__ = ["Beside", "Control", "HardStart", "Outfit", "Setting", "Trial", "Way", "Words", "capital"]
