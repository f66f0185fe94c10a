"""A three-phase motor behind an inverter: volts by frequency, torque above base speed, one phase at the input."""

from math import pi, sqrt

from buildsheet.citations import Citation, derivation
from buildsheet.formulas.formula import formula
from buildsheet.units import (
    Ampere,
    Hertz,
    NewtonMetre,
    Number,
    RadianPerSecond,
    Share,
    Volt,
    Watt,
)

V_F = Citation("textbooks on electric drives, constant volts for each hertz", "flux kept; volts end at base frequency")
WEAK = Citation("power-electronics textbook, 4th ed.", "chapter 15, field weakening of an induction motor")
ONE_PHASE = Citation(
    "drive makers' manuals, three-phase inverter on a single-phase supply", "output to about half, input current doubles"
)
HERTZ_RANGE = (1.0, 120.0)


@formula(
    source=V_F,
    limits={"f": HERTZ_RANGE, "f_n": (10, 120), "V_n": (10, 700)},
    leaves_out="the boost at low frequency for the drop over the stator's resistance",
)
def volts_at_frequency(V_n: Volt, f_n: Hertz, f: Hertz) -> Volt:
    """Output of an inverter that keeps the flux: in proportion to frequency, at most the motor's own volts.

    >>> volts_at_frequency(V_n=230.0, f_n=50.0, f=25.0)
    115.0
    """
    return min(V_n, V_n * f / f_n)


@formula(
    source=V_F,
    limits={"f": HERTZ_RANGE, "f_n": (10, 120), "p": (2, 24), "s_n": (0, 0.15)},
    leaves_out="another load: it is the rated torque",
)
def inverter_speed(f: Hertz, p: Number, f_n: Hertz, s_n: Share) -> RadianPerSecond:
    """Speed at a frequency and the rated torque: the lag in turns a minute stays what it is at the rated point.

    >>> round(inverter_speed(f=30.0, p=4.0, f_n=50.0, s_n=0.04) * 30 / 3.14159265)
    840
    """
    return 4 * pi / p * (f - s_n * f_n)


@formula(
    source=V_F,
    limits={"omega": (1, 2000), "p": (2, 24), "f_n": (10, 120), "s_n": (0, 0.15)},
    leaves_out="another load: it is the rated torque",
)
def frequency_for_speed(omega: RadianPerSecond, p: Number, f_n: Hertz, s_n: Share) -> Hertz:
    """Frequency that turns a motor at a speed with its rated torque.

    >>> round(frequency_for_speed(omega=87.9646, p=4.0, f_n=50.0, s_n=0.04), 3)
    30.0
    """
    return omega * p / (4 * pi) + s_n * f_n


@formula(
    source=WEAK,
    limits={"f": HERTZ_RANGE, "f_n": (10, 120)},
    leaves_out="breakdown, which falls faster, and cooling at low speed",
)
def weakening_torque(T_n: NewtonMetre, f_n: Hertz, f: Hertz) -> NewtonMetre:
    """Torque for long at a frequency: the rated one up to base, then the same power.

    >>> weakening_torque(T_n=10.0, f_n=50.0, f=100.0)
    5.0
    """
    return min(T_n, T_n * f_n / f)


@formula(
    source=WEAK,
    limits={"b": (1, 2.5)},
    leaves_out="stator resistance; below base frequency, where breakdown stays",
)
def breakdown_above_base(T_b: NewtonMetre, b: Number) -> NewtonMetre:
    """Breakdown torque at b times the base frequency with the volts held: it falls with the square.

    >>> breakdown_above_base(T_b=60.0, b=2.0)
    15.0
    """
    return T_b / b**2


@formula(
    source=derivation("power of three phases in balance"),
    limits={"V": (10, 1000), "I": (0, 1000), "k_p": (0.05, 1), "eta": (0.05, 1)},
    leaves_out="short-time ratings",
)
def three_phase_shaft_power(V: Volt, I: Ampere, k_p: Share, eta: Share) -> Watt:
    """Power that the plate of a three-phase motor leaves for the shaft; V between lines.

    >>> round(three_phase_shaft_power(V=400.0, I=2.0, k_p=0.8, eta=0.75))
    831
    """
    return sqrt(3) * V * I * k_p * eta


@formula(source=ONE_PHASE, limits={"k": (0.3, 1)}, leaves_out="an inverter whose maker forbids it, or that stops at a lost phase")
def inverter_rating(I_n: Ampere, k: Share) -> Ampere:
    """Least rated output of an inverter for a motor, when a single-phase input leaves a share k of it.

    >>> inverter_rating(I_n=4.0, k=0.5)
    8.0
    """
    return I_n / k


@formula(
    source=derivation("power in is power out over efficiency; the current of a rectifier with capacitor is far from a sine"),
    limits={"V": (50, 500), "eta": (0.3, 1), "k_p": (0.3, 1), "P": (0, 1e5)},
)
def inverter_input_current(P: Watt, eta: Share, V: Volt, k_p: Share) -> Ampere:
    """RMS current that an inverter takes from a single-phase line; eta of inverter and motor together.

    >>> round(inverter_input_current(P=750.0, eta=0.75, V=230.0, k_p=0.6), 2)
    7.25
    """
    return P / (eta * V * k_p)


@formula(
    source=Citation("drive maker's application note on continuous operation at low speed", "a fan on the shaft"),
    limits={"k": (0.2, 1)},
    leaves_out="a separate fan, which keeps the torque",
)
def torque_on_shaft_fan(T_n: NewtonMetre, k: Share) -> NewtonMetre:
    """Torque for long at low speed, where the fan on the shaft leaves a share k of the cooling's worth.

    >>> torque_on_shaft_fan(T_n=10.0, k=0.8)
    8.0
    """
    return T_n * k
