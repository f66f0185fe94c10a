"""The design: what a project comes to, as far as what is known goes."""

from dataclasses import dataclass, field
from typing import Literal

from buildsheet.design.alone import Alone
from buildsheet.design.field import FieldSupply
from buildsheet.given.rotor import HomeMade
from buildsheet.motors.motor import Machine
from buildsheet.project import Project
from buildsheet.reference import Region
from buildsheet.sizing.places import Place, Seat
from buildsheet.sizing.supply import Supplied
from buildsheet.sizing.waist import Applied, Point
from buildsheet.ways.way import Outfit
from buildsheet.worksheet import Value, Worksheet


@dataclass(frozen=True, slots=True)
class Spin:
    """A home-made part: its factor of safety, the least that the table of its material asks for, the speed at which it is to
    be spun once, and the stress of the test that was made over that at its fastest, None before it is."""

    given: HomeMade
    factor: Value
    least: Value
    speed: Value
    proof: Value | None


@dataclass(frozen=True, slots=True)
class Turning:
    """A turning part at two speeds: what it stands, at set maximum and at runaway, all in the unit of its rating. `spin` is
    that of a home-made one."""

    name: str
    basis: str
    rated: Value
    at_maximum: Value
    at_runaway: Value
    spin: Spin | None = None


@dataclass(frozen=True, slots=True)
class Law:
    """How the torque of a load goes with its speed: its name, what torque and power do in words, whether the slowest speed
    is the hardest, and why it is this one."""

    name: str
    torque: str
    power: str
    hardest_when_slow: bool
    because: str

    @property
    def constant(self) -> bool:
        """Whether one torque holds at all speeds."""
        return self.name == "constant torque"


@dataclass(frozen=True, slots=True)
class Load:
    """From the tool back to the motor: speeds, ratio, torques at the lowest and the highest speed by its law, and belts; the
    pulls are those of the hardest speed."""

    law: Law

    ratio: Value
    tool_low: Value
    tool_high: Value
    motor_low: Value
    motor_high: Value
    tool_torque_low: Value
    tool_torque_high: Value
    motor_torque_low: Value
    motor_torque_high: Value
    belt_speeds: tuple[Value, ...]
    belt_lengths: tuple[Value, ...]
    wraps: tuple[Value, ...]
    pulls: tuple[Value, ...]


@dataclass(frozen=True, slots=True)
class WireSize:
    """Conductors of one role: gauge, ampacity where it lies, its protection and its length to cut."""

    role: str
    gauge: str
    table_ampacity: Value
    ampacity: Value
    area: Value
    resistance: Value
    protection: Value
    needed: Value


@dataclass(frozen=True, slots=True)
class Precharge:
    """How the capacitor of a drive on a battery is filled before its contactor closes."""

    capacitor: Value
    resistor: Value
    power: Value
    diode_current: Value
    diode_voltage: Value
    need: Value
    time: Value
    current: Value
    energy: Value


@dataclass(frozen=True, slots=True)
class Bleeder:
    """A motor's capacitor by its marks, the most that it can hold, and the resistor that empties it."""

    capacitor: Value
    volts: Value
    crest: Value
    resistor: Value
    power: Value


@dataclass(frozen=True, slots=True)
class Braking:
    """A braking resistor: its ohms and watts, the current at the start of braking, the time to standstill, and the torque at
    the motor at its start."""

    resistor: Value
    rating: Value
    current: Value
    time: Value
    torque: Value


@dataclass(frozen=True, slots=True)
class SoftStart:
    """A start resistor: its ohms and watts, the time until it is bridged and the range of the timer for that; the current that the
    start is kept to, that of its first moment, and that when the resistor is bridged with the hardest work on; the heat in
    a resistor that is never bridged; what line fuse and motor fuse must carry."""

    resistor: Value
    rating: Value
    waits: Value
    time: Value
    most: Value
    first: Value
    second: Value
    stuck: Value
    fuses: tuple[Value, Value]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sizes:
    """Everything that is sized between supply and motor. What only one kind of supply needs is None on the other."""

    line_current: Value
    continuous_limit: Value | None
    fault_current: Value
    fault_at_fuse: Value
    line_fuse_breaks: Value
    line_fuse_need: Value
    line_fuse: Value
    motor_fuse_need: Value | None
    motor_fuse: Value | None
    motor_fuse_volts: Value
    limit_rms: Value
    overload_need: Value
    overload_top: Value
    overload_range: Value
    overload_dial: Value
    disconnect_need: Value
    disconnect: Value
    contactor: Value
    cord: WireSize | None
    wires: tuple[WireSize, ...]
    protective: Value | None
    drop: Value
    drop_share: Value
    drop_limit: Value
    outfit: Outfit
    charger_fuse: Value | None
    precharge: Precharge | None
    bleeder: Bleeder | None = None
    wait: Value | None = None
    braking: Braking | None = None
    field: FieldSupply | None = None
    field_fuse: Value | None = None
    soft_start: SoftStart | None = None

    def wire(self, role: str) -> WireSize:
        """The size of the conductors of a role."""
        return next(size for size in self.wires if size.role == role)


@dataclass(frozen=True, slots=True)
class Stored:
    """What a battery lasts for: its average current, the time to its cut-off, the time to plan with, and its voltage
    under the hardest load."""

    mean: Value
    runtime: Value
    planned: Value
    loaded: Value


@dataclass(frozen=True, slots=True)
class Heat:
    """Heat in the box and what the motor stands. What only one kind of way has is None on the others."""

    drive_loss: Value | None
    box_heat: Value
    rise: Value
    inside: Value
    limit: Value
    air_flow: Value
    drive_current: Value | None
    allowed_current: Value
    duty_current: Value
    winding_loss: Value
    lowest_speed: Value
    slow: "Slow | None" = None


@dataclass(frozen=True, slots=True)
class Slow:
    """Heat of the motor at its lowest speed, of a load that is not the same at all speeds: RMS current over run and rest, and
    what its own fan, turning so slowly, lets it stand."""

    current: Value
    stands: Value


@dataclass(frozen=True, slots=True)
class Design:
    """A whole design. Parts of it are None when the file says nothing to begin with; values inside may be unknown."""

    project: Project
    region: Region
    sheet: Worksheet
    motor: Machine | None = None
    load: Load | None = None
    alone: Alone | None = None
    asked: tuple[Value, ...] = ()
    supplied: Supplied | None = None
    applied: Applied | None = None
    points: tuple[Point, ...] = ()
    sizes: Sizes | None = None
    heat: Heat | None = None
    runaway: Value | None = None
    coast: Value | None = None
    stored: Stored | None = None
    turning: tuple[Turning, ...] = ()
    places: tuple[Place, ...] = ()
    seats: tuple[Seat, ...] = field(default=())

    def point(self, tag: str) -> Point | None:
        """The operating point with this tag."""
        return next((point for point in self.points if point.tag == tag), None)

    def hardest(self, figure: Literal["current", "rms", "drawn", "emf"]) -> Value | None:
        """The greatest of a figure over the operating points, those where it is not known left out; None without any."""
        figures: list[Value | None] = [getattr(point, figure) for point in self.points]
        return max((one for one in figures if one is not None and one.known), key=float, default=None)
