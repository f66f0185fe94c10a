"""Small project files, and reading one for its problems."""

from pathlib import Path
from typing import Any

from buildsheet.given.model import Given
from buildsheet.given.problems import Problem, ProjectError
from buildsheet.project import Project, read
from buildsheet.worksheet import Value

HEAD = "buildsheet: 1\n"
SANDER = Path(__file__).parents[2] / "projects" / "strip-sander" / "strip-sander.yaml"
LETTERS = frozenset(chr(code) for code in range(32, 127)) | frozenset("äöüµΩ°·²³→×")


def reads(text: str, characters: frozenset[str] | None = None) -> Project:
    """A project from the lines below the format number."""
    return read(HEAD + text, "m.yaml", characters)


def refused(text: str, characters: frozenset[str] | None = None) -> ProjectError:
    """The error of a file that can't be read. Raises AssertionError when it can."""
    try:
        read(text, "m.yaml", characters)
    except ProjectError as error:
        return error
    raise AssertionError(f"{text!r} was read")


def problem(text: str, characters: frozenset[str] | None = None) -> Problem:
    """The one problem of the lines below the format number, its line counted without that line."""
    found = refused(HEAD + text, characters).problems
    assert len(found) == 1, found
    return found[0]


def facts(thing: Any) -> Any:
    """What a model says, without where it says it."""
    if isinstance(thing, Value):
        return (thing.unit.kind, float(thing) if thing.known else None, thing.id)
    if isinstance(thing, Given):
        return {name: facts(getattr(thing, name)) for name in type(thing).model_fields}
    if isinstance(thing, tuple):
        return [facts(one) for one in thing]
    return str(thing) if isinstance(thing, str) else thing
