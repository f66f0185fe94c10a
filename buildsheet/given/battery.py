"""A battery that feeds the machine."""

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from buildsheet.given.fields import Amperes, Charges, Flag, Ohms, Said, Times, Volts
from buildsheet.given.model import Given

BatteryKind = Literal["lead-acid", "lead-acid AGM", "lithium-iron-phosphate"]


class Battery(Given):
    """The battery. On one line: `24 V, 35 Ah, lead-acid AGM, 20 mohm`."""

    SHORT: ClassVar = ("voltage", "capacity", "kind", "protection", "resistance", "rated_over", "charger")
    voltage: Volts = Field(description="Nominal voltage of the whole battery.", examples=["24 V"])
    capacity: Charges = Field(description="Charge marked on it.", examples=["35 Ah"])
    kind: BatteryKind | None = Field(None, description="Kind of its cells.")
    protection: Literal["protection board", "no protection board"] | None = Field(
        None, description="Whether a lithium battery has its own board that ends discharge, charge, cold and short."
    )
    resistance: Ohms = Field(
        description="Its own resistance: what the volts at its posts fall by, over the amperes.",
        examples=["20 mohm"],
    )
    rated_over: Annotated[Times, Said(before="over")] = Field(
        description="Time over which its capacity is rated, when not the usual one of its kind.",
        examples=["20 h"],
    )
    charger: Annotated[Amperes, Said(after="charger")] = Field(
        description="Current of its charger; taken as 30 % of the capacity in an hour when not written.",
        examples=["5 A"],
    )
    charger_inlet: Flag = Field(
        default=True,
        description="A socket on the machine for the charger; the machine can't start while its plug is in.",
    )
