"""A failed proof, and what the proofs ask of a circuit."""

from dataclasses import dataclass

from buildsheet.circuit.netlist import Circuit, Device, Positions, Terminal, Winding

FUSES = ("line-fuse", "output-fuse", "motor-fuse", "charger-fuse", "field-fuse")


@dataclass(frozen=True, slots=True)
class Breach:
    """A failed proof: which, along which terminals, in which positions, and what it comes to in words."""

    proof: str
    path: tuple[Terminal, ...]
    positions: tuple[tuple[str, str], ...]
    found: str


def breach(proof: str, path: tuple[Terminal, ...], positions: Positions, found: str) -> Breach:
    """A breach with its positions in order."""
    return Breach(proof, path, tuple(sorted(positions.items())), found)


def of_kind(circuit: Circuit, *kinds: str) -> list[Device]:
    """The devices of some kinds."""
    return [device for device in circuit.devices.values() if device.kind in kinds]


def drives_nothing(circuit: Circuit, terminal: Terminal) -> bool:
    """Whether what is live at a terminal turns nothing by itself: its device's metal, which carries no current, or the end of
    a field that has a supply of its own. What is reached through such a field still counts."""
    ends = {name for part in circuit.devices[terminal.device].inside if isinstance(part, Winding) and part.apart for name in (part.a, part.b)}
    return is_metal(circuit, terminal) or terminal.name in ends


def is_metal(circuit: Circuit, terminal: Terminal) -> bool:
    """Whether a terminal is its device's metal part, which carries no current."""
    return circuit.devices[terminal.device].metal == terminal.name
