"""What the trade knows, said of whole machines. Each is common practice, no source; what else it rests on stands beside it."""

import pytest

from buildsheet.circuit import Circuit
from buildsheet.circuit.direction import turns
from buildsheet.circuit.proofs import prove
from buildsheet.circuit.sequence import runs
from buildsheet.formulas import motor, transformer, windings
from buildsheet.plan import Plan, plan
from buildsheet.project import read
from tests.circuit.machines import circuit
from tests.circuit.small import terminal, with_wire
from tests.demos import PROJECTS


def changed(name: str, *changes: tuple[str, str]) -> Plan:
    text = (PROJECTS / name / f"{name}.yaml").read_text(encoding="utf-8")
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    return plan(read(text, f"{name}.yaml"))


def told(made: Plan) -> dict[str, str]:
    return {finding.id: finding.do for finding in made.findings}


def swapped(one: Circuit, first: int, second: int, device: str) -> Circuit:
    """Two wires changed over at a device."""
    ends = {number: next(end for wire in one.wires if wire.number == number for end in (wire.a, wire.b) if end.device == device) for number in (first, second)}
    far = {number: next(end for wire in one.wires if wire.number == number for end in (wire.a, wire.b) if end.device != device) for number in (first, second)}
    moved = with_wire(one, first, a=far[first], b=ends[second])
    return with_wire(moved, second, a=far[second], b=ends[first])


def test_voltage_goes_with_turns() -> None:
    """120 V on 100 turns: 50 turns give 60 V."""
    each = windings.volts_per_turn(V_t=120.0, N=100.0, V_n=120.0, V_p=120.0)
    assert windings.open_voltage(N=50.0, v=each) == pytest.approx(60.0)


def test_a_24_volt_motor_on_a_full_12_volt_battery_runs_at_about_half_its_speed() -> None:
    assert motor.speed_share(E=24.0, E_1=13.0) == pytest.approx(0.5, abs=0.06)


def test_a_dial_marked_to_130_can_give_150_so_that_a_mark_is_no_limit() -> None:
    """At its end stop the whole winding lies a quarter above the line: 1.25 times 120 V."""
    assert transformer.end_stop_voltage(V_1=120.0, x=1.25, p=0.0) == pytest.approx(150.0)
    marked = changed("edge-burnisher", ("limited_by: mechanical stop", "limited_by: mark on the scale"))
    assert marked.stopped
    assert "limit-not-enforced" in told(marked)
    sizes = changed("edge-burnisher").design.sizes
    assert sizes is not None
    stop = next(one for one in sizes.outfit.settings if one.name == "Stop of the dial")
    assert any(isinstance(word, str) and "by the meter" in word for word in stop.to)


@pytest.mark.parametrize(("wires", "turned"), [((312, 313), False), ((401, 404), True)])
def test_the_ac_leads_of_a_bridge_may_be_swapped_and_its_dc_leads_set_the_direction(wires: tuple[int, int], turned: bool) -> None:
    one = circuit("ink-mixer")
    other = swapped(one, *wires, "T1")
    at = runs(one)[0].positions
    before, after = (turns(made, at, made.devices["M1"]) for made in (one, other))
    assert prove(other) == ()
    assert before != 0
    assert after == (-before if turned else before)


def test_a_15_ampere_bridge_of_a_vacuum_cleaner_is_fair_for_a_small_motor() -> None:
    made = changed("ink-mixer", ("bridge, 35 A 400 V, salvaged", "bridge, 15 A 400 V, salvaged"))
    seat = next(seat for seat in made.design.seats if seat.place.id == "bridge")
    assert seat.usable
    assert "diode range" in seat.place.proof


def test_a_cheap_speed_box_does_nothing_at_first() -> None:
    """The angle at which the standing motor begins is later than that of its slowest speed under load."""
    for name in ("seed-coater", "drum-polisher"):
        made = changed(name)
        low = made.design.point("low")
        assert low is not None
        assert float(made.design.sheet.values["begin.alpha"]) > float(low.setting), name


def test_a_console_s_transformer_gives_about_16_volts() -> None:
    made = changed("pulp-beater", ("speed_by: pulse source", "speed_by: console"), ("transformer: it had none", "transformer: kept"))
    assert made.design.sizes is not None
    assert "16 V" in made.design.sizes.outfit.texts["T3"]


@pytest.mark.parametrize("ohms", ["5 kohm", "10 kohm"])
def test_boards_want_5_or_10_kilohm_low_wiper_high(ohms: str) -> None:
    made = changed("grain-crusher", ("potentiometer: 10 kohm", f"potentiometer: {ohms}"))
    assert made.circuit is not None
    assert made.circuit.devices["T1"].control == ("P1", "P2", "P3")
    ends = {wire.number: {str(wire.a), str(wire.b)} for wire in made.circuit.wires if wire.number in (501, 502, 503)}
    assert ends == {501: {"T1:P1", "S4:1"}, 502: {"T1:P2", "S4:2"}, 503: {"T1:P3", "S4:3"}}
    assert "knob" not in {breach.proof for breach in prove(made.circuit)}


def test_a_kept_board_without_its_heat_sink_is_rated_lower_and_a_fan_is_shown_by_temperature() -> None:
    whole, bare, fan = (changed("grain-crusher", ("cooled_by: heat sink", f"cooled_by: {how}")) for how in ("heat sink", "nothing", "fan"))
    gives = [made.project.power.gives for made in (whole, bare)]  # type: ignore[union-attr]
    assert gives[0] is not None
    assert gives[1] is not None
    assert gives[1] < gives[0]
    assert "fan-for-heat-sink" not in told(whole)
    assert "80 °C" in told(fan)["fan-for-heat-sink"]


def test_the_pairs_of_a_reversing_switch_may_be_exchanged_and_it_stays_where_it_is_put() -> None:
    """Two leads to the motor, two to the drive."""
    one = circuit("yarn-twister")
    switch = one.devices["S5"]
    assert not switch.spring
    assert switch.coil is None
    names = {"1": "2", "2": "1", "3": "4", "4": "3"}
    other = one
    for wire in one.wires:
        for end in (wire.a, wire.b):
            if end.device == "S5" and end.name in names:
                far = wire.b if end == wire.a else wire.a
                other = with_wire(other, wire.number, a=far, b=terminal(f"S5:{names[end.name]}"))
    assert prove(other, pole_may_swap=True) == ()


def test_whether_a_capacitor_smooths_this_motor_is_answered_for_it() -> None:
    """Small or large: form factor with it and without, solved for this very motor, and what to do."""
    for farads in ("1500 µF", "10000 µF"):
        made = changed("edge-burnisher", ("  capacitor: 1500 µF", f"  capacitor: {farads}"))
        answer = next(finding for finding in made.findings if finding.id in ("capacitor-idle", "capacitor-needless", "capacitor-needed"))
        assert len(answer.found.values) >= 2
        assert answer.do
