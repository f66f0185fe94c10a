"""Readings of a soft start: the relay that bridges the resistor."""

from math import inf

from buildsheet.circuit import Circuit, Contact
from buildsheet.packet.views.asking import Asker
from buildsheet.packet.views.reading import Group, Row, hand_words


def start(asker: Asker) -> Group:
    """The bridging relay let go and pushed in, the resistor's wires off: beside it the meter could not tell the two apart."""
    rows: list[Row] = []
    beside = bridged(asker.circuit)
    for device in asker.circuit.devices.values():
        contact = next((part for part in device.inside if isinstance(part, Contact)), None)
        if contact is None or device.kind != "bridging-relay":  # the timer's contact has two coils beside it, which no meter tells from open
            continue
        tips = [(f"{device.code}:{name}", f"{device.code} · {name}") for name in (contact.a, contact.b)]
        off = asker.boards | beside
        stuck = "near 0: its contact is stuck, and each start is a hard one"
        rows.append(asker.ask("as they are", tips[0], tips[1], stuck, (0.0,), off=off))
        at = {device.code: device.positions[1]}
        rows.append(asker.ask(hand_words(device, device.positions[1]), tips[0], tips[1], "OL: it does not close, and the resistor gets hot", (inf,), off=off, at=at))
    note = f"{asker.lifted(beside)} {', '.join(sorted(beside))}, and back on after these rows"
    return Group("Soft start", note, "switches", tuple(rows))


def bridged(circuit: Circuit) -> frozenset[str]:
    """The resistors that a bridging relay lies across."""
    beside = {
        end.device for wire in circuit.wires for end in (wire.a, wire.b) if {circuit.devices[one.device].kind for one in (wire.a, wire.b)} == {"bridging-relay", "resistor"}
    }
    return frozenset(code for code in beside if circuit.devices[code].kind == "resistor")
