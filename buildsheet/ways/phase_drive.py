"""Phase-controlled drive: a half-controlled bridge on the line, with a three-terminal speed potentiometer."""

from typing import Literal

from pydantic import Field

from buildsheet.circuit import Device, Electronics, Resistance
from buildsheet.circuit.builder import Board, Feed
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
    line_voltage: Volts = Field(description="Line voltage that the drive is made for.", examples=["120 V"])
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


def wire_drive(
    board: Board,
    feed: Feed,
    *,
    potentiometer: tuple[float, float],
    end: float,
    live: bool,
    texts: dict[str, str],
) -> tuple[str, str]:
    """The drive and its speed potentiometer, wires 301, 302 and 501 to 503; hands on the output terminals."""
    board.add(
        Device(
            "T1", "drive", "DC drive", texts["T1"], ("L", "N", "A+", "A−", "P1", "P2", "P3", "case"),
            (Electronics(("L", "N", "A+", "A−", "P1", "P2", "P3")),), metal="case", place="box", column=4,
        )
    )  # fmt: skip
    low, high = potentiometer
    board.add(
        Device(
            "S4", "potentiometer", "Speed knob", texts["S4"], ("1", "2", "3"),
            (
                Resistance("1", "2", 0.0, end, "slow"), Resistance("2", "3", low, high, "slow"),
                Resistance("1", "2", low, high, "fast"), Resistance("2", "3", 0.0, end, "fast"),
            ),
            positions=("slow", "fast"), place="panel", column=5, touched=live,
        )
    )  # fmt: skip
    board.wire(301, f"{feed[0]}", "T1:L", "line")
    board.wire(302, f"{feed[1]}", "T1:N", "neutral")
    for number, terminal, lug, index in ((501, "P1", "1", 0), (502, "P2", "2", 1), (503, "P3", "3", 2)):
        board.wire(
            number,
            f"T1:{terminal}",
            f"S4:{lug}",
            "signal",
            "panel",
            colour=board.conductors["signal"].colours[index],
            cable="W2",
        )
    return "T1:A+", "T1:A−"
