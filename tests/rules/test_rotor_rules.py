"""Rules of home-made parts that turn: no use before a spin test that stands in the file and proves what runaway asks."""

from pathlib import Path

import pytest

from buildsheet.plan import Plan, plan
from buildsheet.project import read
from buildsheet.sizing.finding import Finding

WINDER = (Path(__file__).resolve().parents[2] / "projects/bobbin-winder/bobbin-winder.yaml").read_text(encoding="utf-8")
TEST = "spin_test: {date: 2026-11-20, by: A. Builder, speed: 3000 rpm, shield: true, found: sound}"
PART = f"  - {{part: bobbin disc, shaft: tool, diameter: 200 mm, homemade: {{material: birch plywood, bore: 20 mm, {TEST}}}}}\n"
# finding, grade, changes of the part; 1.2 times the runaway of its shaft is some 2200 rpm
CASES = [
    ("spin-test-bobbin-disc", "only-with", [(f", {TEST}", "")]),
    ("spin-test-bobbin-disc-incomplete", "only-with", [(", shield: true", "")]),
    ("spin-test-bobbin-disc-incomplete", "only-with", [(", found: sound", "")]),
    ("spin-test-bobbin-disc-incomplete", "only-with", [(" speed: 3000 rpm,", "")]),
    ("spin-test-bobbin-disc-unshielded", "stop", [("shield: true", "shield: false")]),
    ("spin-test-bobbin-disc-failed", "stop", [("found: sound", "found: cracked")]),
    ("spin-test-bobbin-disc-failed", "stop", [("found: sound", "found: grown or out of true")]),
    ("spin-test-bobbin-disc-too-slow", "stop", [("speed: 3000 rpm", "speed: 1900 rpm")]),  # above runaway, not 1.2 times
    ("spin-test-bobbin-disc-too-fast", "stop", [("speed: 3000 rpm", "speed: 15500 rpm")]),  # above √(10/2) times the 6875 rpm it stands
    ("factor-low-bobbin-disc", "stop", [("bore: 20 mm", "bore: 20 mm, factor: 9.9")]),
    ("marked-and-home-made-bobbin-disc", "stop", [("diameter: 200 mm", "diameter: 200 mm, rated: 5000 rpm")]),
    ("marked-and-home-made-bobbin-disc", "stop", [("diameter: 200 mm", "diameter: 200 mm, basis: calculated")]),
    ("speed-unknown-bobbin-disc", "stop", [(" bore: 20 mm,", "")]),
    ("speed-unknown-bobbin-disc", "stop", [(" diameter: 200 mm,", "")]),
    ("speed-unknown-bobbin-disc", "stop", [("bore: 20 mm", "bore: 220 mm")]),  # larger than the disc
    ("speed-unknown-bobbin-disc", "stop", [("bore: 20 mm", "bore: 20 mm, factor: 1.2")]),  # under what the formula works with
    ("runaway-bobbin-disc", "stop", [("birch plywood", "hardwood in one piece"), ("diameter: 200 mm", "diameter: 300 mm")]),
    ("over-speed-bobbin-disc", "stop", [("birch plywood", "hardwood in one piece"), ("diameter: 200 mm", "diameter: 900 mm")]),
]  # fmt: skip


def planned(*changes: tuple[str, str]) -> Plan:
    part = PART
    for old, new in changes:
        assert old in part, old
        part = part.replace(old, new, 1)
    return plan(read(WINDER.replace("power:\n", f"{part}power:\n", 1), "winder.yaml"))


def speaking(made: Plan) -> dict[str, Finding]:
    return {name: finding for finding in made.findings for name in (finding.id, *finding.follows)}


@pytest.mark.parametrize(("name", "grade", "changes"), CASES, ids=[f"{case[0]}-{number}" for number, case in enumerate(CASES)])
def test_the_rule_speaks(name: str, grade: str, changes: list[tuple[str, str]]) -> None:
    made = planned(*changes)
    found = speaking(made)
    assert name in found
    assert found[name].grade == grade
    assert found[name].stops
    assert made.state == "draft"


def test_a_spin_test_that_proves_it_ends_the_draft() -> None:
    """The finding stays, as what was done and what it holds for; nothing else of the part is left to say."""
    made = planned()
    assert made.state == "for building"
    about = {name: finding for name, finding in speaking(made).items() if name.endswith("bobbin-disc")}
    assert set(about) == {"spin-test-bobbin-disc"}
    assert about["spin-test-bobbin-disc"].met
    assert not about["spin-test-bobbin-disc"].stops


def test_nobody_is_told_to_spin_what_would_burst() -> None:
    """A part that runaway already takes above what it stands gets that stop, and no call for a test that is faster still."""
    made = planned((f", {TEST}", ""), ("birch plywood", "hardwood in one piece"), ("diameter: 200 mm", "diameter: 300 mm"))
    assert not any(name.startswith("spin-test") for name in speaking(made))


def test_a_test_at_the_speed_is_enough_and_just_below_is_not() -> None:
    """Both sides of the limit, the needed speed read from the design itself."""
    spin = planned().design.turning[-1].spin
    assert spin is not None
    needed = float(spin.speed) * 30 / 3.141592653589793
    assert speaking(planned(("3000 rpm", f"{needed * 1.0001:.4f} rpm")))["spin-test-bobbin-disc"].met
    assert "spin-test-bobbin-disc-too-slow" in speaking(planned(("3000 rpm", f"{needed * 0.9999:.4f} rpm")))


def test_a_test_just_under_half_the_strength_is_let_pass() -> None:
    """15300 rpm: (15300/6875)² = 4.95 times the stress at its rated speed, a tenth of the strength."""
    assert speaking(planned(("3000 rpm", "15300 rpm")))["spin-test-bobbin-disc"].met


def test_a_faster_runaway_takes_the_proof_away() -> None:
    """The same test, the machine's belt changed: 40 -> 60 mm lets the spindle run twice as fast."""
    text = WINDER.replace("power:\n", f"{PART}power:\n", 1).replace("40 -> 120 mm", "40 -> 60 mm")
    assert "spin-test-bobbin-disc-too-slow" in speaking(plan(read(text, "winder.yaml")))


def test_names_out_of_the_file_print_as_they_are() -> None:
    made = planned(("bobbin disc", '"disc {0}"'), ("A. Builder", '"A. {1} Builder"'))
    told = next(finding for finding in made.findings if finding.id.startswith("spin-test"))
    assert told.found.text.format("x").startswith("The disc {0} is home-made; A. {1} Builder")
