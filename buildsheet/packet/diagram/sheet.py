"""One sheet: placement, heights, tracks, labels and flags brought together until everything fits."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from itertools import product

from buildsheet.circuit import Circuit, Terminal
from buildsheet.packet.diagram import flags as flagging
from buildsheet.packet.diagram.columns import End
from buildsheet.packet.diagram.conductors import line_width
from buildsheet.packet.diagram.forms import L
from buildsheet.packet.diagram.labels import Label, label
from buildsheet.packet.diagram.layout import Placement
from buildsheet.packet.diagram.model import (
    FLAG_LONG,
    FLAG_SHORT,
    LEAST_GAP,
    RING,
    TERMINAL_TEXT,
    DoesNotFit,
    Flag,
    Point,
    Rect,
    Ring,
    simplified,
)  # fmt: skip
from buildsheet.packet.diagram.route import Channel, Clash, channels, places, spread, widen
from buildsheet.packet.diagram.search import improve
from buildsheet.packet.diagram.stack import FOOT_BOX, FOOT_DROP, JUMPERS, Meets, Stack, Stacker
from buildsheet.packet.diagram.symbols import Symbol
from buildsheet.packet.diagram.widths import FOOT_WIDTH, broken_labels, column_widths, widen_columns
from buildsheet.packet.fonts import text_width

BAR_HEIGHT = 8.0
STUD_DOWN = 2.4  # from the bar's upper edge to the middle of a stud
FOOT_LABELS = (
    30.0,
    19.0,
)  # room for the name of a metal part at the foot: the second only if the first fits nowhere
ABOUT_WIDE = 23.0  # width of a label before the columns are known
OUTER = 3.0  # left for the margins when columns are widened
# A first placement that costs more, for each mm2 of the sheet, is not tried: in measurements on 300 random
# circuits two such were brought onto one sheet at all, and then with 50 crossings.
HOPELESS = 0.028
EASES = (0.0, 0.4, 1.0)
CLASHES, WIDENINGS = 8, 5


@dataclass
class Sheet:
    """A sheet that has been laid out, ready to be drawn."""

    placement: Placement
    stack: Stack
    width: float
    height: float
    bar_top: float
    boxes: dict[str, Rect] = field(default_factory=dict)
    wires: dict[int, tuple[Point, ...]] = field(default_factory=dict)
    rings: list[Ring] = field(default_factory=list)
    labels: dict[str, tuple[Label, float]] = field(default_factory=dict)  # with the left edge
    flags: list[Flag] = field(default_factory=list)
    studs: list[tuple[str, str, float]] = field(default_factory=list)  # bar, stud, x


def lay_out(
    circuit: Circuit, symbols: Mapping[str, Symbol], width: float, height: float, notes: Mapping[str, str]
) -> Sheet:
    """A circuit on a sheet of `width` by `height` mm. Raises DoesNotFit."""
    bar_top = (
        height - BAR_HEIGHT - 0.3 if any(d.kind == "earth-bar" for d in circuit.devices.values()) else height
    )
    about = {
        code: label(device, ABOUT_WIDE, notes.get(code, "")).height
        for code, device in circuit.devices.items()
    }
    placement = Placement(circuit, symbols, bar_top - 8, about)
    narrow = sum(column_widths(placement)) + LEAST_GAP * (len(placement.columns) - 1)
    if narrow > width:
        raise DoesNotFit(f"the devices are {narrow - width:.0f} mm too wide side by side")
    if placement.cost > HOPELESS * width * height:
        raise DoesNotFit("the wires cross far too often for one sheet")
    improve(placement)
    problem = DoesNotFit("nothing tried")
    for foot, jumper in product(_feet_labels(placement, notes), _jumpers(placement)):
        tries: list[Skeleton] = []
        for ease in EASES:
            manner = Manner(ease, foot, jumper)
            try:
                columns = column_widths(placement)
                try:
                    made = _skeleton(placement, columns, bar_top, manner, notes)
                except DoesNotFit:
                    if ease:
                        raise
                    more = (width - narrow - OUTER) / len(columns)  # wider labels are lower
                    made = _skeleton(placement, [c + more for c in columns], bar_top, manner, notes)
                tries.append(made)
                wider = _wider(placement, made, width)
                if wider is not None:
                    tries.append(_skeleton(placement, wider, bar_top, manner, notes))
            except DoesNotFit as error:
                problem = error
            if not tries:
                break  # with more air it will not fit either
        for made in sorted(tries, key=lambda made: (made.tracks, made.lines - made.ease)):
            try:
                return _finish(placement, made, width, height, bar_top, notes)
            except DoesNotFit as error:
                problem = error
    raise problem


def _feet_labels(p: Placement, notes: Mapping[str, str]) -> list[float]:
    """The rooms for the names of metal parts that are worth trying: those that break a name differently."""
    devices = p.circuit.devices
    found: dict[tuple[Label, ...], float] = {}
    for room in FOOT_LABELS:
        found.setdefault(tuple(label(devices[code], room, notes.get(code, "")) for code in p.feet), room)
    return list(found.values())


def _jumpers(p: Placement) -> tuple[float, ...]:
    """The heights of a jumper that are worth trying: one if there is no jumper."""
    has = any(a[0] == b[0] and p.side[a] == p.side[b] for _, a, b in p.runs)
    return JUMPERS if has else JUMPERS[:1]


@dataclass(frozen=True, slots=True)
class Manner:
    """How closely to draw: air between devices (0 to 1), room (mm) for the names of metal parts at the foot, height of a jumper."""

    ease: float
    foot: float
    jumper: float


@dataclass
class Skeleton:
    """Heights and tracks, before anything has its place from left to right."""

    columns: list[float]
    labels: dict[str, Label]
    stack: Stack
    gaps: list[Channel]
    ease: float

    @property
    def tracks(self) -> int:
        return sum(len(channel.tracks) for channel in self.gaps)

    @property
    def lines(self) -> int:
        return sum(len(made.names) + len(made.ratings) for made in self.labels.values())


def _skeleton(
    p: Placement, columns: list[float], bar_top: float, manner: Manner, notes: Mapping[str, str]
) -> Skeleton:
    labels = broken_labels(p, columns, manner.foot, notes)
    stack, gaps = _settle(p, labels, columns, bar_top, manner, notes)
    return Skeleton(columns, labels, stack, gaps, manner.ease)


def _wider(p: Placement, made: Skeleton, width: float) -> list[float] | None:
    """The columns with what is left of the sheet's width given to their labels; None if that helps no label."""
    columns = made.columns[:]
    slack = width - sum(columns) - sum(max(LEAST_GAP, channel.packed) for channel in made.gaps[1:-1]) - OUTER
    return columns if widen_columns(p, columns, made.labels, slack) else None


def _finish(
    p: Placement, made: Skeleton, width: float, height: float, bar_top: float, notes: Mapping[str, str]
) -> Sheet:
    columns, labels, stack, gaps = made.columns, made.labels, made.stack, made.gaps
    failed: list[int] = []
    for _ in range(WIDENINGS):
        edges, widths = spread(gaps, columns, width)
        sheet = Sheet(p, stack, width, height, bar_top)
        _boxes(sheet, edges, columns)
        _wires(sheet, gaps, edges, widths)
        _rings(sheet)
        _labels(sheet, labels, notes)
        sizes = {wire.number: flag_width(wire.number, wire.colour) for wire in p.circuit.wires}
        sheet.flags, failed = flagging.place(sheet.wires, sizes, _lines(p), _fixed(sheet), width, bar_top)
        if not failed:
            return sheet
        for gap, run in _gaps_of(p, failed):
            widen(gaps[gap], run)
    raise DoesNotFit(f"no room for the flags of wires {failed}")


def _lines(p: Placement) -> dict[int, float]:
    """How wide each wire's line is."""
    return {wire.number: line_width(wire.size) for wire in p.circuit.wires}


def flag_width(number: int, colour: str) -> float:
    """Width of a wire's flag: 11 mm, 14 with a long code, more only for a number of many figures."""
    least = FLAG_SHORT if len(colour) <= 2 else FLAG_LONG
    return max(
        least,
        text_width(str(number), TERMINAL_TEXT, "bold") + text_width(colour, TERMINAL_TEXT, "semibold") + 3.0,
    )


def _settle(
    p: Placement,
    labels: dict[str, Label],
    columns: list[float],
    bar_top: float,
    manner: Manner,
    notes: Mapping[str, str],
) -> tuple[Stack, list[Channel]]:
    apart: tuple[tuple[Meets, Meets], ...] = ()
    heights = {code: made.height for code, made in labels.items()}
    estimate = Stacker(p, heights, bar_top, manner.ease, manner.jumper).build()
    for code, column in estimate.feet.items():
        if column == len(columns) - 1:  # nothing but the margin beside it
            labels[code] = label(p.circuit.devices[code], columns[-1], notes.get(code, ""))
            heights[code] = labels[code].height
    for _ in range(CLASHES):
        stack = Stacker(p, heights, bar_top, manner.ease, manner.jumper, estimate, apart).build()
        try:
            return stack, channels(p, stack, bar_top + STUD_DOWN)
        except Clash as clash:
            apart += clash.pairs
    raise DoesNotFit("two wires meet head on and cannot be moved apart")


def _gaps_of(p: Placement, failed: list[int]) -> list[tuple[int, int]]:
    """The gaps that some wires meet, with the run."""
    found: list[tuple[int, int]] = []
    for run, (wire, a, b) in enumerate(p.runs):
        if wire.number in failed:
            low, high = sorted((p.gap(a), p.gap(b)))
            found += [(gap, run) for gap in range(low, high + 1)]
    for i, (wire, end) in enumerate(p.drops):
        if wire.number in failed and end[0] not in p.feet:
            found.append((p.gap(end), -1 - i))
    return found


def _boxes(sheet: Sheet, edges: list[float], columns: list[float]) -> None:
    p, stack = sheet.placement, sheet.stack
    for code, column in p.column.items():
        top = stack.tops[code]
        sheet.boxes[code] = Rect(edges[column], top, columns[column], stack.bottoms[code] - top)
    for code, column in stack.feet.items():
        x = (
            edges[column] + (columns[column] - FOOT_WIDTH) / 2
            if columns[column] < FOOT_WIDTH
            else edges[column]
        )
        sheet.boxes[code] = Rect(x, sheet.bar_top - FOOT_DROP - FOOT_BOX, FOOT_WIDTH, FOOT_BOX)


def _wires(sheet: Sheet, gaps: list[Channel], edges: list[float], widths: list[float]) -> None:
    p, stack = sheet.placement, sheet.stack
    at: dict[tuple[int, int], float] = {}
    for gap, channel in enumerate(gaps):
        rim = edges[gap] if gap < len(edges) else sheet.width
        for track, x in zip(channel.tracks, places(channel, rim - widths[gap], rim), strict=True):
            at[track.run, gap] = x
    for run, (wire, a, b) in enumerate(p.runs):
        low, high = (a, b) if p.gap(a) <= p.gap(b) else (b, a)
        points = [(_edge(sheet, low), stack.landing[wire.number, low])]
        y = points[0][1]
        for gap in range(p.gap(low), p.gap(high) + 1):
            if (run, gap) in at:
                points.append((at[run, gap], y))
                y = stack.lanes[run, gap] if gap < p.gap(high) else stack.landing[wire.number, high]
                points.append((at[run, gap], y))
        points.append((_edge(sheet, high), y))
        sheet.wires[wire.number] = _level(points if low == a else points[::-1])
    stud = sheet.bar_top + STUD_DOWN
    for i, (wire, end) in enumerate(p.drops):
        if end[0] in p.feet:
            box = sheet.boxes[end[0]]
            x = box.x + box.width / 2
            points = [(x, box.bottom), (x, stud)]
        else:
            x, y = at[-1 - i, p.gap(end)], stack.landing[wire.number, end]
            points = [(_edge(sheet, end), y), (x, y), (x, stud)]
        bar = wire.a if wire.a.device in p.bars else wire.b
        sheet.studs.append((bar.device, bar.name, x))
        sheet.wires[wire.number] = _level(points[::-1] if bar == wire.a else points)


def _edge(sheet: Sheet, end: End) -> float:
    box = sheet.boxes[end[0]]
    return box.x if sheet.placement.side[end] == L else box.right


def _level(points: list[Point]) -> tuple[Point, ...]:
    """Points with exactly level and upright pieces: each height is taken from the point before where they agree."""
    made = [points[0]]
    for x, y in points[1:]:
        bx, by = made[-1]
        made.append((bx if abs(x - bx) < 0.02 else x, by if abs(y - by) < 0.02 else y))
    return simplified(made)


def _rings(sheet: Sheet) -> None:
    p, stack = sheet.placement, sheet.stack
    for code in p.column:
        for name, port in stack.shapes[code].ports.items():
            x, y = _edge(sheet, (code, name)), stack.rows[code, port.row]
            top, bottom = y + port.landings[0], y + port.landings[-1]
            sheet.rings.append(
                Ring(Terminal(code, name), Rect(x - RING, top - RING, 2 * RING, bottom - top + 2 * RING))
            )
    for code in stack.feet:
        box = sheet.boxes[code]
        name = p.circuit.devices[code].terminals[0]
        sheet.rings.append(
            Ring(
                Terminal(code, name),
                Rect(box.x + box.width / 2 - RING, box.bottom - RING, 2 * RING, 2 * RING),
            )
        )
    for bar, name, x in sheet.studs:
        sheet.rings.append(
            Ring(Terminal(bar, name), Rect(x - RING, sheet.bar_top + STUD_DOWN - RING, 2 * RING, 2 * RING))
        )


def _labels(sheet: Sheet, broken: Mapping[str, Label], notes: Mapping[str, str]) -> None:
    """Each label on two lines where that is free, left with its box or, failing that, right with it; else broken."""
    lines = _lines(sheet.placement)
    pieces = [
        room for number, points in sheet.wires.items() for room in flagging.pieces(points, lines[number])
    ]
    pieces += [ring.room for ring in sheet.rings]
    placed = {code: broken[code].room(sheet.boxes[code].x, sheet.boxes[code].y) for code in broken}
    for code, made in broken.items():
        box = sheet.boxes[code]
        whole = label(sheet.placement.circuit.devices[code], None, notes.get(code, ""))
        sheet.labels[code] = (made, box.x)
        if whole.names == made.names and whole.ratings == made.ratings:
            continue
        for x in (box.x, max(0.0, min(box.x, sheet.width - whole.width)), box.right - whole.width):
            room = whole.room(x, box.y)
            others = [other for one, other in (*placed.items(), *sheet.boxes.items()) if one != code]
            if (
                x >= 0
                and room.right <= sheet.width
                and not any(room.overlaps(thing, 0.6) for thing in (*pieces, *others))
            ):
                sheet.labels[code], placed[code] = (whole, x), room
                break
    for code in sheet.stack.feet:
        others = [other for one, other in (*placed.items(), *sheet.boxes.items()) if one != code]
        if (
            any(placed[code].overlaps(thing, 0.4) for thing in (*pieces, *others))
            or placed[code].right > sheet.width
        ):
            raise DoesNotFit(f"no room for the name of {code}")


def _fixed(sheet: Sheet) -> list[Rect]:
    rooms = [made.room(x, sheet.boxes[code].y) for code, (made, x) in sheet.labels.items()]
    frame = [Rect(0, sheet.bar_top - 0.6, sheet.width, 12)]
    return [*sheet.boxes.values(), *rooms, *(ring.room for ring in sheet.rings), *frame]
