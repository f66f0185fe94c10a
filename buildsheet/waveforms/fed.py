"""Which voltage ahead of a rectifier drives a wanted current: that of a transformer's secondary, or of a dial."""

from dataclasses import dataclass, replace
from functools import lru_cache
from math import isfinite, pi, sqrt

from .converters import Converter
from .inputs import Capacitor, Load, NotSolved, Source, refuse_unless
from .roots import crossing
from .smoothed import Smoothed, smoothed
from .solve import KEPT, solve
from .steady import Samples, Steady

ACCURACY = 1e-7  # relative, of the wanted average current: far below what any rating is read to
WIDER = 1.3  # by which the upper end of the search grows until it is enough
WIDENED = 12


@dataclass(frozen=True, slots=True)
class Fed:
    """A rectifier behind a transformer: `behind` is what flows behind it, `line` the source ahead of it, `rms` the voltage
    (V) between the two that drives the wanted current. Currents in A; those of the line are referred through the
    turns, magnetising current left out."""

    line: Source
    rms: float
    behind: Steady | Smoothed

    @property
    def rms_current(self) -> float:
        return self.behind.rms_current

    @property
    def peak_current(self) -> float:
        return self.behind.peak_current

    @property
    def form_factor(self) -> float:
        return self.behind.form_factor

    @property
    def secondary_current(self) -> float:
        """RMS current ahead of the rectifier, which is the secondary's or the brush's."""
        return self.behind.line_current

    @property
    def line_current(self) -> float:
        return self.behind.line_current * self.rms / self.line.rms

    @property
    def line_average(self) -> float:
        return 0.0  # a bridge draws no average from the line

    @property
    def continuous(self) -> bool:
        return self.behind.continuous

    @property
    def ripple_voltage(self) -> float:
        """V, peak to peak, of a capacitor; 0 without one."""
        return self.behind.ripple_voltage if isinstance(self.behind, Smoothed) else 0.0

    @property
    def ripple_current(self) -> float:
        """RMS current of a capacitor (A); 0 without one."""
        return self.behind.capacitor_current if isinstance(self.behind, Smoothed) else 0.0

    def samples(self, n: int) -> Samples:
        """`n` points over one period of the line."""
        return self.behind.samples(n)


def referred(line: Source, rms: float, winding: float) -> Source:
    """The source that a rectifier sees behind a transformer with the open voltage `rms` (V): the line's resistance through
    the square of the turns, and that of its own windings (ohm, seen from the secondary)."""
    turns = rms / line.rms
    return replace(line, rms=rms, resistance=line.resistance * turns**2 + winding, inductance=line.inductance * turns**2)


@lru_cache(maxsize=KEPT)
def voltage_for(
    converter: Converter, line: Source, winding: float, R: float, L: float, E: float, average_current: float, capacitor: Capacitor
) -> Fed:
    """The voltage behind a transformer on `line` at which `average_current` (A) flows into a motor at back-EMF `E` (V),
    through a rectifier and, with C above 0, past a capacitor. `winding` (ohm) is the transformer's own resistance seen
    from its secondary.

    Raises NotSolved for a converter with a gate, a current not above zero, and when no voltage was found.
    """
    refuse_unless(not converter.controlled, f"a {converter.label} sets the current by its gate")
    wanted = float(average_current)
    refuse_unless(isfinite(wanted) and wanted > 0.0, f"the average current must be above zero, not {wanted:.3g} A")
    load = Load(R, L, E)

    def at(rms: float) -> Steady | Smoothed:
        source = referred(line, rms, winding)
        return solve(converter, source, load) if capacitor.C == 0.0 else smoothed(converter, source, load, capacitor)

    low = (load.E + line.drop) / sqrt(2.0)  # whose peak drives nothing
    volts = load.E + load.R * wanted + line.drop
    # a steady load behind a choke needs the most, one behind a large capacitor the least
    high = volts * pi / (2.0 * sqrt(2.0)) + 2.0 * winding * wanted if capacitor.C == 0.0 else volts / sqrt(2.0) * 1.1
    for _ in range(WIDENED):
        found = at(high).average_current
        if found >= wanted:
            break
        low, high = high, high * WIDER
    else:
        raise NotSolved(f"no voltage behind the transformer drives {wanted:.4g} A into a back-EMF of {load.E:.4g} V")
    if found <= wanted * (1.0 + ACCURACY):
        return Fed(line, high, at(high))
    below = at(low).average_current if low > (load.E + line.drop) / sqrt(2.0) else 0.0
    rms = crossing(
        lambda v: at(v).average_current - wanted, low, below - wanted, high, found - wanted, ACCURACY * wanted, "voltage"
    )
    return Fed(line, rms, at(rms))
