"""A field on a supply of its own: a bridge on the line, fed with the disconnect and ahead of the contactor, so that the field
stands before the armature is fed; the relay in a row with it, whose contact stands in the chain of the no-volt release.
Wires 229 and 601 to 619.
"""

from dataclasses import dataclass

from buildsheet.circuit import Contact, Device, Electronics, Fuse, Resistance, Winding
from buildsheet.circuit.builder import Board, Feed
from buildsheet.controls.extras import with_room
from buildsheet.controls.no_volt_release import ChainContact

IN = frozenset({"in"})
INPUTS, OUTPUTS = ("~1", "~2"), ("+", "−")


def add_field_relay(board: Board, coil: tuple[float, float], texts: dict[str, str]) -> ChainContact:
    """The relay, whose coil reads `coil` ohms; hands on its contact for the chain."""
    board.add(
        Device(
            "K3", "field-relay", "Field relay", texts["K3"], ("13", "14", "A1", "A2"), (Contact("13", "14", IN), Winding("A1", "A2", *coil, part="coil")),
            positions=("out", "in"), coil=("A1", "A2"), in_a_row=True, place="box", column=4,
        )
    )  # fmt: skip
    return ChainContact(229, "K3:13", "K3:14", "panel")


@dataclass(frozen=True, slots=True)
class OwnFuse:
    """A fuse of the field's own: rating and breaking capacity, and whether it stands in both poles."""

    rating: float
    interrupts: float | None
    both: bool


def wire_field(board: Board, feed: Feed, ends: tuple[str, str], *, resistor: tuple[float, float] | None, fuse: OwnFuse | None, texts: dict[str, str]) -> None:
    """The bridge between the two poles, taken from screws that have room, and the field's loop behind it: resistor, relay as far as
    it is on the board, and the motor's field between `ends`. Nothing in the loop opens it: its current runs on through the
    bridge when the line goes. Raises LookupError when no screw has room."""
    first, second = (str(with_room(board, pole)) for pole in feed)
    terminals = (*INPUTS, *OUTPUTS)
    if fuse is not None:
        names = ("1", "2", "3", "4") if fuse.both else ("1", "2")
        inside = (Fuse("1", "2"), Fuse("3", "4")) if fuse.both else (Fuse("1", "2"),)
        board.add(Device("F7", "field-fuse", "Field fuse", texts["F7"], names, inside, trips_at=fuse.rating, interrupts=fuse.interrupts, place="box", column=4))
        board.wire(601, first, "F7:1", "line")
        first = "F7:2"
        if fuse.both:
            board.wire(602, second, "F7:3", "neutral")
            second = "F7:4"
    board.add(
        Device(
            "T3", "field-supply", "Field bridge", texts["T3"], terminals, (Electronics(terminals, "rectifies"),), gives=OUTPUTS, place="box", column=4,
        )
    )  # fmt: skip
    board.wire(603, first, f"T3:{INPUTS[0]}", "line")
    board.wire(604, second, f"T3:{INPUTS[1]}", "neutral")
    end = f"T3:{OUTPUTS[0]}"
    if resistor is not None:
        board.add(Device("R4", "field-resistor", "Field resistor", texts["R4"], ("1", "2"), (Resistance("1", "2", *resistor),), place="box", column=5))
        board.wire(611, end, "R4:1", "field")
        end = "R4:2"
    if "K3" in board.devices:
        board.wire(612, end, "K3:A1", "field")
        end = "K3:A2"
    board.wire(613, end, ends[0], "field", "motor", cable="W4")
    board.wire(614, f"T3:{OUTPUTS[1]}", ends[1], "field", "motor", cable="W4")
