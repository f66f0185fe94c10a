"""A chopper on a steady voltage into R, L and a back-EMF: exact, from one exponential per span.

Switch on: the load sees V - drop_on. Switch off: the current goes on through the freewheel diode, and the load sees
-drop_off until the current ends. Between the two the current follows i = a + (i0 - a)·exp(-t·R/L).
"""

from dataclasses import dataclass, replace
from functools import lru_cache
from math import exp, expm1, isfinite, log, pi, sqrt
from typing import NamedTuple

from .inputs import Load, NotSolved, refuse_unless
from .roots import crossing
from .steady import Samples

KEPT = 4096
ACCURACY = 1e-9  # relative, of a wanted average current


@dataclass(frozen=True, slots=True)
class SteadySource:
    """A battery or another steady voltage behind a switch.

    voltage      V
    frequency    Hz, of the switching
    drop_on      V, constant drop of the path through the switch
    drop_off     V, constant drop of the freewheel path

    Raises NotSolved for a value that is not finite, voltage or frequency not above zero, a negative drop, or a drop that
    leaves nothing of the voltage.
    """

    voltage: float
    frequency: float
    drop_on: float = 0.0
    drop_off: float = 0.0

    def __post_init__(self) -> None:
        for name in ("voltage", "frequency", "drop_on", "drop_off"):
            number = float(getattr(self, name))
            refuse_unless(isfinite(number), f"source {name} is not a finite number")
            object.__setattr__(self, name, number)
        refuse_unless(self.voltage > 0.0, "source voltage must be above zero")
        refuse_unless(self.frequency > 0.0, "switching frequency must be above zero")
        refuse_unless(min(self.drop_on, self.drop_off) >= 0.0, "a drop can't be negative")
        refuse_unless(self.drop_on < self.voltage, "the drops leave nothing of the voltage")


class _Piece(NamedTuple):
    """A span of the period: how long (s), current at its start, and the current it would settle at (A)."""

    time: float
    start: float
    settled: float

    def end(self, rate: float) -> float:
        return self.settled + (self.start - self.settled) * exp(-rate * self.time)

    def integrals(self, rate: float) -> tuple[float, float]:
        """The integrals of i (A·s) and of its square (A²·s) over the span."""
        a, d = self.settled, self.start - self.settled
        once, twice = -_gone(rate * self.time) / rate, -_gone(2 * rate * self.time) / (2 * rate)
        return a * self.time + d * once, a * a * self.time + 2 * a * d * once + d * d * twice


def _gone(x: float) -> float:
    """exp(-x) - 1, exact for small x."""
    return expm1(-x)


@dataclass(frozen=True, slots=True)
class Chopped:
    """The periodic steady state: currents in A, `duty` as a share of the period, `line_*` drawn from the source."""

    source: SteadySource
    load: Load
    duty: float
    average_current: float
    rms_current: float
    peak_current: float
    ripple_current: float
    line_current: float
    line_average: float
    continuous: bool
    pieces: tuple[_Piece, ...]

    @property
    def form_factor(self) -> float:
        """RMS over average current; raises NotSolved when no current flows."""
        refuse_unless(self.average_current > 0.0, "no current flows, so it has no form factor")
        return self.rms_current / self.average_current

    def fed_by(self, line_current: float) -> "Chopped":
        """The same pulses where their source is itself fed with alternating current, of `line_current` in A, RMS: that is the line's."""
        return replace(self, line_current=line_current, line_average=0.0)  # alternating current has no average

    def samples(self, n: int) -> Samples:
        """`n` points over one period, for a chart: angle of the period (rad), volts of the source, of the load, current."""
        refuse_unless(n >= 2, f"a chart needs at least two points, not {n}")
        period, rate = 1.0 / self.source.frequency, self.load.R / self.load.L
        on = self.source.voltage - self.source.drop_on
        times = sorted({*(period * k / (n - 1) for k in range(n)), *_edges(self.pieces, period)})
        angles, applied, currents = [], [], []
        for time in times:
            start = 0.0
            for index, piece in enumerate(self.pieces):
                if time <= start + piece.time or index == len(self.pieces) - 1:
                    current = piece._replace(time=min(time - start, piece.time)).end(rate)
                    break
                start += piece.time
            angles.append(2 * pi * time / period)
            currents.append(max(current, 0.0) if not self.continuous else current)
            volts = (on, -self.source.drop_off, self.load.E)[index]
            applied.append(volts)
        return Samples(tuple(angles), (self.source.voltage,) * len(angles), tuple(applied), tuple(currents))


def _edges(pieces: tuple[_Piece, ...], period: float) -> list[float]:
    found, at = [], 0.0
    for piece in pieces[:-1]:
        at += piece.time
        found += [at, at + period * 1e-9]
    return found


@lru_cache(maxsize=KEPT)
def chopped(source: SteadySource, load: Load, duty: float) -> Chopped:
    """Steady state at a duty between 0 and 1. Raises NotSolved for a duty outside that."""
    refuse_unless(0.0 < duty <= 1.0, "the duty lies between 0 and 1")
    period, rate = 1.0 / source.frequency, load.R / load.L
    rising = (source.voltage - source.drop_on - load.E) / load.R
    falling = -(source.drop_off + load.E) / load.R
    pieces = _pieces(period * duty, period * (1.0 - duty), rate, rising, falling)
    sums = [piece.integrals(rate) for piece in pieces]
    average, square = sum(one for one, _ in sums) / period, sum(two for _, two in sums) / period
    peak, least = pieces[0].end(rate), pieces[0].start
    return Chopped(
        source, load, duty, average, sqrt(max(square, 0.0)), max(peak, 0.0), max(peak - least, 0.0),
        sqrt(max(sums[0][1] / period, 0.0)), sums[0][0] / period, len(pieces) == 2, pieces,
    )  # fmt: skip


def _pieces(on: float, off: float, rate: float, rising: float, falling: float) -> tuple[_Piece, ...]:
    """On and off with a current that never ends; or on, off until the current ends, and a gap."""
    if rising <= 0.0:  # the source never exceeds the back-EMF: nothing flows
        return _Piece(on, 0.0, 0.0), _Piece(off, 0.0, 0.0), _Piece(0.0, 0.0, 0.0)
    x_on, x_off = -_gone(rate * on), -_gone(rate * off)
    whole = -_gone(rate * (on + off))
    peak = (rising * x_on + falling * x_off * (1.0 - x_on)) / whole
    least = falling + (peak - falling) * (1.0 - x_off)
    if least >= 0.0:
        return _Piece(on, least, rising), _Piece(off, peak, falling)
    peak = rising * x_on
    ends = log(1.0 - peak / falling) / rate if falling < 0.0 else off
    return _Piece(on, 0.0, rising), _Piece(ends, peak, falling), _Piece(off - ends, 0.0, 0.0)


@lru_cache(maxsize=KEPT)
def duty_for(source: SteadySource, R: float, L: float, E: float, average_current: float) -> Chopped:
    """Steady state with the duty that gives `average_current` (A) at back-EMF `E` (V).

    Raises NotSolved for a current not above zero, or beyond what flows with the switch on all the time.
    """
    load, wanted = Load(R, L, E), float(average_current)
    refuse_unless(isfinite(wanted) and wanted > 0.0, "the average current must be above zero")
    most = chopped(source, load, 1.0).average_current
    if wanted > most * (1.0 + ACCURACY):
        raise NotSolved(
            f"{wanted:.3g} A is out of reach: with the switch on all the time {source.voltage:.3g} V give "
            f"{max(most, 0.0):.3g} A against a back-EMF of {load.E:.3g} V"
        )
    if wanted >= most * (1.0 - ACCURACY):
        return chopped(source, load, 1.0)
    duty = crossing(
        lambda share: chopped(source, load, share).average_current - wanted,
        1e-9,
        -wanted,
        1.0,
        most - wanted,
        ACCURACY * wanted,
        "duty",
    )
    return chopped(source, load, duty)
