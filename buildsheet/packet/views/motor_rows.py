"""Readings of the motor side: the changeover, the speed knob, the motor."""

from math import inf

from buildsheet.circuit import Barrier, Circuit, Contact, Electronics, Terminal, Winding
from buildsheet.circuit.netlist import numbers
from buildsheet.circuit.readings import expected
from buildsheet.packet.views.asking import Asker, terminal_of
from buildsheet.packet.views.reading import Group, Row, Tip, hand_words


def reversing(asker: Asker) -> Group:
    """A changeover, with the motor's cable off: each way through in its own direction, and nothing in the middle."""
    rows: list[Row] = []
    switch = next((d for d in asker.circuit.devices.values() if d.kind == "reversing-switch"), None)
    if switch is None:
        return Group("Direction", "", "switch", ())
    code, motors = (
        switch.code,
        frozenset(d.code for d in asker.circuit.devices.values() if d.kind == "motor"),
    )
    off = asker.boards | motors
    power = [part for part in switch.inside if isinstance(part, Contact) and len(part.closed_in) == 1]
    for position in switch.positions:
        for part in power:
            if position not in part.closed_in and position != switch.positions[0]:
                continue
            tips = [(f"{code}:{name}", f"{code} · {name}") for name in (part.a, part.b)]
            wrong = (
                "near 0: it joins in the middle"
                if position == switch.positions[0]
                else "OL: contact burnt, or wire off"
            )
            fault = 0.0 if position == switch.positions[0] else inf
            rows.append(
                asker.ask(
                    hand_words(switch, position),
                    tips[0],
                    tips[1],
                    wrong,
                    (fault,),
                    off=off,
                    at={code: position},
                )
            )
    return Group("Direction", f"{numbers(off_the_motor(asker.circuit))} off the motor", "switch", tuple(rows))


def knob(asker: Asker) -> Group:
    """The speed potentiometer, its wires off the drive."""
    knob = next((d for d in asker.circuit.devices.values() if d.kind == "potentiometer"), None)
    if knob is None:
        return Group("Speed knob", "", "knob", ())
    tips: list[Tip] = []
    for name in knob.terminals:
        wire = asker.circuit.at(Terminal(knob.code, name))[0]
        tips.append((f"{knob.code}:{name}", f"wire {wire.number}"))
    a, b, c = tips
    off = asker.boards
    whole = expected(asker.circuit, terminal_of(a[0]), terminal_of(c[0]), {}, off=off)
    rows = (
        asker.ask("anywhere", a, c, "far off: wrong part", (whole.high * 2, inf), off=off),
        asker.ask(
            "at slow",
            a,
            b,
            "the whole value: ends swapped",
            (whole.high,),
            off=off,
            at={knob.code: "slow"},
        ),
        asker.ask(
            "at fast",
            c,
            b,
            "the whole value: ends swapped",
            (whole.high,),
            off=off,
            at={knob.code: "fast"},
        ),
    )
    lifted = [int(tip[1].removeprefix("wire ")) for tip in tips]
    return Group("Speed knob", f"{numbers(lifted)} off T1", "knob", rows)


def dial(asker: Asker) -> Group:
    """A dial by itself, its wires off: the whole winding, and its brush at zero."""
    iron = next((d for d in asker.circuit.devices.values() if d.kind == "autotransformer"), None)
    if iron is None:
        return Group("Dial", "", "knob", ())
    line, brush, common = ((f"{iron.code}:{name}", f"{iron.code} · {name}") for name in iron.terminals[:3])
    off = asker.boards
    rows = (
        asker.ask("at zero", line, common, "OL: winding broken", (inf,), off=off, at={iron.code: "zero"}),
        asker.ask("at zero", brush, common, "OL: the brush does not bear. A value: its zero is not at this end", (inf,), off=off, at={iron.code: "zero"}),
        asker.ask("at its stop", brush, common, "near 0: the two ends are swapped", (0.0,), off=off, at={iron.code: "up"}),
    )
    wires = [wire.number for wire in asker.circuit.wires if iron.code in (wire.a.device, wire.b.device) and wire.role != "protective"]
    return Group("Dial", f"{numbers(wires)} still off", "knob", rows)


def separated(asker: Asker) -> Group:
    """Electronics that part two circuits, by themselves, their wires off: nothing from one side to the other, nor from the second to the
    case."""
    unit = next((d for d in asker.circuit.devices.values() if any(isinstance(part, Barrier) for part in d.inside) and any(isinstance(part, Electronics) for part in d.inside)), None)
    if unit is None:
        return Group("Separation", "", "switches", ())
    tips = {name: (f"{unit.code}:{name}", f"{unit.code} · {name}") for name in unit.terminals}
    barriers = [part for part in unit.inside if isinstance(part, Barrier)]
    rows = [asker.ask("as they are", tips[one.a], tips[other.b], "a value: its two sides touch", (0.0,), off=asker.boards) for one in barriers for other in barriers]
    if unit.metal:
        rows += [asker.ask("as they are", tips[one.b], tips[unit.metal], "a value: it touches its case", (0.0,), off=asker.boards) for one in barriers]
    wires = [wire.number for wire in asker.circuit.wires if unit.code in (wire.a.device, wire.b.device) and wire.role != "protective"]
    return Group(unit.name, f"{numbers(wires)} still off", "switches", tuple(rows))


def transformer(asker: Asker) -> Group:
    """A transformer by itself, its wires off: each winding, and nothing from one to the other or to the core."""
    iron = next((d for d in asker.circuit.devices.values() if d.kind == "transformer"), None)
    if iron is None:
        return Group("Transformer", "", "switches", ())
    windings = [part for part in iron.inside if isinstance(part, Winding)]
    tips: list[tuple[Tip, Tip]] = [
        ((f"{iron.code}:{part.a}", f"{iron.code} · {part.a}"), (f"{iron.code}:{part.b}", f"{iron.code} · {part.b}")) for part in windings
    ]
    off = asker.boards
    rows = [asker.ask("as they are", pair[0], pair[1], "OL: winding broken. Near 0 on the primary: shorted turns", (inf,), off=off) for pair in tips]
    rows.append(asker.ask("as they are", tips[0][0], tips[1][0], "a value: one winding touches the other", (0.0,), off=off))
    if iron.metal:
        core = (f"{iron.code}:{iron.metal}", "core")
        rows += [asker.ask("as they are", pair[0], core, "a value: the winding touches the core", (0.0,), off=off) for pair in tips]
    wires = [wire.number for wire in asker.circuit.wires if iron.code in (wire.a.device, wire.b.device) and wire.role != "protective"]
    return Group("Transformer", f"{numbers(wires)} still off", "switches", tuple(rows))


def motor(asker: Asker) -> Group:
    """From the two wires that come off the drive, through fuse and overload to the armature; and to its frame."""
    motor = next((d for d in asker.circuit.devices.values() if d.kind == "motor"), None)
    outputs = [
        (wire.number, end)
        for wire in asker.circuit.wires
        for here, end in ((wire.a, wire.b), (wire.b, wire.a))
        if wire.role == "armature" and asker.circuit.devices[here.device].kind == "drive"
    ]
    brushes = motor is not None and any(isinstance(part, Winding) and part.part == "armature" for part in motor.inside)
    if motor is None or not brushes or len(outputs) < 2:
        return Group("Motor", "", "switches", ())
    tips = [(str(end), f"wire {number}") for number, end in outputs]
    at, hands = changed_over(asker)
    turning = "turn the shaft slowly" + (f", {hands}" if hands else "")
    rows = [
        asker.ask(
            turning,
            tips[0],
            tips[1],
            "note the lowest · OL: a fuse, the relay or brushes",
            (0.0, inf),
            off=asker.boards,
            at=at,
        )
    ]
    for part in motor.inside:
        if isinstance(part, Winding) and part.part == "field" and not part.apart:
            a, b = ((f"{motor.code}:{name}", f"{motor.code} · {name}") for name in (part.a, part.b))
            rows.append(asker.ask(hands or "as they are", a, b, "OL: field broken. Near 0: shorted turns", (0.0, inf), off=asker.boards, at=at))
    if motor.metal:
        frame = (f"{motor.code}:{motor.metal}", "motor frame")
        rows.append(
            asker.ask(
                hands or "as they are",
                tips[0],
                frame,
                "a value: armature touches the frame",
                (1.0, 1e5),
                off=asker.boards,
                at=at,
            )
        )
    off = f"{numbers([number for number, _ in outputs])} off T1"
    changed = any(d.kind == "reversing-switch" for d in asker.circuit.devices.values())
    note = f"{numbers(off_the_motor(asker.circuit))} back on the motor; {off}" if changed else off
    return Group("Motor", note, "switches", tuple(rows))


def changed_over(asker: Asker) -> tuple[dict[str, str], str]:
    """A changeover as it stands while the machine runs, and the words for it; nothing where there is none."""
    at = {code: position for code, position in asker.run.items() if asker.circuit.devices[code].kind == "reversing-switch"}
    return at, asker.hands(at) if at else ""


def off_the_motor(circuit: Circuit) -> list[int]:
    """The motor's own wires, which come off it while a changeover is read."""
    motors = {d.code for d in circuit.devices.values() if d.kind == "motor"}
    return [w.number for w in circuit.wires if motors & {w.a.device, w.b.device} and w.role != "protective"]
