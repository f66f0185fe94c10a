"""A three-phase motor behind an inverter: volts by frequency, torque above base speed, one phase at the input."""

from math import pi, sqrt

from buildsheet.citations import Citation, derivation
from buildsheet.formulas.formula import formula
from buildsheet.units import (
    Ampere,
    Hertz,
    NewtonMetre,
    Number,
    Ohm,
    RadianPerSecond,
    Second,
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


@formula(
    source=V_F,
    limits={"omega": (1, 2000), "p": (2, 24), "f_n": (10, 120), "s_n": (0.001, 0.15), "k": (0.01, 1.34)},
    leaves_out="the drop over the stator's resistance, which the boost at low frequency makes good",
)
def frequency_at_share(omega: RadianPerSecond, p: Number, f_n: Hertz, s_n: Share, k: Number) -> Hertz:
    """Frequency that turns a motor at a speed with k times its rated torque.

    Up to base the lag in turns a minute goes with the torque (f_1); above base, where the flux falls, with the square of
    the frequency too (f_2). Each is the larger on its own side, and they meet at base.

    >>> round(frequency_at_share(omega=150.7964, p=4.0, f_n=50.0, s_n=0.04, k=0.5), 3)
    49.0
    """
    f_r: Hertz = omega * p / (4 * pi)
    t: Second = s_n * k / f_n
    f_1: Hertz = f_r + s_n * f_n * k
    f_2: Hertz = 2 * f_r / (1 + sqrt(1 - 4 * t * f_r))
    return max(f_1, f_2)


@formula(source=WEAK, limits={"f": (1.0, 400.0), "f_n": (10, 120)})
def flux_share(f_n: Hertz, f: Hertz) -> Share:
    """Flux over the rated one: whole up to base frequency, then less the faster it turns.

    >>> flux_share(f_n=50.0, f=100.0)
    0.5
    """
    return min(1, f_n / f)


@formula(
    source=derivation("magnetising current goes with the flux, torque with flux times load current, at right angles"),
    limits={"I_n": (1e-3, 1000), "p_0": (0, 0.99), "k": (0, 1.34), "q": (0.2, 1)},
    leaves_out="stray reactance, and iron that is less saturated in a weaker field",
)
def current_at_flux(I_n: Ampere, p_0: Share, k: Number, q: Share) -> Ampere:
    """Current at k times the rated torque and a share q of the rated flux; p_0 is the current without load over the plate's.

    >>> round(current_at_flux(I_n=2.0, p_0=0.6, k=0.5, q=1.0), 3)
    1.442
    """
    return I_n * sqrt((p_0 * q) ** 2 + (1 - p_0**2) * (k / q) ** 2)


@formula(
    source=derivation("power of three phases in balance"),
    limits={"P": (1, 1e5), "V": (10, 1000), "I": (1e-3, 1000), "k_p": (0.05, 1)},
)
def three_phase_efficiency(P: Watt, V: Volt, I: Ampere, k_p: Number) -> Share:
    """Efficiency by the plate of a three-phase motor; V between lines.

    >>> round(three_phase_efficiency(P=831.4, V=400.0, I=2.0, k_p=0.8), 3)
    0.75
    """
    return P / (sqrt(3) * V * I * k_p)


@formula(source=derivation("definition of efficiency"), limits={"P": (0, 1e5), "eta": (0.1, 1)})
def loss_of_power(P: Watt, eta: Share) -> Watt:
    """What is lost beside a power that is given off.

    >>> loss_of_power(P=750.0, eta=0.75)
    250.0
    """
    return P / eta - P


@formula(
    source=derivation("power in is shaft power and losses; the losses of the rated point, which are more than those below it"),
    limits={"T": (0, 1e4), "omega": (0, 2000), "P_l": (0, 1e5), "eta": (0.5, 1)},
)
def inverter_input_power(T: NewtonMetre, omega: RadianPerSecond, P_l: Watt, eta: Share) -> Watt:
    """Power that an inverter takes for a motor at a speed and a torque: eta is its own efficiency, P_l the motor's losses.

    >>> inverter_input_power(T=2.0, omega=100.0, P_l=75.0, eta=1.0)
    275.0
    """
    return (T * omega + P_l) / eta


@formula(
    source=derivation("definition of power factor; the current of a rectifier with capacitor is far from a sine"),
    limits={"P": (0, 1e5), "V": (50, 500), "k_p": (0.3, 1)},
)
def rectifier_input_current(P: Watt, V: Volt, k_p: Share) -> Ampere:
    """RMS current that a rectifier with a capacitor takes from a single-phase line.

    >>> round(rectifier_input_current(P=414.0, V=230.0, k_p=0.6), 6)
    3.0
    """
    return P / (V * k_p)


@formula(
    source=derivation("definition of efficiency; volts times amperes are never less than the power that leaves it"),
    limits={"V": (10, 700), "I": (0, 1000), "eta": (0.5, 1)},
    leaves_out="the motor's power factor, which makes it less",
)
def inverter_loss(V: Volt, I: Ampere, eta: Share) -> Watt:
    """Most heat of an inverter at an output current; V between two leads at full frequency.

    >>> round(inverter_loss(V=230.0, I=2.0, eta=0.95), 1)
    41.9
    """
    return sqrt(3) * V * I * (1 / eta - 1)


@formula(source=ONE_PHASE, limits={"I": (0, 1000), "k": (0.3, 1)})
def output_on_one_phase(I: Ampere, k: Share) -> Ampere:
    """Output current for long that a single-phase input leaves of an inverter's rating.

    >>> output_on_one_phase(I=8.0, k=0.5)
    4.0
    """
    return I * k


@formula(
    source=derivation("copper heat of three phases, by the resistance between two leads, in star and in delta alike"),
    limits={"I": (0, 1000), "R": (1e-3, 1e5)},
)
def three_phase_copper_loss(I: Ampere, R: Ohm) -> Watt:
    """Heat of a three-phase winding: I in each lead, R between two leads.

    >>> three_phase_copper_loss(I=2.0, R=10.0)
    60.0
    """
    return 3 * R * I**2 / 2


@formula(source=derivation("three equal windings in a triangle, read between two corners: one beside two in a row"), limits={"R": (1e-3, 1e5)})
def delta_winding(R: Ohm) -> Ohm:
    """Resistance of each winding of a delta from that between two leads.

    >>> delta_winding(R=10.0)
    15.0
    """
    return 3 * R / 2


@formula(source=WEAK, limits={"T_n": (1e-4, 1e4), "k": (1.01, 5), "q": (0.2, 1)}, leaves_out="stator resistance, which takes some of it at low frequency")
def greatest_torque(T_n: NewtonMetre, k: Number, q: Share) -> NewtonMetre:
    """Breakdown torque, k times the rated one, at a share q of the rated flux: it falls with the square.

    >>> greatest_torque(T_n=10.0, k=2.0, q=0.5)
    5.0
    """
    return T_n * k * q**2
