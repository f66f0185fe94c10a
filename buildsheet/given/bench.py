"""What a builder reads off a motor's plate, measures on it at the bench, and knows of its old machine."""

from typing import Annotated, ClassVar

from pydantic import Field

from buildsheet.given.fields import (
    Amperes,
    Hertzes,
    IdleAmperes,
    Lengths,
    PowerFactors,
    RunningSpeeds,
    Said,
    Speeds,
    Torques,
    Volts,
    Watts,
)
from buildsheet.given.model import Given


class Plate(Given):
    """The nameplate. On one line: `90 V, 5.0 A, 1725 rpm, 0.5 hp`."""

    SHORT: ClassVar = ("voltage", "current", "speed", "power", "form_factor")
    voltage: Volts = Field(description="Rated armature voltage.", examples=["90 V"])
    current: Amperes = Field(
        description="Continuous current on the plate, not the starting surge.", examples=["5.0 A"]
    )
    speed: Speeds = Field(description="Speed at rated voltage and current.", examples=["1725 rpm"])
    power: Watts = Field(
        description="Power on the plate; it is compared with volts, amperes and efficiency.",
        examples=["0.5 hp"],
    )
    form_factor: Annotated[PowerFactors, Said(before="FF")] = Field(
        description="Form factor on the plate, if it names one.", examples=["1.40"]
    )


class FieldPlate(Given):
    """The field's own line on the nameplate. On one line: `100 V, 0.55 A`."""

    SHORT: ClassVar = ("voltage", "current")
    voltage: Volts = Field(description="Field volts on the plate.", examples=["100 V"])
    current: Amperes = Field(description="Field amperes on the plate.", examples=["0.55 A"])


class Spun(Given):
    """The motor turned by a drill as a generator. On one line: `47.6 V at 1000 rpm`."""

    SHORT: ClassVar = ("voltage", "speed")
    voltage: Volts = Field(description="Open volts, mean of both directions.", examples=["47.6 V"])
    speed: Speeds = Field(description="Speed at which it was turned.", examples=["1000 rpm"])


class SpunField(Given):
    """The motor turned by a drill while a battery feeds its field alone. On one line: `6.4 V at 1000 rpm, 1.5 A`."""

    SHORT: ClassVar = ("voltage", "speed", "current")
    voltage: Volts = Field(description="Open volts of the armature, mean of both directions.", examples=["6.4 V"])
    speed: Speeds = Field(description="Speed at which it was turned.", examples=["1000 rpm"])
    current: Amperes = Field(description="Direct current in the field meanwhile.", examples=["1.5 A"])


class HeldRotor(Given):
    """Two readings with the rotor held. On one line: `3.2 V at 1.0 A, 6.2 V at 3.0 A`."""

    SHORT: ClassVar = ("voltage_1", "current_1", "voltage_2", "current_2")
    voltage_1: Volts = Field(description="Volts at the small current.", examples=["3.2 V"])
    current_1: Amperes = Field(description="Small current.", examples=["1.0 A"])
    voltage_2: Volts = Field(description="Volts at the large current, near rated.", examples=["6.2 V"])
    current_2: Amperes = Field(description="Large current.", examples=["3.0 A"])

    @property
    def impossible(self) -> bool:
        """Whether no winding gives these readings: the volts do not rise with the amperes."""
        readings = (self.voltage_1, self.voltage_2, self.current_1, self.current_2)
        if not all(reading.known for reading in readings):
            return False
        volts, amperes = (float(b) - float(a) for a, b in (readings[:2], readings[2:]))
        return volts * amperes <= 0


class FreeRun(Given):
    """A run without load. On one line: `12.0 V, 228 rpm, 0.46 A`."""

    SHORT: ClassVar[tuple[str, ...]] = ("voltage", "speed", "current")
    voltage: Volts = Field(description="Volts at the motor.", examples=["12.0 V"])
    speed: Speeds = Field(description="Speed it settles at.", examples=["228 rpm"])
    current: IdleAmperes = Field(
        description="Current it settles at; 0 A for a motor without losses, as in a problem of a textbook.",
        examples=["0.46 A"],
    )


class FieldRun(FreeRun):
    """A run without load with the field fed by itself. On one line: `24.0 V, 168 rpm, 0.42 A, 0.55 A field`."""

    SHORT: ClassVar = ("voltage", "speed", "current", "field")
    field: Annotated[Amperes, Said(after="field")] = Field(
        description="Direct current in the field meanwhile.", examples=["0.55 A"]
    )


class AlternatingTest(Given):
    """Low-voltage AC on the held rotor, for the inductance. On one line: `12.0 V 60 Hz, 2.9 A`."""

    SHORT: ClassVar = ("voltage", "frequency", "current")
    voltage: Volts = Field(description="AC volts.", examples=["12.0 V"])
    frequency: Hertzes = Field(description="Frequency.", examples=["60 Hz"])
    current: Amperes = Field(description="AC amperes.", examples=["2.9 A"])


class Asked(Given):
    """Volts and a torque, to learn what the motor would do there. On one line: `12 V, 0.3 N·m`."""

    SHORT: ClassVar = ("voltage", "torque")
    voltage: Volts = Field(description="Smooth volts at the motor.", examples=["12 V"])
    torque: Torques = Field(description="Torque at its shaft.", examples=["0.3 N·m"])


class OldRun(Given):
    """How the motor ran in its old machine. On one line: `16 km/h, 48 mm roller, 40 -> 96 mm`."""

    SHORT: ClassVar = ("speed", "roller", "driver", "driven")
    speed: RunningSpeeds = Field(
        description="Greatest speed of the old machine's belt or drum rim, by its display or plate.",
        examples=["16 km/h"],
    )
    roller: Annotated[Lengths, Said(after="roller")] = Field(
        description="Diameter of the roller or drum that moved it.", examples=["48 mm"]
    )
    driver: Lengths = Field(description="Pitch diameter of the old pulley on the motor.", examples=["40 mm"])
    driven: Lengths = Field(description="Pitch diameter of the old pulley on the roller.", examples=["96 mm"])
