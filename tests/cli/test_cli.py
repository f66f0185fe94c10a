"""The commands as their users meet them: what is printed, which exit code, which files."""

import json
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from buildsheet.cli import main

ROOT = Path(__file__).resolve().parents[2]
SANDER = ROOT / "projects/strip-sander/strip-sander.yaml"


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, [str(argument) for argument in arguments])


@pytest.fixture
def sander(tmp_path: Path) -> Path:
    return Path(shutil.copy(SANDER, tmp_path))


def stopped(path: Path) -> Path:
    """The sander with a stop in it."""
    path.write_text(path.read_text(encoding="utf-8").replace("  overload: {by: relay}\n", ""), encoding="utf-8")
    return path


def test_check_says_the_state_in_one_line_and_keeps_to_a_screen() -> None:
    ran = run("check", SANDER)
    lines = ran.output.splitlines()
    assert ran.exit_code == 0
    assert lines[0].startswith("Strip sander SS-01: for building.")
    assert len(lines) <= 40
    assert max(len(line) for line in lines) <= 100


def test_check_all_says_everything() -> None:
    short, full = run("check", SANDER).output, run("check", SANDER, "--all").output
    assert len(full) > len(short)
    assert "IEC 60204-1" not in short.splitlines()[0]
    assert "two drive makers' manuals" in full


def test_check_exits_1_with_a_stop_and_names_it_first(sander: Path) -> None:
    ran = run("check", stopped(sander))
    assert ran.exit_code == 1
    assert ran.output.splitlines()[1].startswith("STOP")


@pytest.mark.parametrize("text", ["", "- 1\n", "buildsheet: 1\nmotr: {}\n", "[" * 100_000, "buildsheet: 1\nsite: {ambient: 35,5 degC}\n"])
def test_a_file_that_is_no_project_ends_in_a_message_and_exit_2(tmp_path: Path, text: str) -> None:
    file = tmp_path / "broken.yaml"
    file.write_text(text, encoding="utf-8")
    for command in ("check", "packet"):
        ran = run(command, file)
        assert ran.exit_code == 2
        assert ran.output.startswith("broken.yaml:")
        assert "Traceback" not in ran.output
        assert ran.exception is None or isinstance(ran.exception, SystemExit)


def test_a_file_that_is_not_there_ends_in_a_message() -> None:
    ran = run("check", "nowhere.yaml")
    assert ran.exit_code == 2
    assert "nowhere.yaml" in ran.output


# The public face of `check --json`, as the README gives it.
KEYS = {
    "": {"format", "state", "findings", "results", "places", "wires"},
    "findings": {"id", "grade", "signal", "where", "found", "why", "do", "source", "accepted", "follows"},
    "results": {"id", "label", "symbol", "value", "unit", "shown", "parent", "source"},
    "places": {"id", "kind", "code", "needs", "part", "verdict", "margin", "buy", "cost"},
    "wires": {"number", "from", "to", "size", "colour", "length", "role", "protected_by"},
}
NEED_KEYS = {"rating", "op", "value", "unit", "result"}
VERDICTS = {"fits", "fits with a condition", "does not fit", "not known", "to buy"}


def test_check_json_has_the_documented_shape() -> None:
    made = json.loads(run("check", SANDER, "--json").output)
    assert set(made) == KEYS[""]
    for group in ("findings", "results", "places", "wires"):
        assert made[group], group
        for entry in made[group]:
            assert set(entry) - {"why"} == KEYS[group] - {"why"}
    for place in made["places"]:
        assert place["verdict"] in VERDICTS
        for need in place["needs"]:
            assert set(need) == NEED_KEYS


def test_the_readme_names_every_key_of_the_json() -> None:
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    for keys in (*KEYS.values(), NEED_KEYS):
        for key in keys:
            assert f"`{key}`" in readme, key


def test_every_number_in_the_json_has_a_parent() -> None:
    results = json.loads(run("check", SANDER, "--json").output)["results"]
    ids = {result["id"] for result in results}
    for result in results:
        parent = result["parent"]
        assert len(parent) >= 1
        if "formula" in parent:
            assert parent["inputs"]
            assert set(parent["inputs"]) <= ids | {"load.P"}, result["id"]
        elif "input" in parent:
            line = SANDER.read_text(encoding="utf-8").splitlines()[parent["input"]["line"] - 1]
            number = parent["input"]["text"].split()[0]
            assert line[parent["input"]["column"] - 1 :].startswith(number), (result["id"], line)
        else:
            assert "table" in parent or "absent" in parent


def test_an_unknown_value_is_null_with_a_reason(tmp_path: Path) -> None:
    file = tmp_path / "m.yaml"
    file.write_text("buildsheet: 1\nmotor: {kind: magnet-dc, plate: '90 V, 5 A, 1725 rpm, 0.5 hp'}\n", encoding="utf-8")
    results = json.loads(run("check", file, "--json").output)["results"]
    unknown = [result for result in results if result["value"] is None]
    assert unknown
    assert all(result["why"] for result in unknown)


def test_packet_writes_four_files_and_prints_the_pdf_last(sander: Path) -> None:
    ran = run("packet", sander)
    folder = sander.parent / "packet"
    names = {path.name for path in folder.iterdir()}
    assert ran.exit_code == 0
    assert names == {"strip-sander.pdf", "strip-sander.html", "strip-sander-parts.csv", "strip-sander-wires.csv"}
    assert ran.output.splitlines()[-1] == str(folder / "strip-sander.pdf")
    assert (folder / "strip-sander.pdf").read_bytes().startswith(b"%PDF-")


def test_a_stop_withholds_and_takes_stale_files_away(sander: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    assert run("packet", sander, "--out", out).exit_code == 0
    ran = run("packet", stopped(sander), "--out", out)
    assert ran.exit_code == 1
    assert {path.name for path in out.iterdir()} == {"strip-sander.pdf", "strip-sander.html"}
    page = (out / "strip-sander.html").read_text(encoding="utf-8")
    for slug in ("diagram", "wires", "steps", "checks", "power", "labels"):
        assert f'id="sheet-{slug}"' not in page
    assert "buying list is withheld" in page
    assert json.loads(run("check", sander, "--json").output)["wires"] == []


def results(path: Path) -> dict[str, dict[str, object]]:
    return {result["id"]: result for result in json.loads(run("check", path, "--json").output)["results"]}


def test_with_a_stop_no_length_to_cut_and_no_size_to_take_is_given(sander: Path) -> None:
    """What is cut and what is bought is withheld; calculations, needs and the builder's own lengths stay."""
    free = results(sander)
    assert {"wire.l_motor", "wire.l_panel"} <= set(free)
    held = results(stopped(sander))
    assert not {name for name in held if name.startswith(("wire.l_", "cut."))}
    assert {"F1.I_n", "runs.motor"} <= set(held)
    for result in held.values():
        assert set(result["parent"].get("inputs", ())) <= set(held) | {"load.P"}  # type: ignore[attr-defined]
    made = json.loads(run("check", sander, "--json").output)
    assert made["wires"] == []
    assert {place["buy"] for place in made["places"]} == {None}
    rows = run("check", sander, "--all").output.partition("\nsize ")[2].partition("\nassumed")[0].splitlines()
    assert any("withheld: there is a stop" in row for row in rows)
    assert not any("buy " in row or "carries" in row for row in rows)


def test_a_finding_names_those_that_are_told_with_it(sander: Path) -> None:
    sander.write_text(sander.read_text(encoding="utf-8").replace("  power: 180 W\n", ""), encoding="utf-8")
    findings = json.loads(run("check", sander, "--json").output)["findings"]
    told = next(finding for finding in findings if finding["id"] == "not-known-machine-power")
    assert "no-operating-point" in told["follows"]
    assert not any(finding["id"] == "no-operating-point" for finding in findings)


def test_the_example_of_the_readme_is_what_check_prints() -> None:
    """Line by line in order, and as it stands; a line of dots stands for lines left out."""
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    block = readme.partition("    $ buildsheet check projects/strip-sander/strip-sander.yaml\n")[2].partition("\n\n")[0]
    wanted = [line.removeprefix("    ") for line in block.splitlines()]
    printed = run("check", SANDER).output.splitlines()
    assert len(wanted) >= 5
    at = -1
    for before, line in zip(["", *wanted], wanted, strict=False):
        if line == "...":
            continue
        found = printed.index(line, at + 1)
        assert found == at + 1 or before == "...", f"lines left out before {line!r}"
        at = found


def test_the_example_of_the_readme_is_in_the_demo() -> None:
    """The lines of the motor as the README quotes them, its remarks aside."""
    block = (ROOT / "README.md").read_text(encoding="utf-8").partition("```yaml\nmotor:\n")[2].partition("```")[0]
    demo = SANDER.read_text(encoding="utf-8").splitlines()
    for line in block.splitlines():
        assert line.partition("  #")[0].rstrip() in demo


def test_the_numbers_of_the_readme_are_those_of_the_demo() -> None:
    """Average and RMS current of the motor and its fuse, as the README tells them."""
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    sentence = readme.partition("The motor's average current is only ")[2].partition("\n")[0]
    shown = {name: str(result["shown"]) for name, result in results(SANDER).items()}
    for name in ("high.I_a", "high.I_rms", "F2.I_n"):
        number, unit = shown[name].split()
        assert f"{float(number):.2g} {unit}" in sentence, name


def test_formula_lists_finds_and_works() -> None:
    assert "belt_ratio" in run("formula").output
    assert "least_fuse_rating" in run("formula", "fuse").output
    worked = run("formula", "belt_ratio", "d_1=1 1/2 in", "d_2=6 in")
    assert worked.exit_code == 0
    assert "4.00" in worked.output
    made = json.loads(run("formula", "gauge_area", "n=10", "--json").output)
    assert set(made[0]) == {"id", "equation", "arguments", "unit", "source", "limits", "value"}
    assert made[0]["value"] == pytest.approx(5.261e-6, rel=1e-3)  # ASTM B258: 10 AWG is 5.261 mm²


def test_the_command_knows_the_formulas_of_every_module() -> None:
    """In a process of its own, into which no test has imported a module."""
    code = "from buildsheet.cli import lookup; print(*sorted({one.function.__module__.rpartition('.')[2] for one in lookup.REGISTRY.values()}))"
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOT)
    modules = {path.stem for path in (ROOT / "buildsheet/formulas").glob("*.py")} - {"__init__", "formula"}
    assert set(ran.stdout.split()) == modules


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["belt_ratoi", "d_1=1 in"], "belt_ratio"),
        (["belt_ratio", "d_1=7,5 mm", "d_2=1 m"], "decimal point"),
        (["belt_ratio", "d_1=40 V", "d_2=1 m"], "length"),
        (["belt_ratio", "d_1=40 mm"], "also needs d_2"),
        (["belt_ratio", "x=40 mm"], "write one of d_1, d_2"),
        (["belt_ratio", "d_1=40 mm", "d_2=90 m"], "must be at most"),
    ],
)
def test_formula_refuses_in_one_line(arguments: list[str], says: str) -> None:
    ran = run("formula", *arguments)
    assert ran.exit_code == 2
    assert says in ran.output


def test_table_lists_prints_and_names_near_rows() -> None:
    assert "awg_copper" in run("table").output
    assert "3.14" in run("table", "awg_copper", "14 AWG").output
    wrong = run("table", "awg_copper", "13 AWG")
    assert wrong.exit_code == 2
    assert "14 AWG" in wrong.output
    made = json.loads(run("table", "awg_copper", "14 AWG", "--json").output)
    assert set(made) == {"id", "title", "source", "columns", "rows"}
    assert list(made["rows"]) == ["14 AWG"]


def test_schema_describes_every_key_and_takes_the_demo() -> None:
    schema = json.loads(run("schema").output)
    assert "motor" in schema["properties"]
    for name, model in schema["$defs"].items():
        for part in [model, *model.get("anyOf", [])]:
            for key, field in part.get("properties", {}).items():
                assert field.get("description"), f"{name}.{key} has no description"
