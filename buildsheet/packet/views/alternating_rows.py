"""Readings of a motor for alternating current: its windings, its capacitor, its frame."""

from collections.abc import Iterator
from math import inf

from buildsheet.circuit import Capacitor, Circuit, Contact, Device, Resistance, Terminal, Winding
from buildsheet.circuit.netlist import numbers
from buildsheet.packet.views.asking import Asker
from buildsheet.packet.views.motor_rows import changed_over, off_the_motor
from buildsheet.packet.views.reading import Group, Row, Tip

PARTS = ("run", "start", "phase")


def alternating(asker: Asker) -> Group:
    """The windings of a motor on the line or behind an inverter; nothing for one on a drive."""
    motor = next((d for d in asker.circuit.devices.values() if d.kind == "motor"), None)
    windings = [part for part in motor.inside if isinstance(part, Winding)] if motor is not None else []
    leads = _leads(asker.circuit)
    if motor is None or not windings or not leads or (windings[0].part not in PARTS and any(d.kind == "drive" for d in asker.circuit.devices.values())):
        return Group("Motor", "", "switches", ())
    if windings[0].part == "armature":
        return _brushes(asker, motor, windings, leads) if len(leads) > 1 else Group("Motor", "", "switches", ())
    if windings[0].part == "phase":
        return _three_phase(asker, motor, leads)
    return _one_phase(asker, motor, windings, leads)


def _leads(circuit: Circuit) -> list[tuple[int, Terminal]]:
    """The wires that feed the motor's side, each with the screw that it comes from: of a drive or a
    speed box, or of a contactor."""
    wires = [wire for wire in circuit.wires if wire.stage == 4]
    for kinds in (("drive",), ("speed-control",), ("contactor", "bridging-relay")):
        found = [(wire.number, wire.a if "contactor" in kinds else wire.b) for wire in wires if circuit.devices[wire.a.device].kind in kinds]
        if found:
            return found
    return []


def _three_phase(asker: Asker, motor: Device, leads: list[tuple[int, Terminal]]) -> Group:
    tips: list[Tip] = [(str(end), f"wire {number}") for number, end in leads]
    wrong = "OL: a lead off, or a link missing. Unlike the others: burnt, or linked wrongly"
    rows = [asker.ask("as they are", a, b, wrong, (0.0, inf), off=asker.boards) for a, b in ((tips[0], tips[1]), (tips[1], tips[2]), (tips[2], tips[0]))]
    rows.append(_frame(asker, motor, tips[0]))
    return Group("Motor", f"{numbers([number for number, _ in leads])} off the inverter", "switches", tuple(rows))


def _one_phase(asker: Asker, motor: Device, windings: list[Winding], leads: list[tuple[int, Terminal]]) -> Group:
    tips: list[Tip] = [(str(end), f"{end.device} · {end.name}") for _, end in leads]
    at, hands = changed_over(asker)
    rows = [asker.ask(hands or "as they are", tips[0], tips[1], "OL: relay, a wire or the run winding open. Near 0: short", (0.0, inf), off=asker.boards, at=at)]
    rows.append(_frame(asker, motor, tips[0]))
    alone = frozenset({motor.code})
    for part in windings[1:]:
        first = next((inside.a for inside in motor.inside if isinstance(inside, Contact) and inside.b == part.a), part.a)  # before its switch
        ends = [(f"{motor.code}:{name}", f"{motor.code} · {name}") for name in (first, part.b)]
        rows.append(asker.ask("its wires off", ends[0], ends[1], "OL: start switch or winding open", (inf,), off=alone))
    rows += _capacitors(asker)
    lifted = [wire.number for wire in asker.circuit.wires if motor.code in (wire.a.device, wire.b.device) and wire.role != "protective"]
    note = f"{numbers(off_the_motor(asker.circuit))} back on the motor; " if at else ""
    return Group("Motor", f"{note}where it says so, {numbers(lifted)} off {'it again' if at else 'the motor'}", "switches", tuple(rows))


def lifted(circuit: Circuit) -> frozenset[str]:
    """The devices whose wires these rows take off, drives aside: a motor with two windings, its capacitor, its resistor."""
    two = {d.code for d in circuit.devices.values() if d.kind == "motor" and any(isinstance(part, Winding) and part.part == "start" for part in d.inside)}
    own = {d.code for d in circuit.devices.values() if d.kind == "bleeder" or any(isinstance(part, Capacitor) and part.passes for part in d.inside)}
    return frozenset(two | own)


def _brushes(asker: Asker, motor: Device, windings: list[Winding], leads: list[tuple[int, Terminal]]) -> Group:
    tips: list[Tip] = [(str(end), f"{end.device} · {end.name}") for _, end in leads]
    at, hands = changed_over(asker)
    turning = "turn the shaft slowly" + (f", {hands}" if hands else "")
    rows = [asker.ask(turning, tips[0], tips[1], "note the lowest · OL: the relay, a wire or brushes. Near 0: short", (0.0, inf), off=asker.boards, at=at)]
    for part in windings[1:]:
        ends = [(f"{motor.code}:{name}", f"{motor.code} · {name}") for name in (part.a, part.b)]
        rows.append(asker.ask(hands or "as they are", ends[0], ends[1], "OL: field broken. Near 0: shorted turns", (0.0, inf), off=asker.boards, at=at))
    rows.append(_frame(asker, motor, tips[0]))
    note = f"{numbers(off_the_motor(asker.circuit))} back on the motor" if at else asker.lifted(asker.boards, "still")
    return Group("Motor", note, "switches", tuple(rows))


def _frame(asker: Asker, motor: Device, tip: Tip) -> Row:
    frame = (f"{motor.code}:{motor.metal}", "motor frame")
    at, hands = changed_over(asker)
    return asker.ask(hands or "as they are", tip, frame, "a value: a winding touches the frame", (1.0, 1e5), off=asker.boards, at=at)


def _capacitors(asker: Asker) -> Iterator[Row]:
    """The motor's capacitor and its bleed resistor, each with its wires off."""
    for device in asker.circuit.devices.values():
        for part in device.inside:
            ends = [(f"{device.code}:{name}", f"{device.code} · {name}") for name in device.terminals[:2]]
            if isinstance(part, Capacitor) and part.passes:
                yield asker.ask("its wires off, emptied", ends[0], ends[1], "stays near 0: shorted. OL at once: dried out", off=frozenset({device.code}))
            elif isinstance(part, Resistance) and device.kind == "bleeder":
                yield asker.ask("its wires off", ends[0], ends[1], "OL: broken, the capacitor keeps its charge", (inf,), off=frozenset({device.code}))
