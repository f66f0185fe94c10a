"""Meter readings to expect before power, solved from the circuit's resistance network."""

from dataclasses import dataclass
from math import inf

from buildsheet.circuit import Circuit, Terminal
from buildsheet.circuit.readings import Reading, expected
from buildsheet.packet.ink import NARROW, Ink
from buildsheet.plan import Plan
from buildsheet.reference import table
from buildsheet.units import OHM, figures, shown

EN_DASH = f"{NARROW}–{NARROW}"


@dataclass(frozen=True, slots=True)
class Row:
    """A row of the sheet: what the hands set, both tips, what a wrong value means, and the expected value."""

    number: str
    hands: str
    red: str
    black: str
    wrong: str
    want: str
    unit: str
    low: float | None
    high: float | None
    faults: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Group:
    """Rows that share a head."""

    name: str
    note: str
    hands: str
    rows: tuple[Row, ...]


def groups(plan: Plan, ink: Ink) -> tuple[Group, ...]:
    """All readings, grouped in the order in which they are taken."""
    del ink
    if plan.circuit is None:
        return ()
    return _Asker(plan.circuit, plan.design.region.words["earth"]).all()


class _Asker:
    def __init__(self, circuit: Circuit, earth: str):
        self.circuit, self.earth, self.count = circuit, earth, 0

    def ask(self, hands: str, red: tuple[str, str], black: tuple[str, str], wrong: str, faults: tuple[float, ...] = (), *,
            off: frozenset[str] = frozenset(), **positions: str) -> Row:  # fmt: skip
        """One reading. Tips are (terminal, what it is called); positions are by device code."""
        reading = expected(
            self.circuit,
            _terminal(red[0]),
            _terminal(black[0]),
            positions,
            off=off,
            joined=table("usual_ohms").cell("joined", "high").si,
        )
        self.count += 1
        want, unit = want_of(reading)
        strip = reading.kind != "record"
        return Row(
            str(self.count),
            hands,
            red[1],
            black[1],
            wrong,
            want,
            unit,
            reading.low if strip else None,
            reading.high if strip else None,
            faults,
        )

    def all(self) -> tuple[Group, ...]:
        return tuple(
            group
            for group in (self.metal(), self.line(), self.chain(), self.knob(), self.motor())
            if group.rows
        )

    def metal(self) -> Group:
        pin = ("X1:PE", f"{self.earth} pin")
        rows = []
        for device in self.circuit.devices.values():
            if device.metal:
                wire = next(
                    (
                        w.number
                        for w in self.circuit.wires
                        if w.role == "protective" and device.code in (w.a.device, w.b.device)
                    ),
                    None,
                )
                rows.append(
                    self.ask(
                        "as they are",
                        pin,
                        (f"{device.code}:{device.metal}", _low(device.name)),
                        f"more: paint under the ring, wire {wire}",
                        (inf,),
                    )
                )
        return Group(f"{self.earth.capitalize()} reaches all metal", "", "switches", tuple(rows))

    def line(self) -> Group:
        """Line against earth and between the poles, and each pole of each power switch: it cuts, and it conducts."""
        board = frozenset({"T1", "M2"})
        hot, neutral, pin = ("X1:L", "plug L"), ("X1:N", "plug N"), ("X1:PE", f"{self.earth} pin")
        coil = self._coil()
        poles = ((hot, "Q2:1", "Q2:2"), (neutral, "Q2:3", "Q2:4"))
        rows = [
            self.ask(
                "Q1 on, Q2 pushed in",
                hot,
                pin,
                "less: a wire or strand touches metal",
                (0.0,),
                off=board,
                Q1="on",
                Q2="in",
            ),
            self.ask(
                "Q1 on, Q2 pushed in",
                neutral,
                pin,
                f"near 0: neutral joined to {self.earth}",
                (0.0,),
                off=board,
                Q1="on",
                Q2="in",
            ),
            self.ask(
                "Q1 off, S2 held",
                hot,
                neutral,
                "a value: Q1 does not cut",
                coil,
                off=board,
                Q1="off",
                S2="pressed",
            ),
            self.ask(
                "Q1 on, nothing held",
                hot,
                neutral,
                "a value: S2 or 13–14 is bridged",
                coil,
                off=board,
                Q1="on",
            ),
            self.ask(
                "Q1 on, Q2 pushed in",
                hot,
                neutral,
                "OL: 13–14 open. Near 0: short",
                (0.0, inf),
                off=board,
                Q1="on",
                Q2="in",
            ),
        ]
        for end, inward, outward in poles:
            wrong = "OL: poles swapped in the plug, or a wire off"
            rows.append(self.ask("Q1 on", end, (inward, _spoken(inward)), wrong, (inf,), off=board, Q1="on"))
            rows.append(
                self.ask(
                    "Q1 on, Q2 left out",
                    end,
                    (outward, _spoken(outward)),
                    "near 0: that pole of Q2 is welded",
                    (0.0,),
                    off=board,
                    Q1="on",
                )
            )
            rows.append(
                self.ask(
                    "Q1 on, Q2 pushed in",
                    end,
                    (outward, _spoken(outward)),
                    "OL: that pole of Q2 stays open",
                    (inf,),
                    off=board,
                    Q1="on",
                    Q2="in",
                )
            )
        return Group("Line side", "301–304 off", "switches", tuple(rows))

    def chain(self) -> Group:
        """The release chain: each contact in it must be able to break it. Every row names what latches."""
        board = frozenset({"T1", "M2"})
        hot, neutral = ("X1:L", "plug L"), ("X1:N", "plug N")
        coil = self._coil()
        rows = [
            self.ask(
                "Q1 on, S1 out, S2 held",
                hot,
                neutral,
                "OL: chain open. Near 0: short",
                (0.0, inf),
                off=board,
                Q1="on",
                S2="pressed",
            ),
            self.ask(
                "S2 held, S1 pressed in",
                hot,
                neutral,
                "a value: emergency stop bridged",
                coil,
                off=board,
                Q1="on",
                S2="pressed",
                S1="pressed",
            ),
            self.ask(
                "S1 out again, S2 and S3 held",
                hot,
                neutral,
                "a value: stop button bridged",
                coil,
                off=board,
                Q1="on",
                S2="pressed",
                S3="pressed",
            ),
        ]
        if "F3" in self.circuit.devices:
            rows.append(
                self.ask(
                    "S3 free, S2 held, F3 tripped by its test",
                    hot,
                    neutral,
                    "a value: 95–96 bridged",
                    coil,
                    off=board,
                    Q1="on",
                    S2="pressed",
                    F3="tripped",
                )
            )
            rows.append(
                self.ask(
                    "F3 reset, S2 held",
                    hot,
                    neutral,
                    "OL: F3 did not reset",
                    (inf,),
                    off=board,
                    Q1="on",
                    S2="pressed",
                )
            )
        return Group("Release chain", "301–304 still off", "switches", tuple(rows))

    def knob(self) -> Group:
        off = frozenset({"T1"})
        a, b, c = (("S4:1", "wire 501"), ("S4:2", "wire 502"), ("S4:3", "wire 503"))
        whole = expected(self.circuit, _terminal("S4:1"), _terminal("S4:3"), {}, off=off)
        rows = (
            self.ask("anywhere", a, c, "far off: wrong part", (whole.high * 2, inf), off=off),
            self.ask("at slow", a, b, "the whole value: ends swapped", (whole.high,), off=off, S4="slow"),
            self.ask("at fast", c, b, "the whole value: ends swapped", (whole.high,), off=off, S4="fast"),
        )
        return Group("Speed knob", "501–503 off the drive", "knob", rows)

    def motor(self) -> Group:
        off = frozenset({"T1"})
        plus, minus = ("F2:1", "wire 401"), ("M1:A2", "wire 404")
        rows = (
            self.ask(
                "turn the shaft slowly",
                plus,
                minus,
                "note the lowest · OL: F2, F3 or brushes",
                (0.0, inf),
                off=off,
            ),
            self.ask(
                "as they are",
                plus,
                ("M1:frame", "motor frame"),
                "a value: armature touches the frame",
                (1.0, 1e5),
                off=off,
            ),
        )
        return Group("Motor", "401 and 404 off the drive", "switches", rows)

    def _coil(self) -> tuple[float, ...]:
        reading = expected(
            self.circuit, _terminal("Q2:A1"), _terminal("Q2:A2"), {}, off=frozenset({"T1", "M2"})
        )
        return (reading.low,) if reading.kind == "value" else ()


def _terminal(name: str) -> Terminal:
    return Terminal(*name.split(":", 1))


def _spoken(terminal: str) -> str:
    return terminal.replace(":", " · ")


def _low(name: str) -> str:
    return name if name.startswith("DC") else f"{name[0].lower()}{name[1:]}"


def want_of(reading: Reading) -> tuple[str, str]:
    """The expected value in print, and the unit that stands in the pen box."""
    match reading.kind:
        case "open":
            return "OL", "MΩ"
        case "near zero":
            return f"≤{NARROW}{reading.high:g}{NARROW}Ω", "Ω"
        case "record":
            return "write it down", "Ω"
        case _:
            if reading.low <= 0.02 * reading.high:  # a wiper's end: near nothing, up to its end resistance
                amount, unit = shown(reading.high, OHM)
                return f"≤{NARROW}{figures(amount, 2)}{NARROW}{unit}", unit
            b, unit = shown(reading.high, OHM)
            a = reading.low * b / reading.high  # both in the unit of the upper end
            return f"{figures(a, 2)}{EN_DASH}{figures(b, 2)}{NARROW}{unit}", unit


__all__ = ["Group", "Row", "groups", "want_of"]
