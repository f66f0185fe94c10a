"""What is still there when the supply is away: charge in capacitors, and the voltage that a turning motor makes."""

from collections.abc import Iterator
from math import inf, log

from buildsheet.circuit.breach import Breach, breach, drives_nothing, of_kind
from buildsheet.circuit.contraction import all_positions, reached
from buildsheet.circuit.netlist import Capacitor, Circuit, Contact, Fuse, Link, Resistance, Terminal, Winding
from buildsheet.circuit.readings import resistance
from buildsheet.circuit.sequence import settle

SAFE_VOLTS = 60.0  # IEC 60204-1, 6.2.4
WITHIN = 5.0  # s, there, after the supply is cut off
AT_PINS = 1.0  # s, there, for pins that can be touched once a plug is out
TOLERANCE = 1.2  # an electrolytic capacitor may hold a fifth more than its mark


def stored(circuit: Circuit) -> Iterator[Breach]:
    """Each capacitor is below 60 V in its time in every state without supply; nothing that can be touched is on a motor
    that still turns."""
    yield from _capacitors(circuit)
    yield from _turning(circuit)


def without_supply(circuit: Circuit) -> tuple[dict[str, str], ...]:
    """Every state with the supply away: what hands hold stays as it is, coils fall out."""
    if "dead" not in circuit.kept:
        states = {tuple(sorted(settle(circuit, one, off=True).items())) for one in all_positions(circuit)}
        circuit.kept["dead"] = tuple(dict(one) for one in sorted(states))
    found: tuple[dict[str, str], ...] = circuit.kept["dead"]
    return found


def discharge_time(circuit: Circuit, positions: dict[str, str], code: str, part: Capacitor) -> float:
    """Seconds until a capacitor is below 60 V with its tolerance at the worst; infinite without a path for its charge.

    With several capacitors the sum of the time constants that each has with the others left out is an upper bound of the
    slowest of the network (open-circuit time constants add up to the sum of the reciprocal poles).

    `positions` are those of a state without supply. States in which all contacts within reach stand alike share one answer.
    """
    if part.volts <= SAFE_VOLTS:
        return 0.0
    key = ("discharge", code, part, *(positions[one] for one in _within_reach(circuit)))
    if key not in circuit.kept:
        circuit.kept[key] = _discharge_time(circuit, positions, code, part)
    found: float = circuit.kept[key]
    return found


def _within_reach(circuit: Circuit) -> tuple[str, ...]:
    """The devices whose contacts can lie at what a capacitor's charge reaches without supply, past no winding; a contactor,
    which is then out, ends it."""
    if "reach" not in circuit.kept:
        stands: dict[str, set[str]] = {}
        for state in without_supply(circuit):
            for one, place in state.items():
                stands.setdefault(one, set()).add(place)
        reach = [Terminal(d.code, name) for d in circuit.devices.values() for p in d.inside if isinstance(p, Capacitor) for name in (p.a, p.b)]
        seen, matter = set(reach), set[str]()
        for here in reach:
            beside = [wire.b if wire.a == here else wire.a for wire in circuit.at(here)]
            for part in circuit.devices[here.device].inside:
                if not isinstance(part, Contact | Link | Fuse | Resistance) or isinstance(part, Winding) or here.name not in (part.a, part.b):
                    continue
                if isinstance(part, Contact) and not part.closed_in & stands.get(here.device, set()):
                    continue
                if isinstance(part, Contact) or (isinstance(part, Resistance) and part.position):
                    matter.add(here.device)
                beside.append(Terminal(here.device, part.b if here.name == part.a else part.a))
            reach += [end for end in dict.fromkeys(beside) if end not in seen]
            seen.update(beside)
        circuit.kept["reach"] = tuple(sorted(matter))
    found: tuple[str, ...] = circuit.kept["reach"]
    return found


def _discharge_time(circuit: Circuit, positions: dict[str, str], code: str, part: Capacitor) -> float:
    own = resistance(circuit, positions, Terminal(code, part.a), Terminal(code, part.b))
    if own == inf:
        return inf
    constants = 0.0
    for device in circuit.devices.values():
        for other in device.inside:
            if isinstance(other, Capacitor):
                ohms = resistance(circuit, positions, Terminal(device.code, other.a), Terminal(device.code, other.b))
                if ohms < inf:
                    constants += ohms * other.farads * TOLERANCE
    return constants * log(part.volts / SAFE_VOLTS)


def _capacitors(circuit: Circuit) -> Iterator[Breach]:
    source, poles = circuit.source
    pins = [Terminal(source.code, pole) for pole in poles.poles] if circuit.wall_breaker is not None else []
    for device in circuit.devices.values():
        for part in device.inside:
            if not isinstance(part, Capacitor) or part.volts <= SAFE_VOLTS:
                continue
            ends = (Terminal(device.code, part.a), Terminal(device.code, part.b))
            for positions in without_supply(circuit):
                time = discharge_time(circuit, positions, device.code, part)
                bare = any(pin in reached(circuit, positions, end) for end in ends for pin in pins)
                limit = AT_PINS if bare else WITHIN
                if time > limit:
                    lasts = "no path takes its charge away" if time == inf else f"it takes {time:.3g} s"
                    at = "the plug's pins" if bare else "its terminals"
                    words = f"{device.code} holds {part.volts:.3g} V at {at} with the supply away: {lasts}, {limit:.0f} s is the most"
                    yield breach("stored energy", ends, positions, words)
                    break


def _turning(circuit: Circuit) -> Iterator[Breach]:
    source, poles = circuit.source
    pins = [Terminal(source.code, pole) for pole in poles.poles] if circuit.wall_breaker is not None else []
    for motor in of_kind(circuit, "motor"):
        if motor.makes_volts <= SAFE_VOLTS:
            continue
        for positions in without_supply(circuit):
            live = live_while_turning(circuit, positions, motor.code)
            for pin in pins:
                if pin in live:
                    words = f"{motor.code}, while it still turns, makes up to {motor.makes_volts:.3g} V at {pin}"
                    yield breach("stored energy", (Terminal(motor.code, motor.terminals[0]), pin), positions, words)
                    return
            low = next((t for t in live if t.name in circuit.devices[t.device].low), None)
            if low is not None:
                words = f"{motor.code}, while it still turns, makes up to {motor.makes_volts:.3g} V at {low}, which may be touched"
                yield breach("stored energy", (Terminal(motor.code, motor.terminals[0]), low), positions, words)
                return


def live_while_turning(circuit: Circuit, positions: dict[str, str], code: str) -> set[Terminal]:
    """What the motor's own voltage reaches, its metal part aside, and a field that lies apart, which makes none: its current runs
    on through its own bridge until it has faded."""
    motor = circuit.devices[code]
    starts = [end for end in (Terminal(code, name) for name in motor.terminals) if not drives_nothing(circuit, end)]
    return {there for start in starts for there in reached(circuit, positions, start, barred=True)}

