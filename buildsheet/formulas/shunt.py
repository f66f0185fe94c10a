"""Motors with a shunt or separately fed field: the field sets the speed, and without it there is no bound to it.

Every formula with a share of the field refuses a small one: where the field is lost the speed is not a number.
"""

from buildsheet.citations import Citation, derivation
from buildsheet.formulas.formula import formula
from buildsheet.units import (
    Ampere,
    NewtonMetre,
    Number,
    Ohm,
    RadianPerSecond,
    Share,
    Volt,
    VoltSecondPerRadian,
    Watt,
)

SHUNT = Citation("textbooks on electrical machines, shunt motor", "E = K_e·ω at the rated field, in proportion below it")
LEAST_FIELD = 0.5  # of the rated field: speed goes with its inverse, and no rotor is trusted with more than twice its own
FIELD = (LEAST_FIELD, 1.1)
BENT = "iron that saturates: the flux then falls by less than the field current, so the true speed is lower"


@formula(source=derivation("Ohm's law in the field winding"), limits={"V_f": (1, 1000), "R_f": (1, 1e5)}, leaves_out="a warm winding: less current")
def field_current(V_f: Volt, R_f: Ohm) -> Ampere:
    """Current of a field winding.

    >>> field_current(V_f=220.0, R_f=110.0)
    2.0
    """
    return V_f / R_f


@formula(source=derivation("Ohm's law in the field winding"), limits={"V_f": (1, 1000), "I_f": (0.01, 100)})
def field_resistance(V_f: Volt, I_f: Ampere) -> Ohm:
    """Least resistance of a field, so that its supply gives no more than a current.

    >>> field_resistance(V_f=100.0, I_f=1.0)
    100.0
    """
    return V_f / I_f


@formula(source=derivation("Ohm's law, a resistor in series with the field"), limits={"V_f": (1, 1000), "I_f": (0.01, 100)})
def field_series_resistor(V_f: Volt, I_f: Ampere, R_f: Ohm) -> Ohm:
    """Resistor in series with a field for its rated current on a higher voltage.

    >>> field_series_resistor(V_f=200.0, I_f=1.0, R_f=100.0)
    100.0
    """
    return V_f / I_f - R_f


@formula(source=derivation("a share of the rated field current"), limits={"I_n": (0.01, 100), "I_f": (0, 100)})
def field_share(I_f: Ampere, I_n: Ampere) -> Share:
    """Field current as a share of the rated one.

    >>> field_share(I_f=0.8, I_n=1.0)
    0.8
    """
    return I_f / I_n


@formula(source=derivation("a share of the full field current"), limits={"I_n": (0.01, 100), "p": (0.1, 1)})
def current_of_share(I_n: Ampere, p: Share) -> Ampere:
    """Field current at a share of the full one.

    >>> current_of_share(I_n=0.5, p=0.7)
    0.35
    """
    return I_n * p


@formula(source=derivation("a margin over a current; which, says the rule"), limits={"I": (0, 100), "k": (1, 2)})
def current_with_margin(I: Ampere, k: Share) -> Ampere:
    """Least field current that leaves a margin over the one at which a relay falls out.

    >>> round(current_with_margin(I=0.28, k=1.1), 6)
    0.308
    """
    return I * k


@formula(source=derivation("a share more than the plate's volts; which, says the rule"), limits={"V_f": (1, 1000), "k": (1, 1.5)})
def volts_that_a_field_stands(V_f: Volt, k: Share) -> Volt:
    """Most volts on a field for long.

    >>> round(volts_that_a_field_stands(V_f=100.0, k=1.1), 6)
    110.0
    """
    return V_f * k


@formula(source=derivation("a part that is always on is rated for more than its heat; how much, says the rule"), limits={"P": (0, 1e4), "k": (1, 10)})
def rating_with_spare(P: Watt, k: Number) -> Watt:
    """Rating of a resistor that is always on.

    >>> rating_with_spare(P=20.0, k=2.0)
    40.0
    """
    return P * k


@formula(source=SHUNT, limits={"K_e": (1e-4, 100), "p": FIELD}, leaves_out=BENT)
def constant_at_share(K_e: VoltSecondPerRadian, p: Share) -> VoltSecondPerRadian:
    """Back-EMF constant with a share p of the rated field.

    >>> round(constant_at_share(K_e=2.65, p=0.8), 6)
    2.12
    """
    return K_e * p


@formula(source=SHUNT, limits={"K_e": (1e-4, 100), "p": FIELD}, leaves_out=BENT)
def shunt_speed(V: Volt, I: Ampere, R: Ohm, U_b: Volt, K_e: VoltSecondPerRadian, p: Share) -> RadianPerSecond:
    """Speed with a share p of the rated field, K_e the constant at the whole of it.

    >>> round(shunt_speed(V=230.0, I=20.0, R=0.4, U_b=0.0, K_e=2.65, p=0.8), 1)
    104.7
    """
    return (V - I * R - U_b) / (K_e * p)


@formula(source=SHUNT, limits={"I": (0, 1000), "p": FIELD}, leaves_out=BENT)
def weak_field_current(I: Ampere, p: Share) -> Ampere:
    """Armature current for the same torque with a share p of the field.

    >>> weak_field_current(I=20.0, p=0.8)
    25.0
    """
    return I / p


@formula(source=SHUNT, limits={"E_1": (0.1, 1000), "E_2": (0, 1000), "p": FIELD, "omega": (0, 7000)}, leaves_out=BENT)
def weak_field_speed(omega: RadianPerSecond, E_1: Volt, E_2: Volt, p: Share) -> RadianPerSecond:
    """Speed after the field has weakened to a share p, from the speed and back-EMF before and the back-EMF after.

    >>> round(weak_field_speed(omega=83.776, E_1=222.0, E_2=220.0, p=0.8), 1)
    103.8
    """
    return omega * E_2 / (E_1 * p)


@formula(source=SHUNT, limits={"K_e": (1e-4, 100), "p": FIELD, "I": (0, 1000)}, leaves_out=BENT)
def shunt_torque(K_e: VoltSecondPerRadian, p: Share, I: Ampere) -> NewtonMetre:
    """Torque of the armature with a share p of the field.

    >>> round(shunt_torque(K_e=2.65, p=0.8, I=25.0), 6)
    53.0
    """
    return K_e * p * I


@formula(
    source=SHUNT,
    limits={"K_e": (1e-4, 100), "p": FIELD, "R_a": (1e-3, 1e4), "R_b": (0, 1e5)},
    leaves_out="a field that is lost with the supply: then there is no brake",
)
def shunt_braking_current(K_e: VoltSecondPerRadian, omega: RadianPerSecond, p: Share, R_a: Ohm, R_b: Ohm) -> Ampere:
    """Current of the armature into a braking resistor while the field stays fed with a share p.

    >>> round(shunt_braking_current(K_e=2.65, omega=83.8, p=1.0, R_a=0.4, R_b=9.6), 2)
    22.21
    """
    return K_e * omega * p / (R_a + R_b)
