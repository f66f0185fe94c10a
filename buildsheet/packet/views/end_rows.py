"""Readings of what no other reading passes: single parts, and wires from end to end."""

from collections.abc import Iterator
from math import inf

from buildsheet.circuit import Circuit, Contact, Device, Diode, Resistance, Terminal, Wire
from buildsheet.circuit.contraction import path_to, reached, without_wire
from buildsheet.circuit.readings import Reading, expected
from buildsheet.packet.views.asking import Asked, Asker, spoken
from buildsheet.packet.views.reading import Group, Row, hand_words


def parts(asker: Asker) -> Group:
    """Resistors and diodes, each between its own two screws; a diode both ways."""
    rows: list[Row] = []
    for device in asker.circuit.devices.values():
        for part in device.inside:
            if device.kind == "brake-resistor" and isinstance(part, Resistance):
                rows += _brake(asker, device, part)
            if device.kind not in ("resistor", "diode", "choke") or not isinstance(part, Resistance | Diode):
                continue
            a, b = ((f"{device.code}:{name}", f"{device.code} · {name}") for name in (part.a, part.b))
            rows.append(asker.ask("as they are", a, b, "OL: broken" + (", or the wrong way round" if device.kind == "diode" else "") + ". Near 0: shorted", (0.0, inf), off=asker.boards))
            if isinstance(part, Diode):
                rows.append(asker.ask("as they are", b, a, "a value: shorted, or the wrong way round", (0.0,), off=asker.boards))
    return Group("Single parts", asker.lifted(asker.boards), "switches", tuple(rows))


def _brake(asker: Asker, device: Device, part: Resistance) -> Iterator[Row]:
    """A braking resistor by itself, the contactor held in so that nothing lies beside it; and the contact before it."""
    contactor = next(d for d in asker.circuit.devices.values() if d.kind == "contactor")
    tips = [(f"{device.code}:{name}", f"{device.code} · {name}") for name in (part.a, part.b)]
    at = {contactor.code: contactor.positions[1]}
    yield asker.ask(hand_words(contactor, contactor.positions[1]), tips[0], tips[1], "OL: broken. Less: its contact stays closed", (0.0, inf), off=asker.boards, at=at)
    closed = next(one for one in contactor.inside if isinstance(one, Contact) and contactor.positions[0] in one.closed_in)
    ends = [(f"{contactor.code}:{name}", f"{contactor.code} · {name}") for name in (closed.a, closed.b)]
    yield asker.ask(hand_words(contactor, contactor.positions[0]), ends[0], ends[1], "OL: the contact of the brake does not close", (inf,), off=asker.boards, at={contactor.code: contactor.positions[0]})


def ends(asker: Asker) -> Group:
    """Wires that no reading above passes, from end to end; those that are off at a board by their free end."""
    key = ("wires that no reading passes", asker.boards)
    if key not in asker.circuit.kept:
        asker.circuit.kept[key] = _unread(asker.circuit, asker.asked, asker.joined)
    rows = []
    for wire in asker.circuit.kept[key]:
        tips = [(str(end), _tip(asker, wire, end)) for end in (wire.a, wire.b)]
        rows.append(asker.ask("as they are", tips[0], tips[1], f"OL: wire {wire.number} broken or loose", (inf,)))
    return Group("Wires end to end", asker.lifted(asker.boards, "still"), "switches", tuple(rows))


def _tip(asker: Asker, wire: Wire, end: Terminal) -> str:
    """What an end is called at the bench: free at a board, and off the plus post of a battery until the sheet is signed."""
    if end.device in asker.boards:
        return f"wire {wire.number}, free end"
    source, poles = asker.circuit.source
    return f"wire {wire.number}, taped lug" if poles.direct and end.device == source.code and end.name in poles.live else spoken(str(end))


def _unread(circuit: Circuit, asked: list[Asked], joined: float) -> tuple[Wire, ...]:
    """Wires that may be broken with every reading inside its bar."""
    read = {name for one in asked for name in one.names}
    left = {wire.number: wire for wire in circuit.wires if f"wire {wire.number}" not in read}
    for one in asked:
        sound = expected(circuit, one.red, one.black, one.at, off=one.off, joined=joined)
        if sound.kind not in ("near zero", "value"):
            continue
        found = reached(circuit, {**circuit.rest, **one.at}, one.red, off=one.off)
        if one.black not in found:
            continue
        path = path_to(found, one.black)
        for wire in [wire for wire in left.values() if _on(wire, path)]:
            broken = expected(without_wire(circuit, wire), one.red, one.black, one.at, off=one.off, joined=joined)
            if _apart(sound, broken):
                del left[wire.number]
    return tuple(left.values())


def _on(wire: Wire, path: tuple[Terminal, ...]) -> bool:
    return wire.a in path and wire.b in path


def _apart(sound: Reading, broken: Reading) -> bool:
    return broken.low > sound.high or broken.high < sound.low
