"""A supply unit and a pulse drive: duty, motor current and line current against an integration in time of its own; what the unit
asks for by facts of the trade (common practice, no source): it limits its own current and comes back by itself, its guard lets
the volts rise before it shuts off, a selector left at the lower line destroys it, a mark and not the ohms makes it safe.
"""

from math import pi
from pathlib import Path

import pytest

from buildsheet.circuit.proofs import protected_by, prove
from buildsheet.plan import Plan, plan
from buildsheet.project import load, read

ROLLER = Path(__file__).resolve().parents[2] / "projects/felt-roller/felt-roller.yaml"
TEXT = ROLLER.read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def roller() -> Plan:
    return plan(load(ROLLER))


def changed(old: str, new: str) -> Plan:
    assert old in TEXT
    return plan(read(TEXT.replace(old, new), "roller.yaml"))


def stepped(made: Plan, tag: str) -> tuple[float, float]:
    """Average current of motor and of supply unit, at the duty that the program says: Euler steps, 400 to a period, until the
    armature's time constant has passed thirty times."""
    values, point = made.design.sheet.values, made.design.point(tag)
    assert point is not None
    assert point.emf is not None
    assert point.inductance is not None
    R, L, E, duty = float(values["motor.R_hot"]), float(point.inductance), float(point.emf), float(point.setting)
    on, off = 36.0 - float(values[f"{tag}.U_path"]), -float(values[f"{tag}.U_free"])
    steps, frequency = 400, 15e3
    step = 1 / (frequency * steps)
    current, motor, unit = float(point.current), 0.0, 0.0
    periods = round(30 * L / R * frequency)
    for period in range(periods):
        for k in range(steps):
            closed = k < duty * steps
            share = min(1.0, max(0.0, duty * steps - k)) if k + 1 > duty * steps else 1.0  # the step in which it opens
            volts = on * share + off * (1 - share) if closed else off
            current = max(0.0, current + (volts - E - R * current) / L * step)
            if period == periods - 1:
                motor += current / steps
                unit += current * (share if closed else 0.0) / steps
    return motor, unit


@pytest.mark.parametrize("torque", ["4 N·m", "1.5 N·m"])
@pytest.mark.parametrize("tag", ["low", "high"])
def test_currents_of_motor_and_line_agree_with_stepping_in_time(tag: str, torque: str) -> None:
    """Within 1 %. Line current by definition: volts times amperes of the unit over efficiency, power factor and line volts."""
    made = changed("torque: 4 N·m", f"torque: {torque}")
    point = made.design.point(tag)
    assert point is not None
    motor, unit = stepped(made, tag)

    assert float(point.current) == pytest.approx(motor, rel=0.01)
    assert float(point.line) == pytest.approx(36.0 * unit / (0.86 * 0.59 * 230.0), rel=0.01)


def test_runaway_is_what_the_unit_s_guard_lets_through(roller: Plan) -> None:
    """By hand: K_e = 10.6 V at 1000 rpm; R = (4.1 − 1.9)/4 = 0.55 ohm, U_b = 0.8 V; 45 V at 0.50 A without load."""
    fastest = roller.design.runaway
    assert fastest is not None
    assert float(fastest) * 30 / pi == pytest.approx((45.0 - 0.5 * 0.55 - 0.8) / 0.0106, rel=1e-6)


def test_without_its_data_the_guard_is_taken_high(roller: Plan) -> None:
    """Such guards shut off at 1.15 to 1.5 times the volts (from memory): the high end, 54 V of 36 V."""
    made = changed("  output_failed: 45 V\n", "")
    assert float(made.design.sheet.values["unit.V_max"]) == pytest.approx(54.0)
    assert made.design.runaway is not None
    assert roller.design.runaway is not None
    assert float(made.design.runaway) > float(roller.design.runaway)


def test_its_fuse_and_not_the_unit_s_limit_guards_the_thin_wires(roller: Plan) -> None:
    assert roller.circuit is not None
    guards = protected_by(roller.circuit)
    assert roller.state == "for building"
    assert prove(roller.circuit) == ()
    assert {guards[number][0] for number in (501, 502, 503)} <= {"F5", "T2"}
    assert all(guards[number][1] <= 4.0 for number in (311, 312, 313, 501, 502, 503))


@pytest.mark.parametrize(
    ("id", "old", "new"),
    [
        ("selector-unknown", "  selector: set to this line\n", ""),
        ("unit-stutters", "current_limit: 3.8 A", "current_limit: 12 A"),
        ("unit-guard-below-output", "output_failed: 45 V", "output_failed: 20 V"),
        ("unit-current-unknown", "  unit_current: 10 A\n", ""),
        ("unit-plate-disagrees", "unit_power: 360 W", "unit_power: 5 W"),
        ("unit-restarts", "starts_from_zero: true", "starts_from_zero: false"),
        ("drive-voltage-unknown", "  drive_most: 55 V\n", ""),
        ("drive-below-guard", "drive_most: 55 V", "drive_most: 40 V"),
        ("drive-below-unit", "drive_most: 55 V", "drive_most: 30 V"),
        ("unit-not-separated", "separation: galvanic", "separation: none"),
        ("unit-too-small", "unit_current: 10 A", "unit_current: 3 A"),
    ],
)
def test_its_dangers_are_told(roller: Plan, id: str, old: str, new: str) -> None:
    assert id not in {finding.id for finding in roller.findings}
    assert id in {finding.id for finding in changed(old, new).findings}


def test_whether_it_is_separated_must_be_said() -> None:
    made = changed("  separation: galvanic\n", "")
    assert made.state == "draft"
    assert [question.key for question in made.questions if question.safety] == ["power.separation"]


def test_a_unit_of_another_voltage_does_not_fit() -> None:
    made = changed("secondary 36 V, 10 A", "secondary 24 V, 10 A")
    seat = next(seat for seat in made.design.seats if seat.place.id == "supply-unit")
    assert not seat.usable
