"""Guard switch, thermostat and foot pedal: each stops the machine, none starts it again, and a bridge over one is caught.

Facts of the trade: a guard that shuts, a thermostat that cools, a foot that comes back start nothing (IEC 60204-1, 7.5 and
9.2, from memory); a guard's contact is pushed open (ISO 14119, from memory).
"""

from pathlib import Path

import pytest

from buildsheet.circuit import Circuit
from buildsheet.circuit.contraction import powered
from buildsheet.circuit.effects import effects
from buildsheet.circuit.proofs import prove
from buildsheet.circuit.sequence import driven, runs, settle
from buildsheet.plan import Plan, plan
from buildsheet.project import read
from tests.circuit.small import adding, wire

SANDER = (Path(__file__).resolve().parents[2] / "projects/strip-sander/strip-sander.yaml").read_text(encoding="utf-8")
CARDER = (Path(__file__).resolve().parents[2] / "projects/wool-carder/wool-carder.yaml").read_text(encoding="utf-8")
ALL = "also_stops: [guard switch, thermostat, foot pedal]"
CODES = {"S6": "open", "F6": "hot", "S7": "free"}


def made(text: str) -> Plan:
    return plan(read(text.replace("  overload: {by: relay}\n", f"  overload: {{by: relay}}\n  {ALL}\n"), "machine.yaml"))


@pytest.fixture(scope="module", params=[SANDER, CARDER], ids=["on the line", "on a battery"])
def machine(request: pytest.FixtureRequest) -> Plan:
    return made(request.param)


def circuit_of(machine: Plan) -> Circuit:
    assert machine.circuit is not None
    return machine.circuit


def test_the_machine_with_all_three_is_sound(machine: Plan) -> None:
    assert prove(circuit_of(machine)) == ()
    assert machine.state == "for building"


@pytest.mark.parametrize(("code", "place"), CODES.items())
def test_each_stops_it_and_going_back_starts_nothing(machine: Plan, code: str, place: str) -> None:
    circuit = circuit_of(machine)
    loads = driven(circuit)
    for run in runs(circuit):
        gone = settle(circuit, {**run.positions, code: place})
        back = settle(circuit, {**gone, code: run.positions[code]})

        assert powered(circuit, run.positions, loads)
        assert not powered(circuit, gone, loads)
        assert not powered(circuit, back, loads)


@pytest.mark.parametrize("code", CODES)
def test_a_bridge_over_one_is_caught(machine: Plan, code: str) -> None:
    bridged = adding(circuit_of(machine), wire(990, f"{code}:11", f"{code}:12", "control"))

    assert "stopping" in {breach.proof for breach in prove(bridged)}


def test_a_stuck_contact_is_told_where_it_can_stick(machine: Plan) -> None:
    """The guard's contact is forced open; those of thermostat and pedal can weld."""
    told = {effect.fault.words: effect.outcomes for effect in effects(circuit_of(machine))}

    assert "S6 11–12 stuck closed" not in told
    assert told["F6 11–12 stuck closed"] == ("thermostat fails",)
    assert told["S7 11–12 stuck closed"] == ("pedal fails",)


def test_a_pedal_at_line_voltage_in_a_wet_place_is_a_stop() -> None:
    wet = made(SANDER.replace("where: dry shed", "where: wet place"))

    assert any(finding.id == "pedal-live" and finding.stops for finding in wet.findings)
    assert any(finding.id == "pedal-live" and not finding.stops for finding in made(SANDER).findings)
    assert not any(finding.id == "pedal-live" for finding in made(CARDER).findings)
