"""The grey lines of the measuring sheets: each is read by the program when its gaps are filled with the models' own examples.

Checked against the project file's models.
"""

import re
from typing import get_args

import pytest

from buildsheet.given.alternating import LinePlate, MotorCapacitor, ThreePhasePlate
from buildsheet.given.bench import (
    AlternatingTest,
    FieldPlate,
    FieldRun,
    FreeRun,
    HeldRotor,
    OldRun,
    Plate,
    Spun,
    SpunField,
)
from buildsheet.motors.brushed import BrushedMotor
from buildsheet.motors.magnet_dc import MagnetDC
from buildsheet.motors.series import SeriesMotor
from buildsheet.motors.shunt import ShuntMotor
from buildsheet.packet import measure
from buildsheet.project import read
from buildsheet.ways.pulsed_board import PulsedBoard
from buildsheet.worksheet import Value
from tests.packet.test_measure import EVERY, html

GAP = '<i class="ms-gap"></i>'
ANY_WAY = {"power": "  way: phase-controlled-drive\n", "on_hand": ""}
PULSED = "  way: pulsed-board\n"  # whose keys the sheet of a console fills
GROUPS = {
    "plate": Plate, "held": HeldRotor, "spun": Spun, "spun_field": SpunField, "free_run": FreeRun, "field_plate": FieldPlate,
    "alternating": AlternatingTest, "old_run": OldRun, "capacitor": MotorCapacitor,
}  # fmt: skip
PLATES = {"three-phase": ThreePhasePlate, "magnet-dc": Plate, "series": Plate, "shunt": Plate, "": Plate}
SINGLE = {"winding": "1.5", "run_winding": "2.1", "start_winding": "9", "field_winding": "1.2", "rotor": "4000", "rated": "10", "line_voltage": "120", "output_high": "90", "potentiometer": "5", "level": "5", "period": "50", "slow_width": "5", "fast_width": "30"}
IN_LIST = {"- reversing switch": "20 250", "- disconnect": "16 250", "- emergency stop": "250"}


def head_of(sheet: measure.MeasureSheet) -> str:
    """What a file must say before a grey line of this sheet is read."""
    if sheet.under == "motor":
        return f"  kind: {sheet.kind or 'magnet-dc'}\n"
    return PULSED if sheet.what == "console" else ANY_WAY[sheet.under]


def lines(page_text: str) -> list[str]:
    found: list[str] = re.findall(r'<span class="ms-yaml">(.*?)</span>', page_text)
    return [line.replace("&gt;", ">") for line in found]


def filled(line: str, kind: str = "") -> str:
    """A grey line with its gaps filled in order: a group's from the examples of its model, others from SINGLE."""
    key = line.partition(":")[0]
    if key in GROUPS:
        model = GROUPS[key] if key != "plate" else PLATES.get(kind, LinePlate)
        if (kind, key) == ("shunt", "free_run"):
            model = FieldRun
        numbers = [str(model.model_fields[name].examples[0]).split()[0] for name in model.SHORT if model.model_fields[name].examples]  # type: ignore[index]
        if key == "plate":
            numbers = numbers[: line.count(GAP)]
    elif line.startswith("- "):
        numbers = IN_LIST[line.partition(",")[0]].split()
    else:
        numbers = [SINGLE[key]]
    assert len(numbers) == line.count(GAP), line
    for number in numbers:
        line = line.replace(GAP, number, 1)
    return line


def ticked(page_text: str) -> dict[str, list[str]]:
    """Words of the file that may be ticked, by key."""
    found: dict[str, list[str]] = {}
    for paragraph in re.findall(r'<p class="ms-ticks">(.*?)</p>', page_text, re.DOTALL):
        key = re.search(r'<span class="ms-key">(\w+):</span>', paragraph)
        if key:
            found[key[1]] = [word.replace("&#39;", "'") for word in re.findall(r'<b class="ms-word">(.*?)</b>', paragraph)]
    return found


WITH_LINES = [(sheet, name) for sheet, name in EVERY if sheet.under]


@pytest.mark.parametrize(("sheet", "name"), WITH_LINES, ids=[f"{sheet.slug}, {name}" for sheet, name in WITH_LINES])
def test_every_grey_line_is_read_when_it_is_filled(sheet: measure.MeasureSheet, name: str) -> None:
    page_text = html(sheet.slug, name)
    found = lines(page_text)
    assert found
    for line in found:
        project = read(f"buildsheet: 1\n{sheet.under}:\n{head_of(sheet)}  {filled(line, sheet.kind)}\n", "sheet.yaml")
        group = getattr(project, sheet.under)
        made = group[0] if isinstance(group, tuple) else getattr(group, line.partition(":")[0])
        values = [made] if isinstance(made, Value) else [getattr(made, field) for field in type(made).SHORT]
        known = [value for value in values if isinstance(value, Value) and value.known]
        assert len(known) == line.count(GAP), line
    for key, words in ticked(page_text).items():
        for word in words:
            project = read(f"buildsheet: 1\n{sheet.under}:\n{head_of(sheet)}  {key}: {word}\n", "sheet.yaml")
            got = getattr(getattr(project, sheet.under), key)
            assert str(got).lower() == word


@pytest.mark.parametrize(("kind", "model"), [("magnet-dc", MagnetDC), ("series", SeriesMotor), ("shunt", ShuntMotor)])
def test_a_motor_sheet_asks_for_every_key_that_a_bench_can_answer(kind: str, model: type[BrushedMotor]) -> None:
    """All keys but the question, what needs a bridge or a coast, the old machine's run, which has its own sheet, the wires that the
    machine will leave unused, and a spin test at the whole of a field, which no battery makes."""
    page_text = html(f"motor-{kind}", "europe")
    asked = {line.partition(":")[0] for line in lines(page_text)} | set(ticked(page_text))
    left = {"kind", "ask", "inductance", "inertia", "old_run", "spare_wires"} | ({"winding"} if kind != "magnet-dc" else set())
    left |= {"spun_field"} if kind == "shunt" else set()
    assert asked == set(model.model_fields) - left
    assert "old_run" in {line.partition(":")[0] for line in lines(html("donor", "europe"))}


def test_the_sheet_of_a_console_asks_for_what_its_low_side_tells() -> None:
    """All keys of the pulses and no reading at line voltage: what the board gave is a key of the model too."""
    asked = {line.partition(":")[0] for line in lines(html("console", "europe"))}
    assert asked == {"level", "period", "slow_width", "fast_width"}
    assert asked | {"slow_output", "fast_output"} <= set(PulsedBoard.model_fields)


def test_the_sheet_of_spare_wires_knows_the_words_of_the_file() -> None:
    """Each word that it ticks is read in the motor's list, and the list knows no other."""
    words = re.findall(r'<b class="ms-word">(.*?)</b>', html("spare-wires", "europe"))
    motor = read(f"buildsheet: 1\nmotor:\n  kind: series\n  spare_wires: [{', '.join(words)}]\n", "sheet.yaml").motor
    assert motor is not None
    assert list(motor.spare_wires) == words
    assert set(words) == set(get_args(get_args(SeriesMotor.model_fields["spare_wires"].annotation)[0]))


def test_sheets_that_no_file_takes_have_no_lines() -> None:
    """Every kind of motor is taken by a file."""
    for sheet in measure.SHEETS:
        assert sheet.under or not sheet.kind, sheet.slug
        assert bool(lines(html(sheet.slug, "europe"))) is bool(sheet.under), sheet.slug
