"""Definitions of drives, supplies and brakes that nobody publishes figures for: identities instead."""

from collections.abc import Callable
from math import e, exp, hypot, sqrt

import pytest
from scipy.integrate import quad

from buildsheet.formulas import (
    braking,
    controls,
    induction,
    inverter,
    mechanics,
    motor,
    protection,
    rotor,
    series,
    shunt,
    smoothing,
    starting,
    transformer,
    windings,
)
from buildsheet.formulas.formula import OutsideLimits
from tests.formulas.rows import rpm

approx = pytest.approx


def _saturated_torque() -> None:
    assert series.saturated_torque(T_1=35.1, I_1=30.0, I_2=30.0) == approx(35.1)
    # Half as much again of the current: half as much again of the torque, where unsaturated iron gives its square.
    more = series.saturated_torque(T_1=35.1, I_1=30.0, I_2=45.0)
    assert more == approx(1.5 * 35.1)
    assert more < series.series_torque(k=35.1 / 30.0**2, I=45.0)


def _shunt_braking_current() -> None:
    # The whole field: the same as with magnets. Half of the field: half of the current.
    E = motor.emf_at_speed(K_e=1.05, omega=120.0)
    whole = shunt.shunt_braking_current(K_e=1.05, omega=120.0, p=1.0, R_a=0.25, R_b=5.0)
    assert whole == approx(braking.brake_current(E=E, R_a=0.25, R_b=5.0))
    assert shunt.shunt_braking_current(K_e=1.05, omega=120.0, p=0.5, R_a=0.25, R_b=5.0) == approx(whole / 2)


def _bridging_current() -> None:
    # What the work leaves of the volts with the resistor in, met by the motor without it: (V − (V − I·(R + R_s)))/R.
    V, I, R, R_s = 24.0, 5.0, 0.4, 0.8
    emf = motor.back_emf(V=V, I=I, R=R + R_s, U_b=0.0)
    assert starting.bridging_current(I=I, R_1=R, R_s=R_s) == approx((V - emf) / R)
    assert starting.bridging_current(I=I, R_1=R, R_s=0.0) == approx(I)


def _start_heat() -> None:
    # The integral of the decaying current by scipy; and an idle run-up, whose heat is half of I_1²·R·τ.
    I_1, I, R, tau, t = 20.0, 6.0, 0.5, 0.12, 1.2
    whole, _ = quad(lambda x: R * (I + (I_1 - I) * exp(-x / tau)) ** 2, 0.0, t)
    assert starting.start_heat(I_1=I_1, I=I, R=R, tau=tau, t=t) == approx(whole, rel=1e-3)
    assert starting.start_heat(I_1=I_1, I=0.0, R=R, tau=tau, t=t) == approx(I_1**2 * R * tau / 2)


def _alternating_start_resistor() -> None:
    # With it the standing motor takes just that current; and less than none where its own resistance does it.
    R = starting.alternating_start_resistor(V=132.0, I=6.0, R=3.0, X=13.0)
    assert series.held_alternating_current(V=132.0, R=3.0 + R, X=13.0) == approx(6.0)
    assert starting.alternating_start_resistor(V=100.0, I=10.0, R=8.0, X=8.0) < 0


RUN_UP = {"k": 0.05, "V": 120.0, "R": 18.0, "X": 13.0}


def _series_speed_at_current() -> None:
    # There the impedance lets just that current through.
    omega = starting.series_speed_at_current(V=120.0, I=4.0, R=18.0, X=13.0, k=0.05)
    assert series.held_alternating_current(V=120.0, R=18.0 + 0.05 * omega, X=13.0) == approx(4.0)


def _fuse_for_start_heat() -> None:
    # An idle start leaves half of I_1²·R·τ, which is what fuse_for_run_up counts.
    W = starting.start_heat(I_1=30.0, I=0.0, R=0.5, tau=0.2, t=2.0)
    assert starting.fuse_for_start_heat(W=W, R=0.5, k=1.5) == approx(protection.fuse_for_run_up(I_s=30.0, tau=0.2, k=1.5))


def _series_settled_speed() -> None:
    # There the current that the impedance leaves makes the torque.
    omega = starting.series_settled_speed(T=0.3, **RUN_UP)
    current = series.held_alternating_current(V=120.0, R=18.0 + 0.05 * omega, X=13.0)
    assert series.series_torque(k=0.05, I=current) == approx(0.3)


def _series_run_up_time() -> None:
    # Newton's law integrated by scipy.
    J, T, omega = 0.0008, 0.3, 300.0

    def slowness(w: float) -> float:
        return J / (series.series_torque(k=0.05, I=series.held_alternating_current(V=120.0, R=18.0 + 0.05 * w, X=13.0)) - T)

    assert starting.series_run_up_time(J=J, T=T, omega=omega, **RUN_UP) == approx(quad(slowness, 0.0, omega)[0], rel=1e-6)


def _speed_when_bridged() -> None:
    # A motor with a time constant has this speed after time_to_share_of_speed.
    tau = 0.2
    t = braking.time_to_share_of_speed(tau=tau, p=0.05)
    assert starting.speed_when_bridged(omega=300.0, p=0.05) == approx(300.0 * (1 - exp(-t / tau)))


def _series_start_heat() -> None:
    # The same integral of the squared current, by scipy.
    J, T, omega, R_s = 0.0008, 0.3, 300.0, 12.0

    def heat(w: float) -> float:
        current = series.held_alternating_current(V=120.0, R=18.0 + 0.05 * w, X=13.0)
        return R_s * current**2 * J / (series.series_torque(k=0.05, I=current) - T)

    t = starting.series_run_up_time(J=J, T=T, omega=omega, **RUN_UP)
    assert starting.series_start_heat(R=R_s, J=J, k=0.05, T=T, omega=omega, t=t) == approx(quad(heat, 0.0, omega)[0], rel=1e-6)


def _current_with_margin() -> None:
    # No margin is the current itself; a tenth more of 0.28 A is 0.308 A.
    assert shunt.current_with_margin(I=0.28, k=1.0) == 0.28
    assert shunt.current_with_margin(I=0.28, k=1.1) == approx(0.308)


def _volts_that_a_field_stands() -> None:
    # The plate's own, and a tenth more (NEMA MG 1, from memory).
    assert shunt.volts_that_a_field_stands(V_f=180.0, k=1.0) == 180.0
    assert shunt.volts_that_a_field_stands(V_f=180.0, k=1.1) == approx(198.0)


def _rating_with_spare() -> None:
    # 0.5 A in 100 ohm are 25 W; twice that is the rating.
    heat = motor.copper_loss(I_rms=0.5, R=100.0)
    assert shunt.rating_with_spare(P=heat, k=2.0) == approx(50.0)
    assert shunt.rating_with_spare(P=heat, k=1.0) == approx(25.0)


def _locked_rotor_estimate() -> None:
    assert induction.locked_rotor_estimate(I_n=8.0, k=1.0) == 8.0
    assert induction.locked_rotor_estimate(I_n=8.0, k=6.0) == approx(2 * induction.locked_rotor_estimate(I_n=8.0, k=3.0))


def _torque_near_rated() -> None:
    assert induction.torque_near_rated(T_n=2.0, s=0.04, s_n=0.04) == 2.0
    assert induction.torque_near_rated(T_n=2.0, s=0.0, s_n=0.04) == 0.0
    # Near synchronism the curve to breakdown has this tangent: 2·T_b/s_b.
    T_b, s_b, s = 20.0, 0.2, 0.001
    tangent = induction.torque_near_rated(T_n=2 * T_b / s_b * 0.01, s=s, s_n=0.01)
    assert induction.torque_at_slip(T_b=T_b, s_b=s_b, s=s) == approx(tangent, rel=1e-4)


def _switch_over_speed() -> None:
    # 75 % of 1800 rpm (from memory) is 1350 rpm.
    assert induction.switch_over_speed(omega_s=rpm(1800), k=0.75) == approx(rpm(1350))


def _weakening_torque() -> None:
    assert inverter.weakening_torque(T_n=10.0, f_n=50.0, f=20.0) == 10.0
    assert inverter.weakening_torque(T_n=10.0, f_n=50.0, f=50.0) == 10.0
    # Above base the power stays what it is there.
    for f in (60.0, 75.0, 100.0):
        T = inverter.weakening_torque(T_n=10.0, f_n=50.0, f=f)
        power = mechanics.shaft_power(T=T, omega=induction.synchronous_speed(f=f, p=4.0))
        assert power == approx(10.0 * induction.synchronous_speed(f=50.0, p=4.0))


def _three_phase_shaft_power() -> None:
    # Three single phases of V/√3 each.
    one = induction.alternating_shaft_power(V=400.0 / sqrt(3), I=2.0, k_p=0.8, eta=0.75)
    assert inverter.three_phase_shaft_power(V=400.0, I=2.0, k_p=0.8, eta=0.75) == approx(3 * one)


def _inverter_rating() -> None:
    # Half of the output is left: twice the rating, as the drive makers' manuals have it.
    assert inverter.inverter_rating(I_n=4.0, k=0.5) == 8.0
    assert inverter.inverter_rating(I_n=4.0, k=1.0) == 4.0


def _inverter_input_current() -> None:
    I = inverter.inverter_input_current(P=750.0, eta=0.75, V=230.0, k_p=0.6)
    assert induction.power_factor(P=1000.0, V=230.0, I=I) == approx(0.6)
    assert inverter.inverter_input_current(P=0.0, eta=0.75, V=230.0, k_p=0.6) == 0.0


def _torque_on_shaft_fan() -> None:
    assert inverter.torque_on_shaft_fan(T_n=10.0, k=1.0) == 10.0
    assert inverter.torque_on_shaft_fan(T_n=10.0, k=0.5) == 5.0


def _half_wave_ripple() -> None:
    # One charge in a period and not two.
    assert smoothing.half_wave_ripple(I=5.0, f=60.0, C=0.01) == approx(2 * smoothing.full_wave_ripple(I=5.0, f=60.0, C=0.01))


def _capacitor_ripple_current() -> None:
    assert smoothing.capacitor_ripple_current(I_s=5.0, I_d=5.0) == 0.0
    assert hypot(smoothing.capacitor_ripple_current(I_s=9.64, I_d=5.0), 5.0) == approx(9.64)


def _window_fill() -> None:
    assert windings.window_fill(N_1=100.0, a_1=1e-6, N_2=0.0, a_2=1e-6, A_w=1e-4) == approx(1.0)
    halves = windings.window_fill(N_1=50.0, a_1=1e-6, N_2=25.0, a_2=2e-6, A_w=1e-4)
    assert halves == approx(1.0)


def _regulation_from_loss() -> None:
    # The drop over one resistance, as a share of the voltage, is the loss in it as a share of volts times amperes.
    V, I, R = 24.0, 10.0, 0.12
    by_loss = transformer.regulation_from_loss(P=motor.copper_loss(I_rms=I, R=R), S=transformer.apparent_power(V=V, I=I))
    assert by_loss == approx(transformer.regulation(V_nl=V + I * R, V_fl=V))


def _off_load_peak() -> None:
    assert transformer.off_load_peak(V=24.0, r=0.0, p=0.0) == approx(smoothing.capacitor_peak(V=24.0, U_d=0.0))
    # 120 V line without a transformer, 10 % high: 186.7 V.
    assert transformer.off_load_peak(V=120.0, r=0.0, p=0.1) == approx(186.7, rel=1e-3)


def _mean_brake_power() -> None:
    # Twenty stops an hour of 180 J each are one watt.
    assert braking.mean_brake_power(W=180.0, t=3600.0 / 20) == approx(1.0)


def _chuck_torque() -> None:
    # A chuck that is all the inertia takes all the torque, times the ratio.
    assert braking.chuck_torque(T=3.0, J_c=0.02, J=0.02, i=1.0) == 3.0
    whole = mechanics.inertia_at_motor(J_m=0.0, J_t=0.08, i=2.0)
    assert braking.chuck_torque(T=3.0, J_c=0.08, J=whole, i=2.0) == approx(2 * 3.0)
    # Beside a motor of the same inertia, half of it.
    both = mechanics.inertia_at_motor(J_m=0.02, J_t=0.02, i=1.0)
    assert braking.chuck_torque(T=3.0, J_c=0.02, J=both, i=1.0) == approx(1.5)


def _ring_inertia() -> None:
    assert rotor.ring_inertia(m=2.0, d=0.2, d_i=0.0) == approx(rotor.disc_inertia(m=2.0, d=0.2))
    assert rotor.ring_inertia(m=2.0, d=0.2, d_i=0.2) == approx(2.0 * 0.1**2)  # thin: m·r²
    # A disc less the disc that was cut out of it.
    whole, hole = (rotor.cylinder_mass(d=d, l=0.02, rho=7850.0) for d in (0.2, 0.1))
    left = rotor.disc_inertia(m=whole, d=0.2) - rotor.disc_inertia(m=hole, d=0.1)
    assert rotor.ring_inertia(m=whole - hole, d=0.2, d_i=0.1) == approx(left)


def _spin_test_speed() -> None:
    # IEC 60034-1, 9.7 (from memory): 1.2 times the highest speed.
    assert rotor.spin_test_speed(omega=rpm(3000), k=1.2) == approx(rpm(3600))


def _proof_of_spin_test() -> None:
    low = rotor.spinning_stress(c=1.0, rho=700.0, v=40.0)
    high = rotor.spinning_stress(c=1.0, rho=700.0, v=48.0)
    assert rotor.proof_of_spin_test(omega_t=48.0, omega=40.0) == approx(high / low)
    assert rotor.proof_of_spin_test(omega_t=40.0, omega=40.0) == 1.0


IDENTITIES: dict[str, Callable[[], None]] = {
    "saturated_torque": _saturated_torque,
    "shunt_braking_current": _shunt_braking_current,
    "alternating_start_resistor": _alternating_start_resistor,
    "series_speed_at_current": _series_speed_at_current,
    "fuse_for_start_heat": _fuse_for_start_heat,
    "series_settled_speed": _series_settled_speed,
    "series_run_up_time": _series_run_up_time,
    "speed_when_bridged": _speed_when_bridged,
    "series_start_heat": _series_start_heat,
    "bridging_current": _bridging_current,
    "start_heat": _start_heat,
    "current_with_margin": _current_with_margin,
    "volts_that_a_field_stands": _volts_that_a_field_stands,
    "rating_with_spare": _rating_with_spare,
    "locked_rotor_estimate": _locked_rotor_estimate,
    "torque_near_rated": _torque_near_rated,
    "switch_over_speed": _switch_over_speed,
    "weakening_torque": _weakening_torque,
    "three_phase_shaft_power": _three_phase_shaft_power,
    "inverter_rating": _inverter_rating,
    "inverter_input_current": _inverter_input_current,
    "torque_on_shaft_fan": _torque_on_shaft_fan,
    "half_wave_ripple": _half_wave_ripple,
    "capacitor_ripple_current": _capacitor_ripple_current,
    "window_fill": _window_fill,
    "regulation_from_loss": _regulation_from_loss,
    "off_load_peak": _off_load_peak,
    "mean_brake_power": _mean_brake_power,
    "chuck_torque": _chuck_torque,
    "ring_inertia": _ring_inertia,
    "spin_test_speed": _spin_test_speed,
    "proof_of_spin_test": _proof_of_spin_test,
}


@pytest.mark.parametrize("name", IDENTITIES)
def test_formula_keeps_its_identities(name: str) -> None:
    """Zero, doubling, one half, the same thing counted in two ways."""
    IDENTITIES[name]()


def test_a_rotor_without_load_and_a_field_that_is_lost_are_refused() -> None:
    """What has no bound gives no number: no torque, no current, a field under one half."""
    with pytest.raises(OutsideLimits, match="T is 0 N·m, must be at least"):
        series.series_speed_at_torque(V=120.0, R=20.0, k=0.86, T=0.0)
    with pytest.raises(OutsideLimits, match="I is 0 mA, must be at least"):
        series.series_speed(E=108.0, k=0.86, I=0.0)
    with pytest.raises(OutsideLimits, match=r"p is 10\.0 %, must be at least 50"):
        shunt.shunt_speed(V=230.0, I=5.0, R=0.4, U_b=0.0, K_e=2.65, p=0.1)
    with pytest.raises(OutsideLimits, match="p is 0 %, must be at least 50"):
        shunt.shunt_braking_current(K_e=2.65, omega=80.0, p=0.0, R_a=0.4, R_b=10.0)


def test_runaway_grows_without_bound_as_friction_goes() -> None:
    """A quarter of the torque: more than twice the speed. So the figure is only as good as the friction is known."""
    slow, fast = (series.series_speed_at_torque(V=120.0, R=20.0, k=0.86, T=T) for T in (0.04, 0.01))

    assert fast > 2 * slow


def test_bleeder_and_time_to_discharge_are_one_law() -> None:
    """The resistor that is worked out needs exactly the time that was asked for; after one R·C, 37 % are left."""
    R = smoothing.bleeder_resistance(t=5.0, C=1e-3, V_0=170.0, V_s=60.0)

    assert controls.discharge_time(R=R, C=1e-3, V_0=170.0, V_s=60.0) == approx(5.0)
    assert smoothing.bleeder_resistance(t=1.0, C=1e-3, V_0=100.0, V_s=100.0 / e) == approx(1000.0)
