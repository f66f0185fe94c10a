"""A battery straight on the motor: its speed by Ohm's law, its start by stepping in time, its contactor by category."""

from math import pi, sqrt
from pathlib import Path

import pytest

from buildsheet.circuit.proofs import prove
from buildsheet.plan import Plan, plan
from buildsheet.project import load, read

FILE = Path(__file__).resolve().parents[2] / "projects/plaster-stirrer/plaster-stirrer.yaml"
TEXT = FILE.read_text(encoding="utf-8")
K_E = 7.74 / (1000 * pi / 30)
R, U_B = (3.00 - 1.46) / 7.0, 1.46 - 3.0 * (3.00 - 1.46) / 7.0  # held at 3 A and at 10 A


@pytest.fixture(scope="module")
def stirrer() -> Plan:
    return plan(load(FILE))


def changed(*changes: tuple[str, str]) -> Plan:
    text = TEXT
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    return plan(read(text, "stirrer.yaml"))


def test_its_speed_by_hand(stirrer: Plan) -> None:
    """5 N·m through 15 to 1 and twice 92 %, 1.5 A of its own; the warm armature by the copper's 234.5 (IEC 60028)."""
    torque = 5.0 / 15.0 / 0.92**2
    amps = torque / K_E + 1.5
    hot = R * (234.5 + 100) / (234.5 + 20)
    speed = (12.0 - 0.3 - U_B - amps * hot) / K_E
    values = stirrer.design.sheet.values
    assert float(values["there.k"]) == pytest.approx(speed / (78 * 15 * pi / 30), rel=2e-3)


def test_a_24_volt_motor_on_a_full_12_volt_battery_runs_at_about_half_its_speed(stirrer: Plan) -> None:
    """Common practice, no source. Without load: (13 V − drops) over K_e against the plate's 2600 rpm at 24 V."""
    free = (13.0 - 1.5 * R - U_B) / K_E * 30 / pi
    assert 0.45 < free / (24.0 / 7.74 * 1000) < 0.55
    full = stirrer.design.sheet.values["there.k_full"]
    assert float(full) > float(stirrer.design.sheet.values["there.k"])


def stepped(made: Plan) -> tuple[float, float]:
    """(peak current, ∫I²dt) of an unloaded run-up on a full battery, by Euler steps of 10 µs."""
    inertia = float(made.design.sheet.values["coast.J"])
    volts, ohms = float(made.design.supplied.highest) if made.design.supplied else 0.0, R + 0.008
    speed = heat = peak = 0.0
    for _ in range(100_000):
        amps = (volts - U_B - K_E * speed) / ohms
        peak = max(peak, amps)
        heat += amps * amps * 1e-5
        speed += K_E * amps / inertia * 1e-5
    return peak, heat


def test_its_fuses_carry_the_start(stirrer: Plan) -> None:
    """IEC 60127-2: a time-lag fuse stands four times its rating for 0.095 s, so about 1.5 s of I² over its rating squared."""
    peak, heat = stepped(stirrer)
    values = stirrer.design.sheet.values
    assert float(values["start.I"]) == pytest.approx(peak, rel=1e-3)
    assert float(values["F2.I_st"]) == pytest.approx(sqrt(heat / 1.5), rel=5e-3)
    assert stirrer.design.sizes is not None
    assert float(stirrer.design.sizes.line_fuse) >= sqrt(heat / 1.5)


def test_runaway_is_a_full_battery_without_load(stirrer: Plan) -> None:
    """14.4 V are six lead cells at the end of charging (2.40 V each)."""
    assert stirrer.design.runaway is not None
    assert float(stirrer.design.runaway) == pytest.approx((14.4 - 1.5 * R - U_B) / K_E, rel=2e-3)


def test_its_circuit_is_sound_and_has_no_drive(stirrer: Plan) -> None:
    circuit = stirrer.circuit
    assert circuit is not None
    assert prove(circuit) == ()
    assert "T1" not in circuit.devices
    assert "K2" not in circuit.devices  # nothing is charged


def test_its_contactor_is_made_for_motors_on_direct_current(stirrer: Plan) -> None:
    """IEC 60947-4-1, Table 1: DC-3 is starting, plugging and inching of shunt motors; DC-1 is not."""
    place = next(place for place in stirrer.design.places if place.id == "contactor")
    assert {need.rating: need.value for need in place.needs}["category"] == "DC-3"
    worse = changed(("  soft_start: true\n", ""), ("on_hand:\n", "on_hand:\n  - contactor, 30 A 24 V DC, 2-pole, coil 12 V, auxiliary contact, DC-1, salvaged\n"))
    assert {seat.place.id: seat.verdict for seat in worse.design.seats}["contactor"] == "does not fit"


CASES = [
    ("speed-of-its-own", "stop", [("speed: 78..78 rpm", "speed: 110..110 rpm")]),
    ("one-speed-only", "stop", [("speed: 78..78 rpm", "speed: 60..78 rpm")]),
    ("battery-run-flat", "heed", [("  cut_off: 10.6 V\n", "")]),
    ("battery-too-weak", "stop", [("8 mohm", "300 mohm")]),
]


@pytest.mark.parametrize(("name", "grade", "changes"), CASES, ids=[case[0] for case in CASES])
def test_its_dangers_are_told(name: str, grade: str, changes: list[tuple[str, str]]) -> None:
    found = {finding.id: finding for finding in changed(*changes).findings}
    assert name in found, sorted(found)
    assert found[name].grade == grade
