"""Single faults of the small circuit, each judged by hand from its drawing; and the larger ones where they differ."""

import pytest

from buildsheet.circuit import Link
from buildsheet.circuit.effects import Effect, effects
from buildsheet.circuit.faults import faults
from tests.circuit.machines import circuit
from tests.circuit.small import SMALL, with_device
from tests.demos import DEMOS

BY_WORDS = {effect.fault.words: effect for effect in effects(SMALL)}

# By hand, with the drawing of tests/circuit/small.py. A stuck pole of the contactor leaves the other pole to open.
HAND = {
    "Q1 1–2 stuck closed": ("disconnect fails",),
    "Q1 3–4 stuck closed": ("nothing yet",),
    "Q1 1–2 open": ("no pull-in",),
    "F1 1–2 blown": ("no pull-in",),
    "Q2 1–2 stuck closed": ("nothing yet",),
    "Q2 3–4 stuck closed": ("nothing yet",),
    "Q2 13–14 stuck closed": ("starts by itself",),
    "Q2 13–14 open": ("no hold",),
    "Q2 1–2 open": ("no turning",),
    "Q2 A1–A2 shorted": ("fuse blows",),
    "Q2 A1–A2 open": ("no pull-in",),
    "Q2 stuck in": ("starts by itself", "emergency stop fails"),
    "S1 11–12 open": ("no pull-in",),
    "S2 13–14 stuck closed": ("starts by itself",),
    "S2 13–14 open": ("no pull-in",),
    "wire 901 broken": ("frame unprotected",),
    "wire 902 broken": ("frame unprotected",),
    "wire 103 broken": ("no pull-in",),
    "wire 203 broken": ("no hold",),
    "wire 205 broken": ("no hold",),
    "wire 401 broken": ("no turning",),
}


@pytest.mark.parametrize(("words", "outcomes"), HAND.items(), ids=HAND)
def test_each_fault_of_the_small_circuit_does_what_its_drawing_says(words: str, outcomes: tuple[str, ...]) -> None:
    assert BY_WORDS[words].outcomes == outcomes


def test_a_contact_with_direct_opening_does_not_stay_closed() -> None:
    """IEC 60947-5-1, annex K, from memory: its actuator forces it open."""
    assert "S1 11–12 stuck closed" not in BY_WORDS
    plain = tuple(part.__class__(part.a, part.b, part.closed_in) for part in SMALL.devices["S1"].inside)  # type: ignore[union-attr,call-arg]
    weak = effects(with_device(SMALL, "S1", inside=plain))

    stuck = next(effect for effect in weak if effect.fault.words == "S1 11–12 stuck closed")
    assert stuck.outcomes == ("emergency stop fails",)
    assert stuck.stopped_by == ("disconnect",)


@pytest.mark.parametrize("name", DEMOS)
def test_every_part_and_wire_of_a_machine_fails_once(name: str) -> None:
    """Each wire is broken, each contact opens, each that is not forced open sticks, each coil's device sticks."""
    made = circuit(name)
    told = {fault.words for fault, _ in faults(made)}

    assert {f"wire {wire.number} broken" for wire in made.wires} <= told
    assert {f"{device.code} stuck in" for device in made.devices.values() if device.coil} <= told
    assert ("T1 shorted" in told) == ("T1" in made.devices)


@pytest.mark.parametrize("name", DEMOS)
def test_after_any_single_fault_something_still_stops_the_machine(name: str) -> None:
    """As the machine runs: stop, emergency stop, overload or disconnect."""
    helpless = [effect for effect in _told(name) if "emergency stop fails" in effect.outcomes and not effect.stopped_by]

    assert not helpless


def test_what_the_larger_machines_show() -> None:
    """By hand from their drawings: a one-pole contactor that welds defeats the emergency stop, a two-pole one does not; a
    changeover contact that sticks joins the drive's output through the heaters of the overload relay."""
    assert "emergency stop fails" in _of("wool-carder", "Q2 1–2 stuck closed").outcomes
    assert "emergency stop fails" not in _of("strip-sander", "Q2 1–2 stuck closed").outcomes
    assert _of("yarn-twister", "S5 1–2 stuck closed").outcomes == ("fuse blows",)
    assert "reverses without waiting" in _of("yarn-twister", "K1 15–16 stuck closed").outcomes
    assert "runs on the charger" in _of("wool-carder", "X4 11–12 stuck closed").outcomes
    assert "charged at once" in _of("wool-carder", "R1 1–2 shorted").outcomes
    assert "full speed" in _of("strip-sander", "T1 shorted").outcomes


def test_what_a_motor_on_the_line_shows() -> None:
    """By hand from the tumbler's drawing: an open capacitor or start winding leaves no turning field at start; a shorted capacitor
    puts the start winding on the whole line; a run winding that is shorted lies across the line."""
    assert _of("stone-tumbler", "C1 1–2 open").outcomes == ("no turning",)
    assert _of("stone-tumbler", "M1 Z1–Z2 open").outcomes == ("no turning",)
    assert _of("stone-tumbler", "wire 410 broken").outcomes == ("no turning",)
    assert "start winding burns" in _of("stone-tumbler", "C1 1–2 shorted").outcomes
    assert _of("stone-tumbler", "R2 1–2 open").outcomes == ("stays charged",)
    assert _of("stone-tumbler", "F3 95–96 stuck closed").outcomes == ("overload fails",)


def test_what_a_motor_behind_an_inverter_shows() -> None:
    """By hand from the clay mixer's drawing: two phases make no turning field, an open run input none; a shorted power device
    of an inverter is a short circuit and no full speed; with the knob's low end open it stops, as its file says."""
    for wire in (401, 402, 403, 504):
        assert _of("clay-mixer", f"wire {wire} broken").outcomes == ("no turning",)
    assert _of("clay-mixer", "T1 shorted").outcomes == ("fuse blows",)
    assert "full speed" not in {outcome for effect in effects(circuit("clay-mixer")) for outcome in effect.outcomes}


def test_what_a_field_of_its_own_shows() -> None:
    """By hand from the flax breaker's drawing: whatever opens the field's loop, or takes its bridge's supply away, lets the relay
    go, and start does nothing; a relay that sticks shows nothing, and the next break is overspeed; a field that is shorted past
    its resistor keeps the relay in; a bridge that is shorted blows its fuse."""
    for words in ("M1 E1–E2 open", "R4 1–2 open", "K3 A1–A2 open", "K3 13–14 open", "T3 open", "F7 1–2 blown", "F7 3–4 blown",
                  *(f"wire {number} broken" for number in (229, 601, 602, 603, 604, 611, 612, 613, 614))):  # fmt: skip
        assert _of("flax-breaker", words).outcomes == ("no pull-in",), words
    for words in ("K3 13–14 stuck closed", "K3 stuck in"):
        assert _of("flax-breaker", words).outcomes == ("field unwatched",)
    lost = _of("flax-breaker", "M1 E1–E2 shorted")
    assert lost.outcomes == ("field lost",)
    assert {"stop", "emergency-stop", "disconnect"} <= set(lost.stopped_by)
    assert _of("flax-breaker", "T3 shorted").outcomes == ("fuse blows",)
    others = {outcome for name in DEMOS if name != "flax-breaker" for effect in _told(name) for outcome in effect.outcomes}
    assert not {"field lost", "field unwatched"} & others


def _told(name: str) -> tuple[Effect, ...]:
    return effects(circuit(name), pole_may_swap=name == "yarn-twister")


def _of(name: str, words: str) -> Effect:
    return next(effect for effect in _told(name) if effect.fault.words == words)


def test_one_diode_alone_would_defeat_the_emergency_stop() -> None:
    """By hand on the wool carder: with its diodes shorted the contactor's coil is held from the far side of its own pole
    through the charging resistor and the timer, past the whole chain. So there are two in a row."""
    made = circuit("wool-carder")
    single = with_device(made, "V2", inside=(Link("A", "K"),))
    shorted = next(effect for effect in effects(single) if effect.fault.words == "V1 A–K shorted")

    assert "emergency stop fails" in shorted.outcomes
    assert "emergency stop fails" not in _of("wool-carder", "V1 A–K shorted").outcomes


def test_a_stop_that_springs_back_is_no_stop_when_start_is_stuck() -> None:
    """The hand leaves it, and the machine starts again, where a timer waits after its time; the emergency stop stays in."""
    assert "stop fails" in _of("yarn-twister", "S2 13–14 stuck closed").outcomes
    stuck = _of("strip-sander", "S2 13–14 stuck closed")

    assert "stop fails" in stuck.outcomes
    assert "emergency-stop" in stuck.stopped_by


@pytest.mark.parametrize(
    ("words", "outcome"),
    [("K2 15–18 open", "no pull-in"), ("wire 208 broken", "no pull-in"), ("Q2 A1–A2 open", "no pull-in"), ("wire 207 broken", "no hold"),
     ("Q2 1–2 open", "no turning"), ("wire 104 broken", "no turning"), ("F4 1–2 blown", "no charging"), ("wire 153 broken", "no charging")],
)  # fmt: skip
def test_what_is_seen_on_the_wool_carder(words: str, outcome: str) -> None:
    """By hand: what never lets the contactor in, what lets it fall, what leaves the motor to the charging resistor, whose
    tenth of an ampere turns nothing, and what keeps the charger from the battery."""
    assert outcome in _of("wool-carder", words).outcomes
