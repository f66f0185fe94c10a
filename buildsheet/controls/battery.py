"""From the battery to the machine: a fuse at its post, the disconnect, and the socket of its charger.
Wires 101 to 149; the charger's 151 to 154.
"""

from buildsheet.circuit import Contact, Device, Fuse, Source
from buildsheet.circuit.builder import Board, Feed
from buildsheet.circuit.netlist import Terminal
from buildsheet.controls.no_volt_release import ChainContact

ON = frozenset({"on"})
OUT = frozenset({"out"})


def wire_battery(
    board: Board, *, fuse_rating: float, fuse_interrupts: float | None, texts: dict[str, str]
) -> Feed:
    """Battery, its fuse and the disconnect; hands on both poles behind the disconnect."""
    board.add(
        Device(
            "X1", "battery", "Battery", texts["X1"], ("+", "−"), (Source(("+", "−"), ("+",), "", direct=True),),
            place="outside", column=0,
        )
    )  # fmt: skip
    board.add(
        Device(
            "F1", "line-fuse", "Battery fuse", texts["F1"], ("1", "2"), (Fuse("1", "2"),), trips_at=fuse_rating,
            interrupts=fuse_interrupts, place="outside", column=1,
        )
    )  # fmt: skip
    board.add(
        Device(
            "Q1", "disconnect", "Disconnect", texts["Q1"], ("1", "2", "3", "4"), (Contact("1", "2", ON), Contact("3", "4", ON)),
            positions=("off", "on"), place="panel", column=2,
        )
    )  # fmt: skip
    board.wire(101, "X1:+", "F1:1", "line", "post")
    board.wire(103, "F1:2", "Q1:1", "line", "supply")
    board.wire(102, "X1:−", "Q1:3", "neutral", "supply")
    return Terminal("Q1", "2"), Terminal("Q1", "4")


def add_charger_inlet(
    board: Board, *, fuse_rating: float, fuse_interrupts: float | None, texts: dict[str, str]
) -> ChainContact:
    """A socket for the charger with its own fuse at the battery; the contact that its plug opens goes into the chain."""
    board.add(
        Device(
            "F4", "charger-fuse", "Charger fuse", texts["F4"], ("1", "2"), (Fuse("1", "2"),), trips_at=fuse_rating,
            interrupts=fuse_interrupts, place="outside", column=1,
        )
    )  # fmt: skip
    board.add(
        Device(
            "X4", "charger-inlet", "Charger socket", texts["X4"], ("+", "−", "11", "12"), (Contact("11", "12", OUT),),
            positions=("out", "in"), place="panel", column=2,
        )
    )  # fmt: skip
    board.wire(151, "X1:+", "F4:1", "charger", "post")
    board.wire(152, "F4:2", "X4:+", "charger", "supply")
    board.wire(153, "X1:−", "X4:−", "charger-return", "supply")
    return ChainContact(212, "X4:11", "X4:12", "panel")
