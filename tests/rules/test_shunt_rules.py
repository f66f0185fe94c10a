"""What is said of a motor whose field has a supply of its own: each rule speaks when its danger is in the file."""

from pathlib import Path

import pytest

from buildsheet.plan import Plan, plan
from buildsheet.project import read
from tests.rules.test_rules import speaking

PROJECTS = Path(__file__).resolve().parents[2] / "projects"
TEXT = (PROJECTS / "flax-breaker/flax-breaker.yaml").read_text(encoding="utf-8")


def planned(*changes: tuple[str, str]) -> Plan:
    """The flax breaker with some of its lines changed; every change must hit."""
    text = TEXT
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    return plan(read(text, "flax-breaker.yaml"))


PLATE = "field_plate: 180 V, 0.40 A"
# finding, grade, changes (the source stands with the rule in buildsheet/rules)
CASES = [
    ("field-lost", "note", []),
    ("field-heats-at-rest", "heed", []),
    ("reverse-armature-only", "note", []),
    ("brakes-only-with-field", "note", []),
    ("fault-field-lost", "note", []),
    ("fault-field-unwatched", "note", []),
    ("never-plugged", "note", []),
    ("field-not-watched", "stop", [("  field_relay: true\n", "")]),
    ("field-not-watched", "stop", [("field_relay: true", "field_relay: false")]),
    ("field-not-watched", "stop", [("  field_relay: true\n  field_fuse: true\n", "")]),
    ("proof-field-1", "stop", [("  field_relay: true\n", "")]),
    ("field-unknown", "stop", [(f"  {PLATE}\n", "")]),
    ("field-unknown", "stop", [("  field_winding: 345 ohm\n", "")]),
    ("field-too-weak", "stop", [(PLATE, "field_plate: 300 V, 0.66 A")]),
    ("field-weak", "note", [(PLATE, "field_plate: 250 V, 0.52 A")]),
    ("weak-field-spin-test", "note", [("113 V at 1000 rpm, 0.40 A", "22 V at 1000 rpm, 0.05 A")]),
    ("weak-field-free-run", "note", [("0.40 A field", "0.05 A field")]),
    ("field-disagrees", "stop", [("field_winding: 345 ohm", "field_winding: 170 ohm")]),
    ("field-disagrees", "stop", [("field_winding: 345 ohm", "field_winding: 700 ohm")]),
    ("field-resistor-hot", "heed", [(PLATE, "field_plate: 100 V, 0.72 A"), ("field_winding: 345 ohm", "field_winding: 106 ohm"), ("1000 rpm, 0.40 A", "1000 rpm, 0.72 A"), ("0.40 A field", "0.72 A field")]),
    ("brake-not-possible", "stop", [("field_fuse: true", "field_fuse: true\n  brake: true")]),
    ("runaway-upper-roller", "stop", [("diameter: 110 mm, rated: 1200 rpm, basis: marked on the part}\n  - {part: lower", "diameter: 110 mm, rated: 700 rpm, basis: marked on the part}\n  - {part: lower")]),
    ("runaway-motor-rotor", "stop", [("rotor: 5000 rpm", "rotor: 3500 rpm")]),
]


@pytest.mark.parametrize(("name", "grade", "changes"), CASES, ids=[f"{case[0]}-{number}" for number, case in enumerate(CASES)])
def test_the_rule_speaks(name: str, grade: str, changes: list[tuple[str, str]]) -> None:
    found = speaking(planned(*changes))
    assert name in found
    assert found[name].grade == grade
    if grade == "stop":
        assert found[name].stops


def test_no_way_but_a_phase_controlled_drive_may_feed_it() -> None:
    """On every other way it is a stop, by the matrix or because nothing of this version would feed its field there."""
    motor = TEXT[TEXT.index("motor:\n") : TEXT.index("belts:\n")]
    for name in ("grain-crusher", "bobbin-winder", "edge-burnisher", "ink-mixer", "wool-carder", "plaster-stirrer", "seed-coater", "stone-tumbler", "clay-mixer"):
        text = (PROJECTS / name / f"{name}.yaml").read_text(encoding="utf-8")
        start = text.index("\nmotor:\n") + 1
        end = next(text.index(f"\n{key}:") for key in ("belts", "turning", "power") if f"\n{key}:" in text) + 1
        made = plan(read(text[:start] + motor + text[end:], f"{name}.yaml"))
        own = {finding.id for finding in made.findings if finding.stops}
        may = made.project.power is not None and made.project.power.feeds_apart
        wanted = "field-not-watched" if may else "field-not-fed"
        assert wanted in own, (name, own)


def test_parts_of_a_field_that_the_motor_has_not_are_told() -> None:
    text = (PROJECTS / "strip-sander/strip-sander.yaml").read_text(encoding="utf-8")
    for line in ("field_relay: true", "field_fuse: true"):
        made = plan(read(text.replace("controls:\n", f"controls:\n  {line}\n", 1), "strip-sander.yaml"))
        assert speaking(made)["field-parts-needless"].grade == "note"
        assert made.circuit is not None
        assert not {"K3", "F7"} & set(made.circuit.devices)


def test_what_the_magnets_are_told_is_not_told_of_a_field() -> None:
    assert "magnets" not in speaking(planned())["never-plugged"].why


def test_without_its_relay_no_fuse_of_the_field_makes_it_good() -> None:
    """A fuse that blows takes the field away: it is allowed because of the relay alone."""
    made = planned(("  field_relay: true\n", ""))

    assert "one more part that can take it away" in speaking(made)["field-not-watched"].found.text
    assert made.state == "draft"
