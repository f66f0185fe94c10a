"""The four questions: what flows at this angle; and which angle, back-EMF or both give a wanted current."""

from functools import lru_cache
from math import isfinite, pi

from .converters import Converter
from .inputs import Load, NotSolved, Source, refuse_unless
from .overlap import loop_of
from .roots import crossing
from .steady import Steady, summary

KEPT = 4096  # solutions kept by each cache; one takes about two kilobytes
ACCURACY = 1e-9  # relative, of a wanted average current


@lru_cache(maxsize=KEPT)
def solve(converter: Converter, source: Source, load: Load, alpha: float = 0.0) -> Steady:
    """Steady state at firing angle `alpha` (rad from the voltage zero, 0 to pi).

    The gate is held from alpha to pi (a long pulse or a train of them): a thyristor fired while the source is still
    below the back-EMF starts as soon as the source exceeds it. With a single short pulse it would not start at all.
    Where the source never exceeds the back-EMF behind the firing angle, no current flows: an answer, not a refusal.
    So is a current below about a thousand-millionth of Vm/Z, which has no digits left.

    Behind an inductive source the current changes over from path to path in its own time (see `overlap`), and a gate that
    is open waits for that.

    Raises NotSolved for an angle outside its range, or other than 0 on a converter without a gate, for L/R too long
    for a ripple to be told, for a commutation that an inductive source keeps from ending, and when no steady state was
    found, which is for a source reactance far above the load's impedance.
    """
    alpha = _angle(converter, alpha)
    loop = loop_of(converter, source, load.R, load.L, load.E)
    return summary(converter, source, load, alpha, loop, loop.cycle(alpha))


@lru_cache(maxsize=KEPT)
def firing_angle_for(
    converter: Converter, source: Source, R: float, L: float, E: float, average_current: float
) -> Steady:
    """Steady state with the firing angle that gives `average_current` (A) at back-EMF `E` (V).

    Raises NotSolved for a converter without a gate, a current not above zero, a current beyond full conduction.
    """
    refuse_unless(converter.controlled, f"a {converter.label} has no firing angle to set")
    load = Load(R, L, E)
    wanted = _current(average_current)
    loop = loop_of(converter, source, load.R, load.L, load.E)
    most = loop.average_current(0.0)
    # the same rounding that the search below is allowed: full conduction itself can be asked for
    refuse_unless(
        wanted <= most * (1.0 + ACCURACY),
        f"{wanted:.4g} A is out of reach: at full conduction a {converter.label} gives {most:.4g} A "
        f"into a back-EMF of {load.E:.4g} V from {source.rms:.4g} V",
    )
    if wanted >= most * (1.0 - ACCURACY):
        return solve(converter, source, load, 0.0)
    alpha = crossing(
        lambda angle: loop.average_current(angle) - wanted,
        0.0,
        most - wanted,
        pi,
        -wanted,
        ACCURACY * wanted,
        "firing angle",
    )
    return solve(converter, source, load, alpha)


@lru_cache(maxsize=KEPT)
def back_emf_for(
    converter: Converter, source: Source, R: float, L: float, average_current: float, alpha: float = 0.0
) -> Steady:
    """Steady state with the back-EMF at which `average_current` (A) flows at firing angle `alpha` (rad).

    At alpha 0 this is the highest back-EMF, so the highest speed, at that load. The answer is in `load.E`.
    Raises NotSolved for a current not above zero, or one beyond what flows at standstill.
    """
    alpha = _angle(converter, alpha)
    still = Load(R, L, 0.0)
    wanted = _current(average_current)

    def average(E: float) -> float:
        return loop_of(converter, source, still.R, still.L, E).average_current(alpha)

    loop = loop_of(converter, source, still.R, still.L, 0.0)
    most = loop.average_current(alpha)
    refuse_unless(
        wanted <= most * (1.0 + ACCURACY),
        f"{wanted:.4g} A is out of reach: at standstill a {converter.label} gives {most:.4g} A "
        f"into {still.R:.4g} ohm at this firing angle",
    )
    if wanted >= most * (1.0 - ACCURACY):
        return solve(converter, source, still, alpha)
    E = crossing(
        lambda E: average(E) - wanted, 0.0, most - wanted, loop.peak, -wanted, ACCURACY * wanted, "back-EMF"
    )
    return solve(converter, source, Load(R, L, E), alpha)


@lru_cache(maxsize=KEPT)
def at_terminal_voltage(
    converter: Converter, source: Source, R: float, L: float, average_current: float, terminal_average: float
) -> Steady:
    """Steady state with both the average current (A) and the average terminal voltage (V) as wanted.

    An inductance has no average voltage in a steady state, so E = terminal_average - R average_current; the firing
    angle follows from `firing_angle_for`, whose refusals hold here too. Raises NotSolved if E would be negative.
    """
    wanted = _current(average_current)
    E = float(terminal_average) - R * wanted
    refuse_unless(
        E >= 0.0,
        f"{float(terminal_average):.4g} V don't drive {wanted:.4g} A through {float(R):.4g} ohm, even at standstill",
    )
    return firing_angle_for(converter, source, R, L, E, wanted)


def _angle(converter: Converter, alpha: float) -> float:
    alpha = float(alpha)
    if not 0.0 <= alpha <= pi:
        raise NotSolved(f"a firing angle lies between 0 and pi rad, not at {alpha:.3g}")
    if alpha != 0.0 and not converter.controlled:
        raise NotSolved(f"a {converter.label} has no gate, so its firing angle is 0, not {alpha:.3g} rad")
    return alpha


def _current(average_current: float) -> float:
    wanted = float(average_current)
    refuse_unless(
        isfinite(wanted) and wanted > 0.0, f"the average current must be above zero, not {wanted:.3g} A"
    )
    return wanted
