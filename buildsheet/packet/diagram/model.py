"""What the drawing is made of: rectangles, ends, texts, flags, and the finished drawing. Millimetres throughout."""

import itertools
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from markupsafe import Markup

from buildsheet.circuit import Terminal

Point = tuple[float, float]
Colours = Callable[[str], tuple[str, str, str | None]] | Mapping[str, tuple[str, str, str | None]]

RING = 1.1  # radius of a terminal
LANDING = 4.8  # between two wires on one terminal: a flag is 4 high
BOX_LINE = 0.55
THICK, CASING = 0.95, 0.65  # a wire keeps others as far off as one so thick would, if it isn't thicker
TRACK = 3.2  # between two wires side by side: half a flag lying along one of them clears the other
TRACK_EDGE = 3.7  # from a device's edge to the nearest wire along it
FLAG_HEIGHT = 4.0
FLAG_SHORT, FLAG_LONG = 11.0, 14.0
LEAST_GAP = 18.0  # between two devices that wires run between
TERMINAL_TEXT = 7 * 25.4 / 72  # 7 pt, the least size on paper
CODE_TEXT, NAME_TEXT, RATING_TEXT = 4.1, 2.9, 2.5


class DoesNotFit(ValueError):
    """The diagram needs more room than the sheet has, with the dimension that ran out."""


@dataclass(frozen=True, slots=True)
class Rect:
    """An upright rectangle."""

    x: float
    y: float
    width: float
    height: float

    @property
    def right(self) -> float:
        return self.x + self.width

    @property
    def bottom(self) -> float:
        return self.y + self.height

    def overlaps(self, other: "Rect", margin: float = 0.0) -> bool:
        """Whether the two come closer than `margin` in both directions."""
        return (
            self.x < other.right + margin
            and other.x < self.right + margin
            and self.y < other.bottom + margin
            and other.y < self.bottom + margin
        )


@dataclass(frozen=True, slots=True)
class Text:
    """Printed words: where they start (`anchor` as in SVG), baseline, and the room they take."""

    words: str
    x: float
    y: float
    size: float
    weight: str
    anchor: str
    fill: str
    room: Rect


@dataclass(frozen=True, slots=True)
class Flag:
    """A wire's flag. One that is `upright` is written from the foot to the head."""

    wire: int
    room: Rect
    upright: bool


@dataclass(frozen=True, slots=True)
class Ring:
    """A terminal on its device's edge, round or long."""

    terminal: Terminal
    room: Rect


@dataclass(frozen=True, slots=True)
class Legend:
    """What a reader must have explained: colour codes, conductor sizes with their line widths, symbols, marks."""

    colours: tuple[str, ...]
    widths: tuple[tuple[str, float], ...]
    symbols: tuple[str, ...]
    long_ring: bool
    touched: bool
    bridges: bool


@dataclass(frozen=True)
class Drawing:
    """A finished diagram and its geometry. `crossings` and `bends` are counts over all wires."""

    svg: Markup
    width: float
    height: float
    boxes: Mapping[str, Rect]
    rings: tuple[Ring, ...]
    texts: tuple[Text, ...]
    flags: tuple[Flag, ...]
    wires: Mapping[int, tuple[Point, ...]]
    legend: Legend
    name: str = ""
    line_widths: Mapping[int, float] = field(default_factory=dict)

    @property
    def bends(self) -> int:
        return sum(max(0, len(points) - 2) for points in self.wires.values())

    @property
    def crossings(self) -> int:
        return len(crossings(self.wires))


def simplified(points: list[Point]) -> tuple[Point, ...]:
    """The same line without points that lie on a straight piece of it."""
    kept: list[Point] = []
    for point in points:
        if kept and abs(kept[-1][0] - point[0]) < 1e-6 and abs(kept[-1][1] - point[1]) < 1e-6:
            continue
        if len(kept) >= 2:
            (ax, ay), (bx, by) = kept[-2], kept[-1]
            if (abs(ax - bx) < 1e-6 and abs(bx - point[0]) < 1e-6) or (
                abs(ay - by) < 1e-6 and abs(by - point[1]) < 1e-6
            ):
                kept.pop()
        kept.append(point)
    return tuple(kept)


def crossings(wires: Mapping[int, tuple[Point, ...]]) -> list[tuple[int, int, Point]]:
    """Where an upright piece of one wire crosses a level piece of another: upright wire, level wire, place."""
    upright, level = [], []
    for number, points in wires.items():
        for (ax, ay), (bx, by) in itertools.pairwise(points):
            if ax == bx:
                upright.append((number, ax, min(ay, by), max(ay, by)))
            else:
                level.append((number, ay, min(ax, bx), max(ax, bx)))
    return [
        (one, other, (x, y))
        for one, x, top, bottom in upright
        for other, y, left, right in level
        if one != other and top < y < bottom and left < x < right
    ]
