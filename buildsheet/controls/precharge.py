"""Pre-charge: while start is held, a resistor fills the drive's capacitor, and a timer lets the contactor in only after
that. A diode keeps the drive's own supply from holding the contactor in through the resistor.
"""

from buildsheet.circuit import Contact, Device, Diode, Resistance, Winding
from buildsheet.circuit.builder import Board

THROUGH = frozenset({"through"})


def add_precharge(
    board: Board, *, resistor: tuple[float, float], coil: tuple[float, float], texts: dict[str, str]
) -> None:
    """Timer K2, diode D1 and resistor R1, which reads `resistor` ohms; wired by the no-volt release."""
    board.add(
        Device(
            "K2", "timer", "Charging timer", texts["K2"], ("15", "18", "A1", "A2"),
            (Contact("15", "18", THROUGH), Winding("A1", "A2", *coil, part="coil")), positions=("waiting", "through"), coil=("A1", "A2"),
            place="box", column=3,
        )
    )  # fmt: skip
    board.add(
        Device(
            "D1", "diode", "Diode", texts["D1"], ("A", "K"), (Diode("A", "K"),), place="box", column=4,
        )
    )  # fmt: skip
    board.add(
        Device(
            "R1", "resistor", "Charging resistor", texts["R1"], ("1", "2"), (Resistance("1", "2", *resistor),),
            place="box", column=4,
        )
    )  # fmt: skip
