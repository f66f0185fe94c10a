"""A diode bridge behind a voltage that iron sets, with or without a capacitor: what a transformer and a variable
autotransformer have in common. The voltage ahead of the bridge sets the speed; nothing in it can fail to full speed.
"""

from abc import abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from pydantic import Field

from buildsheet.formulas import smoothing, transformer
from buildsheet.formulas.controls import divider_power
from buildsheet.formulas.cooling import bridge_loss, total_heat
from buildsheet.formulas.motor import back_emf
from buildsheet.formulas.protection import full_bridge_average, peak_voltage
from buildsheet.formulas.supplies import source_resistance
from buildsheet.given.fields import Farads, Ohms, Volts, Watts
from buildsheet.sizing.supply import Supplied
from buildsheet.sizing.waist import LOOSE, SOLVED, Applied, Point, Setting, Wave
from buildsheet.units import AMPERE, NUMBER, VOLT
from buildsheet.waveforms import (
    DIODE_BRIDGE,
    Capacitor,
    Fed,
    Load,
    NotSolved,
    Source,
    back_emf_for,
    voltage_for,
)
from buildsheet.ways.way import Way
from buildsheet.worksheet import Model, Value, Worksheet

GAPS = "that holds for a current without gaps; here it stops in each pulse, and the motor's own voltage stands on the terminals meanwhile, so a lower voltage will do"
SMOOTHED = "that holds for a capacitor without end; the ripple, and the drop in the windings under the capacitor's short pulses, ask for more"


@dataclass(frozen=True, slots=True)
class Bridged:
    """A bridge behind a transformer. `voltage` and `highest` are the line's, `most` the greatest voltage ahead of the bridge
    on the nominal line, `loose` the same at the top of the line's tolerance and without load; `line` the resistance of
    the line, `winding` that of the transformer seen from its secondary; `capacitor` None without one."""

    voltage: Value
    highest: Value
    frequency: Value
    line: Value
    winding: Value
    drop: Value
    capacitor: Value | None
    most: Value
    loose: Value
    full: Value
    ceiling: Value
    shape: str
    period: str = "one half of the line period"
    fault: str = "pulsating"
    direct: bool = False

    @property
    def gaps(self) -> str:
        return GAPS if self.capacitor is None else SMOOTHED

    @property
    def setting(self) -> Setting:
        return Setting("V_2", VOLT, "open voltage ahead of the bridge")

    @property
    def drops(self) -> Mapping[str, Value]:
        return {"U_path": self.drop}

    @property
    def inputs(self) -> Mapping[str, Value]:
        return {"V_s": self.voltage, "f": self.frequency, "R_s": self.line, "R_w": self.winding} | ({"C": self.capacitor} if self.capacitor is not None else {})

    def solve(self, R: float, L: float, E: float, current: float, drop: float, farads: float) -> Fed:
        """What flows with so many farads."""
        line = Source(float(self.voltage), float(self.frequency), float(self.line), drop)
        return voltage_for(DIODE_BRIDGE, line, float(self.winding), R, L, E, current, Capacitor(farads))

    def wave(self, R: float, L: float, E: float, current: float, drops: tuple[float, ...]) -> Wave:
        return self.solve(R, L, E, current, drops[0], float(self.capacitor) if self.capacitor is not None else 0.0)

    def set_to(self, wave: Wave) -> float:
        if not isinstance(wave, Fed):
            raise TypeError("not a wave of a bridge behind a transformer")
        return wave.rms

    def textbook(self, sheet: Worksheet, id: str, label: str, terminal: Value, drops: tuple[Value, ...]) -> Value:
        formula = transformer.bridge_input_voltage if self.capacitor is None else transformer.capacitor_input_voltage
        return sheet.work(id, formula, f"voltage ahead of the bridge by the textbook, {label}", V=terminal, U_d=drops[0])

    def loose_emf(self, sheet: Worksheet, R: Value, L: Value, I_0: Value, U_b: Value) -> Value:
        if self.capacitor is not None:  # behind its capacitor the voltage hardly moves, and a steady current feels no inductance
            peak = sheet.work("runaway.V", peak_voltage, "peak of the greatest voltage ahead of the bridge", V=self.loose)
            return sheet.work("runaway.E", back_emf, LOOSE, V=peak, I=I_0, R=R, U_b=U_b)
        asked = {"V_2": self.loose, "f": self.frequency, "R": R, "L": L, "I_0": I_0}
        missing = tuple(value for value in asked.values() if not value.known)
        if missing:
            return sheet.unsolved("runaway.E", VOLT, f"needs {missing[0].label}", LOOSE, missing)
        try:
            source = Source(float(self.loose), float(self.frequency))
            wave = back_emf_for(DIODE_BRIDGE, source, float(R), float(L), float(I_0))
        except NotSolved as refusal:
            return sheet.unsolved("runaway.E", VOLT, str(refusal), LOOSE)
        model = Model(DIODE_BRIDGE.label, asked, "the back-EMF at which the bridge still drives the no-load current", SOLVED)
        return sheet.solved("runaway.E", wave.load.E, VOLT, model, LOOSE)


class BridgeWay(Way):
    """A transformer and a diode bridge."""

    runaway_by: ClassVar[str] = "Runaway: the greatest voltage that the iron can give, the line at its highest, no load. A shorted diode blows a fuse."

    capacitor: Farads = Field(description="Smoothing capacitor behind the bridge, if there is to be one.", examples=["1500 µF"])
    drop: Volts = Field(description="Drop of the bridge, both diodes in a row, if measured.", examples=["1.8 V"])
    windings: Ohms = Field(description="Resistance of its windings, seen from the output.", examples=["0.4 ohm"])
    idle: Watts = Field(description="Power that it takes running idle, if measured.", examples=["8 W"])

    @property
    def links(self) -> tuple[str, ...]:
        return (*self.stands_as, "capacitor") if self.capacitor.known else self.stands_as

    @abstractmethod
    def open_voltages(self, sheet: Worksheet, supplied: Supplied) -> tuple[Value, Value]:
        """Greatest open voltage ahead of the bridge on the nominal line, and at the top of its tolerance."""

    @abstractmethod
    def winding_resistance(self, sheet: Worksheet) -> Value:
        """Resistance of its windings, seen from its output."""

    def applied(self, sheet: Worksheet, supplied: Supplied) -> Applied:
        drop = sheet.known_or_assumed(self.drop, "bridge drop")
        most, loose = self.open_voltages(sheet, supplied)
        if self.capacitor.known:
            full = sheet.work("bridge.V_full", smoothing.capacitor_peak, "most volts behind the bridge, without load", V=most, U_d=drop)
        else:
            full = sheet.work("bridge.V_full", full_bridge_average, "average volts behind the bridge at full voltage, current without gaps", V=most, U_d=drop)
        return Bridged(
            sheet.take(supplied.voltage),
            supplied.highest,
            sheet.take(supplied.line_frequency),
            sheet.work("line.R_s", source_resistance, "resistance of the line, as its fault current shows it", V=supplied.voltage, I_s=supplied.fault),
            self.winding_resistance(sheet),
            drop,
            sheet.take(self.capacitor) if self.capacitor.known else None,
            most,
            loose,
            full,
            full,
            "bridge behind a transformer" + (", with a capacitor" if self.capacitor.known else ""),
        )

    def reach(self, applied: Applied, point: Point) -> tuple[Value, Value]:
        """The voltage ahead of the bridge that a point asks for, and the most that there is."""
        return point.setting, applied.most if isinstance(applied, Bridged) else applied.ceiling

    def loss(self, sheet: Worksheet, applied: Applied, current: Value, points: tuple[Point, ...]) -> Value:
        """The bridge, the windings, the iron, and the resistor that empties a capacitor."""
        if not isinstance(applied, Bridged):
            raise TypeError("not what this way applies")
        behind = secondary_currents(sheet, applied, points)
        largest = max((one for one in behind if one.known), key=float, default=behind[-1])
        bridge = sheet.work("heat.P_bridge", bridge_loss, "heat of the bridge", U_d=applied.drop, I=current)
        idle = sheet.known_or_assumed(self.idle, "idle power of a transformer")
        iron = sheet.work("heat.P_T2", transformer.transformer_loss, f"heat of the {self.noun}", I=largest, R=applied.winding, P_0=idle)
        bleeder = self._bleeder(sheet, applied)
        if bleeder is None:
            return sheet.work("heat.P_drive", total_heat, f"heat of the {self.noun} and its bridge", P_1=bridge, P_2=iron)
        both = sheet.work("heat.P_both", total_heat, f"heat of the {self.noun} and its bridge", P_1=bridge, P_2=iron)
        volts = sheet.work("C1.V", smoothing.capacitor_peak, "volts on the capacitor at the most, on the nominal line", V=applied.most, U_d=applied.drop)
        heat = sheet.work("heat.P_R2", divider_power, "heat of the resistor that empties the capacitor", V=volts, R=bleeder)
        return sheet.work("heat.P_drive", total_heat, f"heat of {self.noun}, bridge and resistor", P_1=both, P_2=heat)

    def _bleeder(self, sheet: Worksheet, applied: Bridged) -> Value | None:
        """The resistor that brings the capacitor below the safe voltage in its time; None where it never is above it."""
        if applied.capacitor is None:
            return None
        peak = sheet.work("C1.V_most", peak_voltage, "most volts on the capacitor, line at the top of its tolerance", V=applied.loose)
        safe = sheet.pick("C1.V_s", "bench_limits", "value", "voltage that a capacitor may keep", key="safe charge")
        if not peak.known or float(peak) <= float(safe):
            return None
        time = sheet.pick("C1.t_s", "bench_limits", "value", "time to get there", key="safe charge time")
        wide = sheet.pick("C1.p", "bench_limits", "value", "tolerance of an electrolytic capacitor, upwards", key="capacitor tolerance")
        held = sheet.work("C1.C_high", transformer.largest_capacitance, "capacitance at the top of its tolerance", C=applied.capacitor, p=wide)
        need = sheet.work("R2.R_need", smoothing.bleeder_resistance, "resistor that empties it in time, at the most", t=time, C=held, V_0=peak, V_s=safe)
        rough = sheet.pick("R2.p", "bench_limits", "value", "tolerance of a resistor", key="resistor tolerance")
        marked = sheet.work("R2.R_marked", transformer.resistance_with_tolerance, "its marked value, at the most", R=need, p=rough)
        return sheet.pick("R2.R", "resistors_e12", "resistance", "resistor that empties the capacitor", at_most=marked)


def secondary_currents(sheet: Worksheet, applied: Bridged, points: tuple[Point, ...]) -> tuple[Value, ...]:
    """RMS current ahead of the bridge at each point; worked once."""
    return tuple(
        sheet.values[f"{point.tag}.I_2"]
        if f"{point.tag}.I_2" in sheet.values
        else sheet.work(f"{point.tag}.I_2", transformer.secondary_current, f"current ahead of the bridge, RMS, {point.label}", I_1=point.line, V_1=applied.voltage, V_2=point.setting)
        for point in points
    )


@dataclass(frozen=True, slots=True)
class Compared:
    """The hardest point with and without the capacitor: form factor, current ahead of the bridge and from the line."""

    form_factor: Value
    secondary: Value
    line: Value


def without_capacitor(sheet: Worksheet, applied: Bridged, point: Point) -> Compared | None:
    """The same point with the capacitor left out; None where there is none or the point was not solved."""
    wave = point.wave
    if applied.capacitor is None or not isinstance(wave, Fed) or wave.line.rms <= 0.0 or point.emf is None or point.inductance is None or not point.emf.known:
        return None
    load = wave.behind.load
    if not isinstance(load, Load):
        return None
    try:
        bare = applied.solve(load.R, load.L, load.E, float(point.current), wave.line.drop, 0.0)
    except NotSolved:
        return None
    asked = {**applied.inputs, "E": point.emf, "I_a": point.current, "L": point.inductance}
    model = Model("bridge behind a transformer, without the capacitor", asked, "the current in the armature over one half of the line period", SOLVED)
    return Compared(
        sheet.solved("bare.F", bare.form_factor, NUMBER, model, "form factor without the capacitor"),
        sheet.solved("bare.I_2", bare.secondary_current, AMPERE, model, "current ahead of the bridge without the capacitor, RMS"),
        sheet.solved("bare.I_line", bare.line_current, AMPERE, model, "supply current without the capacitor, RMS"),
    )
