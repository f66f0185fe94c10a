"""Comparisons that end in a number: the larger of two needs, and how much a rating has to spare."""

from buildsheet.citations import derivation
from buildsheet.formulas.formula import formula
from buildsheet.units import Alike, Share


@formula(source=derivation("the harder of two demands counts"))
def larger_of(a: Alike, b: Alike) -> Alike:
    """The larger of two quantities of one kind.

    >>> larger_of(a=3.0, b=4.0)
    4.0
    """
    return max(a, b)


@formula(source=derivation("the stricter of two limits counts"))
def smaller_of(a: Alike, b: Alike) -> Alike:
    """The smaller of two quantities of one kind.

    >>> smaller_of(a=3.0, b=4.0)
    3.0
    """
    return min(a, b)


@formula(source=derivation("excess over the need, as a share of the need"))
def margin(had: Alike, needed: Alike) -> Share:
    """What a rating has to spare over the need, as a share of the need.

    >>> margin(had=10.0, needed=8.0)
    0.25
    """
    return had / needed - 1


@formula(source=derivation("room under a limit, as a share of the limit"))
def room(used: Alike, limit: Alike) -> Share:
    """What is left under a limit, as a share of the limit.

    >>> room(used=3.0, limit=4.0)
    0.25
    """
    return 1 - used / limit
