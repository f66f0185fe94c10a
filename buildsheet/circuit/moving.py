"""What happens while something moves: a changeover on its way, a contact that opens under direct current, a part that
moves by itself and goes back.
"""

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from buildsheet.circuit.breach import Breach, breach, of_kind
from buildsheet.circuit.contraction import (
    all_positions,
    carries,
    contract,
    differ,
    flows,
    powered,
    without_part,
)
from buildsheet.circuit.netlist import (
    Circuit,
    Contact,
    Device,
    Diode,
    Positions,
    Resistance,
    Terminal,
    Winding,
)
from buildsheet.circuit.readings import resistance
from buildsheet.circuit.sequence import Run, driven, hands, later, runs, settle

LOADED = ("drive",)
FAINT = ("bleeder", "timer")  # what passes a resistor that empties a capacitor, or a timer's coil, turns no motor
STOPS = ("stop", "overload", "thermostat", "guard", "pedal", "charger-inlet")  # what opens the chain when it leaves its place
SHORT = 2.0  # ohm; the three heaters of an overload relay come to less


def moving(circuit: Circuit) -> Iterator[Breach]:
    """Breaches of what moves, and of what it comes to rest in."""
    for positions in (*(run.positions for run in runs(circuit)), *_switched_on(circuit)):
        for a, b in shorted_outputs(circuit, positions):
            words = f"less than {SHORT:.0f} Ω lies between {a} and {b}, the motor aside"
            yield breach("short circuit", (a, b), positions, words)
    for positions in [run.positions for run in runs(circuit)] or [circuit.rest]:  # a motor that is bridged may never run
        nodes = contract(circuit, positions)
        for motor in of_kind(circuit, "motor"):
            for part in (part for part in motor.inside if isinstance(part, Winding)):
                a, b = Terminal(motor.code, part.a), Terminal(motor.code, part.b)
                if nodes.same(a, b):
                    words = f"{a} and {b} are joined past the winding between them"
                    yield breach("short circuit", (a, b), positions, words)
    yield from _overlap(circuit)
    yield from _actions(circuit)
    yield from _running(circuit)
    yield from _stopping(circuit)
    yield from _by_itself(circuit)
    yield from _opening(circuit)


def _switched_on(circuit: Circuit) -> Iterator[Positions]:
    """Each place of the reversing switches with the contactors in: one that shorts the supply through a relay's heaters lets
    nothing run, so that no run would show it."""
    for switch in of_kind(circuit, "reversing-switch"):
        on = {d.code: d.positions[-1] for d in of_kind(circuit, "disconnect", "contactor")}
        yield from ({**circuit.rest, **on, switch.code: place} for place in switch.positions)


def joined_outputs(circuit: Circuit, positions: Positions) -> Iterator[tuple[Terminal, Terminal]]:
    """Output terminals of a drive, or of what gives a fixed voltage, that are one node, without a load between."""
    nodes = contract(circuit, positions)
    for device in circuit.devices.values():
        ends = [Terminal(device.code, name) for name in _outputs(device)]
        for index, a in enumerate(ends):
            for b in ends[index + 1 :]:
                if nodes.same(a, b):
                    yield a, b


def _outputs(device: Device) -> tuple[str, ...]:
    """The terminals on which a device gives current out."""
    return device.gives or (tuple(device.limits) if device.kind in LOADED else ())


def shorted_outputs(circuit: Circuit, positions: Positions) -> Iterator[tuple[Terminal, Terminal]]:
    """The poles of the source, or the output terminals of a drive, that only heaters and the like lie between: less than `SHORT`
    ohms, the motor aside."""
    source, poles = circuit.source
    for device in circuit.devices.values():
        ends = [Terminal(device.code, name) for name in (poles.poles if device is source else _outputs(device))]
        for index, a in enumerate(ends):
            for b in ends[index + 1 :]:
                if resistance(circuit, positions, a, b) < SHORT:
                    yield a, b


def _overlap(circuit: Circuit) -> Iterator[Breach]:
    """A switch that is not marked break-before-make joins both places on its way: nothing may be short-circuited then."""
    for device in circuit.devices.values():
        if not device.overlaps:
            continue
        between = _with_between(device)
        wider = replace(circuit, devices={**circuit.devices, device.code: between})
        source, poles = circuit.source
        for positions in all_positions(wider):
            if positions[device.code] in device.positions:
                continue
            nodes = contract(wider, positions)
            ends = [Terminal(source.code, pole) for pole in poles.poles]
            pairs = [(a, b) for i, a in enumerate(ends) for b in ends[i + 1 :] if nodes.same(a, b)]
            for a, b in (*pairs, *shorted_outputs(wider, positions)):
                words = f"{a} and {b} are joined while {device.code} moves: nothing marks it break-before-make"
                yield breach("short circuit", (a, b), positions, words)
                return


def _with_between(device: Device) -> Device:
    """The device with a position more between each two that follow one another, in which the contacts of both are closed."""
    places = list(device.positions)
    names = {f"{a} to {b}": {a, b} for a, b in pairwise(places)}
    inside = tuple(
        replace(part, closed_in=part.closed_in | {name for name, both in names.items() if both & part.closed_in})
        if isinstance(part, Contact)
        else part
        for part in device.inside
    )
    return replace(device, positions=(*places, *names), inside=inside)


def _actions(circuit: Circuit) -> Iterator[Breach]:
    """What must stay where it is put stays, what must spring back springs back (IEC 60204-1, 10.7 and 9.2)."""
    for device in circuit.devices.values():
        ends = (Terminal(device.code, device.terminals[0]),) if device.terminals else ()
        if device.kind in ("emergency-stop", "disconnect") and device.spring:
            yield breach("actions", ends, {}, f"{device.code} springs back: it must stay where it was put")
        if device.kind == "start" and not device.spring:
            yield breach("actions", ends, {}, f"{device.code} stays pressed: it must spring back")
        if device.kind == "emergency-stop":
            for part in device.inside:
                if isinstance(part, Contact) and not part.direct:
                    words = f"{device.code} {part.a}–{part.b} is not pushed open by its button: a weld would keep it closed"
                    yield breach("actions", ends, {}, words)


def _running(circuit: Circuit) -> Iterator[Breach]:
    """Hands can bring the machine to run, and then everything in it that turns is fed."""
    loads = of_kind(circuit, "drive", "motor")
    if not runs(circuit):
        ends = tuple(Terminal(device.code, device.terminals[0]) for device in loads)
        yield breach("running", ends, {}, "no position of the switches makes the machine run")
        return
    for device in of_kind(circuit, "motor", "fan"):
        windings = [part for part in device.inside if isinstance(part, Winding)]
        for part in windings:
            if not any(fed_winding(circuit, run.positions, device.code, part) for run in runs(circuit)):
                end = (Terminal(device.code, part.a), Terminal(device.code, part.b))
                yield breach("running", end, {}, f"no current passes {device.code} {part.a}–{part.b} while the machine runs")


def _stopping(circuit: Circuit) -> Iterator[Breach]:
    """Whatever is there to stop the machine stops it, in every way that it can run. (The emergency stop is asked for more,
    in a proof of its own.)"""
    loads = driven(circuit)
    for run in runs(circuit):
        for device in of_kind(circuit, *STOPS):
            for place in device.positions:
                if place == run.positions[device.code]:
                    continue
                after = settle(circuit, {**run.positions, device.code: place})
                if powered(circuit, after, loads):
                    words = f"the machine runs on with {device.code} {place}"
                    yield breach("stopping", (Terminal(device.code, device.terminals[0]),), after, words)
                    return


def _by_itself(circuit: Circuit) -> Iterator[Breach]:
    """A part that moves by itself, a thermostat that cools: when it has stopped the machine and goes back, nothing starts.
    The same holds for a hand that lets a stop go."""
    stay, spring = hands(circuit)
    movers = [d for d in (*stay, *spring) if d.automatic or d.kind in ("emergency-stop", *STOPS)]
    loads = driven(circuit)
    for run in runs(circuit):
        for device in movers:
            there = run.positions[device.code]
            for place in device.positions:
                gone = settle(circuit, {**run.positions, device.code: place})
                if place == there or powered(circuit, gone, loads):
                    continue
                back = later(circuit, settle(circuit, {**gone, device.code: there}))
                if powered(circuit, back, loads):
                    words = f"the motor starts by itself when {device.code} goes back to {there}"
                    yield breach("restart", (Terminal(device.code, device.terminals[0]),), back, words)
                    return


def _opening(circuit: Circuit) -> Iterator[Breach]:
    """A contact that opens a direct current has a DC figure printed on it that covers it, or an early contact has taken the
    current away before, or a diode across the load carries it on."""
    volts = circuit.direct_volts
    named: set[tuple[str, str]] = set()
    for run in runs(circuit):
        for device in circuit.devices.values():
            for part in device.inside:
                if not isinstance(part, Contact) or part.early or run.positions.get(device.code) not in part.closed_in:
                    continue
                if (device.code, part.a) in named or (part.breaks_dc is not None and part.breaks_dc >= volts):
                    continue
                load = _direct_load(circuit, run, device, part)
                if load is None or _taken_away(circuit, run, device):
                    continue
                named.add((device.code, part.a))
                had = "no DC figure is on it" if part.breaks_dc is None else f"it may open {part.breaks_dc:.3g} V DC"
                words = f"{device.code} {part.a}–{part.b} opens the current of {load}, up to {volts:.3g} V DC: {had}"
                yield breach("opening", (Terminal(device.code, part.a), Terminal(device.code, part.b)), run.positions, words)


def _direct_load(circuit: Circuit, run: Run, device: Device, part: Contact) -> str | None:
    """The first load whose direct current passes a contact and stops when it opens: a winding, or a drive on a battery.
    A winding with a diode across it is none: its current runs on."""
    opened = without_part(circuit, device, part)
    for load in circuit.devices.values():
        if circuit.direct and load.kind in LOADED:
            alone = (load.code,)
            if powered(circuit, run.positions, alone) and not powered(opened, run.positions, alone):
                return load.code
        if not (circuit.direct or (load.kind == "motor" and of_kind(circuit, *LOADED))):
            continue
        for winding in load.inside:
            if not isinstance(winding, Winding) or _carried_on(circuit, run, load.code, winding):
                continue
            flows = _flows_behind(circuit, run.positions, load.code, winding)
            if flows and not _flows_behind(opened, run.positions, load.code, winding):
                return load.code
    return None


def fed_winding(circuit: Circuit, positions: Positions, code: str, winding: Resistance) -> bool:
    """Whether current can flow through a winding: two poles of what feeds it, a drive's output, a supply of its own or the
    source, reach its two ends."""
    if isinstance(winding, Winding) and winding.apart:
        return carries(circuit, positions, code, winding)
    drives = [*of_kind(circuit, *LOADED), *of_kind(circuit, *FAINT)] if circuit.devices[code].kind == "motor" else []
    outputs = [Terminal(d.code, name) for d in drives for name in d.limits]
    if not outputs:
        source, poles = circuit.source
        outputs = [Terminal(source.code, pole) for pole in poles.poles]
    around = frozenset(d.code for d in drives)
    pair = {winding.a, winding.b}
    lifted = without_part(circuit, circuit.devices[code], winding)
    return differ(names & pair for names in flows(lifted, positions, outputs, code, around).values())


def _flows_behind(circuit: Circuit, positions: Positions, code: str, winding: Winding) -> bool:
    """Whether direct current can flow through a winding: what opens the alternating current ahead of a rectifier opens no
    direct one, since the rectifier carries the winding's current on."""
    return carries(circuit, positions, code, winding, behind_only=True) if winding.apart else fed_winding(circuit, positions, code, winding)


def _taken_away(circuit: Circuit, run: Run, device: Device) -> bool:
    """Whether the current is gone before the contact opens: the device's early contacts open first, what hangs on them
    falls out, and nothing feeds the drive any more."""
    early = [part for part in device.inside if isinstance(part, Contact) and part.early]
    if not early:
        return False
    inside = tuple(part for part in device.inside if part not in early)
    opened = replace(circuit, devices={**circuit.devices, device.code: replace(device, inside=inside)})
    return powered(opened, settle(opened, run.positions), driven(opened)) is None


def _carried_on(circuit: Circuit, run: Run, code: str, winding: Winding) -> bool:
    """Whether a diode lies across the winding, so that its current runs on when its contact opens."""
    nodes = contract(circuit, run.positions)
    ends = {nodes.of(Terminal(code, winding.a)), nodes.of(Terminal(code, winding.b))}
    return any(
        {nodes.of(Terminal(d.code, part.a)), nodes.of(Terminal(d.code, part.b))} == ends
        for d in circuit.devices.values()
        for part in d.inside
        if isinstance(part, Diode)
    )

