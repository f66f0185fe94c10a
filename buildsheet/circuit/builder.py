"""Building a circuit stage by stage: devices go in once, wires are keyed by their ends and keep fixed numbers."""

from dataclasses import dataclass, field

from buildsheet.circuit.netlist import Circuit, Device, Terminal, Wire


@dataclass(frozen=True, slots=True)
class Conductor:
    """What all wires of one role share: size, ampacity (A) where they lie, colour codes with the preferred first, the
    role they play in the circuit when it is not the name under which stages ask for them, and their area (m²)."""

    size: str
    ampacity: float
    colours: tuple[str, ...]
    role: str = ""
    area: float = 0.0


Feed = tuple[Terminal, Terminal]


@dataclass
class Board:
    """A circuit that is being built. Stages add devices and wires and hand on the pair of terminals that feeds the next.

    `conductors` by role; `lengths` (m) by run: "box", "panel", "motor", "cord".
    """

    conductors: dict[str, Conductor]
    lengths: dict[str, float]
    devices: dict[str, Device] = field(default_factory=dict)
    wires: list[Wire] = field(default_factory=list)

    def add(self, device: Device) -> Device:
        """A device under its code. Raises ValueError for a code that is taken."""
        if device.code in self.devices:
            raise ValueError(f"{device.code} is already there")
        self.devices[device.code] = device
        return device

    def wire(
        self, number: int, a: str, b: str, role: str, run: str = "box", *, colour: str = "", cable: str = ""
    ) -> None:
        """A wire between two terminals written `Q1:2`. Its length is that of its run."""
        conductor = self.conductors[role]
        ends = [Terminal(*name.split(":", 1)) for name in (a, b)]
        made = Wire(
            number,
            ends[0],
            ends[1],
            conductor.role or role,
            conductor.size,
            colour or conductor.colours[0],
            self.lengths[run],
            conductor.ampacity,
            cable,
            run,
            conductor.area,
        )
        self.wires.append(made)

    def circuit(
        self,
        fault_current: float,
        wall_breaker: float | None,
        unguarded: float = 0.0,
        *,
        protective_least: float = 0.0,
        direct_volts: float = 0.0,
    ) -> Circuit:
        """The finished circuit. Raises ValueError for wires that go nowhere or numbers used twice."""
        return Circuit(
            dict(self.devices),
            tuple(sorted(self.wires, key=lambda wire: wire.number)),
            fault_current,
            wall_breaker,
            unguarded,
            protective_least,
            direct_volts,
        )
