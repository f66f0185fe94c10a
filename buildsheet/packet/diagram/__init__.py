"""The wiring diagram: from a circuit to one sheet, or to two where one would not hold it."""

from collections.abc import Mapping

from buildsheet.circuit import Circuit
from buildsheet.packet.diagram.model import Colours, DoesNotFit, Drawing, Flag, Legend, Rect, Ring, Text
from buildsheet.packet.diagram.sheet import lay_out
from buildsheet.packet.diagram.split import Part, circuit_of, halves
from buildsheet.packet.diagram.split import notes as notes_of
from buildsheet.packet.diagram.svg import drawing
from buildsheet.packet.diagram.symbols import ANSI, Symbol
from buildsheet.packet.diagram.symbols_iec import IEC
from buildsheet.packet.marks import colour

SETS: Mapping[str, Mapping[str, Symbol]] = {"ansi": ANSI, "iec": IEC}

__all__ = ["ANSI", "IEC", "SETS", "DoesNotFit", "Drawing", "Flag", "Legend", "Rect", "Ring", "Symbol", "Text", "draw"]


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
    """The wiring diagram of a circuit on a sheet of `width` by `height` mm: one drawing, or several where one has no room.

    Text is never smaller than 7 pt: a circuit that does not fit is divided into line and control, and
    what still does not fit by wire number. `ground_name` is the region's word for the protective
    conductor. `colours` gives the insulation, the letters on it and the stripe of a colour code.
    The same arguments give the same drawings. Raises DoesNotFit if a single wire has no room.
    """
    parts = [Part("", circuit.wires)]
    while True:
        made: list[Drawing] = []
        for i, part in enumerate(parts):
            notes = notes_of(circuit, part, parts) if len(parts) > 1 else {}
            whole = circuit if not part.name else circuit_of(circuit, part)
            try:
                sheet = lay_out(whole, symbols, width, height, notes)
            except DoesNotFit:
                divided = halves(part)
                if divided is None:
                    raise
                parts[i : i + 1] = divided
                break
            named = f"{title}: {part.name}" if part.name else title
            made.append(drawing(sheet, named, ground_name, colours, symbols, part.name))
        else:
            return tuple(made)
