"""A motor with a resistor in a row with it until it has run up."""

from buildsheet.citations import Citation, derivation, practice
from buildsheet.formulas.formula import formula
from buildsheet.units import Ampere, Joule, Number, Ohm, Second, Volt

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
    source=derivation("R·∫i²dt of a current that dies away from I_1 to the work's with a time constant, whole"),
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
