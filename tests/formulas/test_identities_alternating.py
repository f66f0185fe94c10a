"""Induction motors at part load, on the line and behind an inverter: identities, and the equivalent circuit of textbooks
solved by scipy, which knows none of the formulas.
"""

from collections.abc import Callable
from dataclasses import dataclass
from math import pi, sqrt

import pytest
from scipy.optimize import brentq

from buildsheet.formulas import induction, inverter, mechanics, protection, series
from buildsheet.formulas.formula import OutsideLimits
from tests.formulas.rows import rpm

approx = pytest.approx


def _load_share() -> None:
    assert induction.load_share(T=2.0, T_n=2.0) == 1.0
    assert induction.load_share(T=0.0, T_n=2.0) == 0.0


def _slip_near_rated() -> None:
    # The inverse of the torque at a slip.
    s = induction.slip_near_rated(s_n=0.05, k=0.6)
    assert induction.torque_near_rated(T_n=10.0, s=s, s_n=0.05) == approx(6.0)


def _current_at_share() -> None:
    assert induction.current_at_share(I_n=4.0, p_0=0.6, k=1.0) == approx(4.0)
    assert induction.current_at_share(I_n=4.0, p_0=0.6, k=0.0) == approx(2.4)
    # 3, 4, 5: magnetising and load current at right angles.
    assert induction.current_at_share(I_n=5.0, p_0=0.6, k=1.0) ** 2 == approx(3.0**2 + 4.0**2)


def _idle_share() -> None:
    assert induction.idle_share(I_0=3.0, I_n=5.0) == approx(0.6)


def _sine_crest() -> None:
    # A sine's mean square is half of the square of its crest.
    assert induction.sine_crest(I=3.0) ** 2 / 2 == approx(3.0**2)


def _friction_torque() -> None:
    assert induction.friction_torque(T_n=2.0, p=0.0) == 0.0
    assert induction.friction_torque(T_n=2.0, p=0.02) == approx(2 * induction.friction_torque(T_n=2.0, p=0.01))


def _capacitor_crest() -> None:
    assert induction.capacitor_crest(V=100.0) == approx(induction.sine_crest(I=100.0))


def _voltage_multiple() -> None:
    assert induction.voltage_multiple(V=230.0, k=1.0) == 230.0
    assert induction.voltage_multiple(V=230.0, k=2.0) == 460.0


def _share_of_speed() -> None:
    assert induction.share_of_speed(omega=150.0, omega_n=150.0) == 1.0
    assert induction.slip(omega_s=157.0, omega=0.7 * 157.0) == approx(1 - induction.share_of_speed(omega=0.7 * 157.0, omega_n=157.0))


def _frequency_at_share() -> None:
    # At the rated torque, below base: the formula for the rated torque. Where the two branches meet: base frequency.
    omega = rpm(840)
    rated = inverter.frequency_for_speed(omega=omega, p=4.0, f_n=50.0, s_n=0.04)
    assert inverter.frequency_at_share(omega=omega, p=4.0, f_n=50.0, s_n=0.04, k=1.0) == approx(rated)
    for omega in (rpm(1440) * (1 - 1e-9), rpm(1440) * (1 + 1e-9)):
        assert inverter.frequency_at_share(omega=omega, p=4.0, f_n=50.0, s_n=0.04, k=1.0) == approx(50.0)


def _flux_share() -> None:
    assert inverter.flux_share(f_n=50.0, f=20.0) == 1.0
    assert inverter.flux_share(f_n=50.0, f=50.0) == 1.0
    assert inverter.flux_share(f_n=50.0, f=62.5) == approx(0.8)


def _greatest_torque() -> None:
    # The same as the breakdown torque at a multiple of base frequency.
    assert inverter.greatest_torque(T_n=10.0, k=2.0, q=1.0) == 20.0
    assert inverter.greatest_torque(T_n=10.0, k=2.0, q=1 / 1.5) == approx(inverter.breakdown_above_base(T_b=20.0, b=1.5))


def _current_at_flux() -> None:
    whole = induction.current_at_share(I_n=4.0, p_0=0.6, k=0.7)
    assert inverter.current_at_flux(I_n=4.0, p_0=0.6, k=0.7, q=1.0) == approx(whole)
    # Without load only the flux is left of it.
    assert inverter.current_at_flux(I_n=4.0, p_0=0.6, k=0.0, q=0.5) == approx(1.2)


def _three_phase_efficiency() -> None:
    P = inverter.three_phase_shaft_power(V=400.0, I=2.0, k_p=0.8, eta=0.72)
    assert inverter.three_phase_efficiency(P=P, V=400.0, I=2.0, k_p=0.8) == approx(0.72)


def _loss_of_power() -> None:
    assert inverter.loss_of_power(P=100.0, eta=1.0) == 0.0
    assert inverter.loss_of_power(P=100.0, eta=0.5) == 100.0


def _inverter_input_power() -> None:
    # At the rated point: shaft power over both efficiencies, as the formula with one efficiency has it.
    P = mechanics.shaft_power(T=5.0, omega=150.0)
    whole = inverter.inverter_input_power(T=5.0, omega=150.0, P_l=inverter.loss_of_power(P=P, eta=0.75), eta=0.95)
    assert whole == approx(P / (0.75 * 0.95))


def _rectifier_input_current() -> None:
    I = inverter.rectifier_input_current(P=1000.0, V=230.0, k_p=0.6)
    assert induction.power_factor(P=1000.0, V=230.0, I=I) == approx(0.6)


def _inverter_loss() -> None:
    assert inverter.inverter_loss(V=230.0, I=2.0, eta=1.0) == 0.0
    # What a load of power factor one leaves: the power taken is more by just this.
    out = inverter.three_phase_shaft_power(V=230.0, I=2.0, k_p=1.0, eta=1.0)
    assert inverter.inverter_loss(V=230.0, I=2.0, eta=0.9) == approx(out / 0.9 - out)


def _output_on_one_phase() -> None:
    # Back from the rating that a motor needs.
    assert inverter.output_on_one_phase(I=inverter.inverter_rating(I_n=4.0, k=0.5), k=0.5) == approx(4.0)


def _three_phase_copper_loss() -> None:
    # Star: three windings of half the resistance between two leads, the lead's current in each. Delta: the same heat.
    R, I = 10.0, 2.0
    assert inverter.three_phase_copper_loss(I=I, R=R) == approx(3 * I**2 * R / 2)
    assert inverter.three_phase_copper_loss(I=I, R=R) == approx(3 * (I / sqrt(3)) ** 2 * inverter.delta_winding(R=R))


def _delta_winding() -> None:
    R = inverter.delta_winding(R=10.0)
    between = 1 / (1 / R + 1 / (2 * R))
    assert between == approx(10.0)


def _held_alternating_current() -> None:
    # At standstill the whole voltage lies on the impedance: no back-EMF is left.
    I = series.held_alternating_current(V=120.0, R=20.0, X=94.25)
    assert series.alternating_back_emf(V=120.0, I=I, X=94.25, R=20.0, U_b=0.0) == approx(0.0, abs=1e-9)


def _fuse_for_start() -> None:
    # A start of seven times the motor's current on a fuse of 1.75 times: it is carried four times over, and no more.
    assert protection.fuse_for_start(I_s=7 * 10.0, k=4.0) == approx(1.75 * 10.0)


IDENTITIES: dict[str, Callable[[], None]] = {
    name.removeprefix("_"): test
    for name, test in list(globals().items())
    if name.startswith("_") and name.removeprefix("_") in {*vars(induction), *vars(inverter), *vars(protection), *vars(series)} and callable(test)
}


@pytest.mark.parametrize("name", IDENTITIES)
def test_formula_keeps_its_identities(name: str) -> None:
    """Zero, doubling, the rated point, the same thing counted in two ways."""
    IDENTITIES[name]()


def test_more_than_a_third_above_the_rated_torque_is_refused() -> None:
    """There the straight line ends."""
    with pytest.raises(OutsideLimits, match=r"k is 1\.40, must be at most 1\.34"):
        induction.slip_near_rated(s_n=0.04, k=1.4)
    with pytest.raises(OutsideLimits, match=r"k is 1\.40, must be at most 1\.34"):
        induction.current_at_share(I_n=4.0, p_0=0.6, k=1.4)


@dataclass(frozen=True)
class Circuit:
    """Equivalent circuit of one phase at 50 Hz: stator and rotor resistance and stray reactance, magnetising reactance."""

    R_1: float = 0.0
    X_1: float = 6.0
    R_2: float = 9.0
    X_2: float = 6.0
    X_m: float = 110.0

    def solve(self, volts: float, f: float, omega: float) -> tuple[float, float]:
        """Torque of four poles and lead current in star, by impedances."""
        field = 4 * pi * f / 4
        s, scale = (field - omega) / field, f / 50.0
        rotor = self.R_2 / s + 1j * self.X_2 * scale
        magnet = 1j * self.X_m * scale
        inner = rotor * magnet / (rotor + magnet)
        current = volts / sqrt(3) / (self.R_1 + 1j * self.X_1 * scale + inner)
        rotor_current = abs(current * inner / rotor)
        return 3 * rotor_current**2 * self.R_2 / s / field, abs(current)

    def speed(self, volts: float, f: float, torque: float) -> float:
        """Speed at a torque, between the field's and two thirds of it."""
        field = pi * f
        return brentq(lambda omega: self.solve(volts, f, omega)[0] - torque, 0.67 * field, field * (1 - 1e-9))


MOTOR = Circuit()
RATED = rpm(1410)  # slip 6 %


def _rated() -> tuple[float, float, float]:
    torque, current = MOTOR.solve(400.0, 50.0, RATED)
    _, idle = MOTOR.solve(400.0, 50.0, pi * 50.0 * (1 - 1e-9))
    return torque, current, idle


@pytest.mark.parametrize("k", [0.2, 0.5, 0.8, 1.0, 1.25])
def test_speed_on_the_line_is_that_of_the_equivalent_circuit(k: float) -> None:
    """The straight line of slip and the right angle of currents against the circuit. Tolerances: a half percent of speed,
    and of current what the stray reactance is, which the formula leaves out."""
    T_n, I_n, I_0 = _rated()
    omega = MOTOR.speed(400.0, 50.0, k * T_n)
    _, current = MOTOR.solve(400.0, 50.0, omega)

    slip = induction.slip_near_rated(s_n=induction.slip(omega_s=rpm(1500), omega=RATED), k=k)
    got = induction.current_at_share(I_n=I_n, p_0=I_0 / I_n, k=k)

    assert induction.speed_at_slip(omega_s=rpm(1500), s=slip) == approx(omega, rel=0.005)
    assert got == approx(current, rel=0.05)


@pytest.mark.parametrize(("speed", "k"), [(450, 1.0), (900, 0.5), (1300, 1.0), (1800, 0.5), (2200, 0.4)])
def test_frequency_of_an_inverter_is_that_of_the_equivalent_circuit(speed: float, k: float) -> None:
    """Volts with frequency up to base, level above it: the frequency that the formula gives turns the circuit at the wanted
    speed, within one percent, and its current is within six hundredths, which stray reactance makes up."""
    T_n, I_n, I_0 = _rated()
    f = inverter.frequency_at_share(omega=rpm(speed), p=4.0, f_n=50.0, s_n=0.06, k=k)
    volts = inverter.volts_at_frequency(V_n=400.0, f_n=50.0, f=f)

    omega = MOTOR.speed(volts, f, k * T_n)
    _, current = MOTOR.solve(volts, f, omega)
    got = inverter.current_at_flux(I_n=I_n, p_0=I_0 / I_n, k=k, q=inverter.flux_share(f_n=50.0, f=f))

    assert omega == approx(rpm(speed), rel=0.01)
    assert got == approx(current, rel=0.06)
