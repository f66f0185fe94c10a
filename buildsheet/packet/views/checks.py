"""Meter readings to expect before power, solved from the circuit's resistance network: which, between which points, with
which switches set by hand, and what a wrong value means. Read from the circuit alone, whatever machine it is of.
"""

from collections.abc import Iterator, Mapping
from math import inf

from buildsheet.circuit import Circuit, Contact, Device, Electronics, Terminal
from buildsheet.circuit.contraction import contract, path_to, reached
from buildsheet.circuit.readings import expected
from buildsheet.packet.ink import Ink
from buildsheet.packet.views.insulation import numbers
from buildsheet.packet.views.reading import BRIDGED, HELD, Group, Row, Tip, hand_words, running, want_of
from buildsheet.plan import Plan
from buildsheet.reference import table


def groups(plan: Plan, ink: Ink) -> tuple[Group, ...]:
    """All readings, grouped in the order in which they are taken."""
    del ink
    if plan.circuit is None:
        return ()
    return Asker(plan.circuit, plan.design.region.words["earth"]).all()


class Asker:
    """Asks a circuit for its readings. `earth` is the region's word for it; `wired` is another circuit that they are
    taken on, such as the same one with a mistake in it."""

    def __init__(self, circuit: Circuit, earth: str, wired: Circuit | None = None):
        self.circuit, self.earth, self.count = circuit, earth, 0
        self.wired = wired or circuit
        self.joined = table("usual_ohms").cell("joined", "high").si
        source, poles = circuit.source
        self.poles: tuple[Tip, ...] = tuple((f"{source.code}:{pole}", f"plug {pole}") for pole in poles.poles)
        if poles.direct:  # the battery stays where it is, its fuses out: the first points that can be touched
            self.poles = tuple(self._first_switch(Terminal(source.code, pole)) for pole in poles.poles)
        self.pin: Tip | None = (f"{source.code}:{poles.earth}", f"{earth} pin") if poles.earth else None
        # boards and fans are read by nobody: their wires come off for these rows
        self.boards = frozenset(d.code for d in circuit.devices.values() if _is_board(d))
        self.run = {
            device.code: running(device)
            for device in circuit.devices.values()
            if device.positions and device.kind not in (*HELD, "disconnect", "timer", "potentiometer")
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
        return str(end), _spoken(str(end))

    def all(self) -> tuple[Group, ...]:
        """All groups that have rows, in the order in which they are taken."""
        groups = (self.metal(), self.line(), self.chain(), self.reversing(), self.knob(), self.motor())
        return tuple(group for group in groups if group.rows)

    def ask(
        self, hands: str, red: Tip, black: Tip, wrong: str, faults: tuple[float, ...] = (), *,
        off: frozenset[str] = frozenset(), at: Mapping[str, str] | None = None,
    ) -> Row:  # fmt: skip
        """One reading between two tips, positions by device code."""
        reading = expected(
            self.wired, _terminal(red[0]), _terminal(black[0]), at or {}, off=off, joined=self.joined
        )
        self.count += 1
        want, unit = want_of(reading)
        strip = reading.kind != "record"
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

    def metal(self) -> Group:
        """Every metal part: joined to the protective pin, or to nothing where there is none."""
        metals = [device for device in self.circuit.devices.values() if device.metal]
        if self.pin is None:
            rows = [
                self.ask("as they are", self.poles[0], (f"{device.code}:{device.metal}", _low(device.name)), "a value: a wire touches metal", (0.0,), off=self.boards)
                for device in metals
            ]  # fmt: skip
            return Group("Nothing reaches the metal", self._off(self.boards), "switches", tuple(rows))
        rows = []
        for device in metals:
            wire = next(
                w.number
                for w in self.circuit.wires
                if w.role == "protective" and device.code in (w.a.device, w.b.device)
            )
            metal = (f"{device.code}:{device.metal}", _low(device.name))
            rows.append(
                self.ask("as they are", self.pin, metal, f"more: paint under the ring, wire {wire}", (inf,))
            )
        return Group(f"{self.earth.capitalize()} reaches all metal", "", "switches", tuple(rows))

    def line(self) -> Group:
        """Supply against earth and between the poles, and each pole of each power switch: it cuts, and it conducts."""
        on = self._on()
        cut = {code: self.circuit.devices[code].positions[0] for code in on}
        contactors = [device for device in self.circuit.devices.values() if device.kind == "contactor"]
        pushed = {device.code: device.positions[1] for device in contactors}
        start = self._start()
        everything = {**self.run, **on, **pushed}
        rows: list[Row] = []
        if self.pin is not None:
            for pole in self.poles:
                wrong = "near 0: a wire or strand touches metal, or is on the wrong bar"
                rows.append(
                    self.ask(
                        self.hands(everything), pole, self.pin, wrong, (0.0,), off=self.boards, at=everything
                    )
                )
        first, second = self.poles[0], self.poles[1]
        coil = self._coil({**self.run, **on, **pushed})
        switches = " and ".join(on)
        for at, wrong, faults in (
            ({**self.run, **cut, **start}, f"a value: {switches} does not cut", coil),
            ({**self.run, **on}, "a value: start or the holding contact is bridged", coil),
            (everything, "OL: holding contact open. Near 0: short", (0.0, inf)),
        ):
            hands = self.hands(at)
            if all(at[code] == position for code, position in cut.items()):
                hands = ", ".join(
                    [
                        *(hand_words(self.circuit.devices[code], position) for code, position in cut.items()),
                        hands,
                    ]
                )
            rows.append(self.ask(hands, first, second, wrong, faults, off=self.boards, at=at))
        for device in contactors:
            rows += self._poles_of(device, on)
        return Group("Supply side", self._off(self.boards), "switches", tuple(rows))

    def _poles_of(self, device: Device, on: Mapping[str, str]) -> Iterator[Row]:
        """Each power pole of a contactor: what comes in, what goes out while it is out, and while it is in."""
        out, pulled = device.positions
        nodes = contract(self.circuit, {**self.circuit.rest, **on}, off=self.boards)
        for contact in (part for part in device.inside if isinstance(part, Contact)):
            wires = self.circuit.at(Terminal(device.code, contact.a))
            if any(wire.role == "control" for wire in wires):
                continue
            inward, outward = (f"{device.code}:{name}" for name in (contact.a, contact.b))
            pole = next((tip for tip in self.poles if nodes.same(_terminal(tip[0]), _terminal(inward))), None)
            if pole is None:
                continue
            lifted = self.boards
            yield self.ask(
                self.hands(on),
                pole,
                (inward, _spoken(inward)),
                "OL: poles swapped, or a wire off",
                (inf,),
                off=lifted,
                at=on,
            )
            yield self.ask(
                f"{self.hands(on)}, {hand_words(device, out)}",
                pole,
                (outward, _spoken(outward)),
                f"near 0: that pole of {device.code} is welded",
                (0.0,),
                off=lifted,
                at=on,
            )
            at = {**on, device.code: pulled}
            yield self.ask(
                self.hands(at),
                pole,
                (outward, _spoken(outward)),
                f"OL: that pole of {device.code} stays open",
                (inf,),
                off=lifted,
                at=at,
            )

    def chain(self) -> Group:
        """The release chain: each contact in it must be able to break it. Every row names what latches."""
        first, second = self.poles[0], self.poles[1]
        base = {**self.run, **self._on(), **self._start()}
        coil = self._coil(base)
        rows = [
            self.ask(
                self.hands(base),
                first,
                second,
                "OL: chain open. Near 0: short",
                (0.0, inf),
                off=self.boards,
                at=base,
            )
        ]
        back: dict[str, str] = {}
        for code, position in self._breakers(base):
            at = {**base, code: position}
            device = self.circuit.devices[code]
            rows.append(
                self.ask(self.hands(at, released=back, tried=code), first, second, f"a value: {BRIDGED.get(device.kind, 'contact bridged')}", coil, off=self.boards, at=at)
            )  # fmt: skip
            back = {} if device.kind in HELD else {code: base[code]}
        if back:
            rows.append(
                self.ask(
                    self.hands(base, released=back),
                    first,
                    second,
                    "OL: it did not go back",
                    (inf,),
                    off=self.boards,
                    at=base,
                )
            )
        return Group("Release chain", self._off(self.boards, "still"), "switches", tuple(rows))

    def _breakers(self, base: Mapping[str, str]) -> Iterator[tuple[str, str]]:
        """Devices and positions that must break the chain, start and the contactor aside: each contact of it once."""
        first, second = _terminal(self.poles[0][0]), _terminal(self.poles[1][0])
        found = reached(self.circuit, {**self.circuit.rest, **base}, first, off=self.boards)
        order = list(dict.fromkeys(end.device for end in path_to(found, second)))
        for code in order:
            device = self.circuit.devices[code]
            if (
                device.kind in ("disconnect", "contactor", "start", "timer", "potentiometer")
                or not device.positions
            ):
                continue
            for position in device.positions:
                if position == base.get(device.code, device.positions[0]):
                    continue
                reading = expected(
                    self.circuit,
                    first,
                    second,
                    {**base, device.code: position},
                    off=self.boards,
                    joined=self.joined,
                )
                if reading.kind == "open":
                    yield device.code, position
                    break

    def reversing(self) -> Group:
        """A changeover, with the motor's cable off: each way through in its own direction, and nothing in the middle."""
        rows: list[Row] = []
        switch = next((d for d in self.circuit.devices.values() if d.kind == "reversing-switch"), None)
        if switch is None:
            return Group("Direction", "", "switch", ())
        code, motors = (
            switch.code,
            frozenset(d.code for d in self.circuit.devices.values() if d.kind == "motor"),
        )
        off = self.boards | motors
        power = [part for part in switch.inside if isinstance(part, Contact) and len(part.closed_in) == 1]
        for position in switch.positions:
            for part in power:
                if position not in part.closed_in and position != switch.positions[0]:
                    continue
                tips = [(f"{code}:{name}", f"{code} · {name}") for name in (part.a, part.b)]
                wrong = (
                    "near 0: it joins in the middle"
                    if position == switch.positions[0]
                    else "OL: contact burnt, or wire off"
                )
                fault = 0.0 if position == switch.positions[0] else inf
                rows.append(
                    self.ask(
                        hand_words(switch, position),
                        tips[0],
                        tips[1],
                        wrong,
                        (fault,),
                        off=off,
                        at={code: position},
                    )
                )
        lifted = [
            wire.number
            for wire in self.circuit.wires
            if motors & {wire.a.device, wire.b.device} and wire.role != "protective"
        ]
        return Group("Direction", f"{numbers(lifted)} off the motor", "switch", tuple(rows))

    def knob(self) -> Group:
        """The speed potentiometer, its wires off the drive."""
        knob = next((d for d in self.circuit.devices.values() if d.kind == "potentiometer"), None)
        if knob is None:
            return Group("Speed knob", "", "knob", ())
        tips: list[Tip] = []
        for name in knob.terminals:
            wire = self.circuit.at(Terminal(knob.code, name))[0]
            tips.append((f"{knob.code}:{name}", f"wire {wire.number}"))
        a, b, c = tips
        off = self.boards
        whole = expected(self.circuit, _terminal(a[0]), _terminal(c[0]), {}, off=off)
        rows = (
            self.ask("anywhere", a, c, "far off: wrong part", (whole.high * 2, inf), off=off),
            self.ask(
                "at slow",
                a,
                b,
                "the whole value: ends swapped",
                (whole.high,),
                off=off,
                at={knob.code: "slow"},
            ),
            self.ask(
                "at fast",
                c,
                b,
                "the whole value: ends swapped",
                (whole.high,),
                off=off,
                at={knob.code: "fast"},
            ),
        )
        lifted = [int(tip[1].removeprefix("wire ")) for tip in tips]
        return Group("Speed knob", f"{numbers(lifted)} off the drive", "knob", rows)

    def motor(self) -> Group:
        """From the two wires that come off the drive, through fuse and overload to the armature; and to its frame."""
        motor = next((d for d in self.circuit.devices.values() if d.kind == "motor"), None)
        outputs = [
            (wire.number, end)
            for wire in self.circuit.wires
            for here, end in ((wire.a, wire.b), (wire.b, wire.a))
            if wire.role == "armature" and self.circuit.devices[here.device].kind == "drive"
        ]
        if motor is None or len(outputs) < 2:
            return Group("Motor", "", "switches", ())
        tips = [(str(end), f"wire {number}") for number, end in outputs]
        at = {
            code: position
            for code, position in self.run.items()
            if self.circuit.devices[code].kind == "reversing-switch"
        }
        hands = self.hands(at) if at else ""
        turning = "turn the shaft slowly" + (f", {hands}" if hands else "")
        rows = [
            self.ask(
                turning,
                tips[0],
                tips[1],
                "note the lowest · OL: a fuse, the relay or brushes",
                (0.0, inf),
                off=self.boards,
                at=at,
            )
        ]
        if motor.metal:
            frame = (f"{motor.code}:{motor.metal}", "motor frame")
            rows.append(
                self.ask(
                    hands or "as they are",
                    tips[0],
                    frame,
                    "a value: armature touches the frame",
                    (1.0, 1e5),
                    off=self.boards,
                    at=at,
                )
            )
        return Group(
            "Motor", f"{numbers([number for number, _ in outputs])} off the drive", "switches", tuple(rows)
        )

    def _on(self) -> dict[str, str]:
        return {d.code: d.positions[1] for d in self.circuit.devices.values() if d.kind == "disconnect"}

    def _start(self) -> dict[str, str]:
        return {d.code: d.positions[1] for d in self.circuit.devices.values() if d.kind == "start"}

    def _coil(self, at: Mapping[str, str]) -> tuple[float, ...]:
        """What the meter would show where it must show nothing: the coil behind the chain."""
        reading = expected(
            self.circuit,
            _terminal(self.poles[0][0]),
            _terminal(self.poles[1][0]),
            at,
            off=self.boards,
            joined=self.joined,
        )
        return (reading.low,) if reading.kind == "value" else ()

    def _off(self, codes: frozenset[str], still: str = "") -> str:
        """Which wires are off, as the note of a group: the feeds of boards and fans."""
        lifted = [
            wire.number
            for wire in self.circuit.wires
            if wire.role not in ("protective", "signal", "armature")
            and codes & {wire.a.device, wire.b.device}
        ]
        return f"{numbers(lifted)} {still + ' ' if still else ''}off" if lifted else ""


def _is_board(device: Device) -> bool:
    return device.kind == "fan" or any(isinstance(part, Electronics) for part in device.inside)


def _terminal(name: str) -> Terminal:
    return Terminal(*name.split(":", 1))


def _spoken(terminal: str) -> str:
    return terminal.replace(":", " · ")


def _low(name: str) -> str:
    return name if name.startswith("DC") else f"{name[0].lower()}{name[1:]}"
