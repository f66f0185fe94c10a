"""What a builder adds of their own, and what the screws of a part are called on the part itself."""

from typing import ClassVar, Literal

from pydantic import Field

from buildsheet.given.fields import Volts, Watts
from buildsheet.given.model import Given


class Extra(Given):
    """A lamp, an indicator, a second fan, or a display of the tool's speed with its own sensor. On one line: `lamp, 120 V, 10 W, with the disconnect, metal`."""

    SHORT: ClassVar = ("what", "voltage", "power", "on", "body")
    what: Literal["lamp", "indicator", "fan", "speed display"] = Field(description="What it is.")
    name: str = Field("", description="What you call it; printed.", max_length=24)
    voltage: Volts = Field(description="Voltage marked on it.", examples=["120 V"])
    power: Watts = Field(description="Power marked on it.", examples=["10 W"])
    on: Literal["with the disconnect", "while it runs"] = Field(
        "while it runs", description="When it is fed: as soon as the disconnect is on, or with the motor."
    )
    body: Literal["plastic", "metal"] | None = Field(
        None, description="What its frame is made of. Unless it is plastic it gets a protective conductor."
    )


class Renamed(Given):
    """A screw that is called otherwise on the part itself."""

    device: str = Field(description="Code of the part in this packet.", examples=["T1"], pattern=r"^[A-Z]\d{1,2}$")
    terminal: str = Field(description="The screw as this packet calls it.", examples=["A+"], max_length=6)
    name: str = Field(description="What stands beside it on the part.", examples=["MOT+"], pattern=r"^[A-Za-z0-9+−/-]{1,6}$")
