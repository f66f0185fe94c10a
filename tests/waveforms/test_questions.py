"""Finding the angle, the back-EMF, or both: the answers solve back to what was asked."""

import dataclasses
from itertools import pairwise
from math import degrees, pi, radians

import pytest

from buildsheet.waveforms import (
    CONVERTERS,
    DIODE_BRIDGE,
    HALF_CONTROLLED_BRIDGE,
    Converter,
    Load,
    Source,
    at_terminal_voltage,
    back_emf_for,
    firing_angle_for,
    solve,
)

LINE = Source(120.0, 60.0, 0.1, 1.8)
CONTROLLED = [converter for converter in CONVERTERS if converter.controlled]


@pytest.mark.parametrize("converter", CONTROLLED, ids=lambda c: c.label)
@pytest.mark.parametrize("amps", [0.02, 0.5, 3.0])
def test_angle_gives_the_current_back(converter: Converter, amps: float) -> None:
    """Solved again with the angle found."""
    found = firing_angle_for(converter, LINE, 1.5, 0.008, 60.0, amps)

    again = solve(converter, LINE, Load(1.5, 0.008, 60.0), found.alpha)
    assert again.average_current == pytest.approx(amps, rel=1e-7)
    assert again == found


@pytest.mark.parametrize("converter", CONVERTERS, ids=lambda c: c.label)
@pytest.mark.parametrize("amps", [0.02, 2.0, 15.0])
def test_back_emf_gives_the_current_back(converter: Converter, amps: float) -> None:
    """At full conduction, so the highest back-EMF: later firing leaves less current at it."""
    found = back_emf_for(converter, LINE, 1.5, 0.008, amps)

    assert found.average_current == pytest.approx(amps, rel=1e-7)
    if converter.controlled:
        late = solve(converter, LINE, found.load, pi / 2.0)
        assert late.average_current < found.average_current


def test_back_emf_at_a_later_angle_is_lower() -> None:
    """A trimmed drive turns slower: 60 degrees against full conduction, 5 A."""
    full = back_emf_for(HALF_CONTROLLED_BRIDGE, LINE, 1.5, 0.008, 5.0)
    trimmed = back_emf_for(HALF_CONTROLLED_BRIDGE, LINE, 1.5, 0.008, 5.0, radians(100.0))

    assert trimmed.load.E < full.load.E
    assert trimmed.average_current == pytest.approx(5.0, rel=1e-7)


def test_full_conduction_itself_can_be_asked_for() -> None:
    """The most that flows is not out of reach, in either direction."""
    most = solve(HALF_CONTROLLED_BRIDGE, LINE, Load(1.5, 0.05, 60.0), 0.0).average_current
    still = solve(DIODE_BRIDGE, LINE, Load(1.5, 0.05, 0.0)).average_current

    assert firing_angle_for(HALF_CONTROLLED_BRIDGE, LINE, 1.5, 0.05, 60.0, most).alpha == 0.0
    assert back_emf_for(DIODE_BRIDGE, LINE, 1.5, 0.05, still).load.E == 0.0


def test_terminal_voltage_and_current_fix_both() -> None:
    """E = Va - R I, and the voltage found at the terminals is the one asked for."""
    steady = at_terminal_voltage(HALF_CONTROLLED_BRIDGE, LINE, 1.5, 0.01, 5.0, 82.5)

    assert pytest.approx(75.0) == steady.load.E
    assert steady.average_voltage == pytest.approx(82.5, rel=1e-7)
    assert 80.0 < degrees(steady.alpha) < 100.0


def test_current_falls_as_firing_is_delayed() -> None:
    """Every controlled converter, in steps of 2 degrees: no bump, no jump upwards."""
    for converter in CONTROLLED:
        for load in (Load(1.5, 0.01, 60.0), Load(0.5, 0.05, 0.0), Load(1.5, 1e-5, 30.0)):
            currents = [
                solve(converter, LINE, load, radians(angle)).average_current for angle in range(0, 181, 2)
            ]
            assert all(a >= b - 1e-9 * currents[0] for a, b in pairwise(currents))


def test_answers_are_kept_and_frozen() -> None:
    """The same question is answered by the same object, so nobody may write on it; inputs become plain floats."""

    class Marked(float):
        """A float with something to lose."""

    load = Load(Marked(1.5), 0.01, 75.0)

    assert type(load.R) is float
    assert solve(DIODE_BRIDGE, LINE, load) is solve(DIODE_BRIDGE, LINE, Load(1.5, 0.01, 75.0))
    with pytest.raises(dataclasses.FrozenInstanceError):
        solve(DIODE_BRIDGE, LINE, load).alpha = 1.0  # type: ignore[misc]
