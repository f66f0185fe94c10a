"""A Value keeps its parent, and nothing is printed, compared or summed that has none."""

import copy
from math import isnan

import pytest

from buildsheet.formulas.motor import back_emf, back_emf_constant, copper_loss
from buildsheet.units import AMPERE, HERTZ, JOULE, NEWTON_METRE, OHM, RADIAN_PER_SECOND, VOLT
from buildsheet.worksheet import Absent, Input, UnknownValueError, Value, Worksheet, unknown
from buildsheet.worksheet.value import roots
from tests.worksheet.bench import value

V, I = value(12.0, VOLT, "supply.V_s", "line voltage"), value(3.0, AMPERE, "motor.I_a")
NOBODY_KNOWS = unknown("motor.R", OHM, "nobody measured it", "resistance of the motor")


@pytest.mark.parametrize("sum_of", [V + V, V - 1, 2 * V, V / I, V**2, -V, +V, abs(V), V // 5, V % 5, round(V, 1)])
def test_arithmetic_loses_the_parent_in_the_open(sum_of: object) -> None:
    """It yields a plain float, which worksheet and templates refuse."""
    assert type(sum_of) is float


def test_the_worksheet_refuses_a_plain_number() -> None:
    with pytest.raises(TypeError, match=r"m\.P: R is 4\.0, which has no parent"):
        Worksheet().work("m.P", copper_loss, I_rms=I, R=V / I)


def test_label_and_symbol_come_from_the_id() -> None:
    assert (V.label, V.symbol) == ("line voltage", "V_s")
    assert (I.label, I.symbol) == ("motor.I_a", "I_a")
    again = V.relabelled("volts of the outlet", "V_1")
    assert (again.label, again.symbol, again.id) == ("volts of the outlet", "V_1", "supply.V_s")
    assert again.parent is V.parent
    assert V.relabelled("volts").symbol == "V_s"


def test_an_unknown_is_known_to_be_so() -> None:
    assert not NOBODY_KNOWS.known
    assert isnan(NOBODY_KNOWS)
    assert NOBODY_KNOWS.why == "nobody measured it"
    assert V.known
    assert V.why == ""


@pytest.mark.parametrize(
    "compared",
    [
        lambda: NOBODY_KNOWS < 1, lambda: NOBODY_KNOWS <= 1, lambda: NOBODY_KNOWS > 1, lambda: NOBODY_KNOWS >= 1,
        lambda: max(NOBODY_KNOWS, value(1.0, OHM)), lambda: min(value(1.0, OHM), NOBODY_KNOWS), lambda: value(1.0, OHM) < NOBODY_KNOWS,
        lambda: sorted([NOBODY_KNOWS, value(1.0, OHM)]),
    ],
)  # fmt: skip
def test_comparing_an_unknown_is_an_error_in_the_code(compared: object) -> None:
    """Unknown is not zero and never a pass, from either side and inside min, max and sorted."""
    assert callable(compared)
    with pytest.raises(UnknownValueError, match=r"motor\.R is not known: nobody measured it"):
        compared()


@pytest.mark.parametrize(
    ("a", "b"),
    [(RADIAN_PER_SECOND, HERTZ), (JOULE, NEWTON_METRE), (VOLT, AMPERE)],
    ids=lambda unit: unit.kind,
)
def test_comparing_kinds_is_an_error_in_the_code(a: object, b: object) -> None:
    """Also those of equal dimension."""
    one, other = value(1.0, a, "p.x"), value(2.0, b, "q.y")  # type: ignore[arg-type]

    with pytest.raises(TypeError, match=r"p\.x is a .*, q\.y a "):
        _ = one < other
    with pytest.raises(TypeError, match=r"q\.y is a .*, p\.x a "):
        max(one, other)


def test_values_of_one_kind_compare_as_their_numbers() -> None:
    low, high = value(1.0, VOLT), value(2.0, VOLT)

    assert low < high
    assert high >= low
    assert low <= 1.0
    assert max(low, high) is high
    assert sorted([high, low]) == [low, high]


@pytest.mark.parametrize("printed", [str, format, "{}".format, "{:.3f}".format, "%s".__mod__], ids=["str", "format", "braces", "figures", "per cent"])
def test_printing_goes_through_the_ink_alone(printed: object) -> None:
    assert callable(printed)
    with pytest.raises(TypeError, match=r"supply\.V_s: a Value prints through the ink alone"):
        printed(V)


def test_a_value_has_no_truth() -> None:
    """Zero volts are not 'nothing there', and an unknown is not 'something there'."""
    for one in (V, NOBODY_KNOWS, value(0.0, VOLT)):
        with pytest.raises(TypeError, match=r"ask `\.known`"):
            bool(one)
    with pytest.raises(TypeError, match=r"ask `\.known`"):
        _ = V or I  # type: ignore[unreachable]


def test_repr_is_for_people_who_debug() -> None:
    assert repr(V) == "<Value supply.V_s 12.0 V>"
    assert repr(NOBODY_KNOWS) == "<Value motor.R unknown Ω>"


def test_equality_and_hash_are_the_number_s() -> None:
    """Parents and labels stay out of them; an unknown is equal to nothing, not to itself either."""
    assert value(12.0, VOLT, "other.id") == V == 12.0
    assert hash(value(12.0, VOLT, "other.id")) == hash(V) == hash(12.0)
    assert {V: 1}[12.0] == 1  # type: ignore[index]
    assert NOBODY_KNOWS != NOBODY_KNOWS


def test_a_copy_of_the_number_is_a_plain_float() -> None:
    assert type(float(V)) is float
    assert float(V) == 12.0
    assert copy.copy(I.parent) == I.parent


def test_parents_are_frozen() -> None:
    with pytest.raises(AttributeError):
        V.parent.line = 4  # type: ignore[union-attr, misc]
    with pytest.raises(AttributeError):
        V.colour = "red"  # type: ignore[attr-defined]


def test_roots_are_what_a_value_rests_on() -> None:
    """Inputs, rows and unknowns, in the order they were used, each once; not the lines between."""
    sheet = Worksheet()
    R, drop = value(1.5, OHM, "motor.R"), sheet.assume("motor.U_b", "brush drop")
    E = sheet.work("motor.E", back_emf, V=V, I=I, R=R, U_b=drop)
    omega = value(180.0, RADIAN_PER_SECOND, "motor.omega")
    K = sheet.work("motor.K", back_emf_constant, E=E, omega=omega)
    heat = sheet.work("motor.P", copper_loss, I_rms=I, R=R)

    assert roots(K) == (V, I, R, drop, omega)
    assert roots(heat) == (I, R)
    assert roots(V) == (V,)


def test_roots_of_an_unknown_are_what_is_missing() -> None:
    sheet = Worksheet()
    heat = sheet.work("motor.P", copper_loss, I_rms=I, R=NOBODY_KNOWS)
    found = roots(heat)

    assert [one.id for one in found] == ["motor.R"]
    assert isinstance(found[0].parent, Absent)
    assert isinstance(I.parent, Input)


def test_a_value_is_made_with_all_that_it_needs() -> None:
    with pytest.raises(TypeError):
        Value(1.0)  # type: ignore[call-arg]
