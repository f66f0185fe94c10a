"""The voltage ahead of a bridge that drives a wanted current, against stepping in time and a published simulation."""

from random import Random

import pytest

from buildsheet.waveforms import (
    DIODE_BRIDGE,
    HALF_CONTROLLED_BRIDGE,
    Capacitor,
    NotSolved,
    Source,
    referred,
    voltage_for,
)
from tests.waveforms.network import readings
from tests.waveforms.points import Circuit


def drawn(n: int) -> list[tuple[Source, float, float, float, float, float, float]]:
    """Line, winding, R, L, E, wanted current and capacitance: the same n each time, every third without capacitor."""
    draw = Random(5)  # noqa: S311 (nothing secret about a test point)
    made = []
    for k in range(n):
        rms, frequency = draw.choice(((120.0, 60.0), (230.0, 50.0)))
        line = Source(rms, frequency, draw.uniform(0.05, 0.5), draw.uniform(1.0, 2.2))
        farads = 0.0 if k % 3 == 0 else 220e-6 * 50.0 ** draw.random()
        made.append((line, draw.uniform(0.1, 1.0), draw.uniform(0.5, 4.0), draw.uniform(3e-3, 30e-3), draw.uniform(10.0, 150.0), draw.uniform(0.5, 8.0), farads))
    return made


def test_stepping_in_time_at_the_voltage_found_gives_the_current_that_was_asked_for() -> None:
    """24 points; stepping is the network solution of tests/waveforms/network.py, no code of ours. Within 1 %: the average
    and RMS motor current, and the RMS current ahead of the bridge."""
    points = drawn(24)
    found = [voltage_for(DIODE_BRIDGE, line, winding, R, L, E, amps, Capacitor(C)) for line, winding, R, L, E, amps, C in points]
    circuits = []
    for (line, winding, R, L, E, _, C), one in zip(points, found, strict=True):
        source = referred(line, one.rms, winding)
        circuits.append(Circuit("diode bridge", source.rms, source.frequency, source.resistance, 0.0, source.drop, R, L, E, 0.0, C, float("inf")))
    seen = readings(circuits)
    for k, ((*_, amps, _), one) in enumerate(zip(points, found, strict=True)):
        assert seen.average_current[k] == pytest.approx(amps, rel=0.01), points[k]
        assert seen.rms_current[k] == pytest.approx(one.rms_current, rel=0.01), points[k]
        assert seen.line_current[k] == pytest.approx(one.secondary_current, rel=0.01), points[k]


def test_a_published_simulation_of_a_bridge_on_a_dial() -> None:
    """Circuit simulation of a 120 V 60 Hz line behind a variable autotransformer set to 85.9 V, ideal bridge, R 1.5 ohm,
    L 10 mH: at E 75 V and 5 A the form factor is 1.29 (two figures, within 2 %)."""
    found = voltage_for(DIODE_BRIDGE, Source(120.0, 60.0), 0.0, 1.5, 10e-3, 75.0, 5.0, Capacitor(0.0))
    assert found.rms == pytest.approx(85.9, rel=0.005)
    assert found.form_factor == pytest.approx(1.29, rel=0.02)


def test_the_line_sees_the_power_that_goes_behind() -> None:
    """An ideal transformer: volts times amperes are the same on both sides."""
    line = Source(120.0, 60.0, 0.1, 2.0)
    found = voltage_for(DIODE_BRIDGE, line, 0.3, 1.5, 10e-3, 40.0, 3.0, Capacitor(1e-3))
    assert found.rms * found.secondary_current == pytest.approx(line.rms * found.line_current, rel=1e-12)


def test_a_voltage_seen_through_the_turns() -> None:
    """Half the voltage: the line's resistance through the square of the turns, a quarter of it, and the winding's own."""
    source = referred(Source(120.0, 60.0, 0.4, 2.0, 1e-3), 60.0, 0.3)
    assert (source.rms, source.resistance, source.inductance) == pytest.approx((60.0, 0.4, 0.25e-3))


def test_a_gate_is_refused() -> None:
    with pytest.raises(NotSolved, match="by its gate"):
        voltage_for(HALF_CONTROLLED_BRIDGE, Source(120.0, 60.0), 0.0, 1.5, 10e-3, 75.0, 5.0, Capacitor(0.0))


@pytest.mark.parametrize("amps", [0.0, -1.0, float("nan")])
def test_no_current_is_refused(amps: float) -> None:
    with pytest.raises(NotSolved, match="above zero"):
        voltage_for(DIODE_BRIDGE, Source(120.0, 60.0), 0.0, 1.5, 10e-3, 75.0, amps, Capacitor(0.0))
