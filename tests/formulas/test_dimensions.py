"""Dimensions of every formula, by scaling: with other base units the same law must hold, whatever is inside it.

Each base dimension gets an odd factor; an argument of dimension L²·T⁻¹ is scaled by the square of the one over the
other, constants of the module as well. A formula is dimensionally right when it gives the scaled result, in every
branch; a hidden number with a unit (a bare 38.65 K, an 0.0254) breaks it.
"""

import ast
from collections.abc import Mapping
from functools import cache

import pytest

from buildsheet.citations import derivation
from buildsheet.formulas.formula import REGISTRY, Constant, Formula, formula
from buildsheet.quantities import registry
from buildsheet.units import (
    ALIKE,
    KILOGRAM,
    NEWTON,
    OHM,
    RADIAN_PER_SECOND,
    VOLT,
    Ampere,
    Kelvin,
    Metre,
    Ohm,
    SquareMetre,
    Unit,
    Volt,
    Watt,
)
from buildsheet.worksheet.equation import _body, worked
from tests.formulas.walk import FORMULAS, points

FACTORS = {"[length]": 1.37, "[time]": 0.71, "[mass]": 2.3, "[current]": 1.19, "[temperature]": 0.83}
POINTS = 6


@cache
def factor(unit: Unit) -> float:
    """By what a quantity of this kind is multiplied when the base units change."""
    dimensions = registry().parse_units(unit.si).dimensionality
    result = 1.0
    for base, exponent in dimensions.items():
        result *= FACTORS[base] ** float(str(exponent))
    return result


def test_the_factors_follow_the_exponents() -> None:
    """Volt is kg·m²·s⁻³·A⁻¹, ohm one ampere less again, newton kg·m·s⁻²; an angle has no dimension."""
    length, time, mass, current = (FACTORS[f"[{name}]"] for name in ("length", "time", "mass", "current"))

    assert factor(VOLT) == pytest.approx(mass * length**2 / time**3 / current)
    assert factor(OHM) == pytest.approx(factor(VOLT) / current)
    assert factor(NEWTON) == pytest.approx(mass * length / time**2)
    assert factor(RADIAN_PER_SECOND) == pytest.approx(1 / time)


def scaled(one: Formula[...], arguments: Mapping[str, float], alike: Unit) -> tuple[float, float]:
    """(the result with everything scaled, the result scaled), the two that must agree."""
    module = one.function.__globals__
    constants = {name: value for name, value in module.items() if isinstance(value, Constant)}

    def by(unit: Unit) -> float:
        return factor(alike if unit is ALIKE else unit)

    plain = one.function(**arguments)
    try:
        module.update({name: float(value) * factor(value.unit) for name, value in constants.items()})
        got = one.function(**{name: value * by(one.arguments[name]) for name, value in arguments.items()})
    finally:
        module.update(constants)
    return got, plain * by(one.gives)


@pytest.mark.parametrize("alike", [VOLT, KILOGRAM], ids=lambda unit: unit.kind)
@pytest.mark.parametrize("one", FORMULAS.values(), ids=FORMULAS)
def test_formula_holds_in_other_base_units(one: Formula[...], alike: Unit) -> None:
    """At several points within the limits; with the kinds that are only 'alike' as volts and as kilograms."""
    for arguments in points(one, POINTS):
        got, wanted = scaled(one, arguments, alike)

        assert got == pytest.approx(wanted, rel=1e-9), arguments


@pytest.mark.parametrize("one", FORMULAS.values(), ids=FORMULAS)
def test_the_points_take_every_branch(one: Formula[...]) -> None:
    """A branch that no point takes would not be tested."""
    branches = sum(isinstance(node, ast.If) for statement in _body(one) for node in ast.walk(statement))
    taken = {
        (step.letters, bool(step.value))
        for arguments in points(one, POINTS)
        for step in worked(one, arguments, "x")
        if step.unit is None
    }

    assert len(taken) == 2 * branches


SOMEWHERE = derivation("a test")
T_ZERO = 38.65  # a plain number where a Constant belongs


def _made() -> dict[str, Formula[...]]:
    @formula(source=SOMEWHERE)
    def bare_temperature(R: Ohm, T: Kelvin) -> Ohm:
        """Wrong: a number of kelvins without a unit."""
        return R * (T - T_ZERO)

    @formula(source=SOMEWHERE)
    def sum_of_unlike(V: Volt, I: Ampere) -> Volt:
        """Wrong: volts and amperes."""
        return V + I

    @formula(source=SOMEWHERE)
    def inches_inside(l: Metre) -> SquareMetre:
        """Wrong: a length with a hidden unit."""
        return l * 0.0254

    @formula(source=SOMEWHERE)
    def wrong_in_one_branch(V: Volt, R: Ohm, I: Ampere) -> Watt:
        """Wrong only where it is taken."""
        if V > I * R:
            return V * I
        return V**2

    made = {name: REGISTRY.pop(name) for name in list(REGISTRY) if name not in FORMULAS}
    assert len(made) == 4
    return made


WRONG: dict[str, tuple[dict[str, float], ...]] = {
    "bare_temperature": ({"R": 1.5, "T": 300.0},),
    "sum_of_unlike": ({"V": 12.0, "I": 2.0},),
    "inches_inside": ({"l": 3.0},),
    "wrong_in_one_branch": ({"V": 12.0, "R": 10.0, "I": 2.0},),
}


@pytest.mark.parametrize("name", WRONG)
def test_a_wrong_formula_is_caught(name: str) -> None:
    """The test can fail: hidden units, unlike terms, and a fault in the second branch only."""
    one = _made()[name]
    for arguments in WRONG[name]:
        got, wanted = scaled(one, arguments, VOLT)

        assert got != pytest.approx(wanted, rel=1e-3)


def test_the_right_branch_of_a_wrong_formula_passes() -> None:
    """So that the branch test above is about the branch."""
    got, wanted = scaled(_made()["wrong_in_one_branch"], {"V": 12.0, "R": 1.0, "I": 2.0}, VOLT)

    assert got == pytest.approx(wanted)
