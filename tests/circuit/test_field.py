"""A coil in a row with a load, and the field that it watches: by hand from a small drawing, Ohm's law and nothing else.

L ─ Q1 ─ F1 ┬─ Q2:1/2 ─ T1 ─ M1:A1 A2 ─ T1          N ─ Q1 ┬─ Q2:3/4 ─ T1
            ├─ T3:~1    T3:+ ─ K3 coil ─ M1:E1 E2 ─ T3:−   ├─ T3:~2
            └─ S1 ─ K3:13/14 ─ S2 ∥ Q2:13/14 ─ Q2 coil ────┘
"""

from dataclasses import replace

import pytest

from buildsheet.circuit import Circuit, Contact, Device, Electronics, Winding
from buildsheet.circuit.contraction import all_positions, carries, fed
from buildsheet.circuit.proofs import prove
from buildsheet.circuit.sequence import runs, settle
from tests.circuit.small import SMALL, adding, terminal, wire, with_device, with_wire, without

DRIVE = ("L", "N", "A+", "A−")
MADE = (
    Device("T1", "drive", "Drive", "", DRIVE, (Electronics(DRIVE),), limits={"A+": 5.0, "A−": 5.0}),
    Device("T3", "field-supply", "Field bridge", "", ("~1", "~2", "+", "−"), (Electronics(("~1", "~2", "+", "−"), "rectifies"),), gives=("+", "−")),
    Device(
        "K3", "field-relay", "Field relay", "", ("13", "14", "A1", "A2"), (Contact("13", "14", frozenset({"in"})), Winding("A1", "A2", 1.0, 1.0, part="coil")),
        positions=("out", "in"), coil=("A1", "A2"), in_a_row=True,
    ),
    Device(
        "M1", "motor", "Motor", "", ("A1", "A2", "E1", "E2", "frame"), (Winding("A1", "A2", 1.0, 2.0), Winding("E1", "E2", 300.0, 400.0, part="field", apart=True)), metal="frame",
    ),
)  # fmt: skip


def _field() -> Circuit:
    made = replace(SMALL, devices={**SMALL.devices, **{device.code: device for device in MADE}})
    return adding(
        with_wire(without(made, 401, 402), 202, b=terminal("K3:13")),
        wire(210, "K3:14", "S2:13", "control"), wire(301, "Q2:2", "T1:L"), wire(302, "Q2:4", "T1:N", "neutral"), wire(401, "T1:A+", "M1:A1"), wire(402, "T1:A−", "M1:A2"),
        wire(603, "Q2:1", "T3:~1"), wire(604, "Q2:3", "T3:~2", "neutral"), wire(612, "T3:+", "K3:A1"), wire(613, "K3:A2", "M1:E1"), wire(614, "T3:−", "M1:E2"),
    )  # fmt: skip


FIELD = _field()
ON = {**FIELD.rest, "Q1": "on"}


def test_the_sound_circuit_breaks_nothing_and_runs_one_way() -> None:
    assert prove(FIELD) == ()
    assert [run.button for run in runs(FIELD)] == ["S2"]


def test_the_coil_is_fed_by_the_current_of_its_row_alone() -> None:
    """Off: no current. On: the field's. With any end of the loop off, or past the coil, none; and then no position of it is in."""
    relay = FIELD.devices["K3"]
    assert not fed(FIELD, relay, FIELD.rest)
    assert fed(FIELD, relay, ON)
    for number in (603, 604, 612, 613, 614):
        broken = without(FIELD, number)
        assert not fed(broken, relay, ON), number
        assert all(at["K3"] == "out" for at in all_positions(broken))
    assert not fed(adding(FIELD, wire(990, "K3:A1", "K3:A2", "field")), relay, ON)
    assert not fed(with_device(FIELD, "M1", inside=FIELD.devices["M1"].inside[:1]), relay, ON)
    assert not fed(with_device(FIELD, "T3", inside=()), relay, ON)


def test_volts_across_a_coil_in_a_row_do_not_pull_it_in() -> None:
    """Its two ends on the poles, as those of another coil: no current of a load passes it."""
    across = adding(without(FIELD, 612, 613), wire(991, "Q2:1", "K3:A1"), wire(992, "Q2:3", "K3:A2", "neutral"), wire(993, "T3:+", "M1:E1", "field"))

    assert not fed(across, FIELD.devices["K3"], ON)
    assert fed(across, replace(FIELD.devices["K3"], in_a_row=False), ON)


def test_what_opens_ahead_of_the_bridge_opens_no_direct_current() -> None:
    """The bridge's own diodes carry the field's current on: the disconnect needs no DC figure for it."""
    winding = FIELD.devices["M1"].inside[1]
    assert isinstance(winding, Winding)
    assert carries(FIELD, ON, "M1", winding)
    assert not carries(FIELD, FIELD.rest, "M1", winding)
    assert carries(FIELD, FIELD.rest, "M1", winding, behind_only=True)


def test_the_relay_is_in_before_start_and_lets_the_contactor_go() -> None:
    assert settle(FIELD, FIELD.rest | {"Q1": "on"})["K3"] == "in"
    running = next(iter(runs(FIELD))).positions
    assert (running["K3"], running["Q2"]) == ("in", "in")
    for number in (603, 604, 612, 613, 614):
        after = settle(without(FIELD, number), running)
        assert (after["K3"], after["Q2"]) == ("out", "out")


BROKEN = [
    ("its contact left out of the chain", "field", with_wire(without(FIELD, 210), 202, b=terminal("S2:13"))),
    ("its contact bridged", "field", adding(FIELD, wire(990, "K3:13", "K3:14", "control"))),
    ("it stays in by itself", "field", with_device(FIELD, "K3", lingers=True)),
    ("its contact is one that opens with it", "running", with_device(FIELD, "K3", inside=(Contact("13", "14", frozenset({"out"})), FIELD.devices["K3"].inside[1]))),
    ("the field's ends joined", "short circuit", adding(FIELD, wire(990, "M1:E1", "M1:E2", "field"))),
    ("the bridge's output joined", "short circuit", adding(FIELD, wire(990, "T3:+", "T3:−", "field"))),
    ("the field's loop joined to the armature", "emergency stop", adding(FIELD, wire(990, "M1:E1", "M1:A1", "field"))),
]


@pytest.mark.parametrize(("proof", "broken"), [case[1:] for case in BROKEN], ids=[case[0] for case in BROKEN])
def test_each_mistake_is_caught(proof: str, broken: Circuit) -> None:
    assert proof in {breach.proof for breach in prove(broken)}
