"""Circuits for the tests: random ones from a seed, made of the kinds of devices that machines are built of."""

import random
from dataclasses import replace

from buildsheet.circuit import (
    Capacitor,
    Circuit,
    Contact,
    Device,
    Diode,
    Electronics,
    Fuse,
    Link,
    Resistance,
    Source,
    Terminal,
    Wire,
)

COLOURS = {
    "line": "BK",
    "neutral": "WH",
    "armature": "BK",
    "control": "RD",
    "signal": "VT",
    "protective": "GNYE",
}
SIZES = {"control": "16 AWG", "signal": "18 AWG"}
NAMES = (
    "Line fuse",
    "Speed knob",
    "Emergency stop",
    "Motor overload",
    "No-volt release",
    "Lamp",
    "Second belt guard switch",
)
RATINGS = ("", "7 A, time-lag", "2-pole, 16 A", "latching, red on yellow", "not separated from the line")


TWO_ENDS = {
    "line-fuse": (("1", "2"), (Fuse("1", "2"),)),
    "diode": (("A", "K"), (Diode("A", "K"),)),
    "capacitor": (("1", "2"), (Capacitor("1", "2", 1e-3, 100.0), Resistance("1", "2", 1e4, 1e4))),
}


def _device(rng: random.Random, i: int, column: int) -> Device:
    kind = rng.choice(
        ("disconnect", "line-fuse", "contactor", "start", "stop", "emergency-stop", "drive", "potentiometer", "overload",
         "motor", "fan", "strip", "reverse", "resistor", "lamp", "indicator", "battery", "timer", "diode", "capacitor")
    )  # fmt: skip
    on, name, rating = frozenset({"on"}), rng.choice(NAMES), rng.choice(RATINGS)

    def made(
        terminals: tuple[str, ...], inside: tuple, positions: tuple[str, ...] = (), **more: object
    ) -> Device:
        return Device(
            f"D{i}",
            kind,
            name,
            rating,
            terminals,
            inside,
            positions,
            column=column,
            touched=rng.random() < 0.2,
            **more,
        )

    if kind == "disconnect":
        return made(("1", "2", "3", "4"), (Contact("1", "2", on), Contact("3", "4", on)), ("off", "on"))
    if kind in {"start", "stop", "emergency-stop"}:
        return made(
            ("11", "12"), (Contact("11", "12", on),), ("on", "off") if kind != "start" else ("off", "on")
        )
    if kind == "contactor":
        inside = (
            Contact("1", "2", on),
            Contact("3", "4", on),
            Contact("13", "14", on),
            Resistance("A1", "A2", 1, 2),
        )
        return made(("1", "2", "3", "4", "13", "14", "A1", "A2"), inside, ("off", "on"), coil=("A1", "A2"))
    if kind == "drive":
        names = ("L", "N", "A+", "A−", "P1", "P2", "P3")
        return made((*names, "case"), (Electronics(names),))
    if kind == "potentiometer":
        inside = (
            Resistance("1", "3", 4, 5),
            Resistance("1", "2", 0, 1, "slow"),
            Resistance("2", "3", 0, 1, "fast"),
        )
        return made(("1", "2", "3"), inside)
    if kind == "overload":
        return made(
            ("1", "2", "95", "96"), (Resistance("1", "2", 0, 1), Contact("95", "96", on)), ("on", "off")
        )
    if kind == "strip":
        return made(("1", "2", "3", "4"), (Link("1", "2"), Link("2", "3"), Link("3", "4")))
    if kind == "reverse":
        left, right = frozenset({"left"}), frozenset({"right"})
        inside = (
            Contact("1", "2", left),
            Contact("1", "3", right),
            Contact("4", "5", left),
            Contact("4", "6", right),
        )
        return made(("1", "2", "3", "4", "5", "6"), inside, ("left", "right"))
    if kind == "motor":
        return made(("A1", "A2", "frame"), (Resistance("A1", "A2", 1, 2),))
    if kind == "battery":
        return made(("+", "−"), (Source(("+", "−"), ("+",), "", direct=True),))
    if kind == "timer":
        return made(
            ("15", "16", "A1", "A2"), (Contact("15", "16", on), Resistance("A1", "A2", 1, 2)), ("on", "off"), coil=("A1", "A2")
        )
    if kind == "lamp" and rng.random() < 0.5:
        return made(("1", "2", "frame"), (Resistance("1", "2", 1, 2),), metal="frame")
    if kind in TWO_ENDS:
        names, inside = TWO_ENDS[kind]
        return made(names, inside)
    return made(("1", "2"), (Resistance("1", "2", 1, 2),))


def random_circuit(seed: int) -> Circuit:
    """8 to 18 devices, 12 to 45 wires, at most two on a terminal."""
    rng = random.Random(seed)  # noqa: S311 - repeatable, not secret
    plug = Device(
        "X1", "plug", "Plug and cord", "120 V", ("L", "N", "PE"), (Source(("L", "N"), ("L",), "PE"),)
    )
    bar = Device("X2", "earth-bar", "Ground bar", "one wire each", tuple(str(n) for n in range(1, 9)), ())
    metal = [
        Device(f"U{n}", kind, kind.capitalize(), "", ("stud",), metal="stud", column=rng.randint(0, 6))
        for n, kind in enumerate(("enclosure", "door", "frame")[: rng.randint(0, 3)], 1)
    ]
    others = [_device(rng, i, rng.randint(1, 6)) for i in range(rng.randint(8, 18) - 2 - len(metal))]
    free = [Terminal(d.code, name) for d in (plug, *others) for name in d.terminals for _ in (0, 1)]
    wires: list[Wire] = []
    studs = list(bar.terminals)
    earthed = [Terminal("X1", "PE"), *(Terminal(d.code, "stud") for d in metal)]
    earthed += [Terminal(d.code, name) for d in others for name in d.terminals if name in {"case", "frame"}]
    for end in earthed[: len(studs)]:
        wires.append(_wire(901 + len(wires), Terminal("X2", studs[len(wires)]), end, "protective"))
        free = [other for other in free if other != end]
    count, pairs = rng.randint(12, 45), set[frozenset[Terminal]]()
    for _ in range(400):
        if len(wires) >= count or len(free) < 2:
            break
        a, b = rng.sample(free, 2)
        if a == b or frozenset({a, b}) in pairs or (a.device == b.device and rng.random() < 0.8):
            continue
        if {"X1:PE"} & {str(a), str(b)}:
            continue
        pairs.add(frozenset({a, b}))
        free.remove(a)
        free.remove(b)
        role = rng.choice(("line", "neutral", "armature", "control", "control", "signal"))
        wires.append(_wire(101 + len(wires), a, b, role))
    devices = {d.code: d for d in (plug, bar, *others, *metal)}
    return Circuit(devices, tuple(sorted(wires, key=lambda wire: wire.number)), 1000.0, 15.0)


def _wire(number: int, a: Terminal, b: Terminal, role: str) -> Wire:
    return Wire(number, a, b, role, SIZES.get(role, "14 AWG"), COLOURS[role], 1.0, 15.0)


def widened(circuit: Circuit) -> Circuit:
    """The yarn twister's circuit with what builders add, 18 devices and 45 conductors.

    Added are a lamp, an indicator, a lit start button, a second contact of the emergency stop in the
    other pole, a thermal contact in the motor, and the bonded case of the speed knob. Door and frame
    are left out, since they would be bonded to the box.
    """
    devices = {code: device for code, device in circuit.devices.items() if code not in {"U2", "U3"}}
    for code, terminals, inside in (
        ("S1", ("21", "22"), Contact("21", "22", frozenset(devices["S1"].positions[:1]))),
        ("S2", ("X1", "X2"), Resistance("X1", "X2", 1e3, 2e3)),
        ("M1", ("T1", "T2"), Resistance("T1", "T2", 0, 1)),
    ):
        old = devices[code]
        devices[code] = replace(old, terminals=(*old.terminals, *terminals), inside=(*old.inside, inside))
    devices["S4"] = replace(devices["S4"], terminals=(*devices["S4"].terminals, "case"))
    devices["E1"] = Device(
        "E1", "lamp", "Work lamp", "230 V, 9 W", ("1", "2", "frame"), (Resistance("1", "2", 5e3, 7e3),), metal="frame", column=5
    )
    devices["H1"] = Device("H1", "indicator", "Runs", "230 V", ("1", "2"), (Resistance("1", "2", 5e4, 6e4),), column=5)
    dropped = {208, 203, 903, 906}
    wires = [wire for wire in circuit.wires if wire.number not in dropped]
    sizes = {wire.role: (wire.size, wire.colour) for wire in circuit.wires}
    for number, a, b, role in (
        (161, "Q1:2", "E1:1", "line"), (162, "Q1:4", "E1:2", "neutral"), (951, "X2:7", "E1:frame", "protective"),
        (351, "Q2:2", "H1:1", "line"), (352, "Q2:4", "H1:2", "neutral"),
        (353, "Q2:1", "S2:X1", "line"), (354, "Q2:3", "S2:X2", "neutral"),
        (208, "Q2:A2", "S1:21", "neutral"), (251, "S1:22", "F1:4", "neutral"),
        (203, "S3:12", "M1:T1", "control"), (252, "M1:T2", "F3:95", "control"), (952, "X2:8", "S4:case", "protective"),
    ):  # fmt: skip
        one, other = (Terminal(*end.split(":")) for end in (a, b))
        wires.append(Wire(number, one, other, role, *sizes[role], 1.0, 15.0))
    return replace(circuit, devices=devices, wires=tuple(sorted(wires, key=lambda wire: wire.number)))
