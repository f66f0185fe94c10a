"""Placement: which column a device stands in, in what order, and on which side each terminal sits.

The circuit's own hints give the columns; the path of the power stands on top. What is placed can then be
changed a little at a time, with the cost of each change, which is how the search makes it better.
"""

from collections.abc import Sequence

from buildsheet.packet.diagram.columns import POWER, Columns
from buildsheet.packet.diagram.cost import FOLDED, Costs
from buildsheet.packet.diagram.forms import R
from buildsheet.packet.diagram.model import DoesNotFit


class Placement(Columns):
    """A first placement, ready to be made better."""

    def __post_init__(self) -> None:
        super().__post_init__()
        self.costs = Costs(self)
        self._start()

    # --- first placement -------------------------------------------------------------------------

    def _start(self) -> None:
        codes = [code for code in self.forms if code not in self.feet]
        wanted = {self.circuit.devices[code].column for code in codes}
        if len(wanted) < len(self.feet) + 2:  # metal parts stand one to a column
            wanted |= {self.circuit.devices[code].column for code in self.feet}
        while len(wanted) < len(self.feet):
            wanted.add(max(wanted) + 1)
        hints = self.hints = sorted(wanted)
        at = {hint: i for i, hint in enumerate(hints)}
        self.column = {code: at[self.circuit.devices[code].column] for code in codes}
        for code in codes:
            self.set_modes(code, (0,) * len(self.forms[code].seats))
        self._choose_sides()
        self.columns = [[] for _ in hints]
        for code in sorted(codes, key=lambda code: self.rank[code]):
            self.columns[self.column[code]].append(code)
        self._relieve()
        self.spine = self._find_spine()
        for items in self.columns:
            items.sort(key=lambda item: item not in self.spine)
        self.hinted = dict(self.column)
        self._choose_sides()
        for run in range(len(self.runs)):
            self._lay(run)

    def _find_spine(self) -> frozenset[str]:
        """The path of the power: one device in each column, from the plug on, that shares most wires with the one before."""
        shared: dict[tuple[str, str], int] = {}
        for wire, a, b in self.runs:
            if wire.role in POWER:
                for pair in ((a[0], b[0]), (b[0], a[0])):
                    shared[pair] = shared.get(pair, 0) + 1
        path: list[str] = []
        for items in self.columns:
            codes = [item for item in items if isinstance(item, str) and self.rank[item] == 0]
            joined = [code for code in codes if not path or any((code, before) in shared for before in path)]
            if joined:
                last = path[-1:]
                path.append(
                    max(joined, key=lambda code: sum(shared.get((code, before), 0) for before in last))
                )
        return frozenset(path)

    def _choose_sides(self) -> None:
        """Each seat takes the mode that passes the fewest columns."""
        for _ in range(4):
            changed = False
            for code in self.column:
                for i, seat in enumerate(self.forms[code].seats):
                    if len(seat.modes) == 1:
                        continue
                    best, chosen = 1e9, self.modes[code][i]
                    for mode, sides in enumerate(seat.modes):
                        cost = FOLDED * 0.7 * (seat.paired and sides[0] == sides[1]) + 0.01 * mode
                        for name, side in zip(seat.terminals, sides, strict=False):
                            here = self.column[code] + (side == R)
                            cost += sum(
                                2 * abs(here - self.gap(end)) for end in self.partners.get((code, name), ())
                            )
                        if cost < best - 1e-9:
                            best, chosen = cost, mode
                    if chosen != self.modes[code][i]:
                        self.turn(code, i, chosen)
                        changed = True
            if not changed:
                return

    def _relieve(self) -> None:
        """Devices leave a column that is too tall for the sheet, for the neighbour with the most room."""
        for _ in range(len(self.forms)):
            tall = [self.tall(items) for items in self.columns]
            worst = max(range(len(tall)), key=tall.__getitem__)
            if tall[worst] <= self.height:
                return
            near = sorted(
                (i for i in range(len(tall)) if i != worst), key=lambda i: (abs(i - worst), tall[i])
            )
            code = [item for item in self.columns[worst] if isinstance(item, str)][-1]
            room = next((i for i in near if tall[i] + self.item_height(code) <= self.height), None)
            if room is None:
                raise DoesNotFit("the devices are taller than the sheet")
            self.columns[worst].remove(code)
            self.columns[room].append(code)
            self.column[code] = room

    # --- wires through columns -------------------------------------------------------------------

    def _lay(self, run: int) -> None:
        """Put a wire into the columns it passes, each time where it costs least."""
        for column in self.passes(run):
            best, where = 1e18, 0
            for place, cost in enumerate(self.costs.of_lane(run, column)):
                if cost < best - 1e-9:
                    best, where = cost, place
            self.columns[column].insert(where, (run, column))

    # --- changes ---------------------------------------------------------------------------------

    def detour(self, code: str, names: Sequence[str], sides: Sequence[str]) -> int:
        """How many more columns the wires of a seat would pass with other sides."""
        more, column = 0, self.column[code]
        for name, side in zip(names, sides, strict=False):
            end = (code, name)
            now, then = column + (self.side[end] == R), column + (side == R)
            for other in self.partners.get(end, ()):
                there = self.gap(other)
                more += abs(then - there) - abs(now - there)
        return more

    def passed(self, code: str) -> list[range]:
        """The columns that each wire of a device passes."""
        return [self.passes(run) for run in self.runs_of.get(code, ())]

    def relay(self, code: str, passed: Sequence[range]) -> None:
        """Lay the wires of a device again where they now pass other columns than before."""
        stale = []
        for run, before in zip(self.runs_of.get(code, ()), passed, strict=True):
            if self.passes(run) != before:
                stale.append(run)
                for column in before:
                    self.columns[column].remove((run, column))
        for run in stale:
            self._lay(run)

    @property
    def cost(self) -> float:
        """The cost of the whole placement."""
        return self.costs.total(range(len(self.columns)))
