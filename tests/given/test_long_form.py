"""The contract of a project file: two complete files in long form, and one of a motor, use every key of every model, plan and print."""

import re
from pathlib import Path
from typing import Any

import pytest

from buildsheet.given.model import Given
from buildsheet.given.write import write
from buildsheet.packet.html import html
from buildsheet.packet.pdf import write_pdf
from buildsheet.plan import Plan, plan
from buildsheet.project import Project, load, models_of, ways
from buildsheet.worksheet import Value

FOLDER = Path(__file__).resolve().parents[2] / "projects/long-form"
WHOLE = (FOLDER / "long-form.yaml", FOLDER / "long-form-battery.yaml")
FILES = (*WHOLE, *sorted(path for path in FOLDER.glob("*.yaml") if path not in WHOLE))
REMARK = re.compile(r"  # .*")
Key = tuple[str, str]
each_file = pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)


def keys_of(model: type[Given]) -> set[Key]:
    """Every key of a model and of those below it, by the name of its model; each way of powering has its own."""
    found = {(model.__name__, name) for name in model.model_fields}
    below = [one for field in model.model_fields.values() for one in models_of(field.annotation)]
    return found.union(*(keys_of(one) for one in below))


def keys_used(thing: Any) -> set[Key]:
    """Every key that is written."""
    if isinstance(thing, tuple):
        return set().union(*(keys_used(one) for one in thing))
    if not isinstance(thing, Given):
        return set()
    written = {name: getattr(thing, name) for name in thing.model_fields_set}
    known = {name: one for name, one in written.items() if not isinstance(one, Value) or one.known}
    return {(type(thing).__name__, name) for name in known}.union(*(keys_used(one) for one in known.values()))


def test_every_key_of_every_model_is_in_one_of_the_files() -> None:
    missing = keys_of(Project) - set().union(*(keys_used(load(path)) for path in FILES))
    assert not missing, "in no file: " + ", ".join(".".join(key) for key in sorted(missing))


def test_the_walk_finds_the_keys_of_every_way_and_of_items_in_lists() -> None:
    """Else a key could be missing without being missed."""
    keys = keys_of(Project)
    assert {("BeltStep", "centres"), ("OldRun", "roller"), ("Cut", "steel"), ("Fan", "body"), ("Accepted", "why")} <= keys
    for model in ways().values():
        assert {(model.__name__, name) for name in model.model_fields} <= keys
        assert "way" in model.model_fields


@each_file
def test_each_file_is_in_long_form_with_a_remark_at_every_key(path: Path) -> None:
    first, *lines = path.read_text(encoding="utf-8").splitlines()

    assert "invented" in first
    assert "\n".join(REMARK.sub("", line) for line in lines) + "\n" == write(load(path))
    assert [line for line in lines if not line.endswith(":") and not REMARK.search(line)] == []


@pytest.fixture(scope="module", params=WHOLE, ids=lambda path: path.stem)
def made(request: pytest.FixtureRequest) -> Plan:
    return plan(load(request.param))


def test_each_file_is_for_building(made: Plan) -> None:
    assert made.state == "for building"
    assert not made.stopped
    assert made.questions == ()


def test_what_is_accepted_is_found_and_carries_the_name(made: Plan) -> None:
    accepted = {finding.id: finding.accepted for finding in made.findings if finding.accepted}
    assert set(accepted) == {entry.finding for entry in made.project.accept}
    assert all(entry.by in accepted[entry.finding] for entry in made.project.accept)


def test_each_packet_prints(made: Plan) -> None:
    """`write_pdf` raises on any complaint of the engine, such as a sign without a glyph."""
    pdf = write_pdf(html(made), title="t", author="a", created="2026-11-25")
    assert pdf.startswith(b"%PDF-")
