"""A wet place: voltages and boxes from both sides of the line (IEC 60364-4-41, 414.4.5, 30 V DC; NEC 210.8; from memory)."""

from pathlib import Path

import pytest

from buildsheet.plan import Plan, plan
from buildsheet.project import load, read

PROJECTS = Path(__file__).resolve().parents[2] / "projects"


def changed(name: str, *changes: tuple[str, str]) -> Plan:
    text = (PROJECTS / name / f"{name}.yaml").read_text(encoding="utf-8")
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    return plan(read(text, f"{name}.yaml"))


SANDER_WET = ("where: dry shed", "where: outdoors")
SEPARATED = ("separation: none", "separation: galvanic")
CASES = [
    ("root-washer", "wet-battery", "note", []),
    ("root-washer", "wet-box", "stop", [("mm, steel, sealed", "mm, steel, vented")]),
    ("root-washer", "wet-battery-high", "heed", [("battery: 24 V", "battery: 36 V"), ("battery_voltage: 24 V", "battery_voltage: 36 V"), ("battery_most: 36 V", "battery_most: 50 V")]),
    ("strip-sander", "wet-line", "heed", [SANDER_WET, SEPARATED]),
    ("strip-sander", "wet-no-residual-current", "stop", [SANDER_WET, SEPARATED, ("breaker, GFCI, plug", "breaker, plug")]),
    ("strip-sander", "wet-no-residual-current", "stop", [SANDER_WET, SEPARATED, ("GFCI, plug", "none, plug")]),
    ("strip-sander", "live-controls-wet", "stop", [SANDER_WET]),
    ("strip-sander", "wet-box", "stop", [SANDER_WET, SEPARATED, ("mm, steel, sealed", "mm, steel, vented")]),
]


@pytest.mark.parametrize(("machine", "name", "grade", "changes"), CASES, ids=[f"{case[0]}-{case[1]}-{k}" for k, case in enumerate(CASES)])
def test_each_is_told(machine: str, name: str, grade: str, changes: list[tuple[str, str]]) -> None:
    found = {finding.id: finding for finding in changed(machine, *changes).findings}
    assert name in found, sorted(found)
    assert found[name].grade == grade


@pytest.mark.parametrize("machine", ["strip-sander", "yarn-twister", "seed-cleaner"])
def test_in_the_dry_nothing_is_said(machine: str) -> None:
    made = plan(load(PROJECTS / machine / f"{machine}.yaml"))
    assert not [finding.id for finding in made.findings if finding.id.startswith("wet-")]
