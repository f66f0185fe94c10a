"""From the drive to the motor: DC fuse, overload heater, motor; the fan beside the drive. Wires 301 to 449."""

from buildsheet.circuit import Contact, Device, Fuse, Resistance
from buildsheet.circuit.builder import Board, Feed

SET = frozenset({"set"})


def add_overload(board: Board, heater: tuple[float, float], texts: dict[str, str]) -> None:
    """The overload relay: heater in the armature lead, trip contact in the chain of the no-volt release."""
    board.add(
        Device(
            "F3", "overload", "Motor overload", texts["F3"], ("1", "2", "95", "96"),
            (Resistance("1", "2", *heater), Contact("95", "96", SET)), positions=("set", "tripped"), place="box", column=5,
        )
    )  # fmt: skip


def wire_motor(
    board: Board,
    *,
    plus: str,
    minus: str,
    armature: tuple[float, float],
    fuse_rating: float,
    fuse_interrupts: float | None,
    overload: bool,
    texts: dict[str, str],
) -> None:
    """DC fuse, overload heater and motor between the drive's output terminals. `armature` is the ohms a meter may show."""
    board.add(
        Device(
            "F2",
            "motor-fuse",
            "Motor fuse",
            texts["F2"],
            ("1", "2"),
            (Fuse("1", "2"),),
            trips_at=fuse_rating,
            interrupts=fuse_interrupts,
            place="box",
            column=5,
        )
    )
    board.add(
        Device(
            "M1",
            "motor",
            "Motor",
            texts["M1"],
            ("A1", "A2", "frame"),
            (Resistance("A1", "A2", *armature),),
            metal="frame",
            place="outside",
            column=6,
        )
    )
    board.wire(401, plus, "F2:1", "armature")
    if overload:
        board.wire(402, "F2:2", "F3:1", "armature")
        board.wire(403, "F3:2", "M1:A1", "armature", "motor")
    else:
        board.wire(403, "F2:2", "M1:A1", "armature", "motor")
    board.wire(404, minus, "M1:A2", "armature", "motor")


def wire_fan(board: Board, feed: Feed, winding: tuple[float, float], texts: dict[str, str]) -> None:
    """A fan beside the drive, fed with it."""
    board.add(
        Device(
            "M2",
            "fan",
            "Fan",
            texts["M2"],
            ("1", "2"),
            (Resistance("1", "2", *winding),),
            place="box",
            column=4,
        )
    )
    board.wire(303, f"{feed[0]}", "M2:1", "line")
    board.wire(304, f"{feed[1]}", "M2:2", "neutral")
