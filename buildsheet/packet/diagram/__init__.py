"""The wiring diagram: from a circuit to one sheet, or to two where one would not hold it."""

from collections.abc import Mapping

from buildsheet.circuit import Circuit
from buildsheet.packet.diagram.model import Colours, DoesNotFit, Drawing, Flag, Legend, Rect, Ring, Text
from buildsheet.packet.diagram.sheet import lay_out
from buildsheet.packet.diagram.svg import drawing
from buildsheet.packet.diagram.symbols import ANSI, Symbol
from buildsheet.packet.marks import colour

__all__ = ["ANSI", "DoesNotFit", "Drawing", "Flag", "Legend", "Rect", "Ring", "Symbol", "Text", "draw"]


def draw(
    circuit: Circuit,
    *,
    width: float,
    height: float,
    title: str,
    ground_name: str,
    colours: Colours = colour,
    symbols: Mapping[str, Symbol] = ANSI,
) -> tuple[Drawing, ...]:
    """The wiring diagram of a circuit."""
    sheet = lay_out(circuit, symbols, width, height, {})
    return (drawing(sheet, title, ground_name, colours, symbols, ""),)
