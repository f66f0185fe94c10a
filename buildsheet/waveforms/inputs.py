"""What feeds the load, what the load is, and the one refusal of this package."""

from dataclasses import dataclass
from math import inf, isfinite, pi

# H; below it the current is that of a resistor to a part in a thousand at line frequency
SMALLEST_INDUCTANCE = 1e-6


class NotSolved(ValueError):
    """No answer, with a reason a reader can act on: bad input, out of reach, or not converged."""


def refuse_unless(condition: bool, reason: str) -> None:
    """Raise `NotSolved(reason)` unless the condition holds."""
    if not condition:
        raise NotSolved(reason)


@dataclass(frozen=True, slots=True)
class Source:
    """Sine source seen from the rectifier.

    rms          V, of the ideal sine behind the resistance
    frequency    Hz
    resistance   ohm, in series with the line (transformer, cord)
    drop         V, constant forward drop of the whole path from the source through the rectifier
                 (two junctions in a bridge). A freewheel path takes its own number of junctions from it.
    inductance   H, in series with the resistance (leakage of a transformer, a long cord); constant, so a transformer
                 driven into saturation is not modelled

    Raises NotSolved for a value that is not finite, rms or frequency not above zero, or a negative
    resistance, drop or inductance.
    """

    rms: float
    frequency: float
    resistance: float = 0.0
    drop: float = 0.0
    inductance: float = 0.0

    def __post_init__(self) -> None:
        # plain floats only: a subclass of float would be kept by the caches and handed to another caller
        for name in ("rms", "frequency", "resistance", "drop", "inductance"):
            number = float(getattr(self, name))
            refuse_unless(isfinite(number), f"source {name} is not a finite number: {number}")
            object.__setattr__(self, name, number)
        refuse_unless(self.rms > 0.0, f"source voltage must be above zero, not {self.rms:.3g} V")
        refuse_unless(self.frequency > 0.0, f"source frequency must be above zero, not {self.frequency:.3g} Hz")
        refuse_unless(self.resistance >= 0.0, f"source resistance can't be negative: {self.resistance:.3g} ohm")
        refuse_unless(self.drop >= 0.0, f"forward drop can't be negative: {self.drop:.3g} V")
        refuse_unless(self.inductance >= 0.0, f"source inductance can't be negative: {self.inductance:.3g} H")

    @property
    def reactance(self) -> float:
        """Ohm, of the inductance at line frequency."""
        return 2.0 * pi * self.frequency * self.inductance


@dataclass(frozen=True, slots=True)
class Load:
    """Armature circuit of a DC motor at constant speed.

    R   ohm, winding, brushes, choke and leads together
    L   H, winding and choke together
    E   V, back-EMF, constant over the period (the speed doesn't follow the ripple)

    Raises NotSolved for a value that is not finite, R not above zero, L under 1 microhenry, or E negative
    (a motor driven backwards feeds energy back, which these converters are not modelled for).
    """

    R: float
    L: float
    E: float

    def __post_init__(self) -> None:
        for name in ("R", "L", "E"):
            number = float(getattr(self, name))
            refuse_unless(isfinite(number), f"load {name} is not a finite number: {number}")
            object.__setattr__(self, name, number)
        refuse_unless(self.R > 0.0, f"load resistance must be above zero, not {self.R:.3g} ohm")
        refuse_unless(
            self.L >= SMALLEST_INDUCTANCE,
            f"load inductance must be at least {SMALLEST_INDUCTANCE} H, not {self.L:.3g} H: without any the current "
            "follows from Ohm's law and needs no solver",
        )
        refuse_unless(
            self.E >= 0.0,
            f"back-EMF can't be negative: {self.E:.3g} V; a motor turning backwards is not modelled",
        )


@dataclass(frozen=True, slots=True)
class ConstantCurrent:
    """A load that takes the same current (A) whatever its voltage. Raises NotSolved for one not above zero."""

    current: float

    def __post_init__(self) -> None:
        object.__setattr__(self, "current", float(self.current))
        refuse_unless(
            isfinite(self.current) and self.current > 0.0,
            f"a constant current must be above zero, not {self.current:.3g} A",
        )


@dataclass(frozen=True, slots=True)
class Capacitor:
    """Smoothing capacitor across the rectifier's output.

    C         F, 0 for none; its series resistance is not modelled
    bleeder   ohm, in parallel with it, infinite for none

    Raises NotSolved for a C that is negative or not finite, and a bleeder not above zero.
    """

    C: float
    bleeder: float = inf

    def __post_init__(self) -> None:
        object.__setattr__(self, "C", float(self.C))
        object.__setattr__(self, "bleeder", float(self.bleeder))
        refuse_unless(isfinite(self.C) and self.C >= 0.0, f"capacitance must be zero or above, not {self.C:.3g} F")
        refuse_unless(self.bleeder > 0.0, f"bleeder resistance must be above zero, not {self.bleeder:.3g} ohm")
