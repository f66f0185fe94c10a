"""Every code: from the smallest file, at its exact place, with carets under the words and something to type instead."""

import pytest

from buildsheet.given.problems import CODES, Problem, ProjectError
from buildsheet.given.tree import MOST_BYTES
from tests.given.files import LETTERS, refused

# Code -> (file, line, column and width of its first problem, words that must stand in the message).
WHERE: dict[str, tuple[str, int, int, int, str]] = {
    "syntax": ("machine: [", 2, 1, 1, "YAML: key, colon, space, value"),
    "alias": ("a: &x 1\nb: *x\n", 1, 4, 1, "an alias or anchor"),
    "tag": ("machine: !!python/object:x {}\n", 1, 10, 1, 'the tag "tag:yaml.org,2002:python/object:x"'),
    "duplicate-key": ("buildsheet: 1\nsite: {}\nsite: {}\n", 3, 1, 4, '"site" again, after line 2'),
    "too-deep": ("[" * 30, 1, 25, 1, "too many nested"),
    "too-big": ("#" * (MOST_BYTES + 1), 1, 1, 1, "more than 500000 bytes"),
    "not-a-mapping": ("- 1\n", 1, 1, 1, "a list or a text"),
    "empty": ("# nothing\n", 1, 1, 1, "nothing"),
    "format": ("buildsheet: 99\n", 1, 13, 2, '"99"'),
    "unknown-key": ("buildsheet: 1\nmachine:\n  naem: x\n", 3, 3, 4, '"naem"'),
    "missing-key": ("buildsheet: 1\nmotor: {spun: 47 V}\n", 2, 8, 1, "the key kind"),
    "unknown-word": ("buildsheet: 1\nsite: {region: north-amerika}\n", 2, 16, 13, '"north-amerika"'),
    "not-a-quantity": ("buildsheet: 1\nsite: {ambient: warm}\n", 2, 17, 4, '"warm"'),
    "not-a-number": ("buildsheet: 1\nsite: {ambient: 1/0 degC}\n", 2, 17, 8, '"1/0"'),
    "bare-number": ("buildsheet: 1\nsite: {ambient: 35}\n", 2, 17, 2, '"35" without a unit'),
    "decimal-comma": ('buildsheet: 1\nsite: {ambient: "35,5 degC"}\n', 2, 18, 9, '"35,5 degC"'),
    "unknown-unit": ("buildsheet: 1\nsite: {ambient: 35 grad}\n", 2, 17, 7, '"grad"'),
    "unit-mismatch": ("buildsheet: 1\nsite: {ambient: 35 V}\n", 2, 17, 4, 'a voltage ("35 V")'),
    "out-of-range": ("buildsheet: 1\nsite: {ambient: 900 degC}\n", 2, 17, 8, "at most 60 degC"),
    "not-a-flag": ("buildsheet: 1\nmachine: {reverse: yes}\n", 2, 20, 3, "true or false"),
    "wrong-shape": ("buildsheet: 1\nsite: [1, 2]\n", 2, 7, 1, "keys such as region, where, ambient"),
    "glyph": ("buildsheet: 1\nmachine: {name: a漢b}\n", 2, 18, 1, '"漢"'),
}


def _first(text: str) -> tuple[ProjectError, Problem]:
    error = refused(text, LETTERS)
    return error, error.problems[0]


def test_every_code_is_tried_and_no_other() -> None:
    assert set(WHERE) == set(CODES)


@pytest.mark.parametrize("code", CODES)
def test_the_smallest_file_gives_the_code(code: str) -> None:
    """The examples that stand with the codes, and in the README. The file of 'too-big' is too big to print."""
    text = CODES[code] if code != "too-big" else WHERE[code][0]

    assert _first(text)[1].code == code


@pytest.mark.parametrize("code", WHERE)
def test_place_is_exact(code: str) -> None:
    """Line and column of the first sign that is wrong, counted from 1, and how many columns it takes."""
    text, line, column, width, words = WHERE[code]
    _, problem = _first(text)

    assert problem.code == code
    assert (problem.line, problem.column, problem.width) == (line, column, width)
    assert words in f"{problem.found}, {problem.wanted}"


@pytest.mark.parametrize("code", WHERE)
def test_message_names_place_code_found_wanted_and_what_to_type(code: str) -> None:
    """Head line, the source line with carets under the very words, then one thing to type instead."""
    text, line, column, width, _ = WHERE[code]
    error, problem = _first(text)
    shown = str(error).split("\n")

    key = f"{problem.key}: " if problem.key else ""
    assert shown[0] == f"m.yaml:{line}:{column}: {code}: {key}found {problem.found}, wanted {problem.wanted}"
    source = text.splitlines()[line - 1] if line <= len(text.splitlines()) else ""
    if source:
        assert shown[1].startswith(f"  {line:>4} | ")
        quoted, carets = shown[1].partition(" | ")[2], shown[2].partition(" | ")[2]
        assert quoted == source[:100]
        assert carets.strip() == "^" * width
        assert quoted[len(carets) - width :][:width] == source[column - 1 : column - 1 + width]
    assert problem.instead
    assert shown[-1] == f"  {problem.instead}"


SEVERAL = """\
buildsheet: 1
machine:
  name: Mill
  kind: fruit-mil
  reverse: yes
  drum: 7,5 mm
site:
  ambient: 35
  altitude: 300 V
  wher: dry shed
motor:
  plate: 90 V, 5 A, 1725 rpm, 0.5 hq
  winding: 99999 Mohm
belts:
  - 80 -> 63 mm
  - 80 -> 63 mm, poly-W
accept:
  - {finding: a, why: b, by: c, date: 14 March}
"""


def test_all_problems_of_a_run_are_told_in_the_order_of_the_file() -> None:
    """One run, every problem, whatever family it is of; by hand from the text above."""
    found = [(one.line, one.column, one.code, one.key) for one in refused(SEVERAL).problems]

    assert found == [
        (4, 9, "unknown-word", "machine.kind"),
        (5, 12, "not-a-flag", "machine.reverse"),
        (6, 9, "decimal-comma", "machine.drum"),
        (8, 12, "bare-number", "site.ambient"),
        (9, 13, "unit-mismatch", "site.altitude"),
        (10, 3, "unknown-key", "site.wher"),
        (12, 3, "missing-key", "motor.kind"),
        (12, 31, "unknown-unit", "motor.plate"),
        (13, 12, "out-of-range", "motor.winding"),
        (16, 18, "unknown-word", "belts.2"),
        (18, 39, "wrong-shape", "accept.1.date"),
    ]


def test_the_messages_of_a_run_stand_below_each_other() -> None:
    error = refused(SEVERAL)
    heads = [line for line in str(error).split("\n") if line.startswith("m.yaml:")]

    assert len(heads) == len(error.problems)
    assert '  write "fruit-mill"' in str(error)
    assert "  write where: instead" in str(error)


def test_duplicate_keys_are_all_told() -> None:
    """Reading stops after them, for what the file means is open; but not after the first."""
    error = refused("buildsheet: 1\nsite: {ambient: 30 degC, ambient: 31 degC}\nsite: {}\nbuildsheet: 1\n")

    assert [(one.line, one.column, one.key) for one in error.problems] == [
        (2, 26, "site.ambient"), (3, 1, "site"), (4, 1, "buildsheet"),
    ]  # fmt: skip


def test_a_long_line_is_cut_around_its_problem() -> None:
    """A message keeps to a screen's width, and the carets stay under the words."""
    text = "buildsheet: 1\nmachine: {purpose: " + "wood " * 20 + ", reverse: yes}\n"
    error = refused(text)
    _, quoted, carets, _ = str(error).split("\n")
    shown = quoted.partition(" | ")[2]

    assert len(shown) <= 100
    start = len(carets.partition(" | ")[2]) - 3
    assert shown[start : start + 3] == "yes"


def test_signs_that_a_terminal_obeys_are_not_passed_on() -> None:
    """An escape, a bell and a right-to-left mark out of a file do nothing to the reader's terminal."""
    error = refused('buildsheet: 1\nmachine: {kind: "\\e[31m\\a\\u202e"}\n')

    assert all(sign.isprintable() or sign == "\n" for sign in str(error))
    raw = refused("buildsheet: 1\nmachine: {kind: \u202e}\n")
    assert "\u202e" not in str(raw)


def test_long_words_are_cut_in_the_message() -> None:
    """Not in the facts about the place."""
    error = refused("buildsheet: 1\nmachine: {kind: " + "x" * 900 + "}\n")

    assert len(error.problems[0].found) <= 70
    assert max(len(line) for line in str(error).split("\n")) < 250
