"""A rewound core and a bridge: turns, wire and speed by hand, its waveform by stepping in time, its dangers case by case."""

from math import pi, sin, sqrt
from pathlib import Path

import pytest

from buildsheet.circuit.contraction import reached
from buildsheet.circuit.netlist import Terminal
from buildsheet.circuit.proofs import protected_by, prove
from buildsheet.plan import Plan, plan
from buildsheet.project import load, read

FILE = Path(__file__).resolve().parents[2] / "projects/ink-mixer/ink-mixer.yaml"
TEXT = FILE.read_text(encoding="utf-8")
TURN = 9.1 / 10 * 230 / 226  # V, of one turn on the nominal line
OPEN = 23 * TURN
K_E = 8.70 / (1000 * pi / 30)


def changed(*changes: tuple[str, str]) -> Plan:
    text = TEXT
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    return plan(read(text, "mixer.yaml"))


BOUGHT = ("""  idle: 16 W
  rewound:
    high_winding: removed
    trial_turns: 10
    trial: 9.1 V
    trial_at: 226 V
    primary: 2.6 ohm
    turns: 23
    wire: 4 mm²
    turn_length: 210 mm
    leg: 32 mm
    stack: 42 mm
    window_width: 16 mm
    window_height: 48 mm
""", """  rated: 168 VA
  secondary: 21 V
  regulation: 8 %
""")  # fmt: skip


@pytest.fixture(scope="module")
def mixer() -> Plan:
    return plan(load(FILE))


def test_turns_are_those_of_the_trial_winding(mixer: Plan) -> None:
    """Ten turns showed 9.1 V with 226 V at the primary; so a turn gives 0.926 V on 230 V, and 23 turns 21.3 V open."""
    values = mixer.design.sheet.values
    assert float(values["T2.v"]) == pytest.approx(TURN, rel=1e-9)
    assert float(values["T2.V_open"]) == pytest.approx(OPEN, rel=1e-9)


def test_resistance_is_that_of_its_copper(mixer: Plan) -> None:
    """IEC 60028: 17.241 nΩm at 20 °C; 23 turns of 210 mm and 4 mm², and the primary's 2.6 ohm through the square of the turns."""
    by_hand = 17.241e-9 * 23 * 0.210 / 4e-6 + 2.6 * (OPEN / 230) ** 2
    assert float(mixer.design.sheet.values["T2.R_w"]) == pytest.approx(by_hand, rel=2e-3)


def test_the_wire_is_sized_for_its_own_current(mixer: Plan) -> None:
    """Published guide of 2 to 2.5 A/mm² for an enclosed winding, by the RMS current, which without a capacitor is the motor's."""
    values, point = mixer.design.sheet.values, mixer.design.point("high")
    assert point is not None
    assert float(values["T2.I_2"]) == pytest.approx(float(point.rms), rel=1e-6)
    assert float(values["T2.a"]) == pytest.approx(float(point.rms) / 2.5e6, rel=1e-9)


@pytest.mark.parametrize("power", ["45 W", "38 W", "30 W"])
def test_stepping_in_time_gives_the_speed_that_there_is(power: str) -> None:
    """At the open voltage and the back-EMF that the program says, Euler steps of 2 µs give the work's current, within 1 %."""
    made = changed(("power: 45 W", f"power: {power}"))
    values, point = made.design.sheet.values, made.design.point("high")
    assert point is not None
    share = OPEN / 230
    ohms = 0.23 * share**2 + float(values["T2.R_w"]) + float(values["motor.R_hot"])
    L, E, drop = float(point.inductance), float(values["there.E"]), float(values["high.U_path"])
    amps = mean = 0.0
    step, count, cycles, kept = 2e-6, 10000, 20, 10
    for cycle in range(cycles):
        for k in range(count):
            volts = abs(sqrt(2) * OPEN * sin(2 * pi * 50 * k * step))
            amps = max(0.0, amps + (volts - drop - E - ohms * amps) / L * step)
            if cycle >= cycles - kept:
                mean += amps
    assert mean / (kept * count) == pytest.approx(float(point.current), rel=0.01)
    assert float(values["there.k"]) == pytest.approx(E / float(point.emf), rel=1e-9)


def test_runaway_is_bounded_by_the_open_voltage(mixer: Plan) -> None:
    """Without load a magnet motor on a bare bridge comes near the peak and never above it."""
    assert mixer.design.runaway is not None
    peak = sqrt(2) * OPEN * 1.1
    assert 0.75 * peak < float(mixer.design.runaway) * K_E < peak


def test_a_bought_one_by_its_plate() -> None:
    """21 V at full load, 8 % of regulation: 22.68 V open; 168 VA are 8 A, so its windings have 21 · 0.08 / 8 = 0.21 ohm."""
    made = changed(BOUGHT, ("  - transformer, salvaged\n", "  - transformer, 230 V, secondary 21 V, 168 VA, salvaged\n"))
    values = made.design.sheet.values
    assert float(values["T2.V_open"]) == pytest.approx(22.68, rel=1e-9)
    assert float(values["T2.R_w"]) == pytest.approx(0.21, rel=1e-9)
    assert made.state == "for building", [finding.id for finding in made.findings if finding.stops]
    assert {seat.place.id: seat.verdict for seat in made.design.seats}["transformer"] == "fits with a condition"


def test_its_low_side_counts_as_the_line(mixer: Plan) -> None:
    """Simple separation keeps nothing out: a live pole is followed through it (IEC 61140, protective separation)."""
    circuit = mixer.circuit
    assert circuit is not None
    assert prove(circuit, pole_may_swap=True) == ()
    on = {**circuit.rest, "Q1": "on", "Q2": "in"}
    assert Terminal("T2", "3") in reached(circuit, on, Terminal("X1", "L"), barred=True)


def test_the_secondary_is_guarded_by_its_own_fuse_and_the_line_side_by_the_line_s(mixer: Plan) -> None:
    """More amperes flow behind a step-down transformer than ahead of it: 1 A ahead guards nothing behind."""
    circuit = mixer.circuit
    assert circuit is not None
    guards = protected_by(circuit)
    assert guards[312][0] == "F5"
    assert guards[302] == guards[301] == ("F1", pytest.approx(1.0))
    assert guards[313][1] == circuit.devices["F5"].trips_at


CASES = [
    ("high-winding", "stop", [("high_winding: removed", "high_winding: still there")]),
    ("high-winding", "stop", [("    high_winding: removed\n", "")]),
    ("turns-unknown", "stop", [("    turns: 23\n", "")]),
    ("winding-too-thin", "stop", [("wire: 4 mm²", "wire: 1.5 mm²")]),
    ("window-too-full", "stop", [("window_width: 16 mm", "window_width: 4 mm")]),
    ("speed-of-its-own", "stop", [("turns: 23", "turns: 27")]),
    ("one-speed-only", "stop", [("speed: 240..240 rpm", "speed: 120..240 rpm")]),
    ("speed-out-of-reach", "stop", [("turns: 23", "turns: 20")]),
    ("simple-separation", "note", [("IM-01", "IM-02")]),
    ("transformer-too-small", "stop", [BOUGHT, ("rated: 168 VA", "rated: 60 VA")]),
    ("fuse-above-transformer", "stop", [("leg: 32 mm", "leg: 14 mm"), ("stack: 42 mm", "stack: 20 mm"), ("power: 45 W", "power: 60 W")]),
]


@pytest.mark.parametrize(("name", "grade", "changes"), CASES, ids=[f"{name}-{k}" for k, (name, _, _) in enumerate(CASES)])
def test_its_dangers_are_told(name: str, grade: str, changes: list[tuple[str, str]]) -> None:
    found = {one: finding for finding in changed(*changes).findings for one in (finding.id, *finding.follows)}
    assert name in found, sorted(found)
    assert found[name].grade == grade
