"""No-volt release: a contactor that holds itself in, with emergency stop, stop, whatever else must stop it, and start in
its chain. Wires 201 to 249.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from buildsheet.circuit import Contact, Device, Winding
from buildsheet.circuit.builder import Board, Feed
from buildsheet.circuit.netlist import Terminal

IN, FREE, PRESSED = frozenset({"in"}), frozenset({"free"}), frozenset({"pressed"})


@dataclass(frozen=True, slots=True)
class ChainContact:
    """A contact that another stage puts into the chain: the number of the wire that leads to it, and its ends."""

    number: int
    a: str
    b: str
    run: str


def wire_no_volt_release(
    board: Board,
    feed: Feed,
    *,
    chain: Sequence[ChainContact],
    zero: tuple[str, str] | None = None,
    coil: tuple[float, float],
    both: bool,
    texts: dict[str, str],
) -> Feed:
    """The contactor, whose coil reads `coil` ohms, and its chain, fed behind the line fuse; hands on what it switches:
    `both` poles, or the first alone, where the charging current of a drive needs the second as its way back. A
    standstill timer K1 on the board goes before start, and so does `zero`, the ends of a contact that holds start back while
    the speed is turned up; a charging timer K2 goes between start and coil.
    """
    line, neutral = feed
    board.add(
        Device(
            "Q2", "contactor", "No-volt release", texts["Q2"], ("1", "2", *(("3", "4") if both else ()), "13", "14", "A1", "A2"),
            (Contact("1", "2", IN), *((Contact("3", "4", IN),) if both else ()), Contact("13", "14", IN), Winding("A1", "A2", *coil, part="coil")),
            positions=("out", "in"), coil=("A1", "A2"), place="box", column=3,
        )
    )  # fmt: skip
    for code, kind, name, ends, closed in (
        ("S1", "emergency-stop", "Emergency stop", ("11", "12"), FREE),
        ("S3", "stop", "Stop", ("11", "12"), FREE),
        ("S2", "start", "Start", ("13", "14"), PRESSED),
    ):
        board.add(
            Device(
                code, kind, name, texts[code], ends, (Contact(*ends, closed, direct=kind == "emergency-stop"),), ("free", "pressed"),
                spring=kind != "emergency-stop", place="panel", column=2,
            )
        )  # fmt: skip
    board.wire(104, f"{line}", "Q2:1", "line")
    if both:
        board.wire(105, f"{neutral}", "Q2:3", "neutral", "panel")
    board.wire(201, f"{line}", "S1:11", "control", "panel")
    board.wire(202, "S1:12", "S3:11", "control", "panel")
    behind = "S3:12"
    for contact in chain:
        board.wire(contact.number, behind, contact.a, "control", contact.run)
        behind = contact.b
    held_back = [
        *([(213, 214, ("K1:15", "K1:16"))] if "K1" in board.devices else []),
        *([(204, 228, zero)] if zero is not None else []),
    ]
    if held_back:
        at = behind
        for index, (number, _, (inward, outward)) in enumerate(held_back):
            board.wire(number if index == 0 else held_back[index - 1][1], at, inward, "control", "panel")
            at = outward
        board.wire(held_back[-1][1], at, "S2:13", "control", "panel")
        board.wire(205, behind, "Q2:13", "control", "panel")
    else:
        board.wire(204, behind, "S2:13", "control", "panel")
        board.wire(205, "S2:13", "Q2:13", "control", "panel")
    if "K2" in board.devices:
        board.wire(216, "K2:A1", "K2:15", "control")
        board.wire(217, "K2:18", "Q2:A1", "control")
        board.wire(218, "S2:14", "K2:A1", "control", "panel")
        board.wire(219, "K2:A2", "Q2:A2", "neutral")
        board.wire(220, "S2:14", "V1:A", "control", "panel")
        board.wire(227, "V1:K", "V2:A", "control")
        board.wire(221, "V2:K", "R1:1", "control")
        board.wire(222, "R1:2", "Q2:2", "control")
    else:
        board.wire(206, "S2:14", "Q2:A1", "control", "panel")
    board.wire(207, "Q2:14", "Q2:A1", "control")
    board.wire(208, "Q2:A2", f"{neutral}", "neutral", "panel")
    return Terminal("Q2", "2"), Terminal("Q2", "4") if both else neutral
