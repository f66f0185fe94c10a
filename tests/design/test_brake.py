"""A braking resistor: by hand, by stepping in time, and in which circuits it stands."""

from math import exp, pi
from pathlib import Path

import pytest

from buildsheet.circuit.effects import effects
from buildsheet.circuit.proofs import prove
from buildsheet.plan import Plan, plan
from buildsheet.project import load, read

PROJECTS = Path(__file__).resolve().parents[2] / "projects"
LIMIT = 10.0  # s, after which a tool within reach needs a brake or a locked guard


def with_brake(name: str, *changes: tuple[str, str]) -> Plan:
    text = (PROJECTS / name / f"{name}.yaml").read_text(encoding="utf-8")
    for old, new in (("controls:\n", "controls:\n  brake: true\n"), *changes):
        assert old in text, old
        text = text.replace(old, new, 1)
    return plan(read(text, f"{name}.yaml"))


@pytest.fixture(scope="module")
def sander() -> Plan:
    return with_brake("strip-sander")


def test_by_hand(sander: Plan) -> None:
    """46.9 V at 1000 rpm; 15 m/s on a drum of 130 mm through 80 to 63 mm is 1735 rpm at the motor: 81.4 V. Twice the plate's
    5 A: at least 8.14 − 1.5 = 6.64 ohm, and E6 of IEC 60063 has 6.8."""
    brake, values = sander.design.sizes.braking if sander.design.sizes else None, sander.design.sheet.values
    assert brake is not None
    emf = 46.9 * (15.0 / 0.065 * 30 / pi) * 63 / 80 / 1000
    assert float(values["R3.R_need"]) == pytest.approx(emf / 10.0 - 1.5, rel=1e-3)
    assert float(brake.resistor) == pytest.approx(6.8)
    assert float(brake.current) == pytest.approx(emf / 8.3, rel=1e-3)


def test_stepping_in_time(sander: Plan) -> None:
    """Euler steps of 10 µs of J·dω/dt = −K·i with i = K·ω/(R_a + R_b): 5 % of the speed after the time that the program says, and
    the resistor's heat within 1 % (what is left below 5 % of the speed is a quarter of a per cent)."""
    values, brake = sander.design.sheet.values, sander.design.sizes.braking if sander.design.sizes else None
    assert brake is not None
    K, J = 46.9 / (1000 * pi / 30), float(values["coast.J"])
    speed = top = float(sander.design.load.motor_high) if sander.design.load else 0.0
    heat = time = 0.0
    while speed > 0.05 * top:
        amps = K * speed / 8.3
        heat += amps * amps * 6.8 * 1e-5
        speed -= K * amps / J * 1e-5
        time += 1e-5
    assert float(values["R3.t_b"]) == pytest.approx(time, rel=1e-3)
    assert float(values["R3.W"]) == pytest.approx(heat, rel=0.01)
    assert exp(-time / float(values["R3.tau"])) == pytest.approx(0.05, rel=1e-3)


@pytest.mark.parametrize("name", ["strip-sander", "yarn-twister", "wool-carder", "bobbin-winder", "edge-burnisher", "ink-mixer", "seed-coater", "plaster-stirrer"])
def test_it_stands_in_every_circuit_of_a_magnet_motor(name: str) -> None:
    made = with_brake(name)
    assert made.circuit is not None
    assert made.state == "for building", [finding.id for finding in made.findings if finding.stops]
    assert prove(made.circuit, pole_may_swap=made.design.supplied.pole_may_swap if made.design.supplied else False) == ()


def test_its_faults_are_told() -> None:
    circuit = plan(load(PROJECTS / "grain-crusher/grain-crusher.yaml")).circuit
    assert circuit is not None
    told = {(effect.fault.device or effect.fault.wire, effect.fault.kind, tuple(end.name for end in effect.fault.ends)): effect.outcomes for effect in effects(circuit)}
    assert told["R3", "open", ("1", "2")] == ("brake fails",)
    assert "brake fails" in told["Q2", "open", ("21", "22")]
    assert "brake drags" in told["Q2", "welded", ("21", "22")]
    assert "brake fails" not in told["S3", "welded", ("11", "12")]  # then it does not stop at all


@pytest.mark.parametrize("name", ["stone-tumbler", "seed-cleaner", "clay-mixer"])
def test_a_brake_that_needs_supply_or_field_does_not_count(name: str) -> None:
    """Textbooks: an induction motor without supply has no field, a series motor without current neither."""
    made = with_brake(name)
    assert "brake-not-possible" in {finding.id for finding in made.findings if finding.stops}


def test_a_pulley_that_is_screwed_on_is_a_stop() -> None:
    made = with_brake("strip-sander", ("pulley: set screw", "pulley: left-hand thread"))
    assert "brake-unscrews" in {finding.id for finding in made.findings if finding.stops}


def test_a_long_coast_within_reach_is_cleared_by_it() -> None:
    """More inertia: without the brake it coasts for longer than ten seconds, with it it stands in less."""
    heavier = ("inertia: 0.0030 kg·m²", "inertia: 0.0090 kg·m²")
    text = (PROJECTS / "strip-sander/strip-sander.yaml").read_text(encoding="utf-8").replace(*heavier, 1)
    bare, braked = plan(read(text, "s.yaml")), with_brake("strip-sander", heavier)
    assert bare.design.coast is not None
    assert float(bare.design.coast) > LIMIT
    assert "coasts-long" in {finding.id for finding in bare.findings if finding.stops}
    assert braked.design.sizes is not None
    assert braked.design.sizes.braking is not None
    assert float(braked.design.sizes.braking.time) < LIMIT
    assert not [finding.id for finding in braked.findings if finding.stops]
