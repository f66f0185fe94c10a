"""A rectifier with a smoothing capacitor: peak, ripple, currents, the bleeder's resistance, and the rush at switch-on.

Discharge time, stored energy and the heat of a bleeder stand with the stored charge in `controls`.
"""

from math import acos, log, pi, sqrt

from buildsheet.citations import Citation, derivation, practice
from buildsheet.formulas.formula import Constant, formula
from buildsheet.units import (
    VOLT,
    Ampere,
    AmpereSquareSecond,
    Farad,
    Hertz,
    Number,
    Ohm,
    Radian,
    Second,
    Share,
    Volt,
    VoltAmpere,
    Watt,
)

STRAIGHT = Citation("textbooks on electronics, capacitor-input filter", "straight-line ripple, I·t over C")
ON_RESISTANCE = Citation("power-electronics textbook, 4th ed.", "chapter 3, full-wave rectifier with capacitor and resistance")
RULE = Citation("transformer maker's page on ratings for direct-current circuits", "table of circuits")
SLOW = "the time of charging, so the true ripple is 55 to 93 % of it"
LINE = (10.0, 400.0)
U_J = Constant(2.0, VOLT, "U_J", RULE)


@formula(
    source=derivation("peak of a sine less the junctions on the way"),
    limits={"V": (1, 1e4), "U_d": (0, 10)},
    leaves_out="line above its nominal voltage, and a transformer without load",
)
def capacitor_peak(V: Volt, U_d: Volt) -> Volt:
    """Voltage to which a capacitor behind a rectifier charges without load.

    >>> round(capacitor_peak(V=24.0, U_d=0.0), 1)
    33.9
    """
    return sqrt(2) * V - U_d


@formula(source=STRAIGHT, limits={"f": LINE, "C": (1e-9, 10)}, leaves_out=SLOW)
def full_wave_ripple(I: Ampere, f: Hertz, C: Farad) -> Volt:
    """Ripple from peak to valley behind a bridge, f of the line.

    >>> round(full_wave_ripple(I=5.0, f=60.0, C=0.01), 2)
    4.17
    """
    return I / (2 * f * C)


@formula(source=STRAIGHT, limits={"f": LINE, "C": (1e-9, 10)}, leaves_out=SLOW)
def half_wave_ripple(I: Ampere, f: Hertz, C: Farad) -> Volt:
    """Ripple from peak to valley behind one diode, f of the line.

    >>> round(half_wave_ripple(I=5.0, f=60.0, C=0.01), 2)
    8.33
    """
    return I / (f * C)


@formula(source=STRAIGHT, limits={"f": LINE, "U_r": (1e-3, 1e3)}, leaves_out=SLOW)
def capacitance_for_ripple(I: Ampere, f: Hertz, U_r: Volt) -> Farad:
    """Capacitor behind a bridge that keeps the ripple, peak to valley, to a value.

    >>> round(capacitance_for_ripple(I=5.0, f=60.0, U_r=4.1667) * 1e6)
    10000
    """
    return I / (2 * f * U_r)


@formula(source=STRAIGHT, limits={"U_r": (0, 1e4)}, leaves_out="a ripple beyond a fifth of the peak")
def mean_after_ripple(V_m: Volt, U_r: Volt) -> Volt:
    """Average voltage under a ripple.

    >>> mean_after_ripple(V_m=34.0, U_r=4.0)
    32.0
    """
    return V_m - U_r / 2


@formula(source=ON_RESISTANCE, limits={"f": LINE, "R": (0.01, 1e7), "r": (0.001, 0.2)}, leaves_out=SLOW)
def capacitance_for_ripple_factor(f: Hertz, R: Ohm, r: Share) -> Farad:
    """Capacitor behind a bridge that keeps the ripple factor, RMS ripple over mean, on a resistance.

    >>> round(capacitance_for_ripple_factor(f=60.0, R=500.0, r=0.05) * 1e6, 1)
    126.2
    """
    return (1 + 1 / (sqrt(2) * r)) / (4 * f * R)


@formula(source=ON_RESISTANCE, limits={"f": LINE, "R": (0.01, 1e7), "C": (1e-9, 10)}, leaves_out=f"{SLOW}; a ripple beyond a fifth of the peak")
def mean_on_resistance(V_m: Volt, f: Hertz, R: Ohm, C: Farad) -> Volt:
    """Average voltage of a capacitor behind a bridge with a resistance as its load.

    >>> round(mean_on_resistance(V_m=169.7, f=60.0, R=500.0, C=126.2e-6), 1)
    158.5
    """
    return V_m * (1 - 1 / (4 * f * R * C))


@formula(
    source=derivation("the sine meets the capacitor where it has fallen by the ripple"),
    limits={"V_m": (0.1, 1e4), "U_r": (0, 1e4)},
    leaves_out="charging after the peak, and the resistance of the source, which widens it",
)
def conduction_angle(V_m: Volt, U_r: Volt) -> Radian:
    """Angle over which the rectifier charges, before the peak.

    >>> round(conduction_angle(V_m=100.0, U_r=10.0) * 180 / 3.14159265, 1)
    25.8
    """
    return acos(1 - U_r / V_m)


@formula(source=derivation("an angle of the line's period"), limits={"f": LINE, "theta": (0, 6.2832)})
def angle_time(theta: Radian, f: Hertz) -> Second:
    """Time that an angle of the line's period takes.

    >>> round(angle_time(theta=0.45103, f=60.0) * 1000, 2)
    1.2
    """
    return theta / (2 * pi * f)


@formula(source=derivation("mean and ripple current add by their squares"), limits={"I_s": (0, 1e4), "I_d": (0, 1e4)}, leaves_out="ripple that the load itself draws")
def capacitor_ripple_current(I_s: Ampere, I_d: Ampere) -> Ampere:
    """RMS current in the capacitor, from the RMS current before it and the direct current of the load.

    >>> capacitor_ripple_current(I_s=5.0, I_d=3.0)
    4.0
    """
    return sqrt(I_s**2 - I_d**2)


@formula(source=RULE, limits={"k": (1, 3), "I_d": (0, 1e4)}, leaves_out="a source that is stiffer than the row's")
def rectifier_current(I_d: Ampere, k: Number) -> Ampere:
    """RMS current before a rectifier, as a multiple of its direct current.

    >>> rectifier_current(I_d=5.0, k=1.8)
    9.0
    """
    return k * I_d


@formula(source=RULE, limits={"k": (0.5, 2), "V_d": (1, 1000)}, leaves_out="another line voltage than the nominal one")
def rectifier_voltage(V_d: Volt, k: Number) -> Volt:
    """Transformer voltage for a direct voltage, with 2 V for the junctions.

    >>> round(rectifier_voltage(V_d=24.0, k=0.8), 1)
    20.8
    """
    return k * (V_d + U_J)


@formula(source=RULE, limits={"k": (1, 3), "P_d": (0, 1e5), "I_d": (0, 1e4)})
def rectifier_rating(P_d: Watt, I_d: Ampere, k: Number) -> VoltAmpere:
    """Rating of a transformer ahead of a rectifier, from direct power and current, with 2 V for the junctions.

    >>> round(rectifier_rating(P_d=120.0, I_d=5.0, k=1.4), 6)
    182.0
    """
    return k * (P_d + U_J * I_d)


@formula(
    source=Citation("IEC 60204-1", "6.2.4", "6th ed. 2016"),
    limits={"t": (0.1, 600), "C": (1e-9, 10), "V_0": (1, 1e5), "V_s": (1, 1e5)},
    leaves_out="a bleeder that has failed open: measure before touching",
)
def bleeder_resistance(t: Second, C: Farad, V_0: Volt, V_s: Volt) -> Ohm:
    """Largest resistance that brings a capacitor down to a voltage in a time.

    >>> round(bleeder_resistance(t=5.0, C=470e-6, V_0=169.7, V_s=60.0) / 1000, 1)
    10.2
    """
    return t / (C * log(V_0 / V_s))


@formula(source=practice("a bleeder of at least twice the watts"), limits={"R": (1, 1e8), "V": (0, 1e5)})
def bleeder_rating(V: Volt, R: Ohm) -> Watt:
    """Least rating of a bleeder: twice its heat.

    >>> bleeder_rating(V=170.0, R=5000.0)
    11.56
    """
    return 2 * V**2 / R


@formula(source=derivation("Ohm's law at the crest, capacitor empty"), limits={"R_s": (0, 1e5), "R": (0, 1e6)}, leaves_out="the inductance of the line, which takes the tip off")
def inrush_peak(V_m: Volt, R_s: Ohm, R: Ohm) -> Ampere:
    """Current at the moment of closing onto an empty capacitor, source and series resistance in its way.

    >>> round(inrush_peak(V_m=169.7, R_s=0.3, R=0.0))
    566
    """
    return V_m / (R_s + R)


@formula(source=derivation("∫I²dt of a capacitor that charges through a resistance"), limits={"R": (1e-3, 1e6), "C": (1e-9, 10)})
def inrush_let_through(V_m: Volt, C: Farad, R: Ohm) -> AmpereSquareSecond:
    """I²t of the rush into an empty capacitor.

    >>> round(inrush_let_through(V_m=169.7, C=1e-3, R=10.0), 2)
    1.44
    """
    return V_m**2 * C / (2 * R)


@formula(source=derivation("half a sine has half the square of its peak on average"), limits={"t": (1e-4, 0.1), "I_m": (0, 1e5)})
def surge_let_through(I_m: Ampere, t: Second) -> AmpereSquareSecond:
    """I²t that a rectifier stands, from its surge rating over half a sine of length t.

    >>> round(surge_let_through(I_m=200.0, t=8.333e-3))
    167
    """
    return I_m**2 * t / 2


@formula(
    source=Citation("thermistor makers' selection pages", "cold resistance for a permitted rush"),
    limits={"I": (0.1, 1e4), "V_m": (1, 1e4)},
    leaves_out="a restart while it is still warm: 30 to 60 s must pass",
)
def thermistor_resistance(V_m: Volt, I: Ampere) -> Ohm:
    """Least cold resistance of a thermistor that limits the rush to a current.

    >>> round(thermistor_resistance(V_m=169.7, I=30.0), 2)
    5.66
    """
    return V_m / I
