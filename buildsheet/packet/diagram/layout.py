"""Placement: which column a device stands in, in what order, on which side each terminal sits, and what that costs.

The circuit's own hints give the columns. The cost counts crossings first, then length, wires through
columns, folded devices, and devices away from where they were hinted at; the path of the power stands on top.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from buildsheet.circuit import Circuit, Wire
from buildsheet.packet.diagram.forms import BAR, Form, L, R, form
from buildsheet.packet.diagram.model import DoesNotFit
from buildsheet.packet.diagram.shapes import Shape, shape
from buildsheet.packet.diagram.symbols import Symbol

Item = str | tuple[int, int]  # a device's code, or a wire (by its place in the list) in a column it passes
End = tuple[str, str]  # device and terminal
LANE_ROOM = 5.0
LABEL_ROOM = 9.0
DEVICE_GAP = 3.0
POWER = frozenset({"line", "neutral", "entry", "armature", "field", "dc"})
CROSSING, LANE, LENGTH, RANK, FOLDED, HINT, TALL = 9.0, 3.5, 0.09, 3.0, 1.6, 9.0, 3.0
OFF_SPINE = 60.0
FOOT = 1e4


@dataclass
class Placement:
    """Devices and wires as they are placed. `columns` hold devices and passing wires from the top down."""

    circuit: Circuit
    symbols: Mapping[str, Symbol]
    height: float
    labels: Mapping[str, float] = field(default_factory=dict)  # about how high each device's label will be

    def __post_init__(self) -> None:
        devices = self.circuit.devices
        self.forms: dict[str, Form] = {
            code: form(device) for code, device in devices.items() if device.kind != BAR
        }
        self.bars = tuple(code for code, device in devices.items() if device.kind == BAR)
        self.drops: list[tuple[Wire, End]] = []
        self.runs: list[tuple[Wire, End, End]] = []
        for wire in self.circuit.wires:
            a, b = (wire.a.device, wire.a.name), (wire.b.device, wire.b.name)
            if a[0] in self.bars and b[0] in self.bars:
                continue
            if a[0] in self.bars or b[0] in self.bars:
                self.drops.append((wire, b if a[0] in self.bars else a))
            else:
                self.runs.append((wire, a, b))
        self.feet = self._feet()
        self.columns: list[list[Item]] = []
        self.column: dict[str, int] = {}
        self.modes: dict[tuple[str, int], int] = {}
        self.side: dict[End, str] = {}
        self.shapes: dict[str, Shape] = {}
        self._shape_cache: dict[tuple[str, tuple[int, ...]], Shape] = {}
        self._modes_of: dict[str, tuple[int, ...]] = {}
        self._rim_cache: dict[tuple[str, tuple[int, ...]], Mapping[str, list[tuple[int, float]]]] = {}
        self._cost_cache: dict[tuple[object, ...], float] = {}
        self._start()

    # --- what there is ---------------------------------------------------------------------------

    def _feet(self) -> dict[str, int]:
        """Metal parts that hang on the bar by a single wire, each with its drop: they stand at the foot."""
        ends = [end for _, a, b in self.runs for end in (a, b)]
        found: dict[str, int] = {}
        for i, (_, end) in enumerate(self.drops):
            if self.forms[end[0]].metal and end not in ends:
                if end[0] in found:
                    ends.append(end)
                    del found[end[0]]
                else:
                    found[end[0]] = i
        return found

    @cached_property
    def landings(self) -> dict[End, int]:
        """How many wires each terminal holds."""
        count: dict[End, int] = {}
        for _, a, b in self.runs:
            count[a] = count.get(a, 0) + 1
            count[b] = count.get(b, 0) + 1
        for _, end in self.drops:
            count[end] = count.get(end, 0) + 1
        return count

    @cached_property
    def partners(self) -> dict[End, list[End]]:
        partners: dict[End, list[End]] = {}
        for _, a, b in self.runs:
            partners.setdefault(a, []).append(b)
            partners.setdefault(b, []).append(a)
        return partners

    @cached_property
    def rank(self) -> dict[str, int]:
        """0 for devices that power passes through, 1 for its ends beside the path, 2 for control."""
        partners: dict[str, set[str]] = {}
        for wire, a, b in self.runs:
            if wire.role in POWER and a[0] != b[0]:
                partners.setdefault(a[0], set()).add(b[0])
                partners.setdefault(b[0], set()).add(a[0])
        found = {}
        for code in self.forms:
            met = len(partners.get(code, ()))
            found[code] = 0 if met >= 2 or self.forms[code].kind in {"plug", "motor"} else 1 if met else 2
        return found

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

    def _shape_of(self, code: str) -> Shape:
        modes = self._modes_of[code]
        key = (code, modes)
        if key not in self._shape_cache:
            form = self.forms[code]
            chosen = tuple(seat.modes[mode] for seat, mode in zip(form.seats, modes, strict=True))
            held = {name: (self.landings.get((code, name), 1), 0) for name in self._names(code)}
            self._shape_cache[key] = shape(form, chosen, held, self.symbols)
        return self._shape_cache[key]

    def _names(self, code: str) -> list[str]:
        return [name for seat in self.forms[code].seats for name in seat.terminals]

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
            for i in range(len(self.forms[code].seats)):
                self.modes[code, i] = 0
            self.set_sides(code)
        self._choose_sides()
        self.columns = [[] for _ in hints]
        for code in sorted(codes, key=lambda code: self.rank[code]):
            self.columns[self.column[code]].append(code)
        self._relieve()
        self.spine = self._find_spine()
        for items in self.columns:
            items.sort(key=lambda item: item not in self.spine)
        self._hint = dict(self.column)
        self._choose_sides()
        for run in range(len(self.runs)):
            self._lay(run)

    def set_sides(self, code: str) -> None:
        for i, seat in enumerate(self.forms[code].seats):
            mode = seat.modes[self.modes[code, i]]
            for name, side in zip(seat.terminals, mode, strict=False):
                self.side[code, name] = side
        self._modes_of[code] = tuple(self.modes[code, i] for i in range(len(self.forms[code].seats)))
        self.shapes[code] = self._shape_of(code)

    def gap(self, end: End) -> int:
        """The gap that a terminal looks into; gap i lies left of column i."""
        return self.column[end[0]] + (self.side[end] == R)

    def _choose_sides(self) -> None:
        """Each seat takes the mode that passes the fewest columns."""
        for _ in range(4):
            changed = False
            for code in self.column:
                for i, seat in enumerate(self.forms[code].seats):
                    if len(seat.modes) == 1:
                        continue
                    best, chosen = 1e9, self.modes[code, i]
                    for mode, sides in enumerate(seat.modes):
                        cost = FOLDED * 0.7 * (seat.paired and sides[0] == sides[1]) + 0.01 * mode
                        for name, side in zip(seat.terminals, sides, strict=False):
                            here = self.column[code] + (side == R)
                            cost += sum(
                                2 * abs(here - self.gap(end)) for end in self.partners.get((code, name), ())
                            )
                        if cost < best - 1e-9:
                            best, chosen = cost, mode
                    if chosen != self.modes[code, i]:
                        self.modes[code, i], changed = chosen, True
                        self.set_sides(code)
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
            room = next((i for i in near if tall[i] + self._item_height(code) <= self.height), None)
            if room is None:
                raise DoesNotFit("the devices are taller than the sheet")
            self.columns[worst].remove(code)
            self.columns[room].append(code)
            self.column[code] = room

    def _item_height(self, item: Item) -> float:
        if isinstance(item, str):
            return self.shapes[item].height + self.labels.get(item, LABEL_ROOM) + DEVICE_GAP
        return LANE_ROOM

    def tall(self, items: Sequence[Item]) -> float:
        return sum(self._item_height(item) for item in items)

    # --- wires through columns -------------------------------------------------------------------

    def passes(self, run: int) -> range:
        """The columns that a wire passes."""
        _, a, b = self.runs[run]
        low, high = sorted((self.gap(a), self.gap(b)))
        return range(low, high)

    def _lay(self, run: int) -> None:
        """Put a wire into the columns it passes, each time where it costs least."""
        for column in self.passes(run):
            items, item = self.columns[column], (run, column)
            best, where = 1e18, 0
            for i in range(len(items) + 1):
                items.insert(i, item)
                cost = self.cost((column, column + 1), (column,))
                items.pop(i)
                if cost < best - 1e-9:
                    best, where = cost, i
            items.insert(where, item)

    def _lift(self, run: int) -> None:
        for items in self.columns:
            items[:] = [item for item in items if isinstance(item, str) or item[0] != run]

    # --- what a placement costs ------------------------------------------------------------------

    def heights(self, column: int) -> dict[Item, float]:
        """About where the items of a column come to lie: stacked from the top."""
        y = 0.0
        found: dict[Item, float] = {}
        for item in self.columns[column]:
            if isinstance(item, str):
                label = self.labels.get(item, LABEL_ROOM)
                found[item] = y + label
                y += self.shapes[item].height + label + DEVICE_GAP
            else:
                found[item] = y + LANE_ROOM / 2
                y += LANE_ROOM
        return found

    def _rims(self, code: str) -> Mapping[str, list[tuple[int, float]]]:
        """On each side of a device its wires, each with the height of its terminal in the box; -1 - n for drop n."""
        key = (code, self._modes_of[code])
        if key not in self._rim_cache:
            made = self.shapes[code]
            rims: dict[str, list[tuple[int, float]]] = {L: [], R: []}
            for name, run in self._wired.get(code, ()):
                rims[self.side[code, name]].append((run, made.at[made.ports[name].row]))
            self._rim_cache[key] = rims
        return self._rim_cache[key]

    @cached_property
    def _wired(self) -> dict[str, list[tuple[str, int]]]:
        found: dict[str, list[tuple[str, int]]] = {}
        for run, (_, a, b) in enumerate(self.runs):
            found.setdefault(a[0], []).append((a[1], run))
            found.setdefault(b[0], []).append((b[1], run))
        for i, (_, end) in enumerate(self.drops):
            if end[0] not in self.feet:
                found.setdefault(end[0], []).append((end[1], -1 - i))
        return found

    def chords(self, gap: int) -> list[tuple[float, float]]:
        """The wires in a gap, each as two places on its rim: negative up the left side, positive down the right side, then the foot."""
        first: dict[int, float] = {}
        found: list[tuple[float, float]] = []
        for column, side, sign in ((gap - 1, R, -1.0), (gap, L, 1.0)):
            if not 0 <= column < len(self.columns):
                continue
            y = 0.0
            for item in self.columns[column]:
                if isinstance(item, str):
                    y += self.labels.get(item, LABEL_ROOM)
                    for run, offset in self._rims(item)[side]:
                        place = sign * (y + offset)
                        if run < 0:
                            found.append((place, FOOT))
                        elif run in first:
                            found.append((first[run], place))
                        else:
                            first[run] = place
                    y += self.shapes[item].height + DEVICE_GAP
                else:
                    place = sign * (y + LANE_ROOM / 2)
                    if item[0] in first:
                        found.append((first[item[0]], place))
                    else:
                        first[item[0]] = place
                    y += LANE_ROOM
        return [(a, b) if a < b else (b, a) for a, b in found]

    def offset(self, end: End) -> float:
        made = self.shapes[end[0]]
        return made.at[made.ports[end[1]].row]

    def _signature(self, column: int) -> tuple[object, ...]:
        if not 0 <= column < len(self.columns):
            return ()
        return tuple(
            (item, self._modes_of[item]) if isinstance(item, str) else item for item in self.columns[column]
        )

    def _gap_cost(self, gap: int) -> float:
        key = (gap, self._signature(gap - 1), self._signature(gap))
        cost = self._cost_cache.get(key)
        if cost is None:
            chords = sorted(self.chords(gap))
            cost = 0.0
            for i, (a, b) in enumerate(chords):
                if b < FOOT:
                    climb = abs(abs(a) - abs(b))
                    cost += LENGTH * climb + (0.8 if climb > 12 else 0.0)
                for c, d in chords[i + 1 :]:
                    if c >= b:
                        break
                    if a < c and b < d:
                        cost += CROSSING
            self._cost_cache[key] = cost
        return cost

    def _column_cost(self, column: int) -> float:
        cost, tall, seen, any_seen = 0.0, 0.0, 0, False
        for item in self.columns[column]:
            tall += self._item_height(item)
            if isinstance(item, str):
                rank = -1 if item in self.spine else self.rank[item]
                cost += OFF_SPINE * (rank == -1 and any_seen)
                cost += RANK * max(0, seen - rank)
                seen = max(seen, rank)
                cost += HINT * abs(column - self._hint.get(item, column))
                cost += self._folds(item)
            else:
                cost += LANE
            any_seen = True
        return cost + TALL * max(0.0, tall - self.height)

    def _folds(self, code: str) -> float:
        cost = 0.0
        for i, seat in enumerate(self.forms[code].seats):
            mode = seat.modes[self.modes[code, i]]
            if seat.paired and mode[0] == mode[1]:
                cost += FOLDED + 0.4 * (len(mode) == 3)
        return cost

    def cost(self, gaps: Sequence[int], columns: Sequence[int]) -> float:
        """The cost of some gaps and columns."""
        return sum(self._gap_cost(gap) for gap in gaps) + sum(self._column_cost(column) for column in columns)

    @property
    def all_cost(self) -> float:
        return self.cost(range(len(self.columns) + 1), range(len(self.columns)))

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

    def relay(self, code: str) -> None:
        """Lay the wires of a device again where they now pass other columns than before."""
        for run, (_, a, b) in enumerate(self.runs):
            if code in (a[0], b[0]):
                laid = [
                    item[1]
                    for items in self.columns
                    for item in items
                    if not isinstance(item, str) and item[0] == run
                ]
                if sorted(laid) != list(self.passes(run)):
                    self._lift(run)
                    self._lay(run)
