"""From the drive to the motor: DC fuse, overload heater, motor; the fan beside the drive. Wires 301 to 449."""

from buildsheet.circuit import Contact, Device, Fuse, Resistance, Winding
from buildsheet.circuit.builder import Board, Feed
from buildsheet.controls.no_volt_release import ChainContact
from buildsheet.controls.reversing import lead_over

SET = frozenset({"set"})
FIELD_WIRES = (409, 410)
POLES = (("1", "2"), ("3", "4"), ("5", "6"))  # IEC 60947-4-1 numbers the poles of a relay so


def add_overload(board: Board, heater: tuple[float, float], texts: dict[str, str]) -> ChainContact:
    """The overload relay: its three heaters one after the other in the armature lead, so that none of them stays cold;
    its trip contact in the chain of the no-volt release."""
    board.add(
        Device(
            "F3", "overload", "Motor overload", texts["F3"], ("1", "2", "3", "4", "5", "6", "95", "96"),
            (*(Resistance(a, b, *heater) for a, b in POLES), Contact("95", "96", SET)), positions=("set", "tripped"), place="box", column=5,
        )
    )  # fmt: skip
    return ChainContact(203, "F3:95", "F3:96", "panel")


def wire_motor(
    board: Board,
    *,
    plus: str,
    minus: str,
    windings: tuple[Winding, ...],
    fuse_rating: float,
    fuse_interrupts: float | None,
    makes_volts: float,
    choke: tuple[float, float] | None,
    bonded: bool,
    texts: dict[str, str],
) -> tuple[str, str]:
    """DC fuse, heaters of the overload relay, reversing switch and motor between the drive's output terminals, as far as
    they are on the board. `windings` are the motor's, the armature first, then a field that carries the same current; one that
    lies apart is wired by another stage. A reversing switch changes over the armature alone. `makes_volts` is the most that it makes by itself while it turns;
    `choke` the ohms that a meter may show on a choke in its lead; `bonded` says whether the motor's frame gets a protective conductor. Hands on
    the two ends between which the armature lies."""
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
            (*(name for winding in windings for name in (winding.a, winding.b)), "frame"),
            windings,
            metal="frame",
            takes={} if bonded else {"frame": 0},
            makes_volts=makes_volts,
            place="outside",
            column=6,
        )
    )
    board.wire(401, plus, "F2:1", "armature")
    ends = ("F2:2", minus)
    if choke is not None:
        board.add(
            Device(
                "L1", "choke", "Choke", texts["L1"], ("1", "2", "core") if bonded else ("1", "2"), (Winding("1", "2", *choke, part="choke"),),
                metal="core" if bonded else "", place="box", column=5,
            )
        )  # fmt: skip
        board.wire(411, ends[0], "L1:1", "armature")
        ends = ("L1:2", minus)
    if "F3" in board.devices:
        board.wire(402, ends[0], "F3:1", "armature")
        board.wire(405, "F3:2", "F3:3", "armature")
        board.wire(406, "F3:4", "F3:5", "armature")
        ends = ("F3:6", minus)
    armature, *fields = (winding for winding in windings if not winding.apart)
    for number, field in zip(FIELD_WIRES, fields, strict=False):
        board.wire(number, ends[0], f"M1:{field.a}", "armature", "motor", cable="W3")
        ends = (f"M1:{field.b}", ends[1])
    if "S5" in board.devices:
        lead_over(board, ends, armature, (407, 408, 403, 404), at_motor=bool(fields))
        return "S5:2", "S5:4"
    linked = bool(fields)  # from winding to winding, at the motor itself
    board.wire(403, ends[0], f"M1:{armature.a}", "armature", "box" if linked else "motor", cable="" if linked else "W3")
    board.wire(404, ends[1], f"M1:{armature.b}", "armature", "motor", cable="W3")
    return ends


def wire_fan(
    board: Board, feed: Feed, winding: tuple[float, float], texts: dict[str, str], *, metal: bool
) -> None:
    """A fan beside the drive, fed with it; a metal one has a terminal for its frame."""
    board.add(
        Device(
            "M2",
            "fan",
            "Fan",
            texts["M2"],
            ("1", "2", "frame") if metal else ("1", "2"),
            (Winding("1", "2", *winding, part="fan"),),
            metal="frame" if metal else "",
            place="box",
            column=4,
        )
    )
    board.wire(303, f"{feed[0]}", "M2:1", "line")
    board.wire(304, f"{feed[1]}", "M2:2", "neutral")
