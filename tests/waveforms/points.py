"""Fixed pseudo-random operating points over all converters and modes; knows nothing of the package under test."""

from dataclasses import dataclass
from math import radians, sin, sqrt
from random import Random

CONTROLLED = {
    "half-controlled bridge",
    "half-controlled bridge, diode leg",
    "fully controlled bridge",
    "half-wave thyristor",
    "half-wave thyristor, freewheel",
}
NAMES = (*sorted(CONTROLLED), "diode bridge", "half-wave diode", "half-wave diode, freewheel")


@dataclass(frozen=True)
class Point:
    """Converter by name; V, Hz, ohm, V (drop of the whole path), ohm, H, V, degrees."""

    converter: str
    rms: float
    frequency: float
    source_resistance: float
    drop: float
    R: float
    L: float
    E: float
    alpha: float


MAINS = ((120.0, 60.0), (230.0, 50.0))
LOW_VOLTAGE = ((12.0, 60.0), (24.0, 50.0))  # behind a transformer: here the drops weigh


def fixed_points(
    n: int, seed: int = 20, lines: tuple[tuple[float, float], ...] = MAINS, highest_E: float = 150.0
) -> list[Point]:
    """The same n points each time. All converters in turn, all lines, about half with no source resistance, about
    half with no drop.

    Points at which no current can flow (the source stays below the back-EMF from the firing angle on) are
    drawn again: they would compare zero with zero.
    """
    draw = Random(seed)  # noqa: S311 (nothing secret about a test point)
    found: list[Point] = []
    while len(found) < n:
        converter = NAMES[len(found) % len(NAMES)]
        rms, frequency = draw.choice(lines)
        point = Point(
            converter,
            rms,
            frequency,
            draw.choice((0.0, draw.uniform(0.02, 1.0))),
            draw.choice((0.0, draw.uniform(0.5, 2.5))),
            draw.uniform(0.3, 5.0),
            0.001 * 60.0 ** draw.random(),  # 1 to 60 mH, as many small as large
            draw.choice((0.0, draw.uniform(0.0, highest_E), draw.uniform(0.0, highest_E))),
            draw.uniform(0.0, 170.0) if converter in CONTROLLED else 0.0,
        )
        at_best = sqrt(2.0) * rms * sin(radians(max(point.alpha, 90.0)))
        if at_best > point.E + point.drop:
            found.append(point)
    return found
