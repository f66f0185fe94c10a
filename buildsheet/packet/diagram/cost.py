"""What a placement costs: crossings first, then length, wires through columns, folded devices, devices out of place.

The rim of a gap is the line up its left side and down its right side, with the foot of the sheet at its
end. A wire in the gap is a chord between two places on the rim; two wires cross where their chords do.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable
from dataclasses import dataclass

from buildsheet.packet.diagram.columns import LANE_ROOM, Columns, Item, Modes
from buildsheet.packet.diagram.forms import L, R

CROSSING, LANE, LENGTH, STEP, RANK, FOLDED, HINT, TALL = 9.0, 3.5, 0.09, 0.8, 3.0, 1.6, 9.0, 3.0
STEEP = 12.0  # mm; a wire that climbs more costs STEP besides
OFF_SPINE = 60.0
FOOT = 1e4  # on the rim, past every terminal
Chord = tuple[float, float]
Place = tuple[int, int, float]  # of a wire on a rim: its item in the column, run or drop, height
Rim = list[Place]


def length(climb: float) -> float:
    """What a wire costs that climbs so far, mm, in one gap."""
    return LENGTH * climb + (STEP if climb > STEEP else 0.0)


def crossings(chords: Iterable[Chord]) -> int:
    """How many pairs of chords cross. Chords with an end in common do not."""
    count = 0
    open_: list[float] = []  # where the chords end that have begun, in order
    for start, before in sorted([(start, -end) for start, end in chords]):
        end = -before
        del open_[: bisect_right(open_, start)]
        place = bisect_left(open_, end)
        count += place
        open_.insert(place, end)
    return count


@dataclass(frozen=True, slots=True)
class Stacked:
    """A column's items stacked from the top: upper edge of each, and of what would come last.

    `left` and `right` are the rims of the gaps on its sides, from the top.
    """

    tops: list[float]
    left: Rim
    right: Rim


class Costs:
    """What parts of a placement cost. A gap or a column that was seen before is not worked out again.

    The state of a column, its items in their order with their modes, is a number, the same whenever it is the same.
    """

    def __init__(self, placed: Columns) -> None:
        self.p = placed
        self._states: dict[tuple[tuple[Item, ...], tuple[Modes | None, ...]], int] = {}
        self._stacks: list[Stacked] = []
        self._gaps: dict[tuple[int, int], float] = {}
        self._columns: dict[tuple[int, int], float] = {}
        self._folds: dict[tuple[str, Modes], float] = {}

    def total(self, columns: range) -> float:
        """The cost of neighbouring columns with the gaps between them and on both sides."""
        before = self.state(columns.start - 1)
        cost = 0.0
        for column in columns:
            here = self.state(column)
            cost += self._gap(before, here) + self._column(column, here)
            before = here
        return cost + self._gap(before, self.state(columns.stop))

    def state(self, column: int) -> int:
        """The state of a column, or of the empty margin past the first or last one."""
        items = self.p.columns[column] if 0 <= column < len(self.p.columns) else []
        key = tuple(items), tuple(map(self.p.modes.get, items))  # type: ignore[arg-type]  # a wire has no modes
        state = self._states.get(key)
        if state is None:
            state = self._states[key] = len(self._stacks)
            self._stacks.append(self._stacked(items))
        return state

    def _stacked(self, items: Iterable[Item]) -> Stacked:
        p = self.p
        top = 0.0
        tops, left, right = [top], list[Place](), list[Place]()
        for i, item in enumerate(items):
            if isinstance(item, str):
                left += [(i, run, top + offset) for run, offset in p.edge(item, L)]
                right += [(i, run, top + offset) for run, offset in p.edge(item, R)]
                top += p.item_height(item)
            else:
                place = (i, item[0], top + LANE_ROOM / 2)
                left.append(place)
                right.append(place)
                top += LANE_ROOM
            tops.append(top)
        return Stacked(tops, left, right)

    # --- gaps ------------------------------------------------------------------------------------

    def _gap(self, left: int, right: int) -> float:
        cost = self._gaps.get((left, right))
        if cost is None:
            cost = self._gaps[left, right] = _gap(self._stacks[left].right, self._stacks[right].left)
        return cost

    # --- columns ---------------------------------------------------------------------------------

    def _column(self, column: int, state: int) -> float:
        cost = self._columns.get((column, state))
        if cost is None:
            cost = self._columns[column, state] = self._column_anew(column)
        return cost

    def _column_anew(self, column: int) -> float:
        p = self.p
        cost, seen = 0.0, 0
        for i, item in enumerate(p.columns[column]):
            if isinstance(item, str):
                rank = -1 if item in p.spine else p.rank[item]
                cost += OFF_SPINE * (rank == -1 and i > 0)
                cost += RANK * max(0, seen - rank)
                seen = max(seen, rank)
                cost += HINT * abs(column - p.hinted.get(item, column))
                cost += self._fold(item)
            else:
                cost += LANE
        return cost + TALL * max(0.0, p.tall(p.columns[column]) - p.height)

    def _fold(self, code: str) -> float:
        key = (code, self.p.modes[code])
        if key not in self._folds:
            self._folds[key] = sum(
                FOLDED + 0.4 * (len(mode) == 3)
                for seat, mode in zip(self.p.forms[code].seats, self.p.chosen(code), strict=True)
                if seat.paired and mode[0] == mode[1]
            )
        return self._folds[key]

    # --- a wire on its way through a column ------------------------------------------------------

    def of_lane(self, run: int, column: int) -> list[float]:
        """What it costs to pass a wire through a column over its first item, its second, ..., under its last.

        Only what depends on the place counts: the wire's own length and crossings, and the length of
        the wires of the items that it pushes down. All places are found in one walk down the column.
        """
        before, here, after = (self._stacks[self.state(c)] for c in (column - 1, column, column + 1))
        left = _of_lane(run, here.left, before.right, here.tops)
        right = _of_lane(run, here.right, after.left, here.tops)
        costs = [one + other for one, other in zip(left, right, strict=True)]
        items = self.p.columns[column]
        if items and items[0] in self.p.spine:
            costs[0] += OFF_SPINE
        return costs


def _gap(left: Rim, right: Rim) -> float:
    """What the wires of a gap cost between its two rims."""
    chords: list[Chord] = []
    first: dict[int, float] = {}
    cost = 0.0
    for rim, sign in ((left, -1.0), (right, 1.0)):
        for _, run, y in rim:
            place = sign * y
            if run < 0:
                chords.append((place, FOOT))
            elif run in first:
                other = first.pop(run)
                chords.append((place, other) if place < other else (other, place))
                cost += length(abs(y - abs(other)))
            else:
                first[run] = place
    return cost + CROSSING * crossings(chords)


def _of_lane(run: int, near_rim: Rim, far_rim: Rim, tops: list[float]) -> list[float]:
    """What each place in a column costs in the gap on one side of it. Here the column's own rim counts down, the other up."""
    far = {other: -y for _, other, y in far_rim}
    near: dict[int, list[tuple[int, float]]] = {}
    for i, other, y in near_rim:
        near.setdefault(other, []).append((i + 1, y))  # pushed down by a wire in no place from i + 1 on
    own = near.pop(run, None)
    to = own[0][1] if own else far.get(run)  # where the wire itself goes on to; None where it isn't laid yet
    steps = [0.0] * len(tops)
    for other, ends in near.items():
        (upper, y), (lower, low) = ends[0], ends[-1]
        if other < 0:
            chord = (y, FOOT)
        elif len(ends) == 2:
            chord = (y, low)
            longer = length(low - y + LANE_ROOM) - length(low - y)
            steps[upper] += longer
            steps[lower] -= longer
        elif other in far:
            chord = (far[other], y)
            steps[upper] += length(abs(y + far[other])) - length(abs(y + LANE_ROOM + far[other]))
        else:
            continue
        if to is None or to in chord:
            continue
        turn = -CROSSING if chord[0] < to < chord[1] else CROSSING  # when the wire comes between its ends
        if other < 0 or len(ends) == 2:
            steps[upper] += turn
        if other >= 0:
            steps[lower] -= turn
    sofar = 0.0
    costs = []
    for place, top in enumerate(tops):
        sofar += steps[place]
        cost = sofar
        if to is not None:
            pushed = LANE_ROOM if own and place < own[0][0] else 0.0
            cost += length(abs(top + LANE_ROOM / 2 - abs(to) - pushed))
        costs.append(cost)
    return costs
