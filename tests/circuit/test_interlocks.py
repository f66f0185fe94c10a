"""Machines that run both ways and machines on a battery: sound as they stand, and each fault is found.

Reversing by IEC 60204-1 9.3 (opposite motions interlocked) and the rule that a motor is not plugged by hand; order at a
battery by ABYC E-11, fuse within 7 in of the post (from memory); charging by common practice, no source.
"""

import pytest

from buildsheet.circuit import Circuit, Contact, Diode, Link, Terminal
from buildsheet.circuit.contraction import all_positions, fed, pulled_in, reached
from buildsheet.circuit.interlocks import INTERLOCKS
from buildsheet.circuit.proofs import protected_by, prove
from tests.circuit.machines import circuit
from tests.circuit.small import adding, terminal, wire, with_device, with_wire, without

TWISTER, CARDER = "yarn-twister", "wool-carder"


def _broken(made: Circuit, *, swap: bool = False) -> set[str]:
    return {breach.proof for breach in prove(made, pole_may_swap=swap)}


def test_the_sound_machines_break_nothing() -> None:
    assert prove(circuit(TWISTER), pole_may_swap=True) == ()
    assert prove(circuit(CARDER)) == ()


# --- reversing


def test_without_its_early_contact_the_contactor_stays_in() -> None:
    bridged = adding(circuit(TWISTER), wire(290, "S5:21", "S5:22", "control"))

    assert "reversal" in _broken(bridged)


def test_without_its_timer_nothing_makes_it_wait() -> None:
    """The timer's contact bridged: start pulls the contactor in at once."""
    bridged = adding(circuit(TWISTER), wire(290, "K1:15", "K1:16", "control"))
    found = [breach for breach in prove(bridged) if breach.proof == "reversal"]

    assert any("still waits" in breach.found for breach in found)


def test_a_timer_that_is_never_set_is_found() -> None:
    assert "reversal" in _broken(without(circuit(TWISTER), 215))


def test_a_timer_that_falls_with_its_coil_makes_nothing_wait() -> None:
    """An on-delay in its place: the contact closes again as soon as the contactor is out."""
    assert "reversal" in _broken(with_device(circuit(TWISTER), "K1", lingers=False))


def test_start_after_the_changeover_waits_for_the_timer() -> None:
    """Played through: running forward; lever to the middle; lever to reverse and start held while the timer still counts;
    start held when it has counted."""
    made = circuit(TWISTER)
    q2 = made.devices["Q2"]
    running = made.rest | {"Q1": "on", "S5": "forward", "Q2": "in", "K1": "timing"}
    assert fed(made, q2, running)
    assert fed(made, made.devices["K1"], running)
    for start in ("free", "pressed"):
        assert not fed(made, q2, running | {"S5": "off", "S2": start})
    waiting = made.rest | {"Q1": "on", "S5": "reverse", "S2": "pressed", "K1": "timing"}
    assert pulled_in(made, waiting)["Q2"] == "out"
    ready = waiting | {"K1": "ready"}
    assert pulled_in(made, ready)["Q2"] == "in"


def test_the_armature_is_turned_round() -> None:
    """Forward plus on A1, reverse plus on A2, nothing in the middle (motor reversed by its armature)."""
    made = circuit(TWISTER)
    on = made.rest | {"Q1": "on", "Q2": "in"}
    for lever, end in (("forward", "A1"), ("reverse", "A2")):
        nodes_of = {name: _same(made, on | {"S5": lever}, "S5:1", f"M1:{name}") for name in ("A1", "A2")}
        assert nodes_of == {"A1": end == "A1", "A2": end == "A2"}
    assert not _same(made, on, "S5:1", "M1:A1")
    assert not _same(made, on, "S5:1", "M1:A2")


def _same(made: Circuit, positions: dict[str, str], a: str, b: str) -> bool:
    from buildsheet.circuit.contraction import contract

    return contract(made, positions).same(terminal(a), terminal(b))


def test_a_changeover_that_joins_both_ways_at_once_is_a_short_for_nobody_but_is_not_possible() -> None:
    """Each power contact of the changeover closes in one direction only."""
    switch = circuit(TWISTER).devices["S5"]
    power = [part for part in switch.inside if isinstance(part, Contact) and part.a != "21"]

    assert len(power) == 4
    assert all(len(part.closed_in) == 1 for part in power)


# --- both poles


def test_both_poles_are_fused_where_the_plug_may_be_turned_round() -> None:
    """One fuse less: that pole stays live when the other fuse has blown, with the plug one of its two ways round."""
    made = circuit(TWISTER)
    fuse = made.devices["F1"]
    one = with_device(made, "F1", inside=(fuse.inside[0], Link("3", "4")))

    assert "order" in _broken(one, swap=True)


# --- battery


def test_the_fuse_comes_first_at_a_battery() -> None:
    """A branch before the fuse, and the fuse too far from the post."""
    assert "order" in _broken(adding(circuit(CARDER), wire(190, "X1:+", "S3:11", "control")))
    assert "conductor protection" in _broken(with_wire(circuit(CARDER), 101, length=0.5))


def test_what_protects_each_wire_at_a_battery() -> None:
    guards = protected_by(circuit(CARDER))

    assert guards[101][0] == "nothing"
    assert {guards[number][0] for number in (103, 104, 201, 301)} == {"F1"}
    assert guards[152][0] == "F4"
    # behind the chopper more current flows than the battery gives: its current limit is what holds it
    assert guards[403] == ("T1", pytest.approx(12.0, rel=0.01))


def test_a_blown_fuse_at_the_battery_leaves_nothing_live() -> None:
    made = circuit(CARDER)
    on = {code: device.positions[-1] for code, device in made.devices.items() if device.positions}
    found = reached(made, made.rest | on, Terminal("X1", "+"), blown=frozenset({"F1", "F4"}))

    assert {end.device for end in found} <= {"X1", "F1", "F4"}


def test_a_fuse_that_cannot_break_the_battery_is_found() -> None:
    assert "breaking capacity" in _broken(with_device(circuit(CARDER), "F1", interrupts=1000.0))


def test_the_charger_locks_the_machine_out() -> None:
    assert "charging" in _broken(adding(circuit(CARDER), wire(290, "X4:11", "X4:12", "control")))


def test_without_the_diode_the_drive_holds_its_own_contactor_in() -> None:
    """Pre-charge through a plain resistor: with start held and the emergency stop pressed the drive feeds the chain back
    through it."""
    made = circuit(CARDER)
    held = made.rest | {"Q1": "on", "K2": "through", "S2": "pressed", "S1": "pressed"}
    feed = Terminal("T1", "B+")  # its charged capacitor, with the contactor's poles left out of the path
    drive = frozenset({"T1"})
    assert Terminal("S2", "13") not in reached(made, held, feed, around=drive)
    one = with_device(made, "V1", inside=(Link("A", "K"),))
    bare = with_device(one, "V2", inside=(Link("A", "K"),))
    assert Terminal("S2", "13") not in reached(one, held, feed, around=drive)  # one of the two may fail
    assert Terminal("S2", "13") in reached(bare, held, feed, around=drive)


def test_the_contactor_waits_for_the_charge() -> None:
    """Start held feeds the timer and the resistor, not the coil; the coil follows when the timer has counted."""
    made = circuit(CARDER)
    held = made.rest | {"Q1": "on", "S2": "pressed"}
    assert not fed(made, made.devices["Q2"], held)
    assert fed(made, made.devices["K2"], held)
    assert fed(made, made.devices["Q2"], held | {"K2": "through"})
    assert Terminal("T1", "B+") in reached(made, held, Terminal("X1", "+"))
    assert Terminal("T1", "B+") not in reached(made, made.rest | {"Q1": "on"}, Terminal("X1", "+"))


@pytest.mark.parametrize("number", [220, 221, 222, 302])
def test_without_its_way_out_or_back_nothing_is_charged(number: int) -> None:
    """Each wire of the charging path, and the drive's own minus, which must not be cut by the contactor."""
    assert "pre-charge" in _broken(without(circuit(CARDER), number))


def test_the_charging_current_comes_back() -> None:
    """With start held and the contactor out, plus reaches one supply terminal of the drive and the other is on minus."""
    made = circuit(CARDER)
    held = made.rest | {"Q1": "on", "S2": "pressed"}
    assert _same(made, held, "T1:B−", "X1:−")
    assert not _same(made, held, "T1:B+", "X1:−")


def test_a_timer_that_is_set_by_start_itself_may_keep_the_contactor_out() -> None:
    """Its coil beside the contactor's: both are fed at once, and whichever is quicker wins."""
    made = circuit(TWISTER)
    moved = without(made, 215, 223)
    early = adding(moved, wire(290, "Q2:14", "K1:A1", "control"), wire(291, "K1:A2", "Q2:A2", "neutral"))
    found = [breach for breach in prove(early) if breach.proof == "reversal"]
    assert any("before Q2 is in" in breach.found for breach in found)


def test_a_diode_passes_one_way_from_a_battery() -> None:
    diode = circuit(CARDER).devices["V1"].inside[0]

    assert isinstance(diode, Diode)


def test_every_interlock_can_fail() -> None:
    faults = [
        adding(circuit(TWISTER), wire(290, "S5:21", "S5:22", "control")),
        adding(circuit(CARDER), wire(290, "X4:11", "X4:12", "control")),
        without(circuit(CARDER), 221),
    ]

    assert {proof for fault in faults for proof in _broken(fault)} >= set(INTERLOCKS)


@pytest.mark.parametrize("name", [TWISTER, CARDER])
def test_an_off_delay_may_stay_without_its_coil_and_nothing_else(name: str) -> None:
    """Among the positions that can happen."""
    made = circuit(name)
    for positions in all_positions(made):
        for device in made.devices.values():
            if device.coil and positions[device.code] != device.positions[0] and not device.lingers:
                assert fed(made, device, positions)
