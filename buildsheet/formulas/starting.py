"""A motor with a resistor in a row with it until it has run up."""

from math import log, sqrt

from buildsheet.citations import Citation, derivation, practice
from buildsheet.formulas.formula import formula
from buildsheet.units import (
    Ampere,
    Joule,
    KilogramSquareMetre,
    NewtonMetre,
    NewtonMetrePerAmpereSquared,
    Number,
    Ohm,
    RadianPerSecond,
    Second,
    Share,
    Volt,
)

STARTERS = Citation("DOE-HDBK-1011, electrical science", "direct-current motors, starting", read_from="secondary copy")


@formula(source=practice("brushes, belts and gears stand about twice the plate's current for a second or two"), limits={"k": (1, 6), "I_n": (0, 1e3)})
def allowed_start_current(I_n: Ampere, k: Number) -> Ampere:
    """Current that a start is kept to.

    >>> allowed_start_current(I_n=6.0, k=2.0)
    12.0
    """
    return I_n * k


@formula(source=STARTERS, limits={"V": (0, 1e4), "U_b": (0, 10), "I": (1e-3, 1e4), "R_1": (0, 1e4)}, leaves_out="inductance")
def start_resistor(V: Volt, U_b: Volt, I: Ampere, R_1: Ohm) -> Ohm:
    """Resistance that keeps a standing armature to a current; R_1 is what is there without it, negative where that is enough.

    >>> round(start_resistor(V=260.0, U_b=0.0, I=62.5, R_1=0.4), 2)
    3.76
    """
    return (V - U_b) / I - R_1


@formula(
    source=derivation("the speed that the work leaves with the resistor in stands still while it is bridged"),
    limits={"I": (0, 1e4), "R_1": (1e-4, 1e4), "R_s": (0, 1e4)},
    leaves_out="what the start has not yet come to when the timer ends",
)
def bridging_current(I: Ampere, R_1: Ohm, R_s: Ohm) -> Ampere:
    """Current at the moment in which a start resistor R_s is bridged while the work takes I.

    >>> bridging_current(I=5.0, R_1=0.5, R_s=1.0)
    15.0
    """
    return I * (R_1 + R_s) / R_1


@formula(
    source=derivation("R·∫i²dt of a current that dies away from its first value to the work's with a time constant, whole"),
    limits={"I_1": (0, 1e4), "I": (0, 1e4), "R": (0, 1e4), "tau": (1e-4, 60), "t": (1e-3, 1e3)},
    leaves_out="a motor that stands still all the time",
)
def start_heat(I_1: Ampere, I: Ampere, R: Ohm, tau: Second, t: Second) -> Joule:
    """Heat in a start resistor that is bridged after a time t, some time constants long.

    >>> start_heat(I_1=10.0, I=2.0, R=1.0, tau=0.5, t=1.5)
    38.0
    """
    D: Ampere = I_1 - I
    return R * (I**2 * t + 2 * I * D * tau + D**2 * tau / 2)


@formula(source=derivation("∫I²dt is the heat over its resistance; what a fuse lets pass goes with the square of its rating"), limits={"W": (0, 1e6), "R": (1e-4, 1e4), "k": (0.1, 50)})
def fuse_for_start_heat(W: Joule, R: Ohm, k: Second) -> Ampere:
    """Least rating of a fuse that carries a start which leaves a heat W in a resistance R in a row with it.

    k is the I²t that it lets pass at once over the square of its rating.

    >>> fuse_for_start_heat(W=60.0, R=0.4, k=1.5)
    10.0
    """
    return sqrt(W / (R * k))


SERIES = derivation("k·I² against the work's torque, I² = V²/((R + k·ω)² + X²), integrated over the speed")
IRON = "iron that saturates, the brushes' drop, torque that changes with speed"


@formula(source=derivation("impedance of resistance and coil in a row, nothing moving"), limits={"V": (0.1, 1e3), "I": (1e-2, 1e3), "R": (0, 1e4), "X": (0, 1e4)}, leaves_out="iron that saturates")
def alternating_start_resistor(V: Volt, I: Ampere, R: Ohm, X: Ohm) -> Ohm:
    """Resistance that keeps a standing motor on alternating voltage to a current; negative where its own does.

    None at all where its coil alone does.

    >>> alternating_start_resistor(V=100.0, I=10.0, R=2.0, X=6.0)
    6.0
    """
    return sqrt((V / I) ** 2 - X**2) - R


@formula(source=SERIES, limits={"k": (1e-6, 1e3), "T": (1e-6, 1e4), "V": (0.1, 1e3), "R": (0, 1e4), "X": (0, 1e4)}, leaves_out=IRON)
def series_settled_speed(k: NewtonMetrePerAmpereSquared, T: NewtonMetre, V: Volt, R: Ohm, X: Ohm) -> RadianPerSecond:
    """Speed at which a series motor on alternating voltage makes just the torque T, R and X in a row with it.

    >>> round(series_settled_speed(k=0.04, T=0.36, V=120.0, R=20.0, X=12.0), 1)
    453.9
    """
    a: Ohm = sqrt(k * V**2 / T - X**2)
    return (a - R) / k


@formula(source=derivation("impedance of windings, coil and back-EMF in a row"), limits={"V": (0.1, 1e3), "I": (1e-2, 1e3), "R": (0, 1e4), "X": (0, 1e4), "k": (1e-6, 1e3)}, leaves_out=IRON)
def series_speed_at_current(V: Volt, I: Ampere, R: Ohm, X: Ohm, k: NewtonMetrePerAmpereSquared) -> RadianPerSecond:
    """Speed at which a series motor on alternating voltage takes a current.

    >>> series_speed_at_current(V=100.0, I=10.0, R=2.0, X=6.0, k=0.05)
    120.0
    """
    return (sqrt((V / I) ** 2 - X**2) - R) / k


@formula(source=SERIES, limits={"J": (1e-7, 10), "k": (1e-3, 1), "T": (1e-3, 100), "V": (1, 1e3), "R": (0, 1e3), "X": (0, 1e3), "omega": (0, 1e4)}, leaves_out=IRON)
def series_run_up_time(J: KilogramSquareMetre, k: NewtonMetrePerAmpereSquared, T: NewtonMetre, V: Volt, R: Ohm, X: Ohm, omega: RadianPerSecond) -> Second:
    """Time that a series motor on alternating voltage takes from standstill to a speed below the one that it settles at.

    >>> round(series_run_up_time(J=0.0006, k=0.04, T=0.36, V=120.0, R=20.0, X=12.0, omega=100.0), 4)
    0.1088
    """
    a: Ohm = sqrt(k * V**2 / T - X**2)
    u: Ohm = R + k * omega
    return J / (k * T) * ((a**2 + X**2) / (2 * a) * log((a + u) * (a - R) / ((a - u) * (a + R))) - (u - R))


@formula(source=derivation("a share taken off a speed"), limits={"omega": (0, 1e4), "p": (0, 1)})
def speed_when_bridged(omega: RadianPerSecond, p: Share) -> RadianPerSecond:
    """Speed that is left to a motor of which a share p of the run-up is missing.

    >>> speed_when_bridged(omega=400.0, p=0.05)
    380.0
    """
    return omega * (1 - p)


@formula(source=derivation("∫I²dt is what the torque's impulse is over k: the speed's, and the work's"), limits={"R": (0, 1e4), "J": (1e-7, 10), "k": (1e-6, 1e3), "T": (0, 1e4), "omega": (0, 1e4), "t": (0, 1e3)}, leaves_out=IRON)
def series_start_heat(R: Ohm, J: KilogramSquareMetre, k: NewtonMetrePerAmpereSquared, T: NewtonMetre, omega: RadianPerSecond, t: Second) -> Joule:
    """Heat in a resistor in a row with a series motor that runs up to a speed in a time t against a torque T.

    >>> series_start_heat(R=10.0, J=0.001, k=0.05, T=0.2, omega=500.0, t=1.0)
    140.0
    """
    return R * (J * omega + T * t) / k
