"""The line straight on the motor: nothing between but fuse, contactor and overload relay. One speed, which belts change."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar, Literal

from pydantic import Field

from buildsheet.circuit.builder import Board, Feed
from buildsheet.reference import Region
from buildsheet.sizing.alternating import AlternatingLine
from buildsheet.sizing.places import Place
from buildsheet.sizing.supply import Supplied
from buildsheet.sizing.waist import Applied, Point
from buildsheet.ways.way import HardStart, Outfit, Way
from buildsheet.worksheet import Value, Worksheet


class StraightOnLine(Way):
    """A motor that runs on the line as it is."""

    printed: ClassVar[str] = "Straight on the line"
    noun: ClassVar[str] = "line"
    icon: ClassVar[str] = "plug"
    first: ClassVar[tuple[str, str, str]] = ("M1", "U1", "U2")
    stands_as: ClassVar[tuple[str, ...]] = ()
    limits_air: ClassVar[str] = "switchgear limit"
    fuses_motor: ClassVar[bool] = False

    way: Literal["straight-on-line"] = Field(description="Way of powering.")

    def applied(self, sheet: Worksheet, supplied: Supplied) -> Applied:
        return AlternatingLine(sheet.take(supplied.voltage), sheet.take(supplied.line_frequency), supplied.highest)

    def fit_out(
        self, sheet: Worksheet, region: Region, supplied: Supplied, applied: Applied, points: tuple[Point, ...], share: Value
    ) -> Outfit:
        del sheet, region, applied, points, share
        return NoOutfit(HardStart(supplied.highest, None))

    def loss(self, sheet: Worksheet, applied: Applied, current: Value, points: tuple[Point, ...]) -> Value | None:
        del sheet, applied, current, points  # contactor and relay are counted with the other losses in the box
        return None

    @property
    def made_for(self) -> Value | None:
        return None

    @property
    def live_controls(self) -> bool | None:
        """No control has wires of its own."""
        return False


@dataclass(frozen=True, slots=True)
class NoOutfit(Outfit):
    """A way without parts of its own."""

    meets: HardStart

    @property
    def hard_start(self) -> HardStart | None:
        return self.meets

    @property
    def places(self) -> tuple[Place, ...]:
        return ()

    @property
    def texts(self) -> Mapping[str, str]:
        return {}

    def wire(self, board: Board, feed: Feed, *, limit: float, texts: Mapping[str, str], metal: bool) -> tuple[str, ...]:
        """Hands on what feeds it."""
        del board, limit, texts, metal
        return f"{feed[0]}", f"{feed[1]}"
