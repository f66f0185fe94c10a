"""The worksheet: lines with their parents, unknowns that travel with their reason, look-ups, and what it refuses."""

import pytest

from buildsheet.citations import derivation
from buildsheet.formulas import choice, conductors, mechanics, motor
from buildsheet.formulas.cooling import temperature_after_rise
from buildsheet.reference import table
from buildsheet.units import (
    ALIKE,
    AMPERE,
    HERTZ,
    JOULE,
    KELVIN,
    KELVIN_RISE,
    METRE,
    NUMBER,
    OHM,
    RADIAN_PER_SECOND,
    SHARE,
    VOLT,
    VOLT_SECOND_PER_RADIAN,
    WATT,
)
from buildsheet.worksheet import Absent, Line, Model, Row, Worksheet, unknown
from buildsheet.worksheet.value import roots
from tests.worksheet.bench import value

V, I, R = value(12.0, VOLT, "supply.V_s", "line voltage"), value(3.0, AMPERE, "motor.I_a"), value(1.5, OHM, "motor.R")
NOBODY_KNOWS = unknown("motor.R", OHM, "nobody measured it", "resistance of the motor")


@pytest.fixture
def sheet() -> Worksheet:
    return Worksheet()


def test_a_line_keeps_formula_and_arguments(sheet: Worksheet) -> None:
    """I²·R = 9 × 1.5, by hand; the arguments are on the sheet as well."""
    heat = sheet.work("motor.P_cu", motor.copper_loss, "heat of the winding", I_rms=I, R=R)

    assert float(heat) == 13.5
    assert (heat.unit, heat.label, heat.symbol) == (WATT, "heat of the winding", "P_cu")
    assert isinstance(heat.parent, Line)
    assert heat.parent.formula is motor.copper_loss
    assert heat.parent.arguments == {"I_rms": I, "R": R}
    assert list(sheet.values) == ["motor.I_a", "motor.R", "motor.P_cu"]


def test_without_a_label_the_formula_names_it(sheet: Worksheet) -> None:
    assert sheet.work("motor.P_cu", motor.copper_loss, I_rms=I, R=R).label == "copper loss"


def test_an_id_is_worked_once(sheet: Worksheet) -> None:
    sheet.work("motor.P_cu", motor.copper_loss, I_rms=I, R=R)

    with pytest.raises(ValueError, match=r"motor\.P_cu is worked twice"):
        sheet.work("motor.P_cu", motor.copper_loss, I_rms=I, R=R)


def test_entering_the_same_again_does_nothing_but_another_is_refused(sheet: Worksheet) -> None:
    """Two numbers under one id would put one in the place of the other."""
    assert sheet.take(V) is V
    assert sheet.take(V.relabelled("volts")) is V
    with pytest.raises(ValueError, match=r"supply\.V_s is already another value"):
        sheet.take(value(13.0, VOLT, "supply.V_s"))
    with pytest.raises(ValueError, match=r"supply\.V_s is already another value"):
        sheet.take(value(12.0, AMPERE, "supply.V_s"))
    with pytest.raises(ValueError, match=r"supply\.V_s is already another value"):
        sheet.take(unknown("supply.V_s", VOLT, "gone"))
    sheet.take(NOBODY_KNOWS)
    assert sheet.take(unknown("motor.R", OHM, "nobody measured it")) is NOBODY_KNOWS


@pytest.mark.parametrize(
    ("wrong", "kind"),
    [(value(3.0, VOLT, "x.y"), "voltage"), (value(3.0, NUMBER, "x.y"), "plain number")],
    ids=["voltage", "plain number"],
)
def test_an_argument_of_another_kind_is_refused(sheet: Worksheet, wrong: object, kind: str) -> None:
    with pytest.raises(TypeError, match=rf"m\.P: I_rms of copper_loss is a current, not a {kind}"):
        sheet.work("m.P", motor.copper_loss, I_rms=wrong, R=R)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        (value(30.0, HERTZ, "x.f"), "omega of emf_at_speed is a rotational speed, not a frequency"),
        (value(30.0, JOULE, "x.W"), "omega of emf_at_speed is a rotational speed, not a energy"),
    ],
    ids=["frequency", "energy"],
)
def test_kinds_of_equal_dimension_are_told_apart(sheet: Worksheet, wrong: object, words: str) -> None:
    """Hertz are no radians in a second, though both are one over a time."""
    with pytest.raises(TypeError, match=words):
        sheet.work("m.E", motor.emf_at_speed, K_e=value(0.45, VOLT_SECOND_PER_RADIAN, "m.K"), omega=wrong)  # type: ignore[arg-type]


def test_energy_is_no_torque_and_a_rise_no_temperature(sheet: Worksheet) -> None:
    with pytest.raises(TypeError, match="T of shaft_power is a torque, not a energy"):
        sheet.work("m.P", mechanics.shaft_power, T=value(2.0, JOULE, "x.W"), omega=value(3.0, RADIAN_PER_SECOND, "x.o"))
    with pytest.raises(TypeError, match="dT of temperature_after_rise is a temperature rise, not a temperature"):
        sheet.work("m.T", temperature_after_rise, T_a=value(300.0, KELVIN, "x.a"), dT=value(20.0, KELVIN, "x.b"))
    warm = sheet.work("m.T", temperature_after_rise, T_a=value(300.0, KELVIN, "x.a"), dT=value(20.0, KELVIN_RISE, "x.c"))
    assert (float(warm), warm.unit) == (320.0, KELVIN)


def test_arguments_are_named(sheet: Worksheet) -> None:
    with pytest.raises(TypeError, match="copper_loss: name the arguments"):
        sheet.work("m.P", motor.copper_loss, "", I, R)


def test_a_name_that_the_formula_does_not_have_is_refused(sheet: Worksheet) -> None:
    with pytest.raises((TypeError, KeyError), match="Q"):
        sheet.work("m.P", motor.copper_loss, I_rms=I, Q=R)  # type: ignore[call-arg]


def test_an_unknown_argument_gives_an_unknown_result(sheet: Worksheet) -> None:
    """With the kind of the result, the reason in words, and what is missing."""
    heat = sheet.work("motor.P_cu", motor.copper_loss, I_rms=I, R=NOBODY_KNOWS)

    assert not heat.known
    assert heat.unit is WATT
    assert heat.why == "needs resistance of the motor"
    assert heat.parent == Absent("needs resistance of the motor", (NOBODY_KNOWS,))


def test_several_unknowns_are_counted(sheet: Worksheet) -> None:
    heat = sheet.work("motor.P_cu", motor.copper_loss, I_rms=unknown("m.I", AMPERE, "x", "the current"), R=NOBODY_KNOWS)

    assert heat.why == "needs the current and 1 more"
    assert isinstance(heat.parent, Absent)
    assert [one.id for one in heat.parent.missing] == ["m.I", "motor.R"]


def test_the_reason_travels_through_the_sums(sheet: Worksheet) -> None:
    """Three lines on, the missing value is still found."""
    E = sheet.work("m.E", motor.back_emf, V=V, I=I, R=NOBODY_KNOWS, U_b=value(0.0, VOLT, "m.U"))
    K = sheet.work("m.K", motor.back_emf_constant, E=E, omega=value(100.0, RADIAN_PER_SECOND, "m.o"))
    K_t = sheet.work("m.K_t", motor.torque_constant, K_e=K)

    assert not K_t.known
    assert roots(K_t)[0] is NOBODY_KNOWS


def test_outside_the_limits_the_result_is_unknown_and_says_why(sheet: Worksheet) -> None:
    """No clamping, no exception: the packet says what was wrong with the number."""
    still = value(0.0, RADIAN_PER_SECOND, "m.omega")
    K = sheet.work("m.K", motor.back_emf_constant, E=V, omega=still)

    assert not K.known
    assert K.why.startswith("back emf constant: omega is ")
    assert "must be at least" in K.why
    assert isinstance(K.parent, Absent)
    assert K.parent.missing == ()


def test_numbers_without_a_result_give_an_unknown(sheet: Worksheet) -> None:
    """Two readings at one current have no slope."""
    slope = sheet.work(
        "m.R_a", motor.slope_resistance, V_1=V, I_1=I, V_2=value(6.0, VOLT, "m.V"), I_2=value(3.0, AMPERE, "m.I")
    )  # fmt: skip

    assert not slope.known
    assert slope.why.startswith("slope resistance has no result for these numbers")


def test_alike_takes_the_kind_of_its_arguments(sheet: Worksheet) -> None:
    """Larger of two currents is a current; a margin is a share whatever it is of."""
    larger = sheet.work("p.I", choice.larger_of, a=I, b=value(5.0, AMPERE, "p.I_2"))
    spare = sheet.work("p.m", choice.margin, had=value(10.0, OHM, "p.h"), needed=value(8.0, OHM, "p.n"))

    assert (float(larger), larger.unit) == (5.0, AMPERE)
    assert (float(spare), spare.unit) == (0.25, SHARE)
    assert ALIKE not in {one.unit for one in sheet.values.values()}


def test_alike_refuses_two_kinds(sheet: Worksheet) -> None:
    with pytest.raises(TypeError, match=r"p\.I: b of larger_of is a current, not a voltage"):
        sheet.work("p.I", choice.larger_of, a=I, b=V)


def test_alike_of_an_unknown_keeps_the_kind(sheet: Worksheet) -> None:
    larger = sheet.work("p.R", choice.larger_of, a=NOBODY_KNOWS, b=value(2.0, OHM, "p.b"))

    assert (larger.known, larger.unit) == (False, OHM)


def test_a_cell_is_picked_by_its_row(sheet: Worksheet) -> None:
    """NEC Table 400.5(A)(1), column B: 14 AWG 18 A."""
    cell = sheet.pick("cord.I", "nec_cord", "two", "ampacity of the cord", key="14 AWG")

    assert (float(cell), cell.unit, cell.label) == (18.0, AMPERE, "ampacity of the cord")
    assert isinstance(cell.parent, Row)
    assert (cell.parent.cell.row, cell.parent.cell.printed) == ("14 AWG", "18")


def test_a_size_is_picked_by_what_it_must_be_at_least(sheet: Worksheet) -> None:
    """6.5 A take a 7 A fuse, 7 A as well; at most 6.5 A is 6 1/4 A."""
    need, exact = value(6.5, AMPERE, "p.I"), value(7.0, AMPERE, "p.J")

    assert float(sheet.pick("f.a", "ul_fuse_ratings", "rating", at_least=need)) == 7.0
    assert float(sheet.pick("f.b", "ul_fuse_ratings", "rating", at_least=exact)) == 7.0
    assert float(sheet.pick("f.c", "ul_fuse_ratings", "rating", at_most=need)) == 6.25


def test_one_column_is_searched_and_another_given(sheet: Worksheet) -> None:
    """Ambient 35 °C is the band 31 to 35, factor 0.96; a hair above it the next, 0.91 (NEC 310.15(B)(1)(1), 90 °C)."""
    at, above = value(308.15, KELVIN, "s.T"), value(308.25, KELVIN, "s.U")

    assert float(sheet.pick("k.a", "nec_ambient_90c", "factor", where="up_to", at_least=at)) == 0.96
    factor = sheet.pick("k.b", "nec_ambient_90c", "factor", where="up_to", at_least=above)
    assert (float(factor), factor.unit) == (0.91, SHARE)


def test_beyond_the_table_there_is_an_unknown(sheet: Worksheet) -> None:
    """With the reason, not the last row."""
    fuse = sheet.pick("f.I", "ul_fuse_ratings", "rating", at_least=value(31.0, AMPERE, "p.I"))
    row = sheet.pick("f.J", "nec_cord", "two", key="6 AWG")

    assert not fuse.known
    assert "ends below what is needed" in fuse.why
    assert not row.known
    assert 'no row "6 AWG"' in row.why


def test_a_search_for_an_unknown_is_unknown(sheet: Worksheet) -> None:
    fuse = sheet.pick("f.I", "ul_fuse_ratings", "rating", at_least=unknown("p.I", AMPERE, "x", "the current"))

    assert fuse.why == "needs the current"
    assert fuse.unit is AMPERE


def test_a_search_by_another_kind_is_refused(sheet: Worksheet) -> None:
    """Volts would be compared with amperes."""
    with pytest.raises(TypeError, match=r"f\.I: ul_fuse_ratings is searched by a current, not a voltage"):
        sheet.pick("f.I", "ul_fuse_ratings", "rating", at_least=V)


def test_a_search_that_the_table_does_not_allow_is_refused(sheet: Worksheet) -> None:
    with pytest.raises(TypeError, match="table nec_cord does not allow next_smaller"):
        sheet.pick("c.I", "nec_cord", "two", at_most=I)
    with pytest.raises(TypeError, match="nec_cord: name a key, at_least or at_most"):
        sheet.pick("c.I", "nec_cord", "two")


def test_an_assumed_value_prints_as_assumed(sheet: Worksheet) -> None:
    """It is a row of its table, with why and how to measure it."""
    drop = sheet.assume("drive.U_d", "drive drop")

    assert (float(drop), drop.unit) == (2.2, VOLT)
    assert isinstance(drop.parent, Row)
    assert drop.parent.cell.table is table("assumed")
    assert drop.parent.cell.note("why") == "two silicon junctions of about 1.1 V"
    assert drop.label == drop.parent.cell.note("label")


def test_what_is_known_is_not_assumed(sheet: Worksheet) -> None:
    """Written: itself. Not written: the assumed value under the same id with a mark."""
    written = sheet.known_or_assumed(value(1.8, VOLT, "power.drop"), "drive drop")
    missing = sheet.known_or_assumed(unknown("supply.drop", VOLT, "not in the file", "drop of the drive"), "drive drop")

    assert float(written) == 1.8
    assert (missing.id, float(missing)) == ("supply.drop~", 2.2)
    assert missing.label == table("assumed").cell("drive drop", "value").note("label")
    assert set(sheet.values) == {"power.drop", "supply.drop~"}


def test_a_solved_model_is_a_parent_of_its_own_kind(sheet: Worksheet) -> None:
    model = Model("bridge", {"V_s": V, "I": I}, "the current", derivation("a test"))
    solved = sheet.solved("p.I_rms", 4.2, AMPERE, model, "current")
    unsolved = sheet.unsolved("p.I_peak", AMPERE, "no solution", "peak", (NOBODY_KNOWS,))

    assert float(solved) == 4.2
    assert roots(solved) == (V, I)
    assert (unsolved.known, unsolved.why) == (False, "no solution")
    assert roots(unsolved) == (NOBODY_KNOWS,)
    with pytest.raises(ValueError, match="worked twice"):
        sheet.solved("p.I_rms", 4.2, AMPERE, model, "current")


def test_sheets_do_not_know_each_other() -> None:
    one, other = Worksheet(), Worksheet()
    one.work("w.l", conductors.wire_length, l=value(1.0, METRE, "w.a"), l_s=value(0.1, METRE, "w.b"))

    assert other.values == {}
