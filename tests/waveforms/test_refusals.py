"""What is refused, and in which words."""

from math import cos, inf, nan, pi, sin, sqrt

import pytest

from buildsheet.waveforms import (
    DIODE_BRIDGE,
    HALF_CONTROLLED_BRIDGE,
    Load,
    NotSolved,
    Source,
    at_terminal_voltage,
    back_emf_for,
    firing_angle_for,
    solve,
)
from buildsheet.waveforms.roots import crossing, falling_root

LINE = Source(120.0, 60.0)
MOTOR = Load(1.5, 0.01, 75.0)


@pytest.mark.parametrize(
    ("numbers", "reason"),
    [
        ((0.0, 60.0, 0.0, 0.0), "source voltage must be above zero"),
        ((120.0, -60.0, 0.0, 0.0), "source frequency must be above zero"),
        ((120.0, 60.0, -0.1, 0.0), "source resistance can't be negative"),
        ((120.0, 60.0, 0.0, -1.0), "forward drop can't be negative"),
        ((nan, 60.0, 0.0, 0.0), "source rms is not a finite number"),
        ((120.0, 60.0, inf, 0.0), "source resistance is not a finite number"),
    ],
)
def test_source(numbers: tuple[float, float, float, float], reason: str) -> None:
    """Each field on its own."""
    with pytest.raises(NotSolved, match=reason):
        Source(*numbers)


@pytest.mark.parametrize(
    ("numbers", "reason"),
    [
        ((0.0, 0.01, 75.0), "load resistance must be above zero"),
        ((1.5, 9e-7, 75.0), "load inductance must be at least 1e-06 H"),
        ((1.5, 0.01, -1.0), "back-EMF can't be negative"),
        ((1.5, nan, 75.0), "load L is not a finite number"),
    ],
)
def test_load(numbers: tuple[float, float, float], reason: str) -> None:
    """Each field on its own."""
    with pytest.raises(NotSolved, match=reason):
        Load(*numbers)


def test_limits_themselves_are_accepted() -> None:
    """The other side of each limit."""
    assert solve(DIODE_BRIDGE, Source(120.0, 60.0, 0.0, 0.0), Load(1.5, 1e-6, 0.0)).average_current > 0.0
    assert solve(HALF_CONTROLLED_BRIDGE, LINE, MOTOR, pi).average_current == 0.0
    longest = 1000.0 / (2.0 * pi * 60.0)
    assert solve(DIODE_BRIDGE, LINE, Load(1.0, 0.999 * longest, 75.0)).continuous


@pytest.mark.parametrize("alpha", [-0.01, 3.15, nan])
def test_angle_out_of_range(alpha: float) -> None:
    """Rad, not degrees."""
    with pytest.raises(NotSolved, match="a firing angle lies between 0 and pi rad"):
        solve(HALF_CONTROLLED_BRIDGE, LINE, MOTOR, alpha)


def test_angle_of_a_bridge_of_diodes() -> None:
    """Nothing to fire."""
    with pytest.raises(NotSolved, match="a diode bridge has no gate"):
        solve(DIODE_BRIDGE, LINE, MOTOR, 0.5)


def test_angle_wanted_of_a_bridge_of_diodes() -> None:
    """Nothing to set."""
    with pytest.raises(NotSolved, match="a diode bridge has no firing angle to set"):
        firing_angle_for(DIODE_BRIDGE, LINE, 1.5, 0.01, 75.0, 5.0)


def test_time_constant_too_long() -> None:
    """1.001 times the limit."""
    with pytest.raises(NotSolved, match=r"L/R of 2.66 s is too long for 60 Hz"):
        solve(DIODE_BRIDGE, LINE, Load(1.0, 1001.0 / (2.0 * pi * 60.0), 75.0))


def test_more_current_than_full_conduction_gives() -> None:
    """75 V from 120 V into 1.5 ohm: less than (2 Vm/pi - 75)/1.5 + what gaps add, so never 60 A."""
    with pytest.raises(NotSolved, match="60 A is out of reach: at full conduction"):
        firing_angle_for(HALF_CONTROLLED_BRIDGE, LINE, 1.5, 0.01, 75.0, 60.0)


def test_current_above_the_crest() -> None:
    """No angle drives current into 170 V from a peak of 169.7 V."""
    with pytest.raises(NotSolved, match="gives 0 A into a back-EMF of 170 V"):
        firing_angle_for(HALF_CONTROLLED_BRIDGE, LINE, 1.5, 0.01, 170.0, 0.1)


def test_more_current_than_at_standstill() -> None:
    """108 V average over 1.5 ohm: 72 A."""
    with pytest.raises(NotSolved, match=r"73 A is out of reach: at standstill a diode bridge gives 72.03 A"):
        back_emf_for(DIODE_BRIDGE, LINE, 1.5, 0.01, 73.0)


def test_terminal_voltage_below_the_resistive_drop() -> None:
    """7 V can't drive 5 A through 1.5 ohm; 7.5 V can, at standstill."""
    assert at_terminal_voltage(HALF_CONTROLLED_BRIDGE, LINE, 1.5, 0.01, 5.0, 7.5).load.E == 0.0

    with pytest.raises(NotSolved, match=r"7 V don't drive 5 A through 1.5 ohm, even at standstill"):
        at_terminal_voltage(HALF_CONTROLLED_BRIDGE, LINE, 1.5, 0.01, 5.0, 7.0)


@pytest.mark.parametrize("amps", [0.0, -1.0, nan])
def test_no_wanted_current(amps: float) -> None:
    """Zero is met by a range of angles, so by none in particular."""
    with pytest.raises(NotSolved, match="the average current must be above zero"):
        firing_angle_for(HALF_CONTROLLED_BRIDGE, LINE, 1.5, 0.01, 75.0, amps)


def test_form_factor_of_no_current() -> None:
    """Zero by zero."""
    steady = solve(DIODE_BRIDGE, LINE, Load(1.5, 0.01, 170.0))

    with pytest.raises(NotSolved, match="no current flows, so it has no form factor"):
        _ = steady.form_factor


def test_power_factor_of_no_current() -> None:
    """Zero by zero."""
    steady = solve(DIODE_BRIDGE, LINE, Load(1.5, 0.01, 170.0))

    with pytest.raises(NotSolved, match="no current flows, so the line has no power factor"):
        _ = steady.power_factor


def test_chart_of_one_point() -> None:
    """Two points make a line."""
    with pytest.raises(NotSolved, match="a chart needs at least two points, not 1"):
        solve(DIODE_BRIDGE, LINE, MOTOR).samples(1)


def test_root_without_a_change_of_sign() -> None:
    """The bracket has to hold the root."""
    with pytest.raises(NotSolved, match=r"no firing angle between 0.0 and 1.0 meets the request"):
        crossing(lambda x: x + 1.0, 0.0, 1.0, 1.0, 2.0, 1e-9, "firing angle")


def test_root_that_jumps_over_zero() -> None:
    """A step has no root: better a refusal than the edge of the step."""
    with pytest.raises(NotSolved, match="the firing angle did not converge"):
        crossing(lambda x: -1.0 if x < 0.3 else 1.0, 0.0, -1.0, 1.0, 1.0, 1e-9, "firing angle")


def test_roots_known_in_closed_form() -> None:
    """x^2 = 2 and cos x = 0; the second from a guess at which Newton's step leaves the bracket."""
    assert crossing(lambda x: x * x - 2.0, 0.0, -2.0, 5.0, 23.0, 1e-12, "root") == pytest.approx(sqrt(2.0))
    assert falling_root(lambda x: (cos(x), -sin(x)), 0.0, 3.0, 0.01) == pytest.approx(pi / 2.0, abs=1e-12)
