"""What a builder adds: wired, bonded, summed up and proved like the rest; screws by their own names."""

import re
from dataclasses import replace
from pathlib import Path

import pytest

from buildsheet.circuit import Circuit
from buildsheet.circuit.proofs import prove
from buildsheet.given.problems import ProjectError
from buildsheet.packet.html import html
from buildsheet.packet.ink import Ink
from buildsheet.packet.views.drill import drill
from buildsheet.plan import Plan, plan
from buildsheet.project import read

SANDER = (Path(__file__).resolve().parents[2] / "projects/strip-sander/strip-sander.yaml").read_text(encoding="utf-8")
LAMP = "extras:\n  - {what: lamp, name: Work lamp, voltage: 120 V, power: 9 W, on: with the disconnect, body: metal}\n"
DISPLAY = "extras:\n  - speed display, 120 V, 3 W, with the disconnect, plastic\n"
SHORT = "extras:\n  - indicator, 120 V, 1 W, while it runs, plastic\n"


def made(more: str) -> Plan:
    return plan(read(SANDER + more, "strip-sander.yaml"))


def circuit(more: str) -> Circuit:
    found = made(more).circuit
    assert found is not None
    return found


@pytest.mark.parametrize("more", [LAMP, SHORT, LAMP + SHORT.removeprefix("extras:\n"), "extras:\n  - fan, 120 V, 14 W, metal\n", DISPLAY])
def test_a_machine_with_extras_is_as_sound_as_without(more: str) -> None:
    assert prove(circuit(more)) == ()
    assert made(more).state == "for building"


def test_a_lamp_lies_behind_the_line_fuse_and_before_the_contactor() -> None:
    """By hand: its two screws are one node with the two supply screws of the contactor."""
    found = circuit(LAMP)
    lamp = {str(wire.b): str(wire.a) for wire in found.wires if wire.number in (161, 162)}

    assert set(lamp) == {"E1:1", "E1:2"}
    assert lamp["E1:1"] in {"F1:2", "Q2:1", "S1:11"}
    assert lamp["E1:2"] in {"Q1:4", "Q2:3", "Q2:A2"}
    assert any(str(wire.b) == "E1:frame" and wire.role == "protective" for wire in found.wires)


def test_a_speed_display_is_an_instrument_in_the_door() -> None:
    """IEC 81346-2: P is for what shows information. It is fed beside the contactor, and no meter reads it."""
    found = circuit(DISPLAY)
    display = found.devices["P1"]
    assert (display.kind, display.place) == ("meter", "panel")
    assert {str(wire.a).partition(":")[0] for wire in found.wires if wire.b.device == "P1"} <= {"F1", "Q1", "Q2", "S1"}


def test_its_current_counts_for_the_supply() -> None:
    """9 W at 120 V is 75 mA, and is added to the line's current."""
    sheet, plain = made(LAMP).design.sheet.values, made("").design.sheet.values

    assert sheet["extra1.I"] == pytest.approx(9 / 120)
    assert sheet["line.I"] == pytest.approx(plain["line.I"] + 9 / 120)


def test_a_wrong_voltage_and_a_battery_are_stops() -> None:
    wrong = made(LAMP.replace("120 V", "24 V"))
    carder = (Path(__file__).resolve().parents[2] / "projects/wool-carder/wool-carder.yaml").read_text(encoding="utf-8")
    battery = plan(read(carder + "extras:\n  - lamp, 24 V, 9 W\n", "wool-carder.yaml"))

    assert any(finding.id == "extra-voltage-1" and finding.stops for finding in wrong.findings)
    assert any(finding.id == "extra-battery-1" and finding.stops for finding in battery.findings)


def test_a_screw_goes_by_the_name_on_the_part_everywhere() -> None:
    found = circuit("names:\n  - {device: T1, terminal: A+, name: MOT+}\n")
    drive = found.devices["T1"]

    assert "MOT+" in drive.terminals
    assert "A+" not in drive.terminals
    assert "MOT+" in drive.limits
    assert {str(end) for wire in found.wires for end in (wire.a, wire.b)} & {"T1:MOT+"}
    assert prove(found) == ()


@pytest.mark.parametrize("more", ["names:\n  - {device: T9, terminal: A+, name: X}\n", "names:\n  - {device: T1, terminal: Z, name: X}\n", "names:\n  - {device: T1, terminal: L, name: N}\n"])
def test_a_name_for_nothing_is_told(more: str) -> None:
    assert any(finding.id == "name-of-nothing-1" for finding in made(more).findings)


def test_a_packet_with_an_indicator_has_its_hole() -> None:
    """It sits in the door like a button."""
    assert drill(made(SHORT), Ink()) is not None


MOVABLE = "  movable_metal: [{part: belt cover, joint: hinged}, {part: motor plate, joint: on rubber}]\n"


def movable() -> Plan:
    assert "machine:\n" in SANDER
    return plan(read(SANDER.replace("machine:\n", "machine:\n" + MOVABLE, 1), "strip-sander.yaml"))


def test_metal_that_moves_has_a_wire_of_its_own_to_the_bar() -> None:
    """Fact of the trade, and IEC 60204-1, 8.2.3 (from memory): a hinge, a slide or rubber is no protective conductor."""
    found = movable().circuit
    assert found is not None
    wires = {str(wire.b): wire for wire in found.wires if str(wire.b) in ("U4:stud", "U5:stud")}

    assert prove(found) == ()
    assert movable().state == "for building"
    assert {wire.a.device for wire in wires.values()} == {"X2"}
    assert len({wire.a for wire in wires.values()}) == 2
    assert [found.devices[code].name for code in ("U4", "U5")] == ["Belt cover", "Motor plate"]


@pytest.mark.parametrize("number", ["921", "922"])
def test_without_that_wire_the_proof_names_the_part(number: str) -> None:
    found = movable().circuit
    assert found is not None
    cut = replace(found, wires=tuple(wire for wire in found.wires if wire.number != int(number)))
    breaches = prove(cut)

    assert any(breach.proof == "protective conductor" and {"921": "U4", "922": "U5"}[number] in str(breach.path) for breach in breaches)


def test_the_bar_grows_with_what_is_bonded() -> None:
    """By count: eight screws may be the machine's own, eight metal lamps and eight movable parts take sixteen more."""
    lamps = "extras:\n" + "  - lamp, 120 V, 9 W, with the disconnect, metal\n" * 8
    plates = "  movable_metal: [" + ", ".join(f"{{part: plate {n}, joint: sliding}}" for n in range(8)) + "]\n"
    made = plan(read(SANDER.replace("machine:\n", "machine:\n" + plates, 1) + lamps, "strip-sander.yaml"))
    found = made.circuit
    assert found is not None
    on_bar = [wire.a.name for wire in found.wires if wire.a.device == "X2"]

    assert prove(found) == ()
    assert len(on_bar) == len(set(on_bar))
    assert len(found.devices["X2"].terminals) == 24
    assert "bar with 24 screws" in html(made)


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ("extras:\n" + "  - lamp, 120 V, 9 W\n" * 9, "found 9 items, wanted at most 8"),
        ("names:\n  - {device: relay, terminal: A1, name: B}\n", "write for example A1"),
    ],
)
def test_too_many_and_a_name_that_is_none_are_told(more: str, words: str) -> None:
    with pytest.raises(ProjectError, match=re.escape(words)):
        read(SANDER + more, "strip-sander.yaml")
