"""What a helper meets at the bench: first power reading by reading, cables as cables, holes to drill, what a stop withholds."""

import re
from dataclasses import replace
from functools import cache
from html import unescape
from pathlib import Path

import pytest

from buildsheet.circuit.netlist import Circuit
from buildsheet.packet.html import html
from buildsheet.packet.ink import Ink
from buildsheet.packet.views import checks, drill, insulation, parts, power, wires, wiring_steps
from buildsheet.packet.views.steps import PartHead, StepItem
from buildsheet.plan import Plan, plan
from buildsheet.plan.cuts import cables, on_a_plug
from buildsheet.project import read
from buildsheet.reference import table
from buildsheet.units import SHARE
from buildsheet.worksheet import Input, Value

ROOT = Path(__file__).resolve().parents[2]
SANDER = (ROOT / "projects/strip-sander/strip-sander.yaml").read_text(encoding="utf-8")
CARDER = (ROOT / "projects/wool-carder/wool-carder.yaml").read_text(encoding="utf-8")
TWISTER = (ROOT / "projects/yarn-twister/yarn-twister.yaml").read_text(encoding="utf-8")
INK = Ink()


@cache
def made(text: str) -> Plan:
    return plan(read(text, "p.yaml"))


def edited(old: str, new: str, text: str = SANDER) -> Plan:
    assert old in text
    return made(text.replace(old, new))


def circuit_of(one: Plan) -> Circuit:
    assert one.circuit is not None
    return one.circuit


def power_steps(one: Plan) -> list[StepItem]:
    return [item for item in power.items(one, INK) if isinstance(item, StepItem)]


def words(one: Plan) -> str:
    """Every sheet without its markup."""
    bare = re.sub(r"<[^>]+>", " ", re.sub(r"<style>.*?</style>", "", html(one), flags=re.DOTALL))
    return re.sub(r"\s+", " ", unescape(bare))


# --- first power ---------------------------------------------------------------------------------


def test_each_reading_stands_in_the_step_that_takes_it() -> None:
    """What there is to prove at first power: supply, output at both ends of the knob, free, loaded, time to standstill."""
    taken = [(step.number, reading.what) for step in power_steps(made(SANDER)) for reading in step.readings]
    assert [what for _, what in taken] == [
        "supply", "drive's output", "output, knob at slow", "output, knob at fast", "motor running free", "tool, knob at slow",
        "tool, knob at fast", "time to standstill", "motor, average", "motor, true RMS", "supply, true RMS",
    ]  # fmt: skip
    assert all(reading.want and reading.unit for step in power_steps(made(SANDER)) for reading in step.readings)
    assert len({number for number, _ in taken}) >= 8  # not one block


@pytest.mark.parametrize("text", [SANDER, CARDER, TWISTER], ids=["plug", "battery", "reversing"])
def test_readings_before_the_load_come_before_the_belt_goes_on(text: str) -> None:
    items = list(power.items(made(text), INK))
    load = next(i for i, item in enumerate(items) if isinstance(item, PartHead) and item.label == "Load")
    belt = next(i for i, item in enumerate(items) if isinstance(item, StepItem) and item.action.startswith("Lay the belt on"))
    guards = next(i for i, item in enumerate(items) if isinstance(item, StepItem) and item.action.startswith("Put all guards"))
    loaded = [i for i, item in enumerate(items) if isinstance(item, StepItem) and any(r.what.startswith(("tool", "time", "motor, ")) for r in item.readings)]
    assert load < belt < guards < min(loaded)


def test_what_start_does_depends_on_the_drive() -> None:
    """A drive that waits for its knob stands still at first, another runs up at once, an unknown one may do either."""
    waits = {step.right_when for step in power_steps(made(SANDER))}
    runs = {step.right_when for step in power_steps(edited("starts_from_zero: true", "starts_from_zero: false"))}
    unknown = {step.right_when for step in power_steps(edited("  starts_from_zero: true\n", ""))}
    assert any("waits for its knob to be at slow" in said for said in waits)
    assert any("does not wait for its knob" in said for said in runs)
    assert not any("stands still until" in said for said in runs)
    assert any("does not say whether" in said for said in unknown)


@pytest.mark.parametrize(
    ("skill", "said"),
    [("skilled", "For the skilled person"), ("instructed", "who wired it is instructed"), ("lay", "not for the lay person")],
)
def test_who_does_first_power_agrees_with_the_file(skill: str, said: str) -> None:
    assert said in power.purpose(edited("skill: instructed", f"skill: {skill}"))


def test_separated_controls_are_nowhere_said_to_be_at_line_voltage() -> None:
    live, separated = made(SANDER), edited("separation: none", "separation: galvanic")
    at_line = re.compile(r"(?i)knob at line voltage|knob['’]s wires too|insulating bush|not separated")
    assert at_line.search(words(live))
    assert not at_line.search(words(separated))
    assert "live at line voltage" in words(separated)  # from the plug to the motor all the same


def test_a_machine_on_a_battery_has_no_plug_and_no_outlet_on_sheet_9() -> None:
    said = " ".join(f"{step.action} {step.right_when}" for step in power_steps(made(CARDER)))
    assert "outlet" not in said
    assert "plug" not in said.lower()
    assert "battery fuse out" in power.purpose(made(CARDER))


# --- tools and the insulation test -----------------------------------------------------------------


def test_an_instrument_is_listed_only_when_something_is_read_with_it() -> None:
    def listed(one: Plan) -> str:
        return " ".join(parts.tools(one, INK))

    alone = made("buildsheet: 1\nmotor: {kind: magnet-dc, plate: '90 V, 5.0 A, 1725 rpm, 0.5 hp'}\n")
    for word in ("clamp meter", "outlet tester", "insulation tester", "tachometer", "stopwatch"):
        assert word in listed(made(SANDER)), word
        assert word not in listed(alone), word
    assert "outlet tester" not in listed(made(CARDER))
    assert "insulation tester" not in listed(made(CARDER))


def test_the_insulation_test_names_switches_and_the_wires_that_are_off() -> None:
    """No test voltage for electronics or fan: every wire on them is off. IEC 60204-1, 18.3."""
    circuit, test = circuit_of(made(SANDER)), insulation.insulation(made(SANDER))
    assert test is not None
    assert test.switches == "Q1 on, Q2 pushed in, F3 set, S1 out"
    on_board = {w.number for w in circuit.wires if {"T1", "M2"} & {w.a.device, w.b.device} and w.role != "protective"}
    named = {n for run in test.off.split(", ") for n in range(int(run.split("–")[0]), int(run.split("–")[-1]) + 1)}
    assert named == on_board
    assert [joined for joined, _ in test.pairs] == ["plug L and plug N", "wires 401, 404", "wires 501–503"]
    assert "Not the helper's to do" in words(made(SANDER))
    assert insulation.insulation(made(CARDER)) is None


# --- cables ----------------------------------------------------------------------------------------


def test_a_cable_is_bought_and_cut_as_one_piece() -> None:
    one = made(SANDER)
    assert {cut.cable: (cut.cores, len(cut.colours), cut.pieces[0][0]) for cut in one.cuts if cut.cable} == {
        "W2": (((3, "16 AWG"),), 3, 1),
        "W3": (((3, "14 AWG"),), 3, 1),
    }
    cores = {wire.number for wire in circuit_of(one).wires if wire.cable}
    singles = sum(count for cut in one.cuts if not cut.cable for count, _ in cut.pieces)
    assert singles == len(circuit_of(one).wires) - len(cores)
    w3 = next(row for row in wires.cuts(one, INK) if row[0] == "cable W3")
    assert "3 × 14 AWG" in w3
    assert any("Flexible cable W3" in str(row[1]) for row in parts.wire_buys(one, INK))


def test_the_cord_is_whatever_cable_ends_at_the_plug() -> None:
    """Its name plays no part."""
    circuit = circuit_of(made(SANDER))
    renamed = replace(circuit, wires=tuple(replace(w, cable="W9") if w.cable == "W1" else w for w in circuit.wires))
    assert {w.number for w in renamed.wires if on_a_plug(w, renamed)} == {101, 102, 901}
    assert not any(on_a_plug(w, circuit_of(made(CARDER))) for w in circuit_of(made(CARDER)).wires)


@pytest.mark.parametrize("text", [SANDER, CARDER, TWISTER], ids=["plug", "battery", "reversing"])
def test_every_end_is_counted_once_but_those_in_the_plug(text: str) -> None:
    circuit = circuit_of(made(text))
    moulded = sum(1 for w in circuit.wires if on_a_plug(w, circuit))
    count = parts.ends(circuit)
    assert count.screws + count.studs + count.lugs == 2 * len(circuit.wires) - moulded
    assert count.lugs == 3
    posts = sum(circuit.devices[end.device].kind == "battery" for w in circuit.wires for end in (w.a, w.b))  # ring lugs too
    assert count.studs == posts + sum(1 for w in circuit.wires if w.role == "protective" and circuit.devices[w.b.device].metal == w.b.name)


def steps_of(one: Plan) -> list[StepItem]:
    return [item for item in wiring_steps.items(one, INK) if isinstance(item, StepItem)]


def test_a_cable_is_led_in_before_its_cores_and_its_protective_conductor_is_first() -> None:
    made_steps = steps_of(made(SANDER))
    led = next(i for i, s in enumerate(made_steps) if s.action.startswith("Lead cable W3 through its strain relief"))
    at = {wire.number: i for i, s in enumerate(made_steps) for wire in s.wires}
    assert led < at["905"] < min(at["403"], at["404"])
    assert cables(circuit_of(made(SANDER)))["W3"][0].role == "protective"


@pytest.mark.parametrize("text", [SANDER, CARDER, TWISTER], ids=["plug", "battery", "reversing"])
def test_every_wire_has_its_step_and_the_source_comes_last(text: str) -> None:
    circuit = circuit_of(made(text))
    order = [int(wire.number) for s in steps_of(made(text)) for wire in s.wires]
    assert sorted(order) == [wire.number for wire in circuit.wires]
    source = circuit.source[0].code
    touching = {w.number for w in circuit.wires if source in (w.a.device, w.b.device)}
    assert set(order[-len(touching) :]) == touching


def test_motor_and_guard_are_mounted_before_any_wire() -> None:
    made_steps = steps_of(made(SANDER))
    first_wire = next(i for i, s in enumerate(made_steps) if s.wires)
    before = " ".join(s.action for s in made_steps[:first_wire])
    assert "Bolt the motor" in before
    assert "Fit the guard" in before


def test_a_disconnect_on_the_door_gets_its_two_wires_by_a_loop() -> None:
    said = [f"{s.action} {s.right_when}" for s in steps_of(made(SANDER))]
    assert any("Q1), switched off, with a loop at the hinge" in one for one in said)
    assert not any("longest of the three" in one for one in said)


# --- labels and holes ------------------------------------------------------------------------------


def test_the_motor_fuse_carries_its_dc_rating_on_label_and_plate() -> None:
    """A fuse without a DC figure may not clear a DC arc; what replaces it is chosen by the label."""
    text = words(made(SANDER)).replace("\u202f", " ")
    label = re.search(r"F2\s+Motor fuse\s+8 A, at least (\d+) V DC", text)
    plate = re.search(r"8 A, ≥ (\d+) V DC\s+Fuse F2", text)
    assert label
    assert plate
    peak = 132 * 2**0.5  # line at the top of its tolerance, 120 V + 10 %
    assert float(label[1]) == pytest.approx(peak, rel=0.01)
    assert float(plate[1]) == pytest.approx(peak, rel=0.01)
    assert "The motor runs this way" in text


@pytest.mark.parametrize("text", [SANDER, CARDER, TWISTER], ids=["plug", "battery", "reversing"])
def test_every_control_of_the_door_has_one_hole_on_the_door(text: str) -> None:
    one = made(text)
    box, circuit = one.project.box, circuit_of(one)
    assert box is not None
    holes = drill.door_holes(circuit, box.width, box.height)
    assert sorted(hole.code for hole in holes) == sorted(d.code for d in circuit.devices.values() if d.place == "panel")
    assert all(0 < float(hole.x) < float(box.width) and 0 < float(hole.y) < float(box.height) for hole in holes)
    lowest = max(holes, key=lambda hole: float(hole.y))
    assert circuit.devices[lowest.code].kind == "emergency-stop"
    assert [hole.code for hole in holes if float(hole.y) == float(lowest.y)] == [lowest.code]


def test_holes_are_those_of_the_standards_class() -> None:
    """IEC 60947-5-1: 22.3 mm in the 22 mm class (from memory); M20 through-hole 20.5 mm, a maker's table of gland threads."""
    holes = table("hole_sizes")
    for kind in ("emergency-stop", "start", "stop"):
        assert holes.cell(kind, "hole").si == pytest.approx(0.0223)
    assert holes.cell("cable gland", "hole").si == pytest.approx(0.0205)
    assert holes.source.read_from in ("memory", "practice")
    assert str(holes.source) in words(made(SANDER))


def test_a_small_door_says_which_controls_stand_too_close() -> None:
    """The table asks for 50 mm between two controls."""
    assert drill.drill(made(SANDER), INK).remark == ""  # type: ignore[union-attr]
    small = edited("box: 400 x 400 x 200 mm", "box: 180 x 180 x 200 mm")
    box = small.project.box
    assert box is not None
    spacing = Value(0.050, id="s", unit=box.width.unit, parent=Input("f", 1, 1, "s", "50 mm"))
    assert "nearer than 50" in drill.too_close(drill.door_holes(circuit_of(small), box.width, box.height), spacing, INK)


@pytest.mark.parametrize(("width", "height", "scale"), [(0.08, 0.1, 1), (0.15, 0.15, 2), (0.4, 0.4, 5), (0.4, 0.8, 10), (1.2, 1.0, 20)])
def test_the_drawing_has_a_scale_of_the_standard(width: float, height: float, scale: int) -> None:
    """Reductions of ISO 5455: 1:2, 1:5, 1:10, 1:20 (from memory)."""
    unit = table("bench_limits").cell("control spacing", "value").unit
    sides = [Value(side, id="v", unit=unit, parent=Input("f", 1, 1, "v", "")) for side in (width, height)]
    assert drill.scale_for(*sides) == scale


# --- sums and stops --------------------------------------------------------------------------------


def test_a_factor_prints_as_the_equation_takes_it() -> None:
    for text, value in (("80 %", 0.8), ("100 %", 1.0), ("115 %", 1.15)):
        share = Value(value, id="k", unit=SHARE, parent=Input("f", 1, 1, "k", text))
        assert str(INK.factor(share)) == f"{value:g}"
        assert str(INK.print(share)).replace("\u202f", " ") == text


def test_a_stop_withholds_every_size_that_one_could_build_from() -> None:
    """Law 8: with a stop, no sheet shows what to buy or set."""
    stopped = edited("double_insulated: false", "double_insulated: true")
    assert stopped.stopped
    text = words(stopped).replace("\u202f", " ")
    assert "Line fuse F1" in words(made(SANDER))
    assert "Line fuse F1" not in text
    assert "8 A, time-lag" not in text
    assert "Overload relay F3, dial" in words(made(SANDER))
    assert "Overload relay F3, dial" not in text


def test_no_wire_end_is_forgotten_by_the_readings_of_a_battery() -> None:
    """A machine without a plug is read at its disconnect: nothing of a plug or of earth is asked for."""
    rows = [row for group in checks.groups(made(CARDER), INK) for row in group.rows]
    assert rows
    assert not any("plug" in row.red + row.black or "pin" in row.red + row.black for row in rows)
    chain = next(group for group in checks.groups(made(TWISTER), INK) if group.name == "Release chain")
    assert any("S5 at 0" in row.hands and row.want == "OL" for row in chain.rows)


def test_a_wire_of_a_reversing_switch_left_off_changes_a_reading() -> None:
    one = made(TWISTER)
    circuit = circuit_of(one)
    wants = [row.want for group in checks.groups(one, INK) for row in group.rows]
    for number in (403, 404, 407, 211):
        without = replace(circuit, wires=tuple(w for w in circuit.wires if w.number != number))
        assert [row.want for group in checks.all_groups(circuit, "earth", without) for row in group.rows] != wants, number


# --- the battery goes on last, and the charger's fuse last of all ------------------------------------


def test_at_the_battery_minus_goes_on_before_plus() -> None:
    """Common practice on batteries: the grounded or minus lead first, the live post last, so that a spanner that slips
    meets no finished circuit; sheet 2 says the same."""
    made_plan = made(CARDER)
    laid = [line for item in wiring_steps.items(made_plan, INK) if isinstance(item, StepItem) for line in item.wires]
    ends = [end for line in laid for end in (line.end1, line.end2) if end.startswith("X1 ")]
    assert [end[-1] for end in ends] == ["−", "−", "+", "+"]


def test_the_disconnect_of_a_battery_carries_what_its_fuse_lets_through() -> None:
    """Common practice: a switch is at least as large as the fuse before it."""
    sizes = made(CARDER).design.sizes
    assert sizes is not None
    assert float(sizes.contactor) >= float(sizes.line_fuse)
    assert float(sizes.disconnect) >= float(sizes.line_fuse)


def test_the_chargers_fuse_goes_in_at_the_very_end_and_none_is_far_under_the_slowest_output() -> None:
    listed = power_steps(made(CARDER))
    fitted = [number for number, step in enumerate(listed) if "F4" in step.action]
    assert fitted[-1] == len(listed) - 2
    none = next(t for step in listed for t in step.readings if t.want.startswith("none"))
    assert none.want == "none: under 5\u202fV"
