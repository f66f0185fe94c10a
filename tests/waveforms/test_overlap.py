"""Commutation overlap behind an inductive source: textbook formulas, and limits that need no other solution."""

from math import cos, pi, radians, sqrt

import pytest

from buildsheet.waveforms import (
    CONVERTERS,
    DIODE_BRIDGE,
    FULLY_CONTROLLED_BRIDGE,
    HALF_CONTROLLED_BRIDGE_DIODE_LEG,
    HALF_WAVE_DIODE_FREEWHEEL,
    Converter,
    Load,
    NotSolved,
    Source,
    firing_angle_for,
    solve,
)

SMOOTH = 2.0  # H


def overlap(converter: Converter, source: Source, load: Load, alpha: float) -> tuple[float, float, float]:
    """Average voltage, average current and angle of overlap per pulse of a smooth current."""
    steady = solve(converter, source, load, alpha)
    assert steady.continuous
    return (
        steady.average_voltage,
        steady.average_current,
        sum(span.end - span.start for span in steady.spans if span.line is not None),
    )


@pytest.mark.parametrize("angle", [0.0, 30.0, 60.0])
def test_textbook_thyristor_bridge(angle: float) -> None:
    """Power-electronics textbooks, line-commutated converters, single-phase with source inductance and smooth current I
    (from memory): Vd = 2 Vm/pi cos a - 2 omega Ls I/pi, cos(a + u) = cos a - 2 omega Ls I/Vm. Tolerance 0.2 % of the full
    voltage for the ripple that 2 H leave."""
    source, Vm = Source(120.0, 60.0, inductance=0.002), 120.0 * sqrt(2.0)
    volts, amps, angle_u = overlap(FULLY_CONTROLLED_BRIDGE, source, Load(3.0, SMOOTH, 5.0), radians(angle))
    X = 2.0 * pi * 60.0 * 0.002

    assert volts == pytest.approx(2.0 * Vm / pi * cos(radians(angle)) - 2.0 * X * amps / pi, abs=2e-3 * Vm)
    assert cos(radians(angle) + angle_u) == pytest.approx(cos(radians(angle)) - 2.0 * X * amps / Vm, abs=4e-3)


def test_textbook_diode_bridge() -> None:
    """The same with a = 0: Vd = 0.9 Vs - 2 omega Ls I/pi, cos u = 1 - 2 omega Ls I/Vm (from memory)."""
    source, X = Source(120.0, 60.0, inductance=0.001), 2.0 * pi * 60.0 * 0.001
    volts, amps, angle = overlap(DIODE_BRIDGE, source, Load(5.0, SMOOTH, 10.0), 0.0)

    assert volts == pytest.approx(0.9003 * 120.0 - 2.0 * X * amps / pi, rel=1e-3)
    assert cos(angle) == pytest.approx(1.0 - 2.0 * X * amps / (120.0 * sqrt(2.0)), abs=2e-3)


def test_textbook_half_wave_with_freewheel_diode() -> None:
    """One pulse, current to and fro: Vd = Vm/pi - omega Ls I/2pi (from memory). One overlap each way, at the start and
    behind the zero: cos u = 1 - omega Ls I/Vm. 20 H: half the frequency has more ripple."""
    source, X, Vm = Source(120.0, 60.0, inductance=0.002), 2.0 * pi * 60.0 * 0.002, 120.0 * sqrt(2.0)
    volts, amps, angle = overlap(HALF_WAVE_DIODE_FREEWHEEL, source, Load(8.0, 20.0, 2.0), 0.0)

    assert volts == pytest.approx(Vm / pi - X * amps / (2.0 * pi), rel=2e-3)
    assert cos(angle / 2.0) == pytest.approx(1.0 - X * amps / Vm, abs=2e-3)


@pytest.mark.parametrize("converter", CONVERTERS, ids=lambda c: c.label)
@pytest.mark.parametrize("E", [5.0, 70.0])
@pytest.mark.parametrize("resistance", [0.0, 0.5])
def test_little_inductance_changes_little(converter: Converter, E: float, resistance: float) -> None:
    """A thousandth of a microhenry against none, which another solver works on; the change is that of omega Ls beside the load."""
    alpha = 1.0 if converter.controlled else 0.0
    bare, little = (
        solve(converter, Source(120.0, 60.0, resistance, 1.8, Ls), Load(1.5, 0.03, E), alpha) for Ls in (0.0, 1e-9)
    )

    for name in ("average_current", "rms_current", "peak_current", "average_voltage", "rms_voltage", "line_current", "line_power"):
        assert getattr(little, name) == pytest.approx(getattr(bare, name), rel=1e-3), name
    for one, other in zip(little.devices, bare.devices, strict=True):
        assert one.average == pytest.approx(other.average, rel=2e-3)
        assert one.rms == pytest.approx(other.rms, rel=2e-3)


def test_current_in_gaps_sees_one_inductance() -> None:
    """While nothing changes over, source and load are in series: 1 mH and 2 mH act as 3 mH on the current."""
    apart, together = (
        solve(DIODE_BRIDGE, Source(120.0, 60.0, 0.2, 1.5, Ls), Load(1.5, L, 120.0)) for Ls, L in ((0.001, 0.002), (0.0, 0.003))
    )

    assert not apart.continuous
    assert apart.rms_current == pytest.approx(together.rms_current, rel=1e-9)
    assert apart.extinction_angle == pytest.approx(together.extinction_angle, rel=1e-9)
    assert apart.average_voltage == pytest.approx(together.average_voltage, rel=1e-9)
    assert apart.rms_voltage < together.rms_voltage


def test_inductive_source_costs_voltage_and_gives_it_back_to_nobody() -> None:
    """Energy from the line ends in copper, shaft, drops and source resistance; the inductance takes none."""
    source, load = Source(120.0, 60.0, 0.2, 1.5, 0.002), Load(1.5, 0.02, 30.0)
    steady = solve(HALF_CONTROLLED_BRIDGE_DIODE_LEG, source, load, radians(70.0))
    bare = solve(HALF_CONTROLLED_BRIDGE_DIODE_LEG, Source(120.0, 60.0, 0.2, 1.5), load, radians(70.0))

    spent = load.R * steady.rms_current**2 + load.E * steady.average_current + steady.device_loss + steady.source_loss
    assert steady.line_power == pytest.approx(spent, rel=1e-9)
    assert steady.average_voltage < bare.average_voltage


def test_wanted_current_behind_an_inductive_source() -> None:
    """Found, and earlier than without the inductance."""
    angles = [
        firing_angle_for(HALF_CONTROLLED_BRIDGE_DIODE_LEG, Source(120.0, 60.0, 0.2, 1.5, Ls), 1.5, 0.02, 30.0, 8.0)
        for Ls in (0.0, 0.002)
    ]

    assert angles[1].average_current == pytest.approx(8.0, rel=1e-7)
    assert angles[1].alpha < angles[0].alpha


def test_commutation_that_fails() -> None:
    """A source reactance far above the load's impedance: before the voltage turns, the next pair has not taken over."""
    with pytest.raises(NotSolved, match=r"commutation fails|no steady state"):
        solve(FULLY_CONTROLLED_BRIDGE, Source(120.0, 60.0, inductance=0.05), Load(0.05, 0.1, 0.0), radians(5.0))
