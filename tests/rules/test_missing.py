"""What is not known: one root, one finding, which names what follows from it and what to write."""

import re

import pytest

from buildsheet.packet.ink import Ink
from buildsheet.packet.words import check_text
from buildsheet.plan import Plan
from buildsheet.sizing.finding import Finding
from tests.rules.test_rules import SANDER, planned, speaking

RUNS = "runs: {cord: 2.5 m, motor: 900 mm, panel: 350 mm}\n"
PROVEN = next(line for line in SANDER.splitlines(keepends=True) if line.strip().startswith(("rotor:", "old_run:")))
SWAPPED = ("3.2 V at 1.0 A, 6.2 V at 3.0 A", "6.2 V at 1.0 A, 3.2 V at 3.0 A")

# What is taken out of the file -> the finding that leads, a key that it must name, rules that it must speak for.
ROOTS = [
    (("runs: {cord: 2.5 m, ", "runs: {"), "not-known-runs-cord", "runs: cord", {"no-circuit"}),
    ((RUNS, ""), "not-known-runs-cord", "runs: panel", {"no-circuit"}),
    (("supply: 120 V 60 Hz, ", "supply: "), "not-known-supply-voltage", "supply: frequency", {"no-circuit", "no-operating-point", "runaway-unknown-contact-drum"}),
    (("  power: 180 W\n", ""), "not-known-machine-power", "machine: power, torque or cut", {"no-circuit", "no-operating-point"}),
    (("  drum: 130 mm\n", ""), "not-known-machine-drum", "machine: drum", {"no-circuit", "over-speed-unknown-motor-rotor"}),
    (SWAPPED, "held-readings", "motor: held", {"no-circuit", "no-operating-point", "runaway-unknown-idler"}),
]  # fmt: skip


def stops(made: Plan) -> list[Finding]:
    return [finding for finding in made.findings if finding.stops]


@pytest.mark.parametrize(("change", "name", "key", "follow"), ROOTS, ids=[root[2] for root in ROOTS])
def test_one_root_is_told_once(change: tuple[str, str], name: str, key: str, follow: set[str]) -> None:
    """By hand from the file: what is taken out is the one thing that is wrong with it."""
    made = planned(change)
    assert [finding.id for finding in stops(made)] == [name]
    root = stops(made)[0]
    assert follow <= set(root.follows)
    assert key in f"{root.found.text} {root.do}"
    assert "It leaves open: " in root.found.text
    assert check_text(made, everything=False).splitlines()[1].startswith("STOP")


def test_roots_that_have_nothing_to_do_with_each_other_stay_apart() -> None:
    """Cable lengths, the rotor's speed and the knob's resistance: three things to find out, three findings."""
    made = planned((RUNS, ""), (PROVEN, ""), ("  potentiometer: 5 kohm\n", ""))
    assert {finding.id for finding in stops(made)} == {"not-known-runs-cord", "speed-unknown-motor-rotor", "potentiometer-unknown"}


def test_a_finding_about_the_root_leads_what_follows_from_it() -> None:
    """It keeps its own words of what to do."""
    made = planned(("  potentiometer: 5 kohm\n", ""))
    root = next(finding for finding in made.findings if finding.id == "potentiometer-unknown")
    assert "part-potentiometer" in root.follows
    assert root.do.startswith("Read it off the drive")


@pytest.mark.parametrize(
    "change",
    [*(root[0] for root in ROOTS if root[1] != "held-readings"), (PROVEN, ""), ("  rated: 10 A\n", "")],
)
def test_what_a_stop_waits_for_is_asked(change: tuple[str, str]) -> None:
    """No stop for want of a value beside 'no things to find out'."""
    made = planned(change)
    assert stops(made)
    assert made.questions
    assert all(question.paste.strip() for question in made.questions)


def test_the_circuit_names_everything_that_it_waits_for() -> None:
    """A length and the operating point at once; not a size that is known."""
    made = planned(("runs: {cord: 2.5 m, motor: 900 mm, panel: 350 mm}", "runs: {cord: 2.5 m, motor: 900 mm}"), ("  power: 180 W\n", ""))
    told = speaking(made)["no-circuit"]
    assert "runs: panel" in told.found.text
    assert "machine: power, torque or cut" in told.found.text
    assert "runs: cord" not in told.found.text


MUST = ("  - ", "  kind: magnet-dc", "  way:")  # list items, and keys that their group can't be without
LINES = [line for line in SANDER.splitlines(keepends=True) if line.startswith("  ") and not line.startswith(MUST)]
RAW = re.compile(r"\d\.\d{4,}|\de[-+]\d")  # a float as the machine writes it


@pytest.mark.parametrize("line", LINES, ids=[line.strip()[:40] for line in LINES])
def test_texts_are_true_whatever_is_missing(line: str) -> None:
    """No need is printed as 'not known', no number as the machine writes it, and each finding says what to do."""
    made = planned((line, ""))
    for finding in made.findings:
        text = Ink().plain(finding.found)
        assert "needs not known" not in text
        assert "not known to" not in text
        assert not RAW.search(f"{text} {finding.why}"), text
        assert "check` lists it" not in finding.do
        assert finding.do
    ids = [name for finding in made.findings for name in (finding.id, *finding.follows)]
    assert len(ids) == len(set(ids))


def test_swapped_readings_are_named_with_their_line() -> None:
    """A winding takes more volts for more amperes (Ohm's law): 6.2 V at 1 A and 3.2 V at 3 A are two readings swapped."""
    root = stops(planned(SWAPPED))[0]
    assert "swapped" in root.do
    assert root.where is not None
    assert SANDER.splitlines()[root.where.line - 1].strip().startswith("held:")


@pytest.mark.parametrize(("odd", "says"), [("0.32 V at 1.0 A, 6.2 V at 3.0 A", "-2.62"), ("3.2 V at 1.0 A, 6.2 V at 1.0 A", "swapped")])
def test_readings_that_cannot_be_right_are_told_in_three_figures(odd: str, says: str) -> None:
    """(6.2 - 0.32)/2 = 2.94 ohm, so 0.32 V - 1 A times 2.94 ohm leaves -2.62 V for the brushes."""
    made = planned((SWAPPED[0], odd))
    text = " ".join(f"{Ink().plain(finding.found)} {finding.do}" for finding in stops(made))
    assert says in text
    assert not RAW.search(text)


@pytest.mark.parametrize("change", [("rated: 5000 rpm", "rated: 3000 rpm"), SWAPPED])
def test_names_out_of_the_file_are_no_format(change: tuple[str, str]) -> None:
    """A part may be called {5}: its name is printed as it stands."""
    made = planned(change, ("{part: contact drum,", "{part: '{5} drum',"))
    assert "{5} drum" in check_text(made, everything=True)


def test_a_separated_drive_raises_no_danger_of_live_controls() -> None:
    """The knob's wires are then not at line voltage; the motor's still are."""
    made = planned(("separation: none", "separation: galvanic"))
    assert "live-controls" not in speaking(made)
    danger = speaking(made)["line-voltage"]
    assert "separated" in danger.found.text
    text = check_text(made, everything=True)
    assert "also with the knob at zero" not in text
    assert "knob's wires too" not in text


def test_a_drive_of_unknown_separation_does_not_claim_to_know() -> None:
    made = planned(("  separation: none\n", ""))
    assert speaking(made)["live-controls"].why.startswith("Nobody knows")


def test_one_speed_needs_no_start_from_zero() -> None:
    """The knob then never stands anywhere else."""
    made = planned(("starts_from_zero: true", "starts_from_zero: false"), ("8..15 m/s", "15..15 m/s"))
    assert "starts-at-knob" not in speaking(made)
