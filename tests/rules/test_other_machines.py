"""Rules that need a battery, a reversing machine or another region: each speaks when its danger is in the file."""

from pathlib import Path

import pytest

from buildsheet.plan import Plan, plan
from buildsheet.project import read
from buildsheet.sizing.finding import Finding

PROJECTS = Path(__file__).resolve().parents[2] / "projects"


def planned(name: str, *changes: tuple[str, str]) -> Plan:
    """A demonstration with some of its lines changed; every change must hit."""
    text = (PROJECTS / name / f"{name}.yaml").read_text(encoding="utf-8")
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    return plan(read(text, f"{name}.yaml"))


def speaking(made: Plan) -> dict[str, Finding]:
    return {name: finding for finding in made.findings for name in (finding.id, *finding.follows)}


TWISTER, CARDER = "yarn-twister", "wool-carder"
# machine, finding, grade, changes (the source stands with the rule in buildsheet/rules)
CASES = [
    (CARDER, "battery-short", "note", []),
    (CARDER, "battery-gas", "note", []),
    (CARDER, "battery-kind-unknown", "stop", [("35 Ah, lead-acid AGM", "35 Ah")]),
    (CARDER, "two-supplies", "stop", [("battery: 24 V", "supply: 120 V 60 Hz, 15 A breaker, GFCI, plug\nbattery: 24 V")]),
    (CARDER, "drive-for-another-battery", "stop", [("battery_voltage: 24 V", "battery_voltage: 12 V")]),
    (CARDER, "drive-voltage-unknown", "heed", [("  battery_most: 36 V\n", "")]),
    (CARDER, "drive-below-battery", "stop", [("battery_most: 36 V", "battery_most: 28 V")]),
    (CARDER, "battery-run-flat", "heed", [("  cut_off: 21 V\n", "")]),
    (CARDER, "battery-run-flat", "heed", [("cut_off: 21 V", "cut_off: 18 V")]),
    (CARDER, "battery-too-weak", "stop", [("20 mohm", "600 mohm")]),
    (CARDER, "speed-out-of-reach", "stop", [("60..150 rpm", "60..175 rpm")]),
    (CARDER, "drive-too-small", "stop", [("rated: 15 A", "rated: 6 A")]),
    (CARDER, "turning-not-named", "stop", [("shaft: after belt 1, diameter: 24 mm", "shaft: tool, diameter: 24 mm")]),
    (TWISTER, "never-plugged", "note", []),
    (TWISTER, "brushes-off-neutral", "note", []),
    (TWISTER, "pulley-unscrews", "stop", [("pulley: key", "pulley: left-hand thread")]),
    (TWISTER, "pulley-unscrews", "heed", [("  pulley: key\n", "")]),
    (TWISTER, "wait-unknown", "stop", [("  inertia: 0.020 kg·m²\n", "")]),
    (TWISTER, "residual-type-unknown", "heed", [("RCD type A", "RCD")]),
    (TWISTER, "residual-type-blind", "stop", [("RCD type A", "RCD type AC")]),
    (TWISTER, "used-reversing-switch", "note", []),
]  # fmt: skip


@pytest.mark.parametrize(("machine", "name", "grade", "changes"), CASES, ids=[f"{case[1]}-{number}" for number, case in enumerate(CASES)])
def test_the_rule_speaks(machine: str, name: str, grade: str, changes: list[tuple[str, str]]) -> None:
    found = speaking(planned(machine, *changes))
    assert name in found
    assert found[name].grade == grade
    if grade == "stop":
        assert found[name].stops


@pytest.mark.parametrize("machine", [TWISTER, CARDER])
def test_the_sound_machines_are_for_building(machine: str) -> None:
    made = planned(machine)
    assert made.state == "for building"
    assert not made.stopped


@pytest.mark.parametrize("kind", ["RCD type A", "RCD type F", "RCD type B"])
def test_types_that_see_pulsating_current_are_let_pass(kind: str) -> None:
    """IEC 60755: A, F and B trip on pulsating direct current."""
    assert not {"residual-type-blind", "residual-type-unknown"} & set(speaking(planned(TWISTER, ("RCD type A", kind))))


def test_a_battery_asks_for_no_residual_current_and_shows_no_line_voltage() -> None:
    made = planned(CARDER)
    assert not {"no-residual-current", "live-controls", "line-voltage", "skill"} & set(speaking(made))
    assert made.questions == ()


def test_extra_low_voltage_may_stand_in_a_wet_place() -> None:
    assert "live-controls-wet" not in speaking(planned(CARDER, ("damp cellar", "wet place")))


def test_a_battery_circuit_is_proven_like_any_other() -> None:
    """A fuse that breaks less than the battery gives stops the packet."""
    part = "on_hand:\n  - fuse, 12 A 58 V DC, breaks 1 kA\n"
    made = planned(CARDER, ("on_hand:\n", part))
    assert "part-line-fuse" in speaking(made)
    assert "breaking" in " ".join(f"{one.need.rating}" for seat in made.design.seats for one in seat.judged if one.result == "not met")
