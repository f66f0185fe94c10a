"""What a machine is fed from, as what stands behind it must know it: facts, whatever the source is."""

from dataclasses import dataclass

from buildsheet.units import HERTZ
from buildsheet.worksheet import Value, unknown


@dataclass(frozen=True, slots=True)
class Supplied:
    """Facts of a supply. `frequency` is None on direct current.

    `guard` is the rating of what protects the first run of wire, None at a battery, where the fuse comes first;
    `poles` are those that are fused and cut, one or both; `live` says whether it can kill by touch; `earthed` whether
    it brings a protective conductor.
    """

    word: str
    voltage: Value
    highest: Value
    lowest: Value
    fault: Value
    frequency: Value | None = None
    guard: Value | None = None
    poles: int = 1
    live: bool = True
    earthed: bool = True
    pole_may_swap: bool = False
    two_hot: bool = False

    @property
    def line_frequency(self) -> Value:
        """Its frequency, unknown for a battery."""
        if self.frequency is not None:
            return self.frequency
        return unknown("supply.frequency", HERTZ, "this way of powering needs alternating current", "frequency")

    @property
    def alternating(self) -> bool:
        return self.frequency is not None
