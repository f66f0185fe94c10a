"""Torque of a load at another speed than the one it is known at: one formula for each law that is not the same at all speeds."""

from buildsheet.citations import Citation, derivation
from buildsheet.formulas.formula import formula
from buildsheet.units import NewtonMetre, RadianPerSecond

SPEEDS = {"omega": (1e-3, 1e4), "omega_ref": (1e-3, 1e4)}
AFFINITY = Citation("similarity (affinity) laws of fans and pumps, textbook fluid machinery", "power with the cube of speed, so torque with its square")


@formula(source=derivation("power is torque times speed, and the power is the same"), limits=SPEEDS, leaves_out="a cut that is made smaller at low speed")
def torque_at_constant_power(T: NewtonMetre, omega: RadianPerSecond, omega_ref: RadianPerSecond) -> NewtonMetre:
    """Torque at a speed of a load that takes the same power at all speeds; T is its torque at omega_ref.

    >>> torque_at_constant_power(T=2.0, omega=50.0, omega_ref=200.0)
    8.0
    """
    return T * omega_ref / omega


@formula(
    source=derivation("Newtonian shear: force goes with speed"), limits=SPEEDS,
    leaves_out="stuff that stiffens or thins when it is stirred, and friction of bearings, which stays at low speed",
)  # fmt: skip
def torque_at_speed_viscous(T: NewtonMetre, omega: RadianPerSecond, omega_ref: RadianPerSecond) -> NewtonMetre:
    """Torque at a speed of a load that shears a liquid; T is its torque at omega_ref.

    >>> torque_at_speed_viscous(T=2.0, omega=50.0, omega_ref=200.0)
    0.5
    """
    return T * omega / omega_ref


@formula(source=AFFINITY, limits=SPEEDS, leaves_out="friction of bearings and belts, which stays at low speed")
def torque_at_speed_quadratic(T: NewtonMetre, omega: RadianPerSecond, omega_ref: RadianPerSecond) -> NewtonMetre:
    """Torque at a speed of a load that throws air or water; T is its torque at omega_ref.

    >>> torque_at_speed_quadratic(T=2.0, omega=50.0, omega_ref=200.0)
    0.125
    """
    return T * (omega / omega_ref) ** 2
