"""The protective conductor: every metal part that can be touched has its own, big enough, and nothing else uses it."""

from collections.abc import Iterator

from buildsheet.circuit.breach import Breach, breach
from buildsheet.circuit.netlist import Circuit, Link, Terminal

BARS = ("earth-bar", "plug")  # from what a metal part's own protective wire may come


def protective(circuit: Circuit) -> Iterator[Breach]:
    """Every exposed metal part reaches the source's earth through protective wires and bars only, by a wire of its own,
    and nothing else uses them (IEC 60204-1, 8.2). A source without earth, a battery of extra-low voltage, asks nothing."""
    if not circuit.source[1].earth:
        return
    found = _reached(circuit)
    for metal in metal_without_protection(circuit):
        words = f"{metal}, a metal part that can be touched, reaches no protective conductor"
        yield breach("protective conductor", (metal,), {}, words)
    for device in circuit.devices.values():
        metal = Terminal(device.code, device.metal)
        before = found.get(metal) if device.metal else None
        if before is not None and circuit.devices[before.device].kind not in BARS:
            words = f"{metal} hangs on {before}: taken off, that part takes the protective conductor along"
            yield breach("protective conductor", (before, metal), {}, words)
    for wire in circuit.wires:
        if wire.role == "protective" and wire.area < circuit.protective_least:
            words = f"wire {wire.number} has {wire.area * 1e6:.3g} mm², a protective conductor {circuit.protective_least * 1e6:.3g} mm² at the least"
            yield breach("protective conductor", (wire.a, wire.b), {}, words)
        if wire.role != "protective" and (wire.a in found or wire.b in found):
            words = f"wire {wire.number} uses the protective conductor for something else"
            yield breach("protective conductor", (wire.a, wire.b), {}, words)


def metal_without_protection(circuit: Circuit) -> tuple[Terminal, ...]:
    """The metal parts that reach no protective conductor; none where the source has no earth."""
    if not circuit.source[1].earth:
        return ()
    found = _reached(circuit)
    metals = (Terminal(device.code, device.metal) for device in circuit.devices.values() if device.metal)
    return tuple(metal for metal in metals if metal not in found)


def _reached(circuit: Circuit) -> dict[Terminal, Terminal | None]:
    """What protective wires and bars reach from the source's earth, each with the terminal before it."""
    source, poles = circuit.source
    start = Terminal(source.code, poles.earth)
    found: dict[Terminal, Terminal | None] = {start: None}
    waiting = [start]
    for here in waiting:
        beside = [
            wire.b if wire.a == here else wire.a for wire in circuit.at(here) if wire.role == "protective"
        ]
        device = circuit.devices[here.device]
        if device.kind == "earth-bar":
            links = (part for part in device.inside if isinstance(part, Link) and here.name in (part.a, part.b))
            beside += [Terminal(device.code, link.b if here.name == link.a else link.a) for link in links]
        for there in beside:
            if there not in found:
                found[there] = here
                waiting.append(there)
    return found
