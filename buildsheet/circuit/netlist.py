"""The netlist: devices with named terminals, what is inside them, and the wires between terminals."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any, Literal, NamedTuple

Positions = Mapping[str, str]


class Terminal(NamedTuple):
    """A terminal by its device's code and its own name as printed on the part: `Q1:2`. A tuple, since the proofs hash
    and compare terminals some hundred thousand times."""

    device: str
    name: str

    def __str__(self) -> str:
        return f"{self.device}:{self.name}"


@dataclass(frozen=True, slots=True)
class Link:
    """Two terminals that are always joined inside the device."""

    a: str
    b: str


@dataclass(frozen=True, slots=True)
class Contact:
    """A contact: joined in the named positions of its device, open in the others.

    `early`: it opens before the other contacts of its device, and closes after them. `direct`: what moves it pushes it
    open, so that welding can't keep it closed (IEC 60947-5-1, annex K). `breaks_dc`: the most volts DC at which it may
    open its current; None where no figure is printed on it.
    """

    a: str
    b: str
    closed_in: frozenset[str]
    early: bool = False
    direct: bool = False
    breaks_dc: float | None = None


@dataclass(frozen=True, slots=True)
class Fuse:
    """A fuse or breaker path: joined until it blows."""

    a: str
    b: str


@dataclass(frozen=True, slots=True)
class Resistance:
    """A resistor, heater, coil or winding with the least and greatest ohms that a good one reads.

    `position` limits it to one position of its device, such as the wiper at slow.
    """

    a: str
    b: str
    low: float
    high: float
    position: str = ""


@dataclass(frozen=True, slots=True)
class Winding(Resistance):
    """A winding, which stores a magnetic field: `part` is the armature or field of a motor, the coil of a relay. One that lies
    `apart` has a supply of its own beside the one that drives the motor."""

    part: str = "armature"
    apart: bool = False


@dataclass(frozen=True, slots=True)
class Capacitor:
    """A capacitor of `farads`, charged to `volts` at the most while the machine runs. `passes`: it lies in a lead of
    alternating current, which it passes."""

    a: str
    b: str
    farads: float
    volts: float
    passes: bool = False


@dataclass(frozen=True, slots=True)
class Barrier:
    """Insulation between two circuits that power passes through (a transformer, a coupler). Only one that is `marked` as
    safe separation keeps the one from being live with the other."""

    a: str
    b: str
    marked: bool = False


@dataclass(frozen=True, slots=True)
class Diode:
    """Current passes from a to b only."""

    a: str
    b: str


@dataclass(frozen=True, slots=True)
class Electronics:
    """Terminals that current passes between through semiconductors; a pocket meter's reading is not predictable. What it
    does: it `controls` the phase of an alternating voltage, `chops` a steady one, `inverts` one into turning
    fields, or `rectifies` only; what only `signals` passes no power on. A power device of the first two that fails shorted
    lets all of the supply through; one of a rectifier or an inverter is a short circuit."""

    terminals: tuple[str, ...]
    does: Literal["controls", "chops", "inverts", "rectifies", "signals"] = "controls"

    @property
    def unleashes(self) -> bool:
        """Whether a power device that has failed shorted leaves the motor at full speed."""
        return self.does in ("controls", "chops")

    @property
    def converts(self) -> bool:
        """Whether it has a power device, which may fail."""
        return self.does != "signals"


@dataclass(frozen=True, slots=True)
class Source:
    """A source: `live` are the poles from which current is followed (those that can be live against earth, or the plus
    of a battery), `earth` its protective conductor, empty when it has none. `direct`: current flows one way only."""

    poles: tuple[str, ...]
    live: tuple[str, ...]
    earth: str
    direct: bool = False


Inside = Link | Contact | Fuse | Resistance | Capacitor | Barrier | Diode | Electronics | Source


@dataclass(frozen=True)
class Device:
    """A device. `positions` begin with the one at rest; `spring` ones return by themselves; `coil` names the terminals
    of a coil that holds the second position; one that `lingers` keeps it for a time after its coil has gone dead.
    `overlaps`: on its way from one position to the next it may join both, which only a switch marked break-before-make
    never does. `automatic`: it moves without a hand and without a coil (a thermostat).
    `metal` is its exposed metal part's terminal; `takes` how many wires a terminal holds when not one or two; `limits`
    the most current (A, RMS) that its electronics let out of a terminal, infinite when nobody knows: a converter gives
    out more current than it takes in. `low` are the terminals that are said to be extra-low voltage and may be touched;
    `control` where its speed knob goes, low end, wiper and high end, or the two leads of what else sets its speed; `unleashed_by` those of them that let it go to full
    speed when their wire breaks. `makes_volts`: the most that
    it makes by itself while it turns (a motor). `runs_by`: two terminals that must be joined for it to give anything.
    `in_a_row`: its coil does not lie across the poles but in a row with a load, and pulls in by the load's current. `gives`:
    two terminals on which it gives a fixed direct voltage as long as it is fed itself.
    """

    code: str
    kind: str
    name: str
    rating: str
    terminals: tuple[str, ...]
    inside: tuple[Inside, ...] = ()
    positions: tuple[str, ...] = ()
    spring: bool = False
    coil: tuple[str, str] | None = None
    lingers: bool = False
    overlaps: bool = False
    automatic: bool = False
    metal: str = ""
    trips_at: float | None = None
    interrupts: float | None = None
    takes: Mapping[str, int] = field(default_factory=dict)
    limits: Mapping[str, float] = field(default_factory=dict)
    low: frozenset[str] = frozenset()
    unleashed_by: frozenset[str] = frozenset()
    control: tuple[str, ...] = ()
    makes_volts: float = 0.0
    runs_by: tuple[str, str] | None = None
    in_a_row: bool = False
    gives: tuple[str, str] | None = None
    place: str = ""
    column: int = 0
    touched: bool = False


@dataclass(frozen=True, slots=True)
class Wire:
    """A conductor between two terminals. Ampacity in A, length in m, area in m² (0 when nobody asks); `stage` is the
    hundred of its number, `run` where it lies, `cable` the cable that it is a core of."""

    number: int
    a: Terminal
    b: Terminal
    role: str
    size: str
    colour: str
    length: float
    ampacity: float
    cable: str = ""
    run: str = ""
    area: float = 0.0

    @property
    def stage(self) -> int:
        return self.number // 100

    @property
    def key(self) -> tuple[Terminal, Terminal]:
        return (self.a, self.b) if self.a <= self.b else (self.b, self.a)


@dataclass(frozen=True, eq=False)
class Circuit:
    """All devices and wires of one machine, with the fault current (A) at its source and the rating of the wall breaker
    (A), None for a source that nothing guards, such as a battery: then only wires up to `unguarded` (m) may lie between
    it and the first fuse. `protective_least` is the least area (m²) of its protective conductors,
    `direct_volts` the most that its direct current reaches.

    Raises ValueError for a wire to a terminal that is not there, or a number or pair of ends used twice.
    """

    devices: Mapping[str, Device]
    wires: tuple[Wire, ...]
    fault_current: float
    wall_breaker: float | None
    unguarded: float = 0.0
    protective_least: float = 0.0
    direct_volts: float = 0.0

    def __post_init__(self) -> None:
        numbers: set[int] = set()
        keys: set[tuple[Terminal, Terminal]] = set()
        for wire in self.wires:
            for end in (wire.a, wire.b):
                device = self.devices.get(end.device)
                if device is None or end.name not in device.terminals:
                    raise ValueError(f"wire {wire.number} goes to {end}, which is not there")
            if wire.number in numbers:
                raise ValueError(f"wire number {wire.number} is used twice")
            if wire.key in keys:
                raise ValueError(f"wire {wire.number} joins {wire.a} and {wire.b}, as another does")
            if wire.a == wire.b:
                raise ValueError(f"wire {wire.number} begins and ends at {wire.a}")
            numbers.add(wire.number)
            keys.add(wire.key)

    @cached_property
    def terminals(self) -> tuple[Terminal, ...]:
        """Every terminal of every device, in order."""
        return tuple(
            Terminal(device.code, name) for device in self.devices.values() for name in device.terminals
        )

    @cached_property
    def source(self) -> tuple[Device, Source]:
        """The device that feeds the machine, and its source. Raises LookupError when there is none."""
        for device in self.devices.values():
            for inside in device.inside:
                if isinstance(inside, Source):
                    return device, inside
        raise LookupError("no source")

    @cached_property
    def direct(self) -> bool:
        """Whether current flows one way only: its source is a battery."""
        return any(
            isinstance(inside, Source) and inside.direct for d in self.devices.values() for inside in d.inside
        )

    @cached_property
    def _wires_at(self) -> dict[Terminal, tuple[Wire, ...]]:
        found: dict[Terminal, list[Wire]] = {}
        for wire in self.wires:
            found.setdefault(wire.a, []).append(wire)
            found.setdefault(wire.b, []).append(wire)
        return {terminal: tuple(wires) for terminal, wires in found.items()}

    def at(self, terminal: Terminal) -> tuple[Wire, ...]:
        """The wires on a terminal."""
        return self._wires_at.get(terminal, ())

    @cached_property
    def kept(self) -> dict[object, Any]:
        """What contraction works out once for this circuit."""
        return {}

    @cached_property
    def rest(self) -> dict[str, str]:
        """Every switch in its position at rest."""
        return {device.code: device.positions[0] for device in self.devices.values() if device.positions}


def numbers(numbers: list[int]) -> str:
    """Wire numbers in words: runs with a dash, the rest with commas."""
    runs: list[list[int]] = []
    for number in sorted(numbers):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(f"{run[0]}–{run[-1]}" if len(run) > 2 else ", ".join(str(n) for n in run) for run in runs)
