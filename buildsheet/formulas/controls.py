"""Speed potentiometer with its end resistors, stored charge and its bleeder."""

from math import log

from buildsheet.citations import Citation, derivation
from buildsheet.formulas.formula import formula
from buildsheet.units import Ampere, Farad, Joule, Ohm, Second, Share, Volt, Watt

DIVIDER = derivation("voltage divider")


@formula(source=DIVIDER, limits={"a": (0, 0.95), "b": (0.05, 1)})
def divider_total(R_p: Ohm, a: Share, b: Share) -> Ohm:
    """Total of potentiometer and end resistors for a wiper that travels from share a to share b.

    >>> round(divider_total(R_p=10e3, a=0.10, b=0.85))
    13333
    """
    return R_p / (b - a)


@formula(source=DIVIDER, limits={"a": (0, 0.95)})
def bottom_resistor(R_s: Ohm, a: Share) -> Ohm:
    """Resistor between the low end of the potentiometer and the drive.

    >>> round(bottom_resistor(R_s=13333.0, a=0.10))
    1333
    """
    return a * R_s


@formula(source=DIVIDER, limits={"b": (0.05, 1)})
def top_resistor(R_s: Ohm, b: Share) -> Ohm:
    """Resistor between the high end of the potentiometer and the drive.

    >>> round(top_resistor(R_s=13333.0, b=0.85))
    2000
    """
    return (1 - b) * R_s


@formula(source=derivation("Joule heat"), limits={"R": (1e-3, 1e8)})
def divider_power(V: Volt, R: Ohm) -> Watt:
    """Heat in a potentiometer across a voltage.

    >>> divider_power(V=10.0, R=5000.0)
    0.02
    """
    return V**2 / R


@formula(source=derivation("definition of a share"), limits={"V_max": (1e-3, 1e4)})
def share_of_voltage(V: Volt, V_max: Volt) -> Share:
    """Wanted output as a share of the full output.

    >>> share_of_voltage(V=45.0, V_max=90.0)
    0.5
    """
    return V / V_max


@formula(source=derivation("energy of a capacitor"))
def stored_energy(C: Farad, V: Volt) -> Joule:
    """Energy in a charged capacitor.

    >>> round(stored_energy(C=1e-3, V=170.0), 2)
    14.45
    """
    return C * V**2 / 2


@formula(source=Citation("IEC 60204-1", "6.2.4", "6th ed. 2016"), limits={"V_0": (1, 1e5), "V_s": (1, 1e5)})
def discharge_time(R: Ohm, C: Farad, V_0: Volt, V_s: Volt) -> Second:
    """Time for a bleeder to bring a capacitor down to a voltage.

    >>> round(discharge_time(R=50.0, C=195e-6, V_0=1500.0, V_s=320.0) * 1000, 2)
    15.06
    """
    return R * C * log(V_0 / V_s)


@formula(source=derivation("a time with a factor for what wear and cold change"), limits={"k": (1, 5)})
def blocking_time(t: Second, k: Share) -> Second:
    """Time for which a timer must keep a machine from starting again, from the longest coast.

    >>> blocking_time(t=8.0, k=1.5)
    12.0
    """
    return t * k


@formula(
    source=derivation("Ohm's law: a turning motor on its own diodes"),
    limits={"E": (0, 1000), "U_d": (0, 10), "R": (0.001, 1e4)},
    leaves_out="the resistance of leads and drive, which makes it less, and the inductance, which lets it rise more slowly",
)
def diode_braking_current(E: Volt, U_d: Volt, R: Ohm) -> Ampere:
    """Current of a turning motor whose leads are changed over: its own voltage drives it through the drive's diodes.

    >>> diode_braking_current(E=82.5, U_d=1.5, R=1.5)
    54.0
    """
    return (E - U_d) / R


@formula(
    source=Citation("textbooks on DC machines, plugging: supply and back-EMF add"), limits={"R": (1e-3, 1e4)}
)
def plugging_current(V: Volt, E: Volt, R: Ohm) -> Ampere:
    """Armature current of a motor that is reversed at speed: the reason why one waits for standstill.

    >>> round(plugging_current(V=90.0, E=82.5, R=1.5), 6)
    115.0
    """
    return (V + E) / R
