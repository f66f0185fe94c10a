"""Motors on the line that run both ways, against what handbooks on small motors say of them (from memory): a single-phase
motor is turned round by the two ends of one of its windings, a series motor by armature or field, either at standstill only,
and swapping the whole supply turns neither round.
"""

from cmath import exp, phase
from math import inf, log, pi
from pathlib import Path

import numpy as np
import pytest

from buildsheet.circuit import Capacitor, Circuit, Contact, Link, Resistance, Terminal, Winding
from buildsheet.circuit.contraction import contract, reached
from buildsheet.circuit.effects import effects
from buildsheet.circuit.proofs import prove
from buildsheet.circuit.sequence import later, runs, settle
from buildsheet.circuit.stored import discharge_time, without_supply
from buildsheet.packet.diagram.forms import form
from buildsheet.packet.html import html
from buildsheet.packet.ink import Ink
from buildsheet.packet.views import checks, facts, power
from buildsheet.packet.views.steps import StepItem
from buildsheet.plan import Plan, plan
from buildsheet.project import read
from tests.circuit.small import adding, wire, with_device, with_wire, without
from tests.ways.test_series_line import POLISHER

PROJECTS = Path(__file__).resolve().parents[2] / "projects"
SIEVE = (PROJECTS / "compost-sieve/compost-sieve.yaml").read_text(encoding="utf-8")
TUMBLER = (PROJECTS / "stone-tumbler/stone-tumbler.yaml").read_text(encoding="utf-8")
BOTH_WAYS = ("  reach: guarded\n", "  reach: guarded\n  reverse: true\n")
FOUR = ("  idle: 1.2 A", "  leads: four\n  idle: 1.2 A")
SPLIT = (("kind: capacitor-start", "kind: split-phase"), ("  capacitor: 50 µF, 260 V\n", ""))
MACHINES: dict[str, tuple[str, tuple[tuple[str, str], ...]]] = {
    "capacitor-start": (SIEVE, ()),
    "split-phase": (SIEVE, SPLIT),
    "permanent-split-capacitor": (TUMBLER, (BOTH_WAYS, FOUR)),
    "series": (POLISHER, (BOTH_WAYS,)),
}
INDUCTION = [name for name in MACHINES if name != "series"]


def changed(text: str, *changes: tuple[str, str]) -> Plan:
    """A machine with some of its lines changed; every change must hit."""
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    return plan(read(text, "machine.yaml"))


@pytest.fixture(scope="module")
def made() -> dict[str, Plan]:
    return {name: changed(text, *changes) for name, (text, changes) in MACHINES.items()}


def circuit_of(one: Plan) -> Circuit:
    assert one.circuit is not None
    return one.circuit


def running(circuit: Circuit, way: str) -> dict[str, str]:
    """Started with the direction switch there, the motor's own switch as it is at rest."""
    found = next(run for run in runs(circuit) if run.positions["S5"] == way and run.positions.get("M1", "at rest") == "at rest")
    return dict(found.positions)


def currents(circuit: Circuit, at: dict[str, str]) -> dict[str, complex]:
    """The current in each winding of the motor from its first screw to its second, one volt at 50 Hz over the plug's poles:
    nodal analysis in complex numbers, which shares nothing with the program but the netlist. A winding counts as its ohms and
    as much reactance; what passes no current to speak of, coils of relays, is left out."""
    nodes = contract(circuit, at)
    omega, edges = 2 * pi * 50, []
    for device in circuit.devices.values():
        for part in device.inside:
            if isinstance(part, Capacitor):
                admittance = 1j * omega * part.farads
            elif isinstance(part, Resistance) and not (isinstance(part, Winding) and device.code != "M1"):
                admittance = 1 / (part.low * (1 + 1j if isinstance(part, Winding) else 1) + 1e-6)
            else:
                continue
            name = part.part if device.code == "M1" and isinstance(part, Winding) else ""
            edges.append((nodes.of(Terminal(device.code, part.a)), nodes.of(Terminal(device.code, part.b)), admittance, name))
    source, poles = circuit.source
    line, other = (nodes.of(Terminal(source.code, pole)) for pole in poles.poles)
    index = {node: row for row, node in enumerate({end for edge in edges for end in edge[:2]} | {line, other})}
    matrix = np.eye(len(index), dtype=complex) * 1e-12
    for a, b, admittance, _ in edges:
        for here, there in ((index[a], index[b]), (index[b], index[a])):
            matrix[here, here] += admittance
            matrix[here, there] -= admittance
    right = np.zeros(len(index), dtype=complex)
    for node, volts in ((line, 1.0), (other, 0.0)):
        matrix[index[node], :] = 0
        matrix[index[node], index[node]] = 1
        right[index[node]] = volts
    found = np.linalg.solve(matrix, right)
    return {name: admittance * (found[index[a]] - found[index[b]]) for a, b, admittance, name in edges if name}


@pytest.mark.parametrize("name", MACHINES)
def test_one_winding_turns_round_and_the_other_does_not(made: dict[str, Plan], name: str) -> None:
    """The two currents' torque goes with the sine of the angle between them (two-phase theory), a series motor's with their
    product: with one winding turned by half a period against the other, both change their sign."""
    circuit = circuit_of(made[name])
    forward, back = (currents(circuit, running(circuit, way)) for way in ("forward", "reverse"))
    turned, stays = ("armature", "field") if name == "series" else ("start", "run")

    for amperes in (forward, back):
        assert abs(amperes[turned]) > 1e-3
        assert abs(amperes[stays]) > 1e-3
    assert back[stays] == pytest.approx(forward[stays], rel=1e-3)
    assert back[turned] == pytest.approx(-forward[turned], rel=1e-3)
    assert phase(back[turned] / back[stays] * exp(1j * pi)) == pytest.approx(phase(forward[turned] / forward[stays]), abs=1e-3)


@pytest.mark.parametrize("name", MACHINES)
def test_every_proof_holds(made: dict[str, Plan], name: str) -> None:
    assert made[name].state == "for building"
    assert prove(circuit_of(made[name]), pole_may_swap=MACHINES[name][0] is SIEVE) == ()


@pytest.mark.parametrize("name", INDUCTION)
def test_the_leads_lie_as_drawn_by_hand(made: dict[str, Plan], name: str) -> None:
    """Run winding straight between relay and contactor; the start winding's two ends over the switch, after its capacitor."""
    circuit = circuit_of(made[name])
    first = "C1:2" if "C1" in circuit.devices else "F3:6"
    for way, ends in (("forward", ("Z1", "Z2")), ("reverse", ("Z2", "Z1"))):
        nodes = contract(circuit, running(circuit, way))
        assert nodes.same(Terminal("M1", ends[0]), Terminal(*first.split(":")))
        assert nodes.same(Terminal("M1", ends[1]), Terminal("M1", "U2"))
        assert nodes.same(Terminal("M1", "U1"), Terminal("F3", "6"))
        assert nodes.same(Terminal("M1", "U2"), Terminal("Q2", "4"))
    cores = {wire.number for wire in circuit.wires if wire.cable == "W3"}
    assert cores == {403, 404, 412, 413, 905}


@pytest.mark.parametrize("name", MACHINES)
def test_at_zero_nothing_of_the_motor_is_live(made: dict[str, Plan], name: str) -> None:
    """Leaving a direction opens the contactor first: both poles are off the motor, whatever screw one asks."""
    circuit = circuit_of(made[name])
    source, poles = circuit.source
    for way in ("forward", "reverse"):
        at = settle(circuit, {**running(circuit, way), "S5": "off"})
        assert at["Q2"] == "out"
        for pole in poles.poles:
            live = reached(circuit, at, Terminal(source.code, pole))
            assert not [end for end in live if end.device == "M1"]
            assert not [end for end in live if end.device == "S5" and end.name in ("1", "2", "3", "4")]


@pytest.mark.parametrize("name", MACHINES)
def test_start_waits_for_standstill(made: dict[str, Plan], name: str) -> None:
    """The lever thrown straight over while it coasts: start does nothing until the timer's time is over."""
    circuit = circuit_of(made[name])
    at = settle(circuit, {**running(circuit, "forward"), "S5": "off"})
    at = settle(circuit, {**at, "S5": "reverse"})
    held = settle(circuit, {**at, "S2": "pressed"})
    assert at["K1"] == "timing"
    assert held["Q2"] == "out"

    rested = settle(circuit, {**later(circuit, at), "S2": "pressed"})
    assert rested["K1"] in ("ready", "timing")
    assert rested["Q2"] == "in"


def test_its_capacitor_is_emptied_wherever_the_lever_stands(made: dict[str, Plan]) -> None:
    """R·C·ln(V/60 V) with a capacitor a fifth above its mark (charge of a capacitor through a resistor), in every state without
    supply; with the resistor's lead off never."""
    circuit = circuit_of(made["capacitor-start"])
    part = next(part for part in circuit.devices["C1"].inside if isinstance(part, Capacitor))
    bleeder = next(part for part in circuit.devices["R2"].inside if isinstance(part, Resistance))
    states = without_supply(circuit)
    takes = bleeder.high * part.farads * 1.2 * log(part.volts / 60)

    assert {state["S5"] for state in states} == {"off", "forward", "reverse"}
    assert {round(discharge_time(circuit, state, "C1", part), 6) for state in states} == {round(takes, 6)}
    broken = without(circuit, 408)
    assert all(discharge_time(broken, state, "C1", part) == inf for state in without_supply(broken) if state["M1"] == "at speed")


def whole_motor_over(circuit: Circuit) -> Circuit:
    """The switch put before the whole motor: it swaps the supply, and with it the current of both windings."""
    ends = {410: ("F3:6", "S5:1"), 403: ("S5:2", "M1:U1"), 404: ("S5:4", "M1:U2"), 407: ("S5:2", "C1:1"), 412: ("C1:2", "M1:Z1"), 413: ("M1:U2", "M1:Z2")}
    for number, (a, b) in ends.items():
        circuit = with_wire(circuit, number, a=Terminal(*a.split(":")), b=Terminal(*b.split(":")))
    return circuit


def test_swapping_the_supply_is_caught(made: dict[str, Plan]) -> None:
    circuit = whole_motor_over(circuit_of(made["capacitor-start"]))
    forward, back = (currents(circuit, running(circuit, way)) for way in ("forward", "reverse"))

    assert back["start"] / back["run"] == pytest.approx(forward["start"] / forward["run"], rel=1e-3)
    assert "reversal" in {breach.proof for breach in prove(circuit)}


def test_without_the_early_contact_it_is_caught(made: dict[str, Plan]) -> None:
    circuit = adding(circuit_of(made["split-phase"]), wire(990, "S5:21", "S5:22", "control"))

    assert "reversal" in {breach.proof for breach in prove(circuit)}


@pytest.mark.parametrize("name", ["split-phase", "series"])
def test_a_place_that_shorts_through_the_heaters_is_caught(made: dict[str, Plan], name: str) -> None:
    """By hand: both contacts of one screw closed at once join the two sides of the switch, and without a capacitor in the
    way nothing but the relay's heaters, or field and heaters, lies between the poles: a fuse, or no torque and a hot field."""
    circuit = circuit_of(made[name])
    inside = tuple(
        Contact(part.a, part.b, frozenset({"forward", "reverse"})) if isinstance(part, Contact) and not part.early else part for part in circuit.devices["S5"].inside
    )
    proofs = {breach.proof for breach in prove(with_device(circuit, "S5", inside=inside))}

    assert "short circuit" in proofs


def test_a_motor_bridged_by_a_link_is_still_caught(made: dict[str, Plan]) -> None:
    circuit = circuit_of(made["permanent-split-capacitor"])
    linked = with_device(circuit, "S5", inside=(*circuit.devices["S5"].inside, Link("2", "4")))

    assert prove(linked)


def test_single_faults_by_hand(made: dict[str, Plan]) -> None:
    """From the drawings. A switch contact or lead of the start winding that is open leaves no turning field at the start; one that
    sticks joins both sides of the switch in the other direction, which lies across the line where no capacitor stands before
    it; without the timer's supply start is free at once, and no motor current runs over its screws."""
    told = {name: {effect.fault.words: effect for effect in effects(circuit_of(one))} for name, one in made.items()}
    for name in INDUCTION:
        of = told[name]
        for words in ("S5 1–2 open", "S5 3–2 open", *(f"wire {number} broken" for number in (410, 411, 412, 413))):
            assert of[words].outcomes == ("no turning",), (name, words)
        for words in ("wire 215 broken", "wire 223 broken", "K1 15–16 stuck closed", "S5 21–22 stuck closed"):
            assert of[words].outcomes == ("reverses without waiting",), (name, words)
        assert "emergency-stop" in of["wire 215 broken"].stopped_by
    assert told["split-phase"]["S5 1–2 stuck closed"].outcomes == ("fuse blows",)
    assert told["capacitor-start"]["S5 1–2 stuck closed"].outcomes == ("no turning",)
    assert told["series"]["wire 411 broken"].outcomes == ("no turning",)


def ids(one: Plan) -> dict[str, str]:
    return {name: finding.grade for finding in one.findings for name in (finding.id, *finding.follows)}


def test_each_kind_tells_what_it_does_when_it_is_thrown_over(made: dict[str, Plan]) -> None:
    """Facts of the trade: with its start winding out a motor goes on the old way; a series motor's own volts add to the line's;
    brushes may be set for one direction, and a motor without brushes has none."""
    said = {name: next(finding for finding in one.findings if finding.id == "reverse-at-rest-only") for name, one in made.items()}

    for name in ("capacitor-start", "split-phase"):
        assert "goes on the old way" in said[name].found.text
    assert "may go on the old way" in said["permanent-split-capacitor"].found.text
    assert "own voltage drives with the supply" in said["series"].found.text
    assert {name for name, one in made.items() if "brushes-off-neutral" in ids(one)} == {"series"}
    assert not [name for name, one in made.items() if "never-plugged" in ids(one)]


# changes to the sieve, the finding that stops it, words that it must have
STOPS = [
    ((("  leads: four\n", ""),), "reverse-needs-leads", "leads: four"),
    ((("leads: four", "leads: three"),), "reverse-not-worked", "winder"),
    ((*SPLIT, ("leads: four", "leads: three")), "reverse-not-worked", "reverse: false"),
    ((("kind: capacitor-start", "kind: shaded-pole"), SPLIT[1], ("  start_winding: 19 ohm\n", ""), ("  leads: four\n", "")), "reverse-not-worked", "end for end"),
    ((("pulley: key", "pulley: right-hand thread"),), "pulley-unscrews", "key"),
    ((("  inertia: 2.4 kg·m²\n", ""),), "wait-unknown", "inertia"),
]


@pytest.mark.parametrize(("changes", "name", "words"), STOPS, ids=[f"{case[1]}-{number}" for number, case in enumerate(STOPS)])
def test_what_can_not_be_reversed_safely_is_a_stop_that_says_what_to_do(changes: tuple[tuple[str, str], ...], name: str, words: str) -> None:
    one = changed(SIEVE, *changes)

    assert ids(one)[name] == "stop"
    assert one.state == "draft"
    assert any(words in finding.do for finding in one.findings if name in (finding.id, *finding.follows))


def test_with_three_leads_one_way_the_shared_end_is_inside() -> None:
    """Nothing to link at the motor, and the start winding reads from its own lead to the shared one."""
    one = changed(SIEVE, ("leads: four", "leads: three"), ("  reverse: true\n", ""))
    circuit = circuit_of(one)
    rows = next(group for group in checks.all_groups(circuit, "earth") if group.name == "Motor").rows
    start = next(row for row in rows if row.red == "M1 · Z1")

    assert one.state == "for building"
    assert prove(circuit, pole_may_swap=True) == ()
    assert 411 not in {wire.number for wire in circuit.wires}
    assert start.black == "M1 · U2"
    assert (start.low, start.high) == (pytest.approx(0.85 * 19), pytest.approx(1.2 * 19))


def test_the_direction_switch_carries_what_the_fuse_lets_through(made: dict[str, Plan]) -> None:
    """Common practice: what lies behind a fuse carries at least its rating; on alternating current its volts are the line's."""
    for one in made.values():
        assert one.design.sizes is not None
        place = next(place for place in one.design.places if place.id == "reversing-switch")
        needs = {need.rating: need for need in place.needs}
        assert float(needs["current"].value) >= float(one.design.sizes.line_fuse)  # type: ignore[arg-type]
        assert needs["voltage"].value is one.design.supplied.voltage  # type: ignore[union-attr]
        assert not any(isinstance(said, str) and "DC" in said for said in place.say)


@pytest.mark.parametrize("changes", [(("controls:\n", "controls:\n  fan: {voltage: 230 V, power: 5 W}\n"),), (("{by: relay}", "{by: thermal protector}"),)], ids=["fan", "no relay"])
def test_every_screw_has_room(changes: tuple[tuple[str, str], ...]) -> None:
    """Timer, motor, fan and switch all want the contactor's two screws; none of them ends in the motor's own box instead."""
    for split in ((), SPLIT):
        circuit = circuit_of(changed(SIEVE, *split, *changes))
        assert prove(circuit, pole_may_swap=True) == ()
        assert {wire.number for wire in circuit.wires if "M1" in (wire.a.device, wire.b.device)} == {403, 404, 412, 413, 905}


def test_sheet_8_reads_each_place_of_the_switch(made: dict[str, Plan]) -> None:
    """By hand: at 0 nothing, forward straight through, reverse across; then the motor with its wires back on."""
    for name, one in made.items():
        groups = {group.name: group.rows for group in checks.all_groups(circuit_of(one), "earth")}
        found = [(row.hands, row.red[-1], row.black[-1], row.want) for row in groups["Direction"]]
        joined = [(hands, red, black) for hands, red, black, want in found if want != "OL"]
        assert joined == [("S5 forward", "1", "2"), ("S5 forward", "3", "4"), ("S5 reverse", "1", "4"), ("S5 reverse", "3", "2")]
        assert [hands for hands, *_, want in found if want == "OL"] == ["S5 at 0"] * 4
        assert "S5 forward" in groups["Motor"][0].hands, name


def test_first_power_tries_both_ways(made: dict[str, Plan]) -> None:
    for name, one in made.items():
        steps = [item for item in power.items(one, Ink()) if isinstance(item, StepItem)]
        tried = [n for n, step in enumerate(steps) if "direction switch to 0" in step.action]
        coupled = next(n for n, step in enumerate(steps) if "Lay the belt on" in step.action)
        assert len(tried) == 1
        assert (tried[0] > coupled) == (name == "series")  # which is never run with nothing coupled
        assert ("clicking" in steps[tried[0]].right_when) == (name in ("capacitor-start", "split-phase"))
        assert "through the drive" not in steps[tried[0]].note
        wrong = next(item for item in power.items(one, Ink()) if isinstance(item, power.RowItem) and item.title == "Wrong way round?")
        assert "412 and 413" in wrong.text
        if name == "series":
            compared = steps[tried[0] + 1 :]
            assert any("the other way" in reading.what for step in compared for reading in step.readings)


def test_sheet_3_names_the_winding_that_is_changed_over(made: dict[str, Plan]) -> None:
    said = {name: dict(facts.reversing_facts(one, Ink())) for name, one in made.items()}

    assert {name: told["Changed over"].partition(";")[0] for name, told in said.items()} == {
        **dict.fromkeys(INDUCTION, "the start winding alone, Z1 and Z2"), "series": "the armature alone, A1 and A2",
    }  # fmt: skip
    assert all("knob" not in told["Sequence"] for told in said.values())


def test_the_diagram_draws_switch_and_start_winding_in_a_row(made: dict[str, Plan]) -> None:
    """By hand: from Z1 the motor's own switch, closed at rest, then the winding, to Z2; with three leads run winding first."""
    chains = {name: [seat for seat in form(circuit_of(one).devices["M1"]).seats if seat.chain] for name, one in made.items()}
    three = form(circuit_of(changed(SIEVE, ("leads: four", "leads: three"), ("  reverse: true\n", ""))).devices["M1"])

    assert [(seat.terminals, seat.chain) for seat in chains["split-phase"]] == [(("Z1", "S", "Z2"), ("knife-closed", "winding"))]
    assert not chains["permanent-split-capacitor"]
    assert three.seats[0].terminals == ("U1", "U2", "S", "Z1")
    assert three.seats[0].chain[1:] == ("winding", "knife-closed")


@pytest.mark.parametrize("name", MACHINES)
def test_its_pages_can_be_made(made: dict[str, Plan], name: str) -> None:
    assert "Turn the direction switch to 0" in html(made[name])
