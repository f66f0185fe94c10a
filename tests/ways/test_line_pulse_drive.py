"""A pulse-width drive on the rectified line, against an integration in time of its own: bridge, capacitor, chopper, motor.

Facts of the trade beside it: the steady voltage is near the line's peak, the motor's current hardly ripples, and the line
carries far more RMS current than the power asks for.
"""

from math import pi, sin, sqrt
from pathlib import Path

import pytest

from buildsheet.circuit.proofs import prove
from buildsheet.plan import Plan, plan
from buildsheet.project import load, read

WINDER = Path(__file__).resolve().parents[2] / "projects/bobbin-winder/bobbin-winder.yaml"


@pytest.fixture(scope="module")
def winder() -> Plan:
    return plan(load(WINDER))


def stepped(made: Plan, tag: str) -> tuple[float, float]:
    """RMS line current and mean voltage of the capacitor, when the chopper draws its average current: steps of 2 µs."""
    values, point = made.design.sheet.values, made.design.point(tag)
    assert point is not None
    source, drop = float(values["drive.R_s"]), float(values["drive.U_r"])
    drawn = float(point.setting) * float(point.current)  # the switch passes the motor's current for its share of the time
    step, volts = 2e-6, 160.0
    line = 60.0
    squares = mean = 0.0
    cycles, kept = 24, 12
    count = round(1 / line / step)
    for cycle in range(cycles):
        for k in range(count):
            crest = abs(sqrt(2) * 120.0 * sin(2 * pi * line * k * step))
            current = max(0.0, (crest - drop - volts) / source)
            volts += (current - drawn) / 680e-6 * step
            if cycle >= cycles - kept:
                squares += current * current
                mean += volts
    return sqrt(squares / (kept * count)), mean / (kept * count)


@pytest.mark.parametrize("torque", ["0.9 N·m", "0.5 N·m"])
@pytest.mark.parametrize("tag", ["low", "high"])
def test_line_current_and_duty_agree_with_stepping_in_time(tag: str, torque: str) -> None:
    """Line current within 1 %; the duty is what the hand formula makes of the stepped voltage, within 0.5 %."""
    text = WINDER.read_text(encoding="utf-8")
    assert "torque: 0.9 N·m" in text
    made = plan(read(text.replace("torque: 0.9 N·m", f"torque: {torque}"), "winder.yaml"))
    values, point = made.design.sheet.values, made.design.point(tag)
    assert point is not None
    rms, volts = stepped(made, tag)
    on, off = float(values[f"{tag}.U_path"]), float(values[f"{tag}.U_free"])
    by_hand = (float(point.emf) + float(point.current) * float(values["motor.R_hot"]) + off) / (volts - on + off)

    assert float(point.line) == pytest.approx(rms, rel=0.01)
    assert float(point.setting) == pytest.approx(by_hand, rel=0.005)


def test_the_motor_sees_a_smooth_current_and_the_line_none(winder: Plan) -> None:
    """Drive makers' catalogue: pulse-width drives have a form factor of at most 1.05. A capacitor behind a bridge draws
    about 1.6 to 2.8 times its direct current (transformer tables and simulations)."""
    point = winder.design.point("high")
    assert point is not None
    drawn = float(point.setting) * float(point.current)

    assert 1.0 <= float(point.form_factor) <= 1.05
    assert 1.6 < float(point.line) / drawn < 3.6


def test_runaway_is_the_line_s_peak_on_the_motor(winder: Plan) -> None:
    """By hand: (√2 · 120 V · 1.1 - I_0·R) / K_e."""
    values, fastest = winder.design.sheet.values, winder.design.runaway
    assert fastest is not None
    emf = sqrt(2) * 132.0 - 0.42 * float(values["motor.R_a"]) - float(values["motor.U_b"])

    assert float(fastest) == pytest.approx(emf / float(values["motor.K_e"]), rel=1e-6)


def test_the_demonstration_is_sound_and_says_what_its_pulses_do(winder: Plan) -> None:
    assert winder.state == "for building"
    assert winder.circuit is not None
    assert prove(winder.circuit) == ()
    assert "pulses-above-motor" in {finding.id for finding in winder.findings}


def test_a_motor_for_half_the_voltage_is_told_of_the_height_of_the_pulses() -> None:
    text = WINDER.read_text(encoding="utf-8").replace("output_high: 130 V", "output_high: 90 V").replace("plate: 130 V, 4.0 A", "plate: 90 V, 4.0 A")
    found = {finding.id for finding in plan(read(text, "winder.yaml")).findings}

    assert "pulses-above-motor" in found
    assert "drive-above-motor" not in found
