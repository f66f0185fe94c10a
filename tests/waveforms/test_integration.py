"""Smoothing capacitors against scipy: its adaptive integrator on the plain differential equations, its root finder on the
period. Without source inductance the rectifier is one line, l = max(0, (|e| - drop - v)/Rs)."""

from math import inf, pi, sin, sqrt

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.optimize import fsolve

from tests.waveforms.comparison import answered
from tests.waveforms.points import Circuit

CIRCUITS = [
    # V, Hz, ohm, H, drop, R, L, E, angle, C, bleeder
    Circuit("diode bridge", 120.0, 60.0, 0.3, 0.0, 1.8, 1.5, 0.01, 110.0, 0.0, 0.001, 10e3),
    Circuit("diode bridge", 120.0, 60.0, 0.5, 0.0, 0.0, 1.5, 0.03, 90.0, 0.0, 0.0005, inf),
    Circuit("diode bridge", 24.0, 50.0, 0.1, 0.0, 1.6, 0.8, 0.002, 20.0, 0.0, 0.01, 500.0),
    Circuit("diode bridge", 230.0, 50.0, 0.6, 0.0, 2.0, 12.0, 0.05, 200.0, 0.0, 0.0002, 47e3),
    Circuit("half-wave diode", 120.0, 60.0, 0.5, 0.0, 0.9, 10.0, 0.02, 60.0, 0.0, 0.004, inf),
    Circuit("half-wave diode", 24.0, 50.0, 0.3, 0.0, 0.9, 6.0, 0.005, 12.0, 0.0, 0.01, 1000.0),
]


@pytest.mark.parametrize("circuit", CIRCUITS, ids=lambda c: f"{c.converter}, {c.rms:g} V, {1e3 * c.C:g} mF")
def test_agrees_with_an_integration(circuit: Circuit) -> None:
    """Averages, squares, power as further unknowns of the same integration; tolerance 0.1 %."""
    c, omega = circuit, 2.0 * pi * circuit.frequency
    period = 1.0 / c.frequency / (2.0 if c.converter == "diode bridge" else 1.0)

    def slopes(t: float, y: np.ndarray) -> list[float]:
        v, i = y[0], y[1]
        e = sqrt(2.0) * c.rms * sin(omega * t)
        l = max(0.0, ((abs(e) if c.converter == "diode bridge" else e) - c.drop - v) / c.source_resistance)
        charge = l - i - v / c.bleeder
        return [charge / c.C, (v - c.R * i - c.E) / c.L, v, v * v, i, i * i, l * l, abs(e) * l, charge * charge]

    def after(start: np.ndarray) -> np.ndarray:
        whole = solve_ivp(slopes, (0.0, period), [*start, *[0.0] * 7], method="RK45", rtol=1e-7, atol=1e-7, max_step=period / 200)
        return whole.y[:, -1]

    top = sqrt(2.0) * c.rms
    start = fsolve(lambda z: after(z)[:2] - z, [0.85 * top, (0.85 * top - c.E) / c.R], xtol=1e-8)
    means = after(start)[2:] / period
    steady = answered(circuit)

    assert steady.average_voltage == pytest.approx(means[0], rel=1e-3)
    assert steady.rms_voltage == pytest.approx(sqrt(means[1]), rel=1e-3)
    assert steady.average_current == pytest.approx(means[2], rel=1e-3)
    assert steady.rms_current == pytest.approx(sqrt(means[3]), rel=1e-3)
    assert steady.line_current == pytest.approx(sqrt(means[4]), rel=1e-3)
    assert steady.line_power == pytest.approx(means[5], rel=1e-3)
    assert steady.capacitor_current == pytest.approx(sqrt(means[6]), rel=1e-3)  # type: ignore[union-attr]
