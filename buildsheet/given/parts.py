"""Parts on hand, with the ratings that are printed on them."""

from typing import TYPE_CHECKING, Annotated, ClassVar, Literal

from pydantic import Field

from buildsheet.given.fields import (
    Amperes,
    Farads,
    FaultAmperes,
    Heights,
    Henries,
    Ohms,
    Said,
    Times,
    VoltAmperes,
    Volts,
    Watts,
)
from buildsheet.given.model import Given
from buildsheet.reference import table

if TYPE_CHECKING:
    PartKind = str
else:  # a kind more is a row more
    PartKind = Literal[tuple(table("part_kinds").rows)]
Gauge = Literal[
    "18 AWG", "16 AWG", "14 AWG", "12 AWG", "10 AWG", "8 AWG",
    "0.75 mm²", "1.0 mm²", "1.5 mm²", "2.5 mm²", "4 mm²", "6 mm²",
]  # fmt: skip


class Part(Given):
    """A part on hand. On one line: `contactor, 20 A 250 V AC, 2-pole, coil 120 V, auxiliary contact, AC-3, salvaged`."""

    SHORT: ClassVar = (
        "kind",
        "current",
        "voltage",
        "supply",
        "capacitance",
        "inductance",
        "resistance",
        "power",
        "poles",
        "gauge",
        "length",
        "taper",
        "shaft",
        "pieces",
        "origin",
        "breaking",
        "lag",
        "coil",
        "auxiliary",
        "category",
        "contact",
        "opening",
        "reset",
        "centre",
        "delay",
        "range",
        "secondary",
        "apparent",
        "pulls_in",
        "falls_out",
    )
    kind: PartKind = Field(description="What it is.")
    id: str = Field("", description="Your own name for this one part.", max_length=20)
    current: Amperes = Field(description="Current marked on it.", examples=["20 A"])
    voltage: Volts = Field(description="Voltage marked on it.", examples=["250 V"])
    secondary: Annotated[Volts, Said(before="secondary")] = Field(
        description="Voltage that a transformer gives at full load, marked on it.", examples=["24 V"]
    )
    apparent: VoltAmperes = Field(description="Rating marked on a transformer.", examples=["250 VA"])
    supply: Literal["AC", "DC"] | None = Field(
        None, description="What its voltage and current are marked for."
    )
    breaking: Annotated[FaultAmperes, Said(before="breaks")] = Field(
        description="Breaking capacity marked on a fuse.", examples=["10 kA"]
    )
    capacitance: Farads = Field(description="Capacitance marked or measured.", examples=["1500 µF"])
    inductance: Henries = Field(description="Inductance marked or measured.", examples=["8 mH"])
    resistance: Ohms = Field(description="Resistance marked or measured.", examples=["5 kohm"])
    power: Watts = Field(description="Power marked on it.", examples=["2 W"])
    poles: Literal["1-pole", "2-pole", "3-pole"] | None = Field(None, description="Poles of a switch.")
    gauge: Gauge | None = Field(None, description="Wire size.")
    length: Heights = Field(description="Length of a cord.", examples=["2.5 m"])
    taper: Literal["linear", "audio"] | None = Field(None, description="Taper of a potentiometer.")
    shaft: Literal["plastic shaft", "metal shaft"] | None = Field(
        None, description="What the shaft of a potentiometer is made of."
    )
    lag: Literal["time-lag", "fast"] | None = Field(None, description="Kind of a fuse.")
    coil: Annotated[Volts, Said(before="coil")] = Field(
        description="Voltage marked on the coil of a contactor.", examples=["120 V"]
    )
    auxiliary: Literal["auxiliary contact", "auxiliary contacts of both kinds"] | None = Field(
        None, description="Whether a contactor has a normally open contact beside its poles."
    )
    category: Literal["AC-1", "AC-3", "AC-4", "DC-1", "DC-3", "DC-5", "motor-rated"] | None = Field(
        None,
        description="Use category marked on a contactor, IEC 60947-4-1; `motor-rated` for a mark in horsepower.",
    )
    contact: Literal["normally closed", "normally open", "changeover"] | None = Field(
        None, description="Contact of a button or timer, as the meter shows it at rest."
    )
    opening: Literal["direct opening"] | None = Field(
        None,
        description="Whether an emergency stop has the direct-opening mark, IEC 60947-5-1: an arrow in a circle.",
    )
    reset: Literal["manual reset", "automatic reset"] | None = Field(
        None, description="How an overload relay resets."
    )
    centre: Literal["centre off"] | None = Field(
        None, description="Whether a changeover switch has a place in the middle in which nothing is joined."
    )
    delay: Literal["on-delay", "off-delay", "true off-delay"] | None = Field(
        None, description="Kind of a timer; a true off-delay keeps its time without supply."
    )
    range: Annotated[Times, Said(before="up to")] = Field(
        description="Longest time that a timer can be set to.", examples=["30 s"]
    )
    pulls_in: Annotated[Amperes, Said(before="pulls in at")] = Field(
        description="Coil current at which a current relay has pulled in.", examples=["0.30 A"]
    )
    falls_out: Annotated[Amperes, Said(before="falls out at")] = Field(
        description="Coil current at which a current relay has fallen out.", examples=["0.29 A"]
    )
    pieces: Literal["two of them"] | None = Field(
        None, description="Whether there are two alike, for a place that takes two."
    )
    origin: Literal["salvaged", "bought", "new"] | None = Field(None, description="Where it came from.")
    price: str = Field("", description="What it cost or would cost, as text.", max_length=20)
