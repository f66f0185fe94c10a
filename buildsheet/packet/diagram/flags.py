"""Where the flags sit: on their own wire, clear of every other wire, word, ring, box and flag."""

import itertools
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from buildsheet.packet.diagram.model import FLAG_HEIGHT, THICK, Flag, Point, Rect

CLEAR = 0.55
LONG_WIRE = 85.0  # a wire longer than this has a flag near each end
NEAR_END = 0.42
UPRIGHT_PRICE, ACROSS_PRICE = 60.0, 14.0
EDGE_HOLD = 1.9  # a wire passes a flag at least so far inside it


@dataclass(frozen=True, slots=True)
class Spot:
    """A free place for a flag and what speaks against it."""

    price: float
    room: Rect
    upright: bool


def pieces(points: Sequence[Point], width: float) -> list[Rect]:
    """The straight pieces of a wire whose line is so wide; a thin one gets the room of a thick one."""
    wide = max(width, THICK)
    return [
        Rect(min(ax, bx) - wide / 2, min(ay, by) - wide / 2, abs(ax - bx) + wide, abs(ay - by) + wide)
        for (ax, ay), (bx, by) in itertools.pairwise(points)
    ]


class Crowd:
    """All that a flag must keep clear of."""

    def __init__(
        self,
        fixed: Sequence[Rect],
        wires: Mapping[int, Sequence[Point]],
        lines: Mapping[int, float],
        width: float,
        height: float,
    ) -> None:
        self.width, self.height = width, height
        self.things: list[tuple[float, float, float, float, tuple[int, int] | None, Rect]] = []
        for room in fixed:
            self.add(room)
        for number, points in wires.items():
            for i, room in enumerate(pieces(points, lines[number])):
                self.add(room, (number, i))

    def around(self, number: int, piece: int, band: Rect) -> list[Rect]:
        """What lies in a band that a flag of one piece of a wire may move along."""
        left, top, right, bottom = band.x - CLEAR, band.y - CLEAR, band.right + CLEAR, band.bottom + CLEAR
        return [
            room
            for x, y, x_end, y_end, owner, room in self.things
            if x < right and left < x_end and y < bottom and top < y_end and owner != (number, piece)
        ]

    def add(self, room: Rect, owner: tuple[int, int] | None = None) -> None:
        """One more thing to keep clear of; `owner` is a piece of a wire, which its own flag may cover."""
        self.things.append((room.x, room.y, room.right, room.bottom, owner, room))


def place(
    wires: Mapping[int, Sequence[Point]],
    sizes: Mapping[int, float],
    lines: Mapping[int, float],
    fixed: Sequence[Rect],
    width: float,
    height: float,
) -> tuple[list[Flag], list[int]]:
    """The flags of all wires (`sizes`: flag widths, `lines`: line widths), and the wires for which there was no room."""
    crowd = Crowd(fixed, wires, lines, width, height)
    lengths = {number: sum(abs(a[0] - b[0]) + abs(a[1] - b[1]) for a, b in itertools.pairwise(points))
               for number, points in wires.items()}  # fmt: skip
    found: list[Flag] = []
    failed: list[int] = []
    order = sorted(wires, key=lambda number: (lengths[number], number))
    later: list[tuple[int, bool]] = []
    for number in order:
        points = wires[number]
        long = lengths[number] > LONG_WIRE
        spots = list(_spots(number, points, sizes[number], crowd))
        if not spots:
            failed.append(number)
            continue
        if long:
            away = [(_along(points, spot.room), spot) for spot in spots]
            first = [one for one in away if one[0] < NEAR_END * lengths[number]]
            along, chosen = min(first or away, key=_from_end)
            later.append((number, along < lengths[number] / 2))
        else:
            chosen = min(spots, key=lambda spot: (spot.price, spot.room.x, spot.room.y))
        found.append(Flag(number, chosen.room, chosen.upright))
        crowd.add(chosen.room)
    for number, at_start in later:
        points, length = wires[number], lengths[number]
        ends = points if not at_start else points[::-1]
        away = [(_along(ends, spot.room), spot) for spot in _spots(number, points, sizes[number], crowd)]
        near = [one for one in away if one[0] < NEAR_END * length]
        if near:
            _, chosen = min(near, key=_from_end)
            found.append(Flag(number, chosen.room, chosen.upright))
            crowd.add(chosen.room)
    return found, failed


def _from_end(one: tuple[float, Spot]) -> tuple[float, float, float]:
    """What speaks against a spot so far along a wire that is to have a flag near its end."""
    along, spot = one
    return spot.price + 0.35 * along, spot.room.x, spot.room.y


def _along(points: Sequence[Point], room: Rect) -> float:
    """How far along the wire a flag sits."""
    cx, cy = room.x + room.width / 2, room.y + room.height / 2
    gone, best, where = 0.0, 1e9, 0.0
    for (ax, ay), (bx, by) in itertools.pairwise(points):
        x, y = min(max(cx, min(ax, bx)), max(ax, bx)), min(max(cy, min(ay, by)), max(ay, by))
        away = abs(cx - x) + abs(cy - y)
        if away < best:
            best, where = away, gone + abs(x - ax) + abs(y - ay)
        gone += abs(ax - bx) + abs(ay - by)
    return where


def _spots(number: int, points: Sequence[Point], size: float, crowd: Crowd) -> Iterator[Spot]:
    for piece, ((ax, ay), (bx, by)) in enumerate(itertools.pairwise(points)):
        if ay == by:
            low, high = min(ax, bx), max(ax, bx)
            if high - low < size:
                continue
            band = Rect(low, ay - FLAG_HEIGHT / 2, high - low, FLAG_HEIGHT)
            blocks = [
                (room.x - CLEAR - size, room.right + CLEAR) for room in crowd.around(number, piece, band)
            ]
            for at in _free(low + 0.3, high - 0.3 - size, blocks):
                yield Spot(
                    0.3 * abs(at + size / 2 - (low + high) / 2) - 0.02 * (high - low),
                    Rect(at, band.y, size, FLAG_HEIGHT),
                    upright=False,
                )
        else:
            low, high = min(ay, by), max(ay, by)
            middle = (low + high) / 2
            for left, price in ((size / 2, 0.0), (EDGE_HOLD, 4.0), (size - EDGE_HOLD, 4.0)):
                band = Rect(ax - left, low, size, high - low)
                if high - low < FLAG_HEIGHT or band.x < 0 or band.right > crowd.width:
                    continue
                blocks = [
                    (room.y - CLEAR - FLAG_HEIGHT, room.bottom + CLEAR)
                    for room in crowd.around(number, piece, band)
                ]
                for at in _free(low + 0.3, high - 0.3 - FLAG_HEIGHT, blocks):
                    yield Spot(
                        ACROSS_PRICE + price + 0.1 * abs(at + FLAG_HEIGHT / 2 - middle),
                        Rect(band.x, at, size, FLAG_HEIGHT),
                        upright=False,
                    )
            band = Rect(ax - FLAG_HEIGHT / 2, low, FLAG_HEIGHT, high - low)
            if high - low >= size and band.x >= 0 and band.right <= crowd.width:
                blocks = [
                    (room.y - CLEAR - size, room.bottom + CLEAR) for room in crowd.around(number, piece, band)
                ]
                for at in _free(low + 0.3, high - 0.3 - size, blocks):
                    yield Spot(
                        UPRIGHT_PRICE + 0.1 * abs(at + size / 2 - middle),
                        Rect(band.x, at, FLAG_HEIGHT, size),
                        upright=True,
                    )


def _free(low: float, high: float, blocks: list[tuple[float, float]]) -> Iterator[float]:
    """Free positions between two ends: the middle of each free stretch, both its ends, and the middle of all if it is free."""
    if high < low:
        return
    middle = (low + high) / 2
    at = low
    for start, end in sorted(blocks):
        if start > at:
            yield from _stretch(at, min(start, high), middle)
        at = max(at, end)
        if at > high:
            return
    yield from _stretch(at, high, middle)


def _stretch(low: float, high: float, middle: float) -> Iterator[float]:
    if high < low:
        return
    if low <= middle <= high:
        yield middle
    yield low
    if high > low:
        yield high
        yield (low + high) / 2
