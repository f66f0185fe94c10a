"""From a placement to heights on paper: labels, boxes, terminals and passing wires, with as many wires level as can be."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from itertools import pairwise

from buildsheet.circuit import Wire
from buildsheet.packet.diagram.columns import POWER, End, Item
from buildsheet.packet.diagram.feet import place_feet
from buildsheet.packet.diagram.forms import L, R
from buildsheet.packet.diagram.layout import Placement
from buildsheet.packet.diagram.levels import INF, Heights
from buildsheet.packet.diagram.model import DoesNotFit
from buildsheet.packet.diagram.shapes import BOTTOM, TOP, Shape

FOOT_BOX = 6.6  # height of a metal part's box
FOOT_DROP = 7.6  # from its lower edge to the bar: a flag fits
BAR_AIR = 6.0  # between the lowest device and the bar
LANE_BELOW, LANE_ABOVE, LANE_PITCH = 3.2, 2.6, 4.8  # lane under a box, lane over a label, lane to lane
DEVICE_AIR = 2.6  # from a box to the label under it
STRETCH, STRETCH_MORE, STRETCH_FAR = (
    1.35,
    10.0,
    22.0,
)  # how much taller a box may be than it need be, so that wires run level
ALIGN = 9.0  # a box on the path of the power may be so much taller that all their upper edges stand level
Meets = tuple[int, End] | tuple[int, int]  # an end of a wire (its number), or a run in a column it passes
JUMPERS = (
    6.6,
    13.8,
)  # between the ends of a wire from a device to itself: a level flag fits between them, an upright one
NEAR = 2.4  # ends nearer than this in height may not pass each other


@dataclass
class Stack:
    """Where everything is in height. `ends` gives each run's heights in the order of the columns it meets."""

    shapes: dict[str, Shape] = field(default_factory=dict)
    tops: dict[str, float] = field(default_factory=dict)
    bottoms: dict[str, float] = field(default_factory=dict)
    rows: dict[tuple[str, int], float] = field(default_factory=dict)
    lanes: dict[tuple[int, int], float] = field(default_factory=dict)
    landing: dict[tuple[int, End], float] = field(default_factory=dict)  # wire number and end -> height
    feet: dict[str, int] = field(default_factory=dict)  # metal part -> column


class Stacker:
    """Builds the heights of one placement."""

    def __init__(
        self,
        placement: Placement,
        labels: Mapping[str, float],
        floor: float,
        ease: float,
        jumper: float,
        before: Stack | None = None,
        apart: tuple[tuple[Meets, Meets], ...] = (),
    ) -> None:
        self.p = placement
        self.labels = labels
        self.floor = floor
        self.ease = ease
        self.jumper = jumper
        self.apart = apart
        self.h = Heights()
        self.out = Stack()
        self._estimate = before
        self.node: dict[tuple[str, int], int] = {}  # a device's rows and edges
        self.lane: dict[tuple[int, int], int] = {}  # wires in the columns they pass

    def build(self) -> Stack:
        """Heights of everything. Raises DoesNotFit if the sheet is too low."""
        self._shapes()
        self._columns()
        if not self.h.settle():
            raise DoesNotFit("the devices are taller than the sheet")
        for wire, one, other in self.p.runs:
            if one[0] == other[0] and self.p.side[one] == self.p.side[other]:
                a, a_off = self._end(wire.number, one)
                b, b_off = self._end(wire.number, other)
                if self.h.y[a] + a_off > self.h.y[b] + b_off:
                    a, a_off, b, b_off = b, b_off, a, a_off
                if a != b and not self.h.demand(a, b, a_off - b_off + self.jumper):
                    raise DoesNotFit("the devices are taller than the sheet")
        for upper, lower in self.apart:
            a, a_off = self._meet(upper)
            b, b_off = self._meet(lower)
            if not self.h.demand(a, b, a_off - b_off + NEAR):
                self.h.demand(b, a, b_off - a_off + NEAR)
        self._tie()
        self._tidy()
        self._read()
        return self.out

    # --- landings --------------------------------------------------------------------------------

    def _about(self, end: End) -> float:
        if self._estimate is not None:
            made = self._estimate.shapes[end[0]]
            return self._estimate.rows[end[0], made.ports[end[1]].row]
        return self._stacked[self.p.column[end[0]]][end[0]] + self.p.offset(end)

    def _about_lane(self, lane: tuple[int, int]) -> float:
        if self._estimate is not None:
            return self._estimate.lanes[lane]
        return self._stacked[lane[1]][lane]

    def _shapes(self) -> None:
        p = self.p
        self._stacked: list[dict[Item, float]] = [p.heights(column) for column in range(len(p.columns))]
        at: dict[End, list[tuple[tuple[int, float], tuple[int, int], int]]] = {}
        for run, (wire, a, b) in enumerate(p.runs):
            for end, other in ((a, b), (b, a)):
                at.setdefault(end, []).append(
                    (self._target(run, end, other), self._worth(wire, end, other), wire.number)
                )
        for wire, end in p.drops:
            at.setdefault(end, []).append(((2, 0.0), (9, wire.number), wire.number))
        axes: dict[str, dict[str, int]] = {}
        for end, targets in at.items():
            targets.sort()
            first = min(range(len(targets)), key=lambda i: targets[i][1])
            axes.setdefault(end[0], {})[end[1]] = first
            for i, (_, _, number) in enumerate(targets):
                self.out.landing[number, end] = float(i)
        for code in p.column:
            self.out.shapes[code] = p.shape(code, axes.get(code, {}))

    def _target(self, run: int, end: End, other: End) -> tuple[int, float]:
        """Where a wire goes from an end, so that sorting puts the wires of a terminal in an order without crossings."""
        p, here = self.p, self._about(end)
        gap = p.gap(end)
        passes = p.passes(run)
        if p.gap(other) == gap:
            same = p.side[end] == p.side[other]
            there = self._about(other)
        else:
            column = gap if gap in passes else gap - 1
            same = (column == gap) == (p.side[end] == L)
            there = self._about_lane((run, column))
        if not same:
            return (1, there)
        return (0, here - there) if there < here else (3, here - there)

    def _worth(self, wire: Wire, end: End, other: End) -> tuple[int, int]:
        """How much a wire ought to run level; less is more."""
        p = self.p
        power = wire.role in POWER
        spine = end[0] in p.spine and other[0] in p.spine
        opposite = p.gap(end) != p.gap(other) or p.side[end] != p.side[other]
        return ((0 if power and spine else 1 if power else 2) + (0 if opposite else 5), wire.number)

    # --- columns ---------------------------------------------------------------------------------

    def _columns(self) -> None:
        p, h = self.p, self.h
        tall = self.foot_height
        spine = [code for code in p.column if code in p.spine]
        crest = max((self.labels[code] for code in spine), default=0.0)
        pad = max((self._pad(code) for code in spine), default=0.0)
        stacked = {column: self.floor - self._need(column) for column in range(len(p.columns))}
        self.out.feet = place_feet(p, stacked, max(tall.values(), default=0.0))
        footed = {column: tall[code] for code, column in self.out.feet.items()}
        for column, items in enumerate(p.columns):
            ceiling = self.floor - footed.get(column, BAR_AIR)
            above: Item | None = None
            for item in items:
                if isinstance(item, str):
                    made = self.out.shapes[item]
                    top = h.add(crest if item in p.spine else self.labels[item], ceiling)
                    bottom = h.add(0.0, ceiling)
                    rows = [h.add(0.0, ceiling) for _ in range(made.rows)]
                    self.node[item, TOP], self.node[item, BOTTOM] = top, bottom
                    for row, node in enumerate(rows):
                        self.node[item, row] = node
                        if item in p.spine:
                            h.keep(top, node, pad)
                    most = made.height * STRETCH + (STRETCH_FAR if p.forms[item].centre else STRETCH_MORE)
                    h.keep(bottom, top, -most)
                    for upper, lower, distance in made.below:
                        h.keep(
                            self.node[item, upper],
                            self.node[item, lower],
                            distance
                            * (
                                1.0
                                if TOP in (upper, lower) or BOTTOM in (upper, lower)
                                else 1 + 0.25 * self.ease
                            ),
                        )
                else:
                    self.lane[item] = h.add(LANE_BELOW, ceiling)
                if above is not None:
                    self._follow(above, item)
                above = item

    def _pad(self, code: str) -> float:
        """From a device's upper edge to its first terminal."""
        made = self.out.shapes[code]
        return min(made.at[row] for row in range(made.rows))

    def _follow(self, above: Item, item: Item) -> None:
        upper = self.node[above, BOTTOM] if isinstance(above, str) else self.lane[above]
        if isinstance(item, str):
            air = DEVICE_AIR + 3 * self.ease if isinstance(above, str) else LANE_ABOVE
            self.h.keep(upper, self.node[item, TOP], self.labels[item] + air)
        else:
            self.h.keep(upper, self.lane[item], LANE_BELOW if isinstance(above, str) else LANE_PITCH)

    def _need(self, column: int) -> float:
        total = 0.0
        for item in self.p.columns[column]:
            total += (
                self.out.shapes[item].height + self.labels[item] + DEVICE_AIR + 3 * self.ease
                if isinstance(item, str)
                else LANE_PITCH
            )
        return total

    @property
    def foot_height(self) -> dict[str, float]:
        return {code: self.labels[code] + FOOT_BOX + FOOT_DROP + LANE_ABOVE for code in self.p.feet}

    # --- level wires -----------------------------------------------------------------------------

    def _end(self, number: int, end: End) -> tuple[int, float]:
        port = self.out.shapes[end[0]].ports[end[1]]
        offset = port.landings[int(self.out.landing[number, end])]
        return self.node[end[0], port.row], offset

    def _meet(self, meets: Meets) -> tuple[int, float]:
        number, end = meets
        return self._end(number, end) if isinstance(end, tuple) else (self.lane[number, end], 0.0)

    def _tie(self) -> None:
        p = self.p
        wanted: list[tuple[int, int, tuple[int, float], tuple[int, float]]] = []
        for run, (wire, a, b) in enumerate(p.runs):
            low, high = (a, b) if p.gap(a) <= p.gap(b) else (b, a)
            lanes = list(p.passes(run))
            power = wire.role in POWER
            if not lanes:
                if p.side[a] != p.side[b]:
                    spine = a[0] in p.spine and b[0] in p.spine
                    kind = 0 if power and spine else 1 if power else 4
                    wanted.append((kind, wire.number, self._end(wire.number, a), self._end(wire.number, b)))
                continue
            nodes = [(self.lane[run, column], 0.0) for column in lanes]
            main = power and a[0] in p.spine and b[0] in p.spine
            for one, other in pairwise(nodes):
                wanted.append((0 if main else 2, wire.number, one, other))
            kind = 0 if main else 3 if power else 5
            if p.side[low] == R:
                wanted.append((kind, wire.number, self._end(wire.number, low), nodes[0]))
            if p.side[high] == L:
                wanted.append((kind, wire.number, nodes[-1], self._end(wire.number, high)))
        wanted.sort(key=lambda item: (item[0], item[1]))
        self.tied: list[tuple[int, int]] = []
        for code in p.column:
            self._level_sides(code)
        for _, _, (a_node, a_off), (b_node, b_off) in wanted:
            if a_node != b_node and self.h.tie(a_node, b_node, a_off - b_off):
                self.tied.append((a_node, b_node))

    def _level_sides(self, code: str) -> None:
        """The first terminals left and right of a device with one symbol stand level: the path of the power goes straight on."""
        if not self.p.forms[code].centre:
            return
        ports = self.out.shapes[code].ports.values()
        rows = [next((port.row for port in ports if port.side == side), None) for side in (L, R)]
        if rows[0] is not None and rows[1] is not None and rows[0] != rows[1]:
            a, b = self.node[code, rows[0]], self.node[code, rows[1]]
            if self.h.tie(a, b, 0.0):
                self.tied.append((a, b))

    # --- afterwards ------------------------------------------------------------------------------

    def _tidy(self) -> None:
        """Boxes close up to their first terminal; what nothing holds moves towards what it is wired to."""
        h, p = self.h, self.p
        group: dict[int, set[int]] = {i: {i} for i in range(len(h.y))}
        for a, b in self.tied:
            if group[a] is not group[b]:
                merged = group[a] | group[b]
                for node in merged:
                    group[node] = merged
        for _ in range(3):
            for code in p.column:
                top = self.node[code, TOP]
                _, down = h.room((top,))
                h.y[top] += down if down < INF else 0.0
            self._drift(group)
        for code in p.column:
            top, bottom = self.node[code, TOP], self.node[code, BOTTOM]
            h.y[top] += h.room((top,))[1]
            h.y[bottom] += h.room((bottom,))[0]
        tops = [self.node[code, TOP] for code in p.column if code in p.spine]
        crest = min((h.y[top] for top in tops), default=0.0)
        for top in tops:
            up = h.room((top,))[0]
            if 0 < h.y[top] - crest <= min(-up + 1e-6, ALIGN):
                h.y[top] = crest

    def _drift(self, group: dict[int, set[int]]) -> None:
        _h, p = self.h, self.p
        pulls: dict[int, list[tuple[int, float]]] = {}
        for run, (wire, a, b) in enumerate(p.runs):
            low, high = (a, b) if p.gap(a) <= p.gap(b) else (b, a)
            chain = [
                self._end(wire.number, low),
                *((self.lane[run, c], 0.0) for c in p.passes(run)),
                self._end(wire.number, high),
            ]
            for (u, u_off), (v, v_off) in pairwise(chain):
                pulls.setdefault(u, []).append((v, v_off - u_off))
                pulls.setdefault(v, []).append((u, u_off - v_off))
        done: set[int] = set()
        owner = {self.node[c, r]: c for c in p.column for r in range(self.out.shapes[c].rows)}
        lanes = set(self.lane.values())
        for code in p.column:
            nodes = {self.node[code, row] for row in range(self.out.shapes[code].rows)}
            whole = {self.node[code, TOP], self.node[code, BOTTOM]}
            for node in nodes:
                whole |= group[node]
            if any(owner.get(node, code) != code for node in whole):
                continue
            self._move(whole, pulls)
            done |= whole
        for node in self.lane.values():
            if node not in done and group[node] <= lanes:
                self._move(group[node], pulls)

    def _move(self, whole: set[int], pulls: Mapping[int, list[tuple[int, float]]]) -> None:
        h = self.h
        wishes = sorted(
            h.y[other] + offset - h.y[node]
            for node in whole
            for other, offset in pulls.get(node, ())
            if other not in whole
        )
        if not wishes:
            return
        wish = (
            wishes[len(wishes) // 2]
            if len(wishes) % 2
            else (wishes[len(wishes) // 2 - 1] + wishes[len(wishes) // 2]) / 2
        )
        up, down = h.room(whole)
        step = min(max(wish, up), down)
        if abs(step) > 1e-6:
            for node in whole:
                h.y[node] += step

    def _read(self) -> None:
        y, out = self.h.y, self.out
        out.lanes = {lane: y[node] for lane, node in self.lane.items()}
        for (code, row), node in self.node.items():
            if row == TOP:
                out.tops[code] = y[node]
            elif row == BOTTOM:
                out.bottoms[code] = y[node]
            else:
                out.rows[code, row] = y[node]
        for (number, end), _ in list(out.landing.items()):
            if end[0] in out.shapes:
                node, offset = self._end(number, end)
                out.landing[number, end] = y[node] + offset
