"""Each limit of each formula from both sides: inside it is worked, outside it is refused and says which and how much."""

import re

import pytest

from buildsheet.formulas.formula import OutsideLimits
from buildsheet.quantities import spell
from tests.formulas.walk import FORMULAS, example

LIMITS = [(name, argument) for name, one in FORMULAS.items() for argument in one.limits]


@pytest.mark.parametrize(("name", "argument"), LIMITS)
def test_below_the_lowest_is_refused(name: str, argument: str) -> None:
    """One millionth below."""
    one = FORMULAS[name]
    low, _ = one.limits[argument]
    outside = low - max(abs(low) * 1e-6, 1e-9)
    words = (
        f"{one.title}: {argument} is .*, must be at least {re.escape(spell(low, one.arguments[argument]))}$"
    )

    with pytest.raises(OutsideLimits, match=words):
        one(**{**example(one), argument: outside})


@pytest.mark.parametrize(("name", "argument"), LIMITS)
def test_above_the_highest_is_refused(name: str, argument: str) -> None:
    """One millionth above."""
    one = FORMULAS[name]
    _, high = one.limits[argument]
    words = (
        f"{one.title}: {argument} is .*, must be at most {re.escape(spell(high, one.arguments[argument]))}$"
    )

    with pytest.raises(OutsideLimits, match=words):
        one(**{**example(one), argument: high + max(abs(high) * 1e-6, 1e-9)})


@pytest.mark.parametrize(("name", "argument"), LIMITS)
def test_the_limits_themselves_are_inside(name: str, argument: str) -> None:
    """At the limit the formula answers, or says that these numbers together have no result; it does not blame the limit."""
    one = FORMULAS[name]
    refusals = []
    for limit in one.limits[argument]:
        try:
            one(**{**example(one), argument: limit})
        except OutsideLimits as refusal:
            refusals.append(str(refusal))

    assert len(refusals) < 2
    assert not any("must be" in words for words in refusals)
