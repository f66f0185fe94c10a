"""Every figure of the tables against the published one, copied a second time from the sources in `printed`."""

from collections.abc import Iterator

import pytest

from buildsheet.reference import table
from tests.reference import printed


def _cells() -> Iterator[tuple[str, str, str, str]]:
    """(table, row, column, printed digits)."""
    for key, (mils, ohms) in printed.STRANDED.items():
        yield "awg_copper", key, "area", mils
        yield "awg_copper", key, "resistance", ohms
        yield "awg_copper", key, "metric", printed.AREAS[key]
    for key, (cool, warm) in printed.AMPACITY.items():
        yield "nec_310_16_60c", key, "ampacity", cool
        yield "nec_310_16_90c", key, "ampacity", warm
    for key, (top, cool, warm) in printed.AMBIENT.items():
        for ambient, factor in (("nec_ambient_60c", cool), ("nec_ambient_90c", warm)):
            if factor:
                yield ambient, key, "up_to", top
                yield ambient, key, "factor", factor
    for key, (most, share) in printed.BUNDLE.items():
        yield "nec_bundle", key, "up_to", most
        yield "nec_bundle", key, "factor", share
    for key, (three, two) in printed.CORD.items():
        yield "nec_cord", key, "three", three
        yield "nec_cord", key, "two", two
    for key, amperes in printed.DC_MOTORS.items():
        for column, figure in zip(("at_90", "at_120", "at_180", "at_240"), amperes, strict=True):
            yield "nec_dc_motor_current", key, column, figure
    for key, (most, mils) in printed.PROTECTIVE.items():
        yield "nec_250_122", key, "up_to", most
        yield "nec_250_122", key, "area", mils
    for key, figure in printed.BREAKING.items():
        yield "breaking_capacity", key, "alternating", figure
    for key, (figure, _) in printed.RULES.items():
        yield "rules_north_america", key, "value", figure


CELLS = list(_cells())
COPIED = (
    "awg_copper", "nec_310_16_60c", "nec_310_16_90c", "nec_ambient_60c", "nec_ambient_90c", "nec_bundle", "nec_cord",
    "nec_dc_motor_current", "nec_250_122", "breaking_capacity",
)  # fmt: skip


@pytest.mark.parametrize(("id", "row", "column", "figure"), CELLS)
def test_cell_is_the_printed_figure(id: str, row: str, column: str, figure: str) -> None:
    """Digit by digit; only the thin space between thousands may differ."""
    assert table(id).rows[row][column].replace(" ", "") == figure.replace(" ", "")


@pytest.mark.parametrize("id", COPIED)
def test_no_row_is_left_unchecked(id: str) -> None:
    """A row or column that is added to a published table must be added to the copy as well."""
    checked = {(row, column) for table_id, row, column, _ in CELLS if table_id == id}
    made = table(id)

    assert {
        (row, column) for row in made.rows for column, one in made.columns.items() if not one.text
    } == checked


def test_fuse_ratings_are_on_the_market() -> None:
    """All are in the distributor's table (or from memory, below 2 1/2 A), and no standard rating of NEC 240.6(A) to 30 A
    is missing."""
    market = {text.strip().replace("-", " ") for text in printed.FUSES_ON_THE_MARKET.split(",")}
    ours = {key.removesuffix(" A") for key in table("ul_fuse_ratings").rows}

    assert ours <= market
    assert {str(rating) for rating in printed.STANDARD_FUSES} <= ours


def test_resistors_are_the_whole_e12_series_of_four_decades() -> None:
    """IEC 60063: 100 ohm to 1 Mohm, each value of the series, and a link before them."""
    wanted = [0.0, *(float(step) * decade for decade in (100, 1000, 10_000, 100_000) for step in printed.E12), 1_000_000.0]
    made = table("resistors_e12")

    assert [made.cell(key, "resistance").si for key in made.rows] == pytest.approx(wanted)


@pytest.mark.parametrize("rule", printed.RULES)
def test_rule_names_its_clause_and_what_is_from_memory(rule: str) -> None:
    """The clause stands beside the number; a clause that was not read again says so."""
    clause = table("rules_north_america").rows[rule]["clause"]

    assert printed.RULES[rule][1] in clause
    assert ("(from memory)" in clause) == (rule in printed.FROM_MEMORY)


def test_smallest_wires_are_those_of_the_code() -> None:
    """NEC 430.22(G): 14 AWG for motor circuits unless its conditions are met; control and signal are common practice.
    The area beside each gauge is that of the gauge."""
    made = table("least_wire")

    assert {made.rows[role]["gauge"] for role in ("line", "armature")} == {"14 AWG"}
    for row in made.rows.values():
        assert row["area"] == table("awg_copper").rows[row["gauge"]]["area"]
    assert "common practice" in made.source.work


def test_working_speeds_of_an_abrasive_belt_on_wood() -> None:
    """An abrasive maker's technical page: 15 to 30 m/s on wood."""
    cell = table("machine_kinds").rows["belt-sander"]

    assert (cell["low"], cell["high"]) == ("15 m/s", "30 m/s")


def test_assumed_values_say_why_and_how_to_measure() -> None:
    """Own choices, printed as assumed: none without its reason; the kind named is one that the value reads as."""
    made = table("assumed")
    for key, row in made.rows.items():
        assert row["why"] != "-"
        assert len(row["why"]) > 3
        assert row["measure"]
        assert made.cell(key, "value").unit.kind == row["kind"]
    assert str(made.source).endswith("(common practice, no source)")
