"""The one current that repeats itself every pulse: a walk from switching to switching, then Newton on its start value.

Angles are local to a pulse: 0 is the source's voltage zero at which that pulse could begin. The walk starts at the
angle where the source first takes the load from rest, and goes on for one period of the pulses:

    driven until the freewheel path takes over (or to the next firing, without such a path), freewheeling to the next
    firing, then driven again by the next pulse up to the angle where the walk began.

If the current dies on the way, starting from none, that walk is the answer (discontinuous current). Otherwise the
current never stops. Terminal voltage falls with current at every instant, so two walks close in on one another and the
end of a walk is a rising, convex function of its start with slope exp(-decay), below one: there is one periodic
current, and Newton's steps from zero rise to it without overshoot (in one step when the source has no resistance).
"""

from math import asin, cos, exp, expm1, isfinite, pi, sin, sqrt
from typing import NamedTuple

from .converters import Converter
from .inputs import NotSolved, Source, refuse_unless
from .roots import falling_root
from .spans import Driven, Freewheel

LONGEST_TIME_CONSTANT = 1000.0  # omega L / R; beyond it the digits of the mean square run out
NO_CURRENT = 1e-9  # of Vm/Z, taken for none: a freewheeling current with no back-EMF never quite stops
CLOSED = 1e-9  # of Vm/Z and the current: how well the period has to close
ROUNDS = 60


class Span(NamedTuple):
    """A stretch of angle over which the current follows one closed form.

    `line` is the line current at the start of a span in which an inductive source and the freewheel path both carry the
    load; None in any other.
    """

    driven: bool
    start: float
    end: float
    i_start: float
    i_end: float
    line: float | None = None


class Cycle(NamedTuple):
    """One period of the pulses: its spans in the order walked, and where current starts and stops (rad).

    `stop` counts from the same voltage zero as `start`, so it may exceed the period; it is None without a stop.
    """

    spans: tuple[Span, ...]
    start: float | None
    stop: float | None


class Shared(NamedTuple):
    """Over one span, of the line current l: integrals of l, l squared, l sin x, and l times the load current."""

    l: float
    l2: float
    l_sin: float
    il: float


class Loop:
    """Source, converter and load put together: everything that doesn't depend on the firing angle.

    While driven, the terminal voltage is part_sine Vm sin x + part_constant + part_current i. The inductance of a source
    is part of the loop where one path alone carries the current; where it has to change over, see `Overlapping`.
    """

    __slots__ = (
        "crossover",
        "driven",
        "drop",
        "free",
        "free_drop",
        "freewheels",
        "natural",
        "none",
        "part_constant",
        "part_current",
        "part_sine",
        "peak",
        "period",
        "resistance",
        "spare",
    )

    def __init__(self, converter: Converter, source: Source, R: float, L: float, E: float) -> None:
        reactance = 2.0 * pi * source.frequency * L
        refuse_unless(
            reactance <= LONGEST_TIME_CONSTANT * R,
            f"L/R of {L / R:.3g} s is too long for {source.frequency:g} Hz (omega L/R over "
            f"{LONGEST_TIME_CONSTANT:g}): the current is smooth, and figures of its ripple would have no digits",
        )
        self.freewheels = converter.freewheel_junctions > 0
        # without a path of its own, a bridge still has one for the short time both pairs conduct
        share = converter.freewheel_junctions / converter.junctions if self.freewheels else 1.0
        self.peak = sqrt(2.0) * source.rms
        self.period = 2.0 * pi / converter.pulses
        self.resistance = source.resistance
        self.drop = source.drop
        self.free_drop = share * source.drop
        # volts the source has to show before it relieves the freewheel path
        self.spare = source.drop - self.free_drop
        whole = reactance + source.reactance
        self.driven = Driven(self.peak, source.drop + E, R + source.resistance, whole)
        self.part_sine = reactance / whole
        self.part_constant = E * source.reactance / whole - self.part_sine * source.drop
        self.part_current = (R * source.reactance - reactance * source.resistance) / whole
        self.free = Freewheel(self.free_drop + E, R, reactance)
        self.none = NO_CURRENT * self.driven.amplitude
        opposing = (source.drop + E) / self.peak
        self.natural = asin(opposing) if opposing < 1.0 else None  # where the source first exceeds E
        self.crossover = asin(self.spare / self.peak) if self.spare < self.peak else None

    def cycle(self, alpha: float) -> Cycle:
        """The periodic current at firing angle alpha (rad)."""
        natural = self.natural
        if natural is None or self.crossover is None or alpha >= pi - natural:
            return Cycle((), None, None)
        start = max(alpha, natural)
        # fired a hair before it is too late: what little flows has no digits left beside Vm/Z
        if self.driven.current(pi - natural, start, 0.0) * max(1.0, self.driven.decay) <= self.none:
            return Cycle((), None, None)
        current = 0.0
        for _ in range(ROUNDS):
            spans, stop, end, exponent = self._walk(alpha, start, natural, self.crossover, current)
            if stop is not None:
                refuse_unless(
                    current == 0.0, "the current neither stops nor repeats: no steady state was found"
                )
                return Cycle(spans, start, stop)
            step = (end - current) / -expm1(-exponent)
            if abs(step) <= CLOSED * (self.driven.amplitude + current):
                return Cycle(spans, start, None)
            current += step
            refuse_unless(
                isfinite(current) and current >= 0.0,
                f"the search for a steady state left the road at {current} A",
            )
        raise NotSolved(f"no steady state after {ROUNDS} rounds; the last one was still {step:.3g} A off")

    def _walk(
        self, alpha: float, start: float, natural: float, crossover: float, current: float
    ) -> tuple[tuple[Span, ...], float | None, float, float]:
        """One period from `start` with `current`: spans, angle of the stop if any, end current, sum of decays."""
        period = self.period
        spans: list[Span] = []
        fire = period + alpha
        # without a freewheel path the next firing ends it; a single device gets its next chance at 2 pi + natural
        last = pi - crossover if self.freewheels else min(fire, 2.0 * pi + natural)
        x, i, stopped = self._drive(spans, start, current, last, natural, crossover)
        if stopped:
            return tuple(spans), x, 0.0, 0.0
        if self.freewheels:
            x, i, stopped = self._freewheel(spans, x, i, fire)
            if stopped:
                return tuple(spans), x, 0.0, 0.0
        if alpha < start:
            x, i, stopped = self._drive(spans, alpha, i, start, natural, crossover)
            if stopped:
                return tuple(spans), period + x, 0.0, 0.0
        exponent = 0.0
        for span in spans:
            exponent += (self.driven if span.driven else self.free).decay * (span.end - span.start)
        return tuple(spans), None, i, exponent

    def _freewheel(self, spans: list[Span], x: float, i: float, limit: float) -> tuple[float, float, bool]:
        """Let the current run down from x to `limit` or to nothing: the angle, the current, whether it stopped."""
        if i > self.none:
            width = self.free.width_down_to(i, self.none)
            if x + width > limit:
                end = self.free.current(limit, x, i)
                if limit > x:
                    spans.append(Span(False, x, limit, i, end))
                return limit, end, False
            spans.append(Span(False, x, x + width, i, 0.0))
            x += width
        return x, 0.0, True

    def _drive(
        self, spans: list[Span], x: float, i: float, limit: float, natural: float, crossover: float
    ) -> tuple[float, float, bool]:
        """Follow the current from x, fired, to where the source lets go of it, at latest `limit`.

        Returns the angle, the current and whether it stopped. With resistance in the source the load stays on, or goes
        back to, the freewheel path as long as that gives it more than the source would.
        """
        driven = self.driven
        if i > 0.0 and self._relief(x, i) < 0.0:
            taken = self._taken_over(x, i, limit, crossover)
            x, i, stopped = self._freewheel(spans, x, i, taken)
            if stopped or x >= limit:
                return x, i, stopped
        end = driven.current(limit, x, i)
        if end <= 0.0:
            # the source is below E + drop from here to the limit, so the current, once at zero, stays there
            low = x if x < natural else max(x, pi - natural)
            stop = self._zero(x, i, low, limit)
            if stop > x:
                spans.append(Span(True, x, stop, i, 0.0))
            return stop, 0.0, True
        if self.resistance > 0.0 and self.freewheels and limit > 0.5 * pi:
            limit = self._handed_over(x, i, limit)
            end = driven.current(limit, x, i)
        if limit > x:
            spans.append(Span(True, x, limit, i, end))
        return limit, end, False

    def _relief(self, x: float, i: float) -> float:
        """Volts by which the source beats the freewheel path when it carries the whole of i."""
        return self.peak * sin(x) - self.spare - self.resistance * i

    def _taken_over(self, x0: float, i0: float, limit: float, crossover: float) -> float:
        """Angle at which the source has taken over a freewheeling current, at latest `limit`.

        It always has at pi/2: a steady current never reaches what the source could drive into a short there.
        """
        if self.resistance == 0.0:
            return min(crossover, limit)
        free, peak, resistance = self.free, self.peak, self.resistance
        top = min(limit, 0.5 * pi)
        if self._relief(top, free.current(top, x0, i0)) < 0.0:
            refuse_unless(
                top == limit, "the source resistance keeps the source from ever taking over the current"
            )
            return limit

        def shortfall(x: float) -> tuple[float, float]:
            i = free.current(x, x0, i0)
            return (
                self.spare + resistance * i - peak * sin(x),
                -resistance * free.decay * (i + free.level) - peak * cos(x),
            )

        return falling_root(shortfall, x0, top, asin(min(1.0, (self.spare + resistance * i0) / peak)))

    def _handed_over(self, x0: float, i0: float, limit: float) -> float:
        """Angle past pi/2 at which a resistive source gives less than the freewheel path."""
        driven, peak, resistance = self.driven, self.peak, self.resistance
        low = max(x0, 0.5 * pi)
        A, k, lag, K = driven.amplitude, driven.decay, driven.lag, driven.transient(x0, i0)

        def relief(x: float) -> tuple[float, float]:
            return (
                self._relief(x, driven.current(x, x0, i0)),
                peak * cos(x) - resistance * (A * cos(x - lag) - k * K * exp(-k * (x - x0))),
            )

        reach = resistance * driven.current(limit, x0, i0) / peak
        return falling_root(relief, low, limit, limit - asin(min(1.0, reach)))

    def _zero(self, x0: float, i0: float, low: float, high: float) -> float:
        """Angle between `low` and `high` at which the driven current dies."""
        return self.driven.zero(x0, i0, low, high)

    def turning(self, span: Span, top: bool) -> float | None:
        """The greatest (`top`) or least current inside a driven span, None if it is at an end."""
        return self.driven.turning(span.start, span.i_start, span.end, top)

    def at(self, spans: tuple[Span, ...], x: float) -> tuple[float | None, float]:
        """Terminal voltage and current at x (0 to one period); the voltage is None in a gap of the current."""
        for span in spans:
            for local in (x, x + self.period):
                if span.start <= local <= span.end:
                    if not span.driven:
                        return -self.free_drop, self.free.current(local, span.start, span.i_start)
                    i = self.driven.current(local, span.start, span.i_start)
                    return self.part_sine * self.peak * sin(local) + self.part_constant + self.part_current * i, i
        return None, 0.0

    def shared(self, span: Span) -> Shared:
        """Integrals of the line current over a span in which it changes over; only an inductive source has such."""
        raise NotSolved(f"no change-over from {span.start:.3g} rad")

    def average_current(self, alpha: float) -> float:
        """Average current at firing angle alpha, A."""
        total = 0.0
        for span in self.cycle(alpha).spans:
            total += (
                (self.driven if span.driven else self.free).integrals(span.start, span.i_start, span.end).i
            )
        return total / self.period
