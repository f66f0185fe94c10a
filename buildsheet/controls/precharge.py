"""Pre-charge: while start is held, a resistor fills the drive's capacitor, and a timer lets the contactor in only after
that. Two diodes in a row keep the drive's own supply from holding the contactor in through the resistor: one that fails
shorted leaves the other.
"""

from buildsheet.circuit import Contact, Device, Diode, Resistance, Winding
from buildsheet.circuit.builder import Board

THROUGH = frozenset({"through"})


def add_precharge(
    board: Board, *, resistor: tuple[float, float], coil: tuple[float, float], texts: dict[str, str]
) -> None:
    """Timer K2, diodes V1 and V2, and resistor R1, which reads `resistor` ohms; wired by the no-volt release."""
    board.add(
        Device(
            "K2", "timer", "Charging timer", texts["K2"], ("15", "18", "A1", "A2"),
            (Contact("15", "18", THROUGH), Winding("A1", "A2", *coil, part="coil")), positions=("waiting", "through"), coil=("A1", "A2"),
            place="box", column=3,
        )
    )  # fmt: skip
    for code in ("V1", "V2"):
        board.add(
            Device(
                code, "diode", "Diode", texts[code], ("A", "K"), (Diode("A", "K"),), place="box", column=4,
            )
        )  # fmt: skip
    board.add(
        Device(
            "R1", "resistor", "Charging resistor", texts["R1"], ("1", "2"), (Resistance("1", "2", *resistor),),
            place="box", column=4,
        )
    )  # fmt: skip
