"""Speed by a tachometer, a small generator on the shaft: its frequency and its poles, or its volts at a speed that was counted."""

from math import pi

from buildsheet.citations import Citation, derivation
from buildsheet.formulas.formula import formula
from buildsheet.units import Hertz, Number, RadianPerSecond, Volt

POLES = Citation("textbooks on electrical machines, frequency of a synchronous generator", "n = 60·f/p, p pairs of poles")


@formula(source=POLES, limits={"f": (0.1, 20000), "p": (1, 60)})
def tachometer_speed(f: Hertz, p: Number) -> RadianPerSecond:
    """Speed of a shaft whose tachometer, with p pairs of poles, gives a frequency.

    >>> round(tachometer_speed(f=50.0, p=6.0) * 30 / 3.14159265)
    500
    """
    return 2 * pi * f / p


@formula(source=POLES, limits={"f": (0.1, 20000), "omega": (0.1, 7000)}, leaves_out="a speed that was counted wrong: the result must be near a whole number")
def tachometer_pole_pairs(f: Hertz, omega: RadianPerSecond) -> Number:
    """Pairs of poles of a tachometer, from its frequency at a speed that was counted.

    >>> round(tachometer_pole_pairs(f=133.3, omega=104.72), 1)
    8.0
    """
    return 2 * pi * f / omega


@formula(
    source=derivation("volts of magnets that turn go with their speed"),
    limits={"V": (0, 1000), "V_1": (0.01, 1000), "omega_1": (0.1, 7000)},
    leaves_out="load on the tachometer, a magnet that grew weak, a meter that reads low at high frequencies",
)
def tachometer_speed_by_voltage(V: Volt, V_1: Volt, omega_1: RadianPerSecond) -> RadianPerSecond:
    """Speed of a shaft from the volts of its tachometer, and those that it gave at a speed that was counted.

    >>> round(tachometer_speed_by_voltage(V=24.0, V_1=6.0, omega_1=104.72) * 30 / 3.14159265)
    4000
    """
    return omega_1 * V / V_1
