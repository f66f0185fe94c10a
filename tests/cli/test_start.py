"""A new file: commented lines that read once their sign is taken away, and a schema beside it; or a copy of another."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from buildsheet.cli import main
from buildsheet.cli.start import GROUPS, started
from buildsheet.given.problems import BuildsheetError
from buildsheet.given.site import REGIONS
from buildsheet.plan import plan
from buildsheet.project import FORMAT, load, read, ways
from tests.given.files import facts

ROOT = Path(__file__).resolve().parents[2]
CARDER = ROOT / "projects/wool-carder/wool-carder.yaml"
EVERY_BLOCK = ("motor", "machine", "power")


def uncommented(text: str) -> str:
    first, *rest = text.splitlines()
    return "\n".join([first, *(line.removeprefix("# ") for line in rest)])


def commented(text: str) -> int:
    return sum(line.startswith("# ") and not line.startswith("# $") for line in text.splitlines())


@pytest.mark.parametrize("region", REGIONS)
@pytest.mark.parametrize("way", ["", *ways()])
@pytest.mark.parametrize("blocks", [(), ("motor",), ("power",), ("machine",), EVERY_BLOCK], ids="-".join)
def test_every_example_reads_and_is_worked(blocks: tuple[str, ...], way: str, region: str) -> None:
    project = read(uncommented(started(region=region, blocks=blocks, way=way)), "new.yaml")
    fed = "battery" if project.power is not None and project.power.runs_on == "battery" else "supply"
    spared = "supply" if fed == "battery" else "battery"
    for group in GROUPS:
        assert (getattr(project, group) is None) == (group == spared), group
    made = plan(project)
    assert made.state == "draft"
    assert bool(made.design.points) == ("machine" in blocks)  # the short line of the machine has no speed


def test_a_new_file_reads_as_it_is_and_has_about_eight_commented_lines() -> None:
    """Eight, and one more or less where a group is more or less."""
    text = started(region="north-america")
    assert read(text, "new.yaml").motor is None
    assert 6 <= commented(text) <= 9
    assert text.startswith(f"# $schema: ./buildsheet.schema.json\nbuildsheet: {FORMAT}\n")


@pytest.mark.parametrize("way", ways())
def test_a_way_brings_all_its_own_keys(way: str) -> None:
    text = started(region="north-america", way=way)
    for name in ways()[way].model_fields:
        assert f"\n#   {name}: " in text, name
    assert f"#   way: {way} " in text


def test_a_way_on_a_battery_has_a_battery_in_place_of_the_outlet() -> None:
    on_battery = next(name for name, model in ways().items() if model.runs_on == "battery")
    text = started(region="north-america", way=on_battery)
    assert "\n# battery: " in text
    assert "\n# supply: " not in text
    assert "cord: " not in text


def test_a_region_brings_its_own_line() -> None:
    """230 V 50 Hz in Europe, 120 V 60 Hz in North America: IEC 60038:2009, table 1."""
    assert "230 V, 50 Hz" in started(region="europe")
    assert "120 V, 60 Hz" in started(region="north-america")


def test_an_unknown_way_is_named_with_those_there_are() -> None:
    with pytest.raises(BuildsheetError, match=r"there are .*phase-controlled-drive.*did you mean"):
        started(region="europe", way="phase-control-drive")


def test_the_command_writes_both_files_and_never_over_one(tmp_path: Path) -> None:
    file = tmp_path / "new.yaml"
    first = CliRunner().invoke(main, ["start", str(file), "--motor"])
    written = file.read_bytes()
    second = CliRunner().invoke(main, ["start", str(file)])
    assert first.exit_code == 0
    assert "plate:" in written.decode()
    assert "properties" in json.loads((tmp_path / "buildsheet.schema.json").read_text(encoding="utf-8"))
    assert second.exit_code == 2
    assert "exists" in second.output.lower()
    assert file.read_bytes() == written


def test_an_unknown_region_is_named_with_those_there_are(tmp_path: Path) -> None:
    ran = CliRunner().invoke(main, ["start", str(tmp_path / "x.yaml"), "--region", "atlantis"])
    assert ran.exit_code == 2
    assert "north-america" in ran.output
    assert not list(tmp_path.iterdir())


def test_a_copy_means_the_same_and_says_what_each_key_is(tmp_path: Path) -> None:
    file = tmp_path / "copy.yaml"
    ran = CliRunner().invoke(main, ["start", str(file), "--from", str(CARDER)])
    assert ran.exit_code == 0, ran.output
    text = file.read_text(encoding="utf-8")
    assert facts(load(file)) == facts(load(CARDER))
    assert text.startswith("# $schema: ./buildsheet.schema.json\n")
    assert "    low: 60 rpm  # Lowest working speed.\n" in text
    assert text.count("# Pitch diameter of the driving pulley.") == 1  # said once, at the first belt
    assert (tmp_path / "buildsheet.schema.json").exists()


@pytest.mark.parametrize("option", [["--motor"], ["--machine"], ["--region", "europe"], ["--way", "battery-pulse-drive"]])
def test_a_copy_takes_no_other_option(tmp_path: Path, option: list[str]) -> None:
    ran = CliRunner().invoke(main, ["start", str(tmp_path / "copy.yaml"), "--from", str(CARDER), *option])
    assert ran.exit_code == 2
    assert not list(tmp_path.iterdir())
