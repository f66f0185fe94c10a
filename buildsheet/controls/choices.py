"""Which stages a builder asked for between plug and motor."""

from typing import ClassVar, Literal

from pydantic import Field

from buildsheet.given.fields import Amperes, Flag, Henries, Ohms, Volts, Watts
from buildsheet.given.model import Given


class Fan(Given):
    """A small fan on the drive."""

    voltage: Volts = Field(description="Voltage on the fan's plate.", examples=["120 V"])
    power: Watts = Field(description="Power on the fan's plate.", examples=["14 W"])
    body: Literal["plastic", "metal"] | None = Field(
        None, description="What its frame is made of. Unless it is plastic it gets a protective conductor."
    )


class Choke(Given):
    """A choke in the motor's lead, which smooths its current. On one line: `8 mH, 0.35 ohm, 6 A`."""

    SHORT: ClassVar = ("inductance", "resistance", "current")
    inductance: Henries = Field(description="Its inductance, marked or measured.", examples=["8 mH"])
    resistance: Ohms = Field(description="Resistance of its winding.", examples=["0.35 ohm"])
    current: Amperes = Field(description="Current marked on it, or of its old machine.", examples=["6 A"])


class Overload(Given):
    """What sees the motor's overload."""

    by: Literal["relay", "inverter", "drive current limit", "thermal protector"] = Field(description="What it is.")
    setting: Amperes = Field(description="What it is set to, once known.", examples=["5.5 A"])


class Controls(Given):
    """Stages between plug and motor. The no-volt release is there unless it is refused."""

    no_volt_release: Flag = Field(
        default=True, description="A contactor that drops when the line fails and stays out."
    )
    emergency_stop: Flag = Field(default=True, description="A latching red button that drops the contactor.")
    disconnect: Flag = Field(default=True, description="A switch that cuts every pole of the line.")
    overload: Overload | None = Field(
        None, description="What protects the motor from overload; a fuse does not."
    )
    fan: Fan | None = Field(None, description="A fan on the drive.")
    also_stops: tuple[Literal["guard switch", "thermostat", "foot pedal"], ...] = Field(
        (), description="What else stops the machine: its contact goes into the chain of the no-volt release."
    )
    choke: Choke | None = Field(None, description="A choke in the motor's lead.")
    field_relay: Flag = Field(
        default=False, description="A relay in a row with a field that has a supply of its own: without field current nothing runs."
    )
    field_fuse: Flag = Field(default=False, description="A fuse of its own for that field. Only with its relay.")
    brake: Flag = Field(default=False, description="A resistor that brakes the motor at every stop.")
    soft_start: Flag = Field(
        default=False, description="A resistor ahead of a motor on a fixed voltage, which a timer bridges when it has run up."
    )
