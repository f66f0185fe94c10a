"""Speeds, belts, torque and what a turning mass stores."""

from math import asin, pi, sqrt

from buildsheet.citations import Citation, derivation
from buildsheet.formulas.formula import formula
from buildsheet.units import (
    Joule,
    KilogramSquareMetre,
    Metre,
    MetrePerSecond,
    Newton,
    NewtonMetre,
    Number,
    Radian,
    RadianPerSecond,
    Second,
    Share,
    Watt,
)

BELTS = Citation("belt drive geometry, open drive", "a public belt calculator; derived again")


@formula(source=derivation("rim of a circle, v = ω·d/2"))
def surface_speed(omega: RadianPerSecond, d: Metre) -> MetrePerSecond:
    """Speed of the rim of a disc, drum or pulley.

    >>> round(surface_speed(omega=180.6416, d=0.254), 1)
    22.9
    """
    return omega * d / 2


@formula(source=derivation("rim of a circle, v = ω·d/2"), limits={"d": (1e-4, 10)})
def speed_for_surface_speed(v: MetrePerSecond, d: Metre) -> RadianPerSecond:
    """Rotational speed that gives a rim speed.

    >>> round(speed_for_surface_speed(v=0.508, d=0.0254), 1)
    40.0
    """
    return 2 * v / d


@formula(
    source=BELTS,
    limits={"d_1": (1e-3, 5), "d_2": (1e-3, 5)},
    leaves_out="slip of 1 to 3 % of a friction belt",
)
def belt_ratio(d_1: Metre, d_2: Metre) -> Number:
    """Turns of the driving pulley for one of the driven one, from their pitch diameters.

    >>> round(belt_ratio(d_1=0.0381, d_2=0.1524), 6)
    4.0
    """
    return d_2 / d_1


@formula(source=derivation("steps in a row multiply"))
def ratio_of_steps(i_1: Number, i_2: Number) -> Number:
    """Ratio of two belt steps in a row.

    >>> ratio_of_steps(i_1=4.0, i_2=3.0)
    12.0
    """
    return i_1 * i_2


@formula(source=derivation("definition of the ratio"), limits={"i": (1e-3, 1e4)})
def driving_speed(omega_2: RadianPerSecond, i: Number) -> RadianPerSecond:
    """Speed of the motor for a speed of the tool.

    >>> driving_speed(omega_2=10.0, i=4.0)
    40.0
    """
    return omega_2 * i


@formula(source=derivation("definition of the ratio"), limits={"i": (1e-3, 1e4)})
def driven_speed(omega_1: RadianPerSecond, i: Number) -> RadianPerSecond:
    """Speed of the tool for a speed of the motor.

    >>> driven_speed(omega_1=40.0, i=4.0)
    10.0
    """
    return omega_1 / i


@formula(source=BELTS, limits={"C": (1e-3, 20)}, leaves_out="stretch")
def belt_length(C: Metre, d: Metre, D: Metre) -> Metre:
    """Pitch length of an open belt over a small and a large pulley.

    >>> round(belt_length(C=0.300, d=0.050, D=0.100), 4)
    0.8377
    """
    return 2 * C + pi * (D + d) / 2 + (D - d) ** 2 / (4 * C)


@formula(source=BELTS, limits={"C": (1e-3, 20)})
def wrap_angle(C: Metre, d: Metre, D: Metre) -> Radian:
    """Angle over which the belt lies on the small pulley.

    >>> round(wrap_angle(C=0.300, d=0.050, D=0.100) * 180 / 3.14159265, 1)
    170.4
    """
    return pi - 2 * asin((D - d) / (2 * C))


@formula(source=derivation("definition of efficiency"), limits={"eta": (0.05, 1)})
def power_before(P: Watt, eta: Share) -> Watt:
    """Power that goes into a step which passes on a share of it.

    >>> round(power_before(P=180.0, eta=0.9), 6)
    200.0
    """
    return P / eta


@formula(source=derivation("power is pull times speed"), limits={"v": (1e-3, 200)})
def belt_pull(P: Watt, v: MetrePerSecond) -> Newton:
    """Difference of the pulls of the tight and the slack side.

    >>> belt_pull(P=300.0, v=15.0)
    20.0
    """
    return P / v


@formula(source=derivation("power is torque times speed"), limits={"omega": (1e-3, 1e4)})
def torque_of_power(P: Watt, omega: RadianPerSecond) -> NewtonMetre:
    """Torque that carries a power at a speed.

    >>> round(torque_of_power(P=745.7, omega=104.72), 2)
    7.12
    """
    return P / omega


@formula(source=derivation("power is torque times speed"))
def shaft_power(T: NewtonMetre, omega: RadianPerSecond) -> Watt:
    """Power of a torque at a speed.

    >>> shaft_power(T=2.0, omega=100.0)
    200.0
    """
    return T * omega


@formula(source=derivation("power through a drive with losses"), limits={"i": (1e-3, 1e4), "eta": (0.05, 1)})
def motor_torque(T: NewtonMetre, i: Number, eta: Share) -> NewtonMetre:
    """Torque at the motor for a torque at the tool, through belts of a ratio and an efficiency.

    >>> round(motor_torque(T=12.0, i=12.0, eta=0.9), 4)
    1.1111
    """
    return T / (i * eta)


@formula(
    source=derivation("speed of a roller under a belt, turned back through the belt step that drove it"),
    limits={"d": (1e-3, 10), "d_1": (1e-3, 10), "d_2": (1e-3, 10)},
)
def speed_behind_belt(v: MetrePerSecond, d: Metre, d_1: Metre, d_2: Metre) -> RadianPerSecond:
    """Motor speed in a machine whose roller, of diameter d, moved a surface at v: d_1 on the motor, d_2 on the roller.

    >>> round(speed_behind_belt(v=4.0, d=0.05, d_1=0.04, d_2=0.10), 6)
    400.0
    """
    omega_2: RadianPerSecond = 2 * v / d
    return omega_2 * d_2 / d_1


@formula(source=derivation("energy of a turning mass"))
def turning_energy(J: KilogramSquareMetre, omega: RadianPerSecond) -> Joule:
    """Energy in a turning mass.

    >>> round(turning_energy(J=0.02, omega=180.6416), 1)
    326.3
    """
    return J * omega**2 / 2


@formula(
    source=derivation("Newton's second law for rotation"),
    limits={"T_0": (1e-6, 1e5)},
    leaves_out="friction that changes with speed, and the friction of the belt and tool",
)
def coast_time(J: KilogramSquareMetre, omega: RadianPerSecond, T_0: NewtonMetre) -> Second:
    """Time from a speed to standstill when only a constant loss torque brakes.

    >>> round(coast_time(J=0.02, omega=180.0, T_0=0.24), 6)
    15.0
    """
    return J * omega / T_0


@formula(source=derivation("inertia seen through a ratio"), limits={"i": (1e-3, 1e4)})
def inertia_at_motor(J_m: KilogramSquareMetre, J_t: KilogramSquareMetre, i: Number) -> KilogramSquareMetre:
    """Inertia of motor and tool as the motor sees it.

    >>> inertia_at_motor(J_m=0.01, J_t=0.16, i=4.0)
    0.02
    """
    return J_m + J_t / i**2


@formula(source=derivation("belt of given length, solved for the centres"), limits={"L": (1e-2, 50)})
def centre_distance(L: Metre, d: Metre, D: Metre) -> Metre:
    """Distance of the shafts for a belt of a length.

    >>> round(centre_distance(L=0.8377, d=0.050, D=0.100), 3)
    0.3
    """
    b: Metre = L - pi * (D + d) / 2
    return (b + sqrt(b**2 - 2 * (D - d) ** 2)) / 4


@formula(source=derivation("efficiencies in a row multiply"))
def share_of_steps(eta_1: Share, eta_2: Share) -> Share:
    """Share of the power that two belt steps in a row pass on.

    >>> round(share_of_steps(eta_1=0.9, eta_2=0.9), 6)
    0.81
    """
    return eta_1 * eta_2
