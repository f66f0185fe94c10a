"""A battery straight on the motor: nothing between but fuse, disconnect and contactor. One speed, that of the voltage there
is, and it sinks as the battery empties.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import pi
from typing import ClassVar, Literal

from pydantic import Field

from buildsheet.circuit.builder import Board, Feed
from buildsheet.formulas.battery import voltage_behind
from buildsheet.formulas.conductors import total_drop
from buildsheet.formulas.motor import back_emf, speed_share
from buildsheet.formulas.supplies import source_resistance
from buildsheet.given.fields import Volts
from buildsheet.reference import Region
from buildsheet.sizing.places import Place
from buildsheet.sizing.supply import Supplied
from buildsheet.sizing.waist import LOOSE, Applied, Point, Setting, Wave
from buildsheet.units import VOLT
from buildsheet.waveforms import Samples
from buildsheet.ways.starting import work_start
from buildsheet.ways.way import HardStart, Outfit, Way, Words
from buildsheet.worksheet import Value, Worksheet

GAPS = "a steady current has no gaps, so the two agree"


@dataclass(frozen=True, slots=True)
class SteadyWave:
    """A current without ripple: its average, RMS and peak values are one. `volts` are those at the battery's posts."""

    volts: float
    terminal: float
    current: float
    continuous: bool = True

    @property
    def rms_current(self) -> float:
        return self.current

    @property
    def peak_current(self) -> float:
        return self.current

    @property
    def form_factor(self) -> float:
        return 1.0

    @property
    def line_current(self) -> float:
        return self.current

    @property
    def line_average(self) -> float:
        return self.current

    def samples(self, n: int) -> Samples:
        """`n` points of level lines."""
        return Samples(tuple(2 * pi * k / (n - 1) for k in range(n)), (self.volts,) * n, (self.terminal,) * n, (self.current,) * n, (self.current,) * n)


@dataclass(frozen=True, slots=True)
class SteadyVoltage:
    """A battery's own voltage, less what fuses, contacts and leads take."""

    voltage: Value
    highest: Value
    drop: Value
    full: Value
    ceiling: Value
    shape: str = "steady direct voltage"
    period: str = "any time"
    fault: str = "smooth"
    direct: bool = True
    gaps: str = GAPS

    @property
    def setting(self) -> Setting:
        return Setting("V_b", VOLT, "battery voltage that the speed asks for")

    @property
    def drops(self) -> Mapping[str, Value]:
        return {"U_path": self.drop}

    @property
    def inputs(self) -> Mapping[str, Value]:
        return {"V": self.voltage}

    def wave(self, R: float, L: float, E: float, current: float, drops: tuple[float, ...]) -> Wave:
        del L  # a steady current feels no inductance
        terminal = E + R * current
        return SteadyWave(terminal + drops[0], terminal, current)

    def set_to(self, wave: Wave) -> float:
        if not isinstance(wave, SteadyWave):
            raise TypeError("not a wave of a battery")
        return wave.volts

    def textbook(self, sheet: Worksheet, id: str, label: str, terminal: Value, drops: tuple[Value, ...]) -> Value:
        del drops  # those of the path hold the brushes', which the terminal's volts hold too
        return sheet.work(id, total_drop, f"battery voltage by Ohm's law, {label}", U_1=terminal, U_2=self.drop)

    def loose_emf(self, sheet: Worksheet, R: Value, L: Value, I_0: Value, U_b: Value) -> Value:
        del L
        return sheet.work("runaway.E", back_emf, LOOSE, V=self.highest, I=I_0, R=R, U_b=U_b)


class BatteryDirect(Way):
    """A motor on a battery as it is."""

    runs_on: ClassVar[Literal["line", "battery"]] = "battery"
    printed: ClassVar[str] = "Battery direct"
    noun: ClassVar[str] = "battery"
    icon: ClassVar[str] = "battery"
    first: ClassVar[tuple[str, str, str]] = ("Q2", "1", "2")
    stands_as: ClassVar[tuple[str, ...]] = ()
    runaway_by: ClassVar[str] = "Runaway: the battery full, no load. Nothing else can fail to more."
    limits_air: ClassVar[str] = "switchgear limit"
    switches_motor: ClassVar[bool] = True

    way: Literal["battery-direct"] = Field(description="Way of powering.")
    drop: Volts = Field(description="Drop in fuses, contacts and leads at the working current, if measured.", examples=["0.3 V"])
    cut_off: Volts = Field(description="Voltage at which a battery guard takes the battery off, if there is one.", examples=["21 V"])

    def applied(self, sheet: Worksheet, supplied: Supplied) -> Applied:
        drop = sheet.known_or_assumed(self.drop, "battery path drop")
        full = sheet.work("battery.V_full", voltage_behind, "volts at the motor, at the battery's nominal voltage", V=supplied.voltage, U_d=drop)
        low = sheet.work("battery.V_low", voltage_behind, "volts at the motor, battery at its cut-off", V=supplied.lowest, U_d=drop)
        return SteadyVoltage(sheet.take(supplied.voltage), supplied.highest, drop, full, low)

    def reach(self, applied: Applied, point: Point) -> tuple[Value, Value]:
        """Nothing to reach for: the speed is that of the voltage there is, which is compared by itself."""
        del applied
        return point.setting, point.setting

    def loss(self, sheet: Worksheet, applied: Applied, current: Value, points: tuple[Point, ...]) -> Value | None:
        del sheet, applied, current, points  # contactor and relay are counted with the other losses in the box
        return None

    def fit_out(
        self, sheet: Worksheet, region: Region, supplied: Supplied, applied: Applied, points: tuple[Point, ...], share: Value
    ) -> Outfit:
        del applied, share
        point = points[-1] if points else None
        speeds = []
        for key, words, volts in (("there.k", "on its nominal voltage", supplied.voltage), ("there.k_full", "on a full battery", supplied.highest), ("there.k_low", "at its cut-off", supplied.lowest)):
            if point is None or point.emf is None:
                continue
            name = key.partition(".")[2]
            left = sheet.work(f"there.E_{name}", back_emf, f"back-EMF that the battery leaves {words}", V=volts, I=point.current, R=sheet.values["motor.R_loop"] if "motor.R_loop" in sheet.values else sheet.values["motor.R_hot"], U_b=sheet.values[f"{point.tag}.U_path"])
            speeds.append(sheet.work(key, speed_share, f"speed {words} over the speed asked for", E=point.emf, E_1=left))
        ahead = sheet.work("start.R", source_resistance, "least resistance of the battery, as its fault current shows it", V=supplied.highest, I_s=supplied.fault)
        start = work_start(sheet, region, supplied.highest, ahead)
        return DirectOutfit(tuple(speeds), start, HardStart(supplied.highest, ahead) if start is not None else None)

    @property
    def made_for(self) -> Value | None:
        return None

    @property
    def stops_at(self) -> Value:
        return self.cut_off

    @property
    def live_controls(self) -> bool | None:
        """Never: all of it is at extra-low voltage."""
        return False


@dataclass(frozen=True, slots=True)
class DirectOutfit(Outfit):
    """A way without parts of its own; the speeds on nominal, full and empty battery over the one asked for."""

    speeds: tuple[Value, ...]
    start: Value | None
    meets: HardStart | None

    @property
    def hard_start(self) -> HardStart | None:
        return self.meets

    @property
    def start_needs(self) -> tuple[Value | None, Value | None]:
        return self.start, self.start

    @property
    def facts(self) -> tuple[tuple[str, Words], ...]:
        if len(self.speeds) < 3:
            return ()
        nominal, full, low = self.speeds
        return (("Speed there is", (nominal, " of the one asked for on the nominal voltage, ", full, " on a full battery, ", low, " at its cut-off")),)

    @property
    def places(self) -> tuple[Place, ...]:
        return ()

    @property
    def texts(self) -> Mapping[str, str]:
        return {}

    def wire(self, board: Board, feed: Feed, *, limit: float, texts: Mapping[str, str], metal: bool) -> tuple[str, ...]:
        del board, limit, texts, metal
        return str(feed[0]), str(feed[1])
