"""A series motor on a pulse drive, against an integration in time that shares nothing with the program.

What it must come to is physics of textbooks: torque is k·i² at each moment, back-EMF k·ω·i.
"""

from dataclasses import replace
from math import pi, sqrt
from pathlib import Path

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from buildsheet.circuit import Terminal
from buildsheet.circuit.direction import turns
from buildsheet.circuit.proofs import prove
from buildsheet.circuit.sequence import runs
from buildsheet.packet.words import check_text
from buildsheet.plan import Plan, plan
from buildsheet.project import load, read

ROOT = Path(__file__).resolve().parents[2]
CLEANER = ROOT / "projects/seed-cleaner/seed-cleaner.yaml"
TWISTER = (ROOT / "projects/yarn-twister/yarn-twister.yaml").read_text(encoding="utf-8")
SERIES = """motor:
  kind: series
  plate: 230 V, 1.5 A, 9000 rpm
  held: 5.2 V at 0.5 A, 15.6 V at 1.5 A
  field_winding: 3.4 ohm
  spun_field: 40 V at 1000 rpm, 1.0 A
  free_run: 24 V, 400 rpm, 0.5 A
  inertia: 0.0004 kg·m²
  rotor: 60000 rpm
  rotor_basis: plate
  protector: none
  pulley: key
"""


@pytest.fixture(scope="module")
def cleaner() -> Plan:
    return plan(load(CLEANER))


def test_the_constant_is_what_the_spin_test_says(cleaner: Plan) -> None:
    """6.40 V at 1000 rpm with 1.5 A in the field: k = E/(I·ω), by hand."""
    assert cleaner.design.sheet.values["motor.k"] == pytest.approx(6.40 / (1.5 * 1000 * 2 * pi / 60))


def test_resistance_comes_from_two_currents_and_the_field_is_part_of_it(cleaner: Plan) -> None:
    """(8.55 - 2.95) V over (3.0 - 1.0) A, less 1.10 ohm."""
    values = cleaner.design.sheet.values

    assert values["motor.R_a"] == pytest.approx(2.80)
    assert values["motor.R_arm"] == pytest.approx(1.70)


def stepped(plan_: Plan, tag: str) -> tuple[float, float, float]:
    """Average, RMS current and mean torque, integrated over switching periods until they repeat."""
    values, point = plan_.design.sheet.values, plan_.design.point(tag)
    assert point is not None
    k, R, L = (float(values[key]) for key in ("motor.k", "motor.R_hot", "motor.L_a"))
    omega, duty = float(point.omega), float(point.setting)
    volts, period = float(plan_.design.supplied.voltage), 1 / 16e3  # type: ignore[union-attr]
    drop, free = (float(values[f"{tag}.{name}"]) for name in ("U_path", "U_free"))

    def slope(t: float, i: np.ndarray, driven: float) -> np.ndarray:
        del t
        return (driven - (R + k * omega) * i) / L

    current, last = np.array([0.0]), None
    for _ in range(4000):
        on = solve_ivp(slope, (0, duty * period), current, args=(volts - drop,), max_step=period / 20, rtol=1e-8)
        off = solve_ivp(slope, (0, (1 - duty) * period), on.y[:, -1], args=(-free,), max_step=period / 20, rtol=1e-8)
        current = np.maximum(off.y[:, -1], 0.0)
        if last is not None and abs(current[0] - last) < 1e-7:
            break
        last = current[0]
    t = np.concatenate([on.t, duty * period + off.t])
    i = np.concatenate([on.y[0], np.maximum(off.y[0], 0.0)])
    mean = np.trapezoid(i, t) / period
    square = np.trapezoid(i * i, t) / period
    return float(mean), float(sqrt(square)), float(k * square)


@pytest.mark.parametrize("tag", ["low", "high"])
def test_current_and_torque_agree_with_stepping_in_time(cleaner: Plan, tag: str) -> None:
    """The mean torque at the solved duty is the load's and the motor's own; within 0.5 %, the error of both."""
    point, values = cleaner.design.point(tag), cleaner.design.sheet.values
    assert point is not None
    mean, rms, torque = stepped(cleaner, tag)

    assert mean == pytest.approx(float(point.current), rel=5e-3)
    assert rms == pytest.approx(float(point.rms), rel=5e-3)
    assert torque == pytest.approx(float(point.torque) + float(values["motor.T_0"]), rel=5e-3)


def test_runaway_is_where_the_current_makes_only_its_own_losses(cleaner: Plan) -> None:
    """By hand on smooth direct voltage: ω = (V - U_b - I_0·R)/(k·I_0), the battery on its charger."""
    values, fastest = cleaner.design.sheet.values, cleaner.design.runaway
    assert fastest is not None
    emf = 28.8 - float(values["motor.U_b"]) - 0.90 * float(values["motor.R_a"])

    assert float(fastest) == pytest.approx(emf / (float(values["motor.k"]) * 0.90), rel=1e-6)


def test_the_demonstration_is_for_building_and_sound(cleaner: Plan) -> None:
    assert cleaner.state == "for building"
    assert cleaner.circuit is not None
    assert prove(cleaner.circuit) == ()
    assert {"runs-away-unloaded", "field-in-a-row"} <= {finding.id for finding in cleaner.findings}


def reversed_series() -> Plan:
    head, _, rest = TWISTER.partition("motor:\n")
    _, _, tail = rest.partition("belts:\n")
    return plan(read(f"{head}{SERIES}belts:\n{tail}", "yarn-twister.yaml"))


def test_its_armature_alone_is_changed_over() -> None:
    """Facts of the trade: swapping the supply does nothing to a series motor; the field keeps its way round."""
    circuit = reversed_series().circuit
    assert circuit is not None
    motor = circuit.devices["M1"]
    ways = {run.positions["S5"]: turns(circuit, run.positions, motor) for run in runs(circuit)}

    assert set(ways) == {"forward", "reverse"}
    assert ways["forward"] == -ways["reverse"] != 0
    assert not [breach for breach in prove(circuit, pole_may_swap=True) if breach.proof == "reversal"]


def test_a_stage_that_swaps_both_windings_is_caught() -> None:
    """The changeover in front of field and armature: both turn round, and the motor does not."""
    circuit = reversed_series().circuit
    assert circuit is not None
    ends = {407: ("F3:6", "S5:1"), 403: ("S5:2", "M1:D1"), 409: ("M1:D2", "M1:A1")}
    wires = tuple(
        replace(wire, a=Terminal(*ends[wire.number][0].split(":")), b=Terminal(*ends[wire.number][1].split(":")))
        if wire.number in ends
        else wire
        for wire in circuit.wires
    )
    wrong = replace(circuit, wires=wires)

    assert "reversal" in {breach.proof for breach in prove(wrong, pole_may_swap=True)}


def test_without_load_it_has_no_speed_to_tell() -> None:
    """A file with the motor alone: the speeds without load are unknown, with the reason."""
    alone = plan(read(f"buildsheet: 1\n{SERIES}", "series.yaml")).design.alone

    assert alone is not None
    assert not alone.on_battery.known
    assert "runs away" in (alone.on_battery.why or "")


def test_check_says_why_it_has_no_speed_without_load() -> None:
    text = check_text(plan(read(f"buildsheet: 1\n{SERIES}", "series.yaml")), everything=False)

    assert "without load: a series motor without load has no speed of its own: it runs away" in text
    assert "not known without" not in text
