"""Machines on alternating current as wholes: what their circuits must show by hand, and what a careful person would refuse."""

from pathlib import Path

import pytest

from buildsheet.circuit import Circuit, Contact, Electronics, Terminal
from buildsheet.circuit.contraction import contract
from buildsheet.circuit.proofs import prove
from buildsheet.circuit.readings import expected
from buildsheet.circuit.sequence import runs
from buildsheet.packet.fonts import characters
from buildsheet.packet.ink import Ink
from buildsheet.packet.views import power
from buildsheet.packet.views.steps import StepItem
from buildsheet.plan import Plan, plan
from buildsheet.project import load, read

ROOT = Path(__file__).resolve().parents[2]
MIXER = (ROOT / "projects/clay-mixer/clay-mixer.yaml").read_text(encoding="utf-8")
TUMBLER = (ROOT / "projects/stone-tumbler/stone-tumbler.yaml").read_text(encoding="utf-8")


def changed(text: str, *changes: tuple[str, str]) -> Plan:
    """A demonstration with some of its lines changed; every change must hit."""
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    return plan(read(text, "machine.yaml"))


def circuit_of(made: Plan) -> Circuit:
    assert made.circuit is not None
    return made.circuit


def ohms(circuit: Circuit, a: str, b: str, off: str = "") -> tuple[float, float]:
    reading = expected(circuit, Terminal(*a.split(":")), Terminal(*b.split(":")), {}, off=frozenset({off} if off else ()))
    return reading.low, reading.high


@pytest.fixture(scope="module")
def mixer() -> Plan:
    return plan(load(ROOT / "projects/clay-mixer/clay-mixer.yaml", characters()))


@pytest.fixture(scope="module")
def tumbler() -> Plan:
    return plan(load(ROOT / "projects/stone-tumbler/stone-tumbler.yaml", characters()))


def test_both_hold_every_proof_with_the_plug_either_way_round(mixer: Plan, tumbler: Plan) -> None:
    assert prove(circuit_of(mixer), pole_may_swap=True) == ()
    assert prove(circuit_of(tumbler)) == ()


def test_the_leads_of_the_mixer_go_straight_to_its_motor(mixer: Plan) -> None:
    """Drive makers' manuals: nothing between; the protective conductor lies in the same cable."""
    circuit = circuit_of(mixer)
    for number, output in ((401, "U"), (402, "V"), (403, "W")):
        wire = next(one for one in circuit.wires if one.number == number)
        assert {str(wire.a), str(wire.b)} == {f"T1:{output}", f"M1:{output}"}
        assert wire.cable == next(one for one in circuit.wires if one.number == 905).cable
        assert wire.ampacity >= 2.5  # what the inverter gives for long
    assert "F2" not in circuit.devices
    assert "F3" not in circuit.devices
    assert any(isinstance(part, Electronics) and part.does == "inverts" for part in circuit.devices["T1"].inside)


def test_between_two_leads_a_meter_shows_what_the_bench_showed(mixer: Plan) -> None:
    """19 ohm from lead to lead: three windings of 28.5 in a triangle, one beside two in a row."""
    for a, b in (("U", "V"), ("V", "W"), ("W", "U")):
        low, high = ohms(circuit_of(mixer), f"M1:{a}", f"M1:{b}", off="T1")
        assert low == pytest.approx(0.85 * 19.0)
        assert high == pytest.approx(1.2 * 19.0)


def test_the_tumblers_windings_lie_as_drawn(tumbler: Plan) -> None:
    """By hand: run winding between the contactor's poles, the start winding fed through capacitor C1 with R2 beside it."""
    circuit = circuit_of(tumbler)
    run = next(one for one in runs(circuit))
    nodes = contract(circuit, run.positions)

    assert nodes.same(Terminal("M1", "U2"), Terminal("M1", "Z2"))
    assert nodes.same(Terminal("C1", "1"), Terminal("M1", "U1"))
    assert nodes.same(Terminal("C1", "2"), Terminal("M1", "Z1"))
    assert nodes.same(Terminal("R2", "1"), Terminal("C1", "1"))
    assert nodes.same(Terminal("R2", "2"), Terminal("C1", "2"))
    assert ohms(circuit, "M1:Z1", "M1:Z2", off="M1") == pytest.approx((0.85 * 13.5, 1.2 * 13.5))


def test_a_start_switch_is_read_closed_and_opens_at_speed() -> None:
    """The measuring sheet of a split-phase motor: at rest it must be closed."""
    made = changed(TUMBLER, ("kind: permanent-split-capacitor", "kind: split-phase"), ("  capacitor: 12 µF, 250 V\n", ""))
    circuit = circuit_of(made)
    switch = next(part for part in circuit.devices["M1"].inside if isinstance(part, Contact))

    assert switch.closed_in == {"at rest"}
    assert circuit.devices["M1"].automatic
    assert prove(circuit) == ()
    assert "start-winding-burns" in {finding.id for finding in made.findings}
    assert "fault-start-winding" in {finding.id for finding in made.findings}


# finding, its grade, the demonstration and what is changed in it; why it is one stands with the rule
CASES = [
    ("overload-not-set", "stop", MIXER, [("{by: inverter, setting: 1.9 A}", "{by: inverter}")]),
    ("overload-set-high", "stop", MIXER, [("setting: 1.9 A", "setting: 2.2 A")]),
    ("relay-behind-inverter", "stop", MIXER, [("{by: inverter, setting: 1.9 A}", "{by: relay}")]),
    ("overload-not-shown", "stop", MIXER, [("{by: inverter, setting: 1.9 A}", "{by: thermal protector}")]),
    ("overload-not-shown", "stop", TUMBLER, [("{by: relay}", "{by: inverter, setting: 1.9 A}")]),
    ("no-overload", "stop", TUMBLER, [("controls:\n  overload: {by: relay}\n", "")]),
    ("inverter-phases", "stop", MIXER, [("input: one phase", "input: three phases")]),
    ("inverter-phases", "stop", MIXER, [("  input: one phase\n", "")]),
    ("drive-too-small", "stop", MIXER, [("input: one phase", "input: \"three phases, one allowed\"")]),
    ("inverter-waits", "stop", MIXER, [("starts_on_power: true", "starts_on_power: false")]),
    ("inverter-waits", "heed", MIXER, [("  starts_on_power: true\n", "")]),
    ("drive-stays-charged", "heed", MIXER, [("  discharged_after: 300 s\n", "")]),
    ("leads-unknown", "heed", MIXER, [("  leads: six\n", "")]),
    ("runaway-motor-rotor", "stop", MIXER, [("fastest: 100 Hz", "fastest: 400 Hz")]),
    ("runaway-unknown-motor-rotor", "stop", MIXER, [("  fastest: 100 Hz\n", "")]),
    ("speed-out-of-reach", "stop", MIXER, [("fastest: 100 Hz", "fastest: 45 Hz")]),
    ("torque-beyond-motor-low", "stop", MIXER, [("speed: 25..55 rpm", "speed: 14..55 rpm")]),
    ("too-slow-for-its-fan-low", "stop", MIXER, [("speed: 25..55 rpm", "speed: 8..55 rpm")]),
    ("torque-beyond-motor-high", "stop", MIXER, [("speed: 25..55 rpm", "speed: 25..95 rpm")]),
    ("residual-type-blind", "stop", MIXER, [("RCD type F", "RCD type A")]),
    ("live-controls-wet", "stop", MIXER, [("separation: galvanic", "separation: none"), ("where: dry room", "where: damp cellar")]),
    ("reverse-not-worked", "stop", MIXER, [("  reach: guarded\n", "  reach: guarded\n  reverse: true\n")]),
    ("reverse-needs-leads", "stop", TUMBLER, [("  reach: guarded\n", "  reach: guarded\n  reverse: true\n")]),
    ("one-speed-only", "stop", TUMBLER, [("39.5..39.5 rpm", "20..39.5 rpm")]),
    ("speed-by-belts", "stop", TUMBLER, [("39.5..39.5 rpm", "30..30 rpm")]),
    ("torque-beyond-motor", "stop", TUMBLER, [("torque: 20 N·m", "torque: 28 N·m")]),
    ("no-operating-point", "stop", TUMBLER, [("115 V 60 Hz", "230 V 60 Hz")]),
    ("no-operating-point", "stop", TUMBLER, [("115 V 60 Hz", "115 V 50 Hz"), ("1075 rpm", "900 rpm")]),
    ("capacitor-volts", "stop", TUMBLER, [("12 µF, 250 V", "12 µF, 150 V")]),
    ("start-trips-breaker", "heed", TUMBLER, [("locked rotor 5.2 A", "locked rotor 50 A")]),
]  # fmt: skip


@pytest.mark.parametrize(("name", "grade", "text", "changes"), CASES, ids=[f"{case[0]}-{number}" for number, case in enumerate(CASES)])
def test_each_danger_is_told(name: str, grade: str, text: str, changes: list[tuple[str, str]]) -> None:
    made = changed(text, *changes)
    told = {one: finding for finding in made.findings for one in (finding.id, *finding.follows)}

    assert name in told, sorted(told)
    assert told[name].grade == grade
    assert grade != "stop" or made.state == "draft"


def test_the_sound_machines_are_not_stopped(mixer: Plan, tumbler: Plan) -> None:
    for made in (mixer, tumbler):
        assert made.state == "for building"
        assert made.questions == ()


def actions(made: Plan) -> list[str]:
    return [item.action for item in power.items(made, Ink()) if isinstance(item, StepItem)]


def test_an_inverter_is_set_before_it_may_turn_its_motor(mixer: Plan) -> None:
    """Its run input is opened, it gets power, it is set, it loses its charge, and only then the link goes back."""
    steps = actions(mixer)
    order = [next(i for i, step in enumerate(steps) if words in step) for words in ("Take the link 504 off", "set the inverter by its manual", "Put the link 504 back", "Hands off the shaft")]

    assert order == sorted(order)
    assert "Wait 300" in steps[order[2]]
    settings = next(item for item in power.items(mixer, Ink()) if isinstance(item, power.SettingsItem))
    assert [row[0] for row in settings.settings][:4] == ["Motor volts", "Motor frequency, the base", "Motor current, its overload protection", "Motor speed"]


def test_nobody_reads_an_inverters_pulses_with_a_pocket_meter(mixer: Plan) -> None:
    """Behind it, with the machine running, the display tells the frequency, and a clamp the current."""
    units = [reading.unit for item in power.items(mixer, Ink()) if isinstance(item, StepItem) for reading in item.readings]

    assert units.count("V AC") == 2  # the supply, and nothing on the motor's wires before the start
    assert "Hz" in units
    assert "V DC" not in units


def test_the_tumbler_is_never_read_as_direct_current_but_for_its_capacitor(tumbler: Plan) -> None:
    units = {reading.unit for item in power.items(tumbler, Ink()) if isinstance(item, StepItem) for reading in item.readings}

    assert units <= {"V AC", "A AC", "rpm", "s"}
    assert not any("knob" in step or "brush" in step for step in actions(tumbler))
