"""Phase control: what an angle leaves of the line, form factors, line current, and the snubber across the switch.

The angle for a wanted RMS voltage has no closed form; the table `triac_output` gives it by rows. The angle of a
semiconverter for an average voltage is `continuous_firing_angle` in `motor`.
"""

from math import acos, cos, pi, sin, sqrt

from buildsheet.citations import Citation, derivation, memory
from buildsheet.formulas.formula import Constant, formula
from buildsheet.units import AMPERE, FARAD, VOLT, Ampere, Farad, Number, Ohm, Radian, Share, Volt

CONVERTERS = Citation("textbooks on power electronics, line-commutated converters", "single-phase, average and RMS output")
WAVE = (0.0, 3.14159)
VOLTS = (0.0, 1000.0)
GAPS = "gaps in the current of a motor: it holds on a resistance, or while the current never stops"
SNUBBER = memory("an article on contact protection for relays", "C = I²/10 µF, R = V/(10·I^(1 + 50/V))")
C_1 = Constant(1e-7, FARAD, "C_1", SNUBBER)
I_1 = Constant(1.0, AMPERE, "I_1", SNUBBER)
I_10 = Constant(10.0, AMPERE, "I_10", SNUBBER)
V_50 = Constant(50.0, VOLT, "V_50", SNUBBER)


@formula(source=CONVERTERS, limits={"V_s": VOLTS, "alpha": WAVE}, leaves_out="an inductive load, on which the current outlasts the voltage")
def triac_voltage(V_s: Volt, alpha: Radian) -> Volt:
    """RMS output on a resistance, each half wave begun at an angle: of a triac, or of a bridge with thyristors.

    >>> round(triac_voltage(V_s=1.0, alpha=1.5707963), 3)
    0.707
    """
    return V_s * sqrt(1 - alpha / pi + sin(2 * alpha) / (2 * pi))


@formula(source=CONVERTERS, limits={"V_s": VOLTS, "alpha": WAVE}, leaves_out=GAPS)
def half_wave_average(V_s: Volt, alpha: Radian) -> Volt:
    """Average output of one thyristor.

    >>> round(half_wave_average(V_s=120.0, alpha=1.0471976), 2)
    40.51
    """
    return sqrt(2) * V_s / (2 * pi) * (1 + cos(alpha))


@formula(source=CONVERTERS, limits={"V_s": VOLTS, "alpha": WAVE}, leaves_out=GAPS)
def semiconverter_average(V_s: Volt, alpha: Radian) -> Volt:
    """Average output of a half-controlled bridge.

    >>> round(semiconverter_average(V_s=120.0, alpha=1.0471976), 2)
    81.03
    """
    return sqrt(2) * V_s / pi * (1 + cos(alpha))


@formula(source=CONVERTERS, limits={"V_s": VOLTS, "alpha": (0, 1.5708)}, leaves_out=f"{GAPS}; beyond a right angle it feeds back")
def full_converter_average(V_s: Volt, alpha: Radian) -> Volt:
    """Average output of a fully controlled bridge, current without gaps.

    >>> round(full_converter_average(V_s=120.0, alpha=0.7853982), 1)
    76.4
    """
    return 2 * sqrt(2) * V_s / pi * cos(alpha)


@formula(source=CONVERTERS, limits={"V_s": (1, 1000), "V": (0, 1000)}, leaves_out=GAPS)
def full_converter_angle(V: Volt, V_s: Volt) -> Radian:
    """Firing angle of a fully controlled bridge for an average voltage, current without gaps.

    >>> round(full_converter_angle(V=102.0, V_s=120.0) * 180 / 3.14159265, 1)
    19.2
    """
    return acos(pi * V / (2 * sqrt(2) * V_s))


@formula(source=derivation("definition of form factor"), limits={"V": (0.01, 1e4), "V_rms": (0, 1e4)})
def form_factor(V_rms: Volt, V: Volt) -> Number:
    """RMS over average.

    >>> round(form_factor(V_rms=162.6, V=103.5), 3)
    1.571
    """
    return V_rms / V


@formula(source=derivation("RMS of what is left without the average, over the average"), limits={"F": (1, 20)})
def ripple_factor(F: Number) -> Share:
    """Ripple factor of a form factor.

    >>> round(ripple_factor(F=1.1107), 3)
    0.483
    """
    return sqrt(F**2 - 1)


@formula(source=CONVERTERS, limits={"alpha": WAVE, "I": (0, 1e4)}, leaves_out="a current that is not smooth: then more")
def semiconverter_line_current(I: Ampere, alpha: Radian) -> Ampere:
    """RMS current of the line into a half-controlled bridge with a smooth direct current.

    >>> round(semiconverter_line_current(I=10.0, alpha=1.0471976), 2)
    8.16
    """
    return I * sqrt((pi - alpha) / pi)


@formula(source=CONVERTERS, limits={"V_s": (1, 1e4), "I_s": (1e-3, 1e4)})
def converter_power_factor(V: Volt, I: Ampere, V_s: Volt, I_s: Ampere) -> Share:
    """Power factor of a converter from its average volts and amperes, smooth current.

    >>> round(converter_power_factor(V=102.0, I=30.0, V_s=120.0, I_s=30.0), 3)
    0.85
    """
    return V * I / (V_s * I_s)


@formula(source=SNUBBER, limits={"I": (0.02, 2)}, leaves_out="line duty: at least 0.1 µF of a class made to lie across the line")
def snubber_capacitance(I: Ampere) -> Farad:
    """Capacitor of a snubber across a contact that breaks a current.

    >>> round(snubber_capacitance(I=1.0) * 1e6, 6)
    0.1
    """
    return C_1 * (I / I_1) ** 2


@formula(source=SNUBBER, limits={"I": (0.02, 2), "V": (20, 600)}, leaves_out="another reading of the article, with a factor in place of the power")
def snubber_resistance(V: Volt, I: Ampere) -> Ohm:
    """Resistor of a snubber across a contact that breaks a current.

    >>> round(snubber_resistance(V=110.0, I=1.0), 1)
    11.0
    """
    x: Number = 1 + V_50 / V
    k: Number = (I / I_1) ** x
    return V / (I_10 * k)
