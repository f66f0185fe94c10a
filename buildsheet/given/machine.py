"""What the machine is to do: its purpose, speeds, power, duty, belts and turning parts."""

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from buildsheet.given.fields import (
    Flag,
    Inertias,
    Lengths,
    RunningSpeeds,
    Said,
    Times,
    Torques,
    Watts,
    WorkSpeeds,
)
from buildsheet.given.model import Given
from buildsheet.given.rotor import HomeMade

# The rows of the tables machine_kinds and load_laws; a test compares.
MachineKind = Literal[
    "belt-sander", "disc-sander", "spindle-sander", "drum-sander", "wood-lathe", "metal-lathe", "drill-press", "scroll-saw",
    "band-saw", "metal-band-saw", "small-mill", "grinder", "buffer", "potters-wheel", "coil-winder", "mixer", "stirrer", "blower",
    "centrifugal-pump", "grain-mill", "fruit-mill", "tumbler", "yarn-twister", "wool-carder", "roller-mill", "other",
]  # fmt: skip
LoadLaw = Literal["constant torque", "constant power", "viscous torque", "quadratic torque"]


class Duty(Given):
    """How long it runs and rests. On one line: `20 min on, 10 min off`."""

    SHORT: ClassVar = ("on", "off")
    on: Annotated[Times, Said(after="on")] = Field(
        description="Running time of a cycle.", examples=["20 min"]
    )
    off: Annotated[Times, Said(after="off")] = Field(description="Rest of a cycle.", examples=["10 min"])


class SpeedRange(Given):
    """Speeds of the tool. On one line: `8..15 m/s, never above 20 m/s`, or in rpm."""

    SHORT: ClassVar = ("low", "high", "limit")
    low: WorkSpeeds = Field(description="Lowest working speed.", examples=["8 m/s"])
    high: WorkSpeeds = Field(description="Highest working speed, the set maximum.", examples=["15 m/s"])
    limit: Annotated[WorkSpeeds, Said(before="never above")] = Field(
        description="Speed that must not be passed, if there is one beside the parts' own marks.",
        examples=["20 m/s"],
    )


Steel = Literal[
    "plain carbon, 80-100 HB", "plain carbon, 120-140 HB", "plain carbon, 140-160 HB", "plain carbon, 180-200 HB",
    "free-machining, 100-120 HB", "free-machining, 140-160 HB", "alloy, 180-200 HB", "alloy, 240-260 HB",
]  # fmt: skip


class Cut(Given):
    """The hardest turning cut, instead of power or torque."""

    steel: Steel = Field(description="What is cut, as in `buildsheet table cutting_power`.")
    speed: RunningSpeeds = Field(description="Cutting speed.", examples=["100 ft/min"])
    feed: Lengths = Field(description="Feed for each turn.", examples=["0.1 mm"])
    depth: Lengths = Field(description="Depth of cut.", examples=["1 mm"])


class MovableMetal(Given):
    """Metal that a hand can reach and that is not bolted fast."""

    part: str = Field(description="What it is called.", examples=["belt cover"], min_length=1, max_length=24)
    joint: Literal["hinged", "sliding", "on rubber"] = Field(description="What lets it move.")


class Machine(Given):
    """The machine and what it is to do."""

    name: str = Field(
        "Machine without a name", description="What people call it.", examples=["Strip sander"], max_length=60
    )
    number: str = Field(
        "",
        description="Short document number; the packet and the labels carry it.",
        examples=["SS-01"],
        max_length=12,
    )
    kind: MachineKind | None = Field(
        None, description="Kind of machine; its usual speeds, load and hazards are looked up."
    )
    load: LoadLaw | None = Field(
        None, description="How the torque of the work goes with speed, where it is not as usual for the kind.", examples=["constant power"]
    )
    purpose: str = Field("", description="One or two short sentences for the cover.", max_length=140)
    drawn_by: str = Field("", description="Who wrote the file, for the title block.", max_length=40)
    duty: Duty | None = Field(None, description="Run and rest; continuous when left out.")
    speed: SpeedRange | None = Field(None, description="Speeds of the tool.")
    drum: Lengths = Field(
        description="Diameter at which the tool works, when its speed is a surface speed.",
        examples=["130 mm"],
    )
    power: Watts = Field(description="Power at the tool under the hardest work, at its highest speed.", examples=["180 W"])
    torque: Torques = Field(
        description="Torque at the tool under the hardest work, at its highest speed, instead of power.", examples=["2 N·m"]
    )
    cut: Cut | None = Field(None, description="Cutting data, from which the power follows.")
    inertia: Inertias = Field(
        description="Moment of inertia of all that turns with the tool.", examples=["0.004 kg·m²"]
    )
    reverse: Flag = Field(default=False, description="Whether it must run both ways.")
    foot_control: Flag = Field(default=False, description="Whether a control is worked by foot.")
    reach: Literal["guarded", "within reach"] | None = Field(
        None, description="Whether the moving tool can be reached while it coasts."
    )
    movable_metal: tuple[MovableMetal, ...] = Field(
        (), max_length=8, description="Metal that can be touched and moves on a hinge, a slide or rubber: fed from an outlet, each is bonded by itself."
    )


class BeltStep(Given):
    """One belt from a driving to a driven pulley. On one line: `80 -> 63 mm, poly-V, centres 250 mm`."""

    SHORT: ClassVar = ("driver", "driven", "belt", "centres")
    driver: Lengths = Field(description="Pitch diameter of the driving pulley.", examples=["80 mm"])
    driven: Lengths = Field(description="Pitch diameter of the driven pulley.", examples=["63 mm"])
    belt: Literal["poly-V", "V", "flat", "round", "timing"] | None = Field(None, description="Kind of belt.")
    centres: Annotated[Lengths, Said(before="centres")] = Field(
        description="Distance of the shafts.", examples=["250 mm"]
    )


class TurningPart(Given):
    """A part that turns, with what it stands. On one line: `drum, 130 mm, rated 5000 rpm` is written in long form."""

    part: str = Field(description="What it is called.", examples=["contact drum"], max_length=40)
    shaft: Literal["motor", "tool", "after belt 1", "after belt 2", "after belt 3"] = Field(
        description="Which shaft it turns with; `after belt 1` is the countershaft between two belts."
    )
    diameter: Lengths = Field(description="Outside diameter.", examples=["130 mm"])
    rated: WorkSpeeds = Field(
        description="Speed marked on it or proven for it, as rpm or as rim speed.", examples=["5000 rpm"]
    )
    basis: (
        Literal[
            "marked on the part", "ran at it in the old machine", "calculated", "rim limit of its material"
        ]
        | None
    ) = Field(None, description="Why it stands that speed.")
    homemade: HomeMade | None = Field(None, description="How it was made, for a part without a mark: its speed is worked then.")
