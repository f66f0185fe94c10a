"""Wire, cord and protective conductor: resistance, drop, and what a conductor carries where it lies."""

from math import pi

from buildsheet.citations import Citation, derivation
from buildsheet.formulas.formula import Constant, formula
from buildsheet.units import (
    KELVIN,
    METRE,
    OHM_METRE,
    PER_KELVIN,
    Ampere,
    Kelvin,
    Metre,
    Number,
    Ohm,
    OhmPerMetre,
    Share,
    Volt,
    WireArea,
)

IACS = Citation("IEC 60028, standard of resistance for copper", read_from="secondary copy")
RHO_20 = Constant(1.7241e-8, OHM_METRE, "rho_20", IACS)
ALPHA_20 = Constant(0.00393, PER_KELVIN, "alpha_20", IACS)
T_20 = Constant(293.15, KELVIN, "T_20", IACS)
D_36 = Constant(
    0.005 * 0.0254, METRE, "d_36", Citation("ASTM B258-02, gauge formula", read_from="secondary copy")
)


@formula(source=IACS, limits={"A": (1e-9, 1e-2), "T": (233.15, 473.15)}, leaves_out="skin effect")
def copper_resistance(l: Metre, A: WireArea, T: Kelvin) -> Ohm:
    """DC resistance of one copper conductor, one way.

    >>> round(copper_resistance(l=10, A=2.5e-6, T=293.15), 6)
    0.068964
    """
    return RHO_20 * l / A * (1 + ALPHA_20 * (T - T_20))


@formula(source=Citation("ASTM B258-02", "step ratio 92^(1/39), 36 AWG is 0.005 in"), limits={"n": (-3, 40)})
def gauge_area(n: Number) -> WireArea:
    """Cross-section of solid round wire of an American gauge number.

    >>> round(gauge_area(n=10) * 1e6, 3)
    5.261
    """
    d: Metre = D_36 * 92 ** ((36 - n) / 39)
    return pi * d**2 / 4


@formula(
    source=derivation("Ohm's law over both conductors of a single-phase or direct-current run")
)
def voltage_drop(l: Metre, r: OhmPerMetre, I: Ampere) -> Volt:
    """Drop along a run and back; l is the length one way.

    >>> round(voltage_drop(l=3.0, r=0.003277, I=20.0), 3)
    0.393
    """
    return 2 * l * r * I


@formula(source=derivation("sum of drops in a row"))
def total_drop(U_1: Volt, U_2: Volt) -> Volt:
    """Drops of two runs in a row.

    >>> total_drop(U_1=1.0, U_2=0.5)
    1.5
    """
    return U_1 + U_2


@formula(source=derivation("definition of a share"), limits={"V": (1e-3, 1e5)})
def drop_share(U: Volt, V: Volt) -> Share:
    """Drop as a share of the supply voltage.

    >>> drop_share(U=6.0, V=120.0)
    0.05
    """
    return U / V


@formula(
    source=derivation("table value times the corrections of its own standard"), limits={"k_T": (0, 2), "k_n": (0, 1)}
)
def ampacity_in_place(I_t: Ampere, k_T: Share, k_n: Share) -> Ampere:
    """Current that a conductor carries where it lies: table value, ambient and bundle corrections.

    >>> ampacity_in_place(I_t=20.0, k_T=0.8, k_n=0.5)
    8.0
    """
    return I_t * k_T * k_n


@formula(source=derivation("sum of the parts of a run"))
def wire_length(l: Metre, l_s: Metre) -> Metre:
    """Length to cut: the run and the spare loop.

    >>> wire_length(l=0.9, l_s=0.1)
    1.0
    """
    return l + l_s


@formula(
    source=derivation("table value times the corrections of its own standard, solved for the table value"),
    limits={"k_T": (0.01, 2), "k_n": (0.01, 1)},
)
def least_table_ampacity(I_p: Ampere, k_T: Share, k_n: Share) -> Ampere:
    """Ampacity that the table must give, so that a conductor still carries the rating of its protection in place.

    >>> round(least_table_ampacity(I_p=10.0, k_T=0.8, k_n=0.5), 6)
    25.0
    """
    return I_p / (k_T * k_n)


@formula(source=derivation("resistance of a run and back"))
def loop_resistance(l: Metre, r: OhmPerMetre) -> Ohm:
    """Resistance of a run and back; l is the length one way.

    >>> round(loop_resistance(l=2.5, r=0.0103), 5)
    0.0515
    """
    return 2 * l * r


@formula(source=derivation("a share of the resistance in the table"), limits={"k": (0.8, 2)})
def warm_resistance(r: OhmPerMetre, k: Share) -> OhmPerMetre:
    """Resistance of a warm conductor from that of the table.

    >>> round(warm_resistance(r=0.0133, k=1.2), 5)
    0.01596
    """
    return r * k


@formula(
    source=derivation("a share of the fuse's rating; which share, says the rule"),
    limits={"k": (1, 2)},
)
def guarded_current(I_n: Ampere, k: Share) -> Ampere:
    """Current that a conductor must carry where it lies, so that its fuse guards it from overload.

    >>> round(guarded_current(I_n=10.0, k=1.45), 6)
    14.5
    """
    return I_n * k
