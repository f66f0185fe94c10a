"""Turning bodies that somebody makes at home: their inertia, the stress that speed puts into them, and a spin test.

The stress of any round shape is a number times density times rim speed squared: 1 for a thin ring, less for a solid
disc, and close to 1 again for a disc with a hole, at the hole.
"""

from math import pi, sqrt

from buildsheet.citations import Citation, derivation, memory
from buildsheet.formulas.formula import formula
from buildsheet.units import (
    Kilogram,
    KilogramPerCubicMetre,
    KilogramSquareMetre,
    Metre,
    MetrePerSecond,
    Number,
    Pascal,
    RadianPerSecond,
    Share,
)

SHAPES = derivation("moments of inertia of round bodies about their axis")
STRESS = Citation("textbook mechanics of materials 2, 3rd ed.", "chapter 4, rings and discs subjected to rotation")
POISSON = (0.0, 0.5)
DENSITY = (100.0, 20000.0)
SOUND = "cracks, knots, joints, glue, bolts and spokes: it holds for one sound piece of one stuff"


@formula(source=SHAPES, limits={"d": (1e-3, 10), "l": (1e-4, 10), "rho": DENSITY})
def cylinder_mass(d: Metre, l: Metre, rho: KilogramPerCubicMetre) -> Kilogram:
    """Mass of a solid cylinder or disc.

    >>> round(cylinder_mass(d=0.2, l=0.02, rho=7850.0), 2)
    4.93
    """
    return pi * d**2 / 4 * l * rho


@formula(source=SHAPES, limits={"m": (0, 1e4), "d": (0, 10)})
def disc_inertia(m: Kilogram, d: Metre) -> KilogramSquareMetre:
    """Inertia of a solid disc or cylinder.

    >>> round(disc_inertia(m=2.0, d=0.12), 6)
    0.0036
    """
    return m * (d / 2) ** 2 / 2


@formula(source=SHAPES, limits={"m": (0, 1e4), "d": (0, 10), "d_i": (0, 10)})
def ring_inertia(m: Kilogram, d: Metre, d_i: Metre) -> KilogramSquareMetre:
    """Inertia of a ring or tube with an outer and an inner diameter.

    >>> round(ring_inertia(m=2.0, d=0.2, d_i=0.1), 6)
    0.0125
    """
    return m * ((d / 2) ** 2 + (d_i / 2) ** 2) / 2


@formula(source=derivation("definition of a share"), limits={"d_i": (0, 10), "d": (1e-3, 10)})
def bore_share(d_i: Metre, d: Metre) -> Share:
    """Diameter of the hole over that of the rim.

    >>> bore_share(d_i=0.05, d=0.2)
    0.25
    """
    return d_i / d


@formula(source=STRESS, limits={"nu": POISSON}, leaves_out=SOUND)
def solid_disc_factor(nu: Number) -> Number:
    """Stress at the middle of a solid disc over that of a thin ring at the same rim speed, nu the ratio of Poisson.

    >>> round(solid_disc_factor(nu=0.3), 4)
    0.4125
    """
    return (3 + nu) / 8


@formula(source=STRESS, limits={"nu": POISSON, "q": (0, 0.99)}, leaves_out=f"a drum longer than it is wide, up to a tenth more; {SOUND}")
def bored_disc_factor(nu: Number, q: Share) -> Number:
    """Stress at the hole of a disc over that of a thin ring at the same rim speed, q the hole over the rim.

    >>> round(bored_disc_factor(nu=0.3, q=0.1), 5)
    0.82675
    """
    return (3 + nu + (1 - nu) * q**2) / 4


@formula(source=STRESS, limits={"c": (0.3, 1), "rho": DENSITY, "v": (0, 500)}, leaves_out=SOUND)
def spinning_stress(c: Number, rho: KilogramPerCubicMetre, v: MetrePerSecond) -> Pascal:
    """Greatest stress in a spinning body from its rim speed; c is 1 for a thin ring.

    >>> round(spinning_stress(c=1.0, rho=7850.0, v=100.0) / 1e6, 1)
    78.5
    """
    return c * rho * v**2


@formula(source=STRESS, limits={"sigma": (1e4, 2e9), "k": (1.5, 50), "c": (0.3, 1), "rho": DENSITY}, leaves_out=SOUND)
def allowed_rim_speed(sigma: Pascal, k: Number, c: Number, rho: KilogramPerCubicMetre) -> MetrePerSecond:
    """Rim speed at which the stress is the strength over a factor of safety k.

    >>> round(allowed_rim_speed(sigma=30e6, k=10.0, c=1.0, rho=700.0), 1)
    65.5
    """
    return sqrt(sigma / (k * c * rho))


@formula(
    source=memory("IEC 60034-1", "9.7, overspeed test: 1.2 times the highest speed for 2 min"),
    limits={"k": (1.1, 1.6), "omega": (0, 7000)},
    leaves_out="the bystanders: behind a barrier that holds a burst, started from afar",
)
def spin_test_speed(omega: RadianPerSecond, k: Number) -> RadianPerSecond:
    """Speed at which a body is tried once, above the highest that its machine can give.

    >>> round(spin_test_speed(omega=200.0, k=1.2), 6)
    240.0
    """
    return omega * k


@formula(source=derivation("stress goes with the square of speed"), limits={"omega": (0.1, 7000), "omega_t": (0, 1e4)})
def proof_of_spin_test(omega_t: RadianPerSecond, omega: RadianPerSecond) -> Number:
    """Stress in a spin test over that at the highest speed.

    >>> round(proof_of_spin_test(omega_t=240.0, omega=200.0), 6)
    1.44
    """
    return (omega_t / omega) ** 2
