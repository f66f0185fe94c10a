"""A board that takes its speed as a timed pulse: width for a voltage, duty, the resistor in its signal lead."""

from buildsheet.citations import derivation
from buildsheet.formulas.formula import formula
from buildsheet.units import Ampere, Hertz, Ohm, Second, Share, Volt

LINE = derivation("a straight line through two measured points")


@formula(source=LINE, limits={"V_2": (0.1, 1000), "w_1": (0, 10), "w_2": (0, 10)}, leaves_out="a board whose output does not go straight with its pulse: measure a third point")
def pulse_width(V: Volt, V_1: Volt, w_1: Second, V_2: Volt, w_2: Second) -> Second:
    """Pulse width for an output V, from two widths and the outputs that they gave.

    >>> round(pulse_width(V=60.0, V_1=20.0, w_1=5e-3, V_2=100.0, w_2=25e-3) * 1000, 6)
    15.0
    """
    return w_1 + (V - V_1) * (w_2 - w_1) / (V_2 - V_1)


@formula(source=derivation("definition of duty"), limits={"T": (1e-5, 10), "w": (0, 10)})
def duty_of_pulse(w: Second, T: Second) -> Share:
    """Share of its period that a pulse lasts.

    >>> round(duty_of_pulse(w=0.01, T=0.05), 6)
    0.2
    """
    return w / T


@formula(source=derivation("Ohm's law in the lead of a light-emitting diode"), limits={"V": (1, 48), "U": (0.5, 5), "I": (1e-4, 0.1)})
def signal_resistor(V: Volt, U: Volt, I: Ampere) -> Ohm:
    """Resistor between a pulse source and an input that is a light-emitting diode of a coupler.

    >>> round(signal_resistor(V=5.0, U=1.2, I=0.010))
    380
    """
    return (V - U) / I


@formula(source=derivation("mean of a pulse"), limits={"V": (0, 48), "D": (0, 1)})
def mean_of_pulse(V: Volt, D: Share) -> Volt:
    """What a meter on direct volts shows of a pulse train: its mean.

    >>> mean_of_pulse(V=5.0, D=0.2)
    1.0
    """
    return V * D


@formula(source=derivation("mean of a pulse, solved for its duty"), limits={"V": (0, 48), "V_l": (0.1, 48)}, leaves_out="pulses whose low level is not zero")
def duty_of_mean(V: Volt, V_l: Volt) -> Share:
    """Share of its period that a pulse lasts, from the mean that a meter shows and the level of the pulse.

    >>> duty_of_mean(V=1.0, V_l=5.0)
    0.2
    """
    return V / V_l


@formula(source=derivation("mean of a pulse, solved for its level"), limits={"V": (0, 48), "D": (0.005, 1)}, leaves_out="pulses whose low level is not zero")
def level_of_pulse(V: Volt, D: Share) -> Volt:
    """Level of a pulse, from the mean that a meter shows on direct volts and the share that it shows on its duty range.

    >>> level_of_pulse(V=1.0, D=0.2)
    5.0
    """
    return V / D


@formula(source=derivation("definition of duty, the period being one over the frequency"), limits={"D": (0, 1), "f": (0.1, 1e5)})
def width_of_duty(D: Share, f: Hertz) -> Second:
    """Width of a pulse, from the share and the frequency that a meter shows.

    >>> width_of_duty(D=0.2, f=20.0)
    0.01
    """
    return D / f
