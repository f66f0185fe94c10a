"""Fixed pseudo-random operating points over all converters and modes; knows nothing of the package under test."""

from dataclasses import dataclass
from math import inf, pi, radians, sin, sqrt
from random import Random

CONTROLLED = {
    "half-controlled bridge",
    "half-controlled bridge, diode leg",
    "fully controlled bridge",
    "half-wave thyristor",
    "half-wave thyristor, freewheel",
    "diode bridge behind a triac",
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
    n: int, seed: int = 22, lines: tuple[tuple[float, float], ...] = MAINS, highest_E: float = 150.0
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


@dataclass(frozen=True)
class Circuit:
    """A point with more to it: H of the source, F of the capacitor (0: none), ohm of its bleeder (infinite: none)."""

    converter: str
    rms: float
    frequency: float
    source_resistance: float
    source_inductance: float
    drop: float
    R: float
    L: float
    E: float
    alpha: float
    C: float
    bleeder: float


def inductive_circuits(n: int, seed: int = 21) -> list[Circuit]:
    """The same n circuits each time: all converters in turn, a source with inductance, no capacitor. Firing angles
    are whole tenths of a degree, which the steps of the simulation hit."""
    found: list[Circuit] = []
    for k, point in enumerate(fixed_points(n, seed)):
        draw = Random(1000 * seed + k)  # noqa: S311 (as above)
        found.append(
            Circuit(
                point.converter, point.rms, point.frequency, max(point.source_resistance, 0.02),
                1e-5 * 100.0 ** draw.random(), point.drop, point.R, point.L, point.E, round(point.alpha, 1), 0.0, inf,
            )
        )  # fmt: skip
    return found


def smoothed_circuits(n: int, seed: int = 22) -> list[Circuit]:
    """The same n circuits each time: diode rectifiers with a capacitor, from heavy ripple to light load, about half with
    source inductance, about half with a bleeder; low voltage and mains. A half-wave diode without freewheel path has a
    capacitor that its load can't empty."""
    draw = Random(seed)  # noqa: S311 (as above)
    found: list[Circuit] = []
    while len(found) < n:
        converter = ("diode bridge", "diode bridge", "half-wave diode, freewheel", "half-wave diode")[len(found) % 4]
        rms, frequency = draw.choice((*MAINS, *LOW_VOLTAGE))
        R, E = 0.5 * 60.0 ** draw.random(), draw.choice((0.0, draw.uniform(0.0, 1.2) * rms))
        drop = draw.choice((0.0, draw.uniform(0.5, 2.5)))
        amperes = max(sqrt(2.0) * rms - drop - E, 0.0) / R
        # share of the peak that the load takes out of the capacitor in a period, by a straight line
        ripple = 0.02 * 20.0 ** draw.random() if converter == "half-wave diode" else 0.02 * 5000.0 ** draw.random()
        inductance = draw.choice((0.0, 1e-5 * 50.0 ** draw.random()))
        C = amperes / (frequency * ripple * sqrt(2.0) * rms)
        if inductance > 0.0:  # ringing at no more than ten times the line's frequency, else the simulation damps it away
            C = max(C, 1.0 / (inductance * (10.0 * 2.0 * pi * frequency) ** 2))
        found.append(
            Circuit(
                converter, rms, frequency, draw.uniform(0.01, 0.1) * R, inductance, drop, R, 0.001 * 60.0 ** draw.random(), E, 0.0, C, draw.choice((inf, 1e3 * 20.0 ** draw.random())),
            )
        )  # fmt: skip
    return found
