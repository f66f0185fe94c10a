"""The same symbols in the look of IEC 60617 (from memory): blades for contacts, boxes for coils, fuses and resistors."""

from collections.abc import Mapping

from buildsheet.packet.diagram.symbols import ANSI, Symbol, path, timed
from buildsheet.packet.figures import INK, PAPER

BOX = f'<rect x="1.4" y="-2.5" width="5.2" height="5" fill="{PAPER}" stroke="{INK}" stroke-width=".45"/>'
COIL = path("M0 0H8") + BOX
LOW = f'<rect x="1" y="-1.1" width="6" height="2.2" fill="{PAPER}" stroke="{INK}" stroke-width=".4"/>'


def _contact(closed: bool) -> str:
    """A blade that turns about its right end; closed at rest it rests against a short bar."""
    if closed:
        return path("M0 0H2.2V-2.4M5.8 0H8") + path("M5.8 0L1.8 -2", 0.5)
    return path("M0 0H2.2M5.8 0H8") + path("M5.8 0L2.4 -2.4", 0.5)


def _made(title: str, closed: bool, more: str = "", above: float = 3.0, below: float = 1.0) -> Symbol:
    drawing = _contact(closed) + more
    return Symbol(f"{title}, {'closed' if closed else 'open'}", 8, above, below, lambda _: drawing)


def _stem(height: float) -> str:
    return path(f"M4 -1.300V-{height}", 0.3, more=' stroke-dasharray=".8 .6"')


PUSH = _stem(4.2) + path("M2.9 -3.500V-4.300H5.1V-3.500", 0.45)
DOME = _stem(4.0) + path("M1.8 -4a2.2 1.600 0 0 1 4.400 0z", 0.45, PAPER)
HEAT = _stem(3.4) + f'<rect x="2.8" y="-5.600" width="2.4" height="2.2" fill="{PAPER}" stroke="{INK}" stroke-width=".4"/>'
HAND = path("M2.2 -.9V.9", 0.5)  # the bar of a switch that isolates

IEC: Mapping[str, Symbol] = {
    **ANSI,
    "knife-open": _made("switch", False, HAND),
    "knife-closed": _made("switch", True, HAND),
    "contact-open": _made("contact worked by a coil", False),
    "contact-closed": _made("contact worked by a coil", True),
    "trip-open": _made("contact of the overload", False, HEAT, 6.0),
    "trip-closed": _made("contact of the overload", True, HEAT, 6.0),
    "button-open": _made("push button", False, PUSH, 4.8),
    "button-closed": _made("push button", True, PUSH, 4.8),
    "mushroom-open": _made("mushroom button", False, DOME, 6.0),
    "mushroom-closed": _made("mushroom button", True, DOME, 6.0),
    "fuse": Symbol("fuse", 8, 1.6, 1.6, lambda _: path("M0 0H8") + LOW + path("M1 0H7", 0.4)),
    "heater": Symbol("heater of the overload", 8, 2.8, 2.8, lambda _: path("M0 0H8") + BOX + path("M1.4 0H3V-1.300H5V0H6.6", 0.4)),
    "coil": Symbol("coil", 8, 2.8, 2.8, lambda _: COIL),
    "timer-coil": Symbol("coil of a timer", 8, 2.8, 2.8, lambda _: timed(COIL)),
    "resistor": Symbol("resistor", 8, 1.6, 1.6, lambda _: path("M0 0H8") + LOW),
}  # fmt: skip
