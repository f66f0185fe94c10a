"""The parts of a transformer and its bridge: sizes, places, devices and wires. Wires 301 and 302 to its iron, 311 to 314 to
the bridge, 321 to 324 to capacitor and resistor.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from buildsheet.circuit import Capacitor, Contact, Device, Electronics, Fuse, Resistance
from buildsheet.circuit.builder import Board, Feed
from buildsheet.circuit.netlist import Inside
from buildsheet.citations import practice
from buildsheet.formulas import choice, protection, smoothing, transformer
from buildsheet.reference import Region
from buildsheet.sizing.finding import Finding, Said
from buildsheet.sizing.ohms import around
from buildsheet.sizing.places import Need, Place
from buildsheet.sizing.spelt import row_of, spelt
from buildsheet.sizing.supply import Supplied
from buildsheet.sizing.waist import SOLVED, Point
from buildsheet.units import AMPERE, VOLT
from buildsheet.waveforms import Fed
from buildsheet.ways.bridge import Bridged, Compared, secondary_currents, without_capacitor
from buildsheet.ways.way import HardStart, Outfit, Setting, Trial, Words
from buildsheet.worksheet import Model, Value, Worksheet, unknown

OUTPUTS = ("A+", "A−")
INPUTS = ("~1", "~2")
BRUSHES = practice("variable autotransformers")
GROOVE = "The brush sits on one turn of the winding: too much burns a groove into it, and then the insulation."


@dataclass(frozen=True, slots=True)
class Smoothing:
    """A capacitor with what belongs to it: RMS ripple current, volts that it must stand, the resistor that empties it with
    its rating (None where it never holds a dangerous voltage), ripple at the hardest point, and that point without it."""

    capacitor: Value
    ripple_current: Value
    stands: Value
    bleeder: Value | None
    bleeder_rating: Value | None
    ripple: Value
    bare: Compared | None


@dataclass(frozen=True, slots=True)
class BridgeSizes:
    """Sizes behind the iron: greatest RMS current there, its fuse, what each diode blocks, greatest direct voltage, rush into
    an empty capacitor."""

    secondary: Value
    fuse_need: Value
    fuse: Value
    blocking: Value
    direct_most: Value
    smoothing: Smoothing | None


def size_bridge(sheet: Worksheet, region: Region, supplied: Supplied, applied: Bridged, points: tuple[Point, ...], share: Value, start: Value | None = None) -> BridgeSizes:
    """Fuse, bridge and capacitor for the hardest point; `start` is what a start at full voltage asks of a fuse."""
    del supplied
    currents = secondary_currents(sheet, applied, points)
    largest = currents[0] if currents else unknown("T2.I_2", AMPERE, "no operating point", "current ahead of the bridge")
    for number, current in enumerate(currents[1:], 1):
        key = "T2.I_2" if number == len(currents) - 1 else f"T2.I_2_{number}"
        largest = sheet.work(key, choice.larger_of, "largest current ahead of the bridge, RMS", a=largest, b=current)
    need = sheet.work("F5.I_need", protection.least_fuse_rating, "fuse ahead of the bridge, at least", I=largest, k=share)
    if start is not None:
        need = sheet.work("F5.I_needs", choice.larger_of, "fuse ahead of the bridge, at least, the start counted", a=need, b=start)
    fuse = sheet.pick("F5.I_n", region.tables["fuse"], "rating", "fuse ahead of the bridge", at_least=need)
    peak = sheet.values["C1.V_most"] if "C1.V_most" in sheet.values else sheet.work("T1.V_peak", protection.peak_voltage, "peak ahead of the bridge, line at the top of its tolerance", V=applied.loose)
    blocking = sheet.work("T1.V_need", transformer.bridge_blocking_voltage, "voltage that each diode should block", V_m=peak)
    return BridgeSizes(largest, need, fuse, blocking, peak, _smoothing(sheet, applied, points, peak))


def _smoothing(sheet: Worksheet, applied: Bridged, points: tuple[Point, ...], peak: Value) -> Smoothing | None:
    if applied.capacitor is None:
        return None
    hardest = max((point for point in points if point.rms.known), key=lambda point: float(point.rms), default=None)
    wave = hardest.wave if hardest is not None else None
    if hardest is None or hardest.emf is None or not isinstance(wave, Fed):
        nothing = unknown("C1.I_C", AMPERE, "no operating point", "ripple current of the capacitor")
        return Smoothing(applied.capacitor, nothing, peak, None, None, unknown("C1.U_r", VOLT, "no operating point", "ripple of the capacitor"), None)
    asked = {**applied.inputs, "E": hardest.emf, "I_a": hardest.current}
    model = Model(applied.shape, asked, "voltage and current of the capacitor over one half of the line period", SOLVED)
    bleeder = sheet.values.get("R2.R")
    return Smoothing(
        applied.capacitor,
        sheet.solved("C1.I_C", wave.ripple_current, AMPERE, model, "ripple current of the capacitor, RMS"),
        peak,
        bleeder,
        None if bleeder is None else sheet.work("R2.P_n", smoothing.bleeder_rating, "rating of the resistor that empties it", V=peak, R=bleeder),
        sheet.solved("C1.U_r", wave.ripple_voltage, VOLT, model, "ripple of the capacitor at the hardest point, peak to peak"),
        without_capacitor(sheet, applied, hardest),
    )


@dataclass(frozen=True, slots=True)
class Iron:
    """A transformer as the circuit knows it: kind and name of the device, its terminals for line, neutral and the two ends of
    its output (an autotransformer's other end is its neutral), and what is inside."""

    kind: str
    name: str
    ends: tuple[str, str, str, str]
    terminals: tuple[str, ...]
    inside: tuple[Inside, ...]
    positions: tuple[str, ...] = ()
    place: str = "box"


@dataclass(frozen=True, slots=True)
class BridgeOutfit(Outfit):
    """A transformer of some kind with fuse, bridge and what smooths. `own` are the places of its iron, `zero` whether a contact
    holds start back while its dial is up; `brush` what its brush carries for long, None where it has none."""

    iron: Iron
    sizes: BridgeSizes
    supplied: Supplied
    own: tuple[Place, ...]
    own_settings: tuple[Setting, ...]
    own_text: str
    takes_idle: Value | None
    own_trials: tuple[Trial, ...] = ()
    starts: tuple[Value | None, Value | None] = (None, None)
    zero: bool = False
    brush: Value | None = None
    meets: HardStart | None = None

    @property
    def hard_start(self) -> HardStart | None:
        return self.meets

    def dangers(self) -> Iterator[Finding]:
        if self.brush is None:
            return
        if not self.brush.known:
            yield Finding("brush-rating-unknown", "stop", "WARNING", Said.of(f"Nobody knows what current the {self.iron.kind} gives for long."), GROOVE,
                          "Read it off its plate and write power: rated.", BRUSHES, ("T2",), key="power.rated", unknown=(self.brush,))  # fmt: skip
        elif self.sizes.fuse.known and self.sizes.fuse > self.brush:
            yield Finding("brush-too-small", "stop", "WARNING", Said.of("The fuse ahead of the bridge must be {0}; the brush may carry {1}.", self.sizes.fuse, self.brush), GROOVE,
                          "Take a larger one, lower the load, or leave the capacitor out: its pulses count.", BRUSHES, ("T2", "F5"), key="power.rated")  # fmt: skip

    @property
    def needed(self) -> tuple[Value, ...]:
        kept = self.sizes.smoothing
        return (self.sizes.fuse, self.sizes.direct_most, *((kept.capacitor, kept.ripple_current) if kept is not None else ()))

    @property
    def fuses(self) -> Mapping[str, Value]:
        return {"F5": self.sizes.fuse}

    @property
    def idle(self) -> Value | None:
        return self.takes_idle

    @property
    def direct_most(self) -> Value | None:
        return self.sizes.direct_most

    @property
    def lets_out(self) -> Value | None:
        return self.sizes.fuse

    @property
    def zero_contact(self) -> tuple[str, str] | None:
        return ("S8:11", "S8:12") if self.zero else None

    @property
    def settings(self) -> tuple[Setting, ...]:
        return self.own_settings

    @property
    def start_needs(self) -> tuple[Value | None, Value | None]:
        return self.starts

    @property
    def trials(self) -> tuple[Trial, ...]:
        return self.own_trials

    @property
    def facts(self) -> tuple[tuple[str, Words], ...]:
        return (("Fuse F5", (self.sizes.fuse, ", time-lag, between iron and bridge: the current there can be above the line's")), *self._smoothed())

    def _smoothed(self) -> tuple[tuple[str, Words], ...]:
        kept = self.sizes.smoothing
        if kept is None:
            return (("Smoothing", ("none: the motor's own inductance does it",)),)
        words: Words = ("ripple ", kept.ripple, " with ", kept.capacitor)
        if kept.bare is not None:
            words = (*words, "; without it the form factor would be ", kept.bare.form_factor, " and the current ahead of the bridge ", kept.bare.secondary)
        return (("Smoothing", words),)

    @property
    def texts(self) -> Mapping[str, str]:
        kept = self.sizes.smoothing
        return {
            "T1": f"{spelt(self.sizes.fuse)}, blocks {spelt(self.sizes.blocking)}",
            "T2": self.own_text,
            "F5": f"{spelt(self.sizes.fuse)}, time-lag",
            "S8": "closed at zero only",
            "C1": f"{spelt(kept.capacitor)}, {spelt(kept.stands)}" if kept is not None else "",
            "R2": f"{row_of(kept.bleeder)}, {spelt(kept.bleeder_rating)}" if kept is not None and kept.bleeder is not None else "",
        }

    @property
    def places(self) -> tuple[Place, ...]:
        sizes, volts, kept = self.sizes, self.supplied.voltage, self.sizes.smoothing
        made = [
            *self.own,
            Place(
                "output-fuse", "fuse", "Fuse ahead of the bridge",
                (Need("current", "=", sizes.fuse, "amperes"), Need("voltage", "≥", volts, "volts"), Need("supply", "=", "AC", "kind of supply"),
                 Need("lag", "=", "time-lag", "kind"), Need("origin", "=", "new", "origin", also=("bought",))),
                ("time-lag fuse, ", sizes.fuse, ", ", volts, " AC, and its finger-safe holder; two spares"), "F5", "nothing larger", safety=True,
            ),
            Place(
                "bridge", "bridge", "Rectifier bridge",
                (Need("current", "≥", sizes.fuse, "amperes"), Need("voltage", "≥", sizes.blocking, "volts that it blocks")),
                ("single-phase bridge rectifier with screw or push-on terminals and a metal base, ", sizes.fuse, " or more, blocks ", sizes.blocking, " or more, bolted flat to the box with heat paste"), "T1",
                "four diodes of twice the current each, on insulated heat sinks", proof="each of its four diodes reads one way only on the diode range",
            ),
        ]  # fmt: skip
        if kept is not None:
            made.append(
                Place(
                    "capacitor", "capacitor", "Smoothing capacitor",
                    (Need("capacitance", "=", kept.capacitor, "capacitance", 0.2), Need("voltage", "≥", kept.stands, "volts, DC"), Need("current", "≥", kept.ripple_current, "ripple current")),
                    ("electrolytic capacitor with screw terminals, ", kept.capacitor, ", ", kept.stands, " DC or more, ripple current ", kept.ripple_current, " or more at twice the line frequency"), "C1",
                    "several of the same kind side by side, whose capacitances and ripple currents add", safety=True,
                    proof="no bulge, no leak; reads its capacitance; charged through a lamp or resistor it keeps its voltage",
                )
            )  # fmt: skip
            if kept.bleeder is not None and kept.bleeder_rating is not None:
                made.append(
                    Place(
                        "bleeder", "resistor", "Resistor that empties it",
                        (Need("resistance", "=", kept.bleeder, "resistance", 0.1), Need("power", "≥", kept.bleeder_rating, "power"), Need("origin", "=", "new", "origin", also=("bought",))),
                        ("wire-wound resistor, ", kept.bleeder, ", ", kept.bleeder_rating, " or more, on the capacitor's own screws, with air round it"), "R2", "two of double the value side by side", safety=True,
                    )
                )  # fmt: skip
        return tuple(made)

    def wire(self, board: Board, feed: Feed, *, limit: float, texts: Mapping[str, str], metal: bool) -> tuple[str, str]:
        iron, fuse = self.iron, float(self.sizes.fuse)
        line, neutral, out, other = iron.ends
        board.add(
            Device(
                "T2", iron.kind, iron.name, texts["T2"], (*iron.terminals, "core") if metal else iron.terminals, iron.inside,
                positions=iron.positions, metal="core" if metal else "", place=iron.place, column=4, limits={name: fuse for name in (out, other) if name != neutral},
            )
        )  # fmt: skip
        if self.zero:
            board.add(
                Device(
                    "S8", "zero-switch", "Zero contact", texts["S8"], ("11", "12"), (Contact("11", "12", frozenset({"zero"})),), ("zero", "up"), place="box", column=3,
                )
            )  # fmt: skip
        board.add(Device("F5", "output-fuse", "Output fuse", texts["F5"], ("1", "2"), (Fuse("1", "2"),), trips_at=fuse, interrupts=self._breaks(board), place="box", column=5))
        ends = (*INPUTS, *OUTPUTS)
        board.add(
            Device(
                "T1", "drive", "Bridge", texts["T1"], (*ends, "case") if metal else ends, (Electronics(ends, "rectifies"),), metal="case" if metal else "",
                place="box", column=5, limits=dict.fromkeys(OUTPUTS, limit),
            )
        )  # fmt: skip
        board.wire(301, f"{feed[0]}", f"T2:{line}", "line", iron.place)
        board.wire(302, f"{feed[1]}", f"T2:{neutral}", "neutral", iron.place)
        board.wire(311, f"T2:{out}", "F5:1", "secondary", iron.place)
        board.wire(312, "F5:2", f"T1:{INPUTS[0]}", "secondary")
        board.wire(313, f"T2:{other}", f"T1:{INPUTS[1]}", "secondary", iron.place)
        self._wire_capacitor(board, texts)
        return f"T1:{OUTPUTS[0]}", f"T1:{OUTPUTS[1]}"

    def _wire_capacitor(self, board: Board, texts: Mapping[str, str]) -> None:
        kept = self.sizes.smoothing
        if kept is None:
            return
        board.add(Device("C1", "capacitor", "Capacitor", texts["C1"], ("+", "−"), (Capacitor("+", "−", float(kept.capacitor), float(kept.stands)),), place="box", column=6))
        board.wire(321, f"T1:{OUTPUTS[0]}", "C1:+", "secondary")
        board.wire(322, f"T1:{OUTPUTS[1]}", "C1:−", "secondary")
        if kept.bleeder is None:
            return
        ohms = float(kept.bleeder)
        board.add(Device("R2", "resistor", "Bleeder", texts["R2"], ("1", "2"), (Resistance("1", "2", *around("resistor", ohms)),), place="box", column=6))
        board.wire(323, "C1:+", "R2:1", "secondary")
        board.wire(324, "C1:−", "R2:2", "secondary")

    @staticmethod
    def _breaks(board: Board) -> float | None:
        """It is bought of the line fuse's kind."""
        line = board.devices.get("F1")
        return line.interrupts if line is not None else None
