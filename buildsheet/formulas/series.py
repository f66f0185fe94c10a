"""Series motors, on direct and on alternating current: field and armature carry the same current.

While the iron is not saturated the flux goes with the current, so torque with its square, and the speed of a motor
without load has no bound but friction.
"""

from math import pi, sqrt

from buildsheet.citations import Citation, derivation
from buildsheet.formulas.formula import formula
from buildsheet.units import (
    Ampere,
    Henry,
    Hertz,
    NewtonMetre,
    NewtonMetrePerAmpereSquared,
    Ohm,
    RadianPerSecond,
    Share,
    Volt,
)

SERIES = Citation("textbooks on electrical machines, series motor", "unsaturated: E = k·I·ω and T = k·I²")
UNIVERSAL = Citation(
    "an examination's model solution and textbooks on fractional-horsepower motors",
    "universal motor: drop over the reactance at right angles to the current",
)
SATURATES = "iron that saturates: there torque and back-EMF grow with less than the current"


@formula(source=SERIES, limits={"I": (0.01, 1000), "omega": (0.1, 7000), "R": (0, 1e4)}, leaves_out=SATURATES)
def series_constant(V: Volt, I: Ampere, R: Ohm, U_b: Volt, omega: RadianPerSecond) -> NewtonMetrePerAmpereSquared:
    """Constant of a series motor from one known point on direct current; R is of armature and field in a row.

    >>> round(series_constant(V=120.0, I=0.6, R=20.0, U_b=0.0, omega=209.44), 4)
    0.8594
    """
    return (V - I * R - U_b) / (I * omega)


@formula(source=SERIES, limits={"I": (0, 1000), "k": (1e-6, 1e3)}, leaves_out=SATURATES)
def series_torque(k: NewtonMetrePerAmpereSquared, I: Ampere) -> NewtonMetre:
    """Torque that the armature makes; on alternating current its mean, for the RMS current.

    >>> round(series_torque(k=0.8594, I=0.6), 3)
    0.309
    """
    return k * I**2


@formula(source=SERIES, limits={"T": (0, 1e4), "k": (1e-6, 1e3)}, leaves_out=SATURATES)
def series_current(T: NewtonMetre, k: NewtonMetrePerAmpereSquared) -> Ampere:
    """Current for a torque of the armature.

    >>> round(series_current(T=0.309, k=0.8594), 2)
    0.6
    """
    return sqrt(T / k)


@formula(
    source=Citation("textbooks on electrical machines, series motor", "saturated iron: constant flux, T goes with I"),
    limits={"I_1": (0.01, 1000), "I_2": (0, 1000)},
    leaves_out="the bend between: it holds while both currents saturate the iron",
)
def saturated_torque(T_1: NewtonMetre, I_1: Ampere, I_2: Ampere) -> NewtonMetre:
    """Torque at another current from a known point, where the iron is saturated at both.

    >>> round(saturated_torque(T_1=35.0, I_1=30.0, I_2=45.0), 6)
    52.5
    """
    return T_1 * I_2 / I_1


@formula(source=derivation("reactance of a coil, X = 2·π·f·L"), limits={"f": (1, 1e5), "L": (0, 100)})
def coil_reactance(f: Hertz, L: Henry) -> Ohm:
    """Reactance of a coil.

    >>> round(coil_reactance(f=60.0, L=0.25), 2)
    94.25
    """
    return 2 * pi * f * L


@formula(source=UNIVERSAL, limits={"I": (0.01, 1000), "X": (0, 1e4), "R": (0, 1e4)}, leaves_out="iron loss of the field")
def alternating_back_emf(V: Volt, I: Ampere, X: Ohm, R: Ohm, U_b: Volt) -> Volt:
    """Back-EMF of a series motor on alternating current, RMS; smaller than on direct current by what the reactance takes.

    >>> round(alternating_back_emf(V=120.0, I=0.6, X=94.25, R=20.0, U_b=0.0), 2)
    93.84
    """
    return sqrt(V**2 - (I * X) ** 2) - I * R - U_b


@formula(source=SERIES, limits={"I": (0.01, 1000), "k": (1e-6, 1e3), "E": (0, 1000)}, leaves_out=SATURATES)
def series_speed(E: Volt, k: NewtonMetrePerAmpereSquared, I: Ampere) -> RadianPerSecond:
    """Speed at which a series motor makes this back-EMF at its current, on direct or alternating current.

    >>> round(series_speed(E=93.84, k=0.8594, I=0.6) * 30 / 3.14159265)
    1738
    """
    return E / (k * I)


@formula(
    source=SERIES,
    limits={"T": (1e-4, 1e4), "k": (1e-6, 1e3), "V": (0.1, 1000), "R": (0, 1e4)},
    leaves_out="air drag that grows with speed, and iron that is less saturated at a small current: both hold the true "
    "speed below this one",
)
def series_speed_at_torque(V: Volt, R: Ohm, k: NewtonMetrePerAmpereSquared, T: NewtonMetre) -> RadianPerSecond:
    """Speed of a series motor on direct current at a torque; with the torque of friction alone, its runaway speed.

    >>> round(series_speed_at_torque(V=120.0, R=20.0, k=0.8594, T=0.309384))
    209
    """
    return V / sqrt(k * T) - R / k


@formula(source=UNIVERSAL, limits={"E": (0, 1000), "V": (0.1, 1000), "I": (0.01, 1000), "R": (0, 1e4)}, leaves_out="iron loss and a distorted current")
def series_power_factor(E: Volt, I: Ampere, R: Ohm, V: Volt) -> Share:
    """Power factor of a series motor on alternating current, from its RMS back-EMF.

    >>> round(series_power_factor(E=93.84, I=0.6, R=20.0, V=120.0), 3)
    0.882
    """
    return (E + I * R) / V


@formula(
    source=Citation("textbooks on electrical machines, DC motors", "n goes with E over flux"),
    limits={"E_1": (0.1, 1000), "E_2": (0, 1000), "p": (0.1, 3)},
)
def speed_by_flux(omega_1: RadianPerSecond, E_1: Volt, E_2: Volt, p: Share) -> RadianPerSecond:
    """Speed at another back-EMF and flux, from a known point.

    p is the flux over that at the known point; without saturation it is the share of the field current.

    >>> round(speed_by_flux(omega_1=62.83, E_1=231.5, E_2=229.0, p=1.17647), 1)
    52.8
    """
    return omega_1 * E_2 / (E_1 * p)


@formula(source=SERIES, limits={"E": (0.01, 1000), "I": (0.01, 1000), "omega": (0.1, 7000)}, leaves_out=SATURATES)
def series_constant_spun(E: Volt, I: Ampere, omega: RadianPerSecond) -> NewtonMetrePerAmpereSquared:
    """Constant of a series motor from its open armature volts, turned at a speed with a current in the field alone.

    >>> round(series_constant_spun(E=6.4, I=1.5, omega=104.72), 5)
    0.04074
    """
    return E / (I * omega)


@formula(source=SERIES, limits={"T": (0, 1e4), "T_0": (0, 100), "k": (1e-6, 1e3)}, leaves_out=SATURATES)
def loaded_series_current(T: NewtonMetre, T_0: NewtonMetre, k: NewtonMetrePerAmpereSquared) -> Ampere:
    """RMS current for a torque at the shaft and that of the motor's own losses: the mean torque goes with its square.

    >>> round(loaded_series_current(T=0.30, T_0=0.009, k=0.8594), 3)
    0.6
    """
    return sqrt((T + T_0) / k)


@formula(source=SERIES, limits={"k": (1e-6, 1e3), "omega": (0, 7000)}, leaves_out=SATURATES)
def motion_resistance(k: NewtonMetrePerAmpereSquared, omega: RadianPerSecond) -> Ohm:
    """What the back-EMF of a series motor amounts to at a speed: it goes with the current as the volts of a resistor do.

    >>> round(motion_resistance(k=0.8594, omega=209.44), 1)
    180.0
    """
    return k * omega


@formula(source=derivation("resistances in a row add up"), limits={"R": (0, 1e5), "R_f": (0, 1e5)})
def rest_of_resistance(R: Ohm, R_f: Ohm) -> Ohm:
    """What is left of a resistance from lead to lead when the field is taken off.

    >>> rest_of_resistance(R=3.5, R_f=1.25)
    2.25
    """
    return R - R_f


@formula(source=SERIES, limits={"k": (1e-6, 1e3), "omega": (0, 7000), "I": (0, 1000)}, leaves_out=SATURATES)
def series_emf(k: NewtonMetrePerAmpereSquared, omega: RadianPerSecond, I: Ampere) -> Volt:
    """Back-EMF of a series motor at a speed and an average current, as an average.

    >>> round(series_emf(k=0.8594, omega=209.44, I=0.6), 1)
    108.0
    """
    return k * omega * I


@formula(
    source=SERIES,
    limits={"E": (0, 1000), "k": (1e-6, 1e3), "T_0": (1e-5, 100)},
    leaves_out="air drag that grows with speed, and iron that is less saturated at a small current: both hold the true "
    "speed below this one",
)
def series_runaway_speed(E: Volt, k: NewtonMetrePerAmpereSquared, T_0: NewtonMetre) -> RadianPerSecond:
    """Speed without load, where the current only makes the torque of the motor's own losses.

    >>> round(series_runaway_speed(E=108.0, k=0.8594, T_0=0.01))
    1165
    """
    return E / sqrt(k * T_0)


@formula(
    source=derivation("impedance of resistance and coil in a row, nothing moving"),
    limits={"V": (0.1, 1000), "R": (1e-3, 1e4), "X": (0, 1e4)},
    leaves_out="iron that saturates, which lets more through",
)
def held_alternating_current(V: Volt, R: Ohm, X: Ohm) -> Ampere:
    """Current of a motor that stands, on alternating voltage, RMS.

    >>> held_alternating_current(V=100.0, R=3.0, X=4.0)
    20.0
    """
    return V / sqrt(R**2 + X**2)
