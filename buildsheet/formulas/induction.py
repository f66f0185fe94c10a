"""Induction motors on the line: speed by poles and frequency, two windings and their capacitor, torque by slip."""

from math import asin, cos, pi, sin, sqrt, tan

from buildsheet.citations import Citation, derivation, memory, practice
from buildsheet.formulas.formula import formula
from buildsheet.units import (
    Ampere,
    Farad,
    Hertz,
    NewtonMetre,
    Number,
    Ohm,
    Radian,
    RadianPerSecond,
    Share,
    Volt,
    Watt,
)

MACHINES = Citation("textbooks on electrical machines, induction motor", "synchronous speed and slip")
TWO_WINDINGS = Citation(
    "textbook on electric machinery and transformers, 2nd ed.", "chapter 10, split-phase and capacitor motors"
)
KLOSS = Citation(
    "textbooks on electrical machines, torque and slip", "T/T_b = 2/(s/s_b + s_b/s), stator resistance left out"
)
CAPACITOR = derivation("a capacitor on a sine voltage, I = 2·π·f·C·V")
ANGLE = (-1.5708, 1.5708)


@formula(source=MACHINES, limits={"f": (1, 400), "p": (2, 24)})
def synchronous_speed(f: Hertz, p: Number) -> RadianPerSecond:
    """Speed of the turning field of p poles (their number, not that of pairs).

    >>> round(synchronous_speed(f=60.0, p=4.0) * 30 / 3.14159265)
    1800
    """
    return 4 * pi * f / p


@formula(source=MACHINES, limits={"omega_s": (1, 7000)})
def slip(omega_s: RadianPerSecond, omega: RadianPerSecond) -> Share:
    """Lag of the rotor behind the field, as a share of the field's speed.

    >>> round(slip(omega_s=188.4956, omega=180.6416), 4)
    0.0417
    """
    return (omega_s - omega) / omega_s


@formula(source=MACHINES, limits={"s": (0, 1)})
def speed_at_slip(omega_s: RadianPerSecond, s: Share) -> RadianPerSecond:
    """Speed of the rotor at a slip.

    >>> round(speed_at_slip(omega_s=188.4956, s=0.041667), 2)
    180.64
    """
    return omega_s * (1 - s)


@formula(source=MACHINES, limits={"s": (0, 2), "f": (1, 400)})
def rotor_frequency(s: Share, f: Hertz) -> Hertz:
    """Frequency of the currents in the rotor.

    >>> round(rotor_frequency(s=0.041667, f=60.0), 2)
    2.5
    """
    return s * f


@formula(source=CAPACITOR, limits={"f": (1, 400), "C": (1e-12, 1), "V": (0, 1e4)})
def capacitor_current(f: Hertz, C: Farad, V: Volt) -> Ampere:
    """Current of a capacitor on a sine voltage; of a snubber across an open contact, what still flows.

    >>> round(capacitor_current(f=60.0, C=20e-6, V=370.0), 2)
    2.79
    """
    return 2 * pi * f * C * V


@formula(
    source=CAPACITOR,
    limits={"f": (1, 400), "V": (1, 1e4), "I": (1e-6, 1000)},
    leaves_out="the volts of the line: V is read across the capacitor, where 1.1 to 1.9 times as much stands",
)
def capacitance_from_reading(I: Ampere, V: Volt, f: Hertz) -> Farad:
    """Capacitance from the current of a capacitor and the voltage across it.

    >>> round(capacitance_from_reading(I=2.79, V=370.0, f=60.0) * 1e6)
    20
    """
    return I / (2 * pi * f * V)


@formula(
    source=derivation("impedance of coil, resistance and capacitor in a row"),
    limits={"R": (0, 1e6), "X_L": (0, 1e6), "X_C": (0, 1e6), "V": (0, 1e4)},
)
def winding_current(V: Volt, R: Ohm, X_L: Ohm, X_C: Ohm) -> Ampere:
    """Current of a winding with a capacitor in series, at standstill.

    >>> round(winding_current(V=110.0, R=26.56, X_L=7.12, X_C=31.03), 2)
    3.08
    """
    return V / sqrt(R**2 + (X_L - X_C) ** 2)


@formula(
    source=TWO_WINDINGS,
    limits={"phi": (0.01, 1.5), "f": (1, 400), "R": (1e-3, 1e5), "X_L": (0, 1e5)},
    leaves_out="a turning rotor, which changes the impedances: it holds at standstill",
)
def capacitance_for_lead(R: Ohm, X_L: Ohm, phi: Radian, f: Hertz) -> Farad:
    """Capacitor in series with an auxiliary winding so that its current leads the line's voltage by an angle.

    >>> round(capacitance_for_lead(R=26.56, X_L=7.12, phi=0.733038, f=60.0) * 1e6, 1)
    85.5
    """
    X_C: Ohm = X_L + R * tan(phi)
    return 1 / (2 * pi * f * X_C)


@formula(
    source=TWO_WINDINGS,
    limits={"phi_m": (0.05, 1.5), "f": (1, 400), "R": (1e-3, 1e5), "X_L": (0, 1e5)},
    leaves_out="a turning rotor, which changes the impedances: it holds at standstill",
)
def quadrature_capacitance(R: Ohm, X_L: Ohm, phi_m: Radian, f: Hertz) -> Farad:
    """Capacitor that turns the auxiliary current a right angle ahead of the main one, which lags by phi_m.

    >>> round(quadrature_capacitance(R=7.0, X_L=3.0, phi_m=0.7328, f=50.0) * 1e6)
    295
    """
    X_C: Ohm = X_L + R / tan(phi_m)
    return 1 / (2 * pi * f * X_C)


@formula(
    source=TWO_WINDINGS,
    limits={"I_1": (1e-3, 1000), "I_2": (0, 1000), "theta_1": (0.01, 3.13), "theta_2": (0, 3.1416)},
    leaves_out="another current of the main winding: it is the same in both",
)
def starting_torque_ratio(I_1: Ampere, theta_1: Radian, I_2: Ampere, theta_2: Radian) -> Number:
    """Starting torque over that before, from the auxiliary current and its angle to the main current, before and after.

    >>> round(starting_torque_ratio(I_1=4.0, theta_1=0.436332, I_2=4.0, theta_2=1.431170), 3)
    2.343
    """
    return I_2 * sin(theta_2) / (I_1 * sin(theta_1))


@formula(source=derivation("sum of two phasors; a leading current has a negative angle"), limits={"phi_1": ANGLE, "phi_2": ANGLE})
def line_current(I_1: Ampere, phi_1: Radian, I_2: Ampere, phi_2: Radian) -> Ampere:
    """Current of the line into two windings, each behind the voltage by its angle.

    >>> round(line_current(I_1=4.0, phi_1=0.261799, I_2=6.0, phi_2=0.698132), 2)
    9.77
    """
    A: Ampere = I_1 * cos(phi_1) + I_2 * cos(phi_2)
    B: Ampere = I_1 * sin(phi_1) + I_2 * sin(phi_2)
    return sqrt(A**2 + B**2)


@formula(
    source=derivation("what of two phasors lies at right angles to the voltage"),
    limits={"phi_1": ANGLE, "phi_2": ANGLE, "I": (1e-3, 1e4)},
)
def line_lag(I_1: Ampere, phi_1: Radian, I_2: Ampere, phi_2: Radian, I: Ampere) -> Radian:
    """Angle by which the line current I of two windings lags the voltage.

    >>> round(line_lag(I_1=4.0, phi_1=0.261799, I_2=6.0, phi_2=0.698132, I=9.7699) * 180 / 3.14159265)
    30
    """
    return asin((I_1 * sin(phi_1) + I_2 * sin(phi_2)) / I)


@formula(source=derivation("power of a sine current behind its voltage"), limits={"V": (0, 1e4), "I": (0, 1e4), "phi": ANGLE})
def winding_power(V: Volt, I: Ampere, phi: Radian) -> Watt:
    """Power that a winding takes.

    >>> round(winding_power(V=110.0, I=6.0, phi=0.698132), 1)
    505.6
    """
    return V * I * cos(phi)


@formula(source=derivation("definition of power factor"), limits={"V": (0.1, 1e4), "I": (1e-4, 1e4), "P": (0, 1e6)})
def power_factor(P: Watt, V: Volt, I: Ampere) -> Share:
    """Power over volts times amperes.

    >>> round(power_factor(P=930.6, V=110.0, I=9.77), 3)
    0.866
    """
    return P / (V * I)


@formula(
    source=Citation("textbooks on electrical machines, power of a motor from its plate", "P = V·I·cos φ·η"),
    limits={"k_p": (0.05, 1), "eta": (0.05, 1), "V": (1, 1e4), "I": (0, 1e4)},
    leaves_out="short-time ratings",
)
def alternating_shaft_power(V: Volt, I: Ampere, k_p: Share, eta: Share) -> Watt:
    """Power that volts, amperes, power factor and efficiency of a single-phase motor leave for the shaft.

    >>> round(alternating_shaft_power(V=120.0, I=10.0, k_p=0.6, eta=0.6), 6)
    432.0
    """
    return V * I * k_p * eta


@formula(
    source=memory("NEMA MG 1", "locked-rotor current of small motors, 5 to 7 times the plate's"),
    limits={"k": (1, 12)},
    leaves_out="a motor that carries a code letter: that says it better",
)
def locked_rotor_estimate(I_n: Ampere, k: Number) -> Ampere:
    """Current with the rotor held, as a multiple of the plate's.

    >>> locked_rotor_estimate(I_n=8.0, k=6.0)
    48.0
    """
    return I_n * k


@formula(
    source=KLOSS,
    limits={"s": (0, 0.1), "s_n": (0.005, 0.1)},
    leaves_out="more than about a third above the rated torque, where the curve bends to breakdown",
)
def torque_near_rated(T_n: NewtonMetre, s: Share, s_n: Share) -> NewtonMetre:
    """Torque at a small slip, in proportion to it.

    >>> torque_near_rated(T_n=10.0, s=0.02, s_n=0.04)
    5.0
    """
    return T_n * s / s_n


@formula(
    source=KLOSS,
    limits={"s": (1e-4, 1), "s_b": (0.02, 0.6)},
    leaves_out="stator resistance, bar skin effect and the start winding: the torque near standstill is another one",
)
def torque_at_slip(T_b: NewtonMetre, s_b: Share, s: Share) -> NewtonMetre:
    """Torque at a slip from the breakdown torque and the slip where it stands.

    >>> round(torque_at_slip(T_b=20.0, s_b=0.1, s=0.0268), 1)
    10.0
    """
    return 2 * T_b / (s / s_b + s_b / s)


@formula(source=KLOSS, limits={"s_n": (0.002, 0.2), "k": (1.01, 5)}, leaves_out="stator resistance")
def breakdown_slip(s_n: Share, k: Number) -> Share:
    """Slip at breakdown from the rated slip and the breakdown torque as a multiple k of the rated one.

    >>> round(breakdown_slip(s_n=0.0268, k=2.0), 3)
    0.1
    """
    return s_n * (k + sqrt(k**2 - 1))


@formula(source=KLOSS, limits={"s_b": (0.02, 0.6), "k": (1.01, 5)}, leaves_out="stator resistance")
def slip_at_load(s_b: Share, k: Number) -> Share:
    """Slip at which the torque is the breakdown torque over k.

    >>> round(slip_at_load(s_b=0.1, k=2.0), 4)
    0.0268
    """
    return s_b * (k - sqrt(k**2 - 1))


@formula(
    source=practice("start switch, relay or thermistor must open by about three quarters of the speed"),
    limits={"k": (0.5, 0.9)},
)
def switch_over_speed(omega_s: RadianPerSecond, k: Share) -> RadianPerSecond:
    """Speed by which the start winding must be off.

    >>> switch_over_speed(omega_s=180.0, k=0.75)
    135.0
    """
    return omega_s * k


@formula(source=derivation("definition: a torque as a multiple of the rated one"), limits={"T": (0, 1e4), "T_n": (1e-4, 1e4)})
def load_share(T: NewtonMetre, T_n: NewtonMetre) -> Number:
    """Torque over the rated torque.

    >>> load_share(T=1.5, T_n=2.0)
    0.75
    """
    return T / T_n


@formula(
    source=KLOSS,
    limits={"k": (0, 1.34), "s_n": (0.002, 0.2)},
    leaves_out="more than about a third above the rated torque, where the curve bends to breakdown",
)
def slip_near_rated(s_n: Share, k: Number) -> Share:
    """Slip at k times the rated torque, in proportion to it.

    >>> slip_near_rated(s_n=0.04, k=0.5)
    0.02
    """
    return s_n * k


@formula(
    source=derivation("the current that magnetises stays and lags a right angle behind the one that makes torque"),
    limits={"I_n": (1e-3, 1000), "p_0": (0, 0.99), "k": (0, 1.34)},
    leaves_out="stray reactance, which lags the current a little further near the rated torque",
)
def current_at_share(I_n: Ampere, p_0: Share, k: Number) -> Ampere:
    """Current at k times the rated torque; without load it is a share p_0 of the plate's.

    >>> round(current_at_share(I_n=4.0, p_0=0.6, k=0.5), 3)
    2.884
    """
    return I_n * sqrt(p_0**2 + (1 - p_0**2) * k**2)


@formula(source=derivation("definition: the current without load as a share of the plate's"), limits={"I_0": (1e-3, 1000), "I_n": (1e-3, 1000)})
def idle_share(I_0: Ampere, I_n: Ampere) -> Share:
    """Current without load over the plate's.

    >>> idle_share(I_0=2.4, I_n=4.0)
    0.6
    """
    return I_0 / I_n


@formula(source=derivation("crest of a sine over its RMS value"), limits={"I": (0, 1e4)})
def sine_crest(I: Ampere) -> Ampere:
    """Crest of a sine current.

    >>> round(sine_crest(I=3.0), 3)
    4.243
    """
    return sqrt(2) * I


@formula(
    source=practice("bearings and fan of a small induction motor take one to three hundredths of its rated torque"),
    limits={"T_n": (1e-4, 1e4), "p": (0, 0.2)},
    leaves_out="what the machine itself brakes, which shortens the coast",
)
def friction_torque(T_n: NewtonMetre, p: Share) -> NewtonMetre:
    """Torque of a motor's bearings and fan, as a share of the rated one.

    >>> friction_torque(T_n=2.5, p=0.02)
    0.05
    """
    return T_n * p


@formula(
    source=derivation("a capacitor behind its mark: crest of the alternating voltage that is printed on it"),
    limits={"V": (1, 2000)},
    leaves_out="a capacitor that stands at more than its mark, which it does not for long",
)
def capacitor_crest(V: Volt) -> Volt:
    """Most that a motor's capacitor can hold: the crest of the volts AC on its mark.

    >>> round(capacitor_crest(V=450.0), 1)
    636.4
    """
    return sqrt(2) * V


@formula(source=derivation("a share of a voltage"), limits={"V": (1, 2000), "k": (0.1, 5)})
def voltage_multiple(V: Volt, k: Number) -> Volt:
    """A multiple of the line's voltage.

    >>> voltage_multiple(V=230.0, k=1.5)
    345.0
    """
    return V * k


@formula(source=derivation("definition: a speed as a share of the rated one"), limits={"omega": (0, 7000), "omega_n": (1, 7000)})
def share_of_speed(omega: RadianPerSecond, omega_n: RadianPerSecond) -> Share:
    """Speed over the rated speed.

    >>> share_of_speed(omega=73.0, omega_n=146.0)
    0.5
    """
    return omega / omega_n
