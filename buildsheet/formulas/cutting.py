"""Power that a cut takes, from the metal removed in a time."""

from buildsheet.citations import Citation
from buildsheet.formulas.formula import formula
from buildsheet.units import CubicMetrePerSecond, Metre, MetrePerSecond, Pascal, Watt

HANDBOOK = Citation("machinist's handbook, power for machining", "p. 1147", "31st ed.")


@formula(
    source=Citation("open course sheet and solved textbook problem on turning", "Q = v·f·d"),
    limits={"v": (0, 50)},
)
def removal_rate(v: MetrePerSecond, f: Metre, d: Metre) -> CubicMetrePerSecond:
    """Volume that a turning cut removes in a time, from cutting speed, feed for each turn and depth.

    >>> round(removal_rate(v=0.508, f=0.000127, d=0.00127) * 60 / 0.0254**3, 2)
    0.3
    """
    return v * f * d


@formula(source=HANDBOOK, leaves_out="a dull tool, 1.1 to 1.6 times as much")
def cutting_power(K_p: Pascal, Q: CubicMetrePerSecond) -> Watt:
    """Power at the cut; the power constant is an energy for each volume.

    >>> round(cutting_power(K_p=2.02e9, Q=8.193e-8))
    165
    """
    return K_p * Q
