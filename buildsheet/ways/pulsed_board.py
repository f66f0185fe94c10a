"""A drive board that takes its speed as a timed pulse: from the console of its old machine, or from a pulse source that stands in
for it. Level, current and widths are those of this very board: measured at its console before the scrap, not quoted.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import ClassVar, Literal

from pydantic import Field

from buildsheet.circuit import Device, Electronics, Winding
from buildsheet.circuit.builder import Board, Feed
from buildsheet.circuit.netlist import Barrier
from buildsheet.citations import practice
from buildsheet.formulas import signals as s
from buildsheet.formulas.cooling import bridge_loss
from buildsheet.given.fields import Amperes, Flags, PartTemperatures, Times, Volts
from buildsheet.reference import Region
from buildsheet.sizing.finding import Finding, Said
from buildsheet.sizing.ohms import usual
from buildsheet.sizing.places import Need, Place
from buildsheet.sizing.spelt import row_of, spelt
from buildsheet.sizing.supply import Supplied
from buildsheet.sizing.waist import Applied, Point
from buildsheet.ways.drive import OUTPUTS
from buildsheet.ways.phase_drive import phase_control
from buildsheet.ways.salvaged import Whereabouts, left_behind, limit_of_old_motor
from buildsheet.ways.way import Beside, Control, Outfit, Setting, Way, Words
from buildsheet.worksheet import Value, Worksheet

SIGNAL = ("S+", "S−")
CONSOLES = practice("boards that take their speed from a console")


class PulsedBoard(Way):
    """A salvaged board without terminals for a potentiometer."""

    printed: ClassVar[str] = "Kept pulse board"
    noun: ClassVar[str] = "board"
    stands_as: ClassVar[tuple[str, ...]] = ("magnet-motor drive",)
    control: ClassVar[Control | None] = Control("pulse source", "slow", "fast", wired=True)

    way: Literal["pulsed-board"] = Field(description="Way of powering.")
    line_voltage: Volts = Field(description="Line voltage that the board is made for.", examples=["120 V"])
    output_high: Volts = Field(description="Most average output that it gave in its old machine.", examples=["95 V"])
    rated: Amperes = Field(description="Output current that it may give for long, as it is cooled here.", examples=["8 A"])
    drop: Volts = Field(description="Drop along its path, if measured.", examples=["2.2 V"])
    current_limit: Amperes = Field(description="Setting of its current limit.", examples=["6 A"])
    hottest_air: PartTemperatures = Field(description="Hottest air around it that its data allow.", examples=["50 degC"])
    separation: Literal["none", "galvanic"] | None = Field(
        None, description="Whether its signal terminals are separated from the line. Unanswered keeps the packet a draft."
    )
    speed_by: Literal["console", "pulse source"] | None = Field(None, description="What gives it its pulses here.")
    period: Times = Field(description="Time from pulse to pulse, as its console gave it.", examples=["50 ms"])
    slow_width: Times = Field(description="Width of the pulse at a low speed.", examples=["5 ms"])
    slow_output: Volts = Field(description="What the board then gave.", examples=["20 V"])
    fast_width: Times = Field(description="Width of the pulse at a high speed.", examples=["30 ms"])
    fast_output: Volts = Field(description="What the board then gave.", examples=["90 V"])
    level: Volts = Field(description="Level of the pulses that the source gives.", examples=["5 V"])
    input_current: Amperes = Field(description="Current that the board's input wants while a pulse lasts.", examples=["8 mA"])
    input_drop: Volts = Field(description="Voltage across its input while that flows.", examples=["1.2 V"])
    starts_from_zero: Flags = Field(None, description="Whether it refuses to start until its signal was at zero.")
    without_pulses: Literal["stops", "full speed"] | None = Field(None, description="What it does when no pulse comes.")
    old_current: Amperes = Field(description="Current on the plate of the motor that it drove.", examples=["8 A"])
    choke: Whereabouts | None = Field(None, description="Where the choke of its old machine is.")
    transformer: Whereabouts | None = Field(None, description="Where the small transformer of its console is.")
    harness: Whereabouts | None = Field(None, description="Where its plugs and wires are.")

    def applied(self, sheet: Worksheet, supplied: Supplied) -> Applied:
        return phase_control(sheet, supplied, self.drop, self.output_high)

    def loss(self, sheet: Worksheet, applied: Applied, current: Value, points: tuple[Point, ...]) -> Value:
        del points
        return sheet.work("heat.P_drive", bridge_loss, "heat of the board", U_d=applied.drops["U_path"], I=current)

    @property
    def made_for(self) -> Value:
        return self.line_voltage

    @property
    def output_most(self) -> Value:
        return self.output_high

    @property
    def air_most(self) -> Value | None:
        return self.hottest_air

    @property
    def gives(self) -> Value | None:
        return self.rated

    @property
    def current_limit_set(self) -> Value | None:
        return self.current_limit

    def dangers(self, beside: Beside) -> Iterator[Finding]:
        if self.speed_by is None:
            yield Finding("speed-signal-unknown", "stop", "WARNING", Said.of("The file does not say what gives the board its pulses."), "A board that gets none may stand still, or run to the full.",
                          "Write power: speed_by: console or pulse source, after its pulses are measured at the old console.", CONSOLES, ("T1",), key="power.speed_by")  # fmt: skip
        if self.speed_by == "console" and self.transformer != "kept":
            yield Finding("console-without-transformer", "stop", "WARNING", Said.of("The console is kept, and the small transformer that fed it is not."), "Its voltage belongs to this console: another one burns it, or the board never starts.",
                          "Get it back out of the scrap and write power: transformer: kept, or take a pulse source.", CONSOLES, ("T1",), key="power.transformer")  # fmt: skip
        yield from left_behind({"choke": self.choke, "transformer": self.transformer, "harness": self.harness}, beside)
        yield from limit_of_old_motor(self.old_current, self.current_limit, beside)

    @property
    def broken_low_end(self) -> Literal["stops", "full speed"] | None:
        return self.without_pulses

    @property
    def waits_for_zero(self) -> bool | None:
        return self.starts_from_zero

    @property
    def live_controls(self) -> bool | None:
        return None if self.separation is None else self.separation == "none"

    def fit_out(
        self, sheet: Worksheet, region: Region, supplied: Supplied, applied: Applied, points: tuple[Point, ...], share: Value
    ) -> Outfit:
        del region, share
        widths = []
        for point in points:
            width = sheet.work(f"{point.tag}.w", s.pulse_width, f"width of the pulse, {point.label}", V=point.terminal, V_1=self.slow_output, w_1=self.slow_width, V_2=self.fast_output, w_2=self.fast_width)
            duty = sheet.work(f"{point.tag}.D", s.duty_of_pulse, f"its share of the period, {point.label}", w=width, T=self.period)
            mean = sheet.work(f"{point.tag}.V_w", s.mean_of_pulse, f"what a meter shows of it, {point.label}", V=self.level, D=duty)
            widths.append((width, duty, mean))
        need = sheet.work("R9.R_need", s.signal_resistor, "resistor in the signal lead, at the most", V=self.level, U=self.input_drop, I=self.input_current)
        resistor = sheet.pick("R9.R", "resistors_e12", "resistance", "resistor in the signal lead", at_most=need)
        return PulsedOutfit(self, supplied, applied, tuple(widths), resistor)


@dataclass(frozen=True, slots=True)
class PulsedOutfit(Outfit):
    """A board with what gives it its pulses: width, share of the period and mean at each point, the resistor in the lead."""

    board: PulsedBoard
    supplied: Supplied
    applied: Applied
    widths: tuple[tuple[Value, Value, Value], ...]
    resistor: Value

    @property
    def _console(self) -> bool:
        return self.board.speed_by == "console"

    @property
    def needed(self) -> tuple[Value, ...]:
        return () if self._console else (self.resistor, self.board.level, self.board.period)

    @property
    def facts(self) -> tuple[tuple[str, Words], ...]:
        if self._console:
            return (("Speed signal", ("from its own console, which keeps its small transformer and its plugs: the board waits for what the console says at switching on",)),)
        return (("Speed signal", (self.board.level, " pulses every ", self.board.period, " through ", self.resistor, ", in the place of the console")),)

    @property
    def settings(self) -> tuple[Setting, ...]:
        limit = self.board.current_limit
        rows = [Setting("Current limit", (limit,) if limit.known else ("as low as the work allows",))]
        if self.widths and not self._console:
            for word, (width, duty, mean) in zip(("slowest", "fastest"), (self.widths[0], self.widths[-1]), strict=True):
                rows.append(Setting(f"Pulse, {word}", (width, ", ", duty, " of the period; a meter on DC shows ", mean)))
        return tuple(rows)

    @property
    def texts(self) -> Mapping[str, str]:
        return {
            "T1": "not separated from the line" if self.board.live_controls is not False else "its signal alone separated",
            "A9": "of the old machine" if self._console else f"{spelt(self.board.level)}, {row_of(self.resistor)} inside",
            "T3": f"{spelt(self.supplied.voltage)} to some 16 V",
        }

    @property
    def places(self) -> tuple[Place, ...]:
        board = self.board
        kept = Place("drive", "drive", "Kept pulse board", (), ("the board of the motor's old machine, ", self.supplied.voltage, " in, ", self.applied.ceiling, " DC out, ", board.rated), "T1", "the drive named in your file; another one changes this packet")
        if self._console:
            return (
                kept,
                Place("console", "console", "Console", (), ("the console of the same machine, with its cable and plugs uncut",), "A9", "a pulse source, once its pulses are measured", safety=True),
                Place("console-transformer", "transformer", "Console's transformer", (Need("voltage", "=", self.supplied.voltage, "primary", 0.1),), ("the small transformer of the console, ", self.supplied.voltage, " to about 16 V"), "T3", "nothing else: its voltage belongs to the console", safety=True,
                      proof="OL from primary to secondary; stays cool for an hour"),
            )  # fmt: skip
        insulated = ", in an insulating case with an insulating knob" if board.live_controls is not False else ""
        say: Words = ("pulse source with a battery of its own, ", board.level, " pulses every ", board.period, ", width by a knob from ", *((self.widths[0][0], " to ", self.widths[-1][0]) if self.widths else ("slow", " to ", "fast")), ", ", self.resistor, f" in its plus lead{insulated}")
        return (kept, Place("pulse-source", "pulse source", "Pulse source", (), say, "A9", "a small programmed board that gives the same pulses, tried on the bench first"))

    def wire(self, board: Board, feed: Feed, *, limit: float, texts: Mapping[str, str], metal: bool) -> tuple[str, ...]:
        """The board and what gives it its pulses: wires 301 and 302, 501 and 502; a console's transformer 305 to 308."""
        ends = ("L", "N", *OUTPUTS, *SIGNAL)
        loose = frozenset() if self.board.without_pulses == "stops" else frozenset(SIGNAL)
        board.add(
            Device(
                "T1", "drive", "Pulse board", texts["T1"], (*ends, "case") if metal else ends, (Electronics(ends, "controls"),), metal="case" if metal else "",
                place="box", column=4, limits=dict.fromkeys(OUTPUTS, limit), control=SIGNAL, unleashed_by=loose,
            )
        )  # fmt: skip
        board.wire(301, f"{feed[0]}", "T1:L", "line")
        board.wire(302, f"{feed[1]}", "T1:N", "neutral")
        live = self.board.live_controls is not False
        if self._console:
            inside = (Electronics(("+", "−", "~1", "~2"), "signals"),)
            board.add(Device("A9", "pulse-source", "Console", texts["A9"], ("+", "−", "~1", "~2"), inside, place="panel", column=5, touched=live))
            windings = (Winding("1", "2", *usual("primary of a transformer"), part="primary"), Winding("3", "4", *usual("secondary of a transformer"), part="secondary"), Barrier("1", "3"), Barrier("2", "4"))
            board.add(Device("T3", "transformer", "Console's transformer", texts["T3"], ("1", "2", "3", "4"), windings, place="box", column=4))
            board.wire(305, "T1:L", "T3:1", "line")
            board.wire(306, "T1:N", "T3:2", "neutral")
            board.wire(307, "T3:3", "A9:~1", "signal", "panel", colour=board.conductors["signal"].colours[2])
            board.wire(308, "T3:4", "A9:~2", "signal", "panel", colour=board.conductors["signal"].colours[2])
        else:
            board.add(Device("A9", "pulse-source", "Pulse source", texts["A9"], ("+", "−"), (Electronics(("+", "−"), "signals"),), place="panel", column=5, touched=live))
        for index, (mine, its) in enumerate(zip(SIGNAL, ("+", "−"), strict=True)):
            board.wire(501 + index, f"T1:{mine}", f"A9:{its}", "signal", "panel", colour=board.conductors["signal"].colours[index], cable="W2")
        return f"T1:{OUTPUTS[0]}", f"T1:{OUTPUTS[1]}"
