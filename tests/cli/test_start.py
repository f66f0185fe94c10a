"""A new file: commented lines that read once their sign is taken away, and a schema beside it."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from buildsheet.cli import main
from buildsheet.cli.start import started
from buildsheet.project import read


def uncommented(text: str) -> str:
    first, *rest = text.splitlines()
    return "\n".join([first, *(line.removeprefix("# ") for line in rest)])


@pytest.mark.parametrize("blocks", [(), ("motor",), ("power",), ("machine",), ("motor", "power", "machine")], ids="-".join)
def test_every_example_reads(blocks: tuple[str, ...]) -> None:
    project = read(uncommented(started(region="north-america", blocks=blocks)), "new.yaml")
    for group in ("machine", "supply", "motor", "power", "controls", "box", "runs"):
        assert getattr(project, group) is not None


def test_a_new_file_reads_as_it_is_and_has_about_eight_commented_lines() -> None:
    text = started(region="north-america", blocks=())
    assert read(text, "new.yaml").motor is None
    assert 6 <= sum(line.startswith("# ") for line in text.splitlines()) <= 10


def test_the_command_writes_both_files_and_never_over_one(tmp_path: Path) -> None:
    file = tmp_path / "new.yaml"
    first = CliRunner().invoke(main, ["start", str(file), "--motor"])
    second = CliRunner().invoke(main, ["start", str(file)])
    assert first.exit_code == 0
    assert "plate:" in file.read_text(encoding="utf-8")
    assert "properties" in json.loads((tmp_path / "buildsheet.schema.json").read_text(encoding="utf-8"))
    assert second.exit_code == 2
    assert "exists" in second.output.lower()


def test_an_unknown_region_is_named_with_those_there_are(tmp_path: Path) -> None:
    ran = CliRunner().invoke(main, ["start", str(tmp_path / "x.yaml"), "--region", "atlantis"])
    assert ran.exit_code == 2
    assert "north-america" in ran.output
