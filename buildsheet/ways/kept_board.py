"""A drive board kept from the motor's own machine, with its three speed terminals: a phase-controlled drive whose trims and
limit were set for another use, and parts of which may have stayed in the scrap.
"""

from collections.abc import Iterator
from typing import ClassVar, Literal

from pydantic import Field

from buildsheet.citations import practice
from buildsheet.given.fields import Amperes
from buildsheet.sizing.finding import Finding, Said
from buildsheet.sizing.supply import Supplied
from buildsheet.sizing.waist import Applied
from buildsheet.ways.phase_drive import PhaseControlledDrive
from buildsheet.ways.salvaged import Whereabouts, left_behind, limit_of_old_motor
from buildsheet.ways.way import Beside
from buildsheet.worksheet import Value


class KeptBoard(PhaseControlledDrive):
    """A salvaged board of the phase-controlled kind."""

    printed: ClassVar[str] = "Kept drive board"
    stands_as: ClassVar[tuple[str, ...]] = ("magnet-motor drive",)

    way: Literal["kept-board"] = Field(description="Way of powering.")  # type: ignore[assignment]
    old_current: Amperes = Field(
        description="Current on the plate of the motor that it drove; its limit was set for that.", examples=["8 A"]
    )
    choke: Whereabouts | None = Field(None, description="Where the choke of its old machine is.")
    transformer: Whereabouts | None = Field(None, description="Where the small transformer of its console is.")
    harness: Whereabouts | None = Field(None, description="Where its plugs and wires are.")

    def dangers(self, beside: Beside) -> Iterator[Finding]:
        yield from super().dangers(beside)
        if self.cooled_by == "fan":
            yield Finding("fan-for-heat-sink", "heed", "WARNING", Said.of("A fan stands in for the heat sink that the board was rated with."), "Nobody has tried this board so: its rating with a fan is a guess until its parts were felt under load.",
                          "After an hour of the hardest work, plug out and waited, read the hottest part: more than 80 °C means the heat sink back on, or a smaller rating under power: rated.", practice("salvaged drive boards"), ("T1", "M2"), key="power.cooled_by")  # fmt: skip
        yield from left_behind({"choke": self.choke, "transformer": self.transformer, "harness": self.harness}, beside)
        yield from limit_of_old_motor(self.old_current, self.current_limit, beside)

    def say(self, supplied: Supplied, applied: Applied) -> tuple[Value | str, ...]:
        return ("the board of the motor's old machine, ", supplied.voltage, " in, ", applied.ceiling, " DC out, ", self.rated, "; bought anew: a phase-controlled DC drive of these figures")
