"""A project written back in long form means the same: the same values and words, and the same results of `check --json`."""

from pathlib import Path
from typing import Any

import pytest
import yaml

from buildsheet.given.write import scalar, write
from buildsheet.packet.words import check_json
from buildsheet.plan import plan
from buildsheet.project import load, read
from buildsheet.units import VOLT
from buildsheet.worksheet import Absent, Value
from tests.given.files import facts, reads

ROOT = Path(__file__).resolve().parents[2]
PROJECTS = sorted(ROOT.glob("projects/*/*.yaml"))


def without_places(thing: Any) -> Any:
    """What `check --json` says, without where in the file it was written."""
    if isinstance(thing, dict):
        return {key: without_places(one) for key, one in thing.items() if key not in ("line", "column")}
    return [without_places(one) for one in thing] if isinstance(thing, list) else thing


@pytest.mark.parametrize("explained", [False, True], ids=["bare", "explained"])
@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
def test_a_project_written_back_means_the_same(path: Path, explained: bool) -> None:
    project = load(path)

    again = read(write(project, explained=explained), path.name)

    assert facts(again) == facts(project)
    assert write(again, explained=explained) == write(project, explained=explained)


@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
def test_a_project_written_back_checks_the_same(path: Path) -> None:
    """Every result with its id, value and unit, every finding, need and wire."""
    project = load(path)
    before = check_json(plan(project), path.name)

    after = check_json(plan(read(write(project), path.name)), path.name)

    told = [[(one["id"], one["value"], one["unit"]) for one in made["results"]] for made in (before, after)]
    assert told[0] == told[1]
    assert len(told[0]) > 10
    assert without_places(after) == without_places(before)


def test_long_form_has_a_line_for_each_key_and_leaves_out_what_was_not_written() -> None:
    project = reads("motor: {kind: magnet-dc, plate: '90 V, 5.0 A, 3/4 hp'}\nbelts: [80 -> 63 mm]\nmachine: {reverse: true}\n")

    assert write(project).splitlines() == [
        "buildsheet: 1",
        "machine:",
        "  reverse: true",
        "motor:",
        "  kind: magnet-dc",
        "  plate:",
        "    voltage: 90 V",
        "    current: 5.0 A",
        "    power: 3/4 hp",
        "belts:",
        "  - driver: 80 mm",
        "    driven: 63 mm",
    ]


def test_a_key_that_says_the_usual_stays_when_it_was_written() -> None:
    """A sign that somebody thought of it: `poles: one-hot` is written as it was."""
    assert "  poles: one-hot\n" in write(reads("supply: {voltage: 120 V, poles: one-hot}\n"))
    assert "poles" not in write(reads("supply: {voltage: 120 V}\n"))


def test_a_group_without_a_key_stays() -> None:
    again = reads(write(reads("controls: {}\n")).removeprefix("buildsheet: 1\n"))
    assert again.controls is not None


@pytest.mark.parametrize(
    "text",
    [
        "a: b", "x # y", "- k", "", "1", "no", "~", "2026-11-25", "0.5 N·m", "two\nlines", " edge ", "'q'", '"q"', "{a", "[a",
        "a]", "maker's data", "80, 3", "a:", "*x", "&x", "!x", "%k", "@k", "|", ">", "?", "? x", "tab\tx", "back\\slash",
        "word " * 60 + "end", "a\u2028b", "#", "a #b", ": a",
    ],
)  # fmt: skip
def test_any_text_comes_back(text: str) -> None:
    """By the YAML library's own reader, on one line, as a value of a mapping and inside a list."""
    written = scalar(text)

    assert len(written.splitlines()) == 1
    found = yaml.load(f"key: {written}  # said\nlist:\n  - key: {written}\n", Loader=yaml.BaseLoader)  # noqa: S506  it makes texts only
    assert found == {"key": text, "list": [{"key": text}]}


def test_words_that_yaml_would_bend_come_back_in_a_project() -> None:
    name = 'No: "12:30" # {x}'
    project = reads(f"machine:\n  name: {scalar(name)}\n  purpose: 'yes'\n")

    again = read(write(project), "m.yaml")

    assert again.machine is not None
    assert again.machine.name == name
    assert again.machine.purpose == "yes"


def test_a_value_that_nobody_wrote_is_not_written_as_if_somebody_had() -> None:
    project = reads("site: {ambient: 35 degC}\n")
    assert project.site is not None
    worked = Value(5.0, id="x", unit=VOLT, parent=Absent("worked out"))
    site = project.site.model_copy(update={"ambient": worked})

    with pytest.raises(ValueError, match="not written by the builder"):
        write(project.model_copy(update={"site": site}))
