"""What else stops the machine: contacts of a guard, a thermostat, a foot pedal in the chain of the no-volt release, so that
none of them starts it again when it goes back. Wires 224 to 226.
"""

from collections.abc import Iterable

from buildsheet.circuit import Contact, Device
from buildsheet.circuit.builder import Board
from buildsheet.controls.no_volt_release import ChainContact

# what is asked for -> code, kind, name, its two places, the one in which its contact is closed, wire, place, run
STOPS = {
    "guard switch": ("S6", "guard", "Guard switch", ("shut", "open"), "shut", 224, "outside", "motor"),
    "thermostat": ("F6", "thermostat", "Thermostat", ("cool", "hot"), "cool", 225, "box", "box"),
    "foot pedal": ("S7", "pedal", "Foot pedal", ("free", "pressed"), "pressed", 226, "outside", "motor"),
}


def add_stops(board: Board, asked: Iterable[str], texts: dict[str, str]) -> tuple[ChainContact, ...]:
    """The devices, and their contacts for the chain in the order of the table. The guard's contact is pushed open by the
    guard; the pedal is held by a foot while the machine runs."""
    wanted = set(asked)
    made = []
    for name, (code, kind, label, places, closed, number, place, run) in STOPS.items():
        if name not in wanted:
            continue
        contact = Contact("11", "12", frozenset({closed}), direct=kind == "guard")
        board.add(
            Device(
                code, kind, label, texts[code], ("11", "12"), (contact,), places, automatic=kind == "thermostat", place=place, column=3,
            )
        )  # fmt: skip
        made.append(ChainContact(number, f"{code}:11", f"{code}:12", run))
    return tuple(made)
