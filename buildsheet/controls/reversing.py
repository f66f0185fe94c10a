"""Reversing: a changeover switch in the leads of one winding, the armature or the start winding, whose early contact drops
the no-volt release, and a timer that keeps it from coming in again until the machine stands.

Sequence: leaving a direction opens the early contact, the contactor falls out and takes the current away; the timer,
which was set while the contactor was in, goes on for its time without supply; only then can start pull the contactor
in. So the winding is never switched under current, nor fed while the machine still turns.
"""

from buildsheet.circuit import Contact, Device, Winding
from buildsheet.circuit.builder import Board, Feed
from buildsheet.controls.extras import with_room
from buildsheet.controls.no_volt_release import ChainContact

FORWARD, REVERSE = frozenset({"forward"}), frozenset({"reverse"})
EITHER = FORWARD | REVERSE
READY = frozenset({"ready"})


def add_reversing(board: Board, coil: tuple[float, float], texts: dict[str, str]) -> ChainContact:
    """Switch S5 and timer K1, whose coil reads `coil` ohms; hands on the early contact for the chain."""
    board.add(
        Device(
            "S5", "reversing-switch", "Direction", texts["S5"], ("1", "2", "3", "4", "21", "22"),
            (
                Contact("1", "2", FORWARD), Contact("3", "4", FORWARD), Contact("1", "4", REVERSE), Contact("3", "2", REVERSE),
                Contact("21", "22", EITHER, early=True),
            ),
            positions=("off", "forward", "reverse"), place="panel", column=5,
        )
    )  # fmt: skip
    board.add(
        Device(
            "K1", "timer", "Standstill timer", texts["K1"], ("15", "16", "A1", "A2"),
            (Contact("15", "16", READY), Winding("A1", "A2", *coil, part="coil")), positions=("ready", "timing"), coil=("A1", "A2"),
            lingers=True, place="box", column=3,
        )
    )  # fmt: skip
    return ChainContact(211, "S5:21", "S5:22", "panel")


def lead_over(board: Board, ends: tuple[str, str], winding: Winding, numbers: tuple[int, int, int, int], *, at_motor: bool = False, role: str = "armature") -> None:
    """Between the two `ends` the switch, then a winding of the motor: its current turns round with the switch, while that of what
    lies outside does not. The first end is a screw `at_motor` where another winding comes before; the second's wire has a `role`."""
    board.wire(numbers[0], ends[0], "S5:1", "armature", "motor" if at_motor else "panel", cable="W3" if at_motor else "")
    board.wire(numbers[1], ends[1], "S5:3", role, "panel")
    board.wire(numbers[2], "S5:2", f"M1:{winding.a}", "armature", "motor", cable="W3")
    board.wire(numbers[3], "S5:4", f"M1:{winding.b}", "armature", "motor", cable="W3")


def feed_timer(board: Board, feed: Feed) -> None:
    """The timer's coil beside the drive, behind the contactor's poles: it is set only once the contactor is in, since its
    own contact would else open the start before that; and a welded pole keeps it set."""
    board.wire(215, str(with_room(board, feed[0])), "K1:A1", "line")
    board.wire(223, str(with_room(board, feed[1])), "K1:A2", "neutral")
