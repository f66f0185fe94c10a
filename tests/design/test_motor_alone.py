"""Files with a motor alone: a textbook's problem with its printed answers, and an evening at the bench."""

from math import pi
from pathlib import Path

import pytest
from click.testing import CliRunner

from buildsheet.cli import main
from buildsheet.plan.plan import Plan, plan
from buildsheet.project import load

PROJECTS = Path(__file__).resolve().parents[2] / "projects"
RPM = pi / 30


def planned(name: str) -> Plan:
    return plan(load(PROJECTS / name / f"{name}.yaml"))


def got(made: Plan, id: str) -> float:
    value = made.design.sheet.values[id]
    assert value.known, value.why
    return float(value)


def test_the_problem_of_a_textbook() -> None:
    """Open textbook companion, chapter 4, example 4.5 (permanent-magnet motor): 6000 rpm without load on 120 V, armature
    2.5 ohm; on 60 V with 0.5 N·m: k = 0.191 V·s/rad, 2.62 A, 53.5 V, 2672.8 rpm as recomputed there."""
    made = planned("textbook-motor")

    assert got(made, "motor.K_e_run") == pytest.approx(0.191, abs=0.0005)
    assert got(made, "ask.I") == pytest.approx(2.62, abs=0.005)
    assert got(made, "ask.E") == pytest.approx(53.5, abs=0.05)
    assert got(made, "ask.omega") / RPM == pytest.approx(2672.8, abs=0.5)


def test_check_prints_the_answers() -> None:
    ran = CliRunner().invoke(main, ["check", str(PROJECTS / "textbook-motor/textbook-motor.yaml")])

    assert ran.exit_code == 0
    assert "at 60 V with 0.5 N·m on its shaft the motor does 2670 rpm and 2.62 A" in ran.output
    assert "0.191 V·s/rad" in ran.output


def test_an_evening_at_the_bench_tells_what_the_motor_is_and_would_do() -> None:
    """Five figures. n = (V − I_0·R)/K_e by hand, with K_e = 21.4 V at 1000 rpm: (12 − 0.825)/0.0214 rpm and
    (90 − 0.825)/0.0214 rpm. A bare bridge at no load lifts the motor towards the peak: above the average's speed, below
    the peak's."""
    made = planned("first-evening")

    assert got(made, "alone.omega_b") / RPM == pytest.approx((12 - 0.825) / 0.0214, rel=1e-4)
    assert got(made, "alone.omega_d") / RPM == pytest.approx((90 - 0.825) / 0.0214, rel=1e-4)
    average, peak = 0.9003 * 120, 2**0.5 * 120
    assert (average - 0.825) / 0.0214 < got(made, "alone.omega_s") / RPM < peak / 0.0214
    assert made.questions[0].key in {"supply", "battery"}


@pytest.mark.parametrize("name", ["first-evening", "textbook-motor"])
def test_check_of_a_motor_alone_says_what_to_find_out_next(name: str) -> None:
    ran = CliRunner().invoke(main, ["check", str(PROJECTS / name / f"{name}.yaml")])

    assert ran.exit_code == 0
    assert "to find out next:" in ran.output
    assert "on a battery of 12 V" in ran.output
    assert "bare bridge" in ran.output
    assert len(ran.output.splitlines()) <= 40
