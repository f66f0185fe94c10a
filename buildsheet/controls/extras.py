"""What a builder adds: lamps, indicators, fans, fed with the disconnect or with the motor; metal that moves and is bonded by
itself; and screws by their own names. Wires from 161 and from 351, protective ones from 921 and from 951.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from buildsheet.circuit import Circuit, Device, Link, Terminal, Winding
from buildsheet.circuit.builder import Board, Feed
from buildsheet.circuit.netlist import Inside, Resistance
from buildsheet.controls.line import bond
from buildsheet.given.extras import Extra, Renamed
from buildsheet.given.machine import MovableMetal

KINDS = {"lamp": ("lamp", "E", "outside", "motor"), "indicator": ("indicator", "H", "panel", "panel"), "fan": ("fan", "M", "box", "box"), "speed display": ("meter", "P", "panel", "panel")}  # kind, letter, place, run
FIRST = {"with the disconnect": 161, "while it runs": 351}
MOVABLE = 921
BONDS = 951
FIXED = 8  # screws of the protective bar that the machine itself may take
HOLDS = 2  # wires on a screw that says nothing else


def wire_extras(
    board: Board, feeds: Mapping[str, Feed], extras: Sequence[Extra], ohms: tuple[float, float], *, earthed: bool
) -> None:
    """Each extra between the two poles that feed it, taken from screws that have room; `ohms` is what a meter shows on it.
    Raises LookupError when no screw has room."""
    taken = dict(FIRST)
    bonds = BONDS
    for extra in extras:
        kind, letter, place, run = KINDS[extra.what]
        code = next(f"{letter}{n}" for n in range(1, 20) if f"{letter}{n}" not in board.devices and f"{letter}{n}" not in ("M1", "M2"))
        metal = earthed and extra.body != "plastic"
        board.add(
            Device(
                code, kind, extra.name or extra.what.capitalize(), "", ("1", "2", "frame") if metal else ("1", "2"),
                (Winding("1", "2", *ohms, part="fan") if kind == "fan" else Resistance("1", "2", *ohms),),
                metal="frame" if metal else "", place=place, column=5,
            )
        )  # fmt: skip
        number = taken[extra.on]
        for index, (pole, role) in enumerate(zip(feeds[extra.on], ("line", "neutral"), strict=True)):
            board.wire(number + index, str(with_room(board, pole)), f"{code}:{index + 1}", role, run)
        taken[extra.on] = number + 2
        if metal:
            bond(board, bonds, code, "frame", run)
            bonds += 1


def bond_movable(board: Board, parts: Iterable[MovableMetal]) -> None:
    """A wire of its own from the bar to each metal part that moves: hinge, slide and rubber are no protective conductor."""
    for index, one in enumerate(parts):
        code, name = f"U{4 + index}", f"{one.part[0].upper()}{one.part[1:]}"
        board.add(Device(code, "metal", name, one.joint, ("stud",), metal="stud", place="outside", column=6))
        bond(board, MOVABLE + index, code, "stud", "motor")


def bar_screws(extras: Iterable[Extra], movable: Iterable[MovableMetal]) -> int:
    """Screws of the protective bar: ten, or more when the builder adds much metal."""
    return max(10, FIXED + sum(extra.body != "plastic" for extra in extras) + len(tuple(movable)))


def with_room(board: Board, pole: Terminal) -> Terminal:
    """A screw on the same node as `pole`, by wires and links alone, that holds one wire less than it takes; none at the motor."""
    reached = [pole]
    for here in reached:
        beside = [wire.b if wire.a == here else wire.a for wire in board.wires if here in (wire.a, wire.b)]
        device = board.devices[here.device]
        for part in device.inside:
            if isinstance(part, Link) and here.name in (part.a, part.b):
                beside.append(Terminal(here.device, part.b if here.name == part.a else part.a))
        reached += [end for end in beside if end not in reached]
    for end in reached:
        if board.devices[end.device].kind == "motor":  # its box takes its own cable alone
            continue
        count = sum(end in (wire.a, wire.b) for wire in board.wires)
        if count < board.devices[end.device].takes.get(end.name, HOLDS):
            return end
    raise LookupError(f"no screw beside {pole} has room for a wire more")


def renamed(circuit: Circuit, names: Iterable[Renamed]) -> Circuit:
    """The circuit with screws by the names that stand on the parts. A name for a screw that is not there, or that another
    has, changes nothing: a rule tells it."""
    for one in names:
        device = circuit.devices.get(one.device)
        if device is None or one.terminal not in device.terminals or one.name in device.terminals:
            continue
        new = {one.terminal: one.name}
        devices = {**circuit.devices, one.device: _called(device, new)}
        wires = tuple(replace(wire, a=_end(wire.a, one), b=_end(wire.b, one)) for wire in circuit.wires)
        circuit = replace(circuit, devices=devices, wires=wires)
    return circuit


def _end(end: Terminal, one: Renamed) -> Terminal:
    return Terminal(end.device, one.name) if end == Terminal(one.device, one.terminal) else end


def _called(device: Device, new: Mapping[str, str]) -> Device:
    def name(old: str) -> str:
        return new.get(old, old)

    def part(inside: Inside) -> Inside:
        changes = {key: name(getattr(inside, key)) for key in ("a", "b") if hasattr(inside, key)}
        if hasattr(inside, "terminals"):
            changes["terminals"] = tuple(map(name, inside.terminals))  # type: ignore[assignment]
        return replace(inside, **changes)  # type: ignore[arg-type]

    return replace(
        device,
        terminals=tuple(map(name, device.terminals)),
        inside=tuple(map(part, device.inside)),
        coil=(name(device.coil[0]), name(device.coil[1])) if device.coil else None,
        metal=name(device.metal),
        takes={name(key): count for key, count in device.takes.items()},
        limits={name(key): limit for key, limit in device.limits.items()},
        low=frozenset(map(name, device.low)),
        unleashed_by=frozenset(map(name, device.unleashed_by)),
        control=tuple(map(name, device.control)),
    )

