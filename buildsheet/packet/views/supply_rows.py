"""Readings of the supply side: metal parts, poles, and the release chain."""

from collections.abc import Iterator, Mapping
from math import inf

from buildsheet.circuit import Contact, Device, Terminal
from buildsheet.circuit.contraction import contract, path_to, reached
from buildsheet.circuit.readings import expected
from buildsheet.packet.views.asking import AT_REST, Asker, low_case, spoken, terminal_of
from buildsheet.packet.views.reading import BRIDGED, HELD, Group, Row, Tip, hand_words
from buildsheet.reference import table


def metal(asker: Asker) -> Group:
    """Every metal part: joined to the protective pin, or to nothing where there is none."""
    metals = [device for device in asker.circuit.devices.values() if device.metal]
    if asker.pin is None:
        at = {**asker.run, **asker.on(), **_pushed(asker)}
        rows = [
            asker.ask(asker.hands(at), pole, (f"{device.code}:{device.metal}", f"{low_case(device.name)}; then the steel of the box"), "a value: a wire touches metal", (0.0,), off=asker.boards, at=at)
            for device in metals
            for pole in asker.poles
        ]  # fmt: skip
        return Group("Nothing reaches the metal", asker.lifted(asker.boards), "switches", tuple(rows))
    rows = []
    for device in metals:
        wire = next(
            w.number
            for w in asker.circuit.wires
            if w.role == "protective" and device.code in (w.a.device, w.b.device)
        )
        metal = (f"{device.code}:{device.metal}", low_case(device.name))
        rows.append(
            asker.ask("as they are", asker.pin, metal, f"more: paint under the ring, wire {wire}", (inf,))
        )
    for device in metals:
        if device.kind == "drive":  # a power device whose pad is gone makes its heat sink live
            ends = [next(iter(asker.circuit.at(Terminal(device.code, name))), None) for name in device.terminals]
            power = [(wire, name) for wire, name in zip(ends, device.terminals, strict=True) if wire is not None and wire.stage in (3, 4)]
            for _, name in (power[0], power[-1]):
                case = (f"{device.code}:{device.metal}", f"heat sink of {device.code}")
                rows.append(asker.ask("its wires off", (f"{device.code}:{name}", f"{device.code} · {name}"), case, "a value: a power device touches its heat sink", (0.0,), off=asker.boards))
    return Group(f"{asker.earth.capitalize()} reaches all metal", "", "switches", tuple(rows))


def _pushed(asker: Asker) -> dict[str, str]:
    return {d.code: d.positions[1] for d in asker.circuit.devices.values() if d.kind == "contactor"}


def supply(asker: Asker) -> Group:
    """Supply against earth and between the poles, and each pole of each power switch: it cuts, and it conducts."""
    on = asker.on()
    cut = {code: asker.circuit.devices[code].positions[0] for code in on}
    contactors = [device for device in asker.circuit.devices.values() if device.kind == "contactor"]
    pushed = {device.code: device.positions[1] for device in contactors}
    start = asker.start()
    everything = {**asker.run, **on, **pushed}
    rows: list[Row] = []
    if asker.pin is not None:
        for pole in asker.poles:
            wrong = "near 0: a wire or strand touches metal, or is on the wrong bar"
            rows.append(
                asker.ask(
                    asker.hands(everything), pole, asker.pin, wrong, (0.0,), off=asker.boards, at=everything
                )
            )
    first, second = asker.poles[0], asker.poles[1]
    coil = asker.coil({**asker.run, **on, **pushed})
    switches = " and ".join(on)
    for at, wrong, faults in (
        ({**asker.run, **cut, **start}, f"a value: {switches} does not cut", coil),
        ({**asker.run, **on}, "a value: start or the holding contact is bridged", coil),
        (everything, "OL: holding contact open. Near 0: short", (0.0, inf)),
    ):
        hands = asker.hands(at)
        if all(at[code] == position for code, position in cut.items()):
            hands = ", ".join(
                [
                    *(hand_words(asker.circuit.devices[code], position) for code, position in cut.items()),
                    hands,
                ]
            )
        rows.append(asker.ask(hands, first, second, wrong, faults, off=asker.boards, at=at))
    for code in on:
        rows += _cuts(asker, asker.circuit.devices[code])
    for device in contactors:
        rows += _poles_of(asker, device, on)
    return Group("Supply side", asker.lifted(asker.boards), "switches", tuple(rows))


def _cuts(asker: Asker, switch: Device) -> Iterator[Row]:
    """Each pole of the disconnect by itself: one that is stuck hides behind the other."""
    nodes = contract(asker.circuit, asker.circuit.rest)
    for part in (part for part in switch.inside if isinstance(part, Contact)):
        outward = f"{switch.code}:{part.b}"
        pole = next((tip for tip in asker.poles if nodes.same(terminal_of(tip[0]), Terminal(switch.code, part.a))), None)
        if pole is not None:
            words = f"near 0: that pole of {switch.code} is stuck"
            off = switch.positions[0]
            yield asker.ask(hand_words(switch, off), pole, (outward, spoken(outward)), words, (0.0,), off=asker.boards, at={switch.code: off})


def _poles_of(asker: Asker, device: Device, on: Mapping[str, str]) -> Iterator[Row]:
    """Each power pole of a contactor: what comes in, what goes out while it is out, and while it is in."""
    out, pulled = device.positions
    nodes = contract(asker.circuit, {**asker.circuit.rest, **on}, off=asker.boards)
    for contact in (part for part in device.inside if isinstance(part, Contact)):
        wires = asker.circuit.at(Terminal(device.code, contact.a))
        if any(wire.role == "control" for wire in wires):
            continue
        inward, outward = (f"{device.code}:{name}" for name in (contact.a, contact.b))
        pole = next((tip for tip in asker.poles if nodes.same(terminal_of(tip[0]), terminal_of(inward))), None)
        if pole is None:
            continue
        lifted = asker.boards
        yield asker.ask(
            asker.hands(on),
            pole,
            (inward, spoken(inward)),
            "OL: poles swapped, a wire off, or a fuse blown",
            (inf,),
            off=lifted,
            at=on,
        )
        yield asker.ask(
            f"{asker.hands(on)}, {hand_words(device, out)}",
            pole,
            (outward, spoken(outward)),
            f"near 0: that pole of {device.code} is welded",
            (0.0,),
            off=lifted,
            at=on,
        )
        at = {**on, device.code: pulled}
        yield asker.ask(
            asker.hands(at),
            pole,
            (outward, spoken(outward)),
            f"OL: that pole of {device.code} stays open",
            (inf,),
            off=lifted,
            at=at,
        )


def chain(asker: Asker) -> Group:
    """The release chain up to the far side of start: each contact in it must be able to break it. Every row names what
    latches. The coil behind it is read with the contactor pushed in, where no timer lies beside it."""
    first, second = asker.poles[0], _behind_start(asker)
    if second is None:
        return Group("Release chain", "", "switches", ())
    most = table("usual_ohms").cell("chain of contacts", "high").si
    base = {**asker.run, **asker.on(), **asker.start()}
    waiting = [d.code for d in asker.circuit.devices.values() if d.kind == "timer" and d.lingers]
    late = f", or {waiting[0]} still waits: it may come so from the shop" if waiting else ""
    rows = [
        asker.ask(asker.hands(base), first, second, f"OL: chain open{late}", (inf,), off=asker.boards, at=base, joined=most)
    ]
    back: dict[str, str] = {}
    for code, position in _breakers(asker, base, terminal_of(second[0])):
        at = {**base, code: position}
        device = asker.circuit.devices[code]
        rows.append(
            asker.ask(asker.hands(at, released=back, tried=code), first, second, f"near 0: {BRIDGED.get(device.kind, 'contact bridged')}", (0.0,), off=asker.boards, at=at, joined=most)
        )  # fmt: skip
        back = {} if device.kind in HELD else {code: base[code]}
    if back:
        rows.append(
            asker.ask(
                asker.hands(base, released=back),
                first,
                second,
                "OL: it did not go back",
                (inf,),
                off=asker.boards,
                at=base,
                joined=most,
            )
        )
    return Group("Release chain", asker.lifted(asker.boards, "still"), "switches", tuple(rows))


def _behind_start(asker: Asker) -> Tip | None:
    """The far side of the start button."""
    for device in asker.circuit.devices.values():
        if device.kind == "start":
            part = next(part for part in device.inside if isinstance(part, Contact))
            end = f"{device.code}:{part.b}"
            return end, spoken(end)
    return None


def _breakers(asker: Asker, base: Mapping[str, str], behind: Terminal) -> Iterator[tuple[str, str]]:
    """Devices and positions that must break the chain, start and the contactor aside: each contact of it once."""
    first, second = terminal_of(asker.poles[0][0]), behind
    found = reached(asker.circuit, {**asker.circuit.rest, **base}, first, off=asker.boards)
    order = list(dict.fromkeys(end.device for end in path_to(found, second)))
    for code in order:
        device = asker.circuit.devices[code]
        if (
            device.kind in ("disconnect", "contactor", "start", "potentiometer", *AT_REST)
            or not device.positions
        ):
            continue
        for position in device.positions:
            if position == base.get(device.code, device.positions[0]):
                continue
            reading = expected(
                asker.circuit,
                first,
                second,
                {**base, device.code: position},
                off=asker.boards,
                joined=asker.joined,
            )
            if reading.kind == "open":
                yield device.code, position
                break
