"""What a person writes, in SI, and back. Factors: NIST Special Publication 811 (2008), appendix B, where marked *; the
others follow from definitions of the SI Brochure and of the international yard and pound agreement of 1959. Both are
from memory, not read again; 745.7 W for the horsepower and 0.3048 m for the foot also stand in public tables."""

import json
from collections.abc import Callable
from math import inf, nan, pi
from time import perf_counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from buildsheet import units as u
from buildsheet.quantities import QuantityError, figures, kinds_of, number, read, shown, spell, split
from buildsheet.units import Unit

WRITTEN: list[tuple[str, Unit, float]] = [
    # as people write numbers
    ("120 V", u.VOLT, 120.0),
    ("120V", u.VOLT, 120.0),
    ("  120   V ", u.VOLT, 120.0),
    ("+5 V", u.VOLT, 5.0),
    ("-5 degC", u.KELVIN, 268.15),
    (".5 A", u.AMPERE, 0.5),
    ("5. A", u.AMPERE, 5.0),
    ("1e3 ohm", u.OHM, 1000.0),
    ("1E-3 H", u.HENRY, 0.001),
    ("1 1/2 in", u.METRE, 1.5 * 0.0254),
    ("-1 1/2 in", u.METRE, -1.5 * 0.0254),
    ("1/2 in", u.METRE, 0.0127),
    ("3/4 hp", u.WATT, 0.75 * 745.69987158227022),
    ("0.9", u.NUMBER, 0.9),
    ("010 V", u.VOLT, 10.0),
    # prefixes and signs
    ("5 kohm", u.OHM, 5000.0),
    ("5 kΩ", u.OHM, 5000.0),
    ("5 k\u2126", u.OHM, 5000.0),
    ("2.2 Mohm", u.OHM, 2.2e6),
    ("15 mΩ", u.OHM, 0.015),
    ("470 µF", u.FARAD, 470e-6),
    ("470 μF", u.FARAD, 470e-6),
    ("470 uF", u.FARAD, 470e-6),
    ("100 nF", u.FARAD, 1e-7),
    ("10 mH", u.HENRY, 0.01),
    ("10 kA", u.AMPERE, 10_000.0),
    ("250 VA", u.VOLT_AMPERE, 250.0),
    ("1.5 mm²", u.WIRE_AREA, 1.5e-6),
    ("1.5 mm^2", u.WIRE_AREA, 1.5e-6),
    ("1.2 N·m", u.NEWTON_METRE, 1.2),
    ("1.2 N*m", u.NEWTON_METRE, 1.2),
    ("0.004 kg·m²", u.KILOGRAM_SQUARE_METRE, 0.004),
    ("2.5 K/W", u.KELVIN_PER_WATT, 2.5),
    ("80 %", u.SHARE, 0.8),
    ("80%", u.SHARE, 0.8),
    ("150 A²s", u.AMPERE_SQUARE_SECOND, 150.0),
    ("20 Ah", u.AMPERE_HOUR, 72_000.0),
    ("5.5 W/m²/K", u.WATT_PER_SQUARE_METRE_KELVIN, 5.5),
    ("0.00393 / K", u.PER_KELVIN, 0.00393),
    ("0.017241 ohm * mm^2 / m", u.OHM_METRE, 1.7241e-8),
    ("47.83 V/krpm", u.VOLT_SECOND_PER_RADIAN, 47.83 / (1000 * pi / 30)),
    # lengths, masses, forces: exact
    ("1 in", u.METRE, 0.0254),  # *
    ("1 ft", u.METRE, 0.3048),  # *
    ("1 kft", u.METRE, 304.8),
    ("1 mil", u.METRE, 2.54e-5),  # *
    ("1 cmil", u.WIRE_AREA, 5.067075e-10),  # * printed with seven figures
    ("1 kcmil", u.WIRE_AREA, 5.067075e-7),
    ("1 lb", u.KILOGRAM, 0.45359237),  # *
    ("1 oz", u.KILOGRAM, 0.028349523125),
    ("1 lbf", u.NEWTON, 4.4482216152605),
    ("1 lbf·in", u.NEWTON_METRE, 0.1129848),  # * seven figures
    ("1 psi", u.PASCAL, 6894.757),  # * seven figures
    # power and flow
    ("1 hp", u.WATT, 745.6999),  # * 550 ft·lbf/s, seven figures
    ("1 PS", u.WATT, 735.4988),  # * metric horsepower, seven figures
    ("1 cfm", u.CUBIC_METRE_PER_SECOND, 4.719474e-4),  # * seven figures
    ("60 m³/h", u.CUBIC_METRE_PER_SECOND, 60 / 3600),
    # speeds, angles, times
    ("1 ft/min", u.METRE_PER_SECOND, 0.00508),  # *
    ("1725 rpm", u.RADIAN_PER_SECOND, 1725 * pi / 30),
    ("1725 rev/min", u.RADIAN_PER_SECOND, 1725 * pi / 30),
    ("1 rad/s", u.RADIAN_PER_SECOND, 1.0),
    ("60 Hz", u.HERTZ, 60.0),
    ("180 deg", u.RADIAN, pi),
    ("180°", u.RADIAN, pi),
    ("30 min", u.SECOND, 1800.0),
    ("2 h", u.SECOND, 7200.0),
    ("90 minutes", u.SECOND, 5400.0),
    ("8.3 ms", u.SECOND, 0.0083),
    # temperatures and rises
    ("35 degC", u.KELVIN, 308.15),
    ("35 °C", u.KELVIN, 308.15),
    ("95 degF", u.KELVIN, 308.15),
    ("-40 °F", u.KELVIN, 233.15),
    ("300 K", u.KELVIN, 300.0),
    ("20 K", u.KELVIN_RISE, 20.0),
]


@pytest.mark.parametrize(("text", "unit", "si"), WRITTEN, ids=[text.strip() for text, _, _ in WRITTEN])
def test_what_a_person_writes(text: str, unit: Unit, si: float) -> None:
    """Exact definitions to double precision; printed factors to their seven figures."""
    printed_with_seven = unit in (u.WIRE_AREA, u.PASCAL) or text.endswith(("hp", "PS", "cfm", "lbf·in"))

    assert read(text, unit) == pytest.approx(si, rel=5e-7 if printed_with_seven else 1e-12)


def test_horsepower_is_550_foot_pounds_in_a_second() -> None:
    """The definition, from the exact foot and the exact pound-force; to double precision."""
    assert read("1 hp", u.WATT) == pytest.approx(550 * 0.3048 * 4.4482216152605, rel=1e-15)


REFUSED: list[tuple[str, Unit, str]] = [
    ("7,5 A", u.AMPERE, "decimal-comma"),
    ("1,000 V", u.VOLT, "decimal-comma"),
    ("35", u.KELVIN, "bare-number"),
    ("0.8", u.SHARE, "bare-number"),
    ("0", u.VOLT, "bare-number"),
    ("5 Volt-ish", u.VOLT, "unknown-unit"),
    ("5 v", u.VOLT, "unknown-unit"),
    ("5 KW", u.WATT, "unknown-unit"),
    ("5 Nm", u.NEWTON_METRE, "unknown-unit"),
    ("5 k", u.OHM, "unknown-unit"),
    ("12:30 h", u.SECOND, "unknown-unit"),
    ("5 meter per fortnight", u.METRE_PER_SECOND, "unknown-unit"),
    ("", u.VOLT, "not-a-quantity"),
    ("   ", u.VOLT, "not-a-quantity"),
    ("V", u.VOLT, "not-a-quantity"),
    ("warm", u.KELVIN, "not-a-quantity"),
    ("about 5 V", u.VOLT, "not-a-quantity"),
    ("- 5 V", u.VOLT, "not-a-quantity"),
    ("1 2 V", u.VOLT, "not-a-quantity"),
    ("1.5 1/2 in", u.METRE, "not-a-quantity"),
    ("1/2/3 in", u.METRE, "unknown-unit"),
    ("5 V, 3 A", u.VOLT, "unknown-unit"),
    ("1/0 in", u.METRE, "not-a-number"),
    ("3 0/0 in", u.METRE, "not-a-number"),
    ("1e400 V", u.VOLT, "not-a-number"),
    ("1e400", u.NUMBER, "not-a-number"),
    ("1e308 kV", u.VOLT, "not-a-number"),
    ("nan V", u.VOLT, "not-a-quantity"),
    ("inf V", u.VOLT, "not-a-quantity"),
    # kinds, also of equal dimension
    ("5 A", u.VOLT, "unit-mismatch"),
    ("60 Hz", u.RADIAN_PER_SECOND, "unit-mismatch"),
    ("1725 rpm", u.HERTZ, "unit-mismatch"),
    ("1 rad/s", u.HERTZ, "unit-mismatch"),
    ("5 J", u.NEWTON_METRE, "unit-mismatch"),
    ("5 N·m", u.JOULE, "unit-mismatch"),
    ("35 degC", u.KELVIN_RISE, "unit-mismatch"),
    ("63 degF", u.KELVIN_RISE, "unit-mismatch"),
    ("20 delta_degC", u.KELVIN, "unit-mismatch"),
    ("250 VA", u.WATT, "unit-mismatch"),
    ("250 W", u.VOLT_AMPERE, "unit-mismatch"),
    ("1 hp", u.VOLT_AMPERE, "unit-mismatch"),
    ("80 %", u.NUMBER, "unit-mismatch"),
    ("30 deg", u.SHARE, "unit-mismatch"),
    ("30 deg", u.KELVIN, "unit-mismatch"),
    ("35 C", u.KELVIN, "unit-mismatch"),  # coulombs
    ("10 degC/V", u.KELVIN, "unit-mismatch"),
    # hostile
    ("9**9**9**9 V", u.VOLT, "unknown-unit"),
    ("1 V**4**4**4**4", u.VOLT, "unknown-unit"),
    ("1 V⁴⁴⁴⁴", u.VOLT, "unknown-unit"),
    ("1 V**-4 **-4", u.VOLT, "unknown-unit"),
    ("1 V**99", u.VOLT, "unknown-unit"),
    ("__import__('os') V", u.VOLT, "not-a-quantity"),
    ("1 __import__('os')", u.VOLT, "unknown-unit"),
    ("1 __class__", u.VOLT, "unknown-unit"),
    ("1 lambda: 0", u.VOLT, "unknown-unit"),
    ("1 m\n", u.VOLT, "unit-mismatch"),
    ("1\x00V", u.VOLT, "unknown-unit"),
    ("1 ((((((((((", u.VOLT, "unknown-unit"),
    ("1 " + "V" * 10_000, u.VOLT, "not-a-quantity"),
    ("V" * 10_000, u.VOLT, "not-a-quantity"),
    ("1" * 10_000 + " V", u.VOLT, "not-a-quantity"),
    ("1" * 10_000 + "..", u.VOLT, "not-a-quantity"),
    ("1 a" + " " * 10_000 + "!", u.VOLT, "not-a-quantity"),
    ("1 " * 5_000, u.VOLT, "not-a-quantity"),
    ("-" * 10_000 + "1 V", u.VOLT, "not-a-quantity"),
    ("1 V" + "*V" * 30, u.VOLT, "unknown-unit"),
    ("漢 V", u.VOLT, "not-a-quantity"),
    ("1 😀", u.VOLT, "unknown-unit"),
]


@pytest.mark.parametrize(("text", "unit", "code"), REFUSED, ids=[text[:24].strip() or "blank" for text, _, _ in REFUSED])
def test_what_is_refused_and_why(text: str, unit: Unit, code: str) -> None:
    """With a stable code, what was found and what to type, and at once."""
    before = perf_counter()
    with pytest.raises(QuantityError) as refusal:
        read(text, unit)

    assert refusal.value.code == code
    assert refusal.value.found
    assert refusal.value.wanted
    assert len(str(refusal.value)) < 300
    assert str(refusal.value) == f"found {refusal.value.found}, wanted {refusal.value.wanted}"
    assert perf_counter() - before < 0.5


def test_refusals_say_what_to_type() -> None:
    """The kind in words and an example that is itself readable."""
    with pytest.raises(QuantityError, match=r'found a length \("7.5 m"\), wanted a current such as "7.5 A"'):
        read("7.5 m", u.AMPERE)
    with pytest.raises(QuantityError, match='perhaps "N·m"'):
        read("2 Nm", u.NEWTON_METRE)
    with pytest.raises(QuantityError, match='"35" without a unit, wanted a temperature such as "35 degC"'):
        read("35", u.KELVIN)


@pytest.mark.parametrize("unit", [unit for unit in u.UNITS if unit.example], ids=lambda unit: unit.kind)
def test_the_example_of_each_kind_is_of_that_kind(unit: Unit) -> None:
    """What a message proposes is read without complaint."""
    assert read(unit.example, unit) > 0


@pytest.mark.parametrize(
    ("text", "value"),
    [("7.5", 7.5), ("3/4", 0.75), ("1 1/2", 1.5), ("-1 1/2", -1.5), ("1e3", 1000.0), (" 5 ", 5.0), ("+2", 2.0)],
)
def test_numbers(text: str, value: float) -> None:
    assert number(text) == value


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("7,5", "decimal-comma"), ("x", "not-a-number"), ("", "not-a-number"), ("1/0", "not-a-number"), ("1e999", "not-a-number"),
        ("1 V", "not-a-number"), ("0x10", "not-a-number"), ("1_000", "not-a-number"), ("1" * 10_000, "not-a-number"), ("nan", "not-a-number"),
    ],
)  # fmt: skip
def test_what_is_no_number(text: str, code: str) -> None:
    with pytest.raises(QuantityError) as refusal:
        number(text)

    assert refusal.value.code == code


def test_splitting_leaves_the_unit_as_it_was_written() -> None:
    assert split("1 1/2 in") == (1.5, "in")
    assert split("5 kΩ") == (5.0, "kΩ")
    assert split("0.9") == (0.9, "")


@pytest.mark.parametrize(
    ("text", "kinds"),
    [
        ("rpm", {u.RADIAN_PER_SECOND}), ("Hz", {u.HERTZ}), ("J", {u.JOULE}), ("N·m", {u.NEWTON_METRE}), ("VA", {u.VOLT_AMPERE}), ("W", {u.WATT}),
        ("degC", {u.KELVIN}), ("K", {u.KELVIN, u.KELVIN_RISE}), ("mm", {u.METRE}), ("mm²", {u.SQUARE_METRE, u.WIRE_AREA, u.IRON_AREA}), ("%", {u.SHARE}),
        ("deg", {u.RADIAN}), ("V", {u.VOLT}),
    ],
)  # fmt: skip
def test_which_kinds_a_unit_can_mean(text: str, kinds: set[Unit]) -> None:
    """Where dimensions can't tell, the unit that a person chose does."""
    assert set(kinds_of(text)) == kinds


PRINTED: list[tuple[float, Unit, str]] = [
    (0.0085, u.HENRY, "8.50 mH"),
    (0.4567, u.VOLT_SECOND_PER_RADIAN, "0.457 V·s/rad"),
    (0.999, u.AMPERE, "999 mA"),
    (0.99996, u.AMPERE, "1.00 A"),
    (1.0, u.AMPERE, "1.00 A"),
    (9.996, u.AMPERE, "10.0 A"),
    (99.96, u.AMPERE, "100 A"),
    (999.9, u.AMPERE, "1000 A"),
    (999.96, u.AMPERE, "1.00 kA"),
    (1000.0, u.AMPERE, "1.00 kA"),
    (-0.005, u.VOLT, "-5.00 mV"),
    (0.0, u.NUMBER, "0"),
    (180.64158, u.RADIAN_PER_SECOND, "1730 rpm"),
    (308.15, u.KELVIN, "35.0 °C"),
    (268.15, u.KELVIN, "-5.00 °C"),
    (20.0, u.KELVIN_RISE, "20.0 K"),
    (0.805, u.SHARE, "80.5 %"),
    (2.081e-6, u.WIRE_AREA, "2.08 mm²"),
    (5000.0, u.OHM, "5.00 kΩ"),
    (90.0, u.SECOND, "90.0 s"),
    (120.0, u.SECOND, "2.00 min"),
    (7200.0, u.SECOND, "2.00 h"),
    (0.9, u.METRE, "900 mm"),
    (pi / 2, u.RADIAN, "90.0 °"),
    (1e-7, u.FARAD, "100 nF"),
    (72_000.0, u.AMPERE_HOUR, "20.0 Ah"),
]


@pytest.mark.parametrize(("si", "unit", "text"), PRINTED, ids=[text for _, _, text in PRINTED])
def test_printing_with_three_figures(si: float, unit: Unit, text: str) -> None:
    """The largest unit that leaves a figure in front of the point; rounding up over a power of ten keeps three."""
    assert spell(si, unit) == text


def test_printing_in_inches() -> None:
    """Kinds that have them; the others stay as they are."""
    assert spell(0.0381, u.METRE, inches=True) == "1.50 in"
    assert spell(0.3048, u.METRE, inches=True) == "12.0 in"
    assert spell(1.2, u.NEWTON_METRE, inches=True) == "10.6 lbf·in"
    assert spell(308.15, u.KELVIN, inches=True) == "95.0 °F"
    assert spell(15.0, u.METRE_PER_SECOND, inches=True) == "2950 ft/min"
    assert spell(120.0, u.VOLT, inches=True) == "120 V"


def test_shown_gives_number_and_sign() -> None:
    for si, unit, amount, sign in ((0.0085, u.HENRY, 8.5, "mH"), (0.25, u.SHARE, 25.0, "%")):
        got, printed = shown(si, unit)
        assert got == pytest.approx(amount)
        assert printed == sign
    assert shown(3.0, u.VOLT_SECOND_PER_RADIAN) == (3.0, "V·s/rad")
    assert shown(1e-9, u.AMPERE)[1] == "mA"  # the smallest there is


@pytest.mark.parametrize(
    ("value", "count", "text"),
    [
        (0.068966, 3, "0.0690"), (9.996, 3, "10.0"), (9.994, 3, "9.99"), (0.9996, 3, "1.00"), (99.95, 3, "100"), (999.5, 3, "1000"),
        (1234.0, 3, "1230"), (1725.0, 5, "1725.0"), (-9.996, 3, "-10.0"), (0.0, 3, "0"), (-0.0, 3, "0"), (1.0, 1, "1"), (0.05, 1, "0.05"),
        (123456.0, 2, "120000"), (1e22, 3, "10000000000000000000000"), (0.00099996, 4, "0.001000"),
    ],
)  # fmt: skip
def test_figures(value: float, count: int, text: str) -> None:
    """Plain digits, no exponent, by hand."""
    assert figures(value, count) == text


@pytest.mark.parametrize("value", [nan, inf, -inf])
def test_what_has_no_figures(value: float) -> None:
    with pytest.raises(ValueError, match="has no figures"):
        figures(value, 3)


PROPERTY: Callable[..., Callable[..., None]] = settings(max_examples=60, derandomize=True, deadline=None)
# "1/K" begins with a figure, so it can't stand behind a number; it is the unit of constants, which no file states. So
# does "1/V", turns for a volt, which are worked out and not stated.
READABLE = [unit for unit in u.UNITS if unit not in (u.PER_KELVIN, u.PER_VOLT)]
SIZES = st.floats(1e-6, 1e7) | st.floats(-1e7, -1e-6)


@pytest.mark.parametrize("inches", [False, True], ids=["metric", "inch"])
@pytest.mark.parametrize("unit", READABLE, ids=lambda unit: unit.kind)
def test_what_is_printed_can_be_read_again(unit: Unit, inches: bool) -> None:
    """read(spell(x)) is x within half a unit of the last of five figures: of the number as it stands, so of °C and not of
    K."""

    @PROPERTY
    @given(si=SIZES)
    def holds(si: float) -> None:
        sign = shown(si, unit, inches)[1]
        zero = read(f"0 {sign}", unit) if sign else 0.0

        assert read(spell(si, unit, 5, inches), unit) - zero == pytest.approx(si - zero, rel=0.51e-4, abs=1e-9)

    holds()


@settings(max_examples=200, derandomize=True, deadline=None)
@given(value=st.floats(1e-12, 1e12) | st.floats(-1e12, -1e-12), count=st.integers(1, 9))
def test_figures_are_as_many_as_asked_and_right(value: float, count: int) -> None:
    """As a number: within half a unit of the last figure asked. As a text: no exponent, and never fewer figures."""
    text = figures(value, count)

    assert set(text) <= set("-0123456789.")
    assert float(text) == pytest.approx(value, rel=0.5001 * 10.0 ** (1 - count))
    digits = text.lstrip("-").replace(".", "").lstrip("0")
    assert len(digits) >= count
    if "." in text:
        assert len(digits) == count


@settings(max_examples=300, derandomize=True, deadline=None)
@given(text=st.text(max_size=40) | st.from_regex(r"[0-9./ ]{1,8}[A-Za-zµΩ°%*/^²³() ]{0,12}", fullmatch=True))
def test_any_text_is_read_or_refused(text: str) -> None:
    """For a kind with a unit and for one without: a finite number or a QuantityError."""
    for unit in (u.VOLT, u.NUMBER, u.KELVIN):
        try:
            value = read(text, unit)
        except QuantityError:
            continue
        assert abs(value) < inf


def test_kinds_are_compared_by_identity() -> None:
    """Two kinds with the same dimension are two; none is equal to its copy."""
    assert u.HERTZ != u.RADIAN_PER_SECOND
    assert u.JOULE != u.NEWTON_METRE
    assert Unit("voltage", "volt", "V", "120 V") != u.VOLT
    assert repr(u.VOLT) == "<Unit voltage>"
    assert len({unit.kind for unit in u.UNITS}) == len(u.UNITS)


def test_what_was_worked_out_beforehand_is_what_pint_says() -> None:
    """The whole file, and every entry with a kind: the quick path may differ from pint in nothing."""
    from tests.units_worked import FILE, by_pint

    made = by_pint()
    assert json.loads(FILE.read_text(encoding="utf-8")) == json.loads(json.dumps(made))
    assert len(made["kinds"]) > 50
