"""A triac speed box and a bridge: firing angles by stepping in time, the dead first part of its knob, its dangers."""

from math import degrees, pi, sin, sqrt
from pathlib import Path

import pytest

from buildsheet.circuit.effects import effects
from buildsheet.circuit.proofs import prove
from buildsheet.plan import Plan, plan
from buildsheet.project import load, read

FILE = Path(__file__).resolve().parents[2] / "projects/seed-coater/seed-coater.yaml"
TEXT = FILE.read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def coater() -> Plan:
    return plan(load(FILE))


def changed(*changes: tuple[str, str]) -> Plan:
    text = TEXT
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    return plan(read(text, "coater.yaml"))


def stepped(alpha: float, E: float, R: float, L: float, drop: float) -> tuple[float, float]:
    """(average, RMS) current of a motor behind a bridge behind a triac that is held open from its firing angle to the zero:
    Euler steps of 1 µs; while the triac is shut the current runs on through the bridge, two junctions of three."""
    step, count = 1e-6, 8333
    amps = mean = squares = 0.0
    wheel = drop * 2 / 3
    for half in range(30):
        on = False
        for k in range(count):
            angle = pi * k / count
            volts = sqrt(2) * 120.0 * sin(angle)
            if angle >= alpha and volts - drop > E:
                on = True
            if on and volts < drop - wheel:  # the bridge's own path takes the current over, the triac goes out
                on = False
            ahead = volts - drop if on else -wheel if amps > 0.0 else None
            amps = 0.0 if ahead is None else max(0.0, amps + (ahead - E - R * amps) / L * step)
            if half >= 20:
                mean += amps
                squares += amps * amps
    return mean / (10 * count), sqrt(squares / (10 * count))


@pytest.mark.parametrize("torque", ["6 N·m", "2.5 N·m"])
@pytest.mark.parametrize("tag", ["low", "high"])
def test_stepping_in_time_agrees(tag: str, torque: str) -> None:
    """Within 1.5 %: the drop stands where the program puts it, brushes included in the path's."""
    design = changed(("torque: 6 N·m", f"torque: {torque}")).design
    values, point = design.sheet.values, design.point(tag)
    assert point is not None
    average, rms = stepped(float(point.setting), float(point.emf), float(values["motor.R_hot"]), float(point.inductance), float(values[f"{tag}.U_path"]))
    assert float(point.current) == pytest.approx(average, rel=0.015)
    assert float(point.rms) == pytest.approx(rms, rel=0.015)


def test_nothing_turns_over_the_first_part_of_the_knob(coater: Plan) -> None:
    """Common practice, no source: a cheap box does nothing at first, then starts with a kick. The angle at which the standing
    motor's own losses are met lies well below 180°, and above that of the slowest speed under load."""
    begins = degrees(float(coater.design.sheet.values["begin.alpha"]))
    low = coater.design.point("low")
    assert low is not None
    assert degrees(float(low.setting)) < begins < 175.0


def test_off_is_not_dead(coater: Plan) -> None:
    """I = 2·π·f·C·V: 100 nF on 132 V and 60 Hz pass 5.0 mA."""
    assert float(coater.design.sheet.values["T2.I_off"]) == pytest.approx(2 * pi * 60 * 100e-9 * 132, rel=1e-9)


def test_its_circuit_is_sound_and_a_shorted_triac_runs_it_to_the_full(coater: Plan) -> None:
    circuit = coater.circuit
    assert circuit is not None
    assert prove(circuit) == ()
    told = {(effect.fault.device, effect.fault.kind): effect.outcomes for effect in effects(circuit)}
    assert "full speed" in told["T2", "shorted"]
    assert told["T1", "shorted"] == ("fuse blows",)


CASES = [
    ("starts-at-knob", "heed", []),
    ("drive-for-another-line", "stop", [("line_voltage: 120 V", "line_voltage: 230 V")]),
    ("drive-too-small", "stop", [("rated: 15 A\n", "rated: 1 A\n")]),
    ("drive-rating-unknown", "stop", [("  rated: 15 A\n", "")]),
]


@pytest.mark.parametrize(("name", "grade", "changes"), CASES, ids=[case[0] for case in CASES])
def test_its_dangers_are_told(name: str, grade: str, changes: list[tuple[str, str]]) -> None:
    found = {finding.id: finding for finding in changed(*changes).findings}
    assert name in found, sorted(found)
    assert found[name].grade == grade


def test_a_speed_beyond_the_line_has_no_operating_point() -> None:
    """The bridge gives no more than the line: a speed above that has no solution, and is a stop."""
    made = changed(("30 -> 150 mm, poly-V", "30 -> 400 mm, poly-V"))
    assert made.state == "draft"
    assert any("operating-point" in one for finding in made.findings if finding.stops for one in (finding.id, *finding.follows))
