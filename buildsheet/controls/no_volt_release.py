"""No-volt release: a contactor that holds itself in, with emergency stop, stop, overload trip and start in its chain.
Wires 201 to 249.
"""

from buildsheet.circuit import Contact, Device, Resistance
from buildsheet.circuit.builder import Board, Feed
from buildsheet.circuit.netlist import Terminal

IN, FREE, PRESSED = frozenset({"in"}), frozenset({"free"}), frozenset({"pressed"})


def wire_no_volt_release(
    board: Board, feed: Feed, *, overload: bool, coil: tuple[float, float], texts: dict[str, str]
) -> Feed:
    """The contactor, whose coil reads `coil` ohms, and its chain. The chain is fed behind the line fuse; hands on the contactor's outgoing poles."""
    line, neutral = feed
    board.add(
        Device(
            "Q2", "contactor", "No-volt release", texts["Q2"], ("1", "2", "3", "4", "13", "14", "A1", "A2"),
            (Contact("1", "2", IN), Contact("3", "4", IN), Contact("13", "14", IN), Resistance("A1", "A2", *coil)),
            positions=("out", "in"), coil=("A1", "A2"), place="box", column=3,
        )
    )  # fmt: skip
    board.add(
        Device(
            "S1",
            "emergency-stop",
            "Emergency stop",
            texts["S1"],
            ("11", "12"),
            (Contact("11", "12", FREE),),
            ("free", "pressed"),
            place="panel",
            column=2,
        )
    )
    board.add(
        Device(
            "S3",
            "stop",
            "Stop",
            texts["S3"],
            ("11", "12"),
            (Contact("11", "12", FREE),),
            ("free", "pressed"),
            spring=True,
            place="panel",
            column=2,
        )
    )
    board.add(
        Device(
            "S2",
            "start",
            "Start",
            texts["S2"],
            ("13", "14"),
            (Contact("13", "14", PRESSED),),
            ("free", "pressed"),
            spring=True,
            place="panel",
            column=2,
        )
    )
    board.wire(104, f"{line}", "Q2:1", "line")
    board.wire(105, f"{neutral}", "Q2:3", "neutral", "panel")
    board.wire(201, f"{line}", "S1:11", "control", "panel")
    board.wire(202, "S1:12", "S3:11", "control", "panel")
    behind = "S3:12"
    if overload:
        board.wire(203, behind, "F3:95", "control", "panel")
        behind = "F3:96"
    board.wire(204, behind, "S2:13", "control", "panel")
    board.wire(205, "S2:13", "Q2:13", "control", "panel")
    board.wire(206, "S2:14", "Q2:A1", "control", "panel")
    board.wire(207, "Q2:14", "Q2:A1", "control")
    board.wire(208, "Q2:A2", f"{neutral}", "neutral", "panel")
    return Terminal("Q2", "2"), Terminal("Q2", "4")
