"""Fuses, breakers, overload and what the outlet may be loaded with."""

from math import pi, sqrt

from buildsheet.citations import Citation, derivation, practice
from buildsheet.formulas.formula import formula
from buildsheet.units import Ampere, Number, Ohm, Second, Share, Volt, Watt


@formula(
    source=derivation("a share of the breaker's rating; which share, says the rule"),
    limits={"k": (0.1, 1)},
)
def continuous_limit(I_b: Ampere, k: Share) -> Ampere:
    """Most current that may flow for three hours or more on a branch breaker.

    >>> continuous_limit(I_b=15.0, k=0.8)
    12.0
    """
    return I_b * k


@formula(source=Citation("fuse makers' selection guides", "at 25 °C"), limits={"k": (0.1, 1)})
def least_fuse_rating(I: Ampere, k: Share) -> Ampere:
    """Smallest rating that carries a current all day, when a fuse carries only a share of its rating for ever.

    >>> round(least_fuse_rating(I=8.1, k=0.75), 1)
    10.8
    """
    return I / k


@formula(
    source=derivation("two shares of one rating, one after the other"),
    limits={"k": (0.1, 1), "k_T": (0.1, 1)},
)
def share_in_warm_air(k: Share, k_T: Share) -> Share:
    """Share of its rating that a fuse carries all day in air warmer than that of its test.

    >>> round(share_in_warm_air(k=0.75, k_T=0.9), 6)
    0.675
    """
    return k * k_T


@formula(source=derivation("a share of the plate's current; which share, says the rule"), limits={"k": (1, 1.4)})
def overload_setting(I_n: Ampere, k: Share) -> Ampere:
    """Highest setting of a motor overload device.

    >>> overload_setting(I_n=5.0, k=1.15)
    5.75
    """
    return I_n * k


@formula(
    source=derivation("the device warms by the RMS current, the plate states the average"),
    limits={"F": (0.99, 10)},
)
def current_by_heat(I: Ampere, F: Number) -> Ampere:
    """RMS current of an average current with a form factor.

    >>> round(current_by_heat(I=5.0, F=1.4), 6)
    7.0
    """
    return I * F


@formula(source=derivation("a share of the load's current; which share, says the rule"), limits={"k": (1, 2)})
def disconnect_rating(I: Ampere, k: Share) -> Ampere:
    """Least ampere rating of a motor disconnect.

    >>> round(disconnect_rating(I=8.0, k=1.15), 6)
    9.2
    """
    return I * k


@formula(source=derivation("source impedance and the loop of the run in a row"), limits={"I_s": (1, 1e5)})
def fault_current_at_end(V: Volt, I_s: Ampere, R: Ohm) -> Ampere:
    """Prospective fault current behind a run of wire, from that at its start.

    >>> round(fault_current_at_end(V=120.0, I_s=1000.0, R=0.08))
    600
    """
    Z: Ohm = V / I_s
    return V / (Z + R)


@formula(source=derivation("line voltage within its tolerance"), limits={"p": (0, 0.3)})
def highest_voltage(V: Volt, p: Share) -> Volt:
    """Voltage at the top of its tolerance.

    >>> round(highest_voltage(V=120.0, p=0.1), 6)
    132.0
    """
    return V * (1 + p)


@formula(source=derivation("line voltage within its tolerance"), limits={"p": (0, 0.3)})
def lowest_voltage(V: Volt, p: Share) -> Volt:
    """Voltage at the bottom of its tolerance.

    >>> round(lowest_voltage(V=120.0, p=0.1), 6)
    108.0
    """
    return V * (1 - p)


@formula(source=derivation("peak of a sine"), limits={"V": (0, 1e4)})
def peak_voltage(V: Volt) -> Volt:
    """Peak of a sine voltage.

    >>> round(peak_voltage(V=120.0), 1)
    169.7
    """
    return sqrt(2) * V


@formula(
    source=derivation("mean of a rectified sine, 2·√2/π of its RMS value"),
    leaves_out="a current with gaps: then the motor sees more",
)
def full_bridge_average(V: Volt, U_d: Volt) -> Volt:
    """Most average volts that a single-phase bridge gives while its current does not stop.

    >>> round(full_bridge_average(V=120.0, U_d=0.0), 2)
    108.04
    """
    return 2 * sqrt(2) / pi * V - U_d


@formula(source=derivation("currents of branches that are in phase add; else the sum is less"))
def sum_of_currents(I_1: Ampere, I_2: Ampere) -> Ampere:
    """Two branch currents together, at the most.

    >>> sum_of_currents(I_1=7.0, I_2=0.5)
    7.5
    """
    return I_1 + I_2


@formula(source=derivation("definition of power"), limits={"V": (1, 1e4)})
def current_of_power(P: Watt, V: Volt) -> Ampere:
    """Current of a small load of a known power, power factor one.

    >>> current_of_power(P=24.0, V=120.0)
    0.2
    """
    return P / V


@formula(
    source=practice("a time-lag fuse carries a motor's start, some seconds long, up to a multiple of its rating"),
    limits={"I_s": (0, 1000), "k": (1, 10)},
    leaves_out="a start that takes longer, such as that of a heavy drum: then the fuse blows, and nothing else happens",
)
def fuse_for_start(I_s: Ampere, k: Number) -> Ampere:
    """Least rating of a time-lag fuse that carries a start.

    >>> fuse_for_start(I_s=40.0, k=4.0)
    10.0
    """
    return I_s / k


@formula(
    source=derivation("∫I²dt of a current that dies away with a time constant is half of I²·τ; what a fuse lets pass goes with the square of its rating"),
    limits={"I_s": (0, 1e4), "tau": (1e-4, 5), "k": (0.1, 50)},
    leaves_out="the work's own torque, which makes the run-up longer",
)
def fuse_for_run_up(I_s: Ampere, tau: Second, k: Second) -> Ampere:
    """Least rating of a fuse that carries a direct-current motor's run-up.

    k is the I²t that it lets pass at once over the square of its rating.

    >>> round(fuse_for_run_up(I_s=60.0, tau=0.05, k=1.5), 2)
    7.75
    """
    return I_s * sqrt(tau / (2 * k))
