"""What is drawn inside a device: terminal names, leads, the symbols between the terminals they join, the dashed link."""

from collections.abc import Mapping
from itertools import pairwise

from buildsheet.circuit import Device, Resistance
from buildsheet.packet.diagram.forms import TURNED, Form, L, R, Seat
from buildsheet.packet.diagram.labels import text
from buildsheet.packet.diagram.model import TERMINAL_TEXT, Rect, Text
from buildsheet.packet.diagram.shapes import AIR, INSET, Shape, name_width
from buildsheet.packet.diagram.symbols import Symbol, path
from buildsheet.packet.figures import GREY, INK, num

DROP_TO_BASELINE = 0.36  # of a type size, from the middle of a figure to its baseline


class Inside:
    """Draws the inside of one device into `body` and `texts`."""

    def __init__(
        self, device: Device, form: Form, modes: tuple[tuple[str, ...], ...], shape: Shape, box: Rect,
        rows: Mapping[int, float], symbols: Mapping[str, Symbol],
    ) -> None:  # fmt: skip
        self.device, self.form, self.shape, self.box = device, form, shape, box
        self.modes, self.rows, self.symbols = modes, rows, symbols
        self.body = ""
        self.texts: list[Text] = []
        self.used: set[str] = set()
        self.axis = min(max(box.x + box.width / 2, box.x + shape.axis[0]), box.right - shape.axis[1])
        self.blades: list[
            tuple[float, float, bool]
        ] = []  # where the link takes hold: x, y, whether beside the axis

    def draw(self) -> None:
        """Draw everything."""
        for name, port in self.shape.ports.items():
            y = self.rows[port.row] + DROP_TO_BASELINE * TERMINAL_TEXT
            x, anchor = (self.box.x + INSET, "start") if port.side == L else (self.box.right - INSET, "end")
            self.texts.append(text(name, x, y, TERMINAL_TEXT, "semibold", anchor))
        for seat, mode in zip(self.form.seats, self.modes, strict=True):
            if seat.paired and mode[0] != mode[1]:
                self._across(seat, mode)
            elif seat.paired:
                self._fold(seat, mode)
            elif seat.symbol == "potentiometer":
                self._potentiometer(seat, mode[0])
            elif seat.chain:
                self._chain(seat, mode[0])
            elif seat.symbol == "contacts":
                self._contacts(seat)
            elif seat.symbol:
                self._several(seat, mode[0])
        if self.form.linked:
            self._link()
        if self.form.centre:
            self._centre()

    def _y(self, name: str) -> float:
        return self.rows[self.shape.ports[name].row]

    def _inner(self, name: str) -> float:
        """Where the lead of a terminal starts, past its name."""
        reach = INSET + name_width(name) + AIR
        return self.box.x + reach if self.shape.ports[name].side == L else self.box.right - reach

    def _put(self, name: str, transform: str, *, upright: bool) -> None:
        self.used.add(name)
        self.body += f'<g transform="{transform}">{self.symbols[name].draw(upright)}</g>'

    def _across(self, seat: Seat, mode: tuple[str, ...]) -> None:
        symbol = self.symbols[seat.symbol]
        left, right = seat.terminals if mode[0] == L else seat.terminals[::-1]
        y, start, end = self._y(left), self._inner(left), self._inner(right)
        x = self.axis - symbol.length / 2
        if x < start or x + symbol.length > end:
            x = (start + end - symbol.length) / 2
        if x > start + 0.05 or end > x + symbol.length + 0.05:
            self.body += path(f"M{num(start)} {num(y)}H{num(x)}M{num(x + symbol.length)} {num(y)}H{num(end)}")
        self._put(seat.symbol, f"translate({num(x)} {num(y)})", upright=False)
        if seat.symbol.startswith(("knife", "contact", "coil", "timer")):
            lift = 1.6 if seat.symbol == "knife-open" else 0.0
            self.blades.append((x + symbol.length / 2, y - lift, False))

    def _fold(self, seat: Seat, mode: tuple[str, ...]) -> None:
        symbol = self.symbols[seat.symbol]
        upper, lower = seat.terminals[::-1] if mode[-1] == TURNED else seat.terminals
        side = mode[0]
        towards = 1 if side == L else -1
        y1, y2 = self._y(upper), self._y(lower)
        inner = max((self._inner(upper), self._inner(lower)), key=lambda x: x * towards)
        x = self.axis - towards * (symbol.above - symbol.below) / 2
        if self.form.linked:
            x = self.axis - towards * (max(symbol.above, symbol.below) + 0.3)
        if (x - inner) * towards < symbol.below + 0.4:
            x = inner + towards * (symbol.below + 0.4)
        start = (y1 + y2 - symbol.length) / 2
        end = start + symbol.length
        self.body += path(
            f"M{num(self._inner(upper))} {num(y1)}H{num(x)}V{num(start)}M{num(self._inner(lower))} {num(y2)}H{num(x)}V{num(end)}"
        )
        mirror = "" if side == L else " scale(-1 1)"
        self._put(seat.symbol, f"translate({num(x)} {num(start)}){mirror} rotate(90)", upright=True)
        if seat.symbol.startswith(("knife", "contact", "coil", "timer")):
            reach = {"coil": 2.9, "timer-coil": 2.9}.get(seat.symbol, 0.0)
            self.blades.append((x + towards * reach, (start + end) / 2, True))

    def _link(self) -> None:
        if len(self.blades) < 2:
            return
        top, bottom = min(y for _, y, _ in self.blades), max(y for _, y, _ in self.blades)
        d = f"M{num(self.axis)} {num(top)}V{num(bottom)}"
        for x, y, beside in self.blades:
            if beside:
                d += f"M{num(x)} {num(y)}H{num(self.axis)}"
        self.body += f'<path d="{d}" fill="none" stroke="{INK}" stroke-width="0.3" stroke-dasharray="1 .8"/>'
        if self.device.kind == "disconnect":
            y = (top + bottom) / 2
            self.body += f'<circle cx="{num(self.axis)}" cy="{num(y)}" r="1.5" fill="#fff" stroke="{INK}" stroke-width=".4"/>'
            self.body += path(f"M{num(self.axis - 1.1)} {num(y + 1.1)}l2.2 -2.2", 0.7)

    def _potentiometer(self, seat: Seat, side: str) -> None:
        symbol = self.symbols["resistor" if self.device.kind == "potentiometer" else "winding"]
        self.used.add("potentiometer")
        towards = 1 if side == L else -1
        first, wiper, last = seat.terminals
        y1, y2 = sorted((self._y(first), self._y(last)))
        x = max((self._inner(name) for name in seat.terminals), key=lambda x: x * towards) + towards * 3.6
        start = (y1 + y2 - symbol.length) / 2
        d = "".join(f"M{num(self._inner(name))} {num(self._y(name))}H{num(x)}" for name in (first, last))
        self.body += path(
            f"{d}M{num(x)} {num(y1)}V{num(start)}M{num(x)} {num(start + symbol.length)}V{num(y2)}"
        )
        self.body += f'<g transform="translate({num(x)} {num(start)}) rotate(90)">{symbol.draw(True)}</g>'
        y, tip = self._y(wiper), x - towards * 1.5
        self.body += path(f"M{num(self._inner(wiper))} {num(y)}H{num(tip)}")
        self.body += f'<path d="M{num(tip)} {num(y)}l{num(-1.7 * towards)} -.85v1.7z" fill="{INK}"/>'
        for name in (first, last):
            words = next(
                (i.position for i in self.device.inside
                 if isinstance(i, Resistance) and i.position and i.low == 0 and {i.a, i.b} == {name, wiper}), "",
            )  # fmt: skip
            if words:
                anchor = "start" if side == L else "end"
                y = self._y(name) + DROP_TO_BASELINE * TERMINAL_TEXT
                self.texts.append(text(words, x + towards * 1.6, y, TERMINAL_TEXT, "regular", anchor, GREY))

    def _contacts(self, seat: Seat) -> None:
        """Contacts with a pole in common: a blade from each pole to where it rests."""
        self.used.add("contacts")
        at = {}
        for name in seat.terminals:
            towards = 1 if self.shape.ports[name].side == L else -1
            x = self.axis - towards * 2.8
            at[name] = (x, self._y(name))
            self.body += path(f"M{num(self._inner(name))} {num(self._y(name))}H{num(x)}")
            self.body += f'<circle cx="{num(x)}" cy="{num(self._y(name))}" r=".6" fill="{INK}"/>'
        for a, b, closed in seat.joins:
            (ax, ay), (bx, by) = at[a], at[b]
            if closed:
                self.body += path(f"M{num(ax)} {num(ay)}L{num(bx)} {num(by)}", 0.6)
            else:
                more = ' stroke-dasharray="1 .9"'
                self.body += path(f"M{num(ax)} {num(ay)}L{num(bx)} {num(by)}", 0.3, more=more)

    def _chain(self, seat: Seat, side: str) -> None:
        """Symbols one under the other, each between a terminal and the next."""
        towards = 1 if side == L else -1
        deepest = max(self.symbols[name].below for name in seat.chain)
        x = max((self._inner(name) for name in seat.terminals), key=lambda x: x * towards) + towards * (deepest + 0.4)
        mirror = "" if side == L else " scale(-1 1)"
        for name in seat.terminals:
            self.body += path(f"M{num(self._inner(name))} {num(self._y(name))}H{num(x)}")
        for name, (one, other) in zip(seat.chain, pairwise(seat.terminals), strict=True):
            upper, lower = sorted((self._y(one), self._y(other)))
            start = (upper + lower - self.symbols[name].length) / 2
            self.body += path(f"M{num(x)} {num(upper)}V{num(start)}M{num(x)} {num(start + self.symbols[name].length)}V{num(lower)}")
            self._put(name, f"translate({num(x)} {num(start)}){mirror} rotate(90)", upright=True)

    def _several(self, seat: Seat, side: str) -> None:
        """Terminals joined to each other: a rail for plain links, a long box for anything else."""
        self.used.add(seat.symbol)
        towards = 1 if side == L else -1
        ys = [self._y(name) for name in seat.terminals]
        x = max((self._inner(name) for name in seat.terminals), key=lambda x: x * towards) + towards * 2.4
        for name, y in zip(seat.terminals, ys, strict=True):
            self.body += path(f"M{num(self._inner(name))} {num(y)}H{num(x)}")
        if seat.symbol == "links":
            self.body += path(f"M{num(x)} {num(min(ys))}V{num(max(ys))}", 0.6)
            self.body += "".join(f'<circle cx="{num(x)}" cy="{num(y)}" r=".6" fill="{INK}"/>' for y in ys)
        else:
            left = x if side == L else x - 4
            self.body += (
                f'<rect x="{num(left)}" y="{num(min(ys) - 1.5)}" width="4" height="{num(max(ys) - min(ys) + 3)}" '
                f'fill="none" stroke="{INK}" stroke-width=".4"/>'
            )

    def _centre(self) -> None:
        symbol = self.symbols[self.form.centre]
        reach = {L: INSET, R: INSET}
        if self.form.centre != "metal":
            for name, port in self.shape.ports.items():
                reach[port.side] = max(reach[port.side], INSET + name_width(name))
        x = (self.box.x + reach[L] + self.box.right - reach[R]) / 2
        y = self.box.y + (self.box.height + symbol.above - symbol.below) / 2
        self._put(self.form.centre, f"translate({num(x)} {num(y)})", upright=False)
