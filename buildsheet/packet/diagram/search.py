"""Making a placement better by small changes, tried in a fixed order and kept while they lower its cost.

Two neighbours of a column are exchanged, a terminal changes sides, a device its column. The same
circuit gives the same placement, and one more wire changes little.
"""

from collections.abc import Hashable

from buildsheet.packet.diagram.layout import Placement

SWEEPS = 6
DETOUR = 1  # a terminal does not change sides if its wires then pass more columns than this
LESS = 1e-6  # a cost lower by less than this is the same


def improve(p: Placement) -> None:
    """Try small changes until none helps, or the sweeps are used up."""
    search = Search(p)
    for _ in range(SWEEPS):
        better = search.sort_columns()
        better |= search.turn_seats()
        better |= search.move_devices()
        if not better:
            return


class Search:
    """The changes to one placement. What was in vain is not tried again before something near it has changed."""

    def __init__(self, placement: Placement) -> None:
        self.p = placement
        self._now = placement.cost
        self._vain: dict[Hashable, tuple[range, list[int]]] = {}

    # --- what was in vain ------------------------------------------------------------------------

    def _state(self, columns: range) -> list[int]:
        return [self.p.costs.state(column) for column in columns]

    def _is_vain(self, change: Hashable) -> bool:
        """Whether a change was tried before and all that its outcome depends on stands as it stood."""
        columns, state = self._vain.get(change, (range(0), None))
        return state is not None and self._state(columns) == state

    def _window(self, code: str, *gaps: int) -> range:
        """The columns that the outcome of a change to a device depends on: all beside a gap that its wires pass, or would."""
        p = self.p
        met = [*gaps, p.column[code], p.column[code] + 1]
        for run in p.runs_of.get(code, ()):
            _, a, b = p.runs[run]
            met += (p.gap(a), p.gap(b))
        return range(min(met) - 1, max(met) + 1)

    # --- changes ---------------------------------------------------------------------------------

    def sort_columns(self) -> bool:
        """Exchange two items of a column, or move one, at most three places on."""
        better = False
        for column in range(len(self.p.columns)):
            if not self._is_vain(column):
                if self._sort(column):
                    better = True
                else:
                    near = range(column - 1, column + 2)
                    self._vain[column] = near, self._state(near)
        return better

    def _sort(self, column: int) -> bool:
        p, items, better = self.p, self.p.columns[column], False
        only = range(column, column + 1)
        now = p.costs.total(only)
        for i in range(len(items)):
            for j in range(i + 1, min(i + 4, len(items))):
                for move in (False, True)[: 1 if j == i + 1 else 2]:
                    old = items[:]
                    if move:
                        items.insert(i, items.pop(j))
                    else:
                        items.insert(j, items.pop(i))
                    new = p.costs.total(only)
                    if new < now - LESS:
                        now, better = new, True
                    else:
                        items[:] = old
        return better

    def turn_seats(self) -> bool:
        """Give a seat another mode."""
        p = self.p
        better = False
        self._now = p.cost
        for code in p.column:
            for i, seat in enumerate(p.forms[code].seats):
                for mode in range(len(seat.modes)):
                    far = mode == p.modes[code][i] or p.detour(code, seat.terminals, seat.modes[mode]) > DETOUR
                    if not far and not self._is_vain((code, i, mode)):
                        better |= self._turn(code, i, mode)
        return better

    def _turn(self, code: str, seat: int, mode: int) -> bool:
        p, before = self.p, self.p.modes[code][seat]
        passed, window = p.passed(code), self._window(code)
        kept = [items[:] for items in p.columns]
        p.turn(code, seat, mode)
        p.relay(code, passed)
        after = self._window(code)
        if self._gained():
            return True
        p.turn(code, seat, before)
        p.columns = kept
        self._in_vain((code, seat, mode), window, after)
        return False

    def move_devices(self) -> bool:
        """Move a device to the next column, or from a crowded one to any."""
        p = self.p
        better = False
        self._now = p.cost
        for code in list(p.column):
            here = p.column[code]
            if code in p.spine:
                continue
            crowded = p.tall(p.columns[here]) > p.height
            for there in range(len(p.columns)) if crowded else (here - 1, here + 1):
                if there == here or not 0 <= there < len(p.columns) or p.columns[here] == [code]:
                    continue
                far = not crowded and self._longer(code, there) > 0
                if not far and not self._is_vain((code, there)) and self._move(code, there):
                    better = True
                    break
        return better

    def _move(self, code: str, there: int) -> bool:
        p, here = self.p, self.p.column[code]
        passed, window = p.passed(code), self._window(code, there, there + 1)
        kept = [items[:] for items in p.columns]
        p.columns[here].remove(code)
        p.column[code] = there
        p.columns[there].append(code)
        p.relay(code, passed)
        after = self._window(code)
        items = p.columns[there]
        best, where = 1e18, len(items) - 1
        for i in range(len(items)):
            items.remove(code)
            items.insert(i, code)
            cost = p.costs.total(range(there, there + 1))
            if cost < best - LESS:
                best, where = cost, i
        items.remove(code)
        items.insert(where, code)
        if self._gained():
            return True
        p.column[code], p.columns = here, kept
        self._in_vain((code, there), window, after)
        return False

    def _gained(self) -> bool:
        new = self.p.cost
        if new < self._now - LESS:
            self._now = new
            return True
        return False

    def _in_vain(self, change: Hashable, *windows: range) -> None:
        columns = range(min(w.start for w in windows), max(w.stop for w in windows))
        self._vain[change] = columns, self._state(columns)

    def _longer(self, code: str, there: int) -> int:
        """How many more columns the wires of a device would pass from another column."""
        p = self.p
        here, more = p.column[code], 0
        for seat in p.forms[code].seats:
            for name in seat.terminals:
                for other in p.partners.get((code, name), ()):
                    if other[0] != code:
                        gap, now = p.gap(other), p.gap((code, name))
                        more += abs(now - here + there - gap) - abs(now - gap)
        return more
