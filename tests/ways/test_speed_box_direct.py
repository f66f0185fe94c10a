"""A speed box straight on a series motor: firing angle and current against an integration in time of its own, triac, winding and
brushes step by step; and what builders say of it (facts of the trade, common practice, no source).
"""

from math import copysign, pi, sin, sqrt

import pytest

from buildsheet.circuit.proofs import prove
from buildsheet.packet.ink import Ink
from buildsheet.packet.views import checks
from buildsheet.plan import Plan, plan
from buildsheet.project import load, read
from tests.demos import PROJECTS

FILE = PROJECTS / "drum-polisher/drum-polisher.yaml"
TEXT = FILE.read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def polisher() -> Plan:
    return plan(load(FILE))


def changed(old: str, new: str) -> Plan:
    assert old in TEXT
    return plan(read(TEXT.replace(old, new, 1), "polisher.yaml"))


def stepped(made: Plan, tag: str) -> tuple[float, float, float]:
    """RMS current, crest and mean of k·i² over the last of twelve periods at the angle that the program says: the triac lets current
    through from its angle on, and until the current ends; the drop opposes the current. Steps of a two-thousandth of a half period."""
    values, point = made.design.sheet.values, made.design.point(tag)
    assert point is not None
    assert point.inductance is not None
    k, R, L = float(values["motor.k"]), float(values["motor.R_hot"]) + float(values[f"{tag}.R_w"]), float(point.inductance)
    drop, alpha, steps = float(values[f"{tag}.U_path"]), float(point.setting), 2000
    step = 1 / (120.0 * steps)
    i = square = crest = 0.0
    for half in range(24):
        for n in range(steps):
            angle = pi * (n + 0.5) / steps
            volts = sqrt(2) * 120.0 * sin(angle) * (1 if half % 2 == 0 else -1)
            fired = angle >= alpha
            if i == 0.0:
                if not fired or abs(volts) <= drop:
                    continue
                i = (volts - copysign(drop, volts)) / L * step
            else:
                new = i + (volts - copysign(drop, i) - R * i) / L * step
                i = 0.0 if new * i <= 0.0 else new
            if half >= 22:
                square += i * i
                crest = max(crest, abs(i))
    mean = square / (2 * steps)
    return sqrt(mean), crest, k * mean


@pytest.mark.parametrize("torque", ["1.4 N·m", "0.6 N·m"])
@pytest.mark.parametrize("tag", ["low", "high"])
def test_current_crest_and_torque_agree_with_stepping_in_time(tag: str, torque: str) -> None:
    """Within 1 %; the torque is that of the work and of the motor's own losses."""
    made = changed("torque: 1.4 N·m", f"torque: {torque}")
    point = made.design.point(tag)
    assert point is not None
    rms, crest, mean = stepped(made, tag)

    assert float(point.rms) == pytest.approx(rms, rel=0.01)
    assert float(point.peak) == pytest.approx(crest, rel=0.01)
    assert float(point.torque) + float(made.design.sheet.values["motor.T_0"]) == pytest.approx(mean, rel=0.02)


def test_the_slower_the_later_it_fires_and_first_of_all_nothing_turns(polisher: Plan) -> None:
    low, high = (polisher.design.point(tag) for tag in ("low", "high"))
    assert low is not None
    assert high is not None
    assert float(polisher.design.sheet.values["begin.alpha"]) > float(low.setting) > float(high.setting) > 0.0


def test_shorted_it_is_the_motor_straight_on_the_line(polisher: Plan) -> None:
    """Runaway of the same motor on the line itself, to the last digit: a shorted triac leaves nothing out."""
    bare = plan(read(TEXT.replace("speed: 600..1200 rpm", "speed: 1300..1300 rpm").replace("  way: speed-box-direct\n  line_voltage: 120 V\n  rated: 10 A\n  snubber: 100 nF\n", "  way: straight-on-line\n"), "bare.yaml"))
    assert bare.design.runaway is not None
    assert polisher.design.runaway == bare.design.runaway
    assert "fault-full-speed" in {finding.id for finding in polisher.findings}


def test_work_that_the_line_does_not_reach_at_that_speed_is_told() -> None:
    made = changed("torque: 1.4 N·m", "torque: 6 N·m")
    assert made.stopped
    assert "not-known-high-i-rms" in {finding.id for finding in made.findings}


def test_the_snubber_leaks_by_hand(polisher: Plan) -> None:
    """I = 2·π·f·C·V: 100 nF at 60 Hz and 132 V."""
    assert float(polisher.design.sheet.values["T2.I_off"]) == pytest.approx(2 * pi * 60 * 100e-9 * 132, rel=1e-6)


def test_it_is_sound_and_its_windings_are_read(polisher: Plan) -> None:
    assert polisher.state == "for building"
    assert polisher.circuit is not None
    assert prove(polisher.circuit) == ()
    rows = [row for group in checks.groups(polisher, Ink()) if group.name == "Motor" for row in group.rows]
    assert len(rows) == 3


def test_an_induction_motor_behind_it_is_a_stop() -> None:
    """Less voltage is no speed control, and the start winding may stay in."""
    tumbler = (PROJECTS / "stone-tumbler/stone-tumbler.yaml").read_text(encoding="utf-8")
    assert "way: straight-on-line" in tumbler
    made = plan(read(tumbler.replace("way: straight-on-line", "way: speed-box-direct\n  line_voltage: 120 V\n  rated: 10 A"), "tumbler.yaml"))
    assert any(finding.id.startswith("together-") and finding.stops for finding in made.findings)


def test_it_runs_both_ways_by_the_ends_of_its_armature() -> None:
    made = changed("reach: guarded", "reach: guarded\n  reverse: true")
    assert made.state == "for building"
    assert made.circuit is not None
    assert prove(made.circuit) == ()
    assert any(wire.b.device == "S5" or wire.a.device == "S5" for wire in made.circuit.wires)
