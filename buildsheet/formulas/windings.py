"""Winding a core anew: its turns by a trial winding or by its iron, its wire, and the window that they fill.

The length of a winding's wire goes into `copper_resistance`; heat is `copper_loss`.
"""

from math import pi, sqrt

from buildsheet.citations import Citation, derivation
from buildsheet.formulas.formula import formula
from buildsheet.units import (
    Ampere,
    AmperePerSquareMetre,
    Hertz,
    IronArea,
    Metre,
    Number,
    PerVolt,
    Share,
    Tesla,
    Volt,
    VoltAmpere,
    VoltAmperePerMetre4,
    WireArea,
)

EMF = Citation("textbooks on electrical machines, EMF equation of a transformer", "E = √2·π·f·N·B·A, 4.44 in short")
REWINDING = derivation("volts of a trial winding, both read at one moment")
IRON = {"f": (10.0, 1000.0), "B": (0.1, 2.0), "A": (1e-6, 1.0)}


@formula(source=EMF, limits={**IRON, "N": (1, 1e6)}, leaves_out="waves that are no sine")
def winding_emf(f: Hertz, N: Number, B: Tesla, A: IronArea) -> Volt:
    """RMS voltage of a winding of N turns on net iron A at a peak flux density B.

    >>> round(winding_emf(f=50.0, N=495.0, B=1.2, A=0.05))
    6598
    """
    return sqrt(2) * pi * f * N * B * A


@formula(source=EMF, limits=IRON, leaves_out="waves that are no sine")
def turns_per_volt(f: Hertz, B: Tesla, A: IronArea) -> PerVolt:
    """Turns for each volt on net iron A at a peak flux density B.

    >>> round(turns_per_volt(f=60.0, B=1.2, A=13.79e-4), 2)
    2.27
    """
    return 1 / (sqrt(2) * pi * f * B * A)


@formula(source=derivation("part of a stack that is iron and not varnish"), limits={"k": (0.5, 1)})
def net_iron(a: Metre, b: Metre, k: Share) -> IronArea:
    """Net iron of a stack a wide and b high, a share k of which is iron.

    >>> round(net_iron(a=0.0381, b=0.0381, k=0.95) * 1e4, 2)
    13.79
    """
    return a * b * k


@formula(source=derivation("turns for each volt, times volts"), limits={"n": (1e-3, 1e3), "V": (0.1, 1e5)})
def turns_for_voltage(V: Volt, n: PerVolt) -> Number:
    """Turns of a winding for a voltage.

    >>> round(turns_for_voltage(V=120.0, n=2.268))
    272
    """
    return V * n


@formula(source=REWINDING, limits={"N": (1, 1000), "V_p": (0.1, 1000), "V_n": (1, 1000), "V_t": (0.01, 1000)})
def volts_per_turn(V_t: Volt, N: Number, V_n: Volt, V_p: Volt) -> Volt:
    """Volts for each turn at the line's nominal voltage, from a trial winding.

    Its N turns show V_t while the primary shows V_p: with a lamp in series the primary gets much less than the line.

    >>> round(volts_per_turn(V_t=7.25, N=10.0, V_n=120.0, V_p=100.0), 2)
    0.87
    """
    return V_t / N * V_n / V_p


@formula(source=REWINDING, limits={"v": (0.01, 10), "p": (0, 0.15), "V": (0.1, 1000)})
def turns_with_allowance(V: Volt, v: Volt, p: Share) -> Number:
    """Turns for a voltage under load, with a share p more for the drop; v are the volts for each turn.

    >>> round(turns_with_allowance(V=24.0, v=0.87, p=0.05))
    29
    """
    return V * (1 + p) / v


@formula(
    source=Citation("an audio-kit article, a transformer spreadsheet and a rule of thumb", "P = k·A², k 0.64 to 1.0 VA/cm⁴"),
    limits={"k": (4e7, 1.2e8), "A": (5e-5, 1e-2)},
    leaves_out="temperature, which decides: a rule of thumb within 30 %",
)
def core_rating(k: VoltAmperePerMetre4, A: IronArea) -> VoltAmpere:
    """Rating that the middle leg of a core suggests.

    >>> round(core_rating(k=0.64e8, A=15e-4))
    144
    """
    return k * A**2


@formula(source=derivation("current over current density"), limits={"j": (5e5, 1.2e7), "I": (0, 1e4)})
def winding_wire_area(I: Ampere, j: AmperePerSquareMetre) -> WireArea:
    """Cross-section of a winding's wire.

    >>> round(winding_wire_area(I=10.0, j=3e6) * 1e6, 2)
    3.33
    """
    return I / j


@formula(source=derivation("diameter of a circle"), limits={"a": (1e-10, 1e-2)})
def bare_diameter(a: WireArea) -> Metre:
    """Bare diameter of round wire.

    >>> round(bare_diameter(a=3.3333e-6) * 1000, 2)
    2.06
    """
    return sqrt(4 * a / pi)


@formula(source=derivation("copper over window"), limits={"A_w": (1e-6, 1), "N_1": (0, 1e5), "N_2": (0, 1e5)}, leaves_out="insulation and bobbin: the limit of the fill allows for them")
def window_fill(N_1: Number, a_1: WireArea, N_2: Number, a_2: WireArea, A_w: IronArea) -> Share:
    """Share of a core's window that the bare copper of two windings takes.

    >>> window_fill(N_1=272.0, a_1=1e-6, N_2=57.0, a_2=4e-6, A_w=1000e-6)
    0.5
    """
    return (N_1 * a_1 + N_2 * a_2) / A_w


@formula(source=derivation("turns times their mean length"), limits={"N": (1, 1e5), "l_m": (0.01, 5)})
def winding_length(N: Number, l_m: Metre) -> Metre:
    """Length of the wire of a winding.

    >>> round(winding_length(N=28.0, l_m=0.2), 6)
    5.6
    """
    return N * l_m


@formula(source=derivation("volts for each turn, times turns"), limits={"v": (0.01, 10), "N": (1, 1e5)})
def open_voltage(N: Number, v: Volt) -> Volt:
    """Voltage of an unloaded winding.

    >>> round(open_voltage(N=28.0, v=0.87), 2)
    24.36
    """
    return N * v


@formula(source=derivation("an open voltage over the volts of a turn"), limits={"v": (0.01, 10), "V": (0.1, 1e4)})
def turns_at(V: Volt, v: Volt) -> Number:
    """Turns of a winding for an open voltage, drops already counted in it.

    >>> round(turns_at(V=24.36, v=0.87), 6)
    28.0
    """
    return V / v


@formula(source=derivation("copper of one winding over the window that is left for it"), limits={"A_w": (1e-6, 1), "N": (0, 1e5)}, leaves_out="insulation: the limit of the fill allows for it")
def fill_of_window(N: Number, a: WireArea, A_w: IronArea) -> Share:
    """Share of a window that the bare copper of one winding takes.

    >>> fill_of_window(N=28.0, a=4e-6, A_w=560e-6)
    0.2
    """
    return N * a / A_w


@formula(source=derivation("a window is a rectangle"), limits={"w": (1e-3, 1), "h": (1e-3, 1)})
def window_area(w: Metre, h: Metre) -> IronArea:
    """Area of a core's window.

    >>> round(window_area(w=0.02, h=0.05) * 1e4, 6)
    10.0
    """
    return w * h
