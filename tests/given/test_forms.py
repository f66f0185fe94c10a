"""Short and long forms, places of pieces, and the traps that YAML lays."""

import pytest

from buildsheet.project import Project
from buildsheet.units import HERTZ, KELVIN, METRE, METRE_PER_SECOND, RADIAN_PER_SECOND, VOLT, WATT
from buildsheet.worksheet import Absent, Input, Value
from tests.given.files import HEAD, facts, problem, reads, refused

# Short form under its key, the same in keys.
FORMS: list[tuple[str, str]] = [
    (
        "supply: 120 V 60 Hz, 15 A breaker, GFCI, plug",
        "supply: {voltage: 120 V, frequency: 60 Hz, breaker: 15 A, residual_current: GFCI, connection: plug}",
    ),
    (
        "supply: 230 V, 50 Hz, 1000 A fault, 16 A breaker, RCD, fixed, two hot",
        "supply: {voltage: 230 V, frequency: 50 Hz, fault_current: 1000 A, breaker: 16 A, residual_current: RCD, connection: fixed, poles: two-hot}",
    ),
    ("supply: plug, GFCI, 15 A breaker, 120 V", "supply: {voltage: 120 V, breaker: 15 A, residual_current: GFCI, connection: plug}"),
    ("machine: {duty: '20 min on, 10 min off'}", "machine: {duty: {on: 20 min, off: 10 min}}"),
    ("machine: {duty: '10 min off, 20 min on'}", "machine: {duty: {on: 20 min, off: 10 min}}"),
    (
        "machine: {speed: '8..15 m/s, never above 20 m/s'}",
        "machine: {speed: {low: 8 m/s, high: 15 m/s, limit: 20 m/s}}",
    ),
    ("machine: {speed: 40..280 rpm}", "machine: {speed: {low: 40 rpm, high: 280 rpm}}"),
    (
        "belts:\n  - 80 -> 63 mm, poly-V, centres 250 mm",
        "belts:\n  - {driver: 80 mm, driven: 63 mm, belt: poly-V, centres: 250 mm}",
    ),
    ("belts:\n  - 1 1/2 -> 6 in, V", "belts:\n  - {driver: 1 1/2 in, driven: 6 in, belt: V}"),
    (
        "motor: {kind: magnet-dc, plate: '90 V, 5.0 A, 1725 rpm, 0.5 hp, FF 1.4'}",
        "motor: {kind: magnet-dc, plate: {voltage: 90 V, current: 5.0 A, speed: 1725 rpm, power: 0.5 hp, form_factor: 1.4}}",
    ),
    (
        "motor: {kind: magnet-dc, plate: '3/4 hp, 180 V'}",
        "motor: {kind: magnet-dc, plate: {power: 3/4 hp, voltage: 180 V}}",
    ),
    ("motor: {kind: magnet-dc, spun: 46.9 V at 1000 rpm}", "motor: {kind: magnet-dc, spun: {voltage: 46.9 V, speed: 1000 rpm}}"),
    (
        "motor: {kind: magnet-dc, held: '3.2 V at 1.0 A, 6.2 V at 3.0 A'}",
        "motor: {kind: magnet-dc, held: {voltage_1: 3.2 V, current_1: 1.0 A, voltage_2: 6.2 V, current_2: 3.0 A}}",
    ),
    (
        "motor: {kind: magnet-dc, free_run: '12.0 V, 203 rpm, 0.48 A'}",
        "motor: {kind: magnet-dc, free_run: {voltage: 12.0 V, speed: 203 rpm, current: 0.48 A}}",
    ),
    (
        "motor: {kind: magnet-dc, alternating: '12.0 V 60 Hz, 2.96 A'}",
        "motor: {kind: magnet-dc, alternating: {voltage: 12.0 V, frequency: 60 Hz, current: 2.96 A}}",
    ),
    (
        "box: 300 x 200 x 120 mm, steel, vented, on a wall",
        "box: {width: 300 mm, height: 200 mm, depth: 120 mm, material: steel, openings: vented, mounting: on a wall}",
    ),
    ("box: 300 × 200 × 120 mm", "box: {width: 300 mm, height: 200 mm, depth: 120 mm}"),
    (
        "on_hand:\n  - contactor, 20 A 250 V AC, 2-pole, salvaged",
        "on_hand:\n  - {kind: contactor, current: 20 A, voltage: 250 V, supply: AC, poles: 2-pole, origin: salvaged}",
    ),
    (
        "on_hand:\n  - cord, 14 AWG, 2.5 m, 15 A 300 V, salvaged",
        "on_hand:\n  - {kind: cord, gauge: 14 AWG, length: 2.5 m, current: 15 A, voltage: 300 V, origin: salvaged}",
    ),
    (
        "on_hand:\n  - fuse, 6 A, breaks 10 kA, 250 V, time-lag",
        "on_hand:\n  - {kind: fuse, current: 6 A, breaking: 10 kA, voltage: 250 V, lag: time-lag}",
    ),
]


@pytest.mark.parametrize(("short", "long"), FORMS, ids=[short.splitlines()[-1].strip()[:50] for short, _ in FORMS])
def test_short_form_says_what_the_long_form_says(short: str, long: str) -> None:
    """Same kinds, same numbers, same keys."""
    assert facts(reads(short + "\n")) == facts(reads(long + "\n"))


def test_a_form_factor_is_told_by_its_letters() -> None:
    """A plain number has no unit to be known by: `FF` in front of it says what it is, and without it it is refused."""
    motor = reads("motor: {kind: magnet-dc, plate: '90 V, FF 1.40, 5 A'}\n").motor
    assert motor is not None
    assert motor.plate is not None

    assert float(motor.plate.form_factor) == 1.40
    assert problem("motor: {kind: magnet-dc, plate: '90 V, 1.40, 5 A'}\n").code == "bare-number"


def _place(value: Value) -> tuple[int, int, str, str]:
    assert isinstance(value.parent, Input)
    return value.parent.line, value.parent.column, value.parent.text, value.parent.key


def test_pieces_of_a_short_form_know_their_own_column() -> None:
    """Counted by hand; the first line is the format number."""
    supply = reads("supply: 120 V 60 Hz, 15 A breaker, GFCI, plug\n").supply
    assert supply is not None

    assert _place(supply.voltage) == (2, 9, "120 V", "supply.voltage")
    assert _place(supply.frequency) == (2, 15, "60 Hz", "supply.frequency")
    assert _place(supply.breaker) == (2, 22, "15 A", "supply.breaker")


def test_numbers_that_share_a_unit_each_have_their_column() -> None:
    """`8..15 m/s`: both read with the unit, each at its own figure; the words before a limit are not part of it."""
    machine = reads("machine:\n  speed: 8..15 m/s, never above 20 m/s\n").machine
    assert machine is not None
    assert machine.speed is not None

    assert _place(machine.speed.low) == (3, 10, "8 m/s", "machine.speed.low")
    assert _place(machine.speed.high) == (3, 13, "15 m/s", "machine.speed.high")
    assert _place(machine.speed.limit)[:2] == (3, 33)


def test_columns_in_lists_quotes_and_braces() -> None:
    """The quote is not part of the text; items are numbered from one."""
    project = reads("belts:\n  - '80 -> 63 mm'\nsite: {ambient: \"35 degC\"}\n")
    assert project.site is not None

    assert _place(project.belts[0].driver) == (3, 6, "80 mm", "belts.1.driver")
    assert _place(project.belts[0].driven) == (3, 12, "63 mm", "belts.1.driven")
    assert _place(project.site.ambient) == (4, 18, "35 degC", "site.ambient")


def test_a_text_over_several_lines_points_at_its_beginning() -> None:
    """A column inside a folded text can't be told, so none is made up."""
    supply = reads("supply: >\n  120 V,\n  60 Hz\n").supply
    assert supply is not None

    assert _place(supply.voltage)[:2] == _place(supply.frequency)[:2] == (2, 9)


@pytest.mark.parametrize(
    ("text", "code", "column", "width"),
    [
        ("supply: 120 V 60 Hz, 15 X breaker", "unknown-unit", 22, 12),
        ("supply: 120 V 60 Hz, 15, plug", "bare-number", 22, 2),
        ("supply: 120 V 60 Hz, plugg", "unknown-word", 22, 5),
        ("supply: 120 V, 130 V", "unknown-word", 16, 5),
        ("supply: 120 V, 7,5 A breaker", "decimal-comma", 16, 13),
        ("supply: 120 V, 500 A breaker", "out-of-range", 16, 5),
        ("box: 300 x 200 mm x 5", "unknown-word", 6, 16),
        ("machine: {duty: 20 min on, off: 10 min}", "unknown-key", 28, 3),
    ],
)
def test_a_fault_in_a_short_form_points_at_its_piece(text: str, code: str, column: int, width: int) -> None:
    """Not at the whole line. Between commas the piece is the smallest thing that is pointed at."""
    found = problem(text + "\n")

    assert (found.line, found.column, found.code, found.width) == (2, column, code, width)
    assert found.instead


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("machine: {reverse: no}", "not-a-flag"),
        ("machine: {reverse: on}", "not-a-flag"),
        ("machine: {reverse: True}", "not-a-flag"),
        ("machine: {reverse: 1}", "not-a-flag"),
        ("machine: {duty: {on: yes}}", "not-a-quantity"),
        ("site: {ambient: 12:30}", "unknown-unit"),
        ("site: {ambient: 0x10 degC}", "unknown-unit"),
        ("site: {altitude: 1_000 m}", "unknown-unit"),
        ("supply: {breaker: 7,5 A}", "unknown-key"),  # braces split at the comma: the rest is a key of its own
        ('supply: {breaker: "7,5 A"}', "decimal-comma"),
        ("motor: {kind: magnet-dc, winding: ~}", "not-a-quantity"),
        ("motor: {kind: magnet-dc, winding: null}", "not-a-quantity"),
        ("site: {where: null}", "unknown-word"),
    ],
)
def test_traps_of_yaml_are_refused_where_they_matter(text: str, code: str) -> None:
    """`no`, `on`, `12:30`, `null` are words here, and words are no flags and no quantities."""
    assert code in [one.code for one in refused(HEAD + text + "\n").problems]


def test_traps_of_yaml_keep_their_spelling_where_they_are_words() -> None:
    """A machine may be called `no`, a number be `010`; a leading zero is no octal, `1e3` is a number."""
    project = reads(
        "machine: {name: no, number: 010, purpose: 12:30}\nsite: {altitude: 0300 m}\n"
        "motor: {kind: magnet-dc, winding: 1e3 ohm}\nrevisions: [{rev: 1e3, date: 2026-03-14}]\n"
    )
    assert project.machine is not None
    assert project.site is not None
    assert project.motor is not None

    assert (project.machine.name, project.machine.number, project.machine.purpose) == ("no", "010", "12:30")
    assert (float(project.site.altitude), float(project.motor.winding)) == (300.0, 1000.0)
    assert (project.revisions[0].rev, project.revisions[0].date) == ("1e3", "2026-03-14")


def test_the_key_on_is_a_word_too() -> None:
    machine = reads("machine:\n  duty:\n    on: 20 min\n    off: 10 min\n").machine

    assert machine is not None
    assert machine.duty is not None
    assert float(machine.duty.on) == 1200.0


def test_flags_are_true_and_false() -> None:
    for word, flag in (("true", True), ("false", False)):
        machine = reads(f"machine: {{reverse: {word}}}\n").machine
        assert machine is not None
        assert machine.reverse is flag


def test_what_is_not_written_is_unknown_with_its_key() -> None:
    """Never zero, never a plausible number; not even the group has to be there."""
    project = reads("site: {}\n")
    assert project.site is not None
    assert project.motor is None

    assert not project.site.ambient.known
    assert project.site.ambient.parent == Absent("not in the file")
    assert project.site.ambient.id == "site.ambient"
    assert project.site.where is None


def test_a_file_with_its_format_number_alone_is_a_project() -> None:
    project = reads("")

    assert isinstance(project, Project)
    assert (project.machine, project.motor, project.belts) == (None, None, ())


def test_a_field_of_two_kinds_takes_the_kind_that_was_written() -> None:
    """Speed of the tool as rim speed or as turns."""
    machine = reads("machine: {speed: {low: 8 m/s, high: 280 rpm}}\n").machine
    assert machine is not None
    assert machine.speed is not None

    assert machine.speed.low.unit is METRE_PER_SECOND
    assert machine.speed.high.unit is RADIAN_PER_SECOND


def test_values_carry_their_kind() -> None:
    project = reads("supply: 120 V 60 Hz\nsite: {ambient: 95 degF, altitude: 1000 ft}\nmachine: {power: 1/4 hp}\n")
    assert project.supply is not None
    assert project.site is not None
    assert project.machine is not None

    assert (project.supply.voltage.unit, project.supply.frequency.unit) == (VOLT, HERTZ)
    assert (project.site.ambient.unit, project.site.altitude.unit) == (KELVIN, METRE)
    assert project.machine.power.unit is WATT
    assert float(project.site.ambient) == pytest.approx(308.15)
    assert float(project.site.altitude) == pytest.approx(304.8)
    assert float(project.machine.power) == pytest.approx(186.4249678955)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("site: {ambient: -30 degC}", ""), ("site: {ambient: -30.1 degC}", "out-of-range"), ("site: {ambient: 60 degC}", ""),
        ("site: {ambient: 60.1 degC}", "out-of-range"), ("supply: {voltage: 1000 V}", ""), ("supply: {voltage: 1001 V}", "out-of-range"),
        ("supply: {voltage: 0.01 V}", ""), ("supply: {voltage: 0.009 V}", "out-of-range"), ("supply: {voltage: -5 V}", "out-of-range"),
    ],
)  # fmt: skip
def test_bounds_from_both_sides(text: str, code: str) -> None:
    """The limit itself is inside."""
    if code:
        assert problem(text + "\n").code == code
    else:
        reads(text + "\n")


def test_models_are_frozen() -> None:
    project = reads("machine: {name: x}\n")

    with pytest.raises(Exception, match="frozen"):
        project.machine = None
