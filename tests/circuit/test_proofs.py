"""Each proof broken once on a small circuit and on the demonstration machine's; the sound ones break none."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from buildsheet.circuit import Circuit, Link
from buildsheet.circuit.breach import Breach
from buildsheet.circuit.proofs import protected_by, prove
from tests.circuit.sander import sander
from tests.circuit.small import (
    SMALL,
    WALL_BREAKER,
    adding,
    fuse_first,
    terminal,
    welded,
    wire,
    with_device,
    with_wire,
    without,
)

CIRCUITS: dict[str, Callable[[], Circuit]] = {"small": lambda: SMALL, "sander": sander}
BOTH = pytest.mark.parametrize("which", CIRCUITS)
# The same wires have the same numbers in both circuits: 1xx line, 2xx control, 9xx protective.
FRAME_WIRE = {"small": 902, "sander": 905}
SPARE_SCREW = {"small": "X2:2", "sander": "X2:7"}
POWER_WIRE = {"small": 401, "sander": 301}


def _of(breaches: tuple[Breach, ...], proof: str) -> list[Breach]:
    return [breach for breach in breaches if breach.proof == proof]


def _broken(circuit: Circuit) -> set[str]:
    return {breach.proof for breach in prove(circuit)}


@BOTH
def test_the_sound_circuit_breaks_nothing(which: str) -> None:
    """Every proof, over every combination of positions."""
    assert prove(CIRCUITS[which]()) == ()


@BOTH
def test_poles_joined_behind_the_contactor_are_a_short_circuit(which: str) -> None:
    """L to N past the contactor: only while it is in."""
    breaches = _of(prove(adding(CIRCUITS[which](), wire(490, "Q2:2", "Q2:4"))), "short circuit")

    assert [str(end) for end in breaches[0].path] == ["X1:L", "X1:N"]
    assert dict(breaches[0].positions)["Q2"] == "in"
    assert dict(breaches[0].positions)["Q1"] == "on"


@BOTH
def test_neutral_on_the_bar_is_a_short_circuit_and_a_misuse(which: str) -> None:
    """The neutral on the protective bar behind the disconnect: joined with earth, and the bar is used for current."""
    broken = prove(adding(CIRCUITS[which](), wire(490, "Q1:4", SPARE_SCREW[which], "neutral")))

    assert _of(broken, "short circuit")[0].found == "X1:N and X1:PE are joined without a load between them"
    assert "wire 490 uses the protective conductor for something else" in [
        one.found for one in _of(broken, "protective conductor")
    ]


@BOTH
def test_a_bypassed_disconnect_isolates_nothing(which: str) -> None:
    """A wire over its live pole."""
    breaches = _of(prove(adding(CIRCUITS[which](), wire(490, "Q1:1", "Q1:2"))), "isolation")

    assert breaches[0].found == "F1:1 is live though the disconnect is off"
    assert dict(breaches[0].positions)["Q1"] == "off"
    assert str(breaches[0].path[0]) == "X1:L"


@BOTH
def test_a_disconnect_that_leaves_the_other_pole_matters_where_plugs_turn(which: str) -> None:
    """A wire over the neutral pole: no matter on a polarised plug, a breach where the plug goes in either way round."""
    bypassed = adding(CIRCUITS[which](), wire(490, "Q1:3", "Q1:4"))

    assert not _of(prove(bypassed), "isolation")
    assert _of(prove(bypassed, pole_may_swap=True), "isolation")


@BOTH
def test_a_bypassed_emergency_stop_is_found(which: str) -> None:
    """A wire over its contact: the contactor stays in with the button pressed."""
    breaches = _of(prove(adding(CIRCUITS[which](), wire(290, "S1:11", "S1:12"))), "emergency stop")

    assert breaches[0].found.endswith("is still live with S1 pressed")
    assert dict(breaches[0].positions)["S1"] == "pressed"
    assert dict(breaches[0].positions)["Q2"] == "in"


@BOTH
def test_fuse_before_the_disconnect_is_the_wrong_order(which: str) -> None:
    """So that a fuse would be changed live, and stays live with the disconnect off."""
    broken = prove(fuse_first(CIRCUITS[which]()))

    assert _of(broken, "order")[0].found == "F1:1 comes before the disconnect"
    assert _of(broken, "isolation")


@BOTH
def test_a_branch_before_the_fuse_is_the_wrong_order(which: str) -> None:
    """The chain fed from in front of the fuse: live when the fuse has blown."""
    circuit = CIRCUITS[which]()
    breaches = _of(prove(with_wire(circuit, 201, a=terminal("F1:1"))), "order")

    assert breaches[0].found == "S1:11 stays live when the line fuse has blown"


@BOTH
def test_a_wire_thinner_than_its_fuse_is_found(which: str) -> None:
    """Just enough is enough; a hair less is a breach that names the fuse."""
    circuit = CIRCUITS[which]()
    rating = circuit.devices["F1"].trips_at
    assert rating is not None

    assert not _of(prove(with_wire(circuit, 104, ampacity=rating)), "conductor protection")
    breaches = _of(prove(with_wire(circuit, 104, ampacity=rating * 0.99)), "conductor protection")
    assert "its protection F1 lets" in breaches[0].found
    assert [str(one) for one in breaches[0].path] == ["F1:2", "Q2:1"]


@BOTH
def test_the_cord_is_protected_by_the_wall_breaker_alone(which: str) -> None:
    """A fuse in the machine is no protection for what lies before it; both conductors of the cord count."""
    circuit = CIRCUITS[which]()
    for number in (101, 102):
        breaches = _of(prove(with_wire(circuit, number, ampacity=WALL_BREAKER - 0.1)), "conductor protection")
        assert "its protection wall breaker lets 15 A flow" in breaches[0].found
    assert not _of(prove(with_wire(circuit, 101, ampacity=WALL_BREAKER)), "conductor protection")


def test_what_protects_each_wire_of_the_small_circuit() -> None:
    """By hand: cord and the entry to the fuse by the wall breaker, the rest by the 8 A fuse; protective wires by none."""
    guards = protected_by(SMALL)

    assert {number: guards[number] for number in (101, 102, 103)} == dict.fromkeys(
        (101, 102, 103), ("wall breaker", 15.0)
    )
    assert {guards[number] for number in (104, 105, 201, 202, 203, 204, 205, 206, 401, 402)} == {("F1", 8.0)}
    assert not {901, 902} & set(guards)


@BOTH
def test_a_fuse_that_cannot_break_the_fault_current_is_found(which: str) -> None:
    """At the fault current it may stay, below it or unknown it may not."""
    circuit = CIRCUITS[which]()
    fault = circuit.fault_current

    assert not _of(prove(with_device(circuit, "F1", interrupts=fault)), "breaking capacity")
    low = _of(prove(with_device(circuit, "F1", interrupts=fault - 1)), "breaking capacity")
    unknown = _of(prove(with_device(circuit, "F1", interrupts=None)), "breaking capacity")
    assert low[0].found.startswith("F1 breaks ")
    assert unknown[0].found.startswith("F1 breaks an unknown current")


@BOTH
def test_a_motor_without_its_protective_wire_is_found(which: str) -> None:
    circuit = without(CIRCUITS[which](), FRAME_WIRE[which])

    assert [one.found for one in _of(prove(circuit), "protective conductor")] == [
        "M1:frame, a metal part that can be touched, reaches no protective conductor"
    ]


@BOTH
def test_a_cut_earth_of_the_cord_leaves_every_metal_part_bare(which: str) -> None:
    circuit = CIRCUITS[which]()
    metal = [device.code for device in circuit.devices.values() if device.metal]
    breaches = _of(prove(without(circuit, 901)), "protective conductor")

    assert {breach.path[0].device for breach in breaches} == set(metal)


@BOTH
def test_a_frame_earthed_through_another_part_is_not_earthed(which: str) -> None:
    """Only wires of the role and bars count: a frame joined through a device's inside may be taken away with it."""
    circuit = with_wire(CIRCUITS[which](), FRAME_WIRE[which], role="control")

    assert "M1:frame, a metal part that can be touched, reaches no protective conductor" in [
        one.found for one in _of(prove(circuit), "protective conductor")
    ]


@BOTH
def test_too_many_and_too_few_wires_at_a_terminal_are_found(which: str) -> None:
    """Two unless the part says otherwise; a terminal left open is named too."""
    circuit = CIRCUITS[which]()
    crowded = _of(prove(adding(circuit, wire(290, "Q2:A1", "S1:12", "control"))), "terminals")
    bare = _of(prove(without(circuit, 104)), "terminals")

    assert "Q2:A1 holds 3 wires and takes 2" in [one.found for one in crowded]
    assert "Q2:1 is left open" in [one.found for one in bare]


@BOTH
def test_a_welded_contactor_restarts_by_itself(which: str) -> None:
    breaches = _of(prove(welded(CIRCUITS[which]())), "restart")

    assert breaches[0].found.endswith("is live by itself when power returns")


@BOTH
def test_a_bridged_holding_contact_restarts_by_itself(which: str) -> None:
    """No motor circuit is live at the first instant: the coil is fed at once and pulls in."""
    assert _of(prove(adding(CIRCUITS[which](), wire(290, "Q2:13", "Q2:14", "control"))), "restart")


@BOTH
def test_a_start_switch_that_stays_in_restarts_by_itself(which: str) -> None:
    """A switch in the place of the start button."""
    assert _of(prove(with_device(CIRCUITS[which](), "S2", spring=False)), "restart")


@BOTH
def test_a_contactor_without_coil_restarts_by_itself(which: str) -> None:
    """A plain two-position switch in its place is in when the power returns."""
    assert _of(prove(with_device(CIRCUITS[which](), "Q2", coil=None)), "restart")


@BOTH
def test_a_breach_is_told_once(which: str) -> None:
    """Over all the positions in which it holds."""
    breaches = prove(adding(CIRCUITS[which](), wire(490, "Q2:2", "Q2:4")))

    assert len({(breach.proof, breach.path) for breach in breaches}) == len(breaches)


@BOTH
def test_two_poles_that_are_live_are_both_proven(which: str) -> None:
    """A source with two live poles: a two-pole switch isolates it, but one fuse is not enough, and thin wires on the
    unfused pole have the wall breaker alone."""
    circuit = CIRCUITS[which]()
    source, poles = circuit.source
    both = with_device(circuit, "X1", inside=(replace(poles, live=("L", "N")),))

    assert source.code == "X1"
    assert "order" in _broken(both)
    assert _broken(both) <= {"order", "conductor protection"}


def test_a_link_is_no_switch() -> None:
    """A disconnect with one pole linked through keeps its far side live."""
    linked = with_device(SMALL, "Q1", inside=(Link("1", "2"), *SMALL.devices["Q1"].inside[1:]))

    assert "isolation" in _broken(linked)
