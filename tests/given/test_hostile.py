"""Files from anywhere: whatever is in them, a project or a list of problems comes out, and soon."""

from pathlib import Path
from time import perf_counter

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from buildsheet.given.problems import CODES, BuildsheetError, ProjectError
from buildsheet.project import Project, load, read
from tests.given.files import HEAD, SANDER, facts, refused

SOON = 2.0  # s on a slow machine; these take milliseconds
MUTATED = SANDER.read_text(encoding="utf-8")

HOSTILE: dict[str, tuple[str, str]] = {
    "100 000 brackets": ("[" * 100_000, "too-deep"),
    "100 000 braces": ("{" * 100_000, "too-deep"),
    "100 000 dashes": ("- " * 100_000, "too-deep"),
    "100 000 question marks": ("? " * 100_000, "too-deep"),
    "100 000 keys in a row": ("a: " * 100_000, "syntax"),
    "deep indents": (HEAD + "".join(" " * depth + f"k{depth}:\n" for depth in range(60)), "too-deep"),
    "alias bomb": ("a: &a [x, x]\nb: &b [*a, *a]\nc: &c [*b, *b]\nd: [*c, *c]\n", "alias"),
    "an anchor alone": (HEAD + "machine: &m {}\n", "alias"),
    "600 KB in one word": ("a" * 600_000, "too-big"),
    "600 KB of lines": (HEAD + "# line\n" * 90_000, "too-big"),
    "30 000 items": (HEAD + "on_hand: [" + "x, " * 30_000 + "]\n", "too-deep"),
    "a null byte": (HEAD + "\x00", "syntax"),
    "an escape sign": (HEAD + "machine: \x1b[31m\n", "syntax"),
    "half a character": (HEAD + "machine: {name: \ud800}\n", "syntax"),
    "a tab as indent": (HEAD + "machine:\n\tname: x\n", "syntax"),
    "empty": ("", "empty"),
    "spaces only": ("  \n \n", "empty"),
    "only comments": ("# a\n# b\n", "empty"),
    "a document mark only": ("---\n", "not-a-mapping"),
    "two documents": (HEAD + "---\n" + HEAD, "syntax"),
    "a text only": ("hello", "not-a-mapping"),
    "a number only": ("1", "not-a-mapping"),
    "a list of projects": ("- buildsheet: 1\n", "not-a-mapping"),
    "a key that is a mapping": (HEAD + "? {a: b}\n: c\n", "syntax"),
    "a merge key": (HEAD + "machine:\n  <<: {name: x}\n", "unknown-key"),
    "a merge of an alias": (HEAD + "machine: &m {}\nsite:\n  <<: *m\n", "alias"),
    "a tag of a language": (HEAD + "machine: !!python/object/apply:os.system [ls]\n", "tag"),
    "a tag of the core": (HEAD + "machine: !!map {}\n", "tag"),
    "an exclamation mark": (HEAD + "machine: ! x\n", "tag"),
    "a version nobody has": ("%YAML 99999999999.1\n---\n" + HEAD, "syntax"),
    "an unclosed quote": (HEAD + "machine: {name: 'x}\n", "syntax"),
    "a wrong format": ("buildsheet: 0x1\n", "format"),
    "a list as format": ("buildsheet: [1]\n", "wrong-shape"),
    "no format": ("machine: {}\n", "missing-key"),
    "150 000 fillers": (HEAD + "supply: " + "at " * 150_000, "wrong-shape"),
    "450 000 digits": (HEAD + "supply: " + "9" * 450_000, "wrong-shape"),
    "450 000 digits as a quantity": (HEAD + "site: {ambient: '" + "1" * 450_000 + "..'}", "not-a-quantity"),
    "a quantity of spaces": (HEAD + "site: {ambient: '1 a" + " " * 400_000 + "!'}", "not-a-quantity"),
    "a tower of powers": (HEAD + "supply: {voltage: 1 V**4**4**4**4}\n", "unknown-unit"),
    "a sum to work out": (HEAD + "supply: {voltage: 9**9**9**9 V}\n", "unknown-unit"),
    "a call": (HEAD + "supply: {voltage: \"__import__('os') V\"}\n", "not-a-quantity"),
    "beyond all bounds": (HEAD + "supply: {voltage: 1e400 V}\n", "not-a-number"),
    "not a number": (HEAD + "supply: {voltage: nan V}\n", "not-a-quantity"),
    "a list for a text": (HEAD + "machine: {name: [a]}\n", "wrong-shape"),
    "a mapping for a word": (HEAD + "machine: {kind: {a: b}}\n", "unknown-word"),
    "a text for a list": (HEAD + "belts: 80 -> 63 mm\n", "wrong-shape"),
    "a mapping for a list": (HEAD + "belts: {a: b}\n", "wrong-shape"),
    "a mapping for a quantity": (HEAD + "site: {ambient: {a: b}}\n", "wrong-shape"),
}  # fmt: skip


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_file_is_refused_soon(name: str) -> None:
    """With the code that says what is wrong, with a place inside the file or just behind it, and printable."""
    text, code = HOSTILE[name]
    before = perf_counter()

    error = refused(text)

    assert perf_counter() - before < SOON
    assert error.problems[0].code == code
    assert all(one.code in CODES for one in error.problems)
    assert 1 <= error.problems[0].line <= len(text.splitlines()) + 2
    assert str(error).startswith("m.yaml:")


def test_the_place_of_an_invisible_character() -> None:
    """Line and column of the character itself, and its number."""
    problem = refused(HEAD + "machine:\n  name: a\x07b\n").problems[0]

    assert (problem.line, problem.column) == (3, 10)
    assert "U+0007" in problem.found


def test_many_problems_are_told_soon() -> None:
    """Nineteen thousand parts that are none."""
    before = perf_counter()
    error = refused(HEAD + "on_hand:\n" + "  - x\n" * 19_000)

    assert len(error.problems) == 19_000
    assert len(str(error)) > 19_000
    assert perf_counter() - before < 5 * SOON


FINE: dict[str, str] = {
    "windows line ends": MUTATED.replace("\n", "\r\n"),
    "old line ends": MUTATED.replace("\n", "\r"),
    "a byte order mark": "\ufeff" + MUTATED,
    "a document mark": "---\n" + MUTATED + "...\n",
    "signs beyond the plane": MUTATED.replace("Strip sander", "Strip 😀 sander"),
    "a quoted key": MUTATED.replace("machine:", '"machine":', 1),
    "a tab behind a value": MUTATED.replace("users: household", "users: household\t"),
}


@pytest.mark.parametrize("name", FINE)
def test_harmless_oddities_are_read(name: str) -> None:
    """The same project comes out."""
    plain, odd = facts(read(MUTATED, "m.yaml")), facts(read(FINE[name], "m.yaml"))
    assert plain["machine"].pop("name") == odd["machine"].pop("name").replace(" 😀", "")

    assert odd == plain


def test_places_do_not_move_with_line_ends_and_marks() -> None:
    """A value stands on the same line and column whatever the file's line ends."""
    for text in (FINE["windows line ends"], FINE["old line ends"]):
        plain, odd = read(MUTATED, "m.yaml").motor, read(text, "m.yaml").motor
        assert plain is not None
        assert odd is not None
        assert plain.inertia.parent == odd.inertia.parent


def test_a_file_of_other_bytes_is_refused(tmp_path: Path) -> None:
    """Latin-1 and pictures are told to be saved as UTF-8; a folder and a file that is not there are no traceback."""
    bad = tmp_path / "m.yaml"
    bad.write_bytes(b"buildsheet: 1\nmachine: {name: M\xfchle}\n")
    with pytest.raises(ProjectError) as found:
        load(bad)
    assert "save the file as UTF-8" in str(found.value)
    with pytest.raises(BuildsheetError, match="Is a directory"):
        load(tmp_path)
    with pytest.raises(BuildsheetError, match="No such file"):
        load(tmp_path / "none.yaml")


def _outcome(text: str) -> None:
    """A project or its problems; any other exception fails the test."""
    before = perf_counter()
    try:
        made: Project | ProjectError = read(text, "m.yaml")
    except ProjectError as error:
        made = error
    assert perf_counter() - before < SOON
    if isinstance(made, ProjectError):
        places = [(one.line, one.column) for one in made.problems]
        assert places
        assert places == sorted(places)
        assert str(made).startswith("m.yaml:")


PIECES = st.text(st.sampled_from("0123456789 .,:;-+*/&!?|>%@`'\"[]{}#\t\n\r\\aVAxµΩ°²é漢😀\x00\x85\u2028"), max_size=6)


@settings(max_examples=150, derandomize=True, deadline=None, suppress_health_check=list(HealthCheck))
@given(data=st.data())
def test_small_changes_of_a_good_file_are_read_or_refused(data: st.DataObject) -> None:
    """One to four places of the demonstration file, each deleted, replaced or written into."""
    text = MUTATED
    for _ in range(data.draw(st.integers(1, 4))):
        start = data.draw(st.integers(0, len(text) - 1))
        length = data.draw(st.sampled_from([0, 0, 1, 1, 2, 5, 40]))
        text = text[:start] + data.draw(PIECES) + text[start + length :]
    _outcome(text)


@settings(max_examples=60, derandomize=True, deadline=None, suppress_health_check=list(HealthCheck))
@given(lines=st.lists(st.sampled_from(MUTATED.splitlines()), max_size=30))
def test_lines_in_any_order_are_read_or_refused(lines: list[str]) -> None:
    """Lines of the demonstration file shuffled, doubled and left out."""
    _outcome("\n".join(lines))


@settings(max_examples=60, derandomize=True, deadline=None)
@given(text=st.text(max_size=60))
def test_any_text_is_read_or_refused(text: str) -> None:
    _outcome(text)
    _outcome(HEAD + "supply: " + text)


PHRASES = ["120 V", "60 Hz", "15 A breaker", "GFCI", "plug", ",", "..", "->", "x", "×", "5", "1 1/2", "7,5 A", "at", "in", "and",
           "fault", "1000 A", "mm", "two hot", "°C", "-", "none"]  # fmt: skip


@settings(max_examples=100, derandomize=True, deadline=None)
@given(short=st.lists(st.sampled_from(PHRASES), max_size=9))
def test_any_short_form_is_read_or_refused(short: list[str]) -> None:
    """Pieces of short forms in any order."""
    _outcome(HEAD + "supply: " + " ".join(short))
    _outcome(HEAD + "box: " + ", ".join(short))
