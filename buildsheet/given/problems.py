"""What can't be read in a project file: every problem of one run, in file order, with one thing to type instead."""

import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches
from functools import lru_cache

# Every code, with the smallest file text that gives it. The README explains them; a test compares and runs them all.
CODES: dict[str, str] = {
    "syntax": "machine: [",
    "alias": "a: &x 1\nb: *x\n",
    "tag": "machine: !!python/object:x {}\n",
    "duplicate-key": "buildsheet: 1\nbuildsheet: 1\n",
    "too-deep": "[" * 30,
    "too-big": "",
    "not-a-mapping": "- 1\n",
    "empty": "",
    "format": "buildsheet: 99\n",
    "unknown-key": "buildsheet: 1\nmotr: {}\n",
    "missing-key": "motor: {kind: magnet-dc}\n",
    "unknown-word": "buildsheet: 1\nsite: {region: north-amerika}\n",
    "not-a-quantity": "buildsheet: 1\nsite: {ambient: warm}\n",
    "not-a-number": "buildsheet: 1\nsite: {ambient: 1/0 degC}\n",
    "bare-number": "buildsheet: 1\nsite: {ambient: 35}\n",
    "decimal-comma": 'buildsheet: 1\nsite: {ambient: "35,5 degC"}\n',
    "unknown-unit": "buildsheet: 1\nsite: {ambient: 35 grad}\n",
    "unit-mismatch": "buildsheet: 1\nsite: {ambient: 35 V}\n",
    "out-of-range": "buildsheet: 1\nsite: {ambient: 900 degC}\n",
    "not-a-flag": "buildsheet: 1\nmachine: {reverse: yes}\n",
    "wrong-shape": "buildsheet: 1\nsite: [1, 2]\n",
    "glyph": "buildsheet: 1\nmachine: {name: 漢}\n",
}


@dataclass(frozen=True, slots=True)
class Problem:
    """One problem: where (counted from 1), which code and key, what was found and wanted, and what to type instead."""

    line: int
    column: int
    code: str
    key: str
    found: str
    wanted: str
    width: int = 1
    instead: str = ""


class BuildsheetError(Exception):
    """Anything that ends a command with a message instead of a traceback."""


class ProjectError(BuildsheetError):
    """A file that can't be read as a project: all its problems, in file order."""

    def __init__(self, file: str, problems: Iterable[Problem], text: str):
        self.file, self.text = file, text
        self.problems = tuple(
            sorted(problems, key=lambda problem: (problem.line, problem.column, problem.code))
        )
        super().__init__(file)

    def __str__(self) -> str:
        lines = self.text.splitlines()
        return "\n".join(_harmless(_laid_out(self.file, problem, lines)) for problem in self.problems)


NOT_KNOWN = ("unknown", "not known", "not-known", "unkown", "tbd", "tba", "n/a", "no idea", "not sure", "don't know", "...")
LEAVE_OUT = "leave the key out: what is not written is unknown, and is asked for where it matters"
CLOSE = 0.75  # share of its letters that a word has in common with the one that was probably meant
MOST_LISTED = 24
# Words that say that something is not there: a guess at one of them could take a danger away on paper.
_DENYING = ("none", "nothing", "no", "false")
_NEGATIONS = ("un", "non", "not ", "no ", "in", "dis", "without ")


def not_known(text: str) -> bool:
    """Whether a text says that nobody knows: an empty sheet of paper says the same."""
    word = text.strip().casefold()
    return word in NOT_KNOWN or (word != "" and not word.strip("?"))


def near(word: str, words: Iterable[str], most: int = 3) -> list[str]:
    """The words that were probably meant, closest first; none when that would be a guess.

    Never one with other digits (12 AWG for 13 AWG), never the opposite (skilled for unskilled), and never one that says
    that something is not there, unless it was spelt out.
    """
    asked = word.strip().casefold().replace("_", "-")
    known = {other.casefold().replace("_", "-"): other for other in words}
    if asked in known:
        return [known[asked]]
    fit = [
        other
        for other in known
        if _digits(other) == _digits(asked) and other not in _DENYING and _negated(other) == _negated(asked)
    ]
    return [known[other] for other in get_close_matches(asked, fit, n=most, cutoff=CLOSE)]


@lru_cache(maxsize=4096)  # the words of a field are asked again for every problem in it
def _digits(text: str) -> str:
    return "".join(sign for sign in text if sign.isdigit())


@lru_cache(maxsize=4096)
def _negated(text: str) -> str:
    return next((prefix for prefix in _NEGATIONS if text.startswith(prefix)), "")


def listed(words: Iterable[str], letters: int = 10_000) -> str:
    """The allowed words for a message: all of a short list, the beginning of a long one, no more than `letters` of it."""
    every = list(words)
    shown = every[:MOST_LISTED]
    while len(every) > MOST_LISTED and len(", ".join(shown)) > letters and len(shown) > 1:
        shown.pop()
    more = len(every) - len(shown)
    return ", ".join(shown) + (f" and {more} more" if more else "")


def cut(text: str, most: int = 60) -> str:
    """A text that is quoted in a message, cut to a length that a person reads."""
    return text if len(text) <= most else text[: most - 3] + "..."


def _harmless(message: str) -> str:
    """The message without signs that a terminal obeys: the file may come from anywhere."""
    return "".join(
        "?" if sign != "\n" and unicodedata.category(sign) in ("Cc", "Cf", "Cs", "Zl", "Zp") else sign
        for sign in message
    )


def _laid_out(file: str, problem: Problem, lines: list[str]) -> str:
    head = f"{file}:{problem.line}:{problem.column}: {problem.code}: "
    head += f"{problem.key}: " if problem.key else ""
    head += f"found {problem.found}, wanted {problem.wanted}"
    shown = [head]
    if 0 < problem.line <= len(lines) and lines[problem.line - 1].strip():
        source = lines[problem.line - 1]
        start = max(0, problem.column - 60) if len(source) > 100 else 0
        part = source[start : start + 100].replace("\t", " ")
        lead = problem.column - 1 - start
        shown.append(f"  {problem.line:>4} | {part}")
        shown.append(f"       | {' ' * lead}{'^' * max(1, min(problem.width, len(part) - lead))}")
    if problem.instead:
        shown.append(f"  {problem.instead}")
    return "\n".join(shown)
