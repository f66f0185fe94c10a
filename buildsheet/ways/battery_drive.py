"""Pulse-width drive on a battery: a chopper with its freewheel diode, and a three-terminal speed potentiometer."""

from typing import ClassVar, Literal

from pydantic import Field

from buildsheet.formulas import battery as b
from buildsheet.formulas.cooling import bridge_loss
from buildsheet.given.fields import Farads, PulseHertzes, Volts
from buildsheet.sizing.supply import Supplied
from buildsheet.sizing.waist import Applied, Point, Pulsed
from buildsheet.ways.drive import CODE, Drive
from buildsheet.worksheet import Value, Worksheet


class BatteryPulseDrive(Drive):
    """A drive that switches a battery on and off some thousand times a second."""

    runs_on: ClassVar[Literal["line", "battery"]] = "battery"
    printed: ClassVar[str] = "Pulse drive"
    inputs: ClassVar[tuple[str, str]] = ("B+", "B−")
    first: ClassVar[tuple[str, str, str]] = (CODE, *inputs)
    does: ClassVar[Literal["controls", "chops", "inverts"]] = "chops"
    stands_as: ClassVar[tuple[str, ...]] = ("chopper",)

    way: Literal["battery-pulse-drive"] = Field(description="Way of powering.")
    battery_voltage: Volts = Field(description="Battery voltage that the drive is made for.", examples=["24 V"])
    battery_most: Volts = Field(
        description="Highest voltage that its data allow, charger on.", examples=["36 V"]
    )
    pulses: PulseHertzes = Field(description="Frequency of its pulses, if known.", examples=["16 kHz"])
    capacitor: Farads = Field(
        description="Capacitor at its battery terminals, which is charged before the contactor closes.",
        examples=["2200 µF"],
    )
    cut_off: Volts = Field(
        description="Battery voltage at which it stops by itself, if it does.", examples=["21 V"]
    )

    def applied(self, sheet: Worksheet, supplied: Supplied) -> Applied:
        drop = sheet.known_or_assumed(self.drop, "switch drop")
        freewheel = sheet.assume("drive.U_f", "freewheel drop")
        frequency = sheet.known_or_assumed(self.pulses, "pulse frequency")
        full = sheet.work(
            "drive.V_full",
            b.voltage_behind,
            "volts at the motor with the switch on all the time",
            V=supplied.voltage,
            U_d=drop,
        )
        ceiling = sheet.work(
            "drive.V_low",
            b.voltage_behind,
            "the same with the battery at its cut-off",
            V=supplied.lowest,
            U_d=drop,
        )
        return Pulsed(
            "chopper with freewheel diode",
            sheet.take(supplied.voltage),
            frequency,
            drop,
            freewheel,
            full,
            ceiling,
            supplied.highest,
        )

    def loss(self, sheet: Worksheet, applied: Applied, current: Value, points: tuple[Point, ...]) -> Value:
        del points
        # at every moment the current passes the switch or the diode: the larger drop is on the careful side
        return sheet.work(
            "heat.P_drive", bridge_loss, "heat of the drive", U_d=applied.drops["U_free"], I=current
        )

    @property
    def made_for(self) -> Value:
        return self.battery_voltage

    @property
    def output_most(self) -> Value:
        return self.battery_voltage

    @property
    def capacitor_in(self) -> Value:
        return self.capacitor

    @property
    def stands(self) -> Value:
        return self.battery_most

    @property
    def stops_at(self) -> Value:
        return self.cut_off

    @property
    def live_controls(self) -> bool | None:
        """Never: all of it is at extra-low voltage."""
        return False

    def say(self, supplied: Supplied, applied: Applied) -> tuple[Value | str, ...]:
        del applied
        return ("pulse-width DC drive with speed potentiometer, ", supplied.voltage, " battery, stands ", supplied.highest, ", ", self.rated)
