"""Every table file: complete header, units that parse, rows in order, derived columns that agree, and look-ups."""

import tomllib
from importlib.resources import files
from itertools import pairwise
from math import nan, pi, sqrt
from typing import Any

import pytest

from buildsheet.reference import MissingRow, Table, table, table_ids
from buildsheet.reference.tables import LOOKUPS, parse
from buildsheet.units import AMPERE, KELVIN, OHM_PER_METRE, SHARE, WIRE_AREA

ALL = table_ids()
READ_FROM = {"original", "scan", "secondary copy", "memory", "practice", "derivation", "own design"}
# Columns that must rise from row to row; the others of the same tables fall or are words.
RISING = [
    ("iec_60228_class_5", "area"), ("iec_60204_1_table_6", "ampacity"), ("iec_ambient_40c", "up_to"), ("iec_ambient_30c", "up_to"),
    ("iec_bundle", "up_to"), ("iec_cord", "two"), ("iec_fuse_ratings", "rating"), ("iec_protective", "up_to"), ("iec_ampere_steps", "rating"),
    ("synchronous_speeds", "at_50"), ("synchronous_speeds", "at_60"), ("ampere_steps", "rating"), ("awg_copper", "area"), ("awg_copper", "metric"), ("nec_250_122", "up_to"),
    ("nec_250_122", "area"), ("nec_310_16_60c", "ampacity"), ("nec_310_16_90c", "ampacity"), ("nec_ambient_60c", "up_to"),
    ("nec_ambient_90c", "up_to"), ("nec_bundle", "up_to"), ("nec_cord", "three"), ("nec_cord", "two"), ("nec_dc_motor_current", "at_90"),
    ("nec_dc_motor_current", "at_120"), ("nec_dc_motor_current", "at_180"), ("nec_dc_motor_current", "at_240"),
    ("fuse_air", "up_to"), ("battery_fuses", "breaks"), ("battery_fuses", "voltage"), ("precharge", "up_to"), ("timer_steps", "upper"), ("overload_ranges", "low"), ("overload_ranges", "high"), ("resistors_e12", "resistance"), ("resistors_e6_low", "resistance"), ("ul_fuse_ratings", "rating"),
    ("transformer_regulation", "rating"), ("capacitor_input", "ratio"), ("shaft_fan_torque", "share"), ("triac_output", "share"),
]  # fmt: skip
FALLING = [
    ("awg_copper", "resistance"), ("nec_ambient_60c", "factor"), ("nec_ambient_90c", "factor"), ("nec_bundle", "factor"),
    ("least_wire", "area"), ("fuse_air", "factor"), ("capacitor_input", "factor"), ("capacitor_input", "usual"), ("triac_output", "alpha"),
]  # fmt: skip


def _raw(id: str) -> dict[str, Any]:
    return tomllib.loads(
        (files("buildsheet.reference") / "tables" / f"{id}.toml").read_text(encoding="utf-8")
    )


def _column(made: Table, column: str) -> list[float]:
    return [made.cell(key, column).si for key, row in made.rows.items() if row[column] != "-"]


@pytest.mark.parametrize("id", ALL)
def test_header_is_complete_and_honest(id: str) -> None:
    """Title, look-ups that exist, a source with work and how it was read; a standard with its place in it; what is from
    memory says so; the file's name is its id."""
    raw, made = _raw(id), table(id)
    source = raw["source"]

    assert raw["id"] == id == made.id
    assert made.title
    assert made.lookups
    assert set(made.lookups) <= set(LOOKUPS)
    assert source["read_from"] in READ_FROM
    assert source["work"]
    if source["read_from"] == "secondary copy":
        assert source["at"]
    if "NFPA" in str(source["work"]):
        assert source["edition"]
    assert set(source) <= {"work", "edition", "at", "read_from", "checked", "conditions"}


@pytest.mark.parametrize("id", ALL)
def test_every_cell_parses_and_rows_are_as_wide_as_the_columns(id: str) -> None:
    """Numbers in their printed unit become SI; word columns hold words; the first column is the key."""
    raw, made = _raw(id), table(id)
    key, *others = made.columns
    for name, cells in raw["rows"].items():
        assert isinstance(cells, list)
        assert len(cells) == len(others)
        assert made.rows[name][key] == name
        for column, text in zip(others, cells, strict=True):
            assert isinstance(text, str)
            assert text.strip() == text
            assert text
            if made.columns[column].text:
                with pytest.raises(TypeError, match=f"column {column} of table {id} holds words"):
                    made._value(name, column)
            elif text != "-":
                assert made.cell(name, column).si >= 0
    assert made.columns[key].text


@pytest.mark.parametrize(("id", "column"), RISING)
def test_column_rises(id: str, column: str) -> None:
    """The look-ups take the first or last row that fits, so the order is the meaning."""
    values = _column(table(id), column)

    assert all(low < high for low, high in pairwise(values))


@pytest.mark.parametrize(("id", "column"), FALLING)
def test_column_falls(id: str, column: str) -> None:
    """Thicker wire, less resistance; warmer air or more neighbours, less current. `least_wire` may stay level."""
    values = _column(table(id), column)

    assert all(high >= low if id == "least_wire" else high > low for high, low in pairwise(values))


def test_every_table_that_is_searched_has_an_ordered_column() -> None:
    """No table allows next_larger or next_smaller without a column that this file checks for order."""
    searched = {name for name in ALL if {"next_larger", "next_smaller"} & set(table(name).lookups)}

    assert searched <= {name for name, _ in RISING}


@pytest.mark.parametrize("key", table("awg_copper").rows)
def test_wire_areas_agree_with_the_gauge_formula(key: str) -> None:
    """ASTM B258-02: d = 0.005 in × 92^((36 − n)/39). Areas to the last digit; circular mils, which NEC rounds to ten."""
    n = int(key.split(maxsplit=1)[0])
    mils = 5 * 92 ** ((36 - n) / 39)
    made = table("awg_copper")

    assert made.cell(key, "metric").si == pytest.approx(pi / 4 * (mils * 25.4e-6) ** 2, abs=0.51e-9)
    assert float(made.rows[key]["area"].replace(" ", "")) == pytest.approx(mils**2, abs=5)
    # And the two columns with each other, so that neither drifts alone.
    assert made.cell(key, "metric").si == pytest.approx(made.cell(key, "area").si, rel=3.2e-3)


@pytest.mark.parametrize("key", table("awg_copper").rows)
def test_wire_resistances_agree_with_copper_at_75_degrees(key: str) -> None:
    """NEC chapter 9 Table 8, stranded: IEC 60028 copper at 75 °C with the lay of seven strands, 2 to 3 % more than a
    solid wire (solid and stranded rows of the same table differ by 2.0 to 2.6 %); the last printed digit besides."""
    made = table("awg_copper")
    solid = 1.7241e-8 * (234.5 + 75) / (234.5 + 20) / made.cell(key, "metric").si
    printed = made.rows[key]["resistance"]
    half_a_digit = 0.5 * 10 ** -len(printed.partition(".")[2]) / float(printed)
    ratio = made.cell(key, "resistance").si / solid

    assert 1.018 - half_a_digit <= ratio <= 1.03 + half_a_digit


@pytest.mark.parametrize(("id", "limit"), [("nec_ambient_60c", 60), ("nec_ambient_90c", 90)])
def test_ambient_factors_agree_with_their_law(id: str, limit: float) -> None:
    """√((limit − T)/(limit − 30)) at the top of each band, to the printed digit; the band's name says the same top."""
    made = table(id)
    for key in made.rows:
        top = made.cell(key, "up_to").si - 273.15

        assert made.cell(key, "factor").si == pytest.approx(sqrt((limit - top) / (limit - 30)), abs=0.00501)
        assert key.endswith(f" {top:.0f} °C")


def test_bands_leave_no_gap() -> None:
    """Each band begins one above the end of the band before it."""
    for made in (table("nec_ambient_60c"), table("nec_ambient_90c"), table("nec_bundle")):
        bands = [[int(word) for word in key.split() if word.isdigit()] for key in made.rows]

        assert all(after[0] == before[1] + 1 for before, after in pairwise(bands))


def test_names_of_sizes_say_their_value() -> None:
    """ "2 1/2 A" is 2.5 A, "4.7 kΩ" is 4700 ohm: the key that prints is the number that counts."""
    for made in (table("ul_fuse_ratings"), table("ampere_steps")):
        for key in made.rows:
            whole, _, part = key.removesuffix(" A").partition(" ")
            over, _, under = part.partition("/")
            value = float(whole) + (float(over) / float(under) if part else 0)
            assert made.cell(key, "rating").si == pytest.approx(value)
    for key in list(table("resistors_e12").rows)[1:]:
        number, unit = key.split()
        assert table("resistors_e12").cell(key, "resistance").si == pytest.approx(
            float(number) * {"Ω": 1, "kΩ": 1000, "MΩ": 1e6}[unit]
        )
    for key in table("overload_ranges").rows:
        low, high = key.removesuffix(" A").split(" to ")
        assert (
            table("overload_ranges").cell(key, "low").si,
            table("overload_ranges").cell(key, "high").si,
        ) == (float(low), float(high))


def test_units_of_columns_are_the_kinds_that_are_meant() -> None:
    """A wire's cross-section is no box's area, and a factor is a share."""
    assert table("awg_copper").columns["area"].unit is WIRE_AREA
    assert table("awg_copper").columns["metric"].unit is WIRE_AREA
    assert table("awg_copper").columns["resistance"].unit is OHM_PER_METRE
    assert table("nec_ambient_90c").columns["factor"].unit is SHARE
    assert table("nec_bundle").columns["factor"].unit is SHARE
    assert table("nec_310_16_90c").columns["ampacity"].unit is AMPERE
    assert table("nec_ambient_90c").columns["up_to"].unit is KELVIN


def test_next_larger_at_just_below_and_just_above() -> None:
    """At a printed size that size; a hair above it the next one."""
    fuses = table("ul_fuse_ratings")

    assert fuses.first_at_least("rating", 7.0) == "7 A"
    assert fuses.first_at_least("rating", 6.999) == "7 A"
    assert fuses.first_at_least("rating", 7.001) == "8 A"
    assert fuses.first_at_least("rating", 0.0) == "1 A"
    assert fuses.first_at_least("rating", 30.0) == "30 A"


def test_next_smaller_at_just_below_and_just_above() -> None:
    """At a printed size that size; a hair below it the one before."""
    fuses = table("ul_fuse_ratings")

    assert fuses.last_at_most("rating", 7.0) == "7 A"
    assert fuses.last_at_most("rating", 6.999) == "6 1/4 A"
    assert fuses.last_at_most("rating", 7.001) == "7 A"
    assert fuses.last_at_most("rating", 1.0) == "1 A"
    assert fuses.last_at_most("rating", 1e6) == "30 A"


def test_rounding_of_a_sum_does_not_skip_a_size() -> None:
    """6.25 A reached as 25 × 0.25 A less nothing but rounding is 6 1/4 A, not 7 A."""
    assert table("ul_fuse_ratings").first_at_least("rating", 6.25 * (1 + 1e-13)) == "6 1/4 A"


def test_beyond_the_end_there_is_no_row() -> None:
    """The nearest keys are named as a hint, and nothing is returned."""
    with pytest.raises(MissingRow, match="ends below what is needed; the nearest are 25 A, 30 A"):
        table("ul_fuse_ratings").first_at_least("rating", 30.1)
    with pytest.raises(MissingRow, match="begins above what is allowed; the nearest are 1 A, 1 1/4 A"):
        table("ul_fuse_ratings").last_at_most("rating", 0.9)
    with pytest.raises(MissingRow, match="ends below what is needed"):
        table("ul_fuse_ratings").first_at_least("rating", nan)


def test_a_row_that_is_not_there_names_its_neighbours() -> None:
    """A near name is a suggestion, never an answer."""
    with pytest.raises(MissingRow, match=r'has no row "14AWG"; the nearest are .*14 AWG'):
        table("nec_cord").cell("14AWG", "two")
    with pytest.raises(MissingRow, match='has no row "6 AWG"'):
        table("nec_cord").cell("6 AWG", "two")


def test_an_empty_cell_is_no_zero() -> None:
    """NEC Table 430.247 gives no 90 V figure above 1 hp; a search passes it by."""
    motors = table("nec_dc_motor_current")

    with pytest.raises(MissingRow, match='gives nothing for "3 hp" under 90 V'):
        motors.cell("3 hp", "at_90")
    assert motors._filled("at_90")[-1] == "1 hp"


@pytest.mark.parametrize("id", ALL)
def test_a_look_up_that_the_table_does_not_allow_is_an_error(id: str) -> None:
    """Which look-ups make sense is the table's own statement."""
    made = table(id)
    column = next((name for name, one in made.columns.items() if not one.text), "")
    refused = 0
    for lookup, search in (("next_larger", made.first_at_least), ("next_smaller", made.last_at_most)):
        if lookup not in made.lookups:
            refused += 1
            with pytest.raises(TypeError, match=f"table {id} does not allow {lookup}"):
                search(column, 1.0)
    assert refused == 2 - len({"next_larger", "next_smaller"} & set(made.lookups))


def test_a_table_that_is_not_there_names_the_near_ones() -> None:
    with pytest.raises(LookupError, match='no table "nec_cords"; perhaps nec_cord'):
        table("nec_cords")
    with pytest.raises(LookupError, match="no table"):
        table("../regions/north-america")


GOOD = """
id = "t"
title = "T"
lookups = ["exact"]
[source]
work = "w"
read_from = "memory"
[columns]
k = { text = true }
v = { unit = "A" }
[rows]
"a" = ["1"]
"""
FAULTS = {
    "another id": ('id = "t"', 'id = "u"', "id u"),
    "a look-up that is none": ('["exact"]', '["nearest"]', "nearest"),
    "a cell too many": ('"a" = ["1"]', '"a" = ["1", "2"]', "row a has 2 cells for 1 columns"),
    "a key twice": ('"a" = ["1"]', '"a" = ["1"]\n"a" = ["2"]', "overwrite|already|duplicate"),
    "a unit that is none": ('unit = "A"', 'unit = "xyz"', "xyz"),
    "no source": ("[source]\nwork", "[sources]\nwork", "source"),
    "no work": ('work = "w"\n', "", "work"),
    "no title": ('title = "T"\n', "", "title"),
}


def test_a_good_file_parses() -> None:
    assert parse("t", GOOD).cell("a", "v").si == 1.0
    assert str(parse("t", GOOD).source) == "w (from memory)"


@pytest.mark.parametrize("fault", FAULTS)
def test_a_faulty_file_is_refused(fault: str) -> None:
    """Each fault on its own, in a file that is otherwise good."""
    old, new, words = FAULTS[fault]
    assert old in GOOD

    with pytest.raises(ValueError, match=f"(?i){words}"):
        parse("t", GOOD.replace(old, new))
