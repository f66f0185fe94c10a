"""The printed equation gives the printed result: the numbers as printed, typed into a calculator of our own."""

import re
from html import unescape
from math import cos, exp, floor, isfinite, log10, sqrt

import pytest

from buildsheet.citations import derivation
from buildsheet.formulas.formula import REGISTRY, Formula, formula
from buildsheet.packet.ink import GREEK, plain_tokens, step_result
from buildsheet.units import Number
from buildsheet.worksheet.equation import FIGURES_PUT_IN, Step, number_tokens, put_in, worked
from tests.formulas.calculator import calculate
from tests.formulas.walk import FORMULAS, example, points

# A difference of two nearly equal numbers loses figures: with five figures put in, three figures of the result can't be
# had at every point. For these the tolerance is what half a unit of the fifth figure of each number comes to. A heat sink
# that must be nearly ideal is such a difference of three, an arc cosine near one hides another; every other formula keeps three figures at all points.
CANCELS = {"heat_sink_resistance", "full_converter_angle", "series_speed_at_current"}
NUMBER_AS_PRINTED = re.compile(r"(?<![\d.^])\d+(?:\.\d+)?")


def _printed(step: Step) -> tuple[float, float]:
    """The printed result, read from its markup, and one unit of its third figure."""
    text = unescape(str(step_result(step))).replace("<sup>", "^(").replace("</sup>", ")")
    text = re.sub("[\u2009\u202f\u00a0]", "", text)
    value = calculate(text)
    return value, 10.0 ** (floor(log10(abs(value))) - 2) if value else 1e-12


def _put_in_error(text: str) -> float:
    """How far the result can be off because each number was put in with five figures."""
    exact = calculate(text)
    error = 0.0
    for match in NUMBER_AS_PRINTED.finditer(text):
        number = float(match[0])
        half = 0.5 * 10.0 ** (floor(log10(number)) - FIGURES_PUT_IN + 1) if number else 0.0
        worse = 0.0
        for moved in (number - half, number + half):
            try:
                worse = max(
                    worse,
                    abs(calculate(text[: match.start()] + f"{moved:.12f}" + text[match.end() :]) - exact),
                )
            except ValueError:  # a root of a number that is zero but for the rounding
                worse = max(worse, abs(exact))
        error += worse
    return error


@pytest.mark.parametrize("one", FORMULAS.values(), ids=FORMULAS)
def test_the_numbers_put_in_give_the_printed_result(one: Formula[...]) -> None:
    """Each line of the formula at the example and at points around it: three figures, one unit of the last allowed."""
    for arguments in points(one, 12):
        for step in worked(one, arguments, "x"):
            if step.unit is None:
                continue
            text = plain_tokens(step.numbers)
            typed = calculate(text)
            printed, unit = _printed(step)
            allowed = unit * 1.0001
            if one.name in CANCELS:
                allowed = max(allowed, unit / 2 + _put_in_error(text))

            assert abs(typed - printed) <= allowed, f"{text} = {typed}, printed {printed}"


@pytest.mark.parametrize("one", FORMULAS.values(), ids=FORMULAS)
def test_the_example_gives_three_figures_without_allowance(one: Formula[...]) -> None:
    """At the example of its docstring no formula cancels so far that the calculator disagrees."""
    for step in worked(one, example(one), "x"):
        printed, unit = _printed(step)

        assert abs(calculate(plain_tokens(step.numbers)) - printed) <= unit * 1.0001


@pytest.mark.parametrize("one", FORMULAS.values(), ids=FORMULAS)
def test_the_last_line_is_the_formula_itself(one: Formula[...]) -> None:
    """The value of the last step is the value that the formula returns, to the last bit; its symbol is the asked one."""
    for arguments in points(one, 5):
        last = worked(one, arguments, "place_symbol")[-1]

        assert last.value == one(**arguments)
        assert (last.symbol, last.unit) == ("place_symbol", one.gives)


@pytest.mark.parametrize("one", FORMULAS.values(), ids=FORMULAS)
def test_letters_name_every_argument_and_numbers_name_none(one: Formula[...]) -> None:
    """Between the equals signs stand first letters only, then numbers only: an exponent is no exception."""
    steps = worked(one, example(one), "x")
    letters = " ".join(plain_tokens(step.letters) for step in steps)
    numbers = " ".join(plain_tokens(step.numbers) for step in steps)

    for name in one.arguments:
        base = GREEK.get(name.partition("_")[0], name.partition("_")[0])
        assert re.search(rf"\b{re.escape(base)}", letters), f"{name} in {letters}"
    words = re.sub(r"√|π|\bln\b|\bexp\b|\ba?(?:sin|cos|tan)\b|smaller of|larger of|round up", "", numbers)
    assert not re.search(r"[^\W\d_]", words), numbers


SOMEWHERE = derivation("a test")


def _made() -> dict[str, Formula[...]]:
    @formula(source=SOMEWHERE)
    def minus_bracket(a: Number, b: Number, c: Number) -> Number:
        """-"""
        return a - (b - c) - (b + c)

    @formula(source=SOMEWHERE)
    def over_bracket(a: Number, b: Number, c: Number) -> Number:
        """-"""
        return a / (b * c) / (b / c) * (a / b)

    @formula(source=SOMEWHERE)
    def signed_power(a: Number, b: Number, c: Number) -> Number:
        """-"""
        return -(a**2) + (-b) ** 2 * -c

    @formula(source=SOMEWHERE)
    def power_of_power(a: Number, b: Number, c: Number) -> Number:
        """-"""
        return (a**b) ** c + a ** ((b + c) / 3)  # type: ignore[no-any-return]

    @formula(source=SOMEWHERE)
    def functions(a: Number, b: Number, c: Number) -> Number:
        """-"""
        return max(a * b, c) / min(a - b, 4) - sqrt(a**2 + b**2) * exp(-c / 10) + cos(a / b)

    @formula(source=SOMEWHERE)
    def branched(a: Number, b: Number, c: Number) -> Number:
        """-"""
        d: Number = a * b
        if d > c:
            e: Number = d - c
            return e / 2
        return (c - d) * 3

    return {name: REGISTRY.pop(name) for name in list(REGISTRY) if name not in FORMULAS}


NUMBERS = [
    (1.5, 2.25, 0.75),
    (-1.5, 2.25, 3.0),
    (12345.678, 3.0e-7, 2.0),
    (4.0e8, 2.0, 1.0),
    (2.0, -3.0, 2.0),
]


@pytest.mark.parametrize("abc", NUMBERS, ids=str)
@pytest.mark.parametrize(
    "name", ["minus_bracket", "over_bracket", "signed_power", "power_of_power", "functions", "branched"]
)
def test_brackets_signs_and_powers_of_ten_print_so_that_they_can_be_typed(
    name: str, abc: tuple[float, float, float]
) -> None:
    """Shapes that no formula has yet: brackets behind minus and over, signs under a power, powers of ten."""
    one = _made()[name]
    arguments = dict(zip("abc", abc, strict=True))
    if name == "power_of_power" and (abc[0] < 0 or abs(abc[0]) > 100):
        arguments["a"] = 1.25
    for step in worked(one, arguments, "x"):
        if step.unit is not None:
            text = plain_tokens(step.numbers)

            assert calculate(text) == pytest.approx(step.value, abs=1.01 * _put_in_error(text) + 1e-12), text


def test_of_a_branch_only_the_taken_lines_print() -> None:
    """Condition with numbers put in and its truth, then the lines that ran."""
    one = _made()["branched"]

    first = worked(one, {"a": 2.0, "b": 3.0, "c": 4.0}, "x")
    second = worked(one, {"a": 1.0, "b": 3.0, "c": 4.0}, "x")

    assert [(step.symbol, plain_tokens(step.numbers), step.value) for step in first] == [
        ("d", "2 · 3", 6.0), ("", "6 > 4", 1.0), ("e", "6 − 4", 2.0), ("x", "2 / 2", 1.0),
    ]  # fmt: skip
    assert [(step.symbol, plain_tokens(step.numbers), step.value) for step in second] == [
        ("d", "1 · 3", 3.0), ("", "3 > 4", 0.0), ("x", "(4 − 3) · 3", 3.0),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (0.0, "0"), (1.0, "1"), (-2.5, "−2.5"), (1725.0, "1725"), (180.64158, "180.64"), (99999.6, "100000"), (0.01, "0.01"),
        (0.00012345678, "0.00012346"), (0.000012345678, "1.2346 × 10^−5"), (1.7241e-8, "1.7241 × 10^−8"), (2.5e7, "2.5 × 10^7"),
        (9.99999e-6, "10 × 10^−6"),
    ],
)  # fmt: skip
def test_numbers_are_put_in_with_five_figures(value: float, text: str) -> None:
    """Plain digits from 0.0001 to 9 999 999, a power of ten beyond; no trailing zeros, a real minus. Hand-written."""
    assert plain_tokens(tuple(number_tokens(value))) == text


def test_exact_numbers_of_the_law_keep_their_digits() -> None:
    """A factor in the source is no measurement: all its digits print, and no more."""
    assert (put_in(5.256, exact=True), put_in(2.0, exact=True), put_in(1.8, exact=True)) == (
        "5.256",
        "2",
        "1.8",
    )


def test_the_calculator_is_a_calculator() -> None:
    """The test's own tool, by hand: order of signs, powers from the right, letters refused."""
    assert calculate("2 + 3 · 4 ^ 2 / 8 − 1") == 7.0
    assert calculate("−2^2") == -4.0
    assert calculate("2^(3 − 1) · 2^−1") == 2.0
    assert calculate("√(16) + larger of(1 ; 2)") == 6.0
    assert isfinite(calculate("1.5 × 10^−3"))
    with pytest.raises(ValueError, match="can't be typed"):
        calculate("92^((36 − n) / 39)")
    with pytest.raises(ValueError, match="not closed"):
        calculate("(1 + 2")
