"""A battery: how long it lasts, what it gives into a short, its voltage full and empty; charging what hangs on it."""

from math import log

from buildsheet.citations import Citation, derivation
from buildsheet.formulas.formula import Constant, formula
from buildsheet.units import SECOND, Ampere, AmpereHour, Farad, Number, Ohm, Second, Share, Volt

PEUKERT = Citation(
    "Peukert's law for a capacity that is rated over a discharge time",
    "a battery maker's and a battery monitor's page",
)

HOUR = Constant(3600.0, SECOND, "h_1", derivation("an hour has 3600 seconds"))


@formula(
    source=PEUKERT,
    limits={"k": (1, 1.6), "I": (1e-3, 1e4), "H": (60, 1e6)},
    leaves_out="cold, age, and rests, in which a battery recovers a little",
)
def runtime(C: AmpereHour, H: Second, I: Ampere, k: Number) -> Second:
    """Time to empty a battery of capacity C, rated over the discharge time H, at a steady current.

    >>> round(runtime(C=360000.0, H=72000.0, I=5.0, k=1.2), 6)
    72000.0
    """
    x: Number = (C / (I * H)) ** k
    return H * x


@formula(source=derivation("a share of the time that empties it"), limits={"p": (0.05, 1)})
def planned_time(t: Second, p: Share) -> Second:
    """Time to plan with when only a share of the charge is used.

    >>> planned_time(t=7200.0, p=0.5)
    3600.0
    """
    return t * p


@formula(
    source=derivation("charge drawn while it runs, spread over run and rest"),
    limits={"t_on": (1e-3, 1e6), "t_off": (0, 1e6)},
)
def mean_current(I: Ampere, t_on: Second, t_off: Second) -> Ampere:
    """Average current over run and rest.

    >>> mean_current(I=8.0, t_on=1800.0, t_off=600.0)
    6.0
    """
    return I * t_on / (t_on + t_off)


@formula(
    source=derivation("cells in a row, each at the same voltage"), limits={"V_c": (0.5, 5), "V_x": (0.5, 5)}
)
def voltage_of_cells(V: Volt, V_c: Volt, V_x: Volt) -> Volt:
    """Voltage of a battery of nominal voltage V whose cells, of nominal voltage V_c, each stand at V_x.

    >>> round(voltage_of_cells(V=24.0, V_c=2.0, V_x=2.4), 6)
    28.8
    """
    return V / V_c * V_x


@formula(source=derivation("Ohm's law on the battery's own resistance"), limits={"R_i": (1e-5, 10)})
def battery_fault_current(V: Volt, R_i: Ohm) -> Ampere:
    """Current of a battery into a dead short at its posts.

    >>> round(battery_fault_current(V=25.0, R_i=0.025), 6)
    1000.0
    """
    return V / R_i


@formula(source=derivation("the battery's own resistance takes its share"))
def voltage_under_load(V: Volt, I: Ampere, R_i: Ohm) -> Volt:
    """Voltage at the posts under load.

    >>> voltage_under_load(V=24.0, I=10.0, R_i=0.05)
    23.5
    """
    return V - I * R_i


@formula(
    source=derivation("a capacitor behind a resistor follows V·(1 − exp(−t/(R·C)))"),
    limits={"p": (0.01, 0.5)},
)
def charging_time(R: Ohm, C: Farad, p: Share) -> Second:
    """Time until the voltage over a charging resistor has fallen to a share p of the whole.

    >>> round(charging_time(R=100.0, C=0.002, p=0.05), 3)
    0.599
    """
    return R * C * log(1 / p)


@formula(
    source=derivation("Ohm's law: at first the whole voltage lies on the resistor"), limits={"R": (0.1, 1e6)}
)
def charging_current(V: Volt, R: Ohm) -> Ampere:
    """Current at the first moment of charging.

    >>> charging_current(V=24.0, R=100.0)
    0.24
    """
    return V / R


@formula(source=derivation("what a path in series leaves"))
def voltage_behind(V: Volt, U_d: Volt) -> Volt:
    """Voltage that is left behind a drop.

    >>> voltage_behind(V=24.0, U_d=0.5)
    23.5
    """
    return V - U_d


@formula(source=derivation("a share of the charge in an hour"), limits={"p": (0.01, 2)})
def charge_current(C: AmpereHour, p: Share) -> Ampere:
    """Charging current that fills a share p of the capacity in an hour.

    >>> round(charge_current(C=126000.0, p=0.3), 6)
    10.5
    """
    return p * C / HOUR
