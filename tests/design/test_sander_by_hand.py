"""The demo's numbers against hand work with published formulas, rows of standards, and an independent simulation.

Motor: V = E + I·R + U_b (any textbook on DC machines). Rows: NFPA 70 (NEC) 2023 as printed in the reference of
each check. Waveform: a time-stepping simulation in numpy that shares no code with the solver.
"""

from math import degrees, pi, sqrt
from pathlib import Path

import pytest

from buildsheet.design import Design
from buildsheet.design.work import work
from buildsheet.project import load
from buildsheet.sizing.waist import Point
from tests.waveforms import points
from tests.waveforms.independent import simulate

SANDER = Path(__file__).resolve().parents[2] / "projects/strip-sander/strip-sander.yaml"
RPM = pi / 30


@pytest.fixture(scope="module")
def design() -> Design:
    return work(load(SANDER))


def got(design: Design, id: str) -> float:
    value = design.sheet.values[id]
    assert value.known, value.why
    return float(value)


# id -> value by a pocket calculator from the file's figures, with the working beside it
BY_HAND = {
    "motor.R_a": (6.2 - 3.2) / (3.0 - 1.0),  # slope of the held rotor
    "motor.U_b": 3.2 - 1.0 * 1.5,
    "motor.K_e": 46.9 / (1000 * RPM),  # spun as a generator
    "motor.K_e_plate": (90 - 5.0 * 1.5 - 1.7) / (1725 * RPM),
    "motor.K_e_run": (12.0 - 0.48 * 1.5 - 1.7) / (203 * RPM),
    "motor.L_a": sqrt((12.0 / 2.96) ** 2 - 1.5**2) / (2 * pi * 60),  # impedance triangle
    "motor.R_hot": 1.5 * (234.5 + 100) / (234.5 + 20),  # the 234.5 °C rule for copper
    "belt1.i": 63 / 80,
    "load.omega_t_high": 15 / 0.065,  # v = ω·r
    "load.omega_high": 15 / 0.065 * 63 / 80,
    "load.T_t": 180 / (15 / 0.065),
    "load.T_m": 180 / (15 / 0.065) / (63 / 80) / 0.92,
    "supply.V_max": 132.0,
    "line.V_peak": 186.676,  # √2·132; published as 186.7 V for a 120 V line at +10 %
    "line.I_limit": 12.0,  # NEC 210.20(A): 80 % of 15 A
    "heat.A": 1.8 * 0.4 * (0.4 + 0.2) + 1.4 * 0.4 * 0.2,  # effective area, free on all sides
    "motor.I_n_rms": 5.0 * 1.00,
    "F3.I_top": 5.0 * 1.00 * 1.15,  # NEC 430.32(A)(1), all other motors
    "cord.I_p": 18 * 0.91,  # NEC Table 400.5(A)(1) column B; ambient 31 to 35 °C
    "fan.I": 14 / 120,
    "belt1.P": 180 / 0.92,
    "belt1.F": 180 / 0.92 / (15 / 0.065 * 63 / 80 * 0.040),  # P = F·v
    "heat.k_a": 1.0,  # 300 m: under 1000 m nothing is taken off
    "drive.I_h": 10.0,
    "coast.J": 0.0045 + 0.0030 / (63 / 80) ** 2,
    "S4.P": 10**2 / 5000,
}


@pytest.mark.parametrize("id", BY_HAND)
def test_worked_by_hand(design: Design, id: str) -> None:
    assert got(design, id) == pytest.approx(BY_HAND[id], rel=1e-4)


# id -> row that the published table gives, and where
ROWS = {
    "cord.I_z": (18.0, "NEC Table 400.5(A)(1), 14 AWG, two current-carrying conductors"),
    "line.I_z": (25.0, "NEC Table 310.16, 14 AWG, 90 °C column"),
    "line.I_60": (15.0, "NEC Table 310.16, 14 AWG, 60 °C column, and 240.4(D)"),
    "control.I_60": (10.0, "NFPA 79 (2018) Table 12.5.1, 16 AWG, from memory"),
    "signal.I_60": (10.0, "NFPA 79 (2018) Table 12.5.1, 16 AWG, from memory: 18 AWG stands 7 A, its fuse is 8 A"),
    "rule.k_fT": (0.85, "distributor's page, 110 % at 25 °C and 100 % at 40 °C: 1 − 25·0.0061 at 50 °C"),
    "F1.I_cn": (200_000.0, "UL 248-4, class CC, from memory"),
    "F1.k_T": (0.87, "NEC Table 310.15(B)(1)(1), 41 to 45 °C, 90 °C"),
    "F1.I_n": (8.0, "UL 248 ratings on the market: next at or above 7.41 A"),
    "F2.I_n": (8.0, "UL 248 ratings on the market: next at or above 7.25 A"),
    "cord.r": (3.14 / 304.8, "NEC chapter 9 Table 8, 14 AWG stranded, 75 °C: 3.14 ohm per 1000 ft"),
}


@pytest.mark.parametrize("id", ROWS)
def test_read_from_a_published_table(design: Design, id: str) -> None:
    assert got(design, id) == pytest.approx(ROWS[id][0], rel=1e-9)


def current_at(design: Design, tag: str) -> Point:
    point = design.point(tag)
    assert point is not None
    assert point.wave is not None
    return point


@pytest.mark.parametrize("tag", ["low", "high"])
def test_operating_points_agree_with_an_independent_simulation(design: Design, tag: str) -> None:
    """Half-controlled bridge on 120 V 60 Hz, stepped through time in numpy: all readings within 1 %."""
    wave = current_at(design, tag).wave
    assert wave is not None
    source, load_ = wave.source, wave.load
    point = points.Point("half-controlled bridge", source.rms, source.frequency, source.resistance, source.drop, load_.R, load_.L, load_.E, degrees(wave.alpha))
    seen = simulate([point])
    assert got(design, f"{tag}.I_a") == pytest.approx(float(seen.average[0]), rel=0.01)
    assert got(design, f"{tag}.I_rms") == pytest.approx(float(seen.rms[0]), rel=0.01)
    assert got(design, f"{tag}.I_peak") == pytest.approx(float(seen.peak[0]), rel=0.01)
    assert got(design, f"{tag}.I_line") == pytest.approx(float(seen.line_rms[0]), rel=0.01)


def test_average_current_is_what_the_torque_asks(design: Design) -> None:
    """T = K_t·(I − I_0), so I = 1.0766 N·m / 0.44786 N·m/A + 0.48 A."""
    for tag in ("low", "high"):
        assert got(design, f"{tag}.I_a") == pytest.approx(BY_HAND["load.T_m"] / BY_HAND["motor.K_e"] + 0.48, rel=1e-4)


def test_runaway_lies_between_mean_and_peak_of_the_line(design: Design) -> None:
    """Device shorted: a bare bridge on 120 V + 10 %. Without load the motor runs up until its back-EMF lies between mean
    and peak of the rectified sine, 2√2/π and √2 times its RMS value (derivation; any textbook of power electronics)."""
    emf = got(design, "runaway.E")
    assert 2 * sqrt(2) / pi * 132 < emf < sqrt(2) * 132
    assert got(design, "runaway.omega") == pytest.approx(emf / got(design, "motor.K_e"))


def test_form_factor_lies_in_the_published_range(design: Design) -> None:
    """Simulated rows at 10 mH, 1.5 ohm, 90 V: 1.65 at 2.5 A and 1.45 at 5 A average; here 2.9 A and 2.0 ohm."""
    assert 1.45 < got(design, "high.F") < 1.65
