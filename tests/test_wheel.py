"""The wheel holds all that a packet needs: templates, tables, regions, fonts with their licence."""

import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]


@pytest.fixture(scope="module")
def names(tmp_path_factory: pytest.TempPathFactory) -> set[str]:
    folder = tmp_path_factory.mktemp("wheel")
    command = [sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps", "--no-build-isolation", "--no-index", "-w", str(folder), str(ROOT)]
    subprocess.run(command, check=True, capture_output=True)
    with zipfile.ZipFile(next(folder.glob("*.whl"))) as wheel:
        return set(wheel.namelist())


def test_every_file_that_the_package_reads_is_in_the_wheel(names: set[str]) -> None:
    package = ROOT / "buildsheet"
    wanted = {path.relative_to(ROOT).as_posix() for pattern in ("**/*.py", "**/*.toml", "units.txt", "units_worked.json") for path in package.glob(pattern)}
    wanted |= {f"buildsheet/templates/{path.relative_to(ROOT / 'templates').as_posix()}" for path in (ROOT / "templates").rglob("*") if path.is_file()}
    assert wanted - names == set()


def test_the_fonts_are_in_the_wheel_with_their_licence(names: set[str]) -> None:
    fonts = {name for name in names if name.startswith("buildsheet/packet/fonts/files/")}
    assert len([name for name in fonts if name.endswith(".ttf")]) == 4
    assert any(name.endswith("LICENSE.txt") for name in fonts)
    assert any(name.endswith("fonts.conf") for name in fonts)
