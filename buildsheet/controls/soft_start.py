"""Soft start: behind the contactor a resistor lies in the first pole until a timer lets a relay bridge it. The timer counts from the
moment in which the contactor is in; when the contactor falls out, timer and relay fall out with it, so that each start is soft.
A thermostat on the resistor stands in the chain of the no-volt release: a resistor that is never bridged stops the machine
before it glows. Wires 241 to 246 and 331 to 333.
"""

from buildsheet.circuit import Contact, Device, Resistance, Winding
from buildsheet.circuit.builder import Board, Feed
from buildsheet.circuit.netlist import Terminal
from buildsheet.controls.no_volt_release import ChainContact

IN, THROUGH, COOL = frozenset({"in"}), frozenset({"through"}), frozenset({"cool"})


def add_resistor(board: Board, ohms: tuple[float, float], texts: dict[str, str]) -> ChainContact:
    """The resistor, which reads `ohms`, and its thermostat; hands on the thermostat's contact for the chain."""
    board.add(Device("R5", "resistor", "Start resistor", texts["R5"], ("1", "2"), (Resistance("1", "2", *ohms),), place="box", column=4))
    board.add(
        Device(
            "F8", "thermostat", "Resistor thermostat", texts["F8"], ("11", "12"), (Contact("11", "12", COOL),), ("cool", "hot"),
            automatic=True, place="box", column=3,
        )
    )  # fmt: skip
    return ChainContact(241, "F8:11", "F8:12", "box")


def wire_soft_start(board: Board, behind: Feed, coil: tuple[float, float], texts: dict[str, str]) -> Feed:
    """Timer and relay, whose coils read `coil` ohms, around the resistor that is on the board already; hands on the feed behind
    it."""
    for code, kind, name, ends, places in (
        ("K4", "run-up-timer", "Run-up timer", ("15", "18"), ("waiting", "through")),
        ("K5", "bridging-relay", "Bridging relay", ("1", "2"), ("out", "in")),
    ):
        board.add(
            Device(
                code, kind, name, texts[code], (*ends, "A1", "A2"),
                (Contact(*ends, THROUGH if kind == "run-up-timer" else IN), Winding("A1", "A2", *coil, part="coil")), positions=places, coil=("A1", "A2"),
                place="box", column=4,
            )
        )  # fmt: skip
    first, second = behind
    board.wire(331, f"{first}", "K5:1", "line")
    board.wire(332, "K5:1", "R5:1", "line")
    board.wire(333, "R5:2", "K5:2", "line")
    # from the contactor's own coil: on what it switches, a coasting motor on a battery would hold timer and relay in
    board.wire(242, "Q2:14", "K4:A1", "control")
    board.wire(243, "K4:A1", "K4:15", "control")
    board.wire(244, "K4:18", "K5:A1", "control")
    board.wire(245, "Q2:A2", "K5:A2", "neutral")
    board.wire(246, "K5:A2", "K4:A2", "neutral")
    return Terminal("K5", "2"), second

