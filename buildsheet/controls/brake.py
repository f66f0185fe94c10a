"""Braking: a resistor across the armature behind a contact of the contactor that is closed while it is out. It needs neither
supply nor drive, so that it brakes at every stop. Wires 421 to 423.
"""

from buildsheet.circuit import Contact, Device, Resistance
from buildsheet.circuit.builder import Board
from buildsheet.circuit.netlist import Terminal
from buildsheet.controls.extras import with_room

OUT = frozenset({"out"})


def add_brake(board: Board, ends: tuple[str, str], ohms: tuple[float, float], texts: dict[str, str]) -> None:
    """Resistor R3 from the first of the motor side's two ends, through a contact of Q2, to the other. Raises LookupError when
    no screw there has room."""
    contactor = board.devices["Q2"]
    board.devices["Q2"] = Device(
        contactor.code, contactor.kind, contactor.name, contactor.rating, (*contactor.terminals, "21", "22"), (*contactor.inside, Contact("21", "22", OUT)),
        positions=contactor.positions, coil=contactor.coil, place=contactor.place, column=contactor.column, takes=contactor.takes,
    )  # fmt: skip
    board.add(Device("R3", "brake-resistor", "Braking resistor", texts["R3"], ("1", "2"), (Resistance("1", "2", *ohms),), place="box", column=5))
    first, last = (with_room(board, Terminal(*end.split(":", 1))) for end in ends)
    board.wire(421, str(first), "Q2:21", "armature")
    board.wire(422, "Q2:22", "R3:1", "armature")
    board.wire(423, "R3:2", str(last), "armature")
