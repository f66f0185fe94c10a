"""Every formula against published figures; the source stands with each row, the tolerance is the one given there."""

import pytest

from buildsheet.formulas.formula import REGISTRY
from tests.formulas import (
    rows_drives,
    rows_electrical,
    rows_loads,
    rows_machine,
    rows_motor,
    rows_power,
    rows_turning,
    test_identities,
    test_identities_alternating,
    test_identities_drives,
)
from tests.formulas.rows import Row
from tests.formulas.walk import FORMULAS

IDENTITIES = {**test_identities.IDENTITIES, **test_identities_drives.IDENTITIES, **test_identities_alternating.IDENTITIES}
ROWS = [*rows_motor.ROWS, *rows_electrical.ROWS, *rows_machine.ROWS, *rows_drives.ROWS, *rows_power.ROWS, *rows_turning.ROWS, *rows_loads.ROWS]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.id)
def test_formula_gives_the_published_figure(row: Row) -> None:
    """The source and the tolerance stand in the row."""
    got = row.formula(**row.arguments)

    assert got == pytest.approx(row.printed, rel=row.rel, abs=row.abs), row.source


def test_every_formula_has_a_published_figure_or_an_identity() -> None:
    """A formula that is new must bring one of the two."""
    covered = {row.formula.name for row in ROWS} | set(IDENTITIES)

    assert covered == set(FORMULAS)
    assert set(FORMULAS) <= set(REGISTRY)
