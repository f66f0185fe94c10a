"""The two circuits the current can be in, each solved in closed form, over the angle x = omega t from a voltage zero.

    driven       X di/dx + (R + Rs) i = Vm sin x - (E + drop)
    freewheel    X di/dx +  R       i =          - (E + drop)          X = omega L

Both are linear and of first order, so the current and all its integrals are sines and exponentials. `expm1` keeps
the digits when the decay over a span is small. Over a short span the integrals are small differences of large terms
and lose their digits; there a five-point Gauss rule on the closed form is exact to the last digit, and is used instead.
"""

from collections.abc import Callable
from math import asin, atan2, ceil, cos, exp, expm1, hypot, log1p, pi, sin
from typing import NamedTuple

from .roots import falling_root

# Angle, or part of a time constant, up to which the Gauss rule is exact to rounding: its error is
# width^11 (5!)^4 / (11 (10!)^3) times the tenth derivative, 4e-16 of the integral at most.
SHORT = 0.25
SLOW = 0.01  # per rad; a decay below it costs the closed form of `Commutating` more than four digits
# Abramowitz and Stegun, Handbook of Mathematical Functions, table 25.4, n = 5 (from memory; tested on polynomials)
GAUSS = (
    (-0.9061798459386640, 0.2369268850561891),
    (-0.5384693101056831, 0.4786286704993665),
    (0.0, 0.5688888888888889),
    (0.5384693101056831, 0.4786286704993665),
    (0.9061798459386640, 0.2369268850561891),
)


class Integrals(NamedTuple):
    """Over one span: of i, of i squared, and of i sin x."""

    i: float
    i2: float
    i_sin: float


def _short_integrals(
    current: Callable[[float, float, float], float], x0: float, i0: float, x1: float
) -> Integrals:
    """Of i, i squared and i sin x over a short span, by the Gauss rule."""
    half = 0.5 * (x1 - x0)
    middle = x0 + half
    total = squares = sines = 0.0
    for node, weight in GAUSS:
        x = middle + half * node
        i = current(x, x0, i0)
        total += weight * i
        squares += weight * i * i
        sines += weight * i * sin(x)
    return Integrals(half * total, half * squares, half * sines)


class Driven:
    """Load on the source: resistance R + Rs, opposing voltage E + drop."""

    __slots__ = ("amplitude", "decay", "lag", "level")

    def __init__(self, peak: float, opposing: float, resistance: float, reactance: float) -> None:
        self.amplitude = peak / hypot(resistance, reactance)
        self.lag = atan2(reactance, resistance)
        self.decay = resistance / reactance
        self.level = opposing / resistance

    def current(self, x: float, x0: float, i0: float) -> float:
        """Current at x, when it was i0 at x0."""
        fall = -self.decay * (x - x0)
        lag = self.lag
        left = exp(fall)
        return self.amplitude * (sin(x - lag) - sin(x0 - lag) * left) + i0 * left + self.level * expm1(fall)

    def transient(self, x0: float, i0: float) -> float:
        """Start value of the decaying part: i = amplitude sin(x - lag) - level + transient exp(-decay (x - x0))."""
        return i0 - self.amplitude * sin(x0 - self.lag) + self.level

    def zero(self, x0: float, i0: float, low: float, high: float) -> float:
        """Angle between `low` and `high` at which the current, i0 at x0, dies."""
        A, k, lag, c, K = self.amplitude, self.decay, self.lag, self.level, self.transient(x0, i0)

        def current(x: float) -> tuple[float, float]:
            rest = K * exp(-k * (x - x0))
            return A * sin(x - lag) - c + rest, A * cos(x - lag) - k * rest

        # without the decaying part: a good guess where L is small, outside the bracket where it is not
        return falling_root(current, low, high, pi - asin(min(1.0, c / A)) + lag)

    def turning(self, x0: float, i0: float, x1: float, top: bool) -> float | None:
        """The greatest (`top`) or least current between x0, where it is i0, and x1; None if it is at an end.

        Where the slope is zero it has the sign of the source's own slope on either side: a least current lies before
        the crest of the source, a greatest one behind it, and there is at most one of each.
        """
        A, k, lag, K = self.amplitude, self.decay, self.lag, self.transient(x0, i0)
        sign = 1.0 if top else -1.0

        def slope(x: float) -> tuple[float, float]:
            rest = k * K * exp(-k * (x - x0))
            return sign * (A * cos(x - lag) - rest), sign * (k * rest - A * sin(x - lag))

        low = max(x0, 0.5 * pi) if top else x0
        high = x1 if top else min(x1, 0.5 * pi)
        if low >= high or slope(low)[0] <= 0.0 or slope(high)[0] >= 0.0:
            return None
        guess = 0.5 * pi + lag if top else low
        return self.current(falling_root(slope, low, high, guess), x0, i0)

    def integrals(self, x0: float, i0: float, x1: float) -> Integrals:
        """Of i, i squared and i sin x from x0 to x1."""
        A, k, c, lag = self.amplitude, self.decay, self.level, self.lag
        width = x1 - x0
        if width * max(1.0, k) < SHORT:
            return _short_integrals(self.current, x0, i0, x1)
        K = self.transient(x0, i0)
        y0, y1 = x0 - lag, x1 - lag
        sin0, cos0, sin1, cos1 = sin(y0), cos(y0), sin(y1), cos(y1)
        sx0, cx0, sx1, cx1 = sin(x0), cos(x0), sin(x1), cos(x1)
        left = exp(-k * width)
        once = -expm1(-k * width) / k
        twice = -expm1(-2.0 * k * width) / (2.0 * k)
        wave = cos0 - cos1
        wave_squared = 0.5 * (width - sin1 * cos1 + sin0 * cos0)
        per = 1.0 / (1.0 + k * k)
        wave_fading = (k * sin0 + cos0 - left * (k * sin1 + cos1)) * per
        line_fading = (k * sx0 + cx0 - left * (k * sx1 + cx1)) * per
        # sin x sin(x - lag) = (cos lag - cos(2x - lag)) / 2
        line_wave = 0.5 * (width * cos(lag) - 0.5 * (sx1 * cos1 + cx1 * sin1 - sx0 * cos0 - cx0 * sin0))
        return Integrals(
            A * wave - c * width + K * once,
            A * A * wave_squared
            + c * c * width
            + K * K * twice
            + 2.0 * (A * (K * wave_fading - c * wave) - c * K * once),
            A * line_wave - c * (cx0 - cx1) + K * line_fading,
        )


class Commutating(Driven):
    """The source on a short circuit, its own resistance and reactance: R may be zero here, where `Driven` divides by it."""

    __slots__ = ("rate",)

    def __init__(self, peak: float, opposing: float, resistance: float, reactance: float) -> None:
        super().__init__(peak, opposing, resistance or 1.0, reactance)
        self.rate = opposing / reactance
        if resistance == 0.0:
            self.amplitude, self.lag, self.decay, self.level = peak / reactance, 0.5 * pi, 0.0, 0.0

    def current(self, x: float, x0: float, i0: float) -> float:
        """Current at x, when it was i0 at x0."""
        if self.decay > 0.0:
            return super().current(x, x0, i0)
        return i0 - self.rate * (x - x0) + self.amplitude * (sin(x - self.lag) - sin(x0 - self.lag))

    def integrals(self, x0: float, i0: float, x1: float) -> Integrals:
        """Of i, i squared and i sin x from x0 to x1."""
        width = x1 - x0
        if self.decay >= SLOW:
            return super().integrals(x0, i0, x1)
        # hardly any decay: the closed form would be a difference of large terms
        parts = ceil(width / SHORT)
        sums = [0.0, 0.0, 0.0]
        for part in range(parts):
            low, high = x0 + width * part / parts, x0 + width * (part + 1) / parts
            some = _short_integrals(self.current, low, self.current(low, x0, i0), high)
            sums = [a + b for a, b in zip(sums, some, strict=True)]
        return Integrals(*sums)


class Freewheel:
    """Load on its freewheel path: resistance R, opposing voltage E + drop of that path."""

    __slots__ = ("decay", "level")

    def __init__(self, opposing: float, resistance: float, reactance: float) -> None:
        self.decay = resistance / reactance
        self.level = opposing / resistance

    def current(self, x: float, x0: float, i0: float) -> float:
        """Current at x, when it was i0 at x0."""
        fall = -self.decay * (x - x0)
        return i0 * exp(fall) + self.level * expm1(fall)

    def width_down_to(self, i0: float, i1: float) -> float:
        """Angle in which the current falls from i0 to i1 (0 <= i1 < i0)."""
        return log1p((i0 - i1) / (self.level + i1)) / self.decay

    def integrals(self, x0: float, i0: float, x1: float) -> Integrals:
        """Of i, i squared and i sin x from x0 to x1."""
        k, c = self.decay, self.level
        width = x1 - x0
        if width * max(1.0, k) < SHORT:
            return _short_integrals(self.current, x0, i0, x1)
        K = i0 + c
        left = exp(-k * width)
        once = -expm1(-k * width) / k
        twice = -expm1(-2.0 * k * width) / (2.0 * k)
        sx0, cx0, sx1, cx1 = sin(x0), cos(x0), sin(x1), cos(x1)
        line_fading = (k * sx0 + cx0 - left * (k * sx1 + cx1)) / (1.0 + k * k)
        return Integrals(
            K * once - c * width,
            K * K * twice - 2.0 * c * K * once + c * c * width,
            K * line_fading - c * (cx0 - cx1),
        )
