"""A board that takes a timed pulse: widths by the straight line through two measured points, the resistor of its input, and what
its console needs.
"""

from pathlib import Path

import numpy as np
import pytest

from buildsheet.circuit.effects import effects
from buildsheet.circuit.proofs import prove
from buildsheet.plan import Plan, plan
from buildsheet.project import load, read

FILE = Path(__file__).resolve().parents[2] / "projects/pulp-beater/pulp-beater.yaml"
TEXT = FILE.read_text(encoding="utf-8")
CONSOLE = [("speed_by: pulse source", "speed_by: console"), ("transformer: it had none", "transformer: kept")]


@pytest.fixture(scope="module")
def beater() -> Plan:
    return plan(load(FILE))


def changed(*changes: tuple[str, str]) -> Plan:
    text = TEXT
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    return plan(read(text, "beater.yaml"))


@pytest.mark.parametrize("tag", ["low", "high"])
def test_widths_lie_on_the_line_through_what_was_measured(beater: Plan, tag: str) -> None:
    """numpy's interpolation of 5 ms at 18 V and 40 ms at 96 V; the meter shows 5 V times the width over 50 ms."""
    values, point = beater.design.sheet.values, beater.design.point(tag)
    assert point is not None
    assert point.terminal is not None
    width = float(np.interp(float(point.terminal), [18.0, 96.0], [5e-3, 40e-3]))
    assert float(values[f"{tag}.w"]) == pytest.approx(width, rel=1e-9)
    assert float(values[f"{tag}.V_w"]) == pytest.approx(5.0 * width / 50e-3, rel=1e-9)


def test_the_resistor_lets_the_input_have_its_current(beater: Plan) -> None:
    """(5 − 1.2) V over 8 mA are 475 ohm at the most; E12 of IEC 60063 has 470."""
    assert float(beater.design.sheet.values["R9.R"]) == pytest.approx(470.0)


def test_a_console_comes_with_its_transformer() -> None:
    """Common practice, no source: a console is fed by its own small transformer, some 16 V AC from the line."""
    made = changed(*CONSOLE)
    assert made.circuit is not None
    assert prove(made.circuit) == ()
    assert made.state == "for building", [finding.id for finding in made.findings if finding.stops]
    assert {"T3", "A9"} <= set(made.circuit.devices)


def test_both_circuits_are_sound_and_a_lost_pulse_does_what_the_file_says(beater: Plan) -> None:
    assert beater.circuit is not None
    assert prove(beater.circuit) == ()
    for words, outcome in (("without_pulses: stops", "knob fails"), ("without_pulses: full speed", "full speed")):
        made = changed(("without_pulses: stops", words))
        assert made.circuit is not None
        told = {effect.fault.wire: effect.outcomes for effect in effects(made.circuit) if effect.fault.wire}
        assert outcome in told[501]


CASES = [
    ("speed-signal-unknown", "stop", [("  speed_by: pulse source\n", "")]),
    ("console-without-transformer", "stop", [("speed_by: pulse source", "speed_by: console")]),
    ("open-low-end", "heed", [("without_pulses: stops", "without_pulses: full speed")]),
    ("open-low-end", "note", [("  without_pulses: stops\n", "")]),
    ("starts-at-knob", "heed", [("  starts_from_zero: true\n", "")]),
    ("live-controls", "note", [("separation: galvanic", "separation: none")]),
    ("limit-of-old-motor", "heed", [("  current_limit: 2 A\n", "")]),
    ("left-behind-harness", "heed", [("harness: kept", "harness: left behind")]),
]


@pytest.mark.parametrize(("name", "grade", "changes"), CASES, ids=[f"{case[0]}-{k}" for k, case in enumerate(CASES)])
def test_its_dangers_are_told(name: str, grade: str, changes: list[tuple[str, str]]) -> None:
    found = {finding.id: finding for finding in changed(*changes).findings}
    assert name in found, sorted(found)
    assert found[name].grade == grade


def test_an_open_question_of_separation_keeps_it_a_draft() -> None:
    assert changed(("  separation: galvanic\n", "")).state == "draft"
