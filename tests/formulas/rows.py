"""What a published check row is, and exact conversions of the units that handbooks print in."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import pi

from buildsheet.formulas.formula import Formula

INCH, FOOT, MINUTE, POUND_FORCE = 0.0254, 0.3048, 60.0, 4.4482216152605  # m, m, s, N: exact by definition
HORSEPOWER = 550 * FOOT * POUND_FORCE  # W: 550 foot pounds in a second
METRIC_HORSEPOWER = 75 * 9.80665  # W
CIRCULAR_MIL = pi / 4 * (INCH / 1000) ** 2  # m²: a circle of a thousandth of an inch
FOOT_PER_MINUTE = FOOT / MINUTE
CUBIC_FOOT_PER_MINUTE = FOOT**3 / MINUTE


def rpm(turns: float) -> float:
    """Turns a minute in rad/s."""
    return turns * pi / 30


def celsius(degrees: float) -> float:
    """Degrees Celsius in K."""
    return degrees + 273.15


@dataclass(frozen=True)
class Row:
    """One published figure: what it is, the formula, its arguments in SI, the printed value in SI and the tolerance
    given with it (`rel`, or `abs` in SI)."""

    source: str
    formula: Formula[...]
    arguments: Mapping[str, float]
    printed: float
    rel: float = 0.0
    abs: float = 0.0

    @property
    def id(self) -> str:
        return f"{self.formula.name}-{self.source.partition(':')[0]}"


EXACT = 1e-9
