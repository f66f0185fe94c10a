"""Where the machine stands and what feeds it."""

from typing import Annotated, ClassVar, Literal, get_args

from pydantic import Field

from buildsheet.given.fields import Amperes, FaultAmperes, Heights, Hertzes, Said, Temperatures, Volts
from buildsheet.given.model import Given

Where = Literal["dry shed", "dry room", "damp cellar", "wet place", "outdoors"]
Users = Literal["builder alone", "household", "club"]
Skill = Literal["skilled", "instructed", "lay"]
ResidualCurrent = Literal["GFCI", "RCD", "RCD type AC", "RCD type A", "RCD type F", "RCD type B", "none"]
# Regions whose circuit this version can wire; a test holds them to the files of data.
RegionName = Literal["north-america", "europe"]
REGIONS: tuple[str, ...] = get_args(RegionName)


class Site(Given):
    """Where the machine stands and who uses it."""

    region: RegionName = Field("north-america", description="Which rules, tables, colours and words hold.")
    where: Where | None = Field(
        None, description="How dry the place is. Unanswered keeps the packet a draft."
    )
    ambient: Temperatures = Field(
        description="Warmest air around the machine when it is used.", examples=["35 degC"]
    )
    altitude: Heights = Field(description="Height above the sea; thin air cools less.", examples=["300 m"])
    measures: Literal["metric", "inch"] | None = Field(
        None, description="Measures in print, when not those of the region."
    )
    users: Users | None = Field(None, description="Who uses the machine.")
    skill: Skill | None = Field(None, description="What the person who wires it has learnt.")


class Supply(Given):
    """What the machine is fed from. On one line: `120 V 60 Hz, 15 A breaker, GFCI, plug`."""

    SHORT: ClassVar = (
        "voltage",
        "frequency",
        "breaker",
        "residual_current",
        "connection",
        "poles",
        "fault_current",
    )
    voltage: Volts = Field(description="Nominal voltage of the outlet.", examples=["120 V"])
    frequency: Hertzes = Field(description="Line frequency.", examples=["60 Hz"])
    breaker: Annotated[Amperes, Said(after="breaker")] = Field(
        description="Rating of the wall breaker of this circuit.", examples=["15 A"]
    )
    residual_current: ResidualCurrent | None = Field(
        None, description="Residual-current protection of the outlet."
    )
    connection: Literal["plug", "fixed"] | None = Field(None, description="Cord and plug, or fixed wiring.")
    poles: Literal["one-hot", "two-hot"] = Field(
        "one-hot", description="How many poles can be live against earth."
    )
    fault_current: Annotated[FaultAmperes, Said(after="fault")] = Field(
        description="Prospective fault current at the outlet, if somebody measured it.", examples=["1000 A"]
    )


class Box(Given):
    """The enclosure of the electrical parts. On one line: `300 x 200 x 120 mm, steel, vented`."""

    SHORT: ClassVar = ("width", "height", "depth", "material", "openings", "mounting")
    width: Annotated[Heights, Said()] = Field(description="Outside width.", examples=["300 mm"])
    height: Annotated[Heights, Said()] = Field(description="Outside height.", examples=["200 mm"])
    depth: Annotated[Heights, Said()] = Field(description="Outside depth.", examples=["120 mm"])
    material: Literal["steel", "aluminium", "plastic"] | None = Field(
        None, description="What the box is made of."
    )
    openings: Literal["sealed", "vented", "fan"] | None = Field(None, description="How air gets in.")
    mounting: Literal["free", "on a wall"] = Field(
        "free", description="Free on all sides, or with its back on a wall."
    )


class Runs(Given):
    """Lengths of the cables."""

    cord: Heights = Field(description="Line cord, plug to box.", examples=["2.5 m"])
    battery: Heights = Field(description="Fuse at the battery to the box, one way.", examples=["1.2 m"])
    motor: Heights = Field(description="Box to motor, one way.", examples=["900 mm"])
    panel: Heights = Field(description="Inside the box to a control on its door.", examples=["350 mm"])
    loop: Heights = Field(
        description="Spare length left at each wire for the second try.", examples=["60 mm"]
    )
