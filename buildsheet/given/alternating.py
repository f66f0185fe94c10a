"""What a builder reads off the plate of a motor for alternating current."""

from typing import Annotated, ClassVar

from pydantic import Field

from buildsheet.given.fields import Amperes, Factors, Farads, Hertzes, Said, Speeds, Volts, Watts
from buildsheet.given.model import Given


class LinePlate(Given):
    """The nameplate of a single-phase motor. On one line: `120 V 60 Hz, 7.2 A, 1725 rpm, 0.33 hp, locked rotor 38 A`."""

    SHORT: ClassVar = ("voltage", "frequency", "current", "speed", "power", "factor", "locked")
    voltage: Volts = Field(description="Volts on the plate.", examples=["120 V"])
    frequency: Hertzes = Field(description="Frequency on the plate.", examples=["60 Hz"])
    current: Amperes = Field(description="Full-load current on the plate.", examples=["7.2 A"])
    speed: Speeds = Field(description="Full-load speed on the plate, a little below that of its field.", examples=["1725 rpm"])
    power: Watts = Field(description="Power at the shaft on the plate.", examples=["0.33 hp"])
    factor: Annotated[Factors, Said(before="cos")] = Field(description="Power factor on the plate.", examples=["0.68"])
    locked: Annotated[Amperes, Said(before="locked rotor")] = Field(
        description="Current with the rotor held, if the plate gives it.", examples=["38 A"]
    )


class ThreePhasePlate(Given):
    """The nameplate of a three-phase motor. On one line: `230 V 400 V, 1.9 A 1.1 A, 50 Hz, 1390 rpm, 0.37 kW, cos 0.74`;
    a motor for one voltage has one of each."""

    SHORT: ClassVar = ("voltage", "star_voltage", "current", "star_current", "frequency", "speed", "power", "factor")
    voltage: Volts = Field(description="Lower volts on the plate, for delta.", examples=["230 V"])
    star_voltage: Volts = Field(description="Higher volts on the plate, for star.", examples=["400 V"])
    current: Amperes = Field(description="Current at the lower volts.", examples=["1.9 A"])
    star_current: Amperes = Field(description="Current at the higher volts.", examples=["1.1 A"])
    frequency: Hertzes = Field(description="Frequency on the plate.", examples=["50 Hz"])
    speed: Speeds = Field(description="Full-load speed on the plate, a little below that of its field.", examples=["1390 rpm"])
    power: Watts = Field(description="Power at the shaft on the plate.", examples=["0.37 kW"])
    factor: Annotated[Factors, Said(before="cos")] = Field(description="Power factor on the plate.", examples=["0.74"])


class MotorCapacitor(Given):
    """A motor's own capacitor. On one line: `12 µF, 400 V`."""

    SHORT: ClassVar = ("capacitance", "voltage")
    capacitance: Farads = Field(description="Capacitance that is printed on it.", examples=["12 µF"])
    voltage: Volts = Field(description="Volts AC that are printed on it.", examples=["400 V"])
