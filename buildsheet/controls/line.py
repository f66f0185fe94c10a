"""From the plug to the line fuse: cord, disconnect, a fuse in every pole that can be live.
Wires 101 to 149, protective 901 to 949.
"""

from buildsheet.circuit import Contact, Device, Fuse, Link, Source
from buildsheet.circuit.builder import Board, Feed
from buildsheet.circuit.netlist import Terminal

ON = frozenset({"on"})


def wire_line(
    board: Board,
    *,
    fuse_rating: float,
    fuse_interrupts: float | None,
    both: bool,
    live: tuple[str, ...],
    texts: dict[str, str],
    screws: int = 10,
) -> Feed:
    """Plug, cord, disconnect and line fuse; hands on the two poles behind them. `both`: either pole can be live, so that
    each has a fuse. `screws` of the protective bar."""
    bar = tuple(str(number) for number in range(1, screws + 1))
    second = "L2" if len(live) > 1 else "N"
    board.add(
        Device(
            "X1",
            "plug",
            "Plug and cord",
            texts["X1"],
            ("L", second, "PE"),
            (Source(("L", second), live, "PE"),),
            place="outside",
            column=0,
        )
    )
    board.add(
        Device(
            "X2",
            "earth-bar",
            texts["bar"],
            texts["X2"],
            bar,
            tuple(Link("1", name) for name in bar[1:]),
            takes=dict.fromkeys(bar, 1),
            place="foot",
        )
    )
    board.add(
        Device(
            "Q1", "disconnect", "Disconnect", texts["Q1"], ("1", "2", "3", "4"), (Contact("1", "2", ON), Contact("3", "4", ON)),
            positions=("off", "on"), place="panel", column=1, takes={"2": 1},
        )
    )  # fmt: skip
    board.add(
        Device(
            "F1",
            "line-fuse",
            "Line fuse",
            texts["F1"],
            ("1", "2", "3", "4") if both else ("1", "2"),
            (Fuse("1", "2"), Fuse("3", "4")) if both else (Fuse("1", "2"),),
            trips_at=fuse_rating,
            interrupts=fuse_interrupts,
            place="box",
            column=2,
            takes={"2": 2},
        )
    )
    board.wire(101, "X1:L", "Q1:1", "cord-line", "cord", cable="W1")
    board.wire(102, f"X1:{second}", "Q1:3", "cord-neutral", "cord", cable="W1")
    board.wire(901, "X1:PE", "X2:1", "cord-protective", "cord", cable="W1")
    board.wire(103, "Q1:2", "F1:1", "entry", "panel")
    if both:
        board.wire(106, "Q1:4", "F1:3", "entry-2", "panel")
        return Terminal("F1", "2"), Terminal("F1", "4")
    return Terminal("F1", "2"), Terminal("Q1", "4")


def bond(
    board: Board, number: int, code: str, terminal: str, run: str, *, stud: str = "", cable: str = ""
) -> None:
    """A protective conductor from the bar, from its next free screw when none is named, to a metal part. Raises
    LookupError when none is free."""
    board.wire(number, f"X2:{stud or _free(board)}", f"{code}:{terminal}", "protective", run, cable=cable)


def _free(board: Board) -> str:
    used = {end.name for wire in board.wires for end in (wire.a, wire.b) if end.device == "X2"}
    free = next((name for name in board.devices["X2"].terminals if name not in used), None)
    if free is None:
        raise LookupError("the protective bar has no screw left")
    return free
