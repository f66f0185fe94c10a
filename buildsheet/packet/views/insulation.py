"""The insulation test before power: switches, wires that are off, and what is joined against what. It is no pocket
meter's work: the tester makes a voltage that hurts, so it is not the helper's to do.
"""

from dataclasses import dataclass

from buildsheet.circuit import Circuit, Electronics, Winding, Wire
from buildsheet.circuit.netlist import numbers
from buildsheet.plan import Plan


@dataclass(frozen=True, slots=True)
class Insulation:
    """The insulation test: what the switches stand at, which wires are off, and pairs of (joined, against what)."""

    switches: str
    off: str
    pairs: tuple[tuple[str, str], ...]


def insulation(plan: Plan) -> Insulation | None:
    """The insulation test of a machine that can kill by touch; None for another, or without a circuit."""
    circuit, supplied = plan.circuit, plan.design.supplied
    if circuit is None or supplied is None or not supplied.live:
        return None
    earth = plan.design.region.words["earth"]
    at = {code: positions[1] for code, positions in ((d.code, d.positions) for d in circuit.devices.values()) if code in ("Q1", "Q2") and positions}
    switches = [f"{code} {'pushed in' if position == 'in' else position}" for code, position in at.items()]
    if "S5" in circuit.devices:
        switches.append("S5 forward, the motor's wires on")
    if "F3" in circuit.devices:
        switches.append("F3 set")
    switches += [f"{code} out" for code in ("S1",) if code in circuit.devices]
    lifted = [wire for wire in circuit.wires if wire.role != "protective" and _electronic(wire, circuit)]
    _, feed = circuit.source
    poles = " and ".join(f"plug {pole}" for pole in feed.poles)
    pairs = [(poles, f"{earth} pin")]
    motor = [wire.number for wire in lifted if wire.stage == 4]
    if motor:
        pairs.append((f"wires {numbers(motor)}", "the motor's frame"))
    for iron in (d for d in circuit.devices.values() if d.kind == "transformer"):
        wound = [part for part in iron.inside if isinstance(part, Winding)]
        one, other = (f"{iron.code} · {part.a} and {part.b}" for part in wound[:2])
        pairs += [(one, f"{other}, their wires off"), *([(other, f"its {iron.metal}")] if iron.metal else [])]
    own = [wire.number for wire in lifted if wire.role == "field"]
    if own:
        pairs.append((f"wires {numbers(own)}", "the motor's frame"))
    knob = [wire.number for wire in lifted if wire.stage == 5]
    if knob:
        pairs.append((f"wires {numbers(knob)}", f"{earth} pin"))
    return Insulation(", ".join(switches), numbers([wire.number for wire in lifted]), tuple(pairs))


def _electronic(wire: Wire, circuit: Circuit) -> bool:
    """Whether a wire ends on electronics or on the fan: a test voltage is not for them."""
    ends = (circuit.devices[end.device] for end in (wire.a, wire.b))
    return any(device.kind in ("fan", "lamp", "indicator", "meter") or any(isinstance(part, Electronics) for part in device.inside) for device in ends)
