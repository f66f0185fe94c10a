"""What a builder adds: wired, bonded, summed up and proved like the rest; screws by their own names."""

from pathlib import Path

import pytest

from buildsheet.circuit import Circuit
from buildsheet.circuit.proofs import prove
from buildsheet.packet.ink import Ink
from buildsheet.packet.views.drill import drill
from buildsheet.plan import Plan, plan
from buildsheet.project import read

SANDER = (Path(__file__).resolve().parents[2] / "projects/strip-sander/strip-sander.yaml").read_text(encoding="utf-8")
LAMP = "extras:\n  - {what: lamp, name: Work lamp, voltage: 120 V, power: 9 W, on: with the disconnect, body: metal}\n"
SHORT = "extras:\n  - indicator, 120 V, 1 W, while it runs, plastic\n"


def made(more: str) -> Plan:
    return plan(read(SANDER + more, "strip-sander.yaml"))


def circuit(more: str) -> Circuit:
    found = made(more).circuit
    assert found is not None
    return found


@pytest.mark.parametrize("more", [LAMP, SHORT, LAMP + SHORT.removeprefix("extras:\n"), "extras:\n  - fan, 120 V, 14 W, metal\n"])
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
