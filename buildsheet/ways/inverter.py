"""Inverter: one phase in, three phases of any frequency out, for a three-phase motor.

Volts go with hertz up to the motor's own; its own electronics guard the motor; nothing may switch behind it.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import ClassVar, Literal

from pydantic import Field

from buildsheet.circuit import Device, Electronics
from buildsheet.circuit.builder import Board, Feed
from buildsheet.citations import Citation
from buildsheet.formulas.inverter import inverter_loss, output_on_one_phase
from buildsheet.formulas.protection import peak_voltage
from buildsheet.given.fields import Flags, Hertzes, Times, Volts
from buildsheet.reference import Region
from buildsheet.sizing.alternating import ThreePhase
from buildsheet.sizing.finding import Finding, Said
from buildsheet.sizing.knob import Pot, work_pot
from buildsheet.sizing.places import Place
from buildsheet.sizing.supply import Supplied
from buildsheet.sizing.waist import Applied, Point
from buildsheet.units import AMPERE, HERTZ
from buildsheet.ways.drive import CODE, TERMINALS, Drive, drive_places, pot_text, wire_pot
from buildsheet.ways.way import Beside, Outfit, Setting, Words
from buildsheet.worksheet import Value, Worksheet, unknown

MANUALS = Citation("drive makers' manuals, frequency inverters", "nothing switches behind it; leakage; restart; capacitors", read_from="secondary copy")
OUTPUTS = ("U", "V", "W")
RUN = ("FWD", "COM")  # its run input, which a link closes: the contactor before it starts and stops
ONE, THREE = "made for one phase", "made for three phases"  # rows of the table of what one phase leaves of it


class Inverter(Drive):
    """A frequency inverter for a three-phase motor, fed from one phase."""

    printed: ClassVar[str] = "Inverter"
    noun: ClassVar[str] = "inverter"
    icon: ClassVar[str] = "inverter"
    stands_as: ClassVar[tuple[str, ...]] = ("inverter",)
    does: ClassVar[Literal["controls", "chops", "inverts"]] = "inverts"
    fuses_motor: ClassVar[bool] = False
    guards_motor: ClassVar[bool] = True
    display: ClassVar[bool] = True
    own_fan: ClassVar[bool] = True

    way: Literal["frequency-inverter"] = Field(description="Way of powering.")
    line_voltage: Volts = Field(description="Line voltage that it is made for.", examples=["230 V"])
    input: Literal["one phase", "three phases, one allowed", "three phases"] | None = Field(
        None, description="What its manual says of its supply; one for three phases gives about half of its output on one."
    )
    output_high: Volts = Field(description="Most volts between two of its output leads, as its data say.", examples=["230 V"])
    fastest: Hertzes = Field(
        description="Highest frequency that it can give, whatever it is set to: every turning part must stand that speed.",
        examples=["100 Hz"],
    )
    starts_on_power: Flags = Field(
        None, description="Whether it may be set to start when power comes with its run input closed."
    )
    rest: Times = Field(description="Least time between two switch-ons that its data ask for.", examples=["60 s"])
    discharged_after: Times = Field(
        description="Time after which its data say that its capacitors are below 60 V, plug out.", examples=["300 s"]
    )
    separation: Literal["none", "galvanic"] | None = Field(
        None, description="Whether its control terminals are separated from the line. Unanswered keeps the packet a draft."
    )

    def applied(self, sheet: Worksheet, supplied: Supplied) -> Applied:
        sheet.work("drive.V_peak", peak_voltage, "steady voltage behind its bridge, at the most", V=supplied.highest)
        return ThreePhase(
            sheet.take(supplied.voltage),
            supplied.highest,
            sheet.take(self.output_high),
            sheet.take(self.fastest),
            sheet.assume("drive.eta", "inverter efficiency"),
            sheet.pick("drive.k_p", "motor_guides", "factor_low", "power factor of its input", key="rectifier with capacitor"),
            bus=sheet.values["drive.V_peak"],
        )

    def fit_out(
        self, sheet: Worksheet, region: Region, supplied: Supplied, applied: Applied, points: tuple[Point, ...], share: Value
    ) -> Outfit:
        del region, share
        pot = work_pot(sheet, self.reference, self.potentiometer)
        nothing = unknown("power.f", HERTZ, "no operating point", "frequency")
        low, high = (next((point.setting for point in points if point.tag == tag), nothing) for tag in ("low", "high"))
        return InverterOutfit(self, supplied, applied, pot, low, high)

    def derated(self, sheet: Worksheet, gives: Value) -> Value:
        """What one phase leaves of its output, by its data."""
        if self.input is None or self.input == "three phases":
            why = "nobody says that it may be fed from one phase" if self.input is None else "its manual wants three phases"
            return sheet.unsolved("drive.I_1", AMPERE, why, "output current on one phase")
        share = sheet.pick("drive.k_1", "inverter_one_phase", "share", "share of its output on one phase", key=ONE if self.input == "one phase" else THREE)
        return sheet.work("drive.I_1", output_on_one_phase, "output current on one phase", I=gives, k=share)

    def loss(self, sheet: Worksheet, applied: Applied, current: Value, points: tuple[Point, ...]) -> Value:
        del points
        # by volts times amperes at full frequency, and so never less than it is
        efficiency = applied.inputs["eta"]
        return sheet.work("heat.P_drive", inverter_loss, "heat of the inverter, at the most", V=applied.ceiling, I=current, eta=efficiency)

    def reach(self, applied: Applied, point: Point) -> tuple[Value, Value]:
        return (point.setting, applied.fastest) if isinstance(applied, ThreePhase) else (point.terminal, applied.ceiling)

    @property
    def made_for(self) -> Value:
        return self.line_voltage

    def pulse_height(self, applied: Applied) -> Value | None:
        return applied.bus if isinstance(applied, ThreePhase) else None

    @property
    def output_most(self) -> Value:
        return self.output_high

    @property
    def keeps_charge(self) -> Value | None:
        return self.discharged_after

    @property
    def live_controls(self) -> bool | None:
        """Whether its control terminals are at line potential; None when the file does not say."""
        return None if self.separation is None else self.separation == "none"

    def dangers(self, beside: Beside) -> Iterator[Finding]:
        yield from super().dangers(beside)
        if self.input in (None, "three phases"):
            found = "Nobody knows whether the inverter may be fed from one phase." if self.input is None else "The inverter's manual wants three phases."
            yield Finding("inverter-phases", "stop", "WARNING", Said.of(found), "On one phase such an inverter trips, or its rectifier and capacitors burn.",
                          "Read its manual, and write power: input; or take one that is made for one phase.", MANUALS, ("T1",), key="power.input")  # fmt: skip
        if not self.starts_on_power:
            known = self.starts_on_power is False
            yield Finding("inverter-waits", "stop" if known else "heed", "NOTICE", Said.of("The inverter does not start when its power comes." if known else "Nobody knows whether the inverter can be set to start when its power comes."), "Here the no-volt release starts it: its run input is linked, and no button of its own is in reach.",
                          "Take one that can be set so; its own run key behind the door is no start button.", MANUALS, ("T1",), key="power.starts_on_power")  # fmt: skip
        yield Finding("nothing-behind-inverter", "note", "WARNING", Said.of("Nothing may switch between inverter and motor: no contactor, no fuse, no reversing switch, no capacitor."), "A contact that opens there kills the inverter, which may fail in any way; a capacitor there is a short.",
                      "Lead the cable from U, V and W straight to the motor; turn it round by swapping two of them, plug out and waited.", MANUALS, ("T1", "M1"), step="motor", key="power.way")  # fmt: skip
        yield Finding("inverter-leaks", "note", "WARNING", Said.of(f"An inverter lets some milliamperes leak to {beside.region.words['earth']} as long as it is on."), "Without its protective conductor its case and the motor give a shock.",
                      "Prove both bonds of sheet 8 after every move; when the residual-current device trips, never go round it.", MANUALS, ("T1",), electric=True, key="power.way")  # fmt: skip
        if self.rest.known:
            yield Finding("rest-between-starts", "note", "NOTICE", Said.of("Between two starts this inverter wants {0}.", self.rest), "Each switch-on charges its capacitors; too often burns what limits that.",
                          "Stop and work in longer spells, and count before you press start again.", MANUALS, ("S2", "T1"), key="power.rest")  # fmt: skip

    def say(self, supplied: Supplied, applied: Applied) -> Words:
        del applied
        return ("frequency inverter for a three-phase motor, fed from one phase of ", supplied.voltage, ", ", self.rated, ", with terminals for a speed potentiometer and for a run contact")


@dataclass(frozen=True, slots=True)
class InverterOutfit(Outfit):
    """An inverter with its knob, and the two frequencies that the knob's ends are set to."""

    drive: Inverter
    supplied: Supplied
    applied: Applied
    pot: Pot
    low: Value
    high: Value

    @property
    def needed(self) -> tuple[Value, ...]:
        return (self.drive.potentiometer,)

    @property
    def lets_out(self) -> Value | None:
        return self.drive.rated

    @property
    def places(self) -> tuple[Place, ...]:
        return drive_places(self.drive, self.supplied, self.applied, self.pot)

    @property
    def settings(self) -> tuple[Setting, ...]:
        return (
            Setting("Lowest frequency, knob at slow", (self.low,)),
            Setting("Highest frequency, knob at fast", (self.high,)),
            Setting("Run-up and run-down", ("slow: five seconds or more; run-down by coasting",)),
            Setting("Run input", ("two wires, start with the knob; a start when power comes with the input closed is allowed",)),
            Setting("Restart after a trip or a dip of the line", ("off",)),
            Setting("Reverse", ("barred",)),
        )

    @property
    def texts(self) -> Mapping[str, str]:
        return {"T1": "its knob alone separated" if self.drive.live_controls is False else "not separated from the line", **pot_text(self.drive)}

    def wire(self, board: Board, feed: Feed, *, limit: float, texts: Mapping[str, str], metal: bool) -> tuple[str, ...]:
        """The inverter and its speed potentiometer, wires 301, 302 and 501 to 503, and the link of its run input, 504."""
        drive = self.drive
        terminals = (*drive.inputs, *OUTPUTS, *TERMINALS, *RUN)
        board.add(
            Device(
                CODE, "drive", drive.printed, texts[CODE], (*terminals, "case") if metal else terminals,
                (Electronics(terminals, drive.does),), metal="case" if metal else "", place="box", column=4,
                limits=dict.fromkeys(OUTPUTS, limit), control=TERMINALS, runs_by=RUN, unleashed_by=frozenset() if drive.open_low_end == "stops" else frozenset(TERMINALS[:2]),
            )
        )  # fmt: skip
        board.wire(301, f"{feed[0]}", f"{CODE}:{drive.inputs[0]}", "line")
        board.wire(302, f"{feed[1]}", f"{CODE}:{drive.inputs[1]}", "neutral")
        wire_pot(board, drive, texts)
        board.wire(504, f"{CODE}:{RUN[0]}", f"{CODE}:{RUN[1]}", "signal")
        return tuple(f"{CODE}:{name}" for name in OUTPUTS)
