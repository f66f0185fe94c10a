"""Tables of batteries, their fuses, charging resistors and residual-current types, against what their sources print."""

import pytest

from buildsheet.reference import table


def test_cells_of_lead_acid() -> None:
    """A lead-acid article: charge limit 14.4 V and full at rest 12.7 V for 12 V; cut-off 10.5 V at the 20 h rate (from
    memory). Six cells of 2 V."""
    for kind in ("lead-acid", "lead-acid AGM"):
        cells = table("batteries")
        assert 6 * cells.cell(kind, "full").si == pytest.approx(14.4)
        assert 6 * cells.cell(kind, "rest").si == pytest.approx(12.7, abs=0.03)
        assert 6 * cells.cell(kind, "empty").si == pytest.approx(10.5)
        assert cells.cell(kind, "depth").si == 0.5  # not planned past half of its charge (practice)
        assert cells.cell(kind, "rated").si == 20 * 3600


def test_cells_of_lithium_iron_phosphate() -> None:
    """2.5 V cut-off, 3.65 V charge limit (from memory)."""
    cells = table("batteries")
    assert cells.cell("lithium-iron-phosphate", "empty").si == 2.5
    assert cells.cell("lithium-iron-phosphate", "full").si == 3.65


@pytest.mark.parametrize(
    ("kind", "low", "high"),
    [("lead-acid", 1.2, 1.6), ("lead-acid AGM", 1.05, 1.15), ("lithium-iron-phosphate", 1.0, 1.05)],
)
def test_exponents_lie_in_the_published_ranges(kind: str, low: float, high: float) -> None:
    """A battery retailer's page: flooded 1.2 to 1.6, AGM 1.05 to 1.15; a knowledge base: lithium about 1.05."""
    assert low <= table("batteries").cell(kind, "exponent").si <= high


def test_the_smaller_kind_breaks_what_abyc_asks_of_the_largest_battery() -> None:
    """ABYC E-11: batteries above 1100 CCA ask for 5000 A. IEC 60269-6 (from memory): 10 × 38 mm fuses for direct current
    break 10 kA and more; blade fuses are 32 V parts of the 1 kA class, and bolted ones do not come out by hand."""
    fuses = table("battery_fuses")
    smaller = fuses.first_at_least("breaks", 5000.0)

    assert smaller is not None
    assert smaller.startswith("cylindrical")
    assert fuses.cell(smaller, "voltage").si > 60.0
    assert not any("blade" in key or "bolted" in key for key in fuses.rows)


@pytest.mark.parametrize(("volts", "ohms"), [(24.0, 220.0), (36.0, 250.0), (48.0, 470.0), (72.0, 1000.0)])
def test_charging_resistors(volts: float, ohms: float) -> None:
    """A maker's list for battery vehicles: 24 V 220, 36 V 220 to 250, 48 V 470, 60 to 72 V 1000 ohm."""
    made = table("precharge")
    row = made.first_at_least("up_to", volts)
    assert made.cell(row, "resistance").si == ohms
    assert made.cell(row, "power").si == 10  # the same list: wire-wound, 10 W


@pytest.mark.parametrize(
    ("shape", "types"),
    [
        ("sine", {"type AC", "type A", "type F", "type B"}),
        ("pulsating", {"type A", "type F", "type B"}),
        ("composite", {"type F", "type B"}),
        ("smooth", {"type B"}),
    ],
)
def test_which_type_sees_which_fault_current(shape: str, types: set[str]) -> None:
    """Wiring rules 531.3.3 as quoted on a public page: AC sinusoidal; A adds pulsating DC; F adds composite; B adds
    smooth DC."""
    made = table("residual_current")
    assert {key for key in made.rows if made.cell(key, shape).si == 1} == types
