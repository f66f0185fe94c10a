"""Formulas against numerical solutions that know none of them: circuits, motion and elasticity solved by scipy."""

import cmath
from itertools import pairwise
from math import degrees, pi, radians, sin, sqrt

import numpy as np
import pytest
from scipy.integrate import quad, solve_bvp, solve_ivp

from buildsheet.formulas import braking, induction, mechanics, rotor, series, smoothing, triac

approx = pytest.approx


@pytest.mark.parametrize("hole", [0.1, 0.3, 0.6])
def test_stress_at_the_hole_of_a_spinning_disc(hole: float) -> None:
    """Plane elasticity: u'' + u'/r − u/r² = −(1 − ν²)·ρ·ω²·r/E with a free rim and a free hole."""
    stress, middle = _disc(nu=0.3, inner=hole)

    assert rotor.bored_disc_factor(nu=0.3, q=hole) == approx(stress, rel=1e-3)
    assert middle < stress  # nowhere more than at the hole


def test_stress_in_the_middle_of_a_solid_disc() -> None:
    """The same equation with no displacement at the middle."""
    stress, _ = _disc(nu=0.3, inner=0.0)

    assert rotor.solid_disc_factor(nu=0.3) == approx(stress, rel=1e-3)


def test_a_disc_with_a_large_hole_is_a_ring() -> None:
    """As the hole nears the rim the stress becomes that of the thin ring, one times density times speed squared."""
    stress, _ = _disc(nu=0.3, inner=0.98)

    assert stress == approx(1.0, abs=0.02)
    assert rotor.bored_disc_factor(nu=0.3, q=0.98) == approx(stress, rel=1e-3)


def _disc(nu: float, inner: float) -> tuple[float, float]:
    """Greatest tangential stress of a disc of radius, density and speed one, and the stress half way out."""
    start = inner or 1e-3

    def slope(r: np.ndarray, y: np.ndarray) -> np.ndarray:
        return np.vstack((y[1], -y[1] / r + y[0] / r**2 - (1 - nu**2) * r))

    def ends(low: np.ndarray, high: np.ndarray) -> np.ndarray:
        free = low[1] + nu * low[0] / start
        fixed = low[0] - start * low[1]  # near the middle u grows in proportion
        return np.array([free if inner else fixed, high[1] + nu * high[0]])

    r = np.linspace(start, 1.0, 400)
    made = solve_bvp(slope, ends, r, np.vstack((0.1 * r, 0.1 + 0 * r)), tol=1e-8, max_nodes=100000)
    assert made.success
    u, du = made.sol(r)
    tangential = (u / r + nu * du) / (1 - nu**2)
    return float(tangential.max()), float(tangential[len(r) // 2])


def test_braking_is_the_motion_of_the_machine() -> None:
    """J·dω/dt = −K·I, L·dI/dt = K·ω − (R_a + R_b)·I, L of 10 mH: peak, time to a tenth, and where the energy goes."""
    J, K, R_a, R_b, L, omega = 0.02, 0.4567, 1.5, 8.5, 10e-3, 180.64

    def slope(_: float, y: np.ndarray) -> list[float]:
        return [-K * y[1] / J, (K * y[0] - (R_a + R_b) * y[1]) / L, y[1] ** 2]

    def slow(_: float, y: np.ndarray) -> float:
        return float(y[0] - 0.1 * omega)

    made = solve_ivp(slope, (0.0, 12.0), [omega, 0.0, 0.0], events=slow, max_step=1e-3, rtol=1e-8)
    E = K * omega
    tau = braking.brake_time_constant(J=J, R_a=R_a, R_b=R_b, K_e=K)
    W = mechanics.turning_energy(J=J, omega=omega)

    assert braking.brake_current(E=E, R_a=R_a, R_b=R_b) == approx(max(made.y[1]), rel=1e-2)
    assert braking.time_to_share_of_speed(tau=tau, p=0.1) == approx(made.t_events[0][0], rel=2e-3)
    share = braking.resistor_share(R_a=R_a, R_b=R_b)
    assert braking.brake_energy(W=W, k=share) == approx(R_b * made.y[2][-1], rel=1e-3)


@pytest.mark.parametrize("slip", [0.01, 0.03, 0.1, 0.2, 0.5, 1.0])
def test_torque_by_slip_is_that_of_the_rotor_circuit(slip: float) -> None:
    """One phase of a rotor, reactance X and resistance R/s on a fixed voltage: torque is its power over the field's speed.
    Breakdown is where a fine search finds the top."""
    X, R = 2.0, 0.3

    def torque(s: float) -> float:
        return abs(1 / complex(R / s, X)) ** 2 * R / s

    fine = np.linspace(0.001, 1, 20001)
    top = max(fine, key=torque)

    assert induction.torque_at_slip(T_b=torque(top), s_b=float(top), s=slip) == approx(torque(slip), rel=1e-4)


def test_windings_as_complex_numbers() -> None:
    """Two windings and a capacitor on 110 V, worked in complex numbers; lag is minus the angle of the current."""
    main, aux = cmath.rect(18.33, radians(40)), complex(26.56, 7.12)
    C = induction.capacitance_for_lead(R=aux.real, X_L=aux.imag, phi=radians(42), f=60.0)
    X_C = 1 / (2 * pi * 60 * C)
    I_m, I_a = 110 / main, 110 / (aux - 1j * X_C)

    assert degrees(cmath.phase(I_a)) == approx(42.0)
    assert induction.winding_current(V=110.0, R=aux.real, X_L=aux.imag, X_C=X_C) == approx(abs(I_a))
    phases = {"I_1": abs(I_m), "phi_1": -cmath.phase(I_m), "I_2": abs(I_a), "phi_2": -cmath.phase(I_a)}
    whole = induction.line_current(**phases)
    assert whole == approx(abs(I_m + I_a))
    assert induction.line_lag(**phases, I=whole) == approx(-cmath.phase(I_m + I_a))
    right = induction.quadrature_capacitance(R=aux.real, X_L=aux.imag, phi_m=radians(40), f=60.0)
    I_a = 110 / (aux - 1j / (2 * pi * 60 * right))
    assert degrees(cmath.phase(I_a / I_m)) == approx(90.0)


def test_universal_motor_over_a_period() -> None:
    """Current a sine, back-EMF in step with it: the line's RMS voltage and the power by integration over a period."""
    I, R, L, f, E = 0.6, 20.0, 0.25, 60.0, 93.84
    omega = 2 * pi * f
    t = np.linspace(0, 1 / f, 20001)
    i = sqrt(2) * I * np.sin(omega * t)
    v = i * R + np.gradient(i, t) * L + sqrt(2) * E * np.sin(omega * t)
    V = float(np.sqrt(np.mean(v**2)))
    power = float(np.mean(v * i))

    X = series.coil_reactance(f=f, L=L)
    assert series.alternating_back_emf(V=V, I=I, X=X, R=R, U_b=0.0) == approx(E, rel=1e-3)
    assert series.series_power_factor(E=E, I=I, R=R, V=V) == approx(power / (V * I), rel=1e-3)


@pytest.mark.parametrize("angle", [0, 30, 60, 90, 120, 150])
def test_phase_control_by_integration(angle: float) -> None:
    """RMS and averages of what is left of the sine, by quadrature."""
    alpha = radians(angle)
    square = quad(lambda x: 2 * sin(x) ** 2, alpha, pi)[0] / pi
    mean = quad(lambda x: sqrt(2) * sin(x), alpha, pi)[0]
    full = quad(lambda x: sqrt(2) * sin(x), alpha, pi + alpha)[0] / pi

    assert triac.triac_voltage(V_s=1.0, alpha=alpha) == approx(sqrt(square))
    assert triac.semiconverter_average(V_s=1.0, alpha=alpha) == approx(mean / pi)
    assert triac.half_wave_average(V_s=1.0, alpha=alpha) == approx(mean / (2 * pi))
    if angle <= 90:
        assert triac.full_converter_average(V_s=1.0, alpha=alpha) == approx(full, abs=1e-12)
    assert triac.semiconverter_line_current(I=1.0, alpha=alpha) == approx(sqrt((180 - angle) / 180))


@pytest.mark.parametrize(("amps", "source"), [(5.0, 0.02), (5.0, 0.15), (5.0, 0.6), (2.0, 0.15)])
def test_straight_line_ripple_is_on_the_high_side(amps: float, source: float) -> None:
    """24 V 60 Hz, ideal diodes behind a resistance, 10 mF, a steady load, stepped in time: true ripple is 55 to 93 % of it;
    the peak without load bounds the voltage."""
    f, C = 60.0, 10e-3
    step = 2e-6
    v, seen = 33.0, []
    for n in range(int(4 / f / step)):
        line = abs(sqrt(2) * 24 * sin(2 * pi * f * n * step))
        charging = max(0.0, line - v) / source
        v += (charging - amps) / C * step
        if n * step > 3 / f:
            seen.append(v)
    ripple = max(seen) - min(seen)
    straight = smoothing.full_wave_ripple(I=amps, f=f, C=C)

    assert 0.55 * straight < ripple < 0.93 * straight
    assert max(seen) <= smoothing.capacitor_peak(V=24.0, U_d=0.0)


def test_rush_into_a_capacitor_by_integration() -> None:
    """I²t of the exponential, by quadrature; it needs no more than five time constants."""
    V, R, C = 169.7, 10.0, 1e-3
    through = quad(lambda t: (V / R * np.exp(-t / (R * C))) ** 2, 0, 5 * R * C)[0]

    assert smoothing.inrush_let_through(V_m=V, C=C, R=R) == approx(through, rel=1e-4)
    half_sine = quad(lambda t: (200 * sin(2 * pi * 60 * t)) ** 2, 0, 1 / 120)[0]
    assert smoothing.surge_let_through(I_m=200.0, t=1 / 120) == approx(half_sine, rel=1e-9)


def test_voltage_falls_with_the_angle() -> None:
    """The table of angles is searched in this order."""
    shares = [triac.triac_voltage(V_s=1.0, alpha=radians(angle)) for angle in range(0, 180, 10)]

    assert all(before > after for before, after in pairwise(shares))
