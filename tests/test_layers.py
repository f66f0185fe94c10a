"""Imports go down only; rooms of one floor do not import each other; heavy libraries stay out of quick commands."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest

PACKAGE = Path(__file__).resolve().parents[1] / "buildsheet"
FLOORS: dict[str, int] = {
    "units": 0, "quantities": 0, "citations": 0,
    "formulas": 1, "waveforms": 1, "reference": 1,
    "worksheet": 2,
    "given": 3, "circuit": 3,
    "sizing": 4,
    "ways": 5, "motors": 5, "controls": 5,
    "project": 6, "design": 7, "rules": 8, "plan": 9, "packet": 10, "cli": 11,
}  # fmt: skip
# Formulas may call solvers of waveforms; quantities are read into and printed from the kinds beside them.
ALLOWED = {("formulas", "waveforms"), ("quantities", "units")}


def room_of(path: Path) -> str:
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


def imported_rooms(path: Path) -> set[str]:
    """Rooms that a module imports, also inside functions and as relative imports."""
    rooms = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            rooms |= {name.name.split(".")[1] for name in node.names if name.name.startswith("buildsheet.")}
        elif isinstance(node, ast.ImportFrom) and node.module and node.module.startswith("buildsheet."):
            rooms.add(node.module.split(".")[1])
        elif isinstance(node, ast.ImportFrom) and node.module == "buildsheet":
            rooms |= {name.name for name in node.names if name.name != "__version__"}
    return rooms


MODULES = sorted(path for path in PACKAGE.rglob("*.py") if path != PACKAGE / "__init__.py")


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_imports_go_down(path: Path) -> None:
    here = room_of(path)
    for room in imported_rooms(path) - {here}:
        assert FLOORS[room] < FLOORS[here] or (here, room) in ALLOWED, f"{here} imports {room}"


@pytest.mark.parametrize("path", [p for p in MODULES if room_of(p) == "packet"], ids=lambda path: path.name)
def test_packet_sees_values_and_never_formulas(path: Path) -> None:
    assert "formulas" not in imported_rooms(path)


def test_every_room_has_a_floor() -> None:
    rooms = {room_of(path) for path in MODULES}
    assert rooms == set(FLOORS)


@pytest.mark.parametrize(
    ("arguments", "kept_out"),
    [
        (["--help"], {"pydantic", "pint", "jinja2", "weasyprint", "yaml"}),
        (["check", "projects/strip-sander/strip-sander.yaml"], {"jinja2", "weasyprint", "fontTools"}),
    ],
    ids=["help", "check"],
)
def test_quick_commands_import_little(arguments: list[str], kept_out: set[str]) -> None:
    code = (
        "import sys\nfrom buildsheet.cli import main\n"
        f"try:\n    main({arguments!r})\nexcept SystemExit:\n    pass\nprint(sorted(set(sys.modules) & {kept_out!r}), file=sys.stderr)"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=PACKAGE.parent)
    assert ran.stderr.strip().splitlines()[-1] == "[]"
