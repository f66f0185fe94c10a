"""A shunt motor with its field on a bridge of its own: by hand, and against integrations in time that share nothing with the program.

The physics is that of textbooks on electrical machines (back-EMF and torque go with the field; speed with its inverse). The
tables' figures used here are named beside them.
"""

from dataclasses import replace
from math import pi, sin, sqrt
from pathlib import Path

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from buildsheet.circuit.direction import turns
from buildsheet.circuit.sequence import runs, settle
from buildsheet.packet.ink import Ink
from buildsheet.packet.views.power import items
from buildsheet.packet.views.steps import StepItem
from buildsheet.plan import Plan, plan
from buildsheet.project import load, read

ROOT = Path(__file__).resolve().parents[2]
BREAKER = ROOT / "projects/flax-breaker/flax-breaker.yaml"
TEXT = BREAKER.read_text(encoding="utf-8")
K = 113 / (1000 * 2 * pi / 60)  # V·s/rad by the spin test: 113 V at 1000 rpm with the whole 0.40 A in the field
COPPER = 1 / (234.5 + 20)  # per kelvin at 20 °C: IEC 60034-1, 8.6.2.3
DROPS = 2.2  # V of a bridge's two diodes: the assumed value, read off its row
LINE, TOLERANCE, HZ = 230.0, 0.10, 50.0


@pytest.fixture(scope="module")
def breaker() -> Plan:
    return plan(load(BREAKER))


def changed(*changes: tuple[str, str]) -> Plan:
    text = TEXT
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    return plan(read(text, "flax-breaker.yaml"))


def si(made: Plan, key: str) -> float:
    return float(made.design.sheet.values[key])


def test_the_constants_by_hand(breaker: Plan) -> None:
    """Held: (12.0 - 5.0) V over (3.0 - 1.0) A, 5.0 V less 1.0 A of that; the spin test; the plate's 180 V less 3.2 A, and brushes."""
    assert si(breaker, "motor.R_a") == pytest.approx(3.5)
    assert si(breaker, "motor.U_b") == pytest.approx(1.5)
    assert si(breaker, "motor.K_e") == pytest.approx(K)
    assert si(breaker, "motor.K_e_plate") == pytest.approx((180 - 3.2 * 3.5 - 1.5) / (1500 * 2 * pi / 60))


def test_the_fields_supply_by_hand(breaker: Plan) -> None:
    """0.9 of the line (a drive maker's manual: '200 V' from 230 V) less two diodes; copper from 20 to 100 °C; the next larger of
    series E6 (IEC 60063) above volts over amperes less the warm field; Ohm's law for the rest."""
    bridge = 2 * sqrt(2) / pi * LINE - DROPS
    warm = 345 * (1 + COPPER * 80)
    need = bridge / 0.40 - warm

    assert si(breaker, "T3.V") == pytest.approx(bridge, rel=1e-3)
    assert si(breaker, "motor.R_f_hot") == pytest.approx(warm, rel=1e-3)
    assert si(breaker, "R4.R_need") == pytest.approx(need, rel=5e-3)
    assert 47 < need < 68
    assert si(breaker, "R4.R") == 68
    assert si(breaker, "field.I") == pytest.approx(bridge / (warm + 68), rel=1e-3)
    assert si(breaker, "field.I_high") == pytest.approx((bridge + DROPS - DROPS / 1.1) * 1.1 / (345 + 68), rel=2e-3)
    assert si(breaker, "K3.I") == pytest.approx(0.7 * 0.40)
    assert si(breaker, "heat.P_f") == pytest.approx((bridge / (warm + 68)) ** 2 * warm, rel=2e-3)


@pytest.mark.parametrize("inductance", [8.0, 40.0])
def test_the_fields_current_agrees_with_stepping_a_bridge_into_its_winding(breaker: Plan, inductance: float) -> None:
    """A full-wave bridge into R and L, stepped until it repeats: the average is that of Ohm's law whatever the inductance, and the
    line's RMS current is the field's (a square wave); fields of this size have tens of henries (from memory)."""
    R, w = si(breaker, "motor.R_f_hot") + 68, 2 * pi * HZ
    settled = (2 * sqrt(2) / pi * LINE - DROPS) / R

    def slope(t: float, i: np.ndarray) -> np.ndarray:
        return (sqrt(2) * LINE * abs(np.sin(w * t)) - DROPS - R * i) / inductance

    found = solve_ivp(slope, (0, 1.0 + 8 * inductance / R), [settled], max_step=1 / HZ / 100, rtol=1e-8)
    last = found.t > found.t[-1] - 10 / HZ
    mean = np.trapezoid(found.y[0][last], found.t[last]) / np.ptp(found.t[last])
    rms = sqrt(np.trapezoid(found.y[0][last] ** 2, found.t[last]) / np.ptp(found.t[last]))

    assert mean == pytest.approx(si(breaker, "field.I"), rel=5e-3)
    assert rms == pytest.approx(mean, rel=1e-2)


@pytest.mark.parametrize("tag", ["low", "high"])
def test_speed_and_current_agree_with_armature_and_rotor_stepped_in_time(breaker: Plan, tag: str) -> None:
    """On smooth volts of the point, loaded with its torque and the motor's own losses, the weaker field at work: where armature and
    rotor come to rest they have the point's current and speed. Losses are the free run's 0.42 A at the whole field."""
    point = breaker.design.point(tag)
    assert point is not None
    share, R, L, J = si(breaker, "field.p"), si(breaker, "motor.R_hot"), si(breaker, "motor.L_a"), 0.003
    load = float(point.torque) + K * 0.42

    def slope(t: float, y: np.ndarray) -> list[float]:
        del t
        current, omega = y
        return [(float(point.terminal) - 1.5 - R * current - K * share * omega) / L, (K * share * current - load) / J]

    found = solve_ivp(slope, (0, 5.0), [0.0, 0.0], max_step=1e-3, rtol=1e-8)

    assert found.y[0][-1] == pytest.approx(float(point.current), rel=2e-3)
    assert found.y[1][-1] == pytest.approx(float(point.omega), rel=2e-3)


def test_a_weaker_field_is_faster_by_its_inverse() -> None:
    """A field of more ohms, nothing else changed: less back-EMF at one speed, more current for one torque, both in proportion
    (textbooks); the runaway rests on the relay's 70 %, so that its constant does not change."""
    plain = ("field_plate: 180 V, 0.40 A", "field_plate: 200 V, 0.44 A")  # no resistor, so that its steps play no part
    whole, weak = changed(plain), changed(plain, ("field_winding: 345 ohm", "field_winding: 400 ohm"))
    ratio = si(weak, "field.p") / si(whole, "field.p")

    assert ratio < 0.95
    assert si(weak, "motor.K_e_w") / si(whole, "motor.K_e_w") == pytest.approx(ratio)
    assert si(weak, "high.I_a") / si(whole, "high.I_a") == pytest.approx(1 / ratio)
    assert si(weak, "high.E") / si(whole, "high.E") == pytest.approx(ratio)
    assert si(weak, "runaway.K_e") == pytest.approx(0.7 * K)


def test_runaway_agrees_with_stepping_the_shorted_drive(breaker: Plan) -> None:
    """The whole line, 10 % high, rectified into the armature without load and without any drop, which is the fast side: the back-EMF
    at which its own losses' current still flows is searched for by stepping half-waves; the field then stands at the 70 % at
    which its relay lets go. Half a per cent for the steps."""
    R, L = 3.5, si(breaker, "motor.L_a")
    idle = 0.42 / si(breaker, "field.p")
    peak, w, half = sqrt(2) * LINE * (1 + TOLERANCE), 2 * pi * HZ, 1 / (2 * HZ)

    def mean(emf: float) -> float:
        steps, i, total = 20000, 0.0, 0.0
        for _ in range(3):
            total = 0.0
            for n in range(steps):
                di = (peak * sin(w * (n + 0.5) * half / steps) - emf - R * i) / L * half / steps
                i = max(i + di, 0.0)
                total += i / steps
        return total

    emf = brentq(lambda e: mean(e) - idle, 0.5 * peak, 0.999 * peak, xtol=0.05)

    assert si(breaker, "runaway.omega") == pytest.approx(emf / (0.7 * K), rel=5e-3)


def test_a_test_at_a_weak_field_does_not_make_the_constant() -> None:
    """Iron saturates (textbooks on electrical machines): 12 % of the field gives more than 12 % of the constant, so that scaled up it
    would call the motor slower than it is."""
    made = changed(("spun_field: 113 V at 1000 rpm, 0.40 A", "spun_field: 22 V at 1000 rpm, 0.05 A"), ("24.0 V, 186 rpm, 0.42 A, 0.40 A field", "12.0 V, 900 rpm, 0.42 A, 0.05 A field"))

    assert "motor.K_e" not in made.design.sheet.values
    assert "motor.K_e_run" not in made.design.sheet.values
    assert si(made, "motor.K_e_w") == pytest.approx(si(made, "motor.K_e_plate") * si(made, "field.p"))


def test_no_resistor_where_the_field_stands_the_bridge() -> None:
    """205 V on a field for 200 V are within ten per cent (NEMA MG 1, from memory)."""
    made = changed(("field_plate: 180 V, 0.40 A", "field_plate: 200 V, 0.44 A"))

    assert made.circuit is not None
    assert "R4" not in made.circuit.devices
    assert si(made, "field.I") == pytest.approx(si(made, "T3.V") / si(made, "motor.R_f_hot"))


def test_the_field_stands_before_the_armature_and_through_the_stops(breaker: Plan) -> None:
    """With the disconnect on the relay is in and the contactor out; emergency stop and stop leave the field fed."""
    made = breaker.circuit
    assert made is not None
    waiting = settle(made, {**made.rest, "Q1": "on"})
    assert (waiting["K3"], waiting["Q2"]) == ("in", "out")
    for run in runs(made):
        for stop in ("S1", "S3"):
            after = settle(made, {**run.positions, stop: "pressed"})
            assert (after["K3"], after["Q2"]) == ("in", "out")
        assert settle(made, run.positions, off=True)["K3"] == "out"


def test_it_is_reversed_by_its_armature_alone(breaker: Plan) -> None:
    """The two places of the lever turn it two ways, and no wire of the field comes near the lever."""
    made = breaker.circuit
    assert made is not None
    motor = made.devices["M1"]
    assert {run.positions["S5"]: turns(made, run.positions, motor) for run in runs(made)} == {"forward": 1, "reverse": -1}
    assert not [wire for wire in made.wires if wire.role == "field" and "S5" in (wire.a.device, wire.b.device)]


def test_swapping_the_fields_ends_turns_it_round(breaker: Plan) -> None:
    """Armature or field, not both (textbooks)."""
    made = breaker.circuit
    assert made is not None
    ends = {wire.number: (wire.a, wire.b) for wire in made.wires if wire.number in (613, 614)}
    swapped = replace(made, wires=tuple(replace(wire, b=ends[1227 - wire.number][1]) if wire.number in ends else wire for wire in made.wires))
    run = runs(made)[0]

    assert turns(swapped, run.positions, made.devices["M1"]) == -turns(made, run.positions, made.devices["M1"])


@pytest.mark.parametrize(("fuse", "poles"), [("field_fuse: true", 2), ("field_fuse: false", 0)])
def test_the_fields_own_fuse_stands_in_every_pole_that_can_be_live(fuse: str, poles: int) -> None:
    made = changed(("field_fuse: true", fuse))
    assert made.circuit is not None
    device = made.circuit.devices.get("F7")

    assert (len(device.terminals) // 2 if device is not None else 0) == poles
    assert not made.stopped


def test_a_kept_board_may_drive_it_and_a_polarised_line_needs_one_fuse() -> None:
    """The same machine behind a salvaged board: the matrix has that row."""
    made = changed(("way: phase-controlled-drive", "way: kept-board"))

    assert made.circuit is not None
    assert not made.stopped
    assert "K3" in made.circuit.devices


def test_at_first_power_the_field_comes_before_the_drive_and_each_step_once(breaker: Plan) -> None:
    """Volts and amperes of the field, and that nothing starts without it, with the armature's fuse out; then the drive; the warm
    field at rest comes last."""
    actions = [item.action for item in items(breaker, Ink()) if isinstance(item, StepItem)]
    volts, amperes, watched = (next(n for n, words in enumerate(actions) if mark in words) for mark in ("T3 · + and T3 · −", "its zero set first", "Wire 611 off"))
    drive, rest = (next(n for n, words in enumerate(actions) if mark in words) for mark in ("T1 · A+ and T1 · A−", "half an hour"))

    assert volts < amperes < watched < drive < rest
    assert "F2 out of its holder" in actions[volts]
    assert len(actions) == len(set(actions))
