"""Symbols inside the device boxes, as pieces of SVG. A set is a mapping from name to symbol, so that another can be put in.

Each symbol is drawn along a line from (0, 0) to (length, 0), its upper side towards negative y; where it
stands upright the drawing turns it. ANSI is the look of IEEE 315 and of the trade in North America (from
memory): blades for switches worked by a handle, bars for contacts worked by a coil, buttons as a bridge over two rings.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from buildsheet.packet.figures import INK, PAPER, num

PEN = 0.4


@dataclass(frozen=True, slots=True)
class Symbol:
    """A symbol: its length, the room it takes above and below its line (mm), and how it is drawn.

    The drawing is told whether it will be turned upright, for letters must stay level.
    """

    title: str
    length: float
    above: float
    below: float
    draw: Callable[[bool], str]


def path(d: str, width: float = PEN, fill: str = "none", more: str = "") -> str:
    return (
        f'<path d="{d}" fill="{fill}" stroke="{INK}" stroke-width="{num(width)}" '
        f'stroke-linecap="round" stroke-linejoin="round"{more}/>'
    )


def _dot(x: float, y: float = 0.0, r: float = 0.5) -> str:
    return f'<circle cx="{num(x)}" cy="{num(y)}" r="{num(r)}" fill="{INK}"/>'


def _circle(x: float, y: float, r: float, width: float = PEN) -> str:
    return f'<circle cx="{num(x)}" cy="{num(y)}" r="{num(r)}" fill="{PAPER}" stroke="{INK}" stroke-width="{num(width)}"/>'


def _knife(closed: bool) -> Symbol:
    blade = "M.6 0H7.4" if closed else "M.6 0L7 -3.1"
    drawing = path(blade, 0.6) + _dot(0.6, r=0.6) + _dot(7.4, r=0.6)
    return Symbol(f"switch, {'closed' if closed else 'open'}", 8, 3.6, 1, lambda _: drawing)


def _bars(closed: bool, title: str) -> Symbol:
    drawing = path("M0 0H2.6M5.4 0H8") + path("M2.6 -2.1V2.1M5.4 -2.1V2.1", 0.5)
    if closed:
        drawing += path("M2 2.3L6 -2.3")
    return Symbol(f"{title}, {'closed' if closed else 'open'}", 8, 2.5, 2.5, lambda _: drawing)


def _button(closed: bool, mushroom: bool) -> Symbol:
    bridge = 0.75 if closed else -2.0
    drawing = _circle(0.7, 0, 0.65) + _circle(7.3, 0, 0.65)
    drawing += path(f"M.1 {bridge}H7.9", 0.5) + path(f"M4 {bridge}V-4.2", 0.4)
    if mushroom:
        drawing += path("M1.6 -4.2a2.4 1.7 0 0 1 4.8 0z", 0.4, PAPER)
    else:
        drawing += path("M2.7 -4.2H5.3", 0.5)
    title = "mushroom button" if mushroom else "push button"
    above = 6.1 if mushroom else 4.6
    return Symbol(f"{title}, {'closed' if closed else 'open'}", 8, above, 1.2, lambda _: drawing)


def _plain(title: str, drawing: str, length: float, above: float, below: float | None = None) -> Symbol:
    return Symbol(title, length, above, above if below is None else below, lambda _: drawing)


def _motor(upright: bool) -> str:
    # The letter stays level when the symbol is turned a quarter clockwise.
    turn = ' transform="rotate(-90 4 0)"' if upright else ""
    return _circle(4, 0, 3.5, 0.5) + f"<g{turn}>{path('M2.5 1.7V-1.7L4 .5 5.5 -1.7V1.7', 0.55)}</g>"


def _three_phase(_: bool) -> str:
    """A circle with the letter, and below it the figure of its phases beside a sine."""
    three = path("M-2 1.200h1.500l-.8 1.100q.9 .1 .9 .8t-.9 .7q-.5 0-.8-.4", 0.4)
    return _circle(0, 0, 4.6, 0.5) + path("M-1.5 -.4V-3.400L0 -1.300 1.500 -3.400V-.4", 0.55) + three + path("M.4 2.500q.5 -1.100 1 0t1 0", 0.4)


BLADE = "M4 0c-.3-1.2 .1-2.4 1.3-2.8c.9 .7 .6 2-1.3 2.8z"
_FAN = _circle(4, 0, 3.5, 0.5) + "".join(
    f'<path d="{BLADE}" fill="{INK}" transform="rotate({turn} 4 0)"/>' for turn in (0, 120, 240)
)


def _drive(_: bool) -> str:
    """A converter, 9 by 12 with its middle at (0, 0): alternating above, direct below."""
    box = '<rect x="-4.5" y="-6" width="9" height="12" fill="none" stroke="#000" stroke-width=".4"/>'
    return (
        box
        + path("M-4.5 6L4.5 -6")
        + path("M-3.4 -3.4q1 -1.9 2 0t2 0", 0.45)
        + path("M.4 3H3.5M.4 4.4h.7m.5 0h.7m.5 0h.7", 0.45)
    )


def _chopper(_: bool) -> str:
    """A converter from direct to direct, with pulses below."""
    box = '<rect x="-4.5" y="-6" width="9" height="12" fill="none" stroke="#000" stroke-width=".4"/>'
    return box + path("M-4.5 6L4.5 -6") + path("M-3.6 -3.6H-.4M-3.6 -2.200h.7m.5 0h.7m.5 0h.7", 0.45) + path("M.2 4.400h.8v-1.800h.8v1.800h.8v-1.800h.8v1.800", 0.4)


def _bridge(_: bool) -> str:
    """A rectifier: alternating above, a diode, direct below."""
    box = '<rect x="-4.5" y="-6" width="9" height="12" fill="none" stroke="#000" stroke-width=".4"/>'
    return (
        box
        + path("M-2 -4.3q1 -1.9 2 0t2 0", 0.45)
        + path("M-3.4 0H3.4") + path("M-1.4 -1.9V1.9L1.4 0zM1.4 -1.9V1.9", 0.5, INK)
        + path("M-1.6 3.4H1.6M-1.6 4.8h.7m.5 0h.7m.5 0h.7", 0.45)
    )


def _inverter(_: bool) -> str:
    """A converter from one alternating voltage to three."""
    box = '<rect x="-4.5" y="-6" width="9" height="12" fill="none" stroke="#000" stroke-width=".4"/>'
    three = "".join(path(f"M.3 {1.600 + 1.600 * k}q.8 -1.4 1.6 0t1.6 0", 0.4) for k in range(3))
    return box + path("M-4.5 6L4.5 -6") + path("M-3.4 -3.4q1 -1.9 2 0t2 0", 0.45) + three


def _plug(_: bool) -> str:
    return (
        path("M-2.6 -1.5H2.6V1.3A2.6 2.6 0 0 1 -2.6 1.3z", 0.5)
        + path("M-1.3 -4.4v2.6M1.3 -4.4v2.6", 0.6)
        + path("M0 4V6.6", 0.5)
    )


def _metal(_: bool) -> str:
    """Chassis: a bar with three slanted strokes."""
    return path("M0 -1.4V0M-3 0H3M-3 0l-1.2 1.8M0 0l-1.2 1.8M3 0l-1.2 1.8", 0.45)


def _block(_: bool) -> str:
    return '<rect x="-3.5" y="-3" width="7" height="6" fill="none" stroke="#000" stroke-width=".4"/>'


def _battery(_: bool) -> str:
    """Two cells, their long plates towards the plus terminal, which stands above."""
    return (
        path("M0 -5V-2.2M0 5V2.2M0 -.8V.8", 0.5)
        + path("M-3 -2.2H3M-3 .8H3", 0.5)
        + path("M-1.5 -.8H1.5M-1.5 2.2H1.5", 0.9)
    )


def timed(coil: str) -> str:
    """A coil with the hands of a clock: its contacts come late."""
    return coil + path("M4 -1.7V0H5.4", 0.4)


ANSI: Mapping[str, Symbol] = {
    "knife-open": _knife(closed=False),
    "knife-closed": _knife(closed=True),
    "contact-open": _bars(closed=False, title="contact worked by a coil"),
    "contact-closed": _bars(closed=True, title="contact worked by a coil"),
    "trip-open": _bars(closed=False, title="contact of the overload"),
    "trip-closed": _bars(closed=True, title="contact of the overload"),
    "button-open": _button(closed=False, mushroom=False),
    "button-closed": _button(closed=True, mushroom=False),
    "mushroom-open": _button(closed=False, mushroom=True),
    "mushroom-closed": _button(closed=True, mushroom=True),
    "fuse": _plain("fuse", path("M.5 0C1.6 -2.6 3 -2.6 4 0S6.400 2.600 7.500 0", 0.5) + _dot(0.5) + _dot(7.5), 8, 2.2),
    "heater": _plain("heater of the overload", path("M0 0H2.2V-2.2H5.8V0H8", 0.5), 8, 2.6, 0.8),
    "coil": _plain("coil", path("M0 0H8") + _circle(4, 0, 2.9, 0.45), 8, 3.2),
    "timer-coil": _plain("coil of a timer", timed(path("M0 0H8") + _circle(4, 0, 2.9, 0.45)), 8, 3.2),
    "diode": _plain("diode", path("M0 0H8") + path("M2.6 -1.9V1.9L5.4 0zM5.4 -1.9V1.9", 0.5, INK), 8, 2.4),
    "capacitor": _plain("capacitor", path("M0 0H3.3M4.7 0H8") + path("M3.3 -2.2V2.2M4.7 -2.2V2.2", 0.6), 8, 2.6),
    "resistor": _plain("resistor", path("M0 0h.6l.6-1.4 1.100 2.800 1.200-2.800 1.200 2.800 1.200-2.800 1.100 2.800 .6-1.400h.4", 0.45), 8, 1.8),
    "winding": _plain("winding", path("M0 0a1 1 0 0 1 2 0a1 1 0 0 1 2 0a1 1 0 0 1 2 0a1 1 0 0 1 2 0", 0.45), 8, 1.4, 0.8),
    "armature": Symbol("motor", 8, 3.8, 3.8, lambda upright: path("M0 0H8") + _motor(upright)),
    "fan": _plain("fan", path("M0 0H8") + _FAN, 8, 3.8),
    "lamp": _plain("lamp", path("M0 0H8") + _circle(4, 0, 2.6) + path("M2.2 -1.8L5.8 1.8M2.2 1.8L5.8 -1.8"), 8, 3),
    "meter": _plain("meter", path("M0 0H8") + _circle(4, 0, 2.6) + path("M2.6 1.400L5.2 -1.200M4.100 -1.300h1.200v1.200"), 8, 3),
    "link": _plain("joined", path("M0 0H8"), 8, 1),
    "block": _plain("electronics", path("M0 0H1M7 0H8") + '<rect x="1" y="-2.2" width="6" height="4.4" fill="none" stroke="#000" stroke-width=".4"/>', 8, 2.6),
    # Of a whole device, with their middle at (0, 0).
    "drive": Symbol("drive", 9, 6, 6, _drive),
    "battery": Symbol("battery", 7, 5, 5, _battery),
    "chopper": Symbol("pulse drive", 9, 6, 6, _chopper),
    "bridge": Symbol("bridge of diodes", 9, 6, 6, _bridge),
    "inverter": Symbol("inverter", 9, 6, 6, _inverter),
    "motor-3": Symbol("three-phase motor", 9, 5, 5, _three_phase),
    "plug": Symbol("plug", 5.6, 4.8, 7, _plug),
    "metal": Symbol("metal part", 7, 1.5, 2, _metal),
    "electronics": Symbol("electronics", 7, 3, 3, _block),
}  # fmt: skip
