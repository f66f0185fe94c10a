"""What must never happen in a circuit, over every combination of switch positions. A failed proof is a breach."""

from collections.abc import Iterator
from math import inf

from buildsheet.circuit.braking import braking
from buildsheet.circuit.breach import FUSES, Breach, breach, drives_nothing, of_kind
from buildsheet.circuit.contraction import (
    all_positions,
    bridges,
    contract,
    joins,
    path_to,
    pulled_in,
    reached,
)
from buildsheet.circuit.direction import direction, knob
from buildsheet.circuit.field import field
from buildsheet.circuit.interlocks import interlocks
from buildsheet.circuit.inverted import inverted
from buildsheet.circuit.moving import joined_outputs, moving
from buildsheet.circuit.netlist import Circuit, Contact, Device, Fuse, Positions, Terminal
from buildsheet.circuit.protective import protective
from buildsheet.circuit.separation import separation
from buildsheet.circuit.soft_start import soft_start
from buildsheet.circuit.stored import stored

PROOFS = ("short circuit", "isolation", "emergency stop", "order", "conductor protection", "breaking capacity",
          "protective conductor", "terminals", "restart", "reversal", "opening", "actions", "running", "stopping", "knob", "stored energy", "separation",
          "charging", "pre-charge", "inverter", "brake", "field", "soft start")  # fmt: skip
NOTHING = ("nothing", inf)  # what guards a wire before the first fuse of a source without a breaker


def prove(circuit: Circuit, *, pole_may_swap: bool = False) -> tuple[Breach, ...]:
    """All breaches of the circuit, each kind and path once. `pole_may_swap`: the plug may go in either way round."""
    source, poles = circuit.source
    live = poles.poles if pole_may_swap else poles.live
    starts = tuple(Terminal(source.code, name) for name in live)
    found: dict[tuple[str, tuple[Terminal, ...]], Breach] = {}
    for one in _all(circuit, starts):
        found.setdefault((one.proof, one.path), one)
    return tuple(found.values())


def _all(circuit: Circuit, starts: tuple[Terminal, ...]) -> Iterator[Breach]:
    for positions in all_positions(circuit):
        yield from _short_circuit(circuit, positions)
        yield from _isolation(circuit, starts, positions)
    yield from _order(circuit, starts)
    yield from _conductor_protection(circuit, starts)
    yield from _breaking_capacity(circuit)
    yield from protective(circuit)
    yield from _terminals(circuit)
    yield from _restart(circuit, starts)
    yield from interlocks(circuit, starts)
    yield from moving(circuit)
    yield from direction(circuit)
    yield from knob(circuit)
    yield from stored(circuit)
    yield from separation(circuit, starts)
    yield from braking(circuit)
    yield from inverted(circuit)
    yield from field(circuit)
    yield from soft_start(circuit)


def _short_circuit(circuit: Circuit, positions: Positions) -> Iterator[Breach]:
    source, poles = circuit.source
    nodes = contract(circuit, positions)
    ends = [Terminal(source.code, name) for name in (*poles.poles, *_earth(circuit))]
    for index, a in enumerate(ends):
        for b in ends[index + 1 :]:
            if nodes.same(a, b):
                yield breach(
                    "short circuit", (a, b), positions, f"{a} and {b} are joined without a load between them"
                )
    for a, b in joined_outputs(circuit, positions):
        yield breach("short circuit", (a, b), positions, f"{a} and {b} are joined without a load between them")


def _earth(circuit: Circuit) -> tuple[str, ...]:
    """The source's protective terminal, if it has one."""
    earth = circuit.source[1].earth
    return (earth,) if earth else ()


def _isolation(circuit: Circuit, starts: tuple[Terminal, ...], positions: Positions) -> Iterator[Breach]:
    """With the disconnect off nothing beyond it is live; with the emergency stop pressed no motor circuit is."""
    for start in starts:
        for switch in of_kind(circuit, "disconnect"):
            if positions[switch.code] == switch.positions[0]:
                beyond = {start.device, switch.code}
                if (
                    circuit.wall_breaker is None
                ):  # at a battery the fuses come first, and the charger's socket is no load
                    beyond |= {device.code for device in of_kind(circuit, *FUSES, "charger-inlet")}
                yield from _nothing_beyond(circuit, start, positions, beyond, "isolation")
        for stop in of_kind(circuit, "emergency-stop"):
            if positions[stop.code] != stop.positions[0]:
                power = {device.code for device in of_kind(circuit, "motor", "drive", "motor-fuse")}
                found = reached(circuit, positions, start)
                for terminal in found:
                    if terminal.device in power and not drives_nothing(circuit, terminal):
                        words = f"{terminal} is still live with {stop.code} pressed"
                        yield breach("emergency stop", path_to(found, terminal), positions, words)
                        break


def _nothing_beyond(
    circuit: Circuit, start: Terminal, positions: Positions, allowed: set[str], proof: str
) -> Iterator[Breach]:
    found = reached(circuit, positions, start)
    for terminal in found:
        if terminal.device not in allowed:
            yield breach(
                proof, path_to(found, terminal), positions, f"{terminal} is live though the disconnect is off"
            )
            return


def _all_closed(circuit: Circuit) -> dict[str, str]:
    return {device.code: _most_closed(device) for device in circuit.devices.values() if device.positions}


def _most_closed(device: Device) -> str:
    """The position in which most of its power contacts are joined."""
    return max(
        device.positions,
        key=lambda position: sum(
            position in inside.closed_in for inside in device.inside if isinstance(inside, Contact)
        ),
    )


def _order(circuit: Circuit, starts: tuple[Terminal, ...]) -> Iterator[Breach]:
    """Behind a wall breaker: plug, cord, disconnect, fuse, rest. At a battery, which nothing guards: fuse, disconnect,
    rest. Nothing else lies between the source and the two, nor stays live when the fuses have blown."""
    positions = _all_closed(circuit)
    guarded = circuit.wall_breaker is not None
    wanted, word = (("disconnect",), "disconnect") if guarded else (FUSES, "fuse")
    for start in starts:
        first = [wire.b if wire.a == start else wire.a for wire in circuit.at(start)]
        for end in first:
            if circuit.devices[end.device].kind not in wanted:
                yield breach("order", (start, end), {}, f"{end} comes before the {word}")
        fuses = frozenset(device.code for device in of_kind(circuit, *FUSES))
        found = reached(circuit, positions, start, blown=fuses)
        allowed = {start.device, *fuses}
        if guarded:
            allowed |= {device.code for device in of_kind(circuit, "disconnect")}
        for terminal in found:
            if terminal.device not in allowed:
                yield breach(
                    "order",
                    path_to(found, terminal),
                    positions,
                    f"{terminal} stays live when the line fuse has blown",
                )
                break


def protected_by(circuit: Circuit) -> dict[int, tuple[str, float]]:
    """For each wire number the device that protects it and its rating in A: the last fuse toward the source, or the
    wall breaker. A return conductor is protected by what protects the line side of the same circuit."""
    source, poles = circuit.source
    positions = _all_closed(circuit)
    given: dict[Terminal, tuple[str, float]] = {}
    first = NOTHING if circuit.wall_breaker is None else ("wall breaker", circuit.wall_breaker)
    waiting = [(Terminal(source.code, name), first, "") for name in poles.live]
    while waiting:
        waiting.sort(key=lambda one: -one[1][1])  # what lets the most through reaches a terminal first
        here, guard, turned = waiting.pop(0)
        if here in given:
            continue
        given[here] = guard
        if here.device == source.code and here.name not in poles.live:
            continue  # what comes back here came through a load; it does not go out again
        for wire in circuit.at(here):
            there = wire.b if wire.a == here else wire.a
            if there.device != turned:  # what a converter gave out comes back to it here; ahead of it other amperes flow
                waiting.append((there, guard, turned))
        device = circuit.devices[here.device]
        if here.name in device.limits:
            continue
        for a, b, passed in _through(device, positions, guard):
            if here.name in (a, b):
                out = b if here.name == a else a
                waiting.append((Terminal(here.device, out), passed, device.code if out in device.limits else turned))
    wires = {}
    for wire in circuit.wires:
        ends = [end for end in (wire.a, wire.b) if end in given and end.device != source.code] or [
            end for end in (wire.a, wire.b) if end in given and end.name in poles.live
        ]
        if wire.role != "protective" and ends:
            wires[wire.number] = max((given[end] for end in ends), key=lambda one: one[1])  # where two ways meet, the larger
        elif wire.role != "protective":  # the way back of a socket: what its other pole has
            far = wire.b if wire.a.device == source.code else wire.a
            own = [given[end] for end in circuit.terminals if end.device == far.device and end in given]
            if own:
                wires[wire.number] = max(own, key=lambda one: one[1])
    cables: dict[str, tuple[str, float]] = {}
    for wire in circuit.wires:  # conductors of one cable are protected together
        if wire.cable and wire.number in wires:
            cables[wire.cable] = max(
                cables.get(wire.cable, wires[wire.number]), wires[wire.number], key=lambda one: one[1]
            )
    return {
        wire.number: cables.get(wire.cable, wires[wire.number])
        for wire in circuit.wires
        if wire.number in wires
    }


def _through(
    device: Device, positions: Positions, guard: tuple[str, float]
) -> Iterator[tuple[str, str, tuple[str, float]]]:
    blows = (
        min((device.code, device.trips_at), guard, key=lambda one: one[1])
        if device.trips_at is not None
        else guard
    )
    fuses = {(inside.a, inside.b) for inside in device.inside if isinstance(inside, Fuse)}
    for a, b in (*joins(device, positions), *bridges(device, positions)):
        limited = device.limits.get(b)
        if limited is not None:
            yield a, b, (device.code, limited)
        else:
            yield a, b, blows if (a, b) in fuses else guard


def _conductor_protection(circuit: Circuit, starts: tuple[Terminal, ...]) -> Iterator[Breach]:
    del starts
    guards = protected_by(circuit)
    for wire in circuit.wires:
        if wire.role != "protective" and wire.number in guards:
            name, rating = guards[wire.number]
            if name == NOTHING[0]:
                if wire.length > circuit.unguarded:
                    words = f"wire {wire.number} lies {wire.length:.2g} m before the first fuse; {circuit.unguarded:.2g} m is the most"
                    yield breach("conductor protection", (wire.a, wire.b), {}, words)
            elif wire.ampacity < rating:
                flows = "an unknown current" if rating == inf else f"{rating:.3g} A"
                words = f"wire {wire.number} carries {wire.ampacity:.3g} A, its protection {name} lets {flows} flow"
                yield breach("conductor protection", (wire.a, wire.b), {}, words)


def _breaking_capacity(circuit: Circuit) -> Iterator[Breach]:
    for device in of_kind(circuit, *FUSES):
        if device.interrupts is None or device.interrupts < circuit.fault_current:
            had = "an unknown current" if device.interrupts is None else f"{device.interrupts:.4g} A"
            words = f"{device.code} breaks {had}, the fault current may be {circuit.fault_current:.4g} A"
            yield breach("breaking capacity", (Terminal(device.code, device.terminals[0]),), {}, words)


def _terminals(circuit: Circuit) -> Iterator[Breach]:
    for terminal in circuit.terminals:
        device = circuit.devices[terminal.device]
        count, most = len(circuit.at(terminal)), device.takes.get(terminal.name, 2)
        if count > most:
            yield breach("terminals", (terminal,), {}, f"{terminal} holds {count} wires and takes {most}")
        if count == 0 and most > 0:
            yield breach("terminals", (terminal,), {}, f"{terminal} is left open")


def _restart(circuit: Circuit, starts: tuple[Terminal, ...]) -> Iterator[Breach]:
    """When power returns after a cut (coils out, springs back) no motor circuit is live, nor becomes so because a coil
    that is fed pulls in."""
    for positions in all_positions(circuit):
        at_rest = all(
            positions[device.code] == device.positions[0]
            for device in circuit.devices.values()
            if device.positions and (device.coil or device.spring)
        )
        if not at_rest:
            continue
        positions = pulled_in(circuit, positions)
        for start in starts:
            found = reached(circuit, positions, start)
            for device in of_kind(circuit, "motor", "drive"):
                hit = next((t for t in found if t.device == device.code and not drives_nothing(circuit, t)), None)
                if hit:
                    words = f"{hit} is live by itself when power returns"
                    yield breach("restart", path_to(found, hit), positions, words)
                    return
