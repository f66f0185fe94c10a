"""A triac speed control that was made for brush-type tools, and a bridge behind it: a magnet motor on what is left of the line.

The bridge folds both halves of the line to one side, so that the firing angle sets the speed. Over the first part of its
knob nothing happens; then the motor starts with a kick. Off is not dead: its snubber passes a little current.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import ClassVar, Literal

from pydantic import Field

from buildsheet.circuit import Device, Electronics, Link
from buildsheet.circuit.builder import Board, Feed
from buildsheet.citations import practice
from buildsheet.formulas.cooling import bridge_loss
from buildsheet.formulas.induction import capacitor_current
from buildsheet.formulas.protection import full_bridge_average, peak_voltage
from buildsheet.formulas.transformer import bridge_blocking_voltage
from buildsheet.given.fields import Amperes, Farads, Volts
from buildsheet.reference import Region
from buildsheet.sizing.finding import Finding, Said
from buildsheet.sizing.places import Need, Place
from buildsheet.sizing.spelt import spelt
from buildsheet.sizing.supply import Supplied
from buildsheet.sizing.waist import SOLVED, Applied, Point, Rectified
from buildsheet.units import RADIAN
from buildsheet.waveforms import DIODE_BRIDGE, TRIAC_BRIDGE, Load, NotSolved, Source, Steady, firing_angle_for
from buildsheet.ways.fitted_bridge import INPUTS, OUTPUTS
from buildsheet.ways.way import Control, Outfit, Setting, Way, Words
from buildsheet.worksheet import Model, Value, Worksheet

LARGEST_SNUBBER = 1e-6
BOXES = practice("speed boxes of brush-type tools")
ENDS = ("L1", "N1", "L2", "N2")  # line in, line out


class SpeedBox(Way):
    """A speed box for brush-type tools with a bridge behind it."""

    printed: ClassVar[str] = "Speed box"
    noun: ClassVar[str] = "speed box"
    icon: ClassVar[str] = "knob"
    first: ClassVar[tuple[str, str, str]] = ("T2", *ENDS[:2])
    stands_as: ClassVar[tuple[str, ...]] = ("brush-tool speed box", "bridge")
    control: ClassVar[Control | None] = Control("knob", "slow", "fast")
    separates: ClassVar[str] = " The box is no switch: turned off, its snubber still passes current, and everything behind it can be felt."

    way: Literal["speed-box"] = Field(description="Way of powering.")
    line_voltage: Volts = Field(description="Line voltage that the box is made for.", examples=["120 V"])
    rated: Amperes = Field(description="Current on its plate.", examples=["15 A"])
    drop: Volts = Field(description="Drop of triac and bridge, three junctions in a row, if measured.", examples=["3.2 V"])
    snubber: Farads = Field(description="Capacitor across its triac, if you looked.", examples=["100 nF"])

    def applied(self, sheet: Worksheet, supplied: Supplied) -> Applied:
        drop = sheet.known_or_assumed(self.drop, "speed box drop")
        full = sheet.work("bridge.V_full", full_bridge_average, "most average volts behind the bridge, current without gaps", V=supplied.voltage, U_d=drop)
        return Rectified("bridge behind a triac", TRIAC_BRIDGE, supplied.voltage, supplied.line_frequency, drop, full, DIODE_BRIDGE, supplied.highest)

    def reach(self, applied: Applied, point: Point) -> tuple[Value, Value]:
        """A point that asks for more than full conduction has no solution, which is told by itself."""
        del applied
        return point.terminal, point.terminal

    def loss(self, sheet: Worksheet, applied: Applied, current: Value, points: tuple[Point, ...]) -> Value:
        del points
        return sheet.work("heat.P_drive", bridge_loss, "heat of triac and bridge", U_d=applied.drops["U_path"], I=current)

    @property
    def made_for(self) -> Value:
        return self.line_voltage

    @property
    def gives(self) -> Value | None:
        return self.rated

    @property
    def waits_for_zero(self) -> bool | None:
        return False

    @property
    def live_controls(self) -> bool | None:
        """Never outside its case: no wire of its knob leaves it."""
        return False

    def fit_out(
        self, sheet: Worksheet, region: Region, supplied: Supplied, applied: Applied, points: tuple[Point, ...], share: Value
    ) -> Outfit:
        del region, share
        peak = sheet.work("T1.V_peak", peak_voltage, "peak of the line at the top of its tolerance", V=supplied.highest)
        blocking = sheet.work("T1.V_need", bridge_blocking_voltage, "voltage that each diode should block", V_m=peak)
        farads = sheet.known_or_assumed(self.snubber, "snubber of a speed box")
        leak = sheet.work("T2.I_off", capacitor_current, "current that its snubber passes when it is off", f=supplied.line_frequency, C=farads, V=supplied.highest)
        begins = _kick(sheet, applied, points)
        largest = max((point.current for point in points if point.current.known), key=float, default=self.rated)
        return BoxOutfit(self, supplied, leak, begins, largest, blocking)


def _kick(sheet: Worksheet, applied: Applied, points: tuple[Point, ...]) -> Value:
    """The firing angle at which the standing motor begins to turn: the one that drives the no-load current at standstill."""
    label = "firing angle at which it begins to turn"
    free = sheet.values.get("motor.free_run.current", sheet.values.get("motor.I_0"))
    wave = points[0].wave if points else None
    inductance = points[0].inductance if points else None
    if inductance is None or free is None or not free.known or not isinstance(wave, Steady) or not isinstance(wave.load, Load):
        return sheet.unsolved("begin.alpha", RADIAN, "no operating point", label)
    try:
        source = Source(float(applied.voltage), wave.source.frequency, drop=wave.source.drop)
        found = firing_angle_for(TRIAC_BRIDGE, source, wave.load.R, wave.load.L, 0.0, float(free))
    except NotSolved as refusal:
        return sheet.unsolved("begin.alpha", RADIAN, str(refusal), label)
    asked = {**applied.inputs, "I_0": free, "L": inductance}
    model = Model("bridge behind a triac, motor at standstill", asked, "the angle at which the current that its own losses take flows", SOLVED)
    return sheet.solved("begin.alpha", found.alpha, RADIAN, model, label)


@dataclass(frozen=True, slots=True)
class BoxOutfit(Outfit):
    """A speed box, and the bridge behind it that blocks `blocking`; None for a box straight on its motor."""

    box: SpeedBox
    supplied: Supplied
    leak: Value
    begins: Value
    largest: Value
    blocking: Value | None = None

    def dangers(self) -> Iterator[Finding]:
        if self.box.snubber.known and float(self.box.snubber) > LARGEST_SNUBBER:
            yield Finding("snubber-large", "stop", "WARNING", Said.of("A capacitor of {0} across the triac passes {1} when the box is off.", self.box.snubber, self.leak), "A motor without load may turn on that, and what is behind a box that is off kills.",
                          "Look again: boxes of this size have some tens to hundreds of nanofarads.", BOXES, ("T2",), key="power.snubber")  # fmt: skip

    @property
    def facts(self) -> tuple[tuple[str, Words], ...]:
        return (
            ("Where it begins", ("nothing turns until the knob's firing angle is down to ", self.begins, "; there it starts with a kick, and can then be turned back a little")),
            ("Turned off", ("its snubber passes up to ", self.leak, ": only the disconnect makes what is behind it dead")),
        )

    @property
    def settings(self) -> tuple[Setting, ...]:
        return (Setting("Marks at its knob", ("one where the motor just starts by itself, which is its slow end and where an inner trim belongs; one each where the tool has its slowest and its fastest speed under work",), turned=False),)

    @property
    def texts(self) -> Mapping[str, str]:
        own = {"T2": f"{spelt(self.box.rated)}, for brush motors"}
        return own if self.blocking is None else own | {"T1": f"blocks {spelt(self.blocking)}"}

    @property
    def places(self) -> tuple[Place, ...]:
        volts = self.supplied.voltage
        box = Place(
            "speed-box", "speed box", "Speed box", (Need("current", "≥", self.largest, "amperes"), Need("voltage", "=", volts, "line voltage", 0.1)),
            ("speed control for brush-type tools, ", volts, ", ", self.box.rated, ", with a knob and two screws or leads each for line and load"), "T2", "the one named in your file; another one changes this packet",
        )  # fmt: skip
        if self.blocking is None:
            return (box,)
        bridge = Place(
            "bridge", "bridge", "Rectifier bridge", (Need("current", "≥", self.largest, "amperes"), Need("voltage", "≥", self.blocking, "volts that it blocks")),
            ("single-phase bridge rectifier with screw or push-on terminals and a metal base, ", self.largest, " or more, blocks ", self.blocking, " or more, bolted flat to the box with heat paste"), "T1",
            "the one of the motor's old machine", proof="each of its four diodes reads one way only on the diode range",
        )  # fmt: skip
        return box, bridge

    def wire(self, board: Board, feed: Feed, *, limit: float, texts: Mapping[str, str], metal: bool) -> tuple[str, str]:
        board.add(Device("T2", "speed-control", "Speed box", texts["T2"], ENDS, (Electronics((ENDS[0], ENDS[2]), "controls"), Link(ENDS[1], ENDS[3])), place="panel", column=4))
        board.wire(301, f"{feed[0]}", f"T2:{ENDS[0]}", "line", "panel")
        board.wire(302, f"{feed[1]}", f"T2:{ENDS[1]}", "neutral", "panel")
        if self.blocking is None:
            return f"T2:{ENDS[2]}", f"T2:{ENDS[3]}"
        ends = (*INPUTS, *OUTPUTS)
        board.add(
            Device(
                "T1", "drive", "Bridge", texts["T1"], (*ends, "case") if metal else ends, (Electronics(ends, "rectifies"),), metal="case" if metal else "",
                place="box", column=5, limits=dict.fromkeys(OUTPUTS, limit),
            )
        )  # fmt: skip
        board.wire(312, f"T2:{ENDS[2]}", f"T1:{INPUTS[0]}", "line", "panel")
        board.wire(313, f"T2:{ENDS[3]}", f"T1:{INPUTS[1]}", "neutral", "panel")
        return f"T1:{OUTPUTS[0]}", f"T1:{OUTPUTS[1]}"
