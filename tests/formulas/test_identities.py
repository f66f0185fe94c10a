"""Definitions that nobody publishes figures for: identities (zero, doubling, one half, the rated point) instead."""

from collections.abc import Callable
from math import e, inf, log

import pytest

from buildsheet.formulas import battery, choice, conductors, controls, cooling, mechanics, motor, protection

approx = pytest.approx


def _larger() -> None:
    assert choice.larger_of(a=2.0, b=2.0) == 2.0
    assert choice.larger_of(a=-1.0, b=-3.0) == -1.0
    assert choice.larger_of(a=1.0, b=7.0) == choice.larger_of(a=7.0, b=1.0) == 7.0


def _smaller() -> None:
    assert choice.smaller_of(a=2.0, b=2.0) == 2.0
    assert choice.smaller_of(a=-1.0, b=-3.0) == -3.0
    for a, b in ((1.0, 7.0), (7.0, 1.0)):
        assert choice.smaller_of(a=a, b=b) + choice.larger_of(a=a, b=b) == a + b


def _margin() -> None:
    assert choice.margin(had=8.0, needed=8.0) == 0.0
    assert choice.margin(had=16.0, needed=8.0) == 1.0
    assert choice.margin(had=4.0, needed=8.0) == -0.5


def _room() -> None:
    assert choice.room(used=0.0, limit=4.0) == 1.0
    assert choice.room(used=4.0, limit=4.0) == 0.0
    assert choice.room(used=6.0, limit=4.0) == -0.5


def _current_by_heat() -> None:
    assert protection.current_by_heat(I=5.0, F=1.0) == 5.0
    # Heat by the RMS current is the square of the form factor times that by the average.
    heat = motor.copper_loss(I_rms=protection.current_by_heat(I=5.0, F=1.4), R=1.0)
    assert heat == approx(1.4**2 * motor.copper_loss(I_rms=5.0, R=1.0))


def _path_drop() -> None:
    assert motor.path_drop(U_d=0.0, U_b=1.5) == 1.5
    assert motor.path_drop(U_d=2.0, U_b=1.0) == motor.path_drop(U_d=1.0, U_b=2.0)


def _duty_current() -> None:
    assert motor.duty_current(I=6.0, t_on=900.0, t_off=0.0) == 6.0
    assert motor.duty_current(I=6.0, t_on=0.0, t_off=900.0) == 0.0
    heat = motor.duty_current(I=6.0, t_on=300.0, t_off=500.0) ** 2 * 800.0
    assert heat == approx(6.0**2 * 300.0)  # the same I²·t over the whole cycle


def _total_drop() -> None:
    assert conductors.total_drop(U_1=0.0, U_2=0.7) == 0.7
    whole = conductors.voltage_drop(l=5.0, r=0.01, I=3.0)
    parts = [conductors.voltage_drop(l=l, r=0.01, I=3.0) for l in (2.0, 3.0)]
    assert conductors.total_drop(U_1=parts[0], U_2=parts[1]) == approx(whole)


def _wire_length() -> None:
    assert conductors.wire_length(l=0.9, l_s=0.0) == 0.9
    assert conductors.wire_length(l=1.8, l_s=0.2) == approx(2 * conductors.wire_length(l=0.9, l_s=0.1))


def _total_heat() -> None:
    assert cooling.total_heat(P_1=0.0, P_2=4.0) == 4.0
    assert cooling.total_heat(P_1=4.0, P_2=11.0) == cooling.total_heat(P_1=11.0, P_2=4.0)


def _ratio_of_steps() -> None:
    assert mechanics.ratio_of_steps(i_1=1.0, i_2=3.0) == 3.0
    there, back = mechanics.belt_ratio(d_1=0.05, d_2=0.15), mechanics.belt_ratio(d_1=0.15, d_2=0.05)
    assert mechanics.ratio_of_steps(i_1=there, i_2=back) == approx(1.0)


def _share_of_steps() -> None:
    assert mechanics.share_of_steps(eta_1=1.0, eta_2=0.92) == 0.92
    assert mechanics.share_of_steps(eta_1=0.0, eta_2=0.92) == 0.0


def _motor_torque() -> None:
    assert mechanics.motor_torque(T=12.0, i=1.0, eta=1.0) == 12.0
    # Without losses the power is the same on both sides of the belt.
    T = mechanics.motor_torque(T=12.0, i=4.0, eta=1.0)
    omega = mechanics.driving_speed(omega_2=30.0, i=4.0)
    assert mechanics.shaft_power(T=T, omega=omega) == approx(12.0 * 30.0)
    assert mechanics.motor_torque(T=12.0, i=4.0, eta=0.5) == approx(2 * T)


def _belt_pull() -> None:
    # Pull times radius is the torque of the same power.
    omega, d = 150.0, 0.08
    v = mechanics.surface_speed(omega=omega, d=d)
    assert mechanics.belt_pull(P=300.0, v=v) * d / 2 == approx(
        mechanics.torque_of_power(P=300.0, omega=omega)
    )


def _coast_time() -> None:
    # Twice the speed, twice the time; the brake's mean power over that time is the stored energy.
    J, omega, T_0 = 0.02, 180.0, 0.24
    t = mechanics.coast_time(J=J, omega=omega, T_0=T_0)
    assert mechanics.coast_time(J=J, omega=2 * omega, T_0=T_0) == approx(2 * t)
    assert T_0 * omega / 2 * t == approx(mechanics.turning_energy(J=J, omega=omega))


def _inertia_at_motor() -> None:
    assert mechanics.inertia_at_motor(J_m=0.01, J_t=0.16, i=1.0) == approx(0.17)
    # The energy is the same however it is counted.
    J = mechanics.inertia_at_motor(J_m=0.01, J_t=0.16, i=4.0)
    apart = mechanics.turning_energy(J=0.01, omega=80.0) + mechanics.turning_energy(J=0.16, omega=20.0)
    assert mechanics.turning_energy(J=J, omega=80.0) == approx(apart)


def _sum_of_currents() -> None:
    assert protection.sum_of_currents(I_1=7.0, I_2=0.0) == 7.0
    assert protection.sum_of_currents(I_1=3.0, I_2=3.0) == 6.0


def _disconnect_rating() -> None:
    # NEC 430.110(A): at least 115 % of the full-load current.
    assert protection.disconnect_rating(I=100.0, k=1.15) == approx(115.0)
    assert protection.disconnect_rating(I=16.0, k=1.15) == approx(
        2 * protection.disconnect_rating(I=8.0, k=1.15)
    )


def _fault_current_at_end() -> None:
    assert protection.fault_current_at_end(V=120.0, I_s=1000.0, R=0.0) == approx(1000.0)
    # A wire of the source's own impedance halves it; a long wire leaves V/R.
    assert protection.fault_current_at_end(V=120.0, I_s=1000.0, R=0.12) == approx(500.0)
    assert protection.fault_current_at_end(V=120.0, I_s=1e5, R=1e3) == approx(0.12, rel=1e-5)
    shorter, longer = (protection.fault_current_at_end(V=120.0, I_s=1000.0, R=R) for R in (0.05, 0.06))
    assert longer < shorter < inf


def _share_in_warm_air() -> None:
    assert protection.share_in_warm_air(k=0.75, k_T=1.0) == 0.75
    assert protection.share_in_warm_air(k=1.0, k_T=0.85) == 0.85


def _current_share() -> None:
    assert cooling.current_share(I=10.0, k=1.0) == 10.0
    assert cooling.current_share(I=20.0, k=0.5) == cooling.current_share(I=10.0, k=1.0)


def _rise_in_thin_air() -> None:
    # The same heat through air that carries half of it: twice the rise.
    assert cooling.rise_in_thin_air(dT=10.0, k=1.0) == 10.0
    assert cooling.rise_in_thin_air(dT=10.0, k=0.5) == 20.0


def _power_before() -> None:
    assert mechanics.power_before(P=180.0, eta=1.0) == 180.0
    # What two steps take in is what their common share takes in.
    both = mechanics.share_of_steps(eta_1=0.9, eta_2=0.8)
    twice = mechanics.power_before(P=mechanics.power_before(P=180.0, eta=0.8), eta=0.9)
    assert mechanics.power_before(P=180.0, eta=both) == approx(twice)


def _speed_behind_belt() -> None:
    # There and back: the roller's rim, moved by that motor speed through the belt, has the speed of the belt.
    omega = mechanics.speed_behind_belt(v=4.0, d=0.048, d_1=0.040, d_2=0.096)
    roller = mechanics.driven_speed(omega_1=omega, i=mechanics.belt_ratio(d_1=0.040, d_2=0.096))
    assert mechanics.surface_speed(omega=roller, d=0.048) == approx(4.0)


def _planned_time() -> None:
    assert battery.planned_time(t=7200.0, p=1.0) == 7200.0
    assert battery.planned_time(t=7200.0, p=0.5) == 3600.0


def _mean_current() -> None:
    # The charge of a cycle is the same however it is spread.
    assert battery.mean_current(I=8.0, t_on=60.0, t_off=0.0) == 8.0
    assert battery.mean_current(I=8.0, t_on=1200.0, t_off=600.0) * 1800.0 == approx(8.0 * 1200.0)


def _battery_fault_current() -> None:
    # A short that is the battery's own resistance leaves no voltage at its posts.
    I = battery.battery_fault_current(V=25.0, R_i=0.02)
    assert battery.voltage_under_load(V=25.0, I=I, R_i=0.02) == approx(0.0, abs=1e-9)


def _voltage_under_load() -> None:
    assert battery.voltage_under_load(V=24.0, I=0.0, R_i=0.05) == 24.0


def _charging_time() -> None:
    # After one R·C a share of 1/e is left (any textbook); half of the voltage is left after R·C·ln 2.
    assert battery.charging_time(R=220.0, C=2.2e-3, p=1 / e) == approx(220.0 * 2.2e-3)
    assert battery.charging_time(R=220.0, C=2.2e-3, p=0.5) == approx(220.0 * 2.2e-3 * log(2))


def _charging_current() -> None:
    assert battery.charging_current(V=24.0, R=220.0) * 220.0 == approx(24.0)


def _charge_current() -> None:
    # An hour at this current puts the share into the battery.
    assert battery.charge_current(C=35.0 * 3600, p=0.3) * 3600 == approx(0.3 * 35.0 * 3600)


def _voltage_behind() -> None:
    assert battery.voltage_behind(V=24.0, U_d=0.0) == 24.0
    assert battery.voltage_behind(V=24.0, U_d=24.0) == 0.0


def _blocking_time() -> None:
    assert controls.blocking_time(t=8.0, k=1.0) == 8.0
    assert controls.blocking_time(t=8.0, k=1.5) == 12.0


IDENTITIES: dict[str, Callable[[], None]] = {
    "larger_of": _larger,
    "smaller_of": _smaller,
    "margin": _margin,
    "room": _room,
    "current_by_heat": _current_by_heat,
    "path_drop": _path_drop,
    "duty_current": _duty_current,
    "total_drop": _total_drop,
    "wire_length": _wire_length,
    "total_heat": _total_heat,
    "ratio_of_steps": _ratio_of_steps,
    "share_of_steps": _share_of_steps,
    "motor_torque": _motor_torque,
    "belt_pull": _belt_pull,
    "coast_time": _coast_time,
    "inertia_at_motor": _inertia_at_motor,
    "sum_of_currents": _sum_of_currents,
    "disconnect_rating": _disconnect_rating,
    "share_in_warm_air": _share_in_warm_air,
    "planned_time": _planned_time,
    "mean_current": _mean_current,
    "battery_fault_current": _battery_fault_current,
    "voltage_under_load": _voltage_under_load,
    "charging_time": _charging_time,
    "charging_current": _charging_current,
    "charge_current": _charge_current,
    "voltage_behind": _voltage_behind,
    "blocking_time": _blocking_time,
    "current_share": _current_share,
    "rise_in_thin_air": _rise_in_thin_air,
    "power_before": _power_before,
    "speed_behind_belt": _speed_behind_belt,
    "fault_current_at_end": _fault_current_at_end,
}


@pytest.mark.parametrize("name", IDENTITIES)
def test_formula_keeps_its_identities(name: str) -> None:
    """Zero, doubling, one half, the rated point, the same energy counted in two ways."""
    IDENTITIES[name]()
