"""Step-down transformer and bridge: bought, or a salvaged core rewound. One voltage, so one speed for one load. A rewound
core is simple separation at best: what lies behind it is wired as if it were the line.
"""

from collections.abc import Iterator
from typing import ClassVar, Literal

from pydantic import Field

from buildsheet.circuit import Winding
from buildsheet.circuit.netlist import Barrier
from buildsheet.citations import practice
from buildsheet.formulas import transformer as t
from buildsheet.formulas import windings
from buildsheet.formulas.choke import resistance_in_a_row
from buildsheet.formulas.conductors import copper_resistance
from buildsheet.formulas.motor import speed_share
from buildsheet.formulas.protection import current_of_power
from buildsheet.given.fields import Lengths, Ohms, Shares, Turns, VoltAmperes, Volts, WireAreas
from buildsheet.given.model import Given
from buildsheet.reference import Region
from buildsheet.sizing.finding import Finding, Said
from buildsheet.sizing.ohms import around, usual
from buildsheet.sizing.places import Need, Place
from buildsheet.sizing.spelt import spelt
from buildsheet.sizing.supply import Supplied
from buildsheet.sizing.waist import SOLVED, Applied, Point
from buildsheet.units import VOLT
from buildsheet.waveforms import DIODE_BRIDGE, Capacitor, Fed, Load, NotSolved, referred, smoothed_emf_for
from buildsheet.ways.bridge import Bridged, BridgeWay
from buildsheet.ways.fitted_bridge import BridgeOutfit, Iron, size_bridge
from buildsheet.ways.starting import work_start
from buildsheet.ways.way import Beside, HardStart, Outfit, Setting, Trial, Words
from buildsheet.worksheet import Model, Value, Worksheet, unknown

PRIMARY, SECONDARY = ("1", "2"), ("3", "4")


class Rewound(Given):
    """A salvaged core whose high-voltage winding has made room for one of your own."""

    high_winding: Literal["removed", "still there"] | None = Field(
        None, description="Whether the high-voltage winding is off the core. Unanswered keeps the packet a draft."
    )
    trial_turns: Turns = Field(description="Turns of a trial winding of thin insulated wire.", examples=["10"])
    trial: Volts = Field(description="Volts that these turns showed.", examples=["9.2 V"])
    trial_at: Volts = Field(description="Volts at the primary at that moment.", examples=["118 V"])
    primary: Ohms = Field(description="Resistance of the primary.", examples=["1.2 ohm"])
    turns: Turns = Field(description="Turns that you wound, or mean to wind.", examples=["28"])
    wire: WireAreas = Field(description="Copper of the wire that you wind with.", examples=["4 mm²"])
    turn_length: Lengths = Field(description="Length of one turn in the middle of the winding.", examples=["220 mm"])
    leg: Lengths = Field(description="Width of the middle leg.", examples=["35 mm"])
    stack: Lengths = Field(description="Height of the stack of sheets.", examples=["45 mm"])
    window_width: Lengths = Field(description="Width of the window that is free for the new winding.", examples=["18 mm"])
    window_height: Lengths = Field(description="Height of that window.", examples=["50 mm"])


class TransformerBridge(BridgeWay):
    """A transformer with a lower voltage, and a bridge behind it."""

    printed: ClassVar[str] = "Transformer"
    noun: ClassVar[str] = "transformer"
    icon: ClassVar[str] = "transformer"
    first: ClassVar[tuple[str, str, str]] = ("T2", *PRIMARY)
    stands_as: ClassVar[tuple[str, ...]] = ("transformer", "bridge")
    limits_air: ClassVar[str] = "iron limit"
    separates: ClassVar[str] = " Behind the transformer the voltage is low, but only a part that is marked for safe separation keeps the line out of it: wire and touch it like the line."

    way: Literal["transformer-bridge"] = Field(description="Way of powering.")
    line_voltage: Volts = Field(description="Voltage of its primary.", examples=["230 V"])
    rated: VoltAmperes = Field(description="Rating on its plate.", examples=["250 VA"])
    secondary: Volts = Field(description="Voltage of its secondary at full load, on its plate.", examples=["24 V"])
    open: Volts = Field(description="Voltage of its secondary without load, if measured.", examples=["26.5 V"])
    open_at: Volts = Field(description="Line voltage at that moment; the nominal one when it is left out.", examples=["234 V"])
    regulation: Shares = Field(description="Rise from full load to none, if its data give it.", examples=["8 %"])
    rewound: Rewound | None = Field(None, description="What is known of a core that is wound anew.")

    @property
    def links(self) -> tuple[str, ...]:
        first = "transformer" if self.rewound is None else "rewound transformer"
        return (first, *super().links[1:])

    @property
    def made_for(self) -> Value:
        return self.line_voltage

    @property
    def live_controls(self) -> bool | None:
        """Never: it has no control."""
        return False

    def dangers(self, beside: Beside) -> Iterator[Finding]:
        del beside
        if self.rewound is None or self.rewound.high_winding == "removed":
            return
        found = "The file does not say whether the high-voltage winding is off the core." if self.rewound.high_winding is None else "The high-voltage winding is still on the core."
        yield Finding("high-winding", "stop", "DANGER", Said.of(found), "It gives thousands of volts at a current that kills on the spot, through any insulation that a bench has, the moment the primary is fed.",
                      "Cut and drive it out before anything is powered, for the trial winding too, and write power: rewound: high_winding: removed.", practice("oven transformers"), ("T2",), electric=True, key="power.rewound.high_winding")  # fmt: skip

    def _regulation(self, sheet: Worksheet) -> Value:
        if self.regulation.known:
            return sheet.take(self.regulation)
        return sheet.pick("T2.r", "transformer_regulation", "high", "regulation of a transformer of this size", where="rating", at_most=self.rated)

    def open_voltages(self, sheet: Worksheet, supplied: Supplied) -> tuple[Value, Value]:
        label, highest = "open voltage of the secondary, on the nominal line", "the same, line at the top of its tolerance"
        own = self.rewound
        if own is not None:
            each = sheet.work("T2.v", windings.volts_per_turn, "volts for each turn, on the nominal line", V_t=own.trial, N=own.trial_turns, V_n=supplied.voltage, V_p=own.trial_at)
            most = sheet.work("T2.V_open", windings.open_voltage, label, N=own.turns, v=each)
        elif self.open.known:
            at = self.open_at if self.open_at.known else supplied.voltage
            most = sheet.work("T2.V_open", t.voltage_on_other_line, label, V=self.open, V_m=at, V_n=supplied.voltage)
        else:
            most = sheet.work("T2.V_open", t.voltage_without_load, label, V=self.secondary, r=self._regulation(sheet))
        return most, sheet.work("T2.V_open_max", t.voltage_on_other_line, highest, V=most, V_m=supplied.voltage, V_n=supplied.highest)

    def winding_resistance(self, sheet: Worksheet) -> Value:
        if self.windings.known:
            return sheet.take(self.windings)
        own, most = self.rewound, sheet.values["T2.V_open"]
        if own is None:
            rated = sheet.work("T2.I_n", t.winding_rated_current, "rated current of the secondary", S=self.rated, V=self.secondary)
            share = sheet.values["T2.r"] if "T2.r" in sheet.values else self._regulation(sheet)
            return sheet.work("T2.R_w", t.resistance_by_regulation, "resistance of its windings, seen from the secondary", V=self.secondary, r=share, I=rated)
        length = sheet.work("T2.l", windings.winding_length, "length of the new winding's wire", N=own.turns, l_m=own.turn_length)
        cold = sheet.assume("T2.T_w", "bench temperature", "temperature of the cold winding, whose pulses are the sharpest")
        new = sheet.work("T2.R_2", copper_resistance, "resistance of the new winding", l=length, A=own.wire, T=cold)
        old = sheet.work("T2.R_1", t.referred_resistance, "resistance of the primary, seen from the new winding", R=own.primary, V_1=self.line_voltage, V_2=most)
        return sheet.work("T2.R_w", resistance_in_a_row, "resistance of both windings, seen from the new one", R_1=new, R_2=old)

    def fit_out(
        self, sheet: Worksheet, region: Region, supplied: Supplied, applied: Applied, points: tuple[Point, ...], share: Value
    ) -> Outfit:
        if not isinstance(applied, Bridged):
            raise TypeError("not what this way applies")
        start = work_start(sheet, region, applied.loose, applied.winding)
        sizes = size_bridge(sheet, region, supplied, applied, points, share, start)
        ahead = turns = None
        if start is not None:
            turns = sheet.work("T2.x", t.dial_fraction, "secondary's voltage over the line's", V=applied.most, V_1=supplied.voltage)
            ahead = sheet.work("F1.I_st", t.auto_line_current, "line fuse, for the run-up", I_2=start, x=turns)
        needed = sheet.work("T2.S", t.apparent_power, "apparent power that the work takes", V=applied.most, I=sizes.secondary)
        _speed_there(sheet, applied, points)
        watts, own = sheet.values.get("power.idle~", self.idle), self.rewound
        idle = sheet.work("T2.I_0", current_of_power, "current that its iron takes, at the least", P=watts, V=supplied.voltage)
        iron = Iron(
            "transformer", "Transformer", (*PRIMARY, *SECONDARY), (*PRIMARY, *SECONDARY),
            (Winding(*PRIMARY, *(around("field winding", float(own.primary)) if own is not None and own.primary.known else usual("primary of a transformer")), part="primary"), Winding(*SECONDARY, *usual("secondary of a transformer"), part="secondary"),
             Barrier(PRIMARY[0], SECONDARY[0]), Barrier(PRIMARY[1], SECONDARY[1])),
        )  # fmt: skip
        trials = (
            Trial("F5", f"T2 · {SECONDARY[0]}", f"T2 · {SECONDARY[1]}", "", "the iron hums softly and stays cool for five minutes, and nothing smells.",
                  "secondary, open", (applied.most, " on a line of ", supplied.voltage, ", in proportion on another")),
        )
        meets = HardStart(applied.loose, applied.winding, supplied.highest, turns) if start is not None else None
        text = f"{spelt(supplied.voltage)} to {spelt(applied.most)} open"
        if own is None:
            return BridgeOutfit(iron, sizes, supplied, (self._bought(supplied, needed),), (), text, idle, trials, (ahead, start), meets=meets)
        return BridgeOutfit(iron, sizes, supplied, (_own_place(supplied, needed),), _wind(sheet, own, sizes.secondary, points), text, idle, trials, (ahead, start), meets=meets)

    def _bought(self, supplied: Supplied, needed: Value) -> Place:
        needs = (Need("apparent", "≥", needed, "rating"), Need("voltage", "=", supplied.voltage, "primary", 0.1), Need("secondary", "=", self.secondary, "secondary", 0.02))
        say: Words = ("transformer, ", supplied.voltage, " to ", self.secondary, ", ", needed, " or more, with screw terminals and a screw for its protective conductor")
        return Place("transformer", "transformer", "Transformer", needs, say, "T2", "one of more volt-amperes and the same voltages", safety=True, proof="OL from primary to secondary and to core; hums softly and stays cool without load for an hour")


def _own_place(supplied: Supplied, needed: Value) -> Place:
    say: Words = ("core of an oven transformer with a whole primary for ", supplied.voltage, ", its high-voltage winding out, good for ", needed, " or more")
    return Place("transformer", "transformer", "Core, wound anew", (), say, "T2", "a bought transformer", safety=True)


def _wind(sheet: Worksheet, own: Rewound, current: Value, points: tuple[Point, ...]) -> tuple[Setting, ...]:
    """How the core is wound: turns, wire, fill, what the iron may be good for."""
    hardest = max((point for point in points if point.setting.known), key=lambda point: float(point.setting), default=None)
    asked = hardest.setting if hardest is not None else unknown("T2.V_2", VOLT, "no operating point", "open voltage that the work asks for")
    each = sheet.values["T2.v"]
    turns = sheet.work("T2.N", windings.turns_at, "turns that the work asks for", V=asked, v=each)
    density = sheet.pick("T2.j", "current_density", "high", "current density of an enclosed winding", key="continuous, enclosed")
    wire = sheet.work("T2.a", windings.winding_wire_area, "copper of its wire, at the least", I=current, j=density)
    thick = sheet.work("T2.d", windings.bare_diameter, "bare diameter of such a wire", a=wire)
    window = sheet.work("T2.A_w", windings.window_area, "window that is free for it", w=own.window_width, h=own.window_height)
    fill = sheet.work("T2.fill", windings.fill_of_window, "share of the window that its copper takes", N=own.turns, a=own.wire, A_w=window)
    iron_share = sheet.pick("T2.k_i", "bench_limits", "value", "share of the stack that is iron", key="stack share")
    iron = sheet.work("T2.A_i", windings.net_iron, "net iron of the middle leg", a=own.leg, b=own.stack, k=iron_share)
    low, high = (
        sheet.work(f"T2.S_{end}", windings.core_rating, f"{word} rating that the core suggests", k=sheet.pick(f"T2.k_{end}", "core_rules", "constant", f"{word} constant of the rule", key=end), A=iron)
        for end, word in (("low", "least"), ("high", "greatest"))
    )
    length = sheet.values.get("T2.l", unknown("T2.l", own.turn_length.unit, "not in the file", "length of the wire"))
    return (
        Setting("Turns", (own.turns, " of ", own.wire, ", at ", each, " a turn; the work asks for ", turns), turned=False),
        Setting("Wire", ("at least ", wire, " of copper, ", thick, " bare; ", length, " and a metre to spare; the window is ", fill, " full"), turned=False),
        Setting("Iron", ("by a rule of thumb good for ", low, " to ", high, "; how warm it gets decides"), turned=False),
    )


def _speed_there(sheet: Worksheet, applied: Bridged, points: tuple[Point, ...]) -> None:
    """The speed that the voltage there is gives at the highest point's load, over the speed that was asked for."""
    point = points[-1] if points else None
    wave = point.wave if point is not None else None
    if point is None or point.emf is None or point.inductance is None or not isinstance(wave, Fed) or not isinstance(wave.behind.load, Load) or not applied.most.known:
        return
    load, source = wave.behind.load, referred(wave.line, float(applied.most), float(applied.winding))
    try:
        found = smoothed_emf_for(DIODE_BRIDGE, source, load.R, load.L, float(point.current), Capacitor(float(applied.capacitor) if applied.capacitor is not None else 0.0))
    except NotSolved:
        return
    asked = {**applied.inputs, "V_2": applied.most, "I_a": point.current, "L": point.inductance}
    model = Model(applied.shape, asked, "the back-EMF at which this voltage drives the work's current", SOLVED)
    there = sheet.solved("there.E", found.load.E if isinstance(found.load, Load) else 0.0, VOLT, model, "back-EMF that this voltage leaves at the work's current")
    sheet.work("there.k", speed_share, "speed that there is over the speed asked for", E=point.emf, E_1=there)
