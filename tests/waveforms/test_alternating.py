"""A series motor on alternating current: published rows, an integration by scipy, and identities."""

from math import acos, atan2, cos, degrees, pi, radians, sin, sqrt

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from buildsheet.waveforms import (
    DIODE_BRIDGE,
    FULLY_CONTROLLED_BRIDGE,
    NotSolved,
    SeriesMotor,
    Source,
    alternating_angle_for,
    on_alternating,
    series_emf_for,
    solve,
)

LINE = Source(120.0, 60.0)


@pytest.mark.parametrize(
    ("angle", "share"),
    [(30.0, 0.985), (45.0, 0.953), (60.0, 0.897), (90.0, 0.707), (120.0, 0.442), (135.0, 0.301), (150.0, 0.170)],
)
def test_triac_on_a_resistor(angle: float, share: float) -> None:
    """Textbook: Vrms/Vs = sqrt(1 - a/pi + sin 2a/2pi), tabulated; tolerance 0.3 %."""
    steady = on_alternating(LINE, SeriesMotor(20.0, 1e-6), radians(angle))

    assert steady.rms_voltage / 120.0 == pytest.approx(share, rel=3e-3)
    assert steady.power_factor == pytest.approx(share, rel=3e-3)


def test_universal_motor_on_alternating_current() -> None:
    """Solved exam question: 120 V 60 Hz, 20 ohm, 0.25 H; 0.6 A and 2000 rpm on 120 V direct current. The same 0.6 A on
    alternating: back-EMF 93.84 V, 1738 rpm, power factor 0.882, torque 0.309 N·m; tolerance 0.5 %."""
    steady = series_emf_for(LINE, 20.0, 0.25, 0.6)
    back_emf = steady.motor.k_omega * 0.6
    rpm = 2000.0 * back_emf / (120.0 - 0.6 * 20.0)

    assert back_emf == pytest.approx(93.84, rel=5e-3)
    assert rpm == pytest.approx(1738.0, rel=5e-3)
    assert steady.power_factor == pytest.approx(0.882, rel=5e-3)
    assert steady.shaft_power / (rpm * pi / 30.0) == pytest.approx(0.309, rel=5e-3)


@pytest.mark.parametrize(("R", "X", "angle"), [(20.0, 10.0, 20.0), (10.0, 20.0, 60.0)])
def test_fired_before_the_load_angle_it_conducts_all_the_time(R: float, X: float, angle: float) -> None:
    """Textbook: below atan(X/R) the triac is without effect: Vs/Z, cos phi, for the whole half-cycle."""
    steady = on_alternating(LINE, SeriesMotor(R, X / (2.0 * pi * 60.0)), radians(angle))

    assert steady.continuous
    assert steady.conduction_angle == pytest.approx(pi)
    assert steady.extinction_angle is None
    assert steady.rms_current == pytest.approx(120.0 / sqrt(R * R + X * X), rel=1e-9)
    assert steady.power_factor == pytest.approx(cos(atan2(X, R)), rel=1e-9)
    assert steady.form_factor == pytest.approx(pi / (2.0 * sqrt(2.0)), rel=1e-9)


def test_full_conduction_ends_at_the_load_angle() -> None:
    """A hair above atan(X/R) = 45 degrees there is a gap, and nothing jumps."""
    motor = SeriesMotor(20.0, 20.0 / (2.0 * pi * 60.0))
    below, above = (on_alternating(LINE, motor, radians(45.0 + d)) for d in (-0.01, 0.01))

    assert below.continuous
    assert not above.continuous
    assert above.rms_current == pytest.approx(below.rms_current, rel=1e-3)


POINTS = [
    # V, Hz, source ohm and H, drop, R, L, k_omega, degrees
    (120.0, 60.0, 0.0, 0.0, 0.0, 5.0, 0.05, 10.0, 90.0),
    (120.0, 60.0, 0.5, 0.0, 1.5, 5.0, 0.03, 20.0, 60.0),
    (230.0, 50.0, 0.4, 0.001, 1.2, 8.0, 0.08, 60.0, 120.0),
    (230.0, 50.0, 0.4, 0.002, 2.5, 8.0, 0.08, 0.0, 100.0),
    (230.0, 50.0, 1.0, 0.0, 1.0, 3.0, 0.15, 12.0, 140.0),
    (120.0, 60.0, 0.2, 0.0, 1.5, 2.0, 0.02, 25.0, 20.0),
    (24.0, 50.0, 0.3, 0.001, 2.0, 1.0, 0.01, 2.0, 30.0),
    (24.0, 50.0, 0.3, 0.0, 2.0, 1.0, 0.02, 0.5, 0.0),
    (120.0, 60.0, 0.0, 0.0, 1.5, 4.0, 0.06, 30.0, 0.0),
    (230.0, 50.0, 0.6, 0.003, 1.5, 20.0, 0.3, 150.0, 80.0),
]


@pytest.mark.parametrize("point", POINTS)
def test_agrees_with_an_integration(point: tuple[float, ...]) -> None:
    """scipy's Runge-Kutta over 30 half-cycles from rest, stopped where the current dies; the last one is measured.
    Tolerance 0.2 %, of the full current for a current that is nearly nothing."""
    rms, frequency, Rs, Ls, drop, R, L, k, angle = point
    omega, total, whole = 2.0 * pi * frequency, R + k + Rs, L + Ls
    x, i, sign = 0.0, 0.0, 1.0
    for half in range(30):
        start, end = half * pi, (half + 1) * pi
        times, currents = [], []
        sign = 1.0 if half % 2 == 0 else -1.0
        # a current of the half-cycle before runs out first, in its own direction
        for direction, low, high in ((-sign, start, end), (sign, start + radians(angle), end)):
            if direction == -sign and i * direction <= 0.0:
                continue
            low = max(low, x)
            if direction == sign:
                crest = sqrt(2.0) * rms
                low = max(low, start + np.arcsin(min(1.0, drop / crest)))
            def slope(at: float, y: np.ndarray, d: float = direction) -> list[float]:
                return [(sqrt(2.0) * rms * sin(at) - d * drop - total * y[0]) / (omega * whole)]
            def dies(at: float, y: np.ndarray, d: float = direction) -> float:
                return float(y[0] * d) + 1e-9
            dies.terminal, dies.direction = True, -1.0  # type: ignore[attr-defined]
            run = solve_ivp(slope, (low, high), [i if direction == -sign else max(i * sign, 0.0) * sign], events=dies, rtol=1e-8, atol=1e-9, dense_output=True)
            grid = np.linspace(low, run.t[-1], 2001)
            times.append(grid)
            currents.append(run.sol(grid)[0])
            x, i = float(run.t[-1]), float(run.y[0, -1])
            if abs(i) < 1e-6:
                i = 0.0
    mean = sum(np.trapezoid(np.abs(c), t) for t, c in zip(times, currents, strict=True)) / pi
    square = sum(np.trapezoid(c * c, t) for t, c in zip(times, currents, strict=True)) / pi
    power = sum(np.trapezoid(sqrt(2.0) * rms * np.sin(t) * c, t) for t, c in zip(times, currents, strict=True)) / pi
    top = max(float(np.max(np.abs(c))) for c in currents)

    steady = on_alternating(Source(rms, frequency, Rs, drop, Ls), SeriesMotor(R, L, k), radians(angle))

    assert steady.rms_current == pytest.approx(sqrt(square), rel=2e-3)
    assert steady.average_current == pytest.approx(mean, rel=2e-3)
    assert steady.peak_current == pytest.approx(top, rel=2e-3)
    assert steady.line_power == pytest.approx(power, rel=2e-3)


@pytest.mark.parametrize("point", POINTS)
def test_energy_balances(point: tuple[float, ...]) -> None:
    """Copper, shaft, drop and source resistance take what the line gives; the motor's voltage is that of its branch."""
    rms, frequency, Rs, Ls, drop, R, L, k, angle = point
    steady = on_alternating(Source(rms, frequency, Rs, drop, Ls), SeriesMotor(R, L, k), radians(angle))

    assert steady.line_power == pytest.approx(
        steady.motor_power + steady.device_loss + steady.source_loss, rel=1e-9
    )
    assert steady.shaft_power == pytest.approx(k / (R + k) * steady.motor_power)
    chart = steady.samples(8001)
    x, v, i = (np.array(row) for row in (chart.angle, chart.terminal_voltage, chart.current))
    assert sqrt(np.trapezoid(v * v, x) / (2.0 * pi)) == pytest.approx(steady.rms_voltage, rel=1e-3)
    assert sqrt(np.trapezoid(i * i, x) / (2.0 * pi)) == pytest.approx(steady.rms_current, rel=1e-3)
    assert np.trapezoid(i, x) == pytest.approx(0.0, abs=1e-3 * steady.peak_current)
    assert np.max(i) == pytest.approx(steady.peak_current, rel=1e-4)


def test_rectified_current_lets_it_run_faster() -> None:
    """On rectified current the inductance costs no back-EMF, so at the same RMS current the motor turns faster (the sign
    of it: an encyclopaedia of motors). Its back-EMF is a resistance to the rectifier's solver too."""
    motor = series_emf_for(LINE, 20.0, 0.25, 0.6).motor
    direct = solve(DIODE_BRIDGE, LINE, motor.load)
    faster = solve(DIODE_BRIDGE, LINE, SeriesMotor(20.0, 0.25, 1.02 * motor.k_omega).load)

    assert direct.rms_current > faster.rms_current > 0.6
    # current without gaps: the average voltage of a bridge, 2 Vm/pi, over the whole resistance
    assert direct.average_current == pytest.approx(0.9003 * 120.0 / (20.0 + motor.k_omega), rel=1e-3)


def test_half_cycles_of_a_gapped_current_are_those_of_a_thyristor_bridge() -> None:
    """With a gap in each half-cycle, a bridge of thyristors rectifies the very same pulses."""
    motor = SeriesMotor(10.0, 0.02, 5.0)
    ac, dc = on_alternating(LINE, motor, 1.8), solve(FULLY_CONTROLLED_BRIDGE, LINE, motor.load, 1.8)

    assert not ac.continuous
    assert not dc.continuous
    assert ac.average_current == pytest.approx(dc.average_current, rel=1e-9)
    assert ac.rms_current == pytest.approx(dc.rms_current, rel=1e-9)
    assert ac.extinction_angle == pytest.approx(dc.extinction_angle, rel=1e-9)


@pytest.mark.parametrize("amps", [0.05, 1.0, 2.5])
def test_wanted_current(amps: float) -> None:
    """By angle at a given speed, by speed at a given angle: both solve back."""
    motor = SeriesMotor(10.0, 0.05, 30.0)

    assert alternating_angle_for(LINE, motor, amps).rms_current == pytest.approx(amps, rel=1e-8)
    assert series_emf_for(LINE, 10.0, 0.05, amps, radians(70.0)).rms_current == pytest.approx(amps, rel=1e-8)


def test_full_conduction_can_be_asked_for() -> None:
    """The most that flows is not out of reach."""
    motor = SeriesMotor(10.0, 0.05, 30.0)

    assert alternating_angle_for(LINE, motor, on_alternating(LINE, motor).rms_current).alpha == 0.0
    assert degrees(acos(on_alternating(LINE, motor).power_factor)) == pytest.approx(degrees(atan2(2.0 * pi * 60.0 * 0.05, 40.0)))


def test_no_current_fired_too_late() -> None:
    """At pi, or behind the angle where the source falls below the drop."""
    late = on_alternating(Source(12.0, 60.0, 0.0, 2.0), SeriesMotor(1.0, 0.01), pi - 0.05)

    assert late.rms_current == late.rms_voltage == late.line_power == 0.0
    assert set(late.samples(11).current) == {0.0}
    with pytest.raises(NotSolved, match="no current flows, so the line has no power factor"):
        _ = late.power_factor
    with pytest.raises(NotSolved, match="no current flows, so it has no form factor"):
        _ = late.form_factor


def test_refused_angle() -> None:
    """Rad, not degrees."""
    with pytest.raises(NotSolved, match="a firing angle lies between 0 and pi rad"):
        on_alternating(LINE, SeriesMotor(1.0, 0.01), 90.0)


def test_refused_currents() -> None:
    """Beyond standstill: 120 V over 10 ohm and 3.77 ohm of reactance is 11.23 A."""
    with pytest.raises(NotSolved, match=r"at standstill 120 V give 11\.23 A"):
        series_emf_for(LINE, 10.0, 0.01, 20.0)


def test_refused_current_at_speed() -> None:
    """120 V over 31.1 ohm is 3.85 A."""
    with pytest.raises(NotSolved, match=r"at full conduction 120 V give 3\.8"):
        alternating_angle_for(LINE, SeriesMotor(10.0, 0.01, 20.9), 5.0)


@pytest.mark.parametrize("amps", [0.0, -1.0])
def test_refused_no_current(amps: float) -> None:
    """A wanted current is above zero."""
    with pytest.raises(NotSolved, match="the RMS current must be above zero"):
        alternating_angle_for(LINE, SeriesMotor(10.0, 0.01), amps)


@pytest.mark.parametrize(
    ("numbers", "reason"),
    [
        ((0.0, 0.01, 1.0), "motor resistance must be above zero"),
        ((1.0, 0.0, 1.0), "motor inductance must be at least"),
        ((1.0, 0.01, -1.0), "a motor turning backwards is not modelled"),
    ],
)
def test_refused_motor(numbers: tuple[float, float, float], reason: str) -> None:
    """Each field on its own."""
    with pytest.raises(NotSolved, match=reason):
        SeriesMotor(*numbers)
