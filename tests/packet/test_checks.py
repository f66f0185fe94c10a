"""The readings before power: what they catch, and that their words name every switch that must be set."""

from dataclasses import replace
from pathlib import Path

import pytest

from buildsheet.circuit import Circuit
from buildsheet.circuit.netlist import Terminal
from buildsheet.packet.ink import Ink
from buildsheet.packet.views.checks import all_groups, groups
from buildsheet.packet.views.reading import Row
from buildsheet.plan import Plan, plan
from buildsheet.project import load

SANDER = Path(__file__).resolve().parents[2] / "projects/strip-sander/strip-sander.yaml"


@pytest.fixture(scope="module")
def sander() -> Plan:
    return plan(load(SANDER))


def rows(made: Plan) -> list[Row]:
    return [row for group in groups(made, Ink()) for row in group.rows]


def wants(made: Plan, circuit: Circuit) -> list[str]:
    """What the sheet's readings would be on another circuit, such as one with a mistake in it."""
    assert made.circuit is not None
    return [row.want for group in all_groups(made.circuit, "ground", circuit) for row in group.rows]


def moved(circuit: Circuit, **ends: tuple[Terminal, Terminal]) -> Circuit:
    """The circuit with some wires on other terminals, by number."""
    wires = tuple(replace(w, a=ends[f"w{w.number}"][0], b=ends[f"w{w.number}"][1]) if f"w{w.number}" in ends else w for w in circuit.wires)
    return replace(circuit, wires=wires)


def test_swapped_poles_at_the_disconnect_change_a_reading(sander: Plan) -> None:
    """Facts of the trade: a fuse in the neutral leaves the machine live when it blows, and no proof of ours sees a mistake at the bench."""
    circuit = sander.circuit
    assert circuit is not None
    swapped = moved(circuit, w101=(Terminal("X1", "L"), Terminal("Q1", "3")), w102=(Terminal("X1", "N"), Terminal("Q1", "1")))
    assert wants(sander, swapped) != wants(sander, circuit)


@pytest.mark.parametrize("pole", [("1", "2"), ("3", "4")])
def test_a_welded_pole_of_the_contactor_changes_a_reading(sander: Plan, pole: tuple[str, str]) -> None:
    circuit = sander.circuit
    assert circuit is not None
    q2 = circuit.devices["Q2"]
    welded = tuple(replace(part, closed_in=frozenset({"in", "out"})) if getattr(part, "a", "") == pole[0] else part for part in q2.inside)
    broken = replace(circuit, devices={**circuit.devices, "Q2": replace(q2, inside=welded)})
    assert wants(sander, broken) != wants(sander, circuit)


@pytest.mark.parametrize("code", ["S1", "S3", "F3"])
def test_a_bridged_contact_of_the_chain_changes_a_reading(sander: Plan, code: str) -> None:
    circuit = sander.circuit
    assert circuit is not None
    device = circuit.devices[code]
    bridged = tuple(replace(part, closed_in=frozenset(device.positions)) if hasattr(part, "closed_in") else part for part in device.inside)
    broken = replace(circuit, devices={**circuit.devices, code: replace(device, inside=bridged)})
    assert wants(sander, broken) != wants(sander, circuit)


@pytest.mark.parametrize("number", [103, 104, 105, 201, 202, 203, 204, 206, 208, 402, 403, 902, 903, 904, 905, 906])
def test_a_wire_left_off_changes_a_reading(sander: Plan, number: int) -> None:
    circuit = sander.circuit
    assert circuit is not None
    without = replace(circuit, wires=tuple(w for w in circuit.wires if w.number != number))
    assert wants(sander, without) != wants(sander, circuit)


def test_after_a_latching_switch_was_set_the_next_row_says_that_it_is_free_again(sander: Plan) -> None:
    chain = next(group for group in groups(sander, Ink()) if group.name == "Release chain")
    said = [row.hands for row in chain.rows]
    assert "S1 pressed in" in said[1]
    assert "S1 out" in said[2]
    assert "F3 tripped" in said[3]
    assert "F3 reset" in said[4]
