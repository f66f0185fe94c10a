"""Supplies whose two poles can both be live: North American 240 V, and a plug that may go in either way round.

NFPA 70 (NEC) 240.21 and 430.109 ask a fuse and a switch in each ungrounded conductor; 200.6 and 200.7 keep white and gray
for the grounded one, so that a 240 V cord without neutral shows none (from memory). IEC 60204-1 13.2.3: light blue for
the neutral.
"""

from pathlib import Path

import pytest

from buildsheet.circuit import Fuse
from buildsheet.circuit.proofs import prove
from buildsheet.plan.plan import Plan, plan
from buildsheet.project import load, read

TWISTER = Path(__file__).resolve().parents[2] / "projects/yarn-twister/yarn-twister.yaml"
CHANGES = (
    ("region: europe", "region: north-america"),
    ("supply: 230 V 50 Hz, 16 A breaker, RCD type A, plug", "supply: 240 V 60 Hz, 15 A breaker, GFCI, plug, two-hot"),
    ("line_voltage: 230 V", "line_voltage: 240 V"),
    ("24.0 V 50 Hz, 1.58 A", "24.0 V 60 Hz, 1.35 A"),
    ("cord, 1.5 mm², 2.0 m, 16 A 250 V, bought", "cord, 14 AWG, 2.0 m, 15 A 250 V, bought"),
    ("5 kohm, linear, 2 W, 300 V", "5 kohm, linear, 2 W, 300 V"),
)


@pytest.fixture(scope="module")
def two_hot() -> Plan:
    text = TWISTER.read_text(encoding="utf-8")
    for old, new in CHANGES:
        assert old in text
        text = text.replace(old, new)
    return plan(read(text, "two-hot.yaml"))


def test_240_volts_with_two_hot_poles_is_for_building(two_hot: Plan) -> None:
    assert [finding.id for finding in two_hot.findings if finding.stops] == []
    assert two_hot.state == "for building"


def test_both_poles_are_fused_and_cut(two_hot: Plan) -> None:
    circuit = two_hot.circuit
    assert circuit is not None
    source, poles = circuit.source

    assert poles.live == poles.poles == ("L", "L2")
    assert sum(isinstance(part, Fuse) for part in circuit.devices["F1"].inside) == 2
    assert prove(circuit) == ()
    place = next(place for place in two_hot.design.places if place.id == "line-fuse")
    assert any(need.rating == "pieces" for need in place.needs)
    assert source.terminals == ("L", "L2", "PE")


def test_no_conductor_is_white_or_gray(two_hot: Plan) -> None:
    circuit = two_hot.circuit
    assert circuit is not None

    assert {"WH", "GY"} & {wire.colour for wire in circuit.wires} == set()
    assert {wire.colour for wire in circuit.wires if wire.role == "line-2"} == {"BK"}


def test_a_plug_that_may_be_turned_round_has_a_fuse_in_each_pole_and_keeps_its_neutral_blue() -> None:
    made = plan(load(TWISTER))
    circuit = made.circuit
    assert circuit is not None

    assert sum(isinstance(part, Fuse) for part in circuit.devices["F1"].inside) == 2
    assert prove(circuit, pole_may_swap=True) == ()
    assert {wire.colour for wire in circuit.wires if wire.role == "neutral"} == {"BU"}
    assert {wire.colour for wire in circuit.wires if wire.role == "protective"} == {"GNYE"}


def test_one_hot_pole_has_one_fuse() -> None:
    sander = plan(load(TWISTER.parents[1] / "strip-sander/strip-sander.yaml")).circuit
    assert sander is not None

    assert sum(isinstance(part, Fuse) for part in sander.devices["F1"].inside) == 1
