"""A file is worked as far as it goes: with any section or any line left out it still gives a plan, or says what is
missing. Unknown is never truth-tested, compared or printed on the way."""

import re

import pytest

from buildsheet.given.problems import ProjectError
from buildsheet.plan.plan import plan
from buildsheet.project import read
from tests.given.files import SANDER

LINES = SANDER.read_text(encoding="utf-8").splitlines()
SECTION: list[str] = []  # the key that each line belongs to
for _line in LINES:
    SECTION.append(_line.split(":")[0] if re.match("[a-z_]+:", _line) else SECTION[-1] if SECTION else "")
KEYS = [key for key in dict.fromkeys(SECTION) if key not in ("", "buildsheet")]
INNER = [number for number, line in enumerate(LINES) if line.startswith("  ")]


def _less(*gone: str) -> str:
    return "\n".join(line for line, key in zip(LINES, SECTION, strict=True) if key not in gone)


@pytest.mark.parametrize("key", KEYS)
def test_a_section_may_be_missing(key: str) -> None:
    """What is not there is asked for, or a stop, or nothing; never a crash."""
    made = plan(read(_less(key), "m.yaml"))

    assert made.state
    assert made.questions or made.findings


@pytest.mark.parametrize("key", KEYS)
def test_a_section_may_stand_alone(key: str) -> None:
    """A file with a motor alone, or belts alone."""
    made = plan(read(_less(*(other for other in KEYS if other != key)), "m.yaml"))

    assert made.state == "draft"
    assert made.questions


@pytest.mark.parametrize(
    ("good", "odd"),
    [
        ("3.2 V at 1.0 A, 6.2 V at 3.0 A", "0.32 V at 1.0 A, 6.2 V at 3.0 A"),  # leaves a negative brush drop
        ("3.2 V at 1.0 A, 6.2 V at 3.0 A", "3.2 V at 1.0 A, 6.2 V at 1.0 A"),  # no slope between equal currents
        ("3.2 V at 1.0 A, 6.2 V at 3.0 A", "6.2 V at 1.0 A, 3.2 V at 3.0 A"),  # a negative resistance
        ("12.0 V 60 Hz, 2.96 A", "12.0 V 60 Hz, 29.6 A"),  # an impedance below the resistance
        ("12.0 V, 203 rpm, 0.48 A", "12.0 V, 203 rpm, 48 A"),  # a negative constant
        ("90 V, 5.0 A, 1725 rpm, 0.5 hp", "90 V, 50 A, 1725 rpm, 0.5 hp"),  # a negative back-EMF
        ("46.9 V at 1000 rpm", "0.05 V at 1000 rpm"),
    ],
)
def test_readings_that_cannot_be_right_give_unknowns(good: str, odd: str) -> None:
    """A slip of the pen at the bench: worked as far as it goes, with the reason where it ends, and no packet for building
    by way of a crash."""
    text = "\n".join(LINES)
    assert good in text

    made = plan(read(text.replace(good, odd), "m.yaml"))

    assert all(value.why for value in made.design.sheet.values.values() if not value.known)


@pytest.mark.parametrize("number", INNER)
def test_a_line_may_be_missing(number: int) -> None:
    """The rest is worked; a key that its group can't be without is named."""
    text = "\n".join(line for at, line in enumerate(LINES) if at != number)
    try:
        made = plan(read(text, "m.yaml"))
    except ProjectError as error:
        made = None
        codes = {one.code for one in error.problems}
    if made is None:
        assert codes <= {"missing-key", "wrong-shape"}
    else:
        assert made.state
