"""Each rule speaks when its danger is in the file, alone or with others of its root; the sound machine is not stopped."""

from pathlib import Path

import pytest

from buildsheet.plan import Plan, plan
from buildsheet.project import read
from buildsheet.sizing.finding import Finding
from tests.rules.test_inspector import NOTES

SANDER = (Path(__file__).resolve().parents[2] / "projects/strip-sander/strip-sander.yaml").read_text(encoding="utf-8")


def planned(*changes: tuple[str, str]) -> Plan:
    """The sander with some of its lines changed; every change must hit."""
    text = SANDER
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    return plan(read(text, "strip-sander.yaml"))


def speaking(made: Plan) -> dict[str, Finding]:
    """What each rule said, by its id: its own finding, or the one that it is told with."""
    return {name: finding for finding in made.findings for name in (finding.id, *finding.follows)}


# finding, grade, changes, and why it is one (the source stands with the rule in buildsheet/rules)
CASES = [
    ("no-residual-current", "heed", [("GFCI, plug", "none, plug")]),
    ("no-residual-current", "heed", [("breaker, GFCI, plug", "breaker, plug")]),
    ("skill", "heed", []),
    ("skill", "heed", [("  skill: instructed\n", "")]),
    ("skill-lay", "stop", [("skill: instructed", "skill: lay")]),
    ("starts-at-knob", "heed", [("starts_from_zero: true", "starts_from_zero: false")]),
    ("starts-at-knob", "heed", [("  starts_from_zero: true\n", "")]),
    ("line-voltage", "note", [("separation: none", "separation: galvanic")]),
    ("held-readings", "stop", [("3.2 V at 1.0 A, 6.2 V at 3.0 A", "6.2 V at 1.0 A, 3.2 V at 3.0 A")]),
    ("fixed-wiring", "stop", [("GFCI, plug", "GFCI, fixed")]),
    ("overloads-circuit", "stop", [("15 A breaker", "5 A breaker")]),
    ("fuse-above-breaker", "stop", [("15 A breaker", "6 A breaker")]),
    ("voltage-drop", "heed", [("cord: 2.5 m", "cord: 49 m"), ("motor: 900 mm", "motor: 40 m")]),
    ("live-controls", "note", []),
    ("live-controls-wet", "stop", [("where: dry shed", "where: wet place")]),
    ("live-controls-wet", "stop", [("reach: within reach", "reach: within reach\n  foot_control: true")]),
    ("drive-rating-unknown", "stop", [("  rated: 10 A\n", "")]),
    ("drive-too-small", "stop", [("rated: 10 A", "rated: 2 A")]),
    ("drive-too-small", "stop", [("rated_bare: 5 A", "rated_bare: 2 A"), ("cooled_by: fan", "cooled_by: nothing")]),
    ("speed-out-of-reach", "stop", [("output_high: 90 V", "output_high: 70 V")]),
    ("no-operating-point", "stop", [("  power: 180 W\n", "")]),
    ("drive-for-another-line", "stop", [("line_voltage: 120 V", "line_voltage: 240 V")]),
    ("drive-line-unknown", "note", [("  line_voltage: 120 V\n", "")]),
    ("output-beyond-line", "stop", [("output_high: 90 V", "output_high: 180 V")]),
    ("drive-above-motor", "stop", [("plate: 90 V", "plate: 45 V")]),
    ("drive-above-motor", "heed", [("output_high: 90 V", "output_high: 105 V")]),
    ("fan-for-another-line", "stop", [("voltage: 120 V, power: 14 W", "voltage: 12 V, power: 14 W")]),
    ("overload-not-shown", "stop", [("{by: relay}", "{by: thermal protector}")]),
    ("overload-not-shown", "stop", [("{by: relay}", "{by: drive current limit}")]),
    ("limit-beyond-drive", "stop", [("current_limit: 4.5 A", "current_limit: 75 A")]),
    ("limit-high-for-motor", "heed", [("current_limit: 4.5 A", "current_limit: 9 A")]),
    ("ratings-swapped", "stop", [("rated: 10 A", "rated: 4 A")]),
    ("potentiometer-unknown", "stop", [("  potentiometer: 5 kohm\n", "")]),
    ("turning-not-named", "stop", [("  - {part: motor pulley, shaft: motor, diameter: 80 mm, rated: 30 m/s, basis: rim limit of its material}\n", "")]),
    ("turning-not-named", "stop", [("  - {part: abrasive belt, shaft: tool, diameter: 130 mm, rated: 35 m/s, basis: marked on the part}\n", "")]),
    ("pulleys-overlap-1", "stop", [("centres 250 mm", "centres 50 mm")]),
    ("box-not-metal", "stop", [("200 mm, steel", "200 mm, plastic")]),
    ("speeds-reversed", "stop", [("8..15 m/s", "15..8 m/s")]),
    ("part-line-fuse", "heed", [("on_hand:\n", "on_hand:\n  - fuse, 10 A 600 V AC, breaks 10000 A, time-lag\n")]),
    ("open-low-end", "heed", [("open_low_end: stops", "open_low_end: full speed")]),
    ("open-low-end", "note", [("  open_low_end: stops\n", "")]),
    ("no-overload", "stop", [("  overload: {by: relay}\n", "")]),
    ("overload-too-low", "stop", [("power: 180 W", "power: 320 W")]),
    ("no-volt-release-refused", "stop", [("controls:\n", "controls:\n  no_volt_release: false\n")]),
    ("self-resetting-protector", "stop", [("controls:\n", "controls:\n  no_volt_release: false\n"), ("protector: none", "protector: self-resetting")]),
    ("protector-not-in-chain", "stop", [("protector: none", "protector: self-resetting")]),
    ("no-emergency-stop", "stop", [("controls:\n", "controls:\n  emergency_stop: false\n")]),
    ("no-disconnect", "stop", [("controls:\n", "controls:\n  disconnect: false\n")]),
    ("speed-unknown-motor-rotor", "stop", [("  rotor: 4200 rpm\n", "")]),
    ("over-speed-contact-drum", "stop", [("diameter: 130 mm, rated: 5000 rpm, basis: marked on the part}\n  - {part: idler", "diameter: 130 mm, rated: 2000 rpm, basis: marked on the part}\n  - {part: idler")]),
    ("runaway-contact-drum", "stop", [("diameter: 130 mm, rated: 5000 rpm, basis: marked on the part}\n  - {part: idler", "diameter: 130 mm, rated: 3000 rpm, basis: marked on the part}\n  - {part: idler")]),
    ("runaway-abrasive-belt", "stop", [("rated: 35 m/s", "rated: 25 m/s")]),
    ("above-own-limit", "stop", [("never above 35 m/s", "never above 12 m/s")]),
    ("slower-than-usual", "note", [("8..15 m/s", "8..14 m/s")]),
    ("faster-than-usual", "heed", [("8..15 m/s", "8..32 m/s")]),
    ("wood-dust", "note", []),
    ("moving-tool", "note", []),
    ("coasts", "note", []),
    ("coast-unknown", "heed", [("  inertia: 0.0030 kg·m²\n", "")]),
    ("coasts-long", "only-with", [("inertia: 0.0030 kg·m²", "inertia: 0.03 kg·m²")]),
    ("plate-power", "heed", [("0.5 hp", "2.5 hp")]),
    ("inductance-assumed", "note", [("  alternating: 12.0 V 60 Hz, 2.96 A\n", "")]),
    ("constants-disagree", "heed", [("46.9 V at 1000 rpm", "60 V at 1000 rpm")]),
    ("motor-overheats", "stop", [("power: 180 W", "power: 300 W")]),
    ("motor-short-time", "heed", [("power: 180 W", "power: 240 W")]),
    ("overload-set-high", "stop", [("{by: relay}", "{by: relay, setting: 9 A}")]),
    ("many-users", "heed", [("users: household", "users: club")]),
    ("cools-badly-when-slow", "heed", []),
    ("box-too-hot", "stop", [("box: 400 x 400 x 200 mm", "box: 150 x 150 x 100 mm")]),
    ("second-insulation-lost", "only-with", [("double_insulated: false", "double_insulated: true")]),
    ("part-disconnect", "heed", []),
    ("no-circuit", "stop", [("runs: {cord: 2.5 m, motor: 900 mm, panel: 350 mm}\n", "")]),
]


@pytest.mark.parametrize(("name", "grade", "changes"), CASES, ids=[f"{case[0]}-{number}" for number, case in enumerate(CASES)])
def test_the_rule_speaks(name: str, grade: str, changes: list[tuple[str, str]]) -> None:
    found = speaking(planned(*changes))
    assert name in found
    assert found[name].grade == grade
    if grade in ("stop", "only-with"):
        assert found[name].stops


def test_the_sound_machine_is_for_building() -> None:
    made = planned()
    assert made.state == "for building"
    assert not made.stopped
    assert {finding.id for finding in made.findings} == set(NOTES["strip-sander"])


SAFETY = [("site.where", "  where: dry shed\n"), ("power.separation", "  separation: none\n"), ("motor.protector", "  protector: none\n"),
          ("supply.residual_current", " GFCI,")]  # fmt: skip


@pytest.mark.parametrize(("key", "line"), SAFETY)
def test_an_open_safety_question_keeps_the_packet_a_draft(key: str, line: str) -> None:
    """It is asked with every word that answers it, never with one of them, which could be pasted unread."""
    made = planned((line, ""))
    assert made.state == "draft"
    assert not made.stopped
    asked = [question for question in made.questions if question.safety]
    assert [question.key for question in asked] == [key]
    assert asked[0].paste.count(" | ") >= 1


@pytest.mark.parametrize("name", ["open-low-end", "part-disconnect"])
def test_a_heed_can_be_accepted_in_writing_and_a_stop_cannot(name: str) -> None:
    accept = f"accept:\n  - {{finding: {name}, why: known, by: builder, date: 2026-11-25}}\n  - {{finding: box-too-hot, why: known, by: builder, date: 2026-11-25}}\nrevisions:\n"
    changes = [("open_low_end: stops", "open_low_end: full speed"), ("cord: 2.5 m", "cord: 49 m"), ("motor: 900 mm", "motor: 40 m"),
               ("box: 400 x 400 x 200 mm", "box: 150 x 150 x 100 mm"), ("revisions:\n", accept)]  # fmt: skip
    made = planned(*changes)
    found = {finding.id: finding for finding in made.findings}
    assert found[name].accepted.startswith("builder, 2026-11-25")
    assert not found["box-too-hot"].accepted
    assert made.stopped


def test_findings_come_gravest_first() -> None:
    made = planned(("power: 180 W", "power: 320 W"))
    stops = [finding.stops for finding in made.findings]
    assert stops == sorted(stops, reverse=True)


def test_where_points_at_the_line_that_the_finding_rests_on() -> None:
    found = next(f for f in planned().findings if f.id == "part-disconnect")
    assert found.where is not None
    assert SANDER.splitlines()[found.where.line - 1].strip().startswith("- disconnect")


@pytest.mark.parametrize("text", ["buildsheet: 1\n", "buildsheet: 1\nmotor: {kind: magnet-dc}\n", "buildsheet: 1\nsupply: 120 V 60 Hz, 15 A breaker\n"])
def test_a_file_is_worked_as_far_as_it_goes(text: str) -> None:
    made = plan(read(text, "little.yaml"))
    assert made.state == "draft"
    assert made.questions
