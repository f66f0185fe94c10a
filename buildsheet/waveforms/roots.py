"""Two small root finders, both with a bracket that only shrinks.

Written here since scipy, which has both, is a large compiled dependency that nothing else at run time needs.
"""

from collections.abc import Callable

from .inputs import NotSolved

ANGLE_TOLERANCE = 1e-13  # rad, or relative for other unknowns: some hundred steps of a double near pi
ROUNDS = 120
BISECT_FROM = 50  # rounds after which only halving is trusted: near a double root Newton's step is noise


def falling_root(f: Callable[[float], tuple[float, float]], low: float, high: float, guess: float) -> float:
    """Root of `f`, which returns value and slope and falls through zero once between `low` and `high`.

    Newton's step where it stays inside the bracket, halving where it doesn't.
    """
    x = guess if low < guess < high else 0.5 * (low + high)
    for round_ in range(ROUNDS):
        value, slope = f(x)
        if value > 0.0:
            low = x
        elif value < 0.0:
            high = x
        else:
            return x
        following = low
        if slope < 0.0 and round_ < BISECT_FROM:
            following = x - value / slope
            # before the bracket is asked: a last step of nothing lands on the bracket's end, which is x itself
            if abs(following - x) <= ANGLE_TOLERANCE:
                return x
        if not low < following < high:
            following = 0.5 * (low + high)
        if high - low <= ANGLE_TOLERANCE:
            return following
        x = following
    raise NotSolved(f"no switching angle found between {low:.3g} and {high:.3g} rad")


def crossing(
    f: Callable[[float], float], x1: float, f1: float, x2: float, f2: float, accuracy: float, what: str
) -> float:
    """The x between `x1` and `x2` where a continuous `f` is zero to within `accuracy`.

    `f1` and `f2` are its values there, of opposite sign. Inverse quadratic interpolation or halving, chosen by
    the criterion of T. R. Chandrupatla, Advances in Engineering Software 28 (1997) 145-149 (from memory).
    Raises NotSolved if rounding keeps it from `accuracy`.
    """
    if f1 == 0.0:
        return x1
    if f2 == 0.0:
        return x2
    if (f1 > 0.0) == (f2 > 0.0):
        raise NotSolved(f"no {what} between {x1} and {x2} meets the request")
    # a first step along the chord: it is the better one when the bracket is narrow, else costs one round
    part = min(max(f1 / (f1 - f2), 0.05), 0.95)
    for _ in range(ROUNDS):
        x = x1 + part * (x2 - x1)
        y = f(x)
        if abs(y) <= accuracy:
            return x
        if (y > 0.0) == (f1 > 0.0):
            x3, f3 = x1, f1
        else:
            x3, f3 = x2, f2
            x2, f2 = x1, f1
        x1, f1 = x, y
        if abs(x2 - x1) <= 4e-16 * (abs(x1) + abs(x2)):
            break
        xi = (x1 - x2) / (x3 - x2)
        phi = (f1 - f2) / (f3 - f2)
        if phi * phi < xi and (1.0 - phi) ** 2 < 1.0 - xi:
            part = f1 / (f2 - f1) * f3 / (f2 - f3) + (x3 - x1) / (x2 - x1) * f1 / (f3 - f1) * f2 / (f3 - f2)
            part = min(max(part, 1e-12), 1.0 - 1e-12)
        else:
            part = 0.5
    raise NotSolved(f"the {what} did not converge: {f1:.3g} left over at {x1:.3g}")
