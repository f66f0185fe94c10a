"""The inside geometry of a device once its terminals have sides: rows, distances between them, least width and height."""

from collections.abc import Mapping
from dataclasses import dataclass

from buildsheet.packet.diagram.forms import TURNED, Form, L, R
from buildsheet.packet.diagram.model import LANDING, RING, TERMINAL_TEXT
from buildsheet.packet.diagram.symbols import Symbol
from buildsheet.packet.fonts import text_width

PITCH = 5.2  # between terminals on one side: a flag and a little air
FOLD = 8.8  # between two terminals on one side with a symbol between them
PAD = 3.6  # from a box's upper or lower edge to a terminal
INSET = RING + 0.7  # from a box's side to a terminal's name
AIR = 0.9
TOP, BOTTOM = -1, -2
SEVERAL = frozenset({"potentiometer", "contacts", "links", "network"})
SEVERAL_ROOM = 11.5


@dataclass(frozen=True, slots=True)
class Port:
    """A terminal on a side: its row, and where on it each of its wires lands relative to that row."""

    terminal: str
    side: str
    row: int
    landings: tuple[float, ...]


@dataclass(frozen=True)
class Shape:
    """Rows of a device: `below` holds (upper row, lower row, least distance); TOP and BOTTOM are the box's edges."""

    ports: Mapping[str, Port]
    rows: int
    below: tuple[tuple[int, int, float], ...]
    least_width: float
    at: Mapping[int, float]  # each row, and BOTTOM, when all is as close as it may be; the top edge is 0
    height: float
    axis: tuple[float, float]  # how far from the left and right edges the middle of the symbols must stay


def name_width(name: str) -> float:
    """Width of a terminal's printed name."""
    return text_width(name, TERMINAL_TEXT, "semibold")


def shape(
    form: Form,
    modes: tuple[tuple[str, ...], ...],
    landings: Mapping[str, tuple[int, int]],
    symbols: Mapping[str, Symbol],
) -> Shape:
    """The shape of a device with one mode for each seat. `landings`: how many wires a terminal has, and which of them is on its row."""
    ports: dict[str, Port] = {}
    below: list[tuple[int, int, float]] = []
    last: dict[str, int] = {}
    floor: list[tuple[int, float]] = []  # what the next row must stay clear of
    rows, width = 0, 0.0
    widest, folds, lone, reach = ({L: 0.0, R: 0.0} for _ in range(4))

    def put(name: str, side: str, row: int) -> None:
        count, axis = landings.get(name, (1, 0))
        port = Port(name, side, row, tuple((i - axis) * LANDING for i in range(max(count, 1))))
        up, down = -port.landings[0], port.landings[-1]
        above = ports.get(_at(ports, side, last.get(side)))
        if above is None:
            below.append((TOP, row, PAD + up))
        else:
            below.append((above.row, row, PITCH + above.landings[-1] + up))
        below.append((row, BOTTOM, PAD + down))
        ports[name], last[side] = port, row
        widest[side] = max(widest[side], name_width(name))

    for seat, mode in zip(form.seats, modes, strict=True):
        if seat.paired and mode[0] != mode[1]:
            symbol = symbols[seat.symbol]
            for above_row, room in floor:
                below.append((above_row, rows, room + symbol.above + AIR))
            below.append((TOP, rows, symbol.above + 1.2))
            below.append((rows, BOTTOM, symbol.below + 1.2))
            for name, side in zip(seat.terminals, mode, strict=False):
                put(name, side, rows)
                reach[side] = max(reach[side], INSET + name_width(name) + AIR + symbol.length / 2 + 0.3)
            floor = [(rows, symbol.below)]
            names = sum(name_width(name) for name in seat.terminals)
            width = max(width, 2 * INSET + names + symbol.length + 2 * AIR + 0.6)
            rows += 1
        elif seat.symbol:
            ordered = seat.terminals[::-1] if mode[-1] == TURNED else seat.terminals
            sides = dict(zip(seat.terminals, mode, strict=False))
            for above_row, room in floor:
                below.append((above_row, rows, room + 2.2))
            step = FOLD if seat.paired or seat.chain else 6.4
            for i, name in enumerate(ordered):
                put(name, sides[name], rows + i)
                if i:
                    below.append((rows + i - 1, rows + i, step))
            rows += len(ordered)
            floor = [(rows - 1, 2.2)]
            names_room = INSET + max(name_width(name) for name in ordered) + AIR
            if seat.paired:
                symbol = symbols[seat.symbol]
                folds[mode[0]] = max(folds[mode[0]], names_room + symbol.above + symbol.below + 2.0)
                if form.linked:
                    reach[mode[0]] = max(reach[mode[0]], names_room + fold_axis(symbol))
            else:
                folds[mode[0]] = max(folds[mode[0]], names_room + SEVERAL_ROOM + 1.5)
                if seat.symbol == "contacts":
                    lone[R if mode[0] == L else L] = names_room
        else:
            name, side = seat.terminals[0], mode[0]
            put(name, side, rows)
            lone[side] = max(lone[side], INSET + name_width(name) + AIR)
            floor.append((rows, 1.2))
            rows += 1
    for side, other in ((L, R), (R, L)):
        if folds[side]:
            width = max(width, folds[side] + max(lone[other], INSET))
    width = max(width, reach[L] + reach[R])
    if form.centre:
        symbol = symbols[form.centre]
        width = max(width, sum(w + INSET + AIR for w in widest.values() if w) + symbol.length + 2.4)
        below.append((TOP, BOTTOM, symbol.above + symbol.below + 3.0))
    below.append((TOP, BOTTOM, 9.0))
    at = _least(rows, below)
    return Shape(ports, rows, tuple(below), max(width, 14.0), at, at[BOTTOM], (reach[L], reach[R]))


def fold_axis(symbol: Symbol) -> float:
    """From the end of a terminal's name to the link, with an upright symbol between."""
    return symbol.below + 0.4 + max(symbol.above, symbol.below) + 0.3


def _at(ports: Mapping[str, Port], side: str, row: int | None) -> str:
    for name, port in ports.items():
        if port.side == side and port.row == row:
            return name
    return ""


def _least(rows: int, below: list[tuple[int, int, float]]) -> dict[int, float]:
    at = dict.fromkeys((TOP, *range(rows), BOTTOM), 0.0)
    for row in (*range(rows), BOTTOM):
        at[row] = max((at[upper] + d for upper, lower, d in below if lower == row), default=0.0)
    return at
