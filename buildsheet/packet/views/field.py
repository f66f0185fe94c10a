"""A field on a supply of its own, on paper: its readings, what was decided, its rows of speeds and heat, its first power."""

from collections.abc import Iterator
from math import inf

from buildsheet.circuit import Circuit, Resistance, Terminal, Winding, Wire
from buildsheet.circuit.contraction import feeders
from buildsheet.circuit.netlist import Device, numbers
from buildsheet.packet.ink import Ink
from buildsheet.packet.views.asking import Asker, spoken
from buildsheet.packet.views.reading import Group, Tip
from buildsheet.packet.views.steps import Taken
from buildsheet.plan import Plan
from buildsheet.sizing.spelt import row_of
from buildsheet.worksheet import Value

Fact = tuple[str, object]
Words = tuple[str, str, tuple[Taken, ...], str]  # action, right when, readings, note


def field(asker: Asker) -> Group:
    """The field's loop with its two wires off the bridge: all of it, the winding by itself, the resistor, and neither on the
    armature nor on the frame."""
    wires, motor = _loop(asker.circuit), _motor(asker.circuit)
    if motor is None or len(wires) < 2:
        return Group("Field", "", "switches", ())
    winding = next(part for part in motor.inside if isinstance(part, Winding) and part.apart)
    a, b = (_tip(motor.code, name) for name in (winding.a, winding.b))
    first, last = ((str(wire.b if wire.a == end else wire.a), f"wire {wire.number}") for wire, end in (wires[0], wires[-1]))  # its end at the bridge is free
    off = asker.boards
    rows = [
        asker.ask("as they are", first, last, "OL: field, relay, resistor or a wire open. Less: shorted turns, or past the resistor", (0.0, inf), off=off),
        asker.ask("as they are", a, b, "OL: field broken. Less: shorted turns; the motor is not run", (0.0, inf), off=off),
    ]
    for device in asker.circuit.devices.values():
        if device.kind == "field-resistor":
            rows += [asker.ask("as they are", _tip(device.code, part.a), _tip(device.code, part.b), "OL: broken. Near 0: shorted", (0.0, inf), off=off) for part in device.inside if isinstance(part, Resistance)]
    armature = next((part for part in motor.inside if isinstance(part, Winding) and not part.apart), None)
    if armature is not None:
        rows.append(asker.ask("as they are", first, _tip(motor.code, armature.a), "a value: the field touches the armature", (1.0,), off=off))
    if motor.metal:
        rows.append(asker.ask("as they are", first, (f"{motor.code}:{motor.metal}", "motor frame"), "a value: the field touches the frame", (1.0, 1e5), off=off))
    return Group("Field", f"{numbers([wires[0][0].number, wires[-1][0].number])} off {wires[0][1].device}, cold", "switches", tuple(rows))


def _tip(code: str, name: str) -> Tip:
    return f"{code}:{name}", spoken(f"{code}:{name}")


def _motor(circuit: Circuit) -> Device | None:
    return next((d for d in circuit.devices.values() if d.kind == "motor" and any(isinstance(part, Winding) and part.apart for part in d.inside)), None)


def _loop(circuit: Circuit) -> list[tuple[Wire, Terminal]]:
    """The wires on the outputs of what feeds a field, each with the screw there."""
    return [(wire, Terminal(device.code, name)) for device in feeders(circuit) for name in device.gives or () for wire in circuit.at(Terminal(device.code, name))]


def decided(plan: Plan, ink: Ink) -> list[Fact]:
    """What was decided about the field's supply."""
    sizes = plan.design.sizes
    own = sizes.field if sizes is not None else None
    if sizes is None or own is None:
        return []
    behind = f", {row_of(own.resistor)} in a row with the field" if own.resistor is not None else ""
    found: list[Fact] = [("Field bridge T3", f"gives {ink.print(own.volts)}{behind}; the field's plate says {ink.print(own.field.volts)}. It is on with the disconnect, before the armature can be")]
    if plan.project.controls is not None and plan.project.controls.field_relay:
        found.append(("Field relay K3", f"out below {ink.print(own.opens)}, {ink.print(own.watched)} of the whole field; nothing runs without it"))
    if sizes.field_fuse is not None:
        found.append(("Field fuse F7", f"{ink.print(sizes.field_fuse)}, time-lag; blown, it stops the machine by the relay"))
    return found


def settings(plan: Plan, ink: Ink) -> list[Fact]:
    """What the field's relay is set to, or read to be before it is built in."""
    own = plan.design.sizes.field if plan.design.sizes is not None else None
    if own is None or plan.project.controls is None or not plan.project.controls.field_relay:
        return []
    return [("Field relay K3", f"in by {ink.print(own.asked)}, out by {ink.print(own.opens)} as the current falls: read both at the bench, on a battery and a variable resistor")]


def currents(plan: Plan) -> list[tuple[str, Value, Value]]:
    """The field's rows beside those of the motor's two speeds, at which it is the same."""
    own = plan.design.sizes.field if plan.design.sizes is not None else None
    return [] if own is None else [("field current, warm", own.current, own.current), ("the same, of the whole", own.share, own.share)]


def heats(plan: Plan, ink: Ink) -> tuple[list[Fact], list[Fact]]:
    """Heat of the field's supply in the box, and of the field in the motor."""
    own = plan.design.sizes.field if plan.design.sizes is not None else None
    if own is None:
        return [], []
    what = "Field's bridge and resistor" if own.resistor is not None else "Field's bridge"
    return [(what, f"{ink.print(own.box_heat)}, as long as the disconnect is on")], [("Heat of the field", f"{ink.print(own.heat)} warm and {ink.print(own.heat_most)} at first, as long as the disconnect is on, the motor still or not")]


def first_power(plan: Plan, circuit: Circuit, ink: Ink, off: str, on: str) -> Iterator[Words]:
    """The field before the armature, whose fuse stays out for these: its volts, its current, and that nothing runs without it."""
    own, motor = plan.design.sizes.field if plan.design.sizes is not None else None, _motor(circuit)
    loop = _loop(circuit)
    fuse = next((d.code for d in circuit.devices.values() if d.kind == "motor-fuse"), None)
    if own is None or motor is None or len(loop) < 2 or fuse is None:
        return
    (plus, one), (minus, other) = loop[0], loop[-1]
    yield (
        f"{off.capitalize()}, wait. {fuse} out of its holder: the armature stays dead. Clips on {spoken(str(one))} and {spoken(str(other))}, DC. {on.capitalize()}, disconnect on, emergency stop pressed.",
        "the field relay pulls in, and nothing turns or hums.",
        (Taken("field's bridge", f"about {ink.print(own.volts)}", "V DC"),),
        "",
    )
    yield (
        f"{off.capitalize()}, wait, clips off. Clamp round wire {minus.number}, DC, its zero set first. {on.capitalize()}, disconnect on; read at once.",
        "the current falls a little as the field warms.",
        (Taken("field, cold at first", f"{ink.print(own.current)} to {ink.print(own.most)}", "A DC", "clamp"),),
        f"Less than {ink.print(own.asked)} is no field: {off}, and look for it with sheet 8.",
    )
    if any(d.kind == "field-relay" for d in circuit.devices.values()):
        yield (
            f"{off.capitalize()}, wait. Wire {plus.number} off {spoken(str(one))}, its end taped. {on.capitalize()}, disconnect on, emergency stop released, press start.",
            "the contactor does not pull in: without field current nothing runs.",
            (),
            f"If it pulls in, the machine is not used until that is found. Then {off}, wait, wire {plus.number} back, emergency stop pressed, and only now {fuse} back in.",
        )


def at_rest(plan: Plan, circuit: Circuit, ink: Ink) -> Iterator[Words]:
    """The field warm, the motor standing."""
    own = plan.design.sizes.field if plan.design.sizes is not None else None
    loop = _loop(circuit)
    if own is None or len(loop) < 2:
        return
    yield (
        f"Press stop and leave the disconnect on for half an hour, clamp round wire {loop[-1][0].number}, cover shut; read.",
        "the hand can stay on the motor's frame, and nothing smells.",
        (Taken("field, warm", f"about {ink.print(own.current)}, at least {ink.print(own.asked)}", "A DC", "clamp"),),
        "The motor stands and its field heats it. A frame that is too hot for the hand means: disconnect off at every rest.",
    )
