"""Transformers and autotransformers: currents, regulation, losses, what stands ahead of a bridge.

A core that is wound anew stands in `windings`; what a rectifier asks of a transformer in `smoothing`.
"""

from math import pi, sqrt

from buildsheet.citations import Citation, derivation, memory, practice
from buildsheet.formulas.formula import formula
from buildsheet.units import (
    Ampere,
    Farad,
    Number,
    Ohm,
    Share,
    Volt,
    VoltAmpere,
    Watt,
)

EMF = Citation("textbooks on electrical machines, EMF equation of a transformer", "E = √2·π·f·N·B·A, 4.44 in short")
AUTO = derivation("currents of an ideal autotransformer")


@formula(source=Citation("a toroid maker's page", "regulation over the voltage at full load"), limits={"V_fl": (0.1, 1e5), "V_nl": (0.1, 1e5)})
def regulation(V_nl: Volt, V_fl: Volt) -> Share:
    """Rise of a transformer's voltage from full load to none, over that at full load.

    >>> round(regulation(V_nl=11.0, V_fl=10.0), 6)
    0.1
    """
    return (V_nl - V_fl) / V_fl


@formula(source=derivation("drop over resistance alone, as a share"), limits={"S": (0.1, 1e6), "P": (0, 1e6)}, leaves_out="leakage: shunts in a core make it many times as much")
def regulation_from_loss(P: Watt, S: VoltAmpere) -> Share:
    """Regulation that the copper loss P at the rating S comes to.

    >>> regulation_from_loss(P=8.0, S=100.0)
    0.08
    """
    return P / S


@formula(source=derivation("rated voltage, regulation and line tolerance, times √2"), limits={"r": (0, 0.5), "p": (0, 0.3), "V": (1, 1e4)})
def off_load_peak(V: Volt, r: Share, p: Share) -> Volt:
    """Highest voltage that reaches a capacitor: rated secondary V, unloaded, line at the top of its tolerance.

    >>> round(off_load_peak(V=24.0, r=0.1, p=0.1), 1)
    41.1
    """
    return sqrt(2) * V * (1 + r) * (1 + p)


@formula(source=Citation("textbook on electric machinery and transformers, 2nd ed.", "chapter 14"), limits={"x": (0.01, 2), "k_p": (0.05, 1), "S": (0.1, 1e9)})
def transformer_efficiency(S: VoltAmpere, x: Share, k_p: Share, P_i: Watt, P_c: Watt) -> Share:
    """Efficiency at a share x of the rating and a power factor; losses of iron, and of copper at the whole rating.

    >>> round(transformer_efficiency(S=500e3, x=0.75, k_p=1.0, P_i=1800.0, P_c=8200.0), 4)
    0.9832
    """
    P: Watt = x * S * k_p
    return P / (P + P_i + x**2 * P_c)


@formula(source=derivation("two voltages against each other through two resistances"), limits={"R_1": (1e-4, 1e4), "R_2": (1e-4, 1e4)}, leaves_out="leakage")
def circulating_current(V_1: Volt, V_2: Volt, R_1: Ohm, R_2: Ohm) -> Ampere:
    """Current that two windings in parallel drive through each other.

    >>> round(circulating_current(V_1=6.3, V_2=5.0, R_1=0.2, R_2=0.15), 2)
    3.71
    """
    return (V_1 - V_2) / (R_1 + R_2)


@formula(source=derivation("definition of apparent power"), limits={"V": (0, 1e6), "I": (0, 1e6)})
def apparent_power(V: Volt, I: Ampere) -> VoltAmpere:
    """Volts times amperes.

    >>> apparent_power(V=90.0, I=5.0)
    450.0
    """
    return V * I


@formula(source=derivation("definition of apparent power"), limits={"V": (0.1, 1e6), "S": (0, 1e9)})
def winding_rated_current(S: VoltAmpere, V: Volt) -> Ampere:
    """Rated current of a winding.

    >>> winding_rated_current(S=240.0, V=120.0)
    2.0
    """
    return S / V


@formula(source=derivation("a multiple of the rated primary current; which, says the row"), limits={"k": (1, 100), "I_n": (0, 1e4)})
def multiple_of_primary(I_n: Ampere, k: Number) -> Ampere:
    """Primary current times a multiple: of a fuse at the most, or of the rush at switch-on.

    >>> multiple_of_primary(I_n=2.0, k=1.67)
    3.34
    """
    return I_n * k


@formula(source=AUTO, limits={"x": (0, 1.2), "I_2": (0, 1e3)}, leaves_out="magnetising current")
def auto_line_current(I_2: Ampere, x: Share) -> Ampere:
    """Line current of an autotransformer whose output is a share x of the line.

    >>> auto_line_current(I_2=5.0, x=0.75)
    3.75
    """
    return x * I_2


@formula(source=AUTO, limits={"x": (0, 1), "I_2": (0, 1e3)}, leaves_out="magnetising current; an output above the line")
def auto_common_current(I_2: Ampere, x: Share) -> Ampere:
    """Current in the common part of an autotransformer's winding.

    >>> auto_common_current(I_2=5.0, x=0.75)
    1.25
    """
    return (1 - x) * I_2


@formula(source=Citation("a transformer maker's glossary", "autotransformer: transformed and conducted power"), limits={"x": (0, 1), "V_2": (0, 1e4), "I_2": (0, 1e3)})
def auto_built_rating(V_2: Volt, I_2: Ampere, x: Share) -> VoltAmpere:
    """Rating for which an autotransformer's iron is built; the rest of its power is only conducted.

    >>> auto_built_rating(V_2=90.0, I_2=5.0, x=0.75)
    112.5
    """
    return V_2 * I_2 * (1 - x)


@formula(source=memory("textbooks on electrical machines, two-winding transformer as autotransformer"), limits={"V_1": (1, 1e5), "V_s": (0, 1e5), "I": (0, 1e5)}, leaves_out="insulation of the series winding, which must stand the line")
def boost_through_rating(V_1: Volt, V_s: Volt, I: Ampere) -> VoltAmpere:
    """Power through a transformer whose secondary, rated I, is put in series with the line.

    >>> round(boost_through_rating(V_1=1200.0, V_s=120.0, I=83.3333))
    110000
    """
    return (V_1 + V_s) * I


@formula(source=AUTO, limits={"V_1": (1, 1000), "V": (0, 1200)}, leaves_out="drop in winding and brush")
def dial_fraction(V: Volt, V_1: Volt) -> Share:
    """Share of the line at which a variable autotransformer must stand for a voltage.

    >>> dial_fraction(V=90.0, V_1=120.0)
    0.75
    """
    return V / V_1


@formula(source=AUTO, limits={"V_1": (1, 1000), "x": (0.05, 1.25), "p": (0, 0.3)}, leaves_out="a stop that slips: it is tested by turning the knob")
def end_stop_voltage(V_1: Volt, x: Share, p: Share) -> Volt:
    """Highest output of a variable autotransformer with its end stop at x, line at the top of its tolerance.

    >>> round(end_stop_voltage(V_1=120.0, x=0.75, p=0.1), 6)
    99.0
    """
    return V_1 * x * (1 + p)


@formula(source=derivation("ampere-turns of the two windings balance"), limits={"I_1": (0, 1e3), "V_1": (1, 1e4), "V_2": (1, 1e4)}, leaves_out="magnetising current")
def secondary_current(I_1: Ampere, V_1: Volt, V_2: Volt) -> Ampere:
    """Current behind a transformer or at the brush of an autotransformer, from that ahead of it and both open voltages.

    >>> secondary_current(I_1=3.0, V_1=120.0, V_2=90.0)
    4.0
    """
    return I_1 * V_1 / V_2


@formula(source=derivation("an unloaded transformer gives the same share of whatever line it is on"), limits={"V": (0, 1e4), "V_m": (1, 1e4), "V_n": (1, 1e4)})
def voltage_on_other_line(V: Volt, V_m: Volt, V_n: Volt) -> Volt:
    """A voltage that was measured at line voltage V_m, as it is at line voltage V_n.

    >>> round(voltage_on_other_line(V=60.0, V_m=118.0, V_n=120.0), 3)
    61.017
    """
    return V * V_n / V_m


@formula(source=derivation("mean of a rectified sine, 2·√2/π of its RMS value, less the drops"), limits={"V": (0, 1000), "U_d": (0, 20)}, leaves_out="a current with gaps, which needs less; drops in the windings")
def bridge_input_voltage(V: Volt, U_d: Volt) -> Volt:
    """Alternating voltage ahead of a bridge for an average voltage behind it, while the current does not stop.

    >>> round(bridge_input_voltage(V=90.0, U_d=0.0), 2)
    99.96
    """
    return (V + U_d) * pi / (2 * sqrt(2))


@formula(source=derivation("a large capacitor charges to the peak of the sine, less the drops"), limits={"V": (0, 1000), "U_d": (0, 20)}, leaves_out="ripple and drops in the windings, both of which need more")
def capacitor_input_voltage(V: Volt, U_d: Volt) -> Volt:
    """Alternating voltage ahead of a bridge with a large capacitor, for a voltage behind it.

    >>> round(capacitor_input_voltage(V=90.0, U_d=0.0), 2)
    63.64
    """
    return (V + U_d) / sqrt(2)


@formula(source=practice("diodes for twice the peak that they block"), limits={"V_m": (0, 1e4)})
def bridge_blocking_voltage(V_m: Volt) -> Volt:
    """Voltage that each diode of a bridge should block, from the peak ahead of it.

    >>> bridge_blocking_voltage(V_m=187.0)
    374.0
    """
    return 2 * V_m


@formula(source=derivation("heat in a resistance"), limits={"I": (0, 1e3), "R": (0, 1e3), "P_0": (0, 1e3)})
def transformer_loss(I: Ampere, R: Ohm, P_0: Watt) -> Watt:
    """Heat of a transformer: its windings' resistance seen from the secondary, and what it takes running idle.

    >>> transformer_loss(I=5.0, R=0.4, P_0=8.0)
    18.0
    """
    return I**2 * R + P_0


@formula(source=derivation("a tolerance upwards"), limits={"C": (1e-9, 10), "p": (0, 1)})
def largest_capacitance(C: Farad, p: Share) -> Farad:
    """What a capacitor may have with its tolerance upwards.

    >>> round(largest_capacitance(C=1e-3, p=0.2), 7)
    0.0012
    """
    return C * (1 + p)


@formula(source=derivation("resistance that drops the difference of the open and the loaded voltage"), limits={"V": (1, 1e4), "r": (0, 0.5), "I": (0.01, 1e4)})
def resistance_by_regulation(V: Volt, r: Share, I: Ampere) -> Ohm:
    """Resistance of a transformer seen from its secondary, from its regulation (over the voltage at full load).

    >>> round(resistance_by_regulation(V=24.0, r=0.1, I=5.0), 6)
    0.48
    """
    return V * r / I


@formula(source=derivation("a tolerance upwards, taken off beforehand"), limits={"R": (1e-3, 1e8), "p": (0, 1)})
def resistance_with_tolerance(R: Ohm, p: Share) -> Ohm:
    """Largest marked value of a resistor that is no more than R with its tolerance upwards.

    >>> round(resistance_with_tolerance(R=1100.0, p=0.1), 6)
    1000.0
    """
    return R / (1 + p)


@formula(source=derivation("definition of regulation, over the voltage at full load"), limits={"V": (0.1, 1e4), "r": (0, 0.5)})
def voltage_without_load(V: Volt, r: Share) -> Volt:
    """Voltage of a transformer without load, from that at full load.

    >>> round(voltage_without_load(V=10.0, r=0.1), 6)
    11.0
    """
    return V * (1 + r)


@formula(source=derivation("power is the same on both sides, so a resistance goes with the square of the turns"), limits={"V_1": (1, 1e4), "V_2": (0.1, 1e4)})
def referred_resistance(R: Ohm, V_1: Volt, V_2: Volt) -> Ohm:
    """A primary's resistance as it is seen from the secondary.

    >>> round(referred_resistance(R=2.0, V_1=120.0, V_2=24.0), 6)
    0.08
    """
    return R * (V_2 / V_1) ** 2
