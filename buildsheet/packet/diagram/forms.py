"""What a device looks like before it has a place: its seats, and the sides their terminals may sit on.

A seat is one thing inside the device with the terminals it joins (a contact, a coil, a fuse), or one
terminal by itself. Everything is read from what the circuit says is inside.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise

from buildsheet.circuit import (
    Capacitor,
    Contact,
    Device,
    Diode,
    Electronics,
    Fuse,
    Link,
    Resistance,
    Source,
    Winding,
)

L, R = "L", "R"
TURNED = "turned"  # third in a mode: the later terminal stands above the earlier one
PAIR_MODES = ((L, R), (R, L), (L, L), (R, R), (L, L, TURNED), (R, R, TURNED))
ACTUATED = {  # how a kind of switch is worked; any other kind is a plain blade
    "contactor": "contact", "relay": "contact", "bridging-relay": "contact", "run-up-timer": "contact", "field-relay": "contact", "timer": "contact", "emergency-stop": "mushroom", "stop": "button",
    "start": "button", "zero-switch": "knife", "button": "button", "foot-switch": "button", "overload": "trip", "thermal": "trip", "thermostat": "trip", "pedal": "button",
}  # fmt: skip
RESISTANCES = {"overload": "heater", "motor": "armature", "fan": "fan", "lamp": "lamp", "indicator": "lamp", "meter": "meter",
               "choke": "winding", "transformer": "winding", "autotransformer": "winding"}  # fmt: skip
METAL = frozenset({"enclosure", "door", "frame", "guard", "metal"})
BAR = "earth-bar"
DIALS = frozenset({"potentiometer", "autotransformer"})  # a wiper or a brush between two ends
DOES = {"controls": "drive", "chops": "chopper", "inverts": "inverter", "rectifies": "bridge", "signals": "electronics"}  # its symbol


@dataclass(frozen=True, slots=True)
class Seat:
    """Terminals that sit together, the symbol between them, and the sides they may take, one per terminal."""

    terminals: tuple[str, ...]
    symbol: str
    modes: tuple[tuple[str, ...], ...]
    joins: tuple[tuple[str, str, bool], ...] = ()  # inside pairs, with whether they are joined at rest
    chain: tuple[str, ...] = ()  # symbols one after the other, each between a terminal and the next

    @property
    def paired(self) -> bool:
        return len(self.terminals) == 2 and bool(self.symbol)


@dataclass(frozen=True, slots=True)
class Form:
    """A device's seats in their printed order. `centre` is the symbol of the whole device, if it has one."""

    code: str
    kind: str
    seats: tuple[Seat, ...]
    centre: str
    linked: bool  # several contacts worked by one mechanism
    metal: bool


def _wound(part: Resistance, kind: str) -> str:
    """The symbol of a resistance: a winding that is not what turns is a coil, whatever it lies in."""
    if isinstance(part, Winding) and part.part in ("field", "start"):
        return "winding"
    return RESISTANCES.get(kind, "resistor")


def form(device: Device) -> Form:
    """The form of a device."""
    if device.kind in METAL and len(device.terminals) == 1:
        return Form(
            device.code, device.kind, (Seat(device.terminals, "", ((L,), (R,))),), "metal", False, True
        )
    centre, seats, seated = "", [], set[str]()
    pairs = _pairs(device)
    if device.kind == "motor" and all(isinstance(inside, Winding) and inside.part == "phase" for inside in device.inside) and pairs:
        centre, pairs = "motor-3", {}
    for component in _components(pairs):
        seats.append(_seat(device, component, pairs))
        seated |= set(component)
    for inside in device.inside:
        if isinstance(inside, Source):
            centre = "battery" if inside.direct else "plug"
            seated_here = (*inside.poles, *((inside.earth,) if inside.earth else ()))
            seats += [Seat((name,), "", ((R,), (L,))) for name in seated_here if name not in seated]
            seated |= set(seated_here)
        elif isinstance(inside, Electronics):
            free = tuple(name for name in inside.terminals if name not in seated)
            if len(free) == 2:
                seats.append(Seat(free, "meter" if device.kind == "meter" else "block", PAIR_MODES))
            else:
                centre = DOES[inside.does]
                seats += [Seat((name,), "", ((L,), (R,))) for name in free]
            seated |= set(free)
    seats += [Seat((name,), "", ((L,), (R,))) for name in device.terminals if name not in seated]
    order = {name: i for i, name in enumerate(device.terminals)}
    seats.sort(key=lambda seat: min(order[name] for name in seat.terminals))
    contacts = [seat for seat in seats if seat.joins and any(isinstance(i, Contact) for i in device.inside)]
    linked = len(contacts) > 1 and device.kind != "overload"
    return Form(device.code, device.kind, tuple(seats), centre, linked, False)


Pairs = Mapping[tuple[str, str], tuple[str, bool]]


def _pairs(device: Device) -> Pairs:
    """Each pair of terminals joined by something simple: what it is, and whether it is joined at rest."""
    rest = device.positions[0] if device.positions else ""
    found: dict[tuple[str, str], tuple[str, bool]] = {}
    for inside in device.inside:
        if isinstance(inside, Contact):
            found[inside.a, inside.b] = (ACTUATED.get(device.kind, "knife"), rest in inside.closed_in)
        elif isinstance(inside, Fuse):
            found[inside.a, inside.b] = ("fuse", True)
        elif isinstance(inside, Link):
            found[inside.a, inside.b] = ("link", True)
        elif isinstance(inside, Diode):
            found[inside.a, inside.b] = ("diode", True)
        elif isinstance(inside, Capacitor):
            found[inside.a, inside.b] = ("capacitor", True)
        elif isinstance(inside, Resistance) and not inside.position:
            found.setdefault((inside.a, inside.b), (_resistance(device, inside), True))
    if device.kind in DIALS:
        for inside in device.inside:
            if isinstance(inside, Resistance) and inside.position:
                found.setdefault((inside.a, inside.b), ("wiper", True))
    return found


def _resistance(device: Device, inside: Resistance) -> str:
    coil = device.coil is not None and {inside.a, inside.b} == set(device.coil)
    if coil or (device.kind in {"contactor", "relay"} and inside.a.startswith("A")):
        return "timer-coil" if device.kind.endswith("timer") else "coil"
    return _wound(inside, device.kind)


def _components(pairs: Pairs) -> list[tuple[str, ...]]:
    groups: list[list[str]] = []
    for a, b in pairs:
        touching = [group for group in groups if a in group or b in group]
        merged = [name for group in touching for name in group]
        merged += [name for name in (a, b) if name not in merged]
        groups = [group for group in groups if group not in touching] + [merged]
    return [tuple(group) for group in groups]


def _seat(device: Device, names: tuple[str, ...], pairs: Pairs) -> Seat:
    mine = {pair: what for pair, what in pairs.items() if pair[0] in names}
    joins = tuple((a, b, closed) for (a, b), (_, closed) in mine.items())
    if len(names) == 2:
        symbol, closed = next(iter(mine.values()))
        a, b = next(iter(mine))
        return Seat((a, b), _at_rest(symbol, closed=closed), PAIR_MODES, joins)
    order = {name: i for i, name in enumerate(device.terminals)}
    names = tuple(sorted(names, key=order.__getitem__))
    kinds = {symbol for symbol, _ in mine.values()}
    if kinds <= {"wiper", "resistor"} and len(names) == 3:
        ends = next(
            (pair for pair, (symbol, _) in mine.items() if symbol == "resistor"), (names[0], names[2])
        )
        wiper = next(name for name in names if name not in ends)
        return Seat((ends[0], wiper, ends[1]), "potentiometer", ((L,) * 3, (R,) * 3), joins)
    halves = _halves(names, mine)
    if halves is not None and kinds <= set(ACTUATED.values()) | {"knife"}:
        modes = tuple(
            tuple(side if name in halves else other for name in names) for side, other in ((L, R), (R, L))
        )
        return Seat(names, "contacts", modes, joins)
    if kinds == {"link"}:
        return Seat(names, "links", ((L,) * len(names), (R,) * len(names)), joins)
    between = [mine.get((a, b)) or mine.get((b, a)) for a, b in pairwise(names)]
    if len(mine) == len(between) and all(between):  # each thing lies between a terminal and the next
        chain = tuple(_at_rest(symbol, closed=closed) for symbol, closed in filter(None, between))
        return Seat(names, "chain", ((L,) * len(names), (R,) * len(names)), joins, chain)
    return Seat(names, "network", ((L,) * len(names), (R,) * len(names)), joins)


def _at_rest(symbol: str, *, closed: bool) -> str:
    """The symbol of a contact as it is drawn, at rest; any other as it is."""
    return f"{symbol}-{'closed' if closed else 'open'}" if symbol in {"knife", "contact", "button", "mushroom", "trip"} else symbol


def _halves(names: tuple[str, ...], pairs: Mapping[tuple[str, str], object]) -> frozenset[str] | None:
    """The terminals of one half if every contact leads from one half to the other, else None."""
    side = {names[0]: True}
    for _ in names:
        for a, b in pairs:
            if a in side:
                side.setdefault(b, not side[a])
            elif b in side:
                side[a] = not side[b]
    if any(side[a] == side[b] for a, b in pairs):
        return None
    return frozenset(name for name in names if side[name])
