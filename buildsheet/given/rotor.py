"""What a builder states of a part that turns and that somebody made at home: its material, its hole, its spin test."""

from typing import Literal

from pydantic import Field

from buildsheet.given.fields import Flags, Lengths, SafetyFactors, Speeds
from buildsheet.given.model import Given

# The rows of the table rotor_materials; a test compares.
Material = Literal["mild steel", "grey cast iron", "unknown aluminium alloy", "birch plywood", "medium-density fibreboard", "hardwood in one piece"]


class SpinTest(Given):
    """The part was spun once, faster than its machine can, behind a shield."""

    date: str = Field(description="Date, year first.", pattern=r"^\d{4}-\d{2}-\d{2}$")
    by: str = Field(description="Who spun it.", min_length=1, max_length=40)
    speed: Speeds = Field(description="Highest speed that it was held at, by a tachometer.", examples=["2600 rpm"])
    shield: Flags = Field(None, description="Whether it turned behind a shield, with nobody in the plane of rotation.")
    found: Literal["sound", "cracked", "grown or out of true"] | None = Field(
        None, description="What a lens and a calliper showed afterwards."
    )


class HomeMade(Given):
    """A part that bears no mark because somebody made it: its speed is worked from its stress, and proven by spinning it."""

    material: Material = Field(description="What it is made of, in one sound piece.")
    bore: Lengths = Field(description="Diameter of its hole, the largest one.", examples=["20 mm"])
    factor: SafetyFactors = Field(description="Factor of safety, if it is to be more than that of the table.", examples=["10"])
    spin_test: SpinTest | None = Field(None, description="The spin test, once it is done.")
