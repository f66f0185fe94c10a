"""Asking a circuit for readings: one row between two tips, and the words that set the switches for it."""

from collections.abc import Mapping
from dataclasses import dataclass

from buildsheet.circuit import Circuit, Contact, Electronics, Terminal
from buildsheet.circuit.contraction import contract
from buildsheet.circuit.netlist import numbers
from buildsheet.circuit.readings import expected
from buildsheet.packet.views.reading import HELD, Row, Tip, hand_words, running, want_of
from buildsheet.reference import table

AT_REST = ("timer", "run-up-timer", "bridging-relay")  # no hand moves them, or none has to
UNREAD = ("fan", "lamp", "indicator", "meter", "transformer", "autotransformer")


@dataclass(frozen=True, slots=True)
class Asked:
    """A reading that was asked for: its tips, the switches, the devices whose wires are off, what the tips are called."""

    red: Terminal
    black: Terminal
    at: Mapping[str, str]
    off: frozenset[str]
    names: tuple[str, str]


class Asker:
    """Asks a circuit for its readings. `earth` is the region's word for it; `wired` is another circuit that they are
    taken on, such as the same one with a mistake in it."""

    def __init__(self, circuit: Circuit, earth: str, wired: Circuit | None = None):
        self.circuit, self.earth, self.count = circuit, earth, 0
        self.wired = wired or circuit
        self.asked: list[Asked] = []
        self.joined = table("usual_ohms").cell("joined", "high").si
        source, poles = circuit.source
        self.poles: tuple[Tip, ...] = tuple((f"{source.code}:{pole}", f"plug {pole}") for pole in poles.poles)
        if poles.direct:  # the battery stays where it is, its fuses out: the first points that can be touched
            self.poles = tuple(self._first_switch(Terminal(source.code, pole)) for pole in poles.poles)
        self.pin: Tip | None = (f"{source.code}:{poles.earth}", f"{earth} pin") if poles.earth else None
        # boards and fans are read by nobody: their wires come off for these rows
        self.boards = boards(circuit)
        self.run = {
            device.code: running(device)
            for device in circuit.devices.values()
            if device.positions and device.kind not in (*HELD, *AT_REST, "disconnect", "potentiometer")
        }

    def _first_switch(self, pole: Terminal) -> Tip:
        """Where the disconnect takes a pole of the source in."""
        nodes = contract(self.circuit, self.circuit.rest)
        ends = (
            Terminal(device.code, part.a)
            for device in self.circuit.devices.values()
            if device.kind == "disconnect"
            for part in device.inside
            if isinstance(part, Contact)
        )
        end = next(end for end in ends if nodes.same(end, pole))
        return str(end), spoken(str(end))

    def ask(
        self, hands: str, red: Tip, black: Tip, wrong: str, faults: tuple[float, ...] = (), *,
        off: frozenset[str] = frozenset(), at: Mapping[str, str] | None = None, joined: float | None = None,
    ) -> Row:  # fmt: skip
        """One reading between two tips, positions by device code; `joined` is the most ohms of what counts as joined."""
        reading = expected(
            self.wired, terminal_of(red[0]), terminal_of(black[0]), at or {}, off=off, joined=joined or self.joined
        )
        self.count += 1
        self.asked.append(Asked(terminal_of(red[0]), terminal_of(black[0]), dict(at or {}), off, (red[1], black[1])))
        want, unit = want_of(reading)
        strip = reading.kind in ("near zero", "value", "open")
        return Row(
            str(self.count), hands, red[1], black[1], wrong, want, unit,
            reading.low if strip else None, reading.high if strip else None, faults,
        )  # fmt: skip

    def hands(
        self, at: Mapping[str, str], *, released: Mapping[str, str] | None = None, tried: str = ""
    ) -> str:
        """What the hands have to set: what must go back since the row before, all that is not at rest, and the device
        that is `tried`, wherever it stands."""
        words = [
            hand_words(self.circuit.devices[code], position) for code, position in (released or {}).items()
        ]
        for device in self.circuit.devices.values():
            position = at.get(device.code, "")
            moved = position and (position != device.positions[0] or device.code == tried)
            if moved and device.code not in (released or {}):
                words.append(hand_words(device, position))
        return ", ".join(words) or "as they are"

    def on(self) -> dict[str, str]:
        return {d.code: d.positions[1] for d in self.circuit.devices.values() if d.kind == "disconnect"}

    def start(self) -> dict[str, str]:
        return {d.code: d.positions[1] for d in self.circuit.devices.values() if d.kind == "start"}

    def coil(self, at: Mapping[str, str]) -> tuple[float, ...]:
        """What the meter would show where it must show nothing: the coil behind the chain."""
        reading = expected(
            self.circuit,
            terminal_of(self.poles[0][0]),
            terminal_of(self.poles[1][0]),
            at,
            off=self.boards,
            joined=self.joined,
        )
        return (reading.low,) if reading.kind == "value" else ()

    def lifted(self, codes: frozenset[str], still: str = "") -> str:
        """Which wires are off, as the note of a group: the feeds of boards and fans."""
        lifted = [
            wire.number
            for wire in self.circuit.wires
            if wire.role not in ("protective", "signal", "armature")
            and codes & {wire.a.device, wire.b.device}
        ]
        return f"{numbers(lifted)} {still + ' ' if still else ''}off" if lifted else ""


def boards(circuit: Circuit) -> frozenset[str]:
    """What no pocket meter reads: electronics, fans, lamps."""
    return frozenset(d.code for d in circuit.devices.values() if d.kind in UNREAD or any(isinstance(part, Electronics) for part in d.inside))


def terminal_of(name: str) -> Terminal:
    return Terminal(*name.split(":", 1))


def spoken(terminal: str) -> str:
    return terminal.replace(":", " · ")


def low_case(name: str) -> str:
    return name if name.startswith("DC") else f"{name[0].lower()}{name[1:]}"
