"""The two bridges of a phase-controlled drive, against a time-stepping simulation that shares no code with the solver, and
against textbooks on power electronics: V = √2·V_s/π·(1 + cos α) for the half-controlled bridge, V = 2·√2·V_s/π·cos α for the
fully controlled one, both for a current without gaps (semiconverter and full converter).
"""

from collections.abc import Callable
from math import acos, degrees, pi, sqrt
from pathlib import Path

import pytest

from buildsheet.design import Design
from buildsheet.design.work import work
from buildsheet.project import read
from buildsheet.waveforms import Steady
from tests.waveforms import points
from tests.waveforms.independent import simulate

TEXT = (Path(__file__).resolve().parents[2] / "projects/strip-sander/strip-sander.yaml").read_text(encoding="utf-8")
WAY = "  way: phase-controlled-drive\n"


def sander(bridge: str, power: str = "180 W") -> Design:
    assert WAY in TEXT
    assert "power: 180 W" in TEXT
    return work(read(TEXT.replace(WAY, f"{WAY}  bridge: {bridge}\n").replace("  power: 180 W", f"  power: {power}"), "sander"))


@pytest.mark.parametrize("bridge", ["half-controlled", "fully controlled"])
@pytest.mark.parametrize("power", ["60 W", "180 W"])
@pytest.mark.parametrize("tag", ["low", "high"])
def test_points_agree_with_an_independent_simulation(bridge: str, power: str, tag: str) -> None:
    point = sander(bridge, power).point(tag)
    assert point is not None
    wave = point.wave
    assert isinstance(wave, Steady)
    source, load = wave.source, wave.load
    seen = simulate([points.Point(f"{bridge} bridge", source.rms, source.frequency, source.resistance, source.drop, load.R, load.L, load.E, degrees(wave.alpha))])

    assert float(point.current) == pytest.approx(float(seen.average[0]), rel=0.01)
    assert float(point.rms) == pytest.approx(float(seen.rms[0]), rel=0.01)
    assert float(point.peak) == pytest.approx(float(seen.peak[0]), rel=0.01)
    assert float(point.line) == pytest.approx(float(seen.line_rms[0]), rel=0.01)


@pytest.mark.parametrize("tag", ["low", "high"])
def test_four_thyristors_never_make_the_current_smoother(tag: str) -> None:
    """Without a freewheel path the line pulls the current down below zero volts: fact of the trade (textbooks)."""
    half, full = (sander(bridge).point(tag) for bridge in ("half-controlled", "fully controlled"))
    assert half is not None
    assert full is not None
    assert float(full.current) == pytest.approx(float(half.current), rel=1e-6), "the torque asks for it"
    assert float(full.rms) >= float(half.rms) * (1 - 1e-9)


@pytest.mark.parametrize(("bridge", "angle"), [
    ("half-controlled", lambda volts: acos(pi * volts / (sqrt(2) * 120) - 1)),
    ("fully controlled", lambda volts: acos(pi * volts / (2 * sqrt(2) * 120))),
])  # fmt: skip
def test_the_angle_of_a_current_without_gaps_is_that_of_its_own_textbook_formula(bridge: str, angle: Callable[[float], float]) -> None:
    values = sander(bridge).sheet.values
    found = [value for name, value in values.items() if name.startswith("high.") and value.label.startswith("firing angle by the textbook")]
    volts = next(value for name, value in values.items() if name == "high.V_d")

    assert len(found) == 1
    assert float(found[0]) == pytest.approx(angle(float(volts)))
