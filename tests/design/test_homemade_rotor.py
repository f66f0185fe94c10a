"""A home-made disc on the winder's spindle, worked by hand and by plane elasticity that shares nothing with the program.

Plywood of 200 mm with a hole of 20 mm, factor 10. Table: 700 kg/m³, 30 MPa, ratio of Poisson 0.30 (from memory, and said so).
"""

from math import pi, sqrt
from pathlib import Path
from typing import get_args

import numpy as np
import pytest
from scipy.integrate import solve_bvp

from buildsheet.design.design import Spin, Turning
from buildsheet.given.rotor import Material
from buildsheet.packet.html import html
from buildsheet.packet.pdf import write_pdf
from buildsheet.plan import Plan, plan
from buildsheet.project import read
from buildsheet.reference import table

RPM = pi / 30
WINDER = (Path(__file__).resolve().parents[2] / "projects/bobbin-winder/bobbin-winder.yaml").read_text(encoding="utf-8")
DISC = "  - {part: bobbin disc, shaft: tool, diameter: 200 mm, homemade: {material: birch plywood, bore: 20 mm}}\n"
SPUN = DISC.replace("20 mm}", "20 mm, spin_test: {date: 2026-11-20, by: A. Builder, speed: 3000 rpm, shield: true, found: sound}}")


def turned(part: str) -> Plan:
    return plan(read(WINDER.replace("power:\n", f"{part}power:\n", 1), "winder.yaml"))


@pytest.fixture(scope="module")
def made() -> Plan:
    return turned(DISC)


def of(made: Plan) -> tuple[Turning, Spin]:
    part = made.design.turning[-1]
    assert part.spin is not None
    return part, part.spin


def test_the_speed_it_stands_by_hand(made: Plan) -> None:
    """Stress at the hole (3 + 0.3 + 0.7·0.1²)/4 = 0.82675 of a ring's; √(30 MPa/(10·0.82675·700 kg/m³)) = 72.0 m/s, which
    on 100 mm is 720 rad/s."""
    part, spin = of(made)
    assert spin.factor == 10
    assert part.rated == pytest.approx(sqrt(30e6 / (10 * 0.82675 * 700)) / 0.100)
    assert part.rated == pytest.approx(720, abs=0.5)


def test_at_that_speed_the_hole_bears_a_tenth_of_the_strength(made: Plan) -> None:
    """u'' + u'/r − u/r² = −(1 − ν²)·ρ·ω²·r/E with free hole and rim (plane elasticity), solved as a boundary value problem in
    the disc's own metres: the greatest tangential stress is 3 MPa."""
    part, _ = of(made)
    nu, rho, E, inner, outer, omega = 0.3, 700.0, 9e9, 0.010, 0.100, float(part.rated)
    body = (1 - nu**2) * rho * omega**2 / E

    def slope(r: np.ndarray, y: np.ndarray) -> np.ndarray:
        return np.vstack((y[1], -y[1] / r + y[0] / r**2 - body * r))

    def free(low: np.ndarray, high: np.ndarray) -> np.ndarray:
        return np.array([low[1] + nu * low[0] / inner, high[1] + nu * high[0] / outer])

    r = np.linspace(inner, outer, 400)
    solved = solve_bvp(slope, free, r, np.vstack((1e-5 + 0 * r, 0 * r)), tol=1e-10, max_nodes=100000)
    assert solved.success
    u, du = solved.sol(r)
    assert (E / (1 - nu**2) * (u / r + nu * du)).max() == pytest.approx(30e6 / 10, rel=1e-3)


def test_a_stated_factor_counts(made: Plan) -> None:
    """Speed goes with the root of stress: at four times the factor half the speed."""
    part, _ = of(turned(DISC.replace("bore: 20 mm", "bore: 20 mm, factor: 40")))
    assert part.rated == pytest.approx(float(of(made)[0].rated) / 2)


def test_the_spin_test_goes_above_runaway(made: Plan) -> None:
    """IEC 60034-1, 9.7 (from memory): 1.2 times the highest speed. Runaway of this motor: all of 132 V rectified to its peak,
    less what the free motor drops, over its constant; a third of it at the spindle."""
    part, spin = of(made)
    peak = sqrt(2) * 132
    assert float(part.at_maximum) == pytest.approx(900 * RPM)
    assert 0.97 * peak / (33.4 / (1000 * RPM)) / 3 < float(part.at_runaway) < peak / (33.4 / (1000 * RPM)) / 3
    assert spin.speed == pytest.approx(1.2 * float(part.at_runaway))
    assert spin.proof is None


def test_what_the_test_proved_is_worked_from_its_speed() -> None:
    """Stress goes with the square of speed."""
    part, spin = of(turned(SPUN))
    assert spin.proof == pytest.approx((3000 * RPM / float(part.at_runaway)) ** 2)


def test_a_draft_until_it_is_spun(made: Plan) -> None:
    assert made.state == "draft"
    assert made.circuit is not None
    assert turned(SPUN).state == "for building"


def test_paper_of_a_part_that_was_not_spun(made: Plan) -> None:
    """Speeds are printed while the packet is stopped, with how it is spun."""
    paper = html(made)
    assert "not yet: not to be used" in paper
    assert "Nobody in the plane of rotation" in paper
    assert "for 2 min" in paper.replace("\N{NARROW NO-BREAK SPACE}", " ").replace("\N{NO-BREAK SPACE}", " ")
    write_pdf(paper, title="t", author="a", created="2026-11-25")


def test_paper_of_a_part_that_was_spun() -> None:
    """It is looked at before first power; its lines stand among the calculations."""
    paper = html(turned(SPUN))
    assert "Look with a lens at what is home-made: bobbin disc." in paper
    assert "2026-11-20, A. Builder" in paper
    assert "Speed that the bobbin disc stands" in paper


def test_paper_without_one_says_nothing_of_it() -> None:
    paper = html(plan(read(WINDER, "winder.yaml")))
    assert "Spin test" not in paper
    assert "home-made" not in paper


def test_materials_are_those_of_the_table() -> None:
    assert get_args(Material) == tuple(table("rotor_materials").rows)
