"""A motor for alternating current: straight on the line, with what turns its field round; or on the three leads of an
inverter, with nothing between. Wires 401 to 449.
"""

from dataclasses import dataclass

from buildsheet.circuit import Capacitor, Contact, Device, Resistance, Terminal, Winding
from buildsheet.circuit.builder import Board
from buildsheet.controls.extras import with_room
from buildsheet.controls.reversing import lead_over

AT_REST, AT_SPEED = "at rest", "at speed"
PHASES = ("U", "V", "W")
OVER = (410, 411, 412, 413)  # wires of a winding that a direction switch changes over


@dataclass(frozen=True, slots=True)
class Starter:
    """What stands before a second winding: a switch inside the motor that opens at speed; a capacitor of `farads`, charged to
    `volts` at the most, with the ohms that a meter may show on its bleed resistor. None for what it has not."""

    switch: bool
    farads: float | None = None
    volts: float = 0.0
    bleeder: tuple[float, float] = (0.0, 0.0)


def wire_line_motor(
    board: Board, ends: tuple[str, str], *, windings: tuple[Winding, ...], starter: Starter | None, makes_volts: float, bonded: bool, texts: dict[str, str]
) -> None:
    """Heaters of the overload relay as far as it is on the board, motor, capacitor and bleed resistor between the poles in
    `ends`, the one that is fused first. `windings` are run and start winding, the second of which ends where the first does; or armature and field, which carry
    one current. A reversing switch on the board changes over the start winding, or the armature."""
    line, neutral = ends
    if "F3" in board.devices:
        board.wire(401, line, "F3:1", "line")
        board.wire(405, "F3:2", "F3:3", "line")
        board.wire(406, "F3:4", "F3:5", "line")
        line = "F3:6"
    _add_motor(board, windings, starter, makes_volts, bonded, texts)
    if windings[0].part == "armature":
        _in_a_row(board, (line, neutral), windings)
        return
    run, *rest = windings
    board.wire(403, line, f"M1:{run.a}", "line", "motor", cable="W3")
    board.wire(404, neutral, f"M1:{run.b}", "neutral", "motor", cable="W3")
    for start in rest:
        capacitor = starter is not None and starter.farads is not None
        if starter is not None and capacitor:
            _add_capacitor(board, starter, texts)
            board.wire(407, _room(board, line), "C1:1", "line")
            board.wire(408, "C1:1", "R2:1", "line")
            board.wire(409, "R2:2", "C1:2", "line")
        if "S5" in board.devices:
            lead_over(board, ("C1:2" if capacitor else _room(board, line), _room(board, neutral)), start, OVER, role="neutral")
            continue
        if capacitor:
            board.wire(410, "C1:2", f"M1:{start.a}", "armature", "motor", cable="W3")
        else:
            board.wire(410, f"M1:{run.a}", f"M1:{start.a}", "line")
        if start.b != run.b:  # else they are joined inside
            board.wire(411, f"M1:{run.b}", f"M1:{start.b}", "neutral")


def _room(board: Board, screw: str) -> str:
    """This screw, or one beside it that has room for a wire more."""
    return str(with_room(board, Terminal(*screw.split(":"))))


def _in_a_row(board: Board, ends: tuple[str, str], windings: tuple[Winding, ...]) -> None:
    """A motor with brushes: its field first, then its armature, one current through both."""
    armature, *fields = windings
    line = ends[0]
    for field in fields:
        board.wire(403, line, f"M1:{field.a}", "line", "motor", cable="W3")
        line = f"M1:{field.b}"
    if "S5" in board.devices:
        lead_over(board, (line, ends[1]), armature, OVER, at_motor=bool(fields), role="neutral")
    elif fields:
        board.wire(410, line, f"M1:{armature.a}", "line")
    else:
        board.wire(403, line, f"M1:{armature.a}", "line", "motor", cable="W3")
    if "S5" not in board.devices:
        board.wire(404, ends[1], f"M1:{armature.b}", "neutral", "motor", cable="W3")


def _add_motor(board: Board, windings: tuple[Winding, ...], starter: Starter | None, makes_volts: float, bonded: bool, texts: dict[str, str]) -> None:
    inside: list[Winding | Contact] = []
    names = list(dict.fromkeys(name for winding in windings for name in (winding.a, winding.b)))
    takes = {} if bonded else {"frame": 0}
    switched = starter is not None and starter.switch
    for winding in windings:
        if switched and winding.part == "start":  # the switch lies inside, before the winding, on a screw that nobody reaches
            inside += [
                Contact(winding.a, "S", frozenset({AT_REST})),
                Winding("S", winding.b, winding.low, winding.high, part="start"),
            ]
            names.insert(max(map(names.index, (winding.a, winding.b))), "S")  # between the two that it lies between
            takes["S"] = 0
        else:
            inside.append(winding)
    board.add(
        Device(
            "M1", "motor", "Motor", texts["M1"], (*names, "frame"), tuple(inside),
            positions=(AT_REST, AT_SPEED) if switched else (), automatic=switched,
            metal="frame", takes=takes, makes_volts=makes_volts, place="outside", column=6,
        )
    )  # fmt: skip


def _add_capacitor(board: Board, starter: Starter, texts: dict[str, str]) -> None:
    board.add(
        Device(
            "C1", "capacitor", "Motor's capacitor", texts["C1"], ("1", "2"),
            (Capacitor("1", "2", starter.farads or 0.0, starter.volts, passes=True),), place="box", column=5,
        )
    )  # fmt: skip
    board.add(
        Device("R2", "bleeder", "Bleed resistor", texts["R2"], ("1", "2"), (Resistance("1", "2", *starter.bleeder),), place="box", column=5)
    )


def wire_three_phase(
    board: Board, outputs: tuple[str, ...], *, windings: tuple[Winding, ...], makes_volts: float, bonded: bool, texts: dict[str, str]
) -> None:
    """The motor's cable straight on the three output screws of the inverter."""
    _add_motor(board, windings, None, makes_volts, bonded, texts)
    for number, (output, phase) in enumerate(zip(outputs, PHASES, strict=True), 401):
        board.wire(number, output, f"M1:{phase}", "armature", "motor", cable="W3")
