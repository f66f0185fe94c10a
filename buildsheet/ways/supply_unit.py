"""A ready-made supply unit on the line, of some ten volts direct, and a pulse drive behind it: the motor runs on what a battery
would give it, without the battery.

The unit limits its own current and shuts off or stutters beyond that, so that a jam is the drive's to limit, not the unit's. Its
output can rise to what its own guard allows when its regulator fails: runaway counts with that.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import ClassVar, Literal

from pydantic import Field

from buildsheet.circuit import Barrier, Device, Electronics, Fuse
from buildsheet.circuit.builder import Board, Feed
from buildsheet.citations import practice
from buildsheet.formulas.battery import voltage_behind
from buildsheet.formulas.cooling import bridge_loss, total_heat
from buildsheet.formulas.induction import voltage_multiple
from buildsheet.formulas.inverter import loss_of_power
from buildsheet.formulas.motor import back_emf, continuous_duty
from buildsheet.formulas.protection import least_fuse_rating
from buildsheet.formulas.shunt import current_with_margin
from buildsheet.given.fields import Amperes, PowerFactors, PulseHertzes, Shares, Volts, Watts
from buildsheet.reference import Region
from buildsheet.sizing.finding import MORE, Finding, Said
from buildsheet.sizing.knob import work_knob
from buildsheet.sizing.places import Need, Place
from buildsheet.sizing.spelt import row_of, spelt
from buildsheet.sizing.supply import Supplied
from buildsheet.sizing.waist import GAPS, LOOSE, Applied, Point, Setting, Wave
from buildsheet.units import SHARE
from buildsheet.waveforms import Chopped, SteadySource, duty_for
from buildsheet.ways import way
from buildsheet.ways.drive import CODE, OUTPUTS, Drive, DriveOutfit, add_drive
from buildsheet.ways.way import Beside, Outfit, Trial, Words
from buildsheet.worksheet import Value, Worksheet

UNIT, ENDS = "T2", ("L", "N", "+", "−")
PLATE = 0.3  # volts times amperes of a unit's plate are its watts to within this share
UNITS = practice("supply units of desk machines, lamps and signs")


@dataclass(frozen=True, slots=True)
class UnitPulsed:
    """A chopper behind a supply unit. `voltage` and `highest` are the line's; `output` the unit's volts, `failed` the most that
    they reach when its regulator fails; `drop` and `freewheel` those of the chopper's switch and diode."""

    voltage: Value
    highest: Value
    output: Value
    failed: Value
    efficiency: Value
    power_factor: Value
    frequency: Value
    drop: Value
    freewheel: Value
    full: Value
    fault: str
    shape: str = "chopper behind a supply unit"
    period: str = "one switching period"
    direct: bool = False
    gaps: str = GAPS

    @property
    def ceiling(self) -> Value:
        return self.full

    @property
    def setting(self) -> Setting:
        return Setting("D", SHARE, "duty of the pulses")

    @property
    def drops(self) -> Mapping[str, Value]:
        return {"U_path": self.drop, "U_free": self.freewheel}

    @property
    def inputs(self) -> Mapping[str, Value]:
        return {"V_s": self.voltage, "V_o": self.output, "eta": self.efficiency, "k_p": self.power_factor, "f_c": self.frequency}

    def wave(self, R: float, L: float, E: float, current: float, drops: tuple[float, ...]) -> Chopped:
        pulses = duty_for(SteadySource(float(self.output), float(self.frequency), *drops), R, L, E, current)
        power = float(self.output) * pulses.line_average / float(self.efficiency)
        return pulses.fed_by(power / (float(self.power_factor) * float(self.voltage)))

    def set_to(self, wave: Wave) -> float:
        if not isinstance(wave, Chopped):
            raise TypeError("not a wave of a supply unit")
        return wave.duty

    def textbook(self, sheet: Worksheet, id: str, label: str, terminal: Value, drops: tuple[Value, ...]) -> Value:
        return sheet.work(id, continuous_duty, f"duty by the textbook, {label}", V=terminal, V_b=self.output, U_d=drops[0], U_f=drops[1])

    def loose_emf(self, sheet: Worksheet, R: Value, L: Value, I_0: Value, U_b: Value) -> Value:
        del L  # a steady current feels no inductance
        return sheet.work("runaway.E", back_emf, LOOSE, V=self.failed, I=I_0, R=R, U_b=U_b)


class SupplyUnitDrive(Drive):
    """A supply unit and a pulse drive that is made for its voltage."""

    printed: ClassVar[str] = "Pulse drive"
    inputs: ClassVar[tuple[str, str]] = ("B+", "B−")
    first: ClassVar[tuple[str, str, str]] = (UNIT, *ENDS[:2])
    does: ClassVar[Literal["controls", "chops", "inverts"]] = "chops"
    stands_as: ClassVar[tuple[str, ...]] = ("supply unit", "chopper")
    separates: ClassVar[str] = " Inside the unit's case lies the line's peak, also for minutes after the plug is out: it is never opened."
    runaway_by: ClassVar[str] = "Runaway: drive shorted and the unit's regulator failed, up to where its own guard shuts it off, no load."

    way: Literal["supply-unit-drive"] = Field(description="Way of powering.")
    line_voltage: Volts = Field(description="Line voltage that the unit is made for, or set to.", examples=["120 V"])
    selector: Literal["none", "set to this line"] | None = Field(
        None, description="Whether the unit has a switch for the line voltage, and where it stands."
    )
    output: Volts = Field(description="Direct voltage of the unit, as its trimmer stands.", examples=["36 V"])
    output_failed: Volts = Field(description="Voltage at which its own guard shuts it off, by its data.", examples=["47 V"])
    unit_current: Amperes = Field(description="Current that the unit gives for long, on its plate.", examples=["10 A"])
    unit_power: Watts = Field(description="Power that it gives for long, on its plate.", examples=["360 W"])
    efficiency: Shares = Field(description="Its power out over power in, by its data.", examples=["85 %"])
    power_factor: PowerFactors = Field(description="Power factor of its input, by its data, where it corrects it.", examples=["0.95"])
    separation: Literal["none", "galvanic"] | None = Field(
        None, description="Whether a mark or its data say that its output is separated from the line; ohms alone do not show it. Unanswered keeps the packet a draft."
    )
    drive_most: Volts = Field(description="Highest voltage that the drive stands, by its data.", examples=["50 V"])
    pulses: PulseHertzes = Field(description="Frequency of the drive's pulses, if known.", examples=["16 kHz"])

    def applied(self, sheet: Worksheet, supplied: Supplied) -> Applied:
        drop = sheet.known_or_assumed(self.drop, "switch drop")
        most = (
            sheet.take(self.output_failed)
            if self.output_failed.known
            else sheet.work("unit.V_max", voltage_multiple, "most that it reaches when its regulator fails", V=self.output, k=sheet.assume("unit.k_v", "supply unit guard"))
        )
        return UnitPulsed(
            sheet.take(supplied.voltage),
            supplied.highest,
            sheet.take(self.output),
            most,
            sheet.known_or_assumed(self.efficiency, "supply unit efficiency"),
            sheet.take(self.power_factor)
            if self.power_factor.known
            else sheet.pick("unit.k_p", "motor_guides", "factor_low", "power factor of its input", key="rectifier with capacitor"),
            sheet.known_or_assumed(self.pulses, "pulse frequency"),
            drop,
            sheet.assume("drive.U_f", "freewheel drop"),
            sheet.work("drive.V_full", voltage_behind, "volts at the motor with the switch on all the time", V=self.output, U_d=drop),
            "pulsating" if self.separation == "galvanic" else "smooth",  # behind true separation no fault current returns to earth
        )

    def loss(self, sheet: Worksheet, applied: Applied, current: Value, points: tuple[Point, ...]) -> Value:
        del points
        unit = sheet.work("heat.P_unit", loss_of_power, "heat of the supply unit at its rated power, the most", P=self.unit_power, eta=applied.inputs["eta"])
        # at every moment the current passes the drive's switch or its diode: the larger drop is on the careful side
        own = sheet.work("heat.P_chop", bridge_loss, "heat of the drive behind it", U_d=applied.drops["U_free"], I=current)
        return sheet.work("heat.P_drive", total_heat, "heat of supply unit and drive", P_1=unit, P_2=own)

    @property
    def made_for(self) -> Value:
        return self.line_voltage

    @property
    def output_most(self) -> Value:
        return self.output

    def pulse_height(self, applied: Applied) -> Value | None:
        del applied
        return self.output

    @property
    def low_behind(self) -> str:
        return "supply unit" if self.separation == "galvanic" else ""

    @property
    def live_controls(self) -> bool | None:
        """Whether the knob's wires are at line potential, by the unit ahead of them; None when the file does not say."""
        return None if self.separation is None else self.separation == "none"

    def dangers(self, beside: Beside) -> Iterator[Finding]:
        yield from super().dangers(beside)
        if self.selector is None:
            yield Finding("selector-unknown", "heed", "WARNING", Said.of("The file does not say whether the supply unit has a switch for the line voltage."), "Set for the lower line, the unit bursts on the higher one the moment it is plugged in.",
                          "Look for a slide switch beside its terminals, set it with the plug out, and write power: selector.", UNITS, (UNIT,), key="power.selector")  # fmt: skip
        if not self.unit_current.known:
            yield Finding("unit-current-unknown", "stop", "WARNING", Said.of("Nobody knows what current the supply unit gives for long."), "One that is too small shuts off under load and comes back by itself, again and again.",
                          "Read it off its plate and write power: unit_current.", UNITS, (UNIT,), key="power.unit_current", unknown=(self.unit_current,))  # fmt: skip
        if self.output_failed.known and self.output.known and self.output_failed < self.output:
            yield Finding("unit-guard-below-output", "stop", "NOTICE", Said.of("The unit's guard is said to shut off at {0}, below the {1} that it gives.", self.output_failed, self.output), "One of the two is wrong, and the runaway speed rests on them.",
                          "Read its data again.", UNITS, (UNIT,), key="power.output_failed")  # fmt: skip
        if self.unit_power.known and self.output.known and self.unit_current.known and abs(float(self.unit_power) / (float(self.output) * float(self.unit_current)) - 1) > PLATE:
            yield Finding("unit-plate-disagrees", "stop", "NOTICE", Said.of("The unit is said to give {0}; that is not its {1} times {2}.", self.unit_power, self.output, self.unit_current), "Its heat in the box and what it can give rest on them.",
                          "Read its plate again.", UNITS, (UNIT,), key="power.unit_power")  # fmt: skip
        if self.starts_from_zero is not True:
            yield Finding("unit-restarts", "stop", "WARNING", Said.of("A supply unit that shut off at a jam comes back by itself, and nobody says that this drive then waits for its knob."), "The tool starts with the hand in it that cleared the jam: the contactor never fell out.",
                          "Take a drive that starts only from zero, and write power: starts_from_zero: true.", UNITS, (UNIT, CODE), key="power.starts_from_zero")  # fmt: skip
        if not self.drive_most.known:
            yield Finding("drive-voltage-unknown", "heed", "WARNING", Said.of("Nobody knows the highest voltage that the drive stands; the unit gives {0}.", self.output), "A capacitor above its voltage bursts.",
                          "Read the voltage on its capacitor or in its data and write power: drive_most.", UNITS, (CODE,), key="power.drive_most")  # fmt: skip
        yield Finding("unit-rush", "note", "NOTICE", Said.of("At switch-on the unit fills its capacitors with many times its current, for some milliseconds."), "A fast fuse blows and a breaker may trip, now and then, though nothing is wrong.",
                      "Keep to the time-lag fuse; wait half a minute between two switch-ons, so that what limits the rush is cool again.", UNITS, (UNIT, "F1"))  # fmt: skip
        limit, gives = self.current_limit, self.unit_current
        if limit.known and gives.known and limit > gives:
            yield Finding("unit-stutters", "stop", "WARNING", Said.of("The drive's current limit is {0}; the supply unit gives {1}.", limit, gives), "At a jam the unit shuts off and comes back by itself, again and again: the motor jerks at each return.",
                          "Set the drive's limit below what the unit gives, and write power: current_limit.", UNITS, (UNIT, CODE), key="power.current_limit")  # fmt: skip
        if self.drive_most.known and self.output.known and self.output > self.drive_most:
            yield Finding("drive-below-unit", "stop", "WARNING", Said.of("The supply unit gives {0}; the drive stands {1}.", self.output, self.drive_most), "A capacitor above its voltage bursts.",
                          "Take a drive that stands it, or a unit of less.", UNITS, (UNIT, CODE), key="power.drive_most")  # fmt: skip
        if self.separation == "none":
            yield Finding("unit-not-separated", "stop", "DANGER", Said.of("The supply unit's output is not separated from the line."), "What looks like a harmless low voltage carries the line on both its wires, to the knob and to the motor.",
                          "Take a unit that is marked for safety extra-low voltage.", UNITS, (UNIT,), electric=True, key="power.separation")  # fmt: skip

    def say(self, supplied: Supplied, applied: Applied) -> Words:
        del supplied, applied
        return ("pulse-width DC drive with speed potentiometer, ", self.output, " in, stands more, ", self.rated)

    def fit_out(
        self, sheet: Worksheet, region: Region, supplied: Supplied, applied: Applied, points: tuple[Point, ...], share: Value
    ) -> Outfit:
        knob = work_knob(sheet, self.reference, self.potentiometer, applied, points)
        most = sheet.work("unit.I_lim", current_with_margin, "most that the unit lets out before it shuts off", I=self.unit_current, k=sheet.assume("unit.k_i", "supply unit limit"))
        hardest = max((point.current for point in points if point.current.known), key=float, default=self.rated)
        felt = max((point.rms for point in points if point.rms.known), key=float, default=self.rated)
        need = sheet.work("F5.I_need", least_fuse_rating, "fuse behind the supply unit, at least", I=felt, k=share)
        fuse = sheet.pick("F5.I_n", region.tables["fuse"], "rating", "fuse behind the supply unit", at_least=need)
        return UnitOutfit(self, supplied, applied, knob, most, hardest, fuse)


@dataclass(frozen=True)  # with slots the class is made twice, and super() finds the first
class UnitOutfit(DriveOutfit):
    """A supply unit ahead of a drive: the most that it lets out, the motor's current that it must give, the fuse between them,
    without which the knob's thin wires would have to carry all that the unit can give."""

    most: Value
    hardest: Value
    fuse: Value

    @property
    def _unit(self) -> SupplyUnitDrive:
        if not isinstance(self.drive, SupplyUnitDrive):
            raise TypeError("not a drive behind a supply unit")
        return self.drive

    @property
    def needed(self) -> tuple[Value, ...]:
        return (*super().needed, self.fuse)

    @property
    def fuses(self) -> Mapping[str, Value]:
        return {"F5": self.fuse}

    @property
    def guards(self) -> Mapping[str, str]:
        return dict.fromkeys(("secondary", "signal"), "F5")

    @property
    def direct_most(self) -> Value | None:
        return self.applied.failed if isinstance(self.applied, UnitPulsed) else None

    def dangers(self) -> Iterator[Finding]:
        gives, stands, failed = self._unit.unit_current, self._unit.drive_most, self.direct_most
        if failed is not None and failed.known and stands.known and self._unit.output.known and self._unit.output <= stands < failed:
            yield Finding("drive-below-guard", "heed", "WARNING", Said.of("When its regulator fails the supply unit reaches {0}; the drive stands {1}.", failed, stands), "The drive dies with it, and a drive that dies mostly fails to full speed.",
                          "Take a drive that stands it, or a unit whose guard shuts off sooner.", UNITS, (UNIT, CODE), key="power.drive_most")  # fmt: skip
        if gives.known and self.hardest.known and float(self.hardest) > float(gives) * MORE:
            yield Finding("unit-too-small", "stop", "WARNING", Said.of("The motor takes {0}, and with the knob up the unit must give as much; it gives {1}.", self.hardest, gives), "It shuts off under load and comes back by itself.",
                          "Take a larger unit, or lower the load.", UNITS, (UNIT,), key="power.unit_current")  # fmt: skip

    @property
    def facts(self) -> tuple[tuple[str, Words], ...]:
        unit = self._unit
        return (
            ("Fuse F5", (self.fuse, ", time-lag, marked for DC, between unit and drive")),
            ("Supply unit", (unit.output, ", ", unit.unit_current, " for long; beyond about ", self.most, " it shuts off, and comes back by itself")),
            ("If its regulator fails", ("it gives up to ", self.direct_most if self.direct_most is not None else unit.output, " before its own guard shuts it off: drive, fuse and runaway are sized for that")),
        )

    @property
    def settings(self) -> tuple[way.Setting, ...]:
        unit = self._unit
        own = [way.Setting("Trimmer of the supply unit", (unit.output, " by the meter, nothing behind it, in the step that reads it"), turned=False)]
        if unit.selector != "none":
            own.insert(0, way.Setting("Line selector of the supply unit", ("at this line, ", self.supplied.voltage, ", set with the plug out")))
        return (*own, *super().settings)

    @property
    def trials(self) -> tuple[Trial, ...]:
        unit = self._unit
        return (
            Trial("F5", f"{UNIT} · {ENDS[2]}", f"{UNIT} · {ENDS[3]}", "", "the unit is quiet and cool after five minutes, and the reading does not wander.",
                  "supply unit, no load", (unit.output,), "V DC", note="A reading off that: the trimmer, by an insulated screwdriver through its hole, plug out between turns."),
        )  # fmt: skip

    @property
    def texts(self) -> Mapping[str, str]:
        unit = self._unit
        return {**super().texts, "F5": f"{row_of(self.fuse)}, DC", UNIT: f"{spelt(unit.output)} DC, {spelt(unit.unit_current)}", CODE: "made for the unit's volts"}

    @property
    def places(self) -> tuple[Place, ...]:
        unit = self._unit
        needs = (
            Need("voltage", "=", self.supplied.voltage, "line voltage", 0.1),
            Need("secondary", "=", unit.output, "volts out", 0.1),
            Need("current", "≥", self.hardest, "amperes out"),
        )
        say: Words = ("enclosed supply unit, ", self.supplied.voltage, " in, ", unit.output, " DC, ", unit.unit_current, " or more, marked as a safety extra-low voltage source, with screw terminals and one for its protective conductor")
        own = Place("supply-unit", "supply unit", "Supply unit", needs, say, UNIT, "one of more amperes and the same volts", safety=True, proof="OL from L and N to each of its output screws, plug out; its case whole, its vents free; volts steady under load")
        peak = self.direct_most if self.direct_most is not None else unit.output
        fuse = Place(
            "unit-fuse", "fuse", "Fuse behind the unit",
            (Need("current", "=", self.fuse, "amperes"), Need("voltage", "≥", peak, "volts, DC"), Need("supply", "=", "DC", "kind of supply"),
             Need("lag", "=", "time-lag", "kind"), Need("origin", "=", "new", "origin", also=("bought",))),
            ("time-lag fuse with a DC rating printed on it, ", self.fuse, ", at least ", peak, " DC, and its finger-safe holder; two spares"), "F5", "nothing larger", safety=True,
        )  # fmt: skip
        return (own, fuse, *super().places)

    def wire(self, board: Board, feed: Feed, *, limit: float, texts: Mapping[str, str], metal: bool) -> tuple[str, ...]:
        """Supply unit, fuse, drive and speed potentiometer: wires 301, 302, 311 to 313 and 501 to 503."""
        fuse = float(self.fuse)
        board.add(
            Device(
                UNIT, "supply-unit", "Supply unit", texts[UNIT], (*ENDS, "case") if metal else ENDS, (Electronics(ENDS[:2], "rectifies"), Barrier(ENDS[0], ENDS[2]), Barrier(ENDS[1], ENDS[3])),
                metal="case" if metal else "", place="box", column=4, limits=dict.fromkeys(ENDS[2:], fuse),  # which lies in a row with both
            )
        )  # fmt: skip
        line = board.devices.get("F1")  # it is bought of that kind
        board.add(Device("F5", "output-fuse", "Unit's fuse", texts["F5"], ("1", "2"), (Fuse("1", "2"),), trips_at=fuse, interrupts=line.interrupts if line is not None else None, place="box", column=4))
        add_drive(board, self.drive, limit, texts, metal=metal)
        board.wire(301, f"{feed[0]}", f"{UNIT}:{ENDS[0]}", "line")
        board.wire(302, f"{feed[1]}", f"{UNIT}:{ENDS[1]}", "neutral")
        board.wire(311, f"{UNIT}:{ENDS[2]}", "F5:1", "secondary")
        board.wire(312, "F5:2", f"{CODE}:{self.drive.inputs[0]}", "secondary")
        board.wire(313, f"{UNIT}:{ENDS[3]}", f"{CODE}:{self.drive.inputs[1]}", "secondary")
        return f"{CODE}:{OUTPUTS[0]}", f"{CODE}:{OUTPUTS[1]}"
