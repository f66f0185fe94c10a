"""Stopping: a resistor across the armature, what it takes, how long it lasts, and what a threaded chuck feels.

Energy, coast and inertia at the motor stand in `mechanics`; peak heat is `copper_loss`. It works while the field is
there: with magnets, or with a shunt field that stays fed (`shunt`).
"""

from math import log

from buildsheet.citations import Citation, derivation, practice
from buildsheet.formulas.formula import formula
from buildsheet.units import (
    Ampere,
    Henry,
    Joule,
    KilogramSquareMetre,
    NewtonMetre,
    NewtonMetrePerAmpere,
    Number,
    Ohm,
    RadianPerSecond,
    Second,
    Share,
    Volt,
    VoltSecondPerRadian,
    Watt,
)

BRAKE = Citation("textbooks on DC machines, dynamic braking", "armature on a resistor, supply taken off before")
R_A = (1e-3, 1e4)
R_B = (0.0, 1e5)
NO_HOLD = "standstill: its torque falls with speed, so it does not hold"


@formula(source=BRAKE, limits={"I": (0.01, 1000), "E": (0.1, 1e4), "R_a": R_A})
def brake_resistor(E: Volt, I: Ampere, R_a: Ohm) -> Ohm:
    """Least resistor that limits the braking current at its start; a negative one says that none is needed.

    >>> round(brake_resistor(E=82.5, I=10.0, R_a=1.5), 6)
    6.75
    """
    return E / I - R_a


@formula(source=BRAKE, limits={"I": (0.01, 1000), "E": (0, 1e4), "V": (0.1, 1e4), "R_a": R_A}, leaves_out="the supply that must be off at standstill, else it runs backward")
def plugging_resistor(V: Volt, E: Volt, I: Ampere, R_a: Ohm) -> Ohm:
    """Least resistor that limits the current of a motor that is reversed at speed; negative: none is needed.

    >>> round(plugging_resistor(V=90.0, E=82.5, I=10.0, R_a=1.5), 6)
    15.75
    """
    return (V + E) / I - R_a


@formula(source=BRAKE, limits={"R_a": R_A, "R_b": R_B, "E": (0, 1e4)}, leaves_out="the armature's inductance, which rounds the first moment")
def brake_current(E: Volt, R_a: Ohm, R_b: Ohm) -> Ampere:
    """Current at the start of braking.

    >>> brake_current(E=82.5, R_a=1.5, R_b=8.5)
    8.25
    """
    return E / (R_a + R_b)


@formula(source=derivation("torque of an armature"), limits={"K_t": (1e-5, 100), "I": (0, 1e4)}, leaves_out=NO_HOLD)
def armature_torque(K_t: NewtonMetrePerAmpere, I: Ampere) -> NewtonMetre:
    """Torque that an armature makes, driving or braking; friction not taken off.

    >>> round(armature_torque(K_t=0.4567, I=8.25), 3)
    3.768
    """
    return K_t * I


@formula(source=BRAKE, limits={"J": (1e-7, 1e3), "R_a": R_A, "R_b": R_B, "K_e": (1e-4, 100)}, leaves_out="friction, which shortens it")
def brake_time_constant(J: KilogramSquareMetre, R_a: Ohm, R_b: Ohm, K_e: VoltSecondPerRadian) -> Second:
    """Time in which braking by a resistor brings the speed down to 37 %, J of motor and tool as the motor sees it.

    >>> round(brake_time_constant(J=0.02, R_a=1.5, R_b=8.5, K_e=0.4567), 3)
    0.959
    """
    return J * (R_a + R_b) / K_e**2


@formula(source=BRAKE, limits={"tau": (1e-4, 1e4), "p": (0.005, 1)}, leaves_out="friction, which shortens it")
def time_to_share_of_speed(tau: Second, p: Share) -> Second:
    """Time until the speed is down to a share p.

    >>> round(time_to_share_of_speed(tau=0.959, p=0.1), 2)
    2.21
    """
    return tau * log(1 / p)


@formula(source=derivation("two resistances share the energy"), limits={"R_a": R_A, "R_b": R_B})
def resistor_share(R_a: Ohm, R_b: Ohm) -> Share:
    """Part of the energy that ends in the resistor and not in the armature.

    >>> resistor_share(R_a=1.5, R_b=8.5)
    0.85
    """
    return R_b / (R_a + R_b)


@formula(source=derivation("part of an energy"), limits={"k": (0, 1), "W": (0, 1e7)})
def brake_energy(W: Joule, k: Share) -> Joule:
    """Energy that a share k of the stored one is.

    >>> round(brake_energy(W=326.3, k=0.85), 1)
    277.4
    """
    return W * k


@formula(source=derivation("energy over time"), limits={"t": (0.1, 1e6), "W": (0, 1e7)})
def mean_brake_power(W: Joule, t: Second) -> Watt:
    """Average heat of a resistor that takes an energy at each stop, with a time t from stop to stop.

    >>> mean_brake_power(W=300.0, t=60.0)
    5.0
    """
    return W / t


@formula(source=derivation("energy of a coil"), limits={"L": (0, 100), "I": (0, 1e4)})
def coil_energy(L: Henry, I: Ampere) -> Joule:
    """Energy that the arc of an opening contact must take from a coil.

    >>> coil_energy(L=0.01, I=5.0)
    0.125
    """
    return L * I**2 / 2


@formula(
    source=derivation("what slows the whole slows the chuck with its part of the inertia"),
    limits={"J": (1e-7, 1e3), "J_c": (0, 1e3), "i": (0.01, 1e3), "T": (0, 1e4)},
    leaves_out="a blow by a jam, which is many times as much",
)
def chuck_torque(T: NewtonMetre, J_c: KilogramSquareMetre, J: KilogramSquareMetre, i: Number) -> NewtonMetre:
    """Torque that unscrews a threaded chuck while a torque T brakes at the motor.

    J is all the inertia as the motor sees it, J_c that of chuck and work alone at the spindle, i the turns of the motor
    for one of the spindle.

    >>> round(chuck_torque(T=3.77, J_c=0.04, J=0.02, i=2.0), 6)
    3.77
    """
    return T * J_c / (J * i)


@formula(source=derivation("Newton's second law for rotation"), limits={"omega": (0.1, 1e4), "t": (0.1, 1e5), "T_0": (0, 1e4)}, leaves_out="friction that changes with speed")
def inertia_from_coast(T_0: NewtonMetre, t: Second, omega: RadianPerSecond) -> KilogramSquareMetre:
    """Inertia from the time that a known loss torque takes from a speed to standstill.

    >>> round(inertia_from_coast(T_0=1.0, t=300.0, omega=60.0), 6)
    5.0
    """
    return T_0 * t / omega


@formula(source=practice("brushes and magnets at about twice the plate's current for a second or two"), limits={"k": (0.5, 6), "I_n": (0, 1e3)})
def largest_braking_current(I_n: Ampere, k: Number) -> Ampere:
    """Current that an armature may brake with.

    >>> largest_braking_current(I_n=5.0, k=2.0)
    10.0
    """
    return I_n * k


@formula(source=derivation("braking to a share of the speed, and coasting over the rest"), limits={"t_b": (0, 1e4), "t_c": (0, 1e5), "p": (0.005, 1)}, leaves_out="friction while it brakes, which shortens it")
def braked_standstill(t_b: Second, t_c: Second, p: Share) -> Second:
    """Time to standstill: t_b of braking down to a share p, then that share of the coast t_c.

    >>> braked_standstill(t_b=2.0, t_c=10.0, p=0.05)
    2.5
    """
    return t_b + p * t_c


@formula(source=derivation("energy of an exponential within its time constant, over what the resistor stands for so long"), limits={"W": (0, 1e7), "tau": (1e-4, 1e4), "k": (1, 20)})
def pulse_rating(W: Joule, tau: Second, k: Number) -> Watt:
    """Rating of a resistor that takes an energy W in a current that dies away with a time constant.

    The power dies away with half the time constant of the current.

    >>> pulse_rating(W=100.0, tau=2.0, k=5.0)
    20.0
    """
    return W / (tau / 2) / k
