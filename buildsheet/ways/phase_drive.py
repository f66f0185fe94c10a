"""Phase-controlled drive: a half-controlled bridge on the line, with a three-terminal speed potentiometer."""

from typing import Literal

from pydantic import Field

from buildsheet.formulas import protection as p
from buildsheet.given.fields import Amperes, Flags, Ohms, PartTemperatures, Volts
from buildsheet.given.model import Given
from buildsheet.given.site import Supply
from buildsheet.sizing.waist import Applied
from buildsheet.waveforms import DIODE_BRIDGE, HALF_CONTROLLED_BRIDGE
from buildsheet.worksheet import Value, Worksheet


class PhaseControlledDrive(Given):
    """A DC drive that chops the line by thyristors."""

    way: Literal["phase-controlled-drive"] = Field(description="Way of powering.")
    output_high: Volts = Field(description="Most average output at nominal line voltage.", examples=["90 V"])
    rated: Amperes = Field(
        description="Output current it may give for long with its heat sink or fan.", examples=["10 A"]
    )
    rated_bare: Amperes = Field(
        description="Output current it may give without heat sink and fan.", examples=["5 A"]
    )
    cooled_by: Literal["heat sink", "fan", "nothing"] | None = Field(
        None, description="What cools the drive in this machine."
    )
    separation: Literal["none", "galvanic"] | None = Field(
        None,
        description="Whether its control terminals are separated from the line. Unanswered keeps the packet a draft.",
    )
    potentiometer: Ohms = Field(description="Speed potentiometer that it wants.", examples=["5 kohm"])
    reference: Volts = Field(description="Voltage across the potentiometer.", examples=["10 V"])
    drop: Volts = Field(description="Drop along its path, if measured.", examples=["2.2 V"])
    current_limit: Amperes = Field(description="Setting of its current limit.", examples=["7.5 A"])
    starts_from_zero: Flags = Field(
        None, description="Whether it refuses to start until the knob was at zero."
    )
    open_low_end: Literal["stops", "full speed"] | None = Field(
        None, description="What it does when the wire at the slow end of the potentiometer comes off."
    )
    hottest_air: PartTemperatures = Field(
        description="Hottest air around it that its data allow.", examples=["50 degC"]
    )

    def applied(self, sheet: Worksheet, supply: Supply, tolerance: Value) -> Applied:
        """What it puts on the motor's terminals."""
        voltage, frequency = sheet.take(supply.voltage), sheet.take(supply.frequency)
        drop = sheet.known_or_assumed(self.drop, "drive drop")
        highest = sheet.work(
            "supply.V_max",
            p.highest_voltage,
            "line voltage at the top of its tolerance",
            V=voltage,
            p=tolerance,
        )
        return Applied(
            "half-controlled bridge",
            HALF_CONTROLLED_BRIDGE,
            voltage,
            frequency,
            drop,
            sheet.take(self.output_high),
            DIODE_BRIDGE,
            highest,
        )

    @property
    def live_controls(self) -> bool | None:
        """Whether its control terminals are at line potential; None when the file does not say."""
        return None if self.separation is None else self.separation == "none"
