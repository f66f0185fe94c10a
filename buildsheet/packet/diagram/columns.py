"""What stands where: the columns with devices and passing wires, and on which side each terminal sits."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from buildsheet.circuit import Circuit, Wire
from buildsheet.packet.diagram.forms import BAR, Form, L, R, form
from buildsheet.packet.diagram.shapes import Shape, shape
from buildsheet.packet.diagram.symbols import Symbol

Item = str | tuple[int, int]  # a device's code, or a wire (by its place in the list) in a column it passes
End = tuple[str, str]  # device and terminal
Modes = tuple[int, ...]  # of each seat of a device, which of its modes it takes
Edge = list[tuple[int, float]]  # wires along one side of a device, each with its height; -1 - n for drop n
LANE_ROOM = 5.0
LABEL_ROOM = 9.0
DEVICE_GAP = 3.0
POWER = frozenset({"line", "neutral", "entry", "armature", "field", "dc"})


@dataclass
class Columns:
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
        self.hinted: dict[str, int] = {}  # the column that the circuit wants a device in
        self.spine: frozenset[str] = frozenset()  # devices on the path of the power
        self.modes: dict[str, Modes] = {}
        self.side: dict[End, str] = {}
        self.shapes: dict[str, Shape] = {}
        self._shape_cache: dict[tuple[str, Modes, tuple[tuple[str, int], ...]], Shape] = {}
        self._edge_cache: dict[tuple[str, Modes], dict[str, Edge]] = {}

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

    @cached_property
    def runs_of(self) -> dict[str, list[int]]:
        """The runs that end at each device."""
        found: dict[str, list[int]] = {}
        for run, (_, a, b) in enumerate(self.runs):
            for code in {a[0]: None, b[0]: None}:
                found.setdefault(code, []).append(run)
        return found

    @cached_property
    def _wired(self) -> dict[str, list[tuple[str, int]]]:
        """Each device's terminals, with the run or drop, once for each end of a wire."""
        found: dict[str, list[tuple[str, int]]] = {}
        for run, (_, a, b) in enumerate(self.runs):
            found.setdefault(a[0], []).append((a[1], run))
            found.setdefault(b[0], []).append((b[1], run))
        for i, (_, end) in enumerate(self.drops):
            if end[0] not in self.feet:
                found.setdefault(end[0], []).append((end[1], -1 - i))
        return found

    # --- devices ---------------------------------------------------------------------------------

    def set_modes(self, code: str, modes: Modes) -> None:
        """Put the terminals of a device on the sides that the modes of its seats say."""
        for seat, mode in zip(self.forms[code].seats, modes, strict=True):
            for name, side in zip(seat.terminals, seat.modes[mode], strict=False):
                self.side[code, name] = side
        self.modes[code] = modes
        self.shapes[code] = self.shape(code, {})

    def turn(self, code: str, seat: int, mode: int) -> None:
        """Give one seat of a device another mode."""
        modes = self.modes[code] = (*self.modes[code][:seat], mode, *self.modes[code][seat + 1 :])
        turned = self.forms[code].seats[seat]
        for name, side in zip(turned.terminals, turned.modes[modes[seat]], strict=False):
            self.side[code, name] = side
        self.shapes[code] = self.shape(code, {})

    def chosen(self, code: str) -> tuple[tuple[str, ...], ...]:
        """The mode that each seat of a device takes."""
        seats = self.forms[code].seats
        return tuple(seat.modes[mode] for seat, mode in zip(seats, self.modes[code], strict=True))

    def shape(self, code: str, axes: Mapping[str, int]) -> Shape:
        """The shape of a device. `axes`: which of the wires of a terminal lands on the terminal's row; else the first."""
        key = (code, self.modes[code], tuple(sorted(axes.items())) if axes else ())
        if key not in self._shape_cache:
            names = [name for seat in self.forms[code].seats for name in seat.terminals]
            held = {name: (self.landings.get((code, name), 1), axes.get(name, 0)) for name in names}
            self._shape_cache[key] = shape(self.forms[code], self.chosen(code), held, self.symbols)
        return self._shape_cache[key]

    def offset(self, end: End) -> float:
        """How far below a device's upper edge a terminal sits when all is as close as it may be."""
        made = self.shapes[end[0]]
        return made.at[made.ports[end[1]].row]

    def gap(self, end: End) -> int:
        """The gap that a terminal looks into; gap i lies left of column i."""
        return self.column[end[0]] + (self.side[end] == R)

    def passes(self, run: int) -> range:
        """The columns that a wire passes."""
        _, a, b = self.runs[run]
        one, other = self.gap(a), self.gap(b)
        return range(one, other) if one < other else range(other, one)

    # --- heights, about --------------------------------------------------------------------------

    def item_height(self, item: Item) -> float:
        """The height that an item takes, a device's label and the air below it included."""
        if isinstance(item, str):
            return self.shapes[item].height + self.labels.get(item, LABEL_ROOM) + DEVICE_GAP
        return LANE_ROOM

    def tall(self, items: Iterable[Item]) -> float:
        return sum(map(self.item_height, items))

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

    def edge(self, code: str, side: str) -> Edge:
        """The wires along one side of a device, from the upper edge of its label."""
        edges = self._edge_cache.get((code, self.modes[code]))
        if edges is None:
            label = self.labels.get(code, LABEL_ROOM)
            edges = self._edge_cache[code, self.modes[code]] = {L: [], R: []}
            for name, run in self._wired.get(code, ()):
                edges[self.side[code, name]].append((run, label + self.offset((code, name))))
        return edges[side]
