"""A small machine by hand: plug, disconnect, fuse, contactor with its chain, motor. Sound as it stands.

L ─ Q1 ─ F1 ┬─ Q2:1/2 ─ M1:A1      N ─ Q1 ┬─ Q2:3/4 ─ M1:A2
            └─ S1 ─ S2 ∥ Q2:13/14 ─ Q2 coil ─┘        PE ─ X2 ─ M1:frame
"""

from dataclasses import replace

from buildsheet.circuit import (
    Circuit,
    Contact,
    Device,
    Fuse,
    Link,
    Resistance,
    Source,
    Terminal,
    Winding,
    Wire,
)

ON, IN, FREE, PRESSED = frozenset({"on"}), frozenset({"in"}), frozenset({"free"}), frozenset({"pressed"})
FAULT_CURRENT, WALL_BREAKER = 600.0, 15.0


def terminal(name: str) -> Terminal:
    """`Q1:2` as a terminal."""
    device, _, own = name.partition(":")
    return Terminal(device, own)


def wire(number: int, a: str, b: str, role: str = "line", ampacity: float = 15.0, cable: str = "") -> Wire:
    """A wire with what matters to a proof."""
    return Wire(number, terminal(a), terminal(b), role, "14 AWG", "BK", 1.0, ampacity, cable)


DEVICES = {
    device.code: device
    for device in (
        Device("X1", "plug", "Plug", "", ("L", "N", "PE"), (Source(("L", "N"), ("L",), "PE"),)),
        Device("X2", "earth-bar", "Bar", "", ("1", "2"), (Link("1", "2"),)),
        Device("Q1", "disconnect", "Disconnect", "", ("1", "2", "3", "4"), (Contact("1", "2", ON), Contact("3", "4", ON)), positions=("off", "on")),
        Device("F1", "line-fuse", "Fuse", "", ("1", "2"), (Fuse("1", "2"),), trips_at=8.0, interrupts=10_000.0),
        Device(
            "Q2", "contactor", "Contactor", "", ("1", "2", "3", "4", "13", "14", "A1", "A2"),
            (Contact("1", "2", IN), Contact("3", "4", IN), Contact("13", "14", IN), Resistance("A1", "A2", 300.0, 400.0)),
            positions=("out", "in"), coil=("A1", "A2"),
        ),
        Device("S1", "emergency-stop", "Emergency stop", "", ("11", "12"), (Contact("11", "12", FREE, direct=True),), positions=("free", "pressed")),
        Device("S2", "start", "Start", "", ("13", "14"), (Contact("13", "14", PRESSED),), positions=("free", "pressed"), spring=True),
        Device("M1", "motor", "Motor", "", ("A1", "A2", "frame"), (Winding("A1", "A2", 1.0, 2.0),), metal="frame"),
    )
}  # fmt: skip

WIRES = (
    wire(101, "X1:L", "Q1:1", cable="W1"),
    wire(102, "X1:N", "Q1:3", "neutral", cable="W1"),
    wire(103, "Q1:2", "F1:1"),
    wire(104, "F1:2", "Q2:1"),
    wire(105, "Q1:4", "Q2:3", "neutral"),
    wire(201, "F1:2", "S1:11", "control"),
    wire(202, "S1:12", "S2:13", "control"),
    wire(203, "S2:13", "Q2:13", "control"),
    wire(204, "S2:14", "Q2:A1", "control"),
    wire(205, "Q2:14", "Q2:A1", "control"),
    wire(206, "Q2:A2", "Q1:4", "neutral"),
    wire(401, "Q2:2", "M1:A1"),
    wire(402, "Q2:4", "M1:A2"),
    wire(901, "X1:PE", "X2:1", "protective", cable="W1"),
    wire(902, "X2:2", "M1:frame", "protective"),
)

SMALL = Circuit(DEVICES, WIRES, FAULT_CURRENT, WALL_BREAKER)


def without(circuit: Circuit, *numbers: int) -> Circuit:
    """The circuit less some wires."""
    return replace(circuit, wires=tuple(wire for wire in circuit.wires if wire.number not in numbers))


def adding(circuit: Circuit, *wires: Wire) -> Circuit:
    """The circuit and some wires more."""
    return replace(circuit, wires=(*circuit.wires, *wires))


def with_device(circuit: Circuit, code: str, **changes: object) -> Circuit:
    """The circuit with one device changed."""
    return replace(circuit, devices={**circuit.devices, code: replace(circuit.devices[code], **changes)})  # type: ignore[arg-type]


def with_wire(circuit: Circuit, number: int, **changes: object) -> Circuit:
    """The circuit with one wire changed."""
    changed = tuple(replace(one, **changes) if one.number == number else one for one in circuit.wires)  # type: ignore[arg-type]
    return replace(circuit, wires=changed)


def fuse_first(circuit: Circuit) -> Circuit:
    """Fuse and disconnect swapped: the plug feeds the fuse, the fuse the disconnect, the disconnect the rest."""
    swapped = {"Q1:1": "F1:1", "F1:1": "Q1:1", "Q1:2": "F1:2", "F1:2": "Q1:2"}
    moved = tuple(
        replace(
            one,
            a=terminal(swapped.get(str(one.a), str(one.a))),
            b=terminal(swapped.get(str(one.b), str(one.b))),
        )
        for one in circuit.wires
    )
    again = replace(circuit, wires=tuple(one for one in moved if one.number != 103))
    return adding(
        again,
        replace(next(one for one in moved if one.number == 103), a=terminal("F1:2"), b=terminal("Q1:1")),
    )


def welded(circuit: Circuit, code: str = "Q2") -> Circuit:
    """The contactor's power contacts stuck together."""
    inside = tuple(
        Link(part.a, part.b) if isinstance(part, Contact) and part.a in ("1", "3") else part
        for part in circuit.devices[code].inside
    )
    return with_device(circuit, code, inside=inside)
