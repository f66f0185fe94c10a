"""Heat of the drive, the temperature of its box, and the air that carries it away."""

from math import sqrt

from buildsheet.citations import Citation, derivation, memory
from buildsheet.formulas.formula import Constant, formula
from buildsheet.units import (
    JOULE_PER_KILOGRAM_KELVIN,
    KILOGRAM_PER_CUBIC_METRE,
    METRE,
    Ampere,
    CubicMetrePerSecond,
    Kelvin,
    KelvinPerWatt,
    KelvinRise,
    Metre,
    RadianPerSecond,
    Share,
    SquareMetre,
    Volt,
    Watt,
    WattPerSquareMetreKelvin,
)

SURFACES = Citation(
    "enclosure climate calculation after IEC 60890 and VDE 0660 part 500", "effective area by mounting"
)
ATMOSPHERE = memory("ISO 2533, standard atmosphere")
AIR = derivation("dry air at 20 °C and sea level")
RHO_AIR = Constant(1.204, KILOGRAM_PER_CUBIC_METRE, "rho_air", AIR)
C_P = Constant(1005.0, JOULE_PER_KILOGRAM_KELVIN, "c_p", AIR)
H_0 = Constant(44330.0, METRE, "h_0", ATMOSPHERE)
THIN = Citation(
    "hardware manuals of two drive makers, altitude: 1 % less current for each 100 m above 1000 m; IEC 60034-1 rates "
    "motors to 1000 m"
)
H_1 = Constant(1000.0, METRE, "h_1", THIN)
H_2 = Constant(10000.0, METRE, "h_2", THIN)


@formula(
    source=derivation("two junctions in a row, each with a nearly constant drop"),
    leaves_out="the small part that grows with current",
)
def bridge_loss(U_d: Volt, I: Ampere) -> Watt:
    """Heat of a bridge that drops U_d along its path at an average current.

    >>> round(bridge_loss(U_d=2.2, I=5.0), 6)
    11.0
    """
    return U_d * I


@formula(source=SURFACES)
def free_box_area(w: Metre, h: Metre, d: Metre) -> SquareMetre:
    """Effective cooling surface of a box that is free on all sides.

    >>> round(free_box_area(w=0.8, h=2.0, d=0.6), 3)
    5.712
    """
    return 1.8 * h * (w + d) + 1.4 * w * d


@formula(source=SURFACES)
def wall_box_area(w: Metre, h: Metre, d: Metre) -> SquareMetre:
    """Effective cooling surface of a single box with its back on a wall.

    >>> round(wall_box_area(w=0.30, h=0.40, d=0.20), 3)
    0.396
    """
    return 1.4 * w * (h + d) + 1.8 * d * h


@formula(
    source=SURFACES, limits={"A": (1e-4, 100), "k": (0.5, 50)}, leaves_out="hotter air near the top, sunshine"
)
def box_rise(P: Watt, k: WattPerSquareMetreKelvin, A: SquareMetre) -> KelvinRise:
    """Mean rise of the air in a sealed box.

    >>> round(box_rise(P=40.0, k=5.5, A=0.444), 1)
    16.4
    """
    return P / (k * A)


@formula(source=derivation("temperature plus rise"))
def temperature_after_rise(T_a: Kelvin, dT: KelvinRise) -> Kelvin:
    """Temperature after a rise.

    >>> temperature_after_rise(T_a=308.15, dT=20.0)
    328.15
    """
    return T_a + dT


@formula(source=ATMOSPHERE, limits={"h": (0, 5000)})
def air_share(h: Metre) -> Share:
    """Density of the air at a height as a share of that at sea level.

    >>> round(air_share(h=1524.0), 3)
    0.832
    """
    k_h: Share = (1 - h / H_0) ** 5.256
    return k_h


@formula(source=THIN, limits={"h": (0, 4000)})
def share_at_altitude(h: Metre) -> Share:
    """Share of its rated current that a drive or motor gives at a height, for thin air cools less.

    >>> share_at_altitude(h=1500.0)
    0.95
    """
    return min(1, 1 - (h - H_1) / H_2)


@formula(source=derivation("a share of a rated current"), limits={"k": (0.1, 1)})
def current_share(I: Ampere, k: Share) -> Ampere:
    """Current that is left of a rating.

    >>> current_share(I=10.0, k=0.95)
    9.5
    """
    return I * k


@formula(
    source=derivation("heat that leaves goes with the share of the air's cooling"), limits={"k": (0.1, 1)}
)
def rise_in_thin_air(dT: KelvinRise, k: Share) -> KelvinRise:
    """Rise where thin air carries away a share of the heat only.

    >>> rise_in_thin_air(dT=10.0, k=0.8)
    12.5
    """
    return dT / k


@formula(source=derivation("heat carried by air, Q = P/(ρ·c·ΔT)"), limits={"dT": (0.5, 200), "k_h": (0.3, 1)})
def air_flow(P: Watt, dT: KelvinRise, k_h: Share) -> CubicMetrePerSecond:
    """Air that carries a heat away at a rise, thin air included.

    >>> round(air_flow(P=200.0, dT=10.0, k_h=1.0) * 3600, 1)
    59.5
    """
    return P / (RHO_AIR * k_h * C_P * dT)


@formula(source=derivation("thermal resistances in a row"), limits={"P": (1e-3, 1e4)})
def heat_sink_resistance(
    T_j: Kelvin, T_a: Kelvin, P: Watt, R_jc: KelvinPerWatt, R_cs: KelvinPerWatt
) -> KelvinPerWatt:
    """Most thermal resistance that a heat sink may have.

    >>> round(heat_sink_resistance(T_j=398.15, T_a=298.15, P=3.5, R_jc=2.0, R_cs=0.5), 1)
    26.1
    """
    return (T_j - T_a) / P - R_jc - R_cs


@formula(source=derivation("losses add"))
def total_heat(P_1: Watt, P_2: Watt) -> Watt:
    """Two heats together.

    >>> total_heat(P_1=11.0, P_2=4.0)
    15.0
    """
    return P_1 + P_2


@formula(source=derivation("what the allowed temperature leaves above the surrounding air"))
def allowed_rise(T_max: Kelvin, T_a: Kelvin) -> KelvinRise:
    """Rise that is left between the surrounding air and what a part stands.

    >>> round(allowed_rise(T_max=323.15, T_a=308.15), 6)
    15.0
    """
    return T_max - T_a


@formula(
    source=derivation("copper heat with the square of current; the heat that air carries with its volume, and that with the fan's speed (first affinity law)"),
    limits={"omega": (0, 1e4), "omega_f": (1e-3, 1e4)},
    leaves_out="what the case gives off without its fan, which allows more",
)  # fmt: skip
def current_on_slow_fan(I: Ampere, omega: RadianPerSecond, omega_f: RadianPerSecond) -> Ampere:
    """RMS current that heats a motor no more than its own fan cools it at a speed; at omega_f it cools for I.

    >>> current_on_slow_fan(I=6.0, omega=25.0, omega_f=100.0)
    3.0
    """
    return I * sqrt(omega / omega_f)
