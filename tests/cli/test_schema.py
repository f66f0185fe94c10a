"""The JSON Schema that editors get takes what the reader takes, and refuses what it refuses."""

from pathlib import Path
from typing import Any

import jsonschema
import pytest

from buildsheet.given.tree import Items, Mapping, read_tree
from buildsheet.project import json_schema

ROOT = Path(__file__).resolve().parents[2]
SCHEMA = json_schema()


def plain(tree: Any) -> Any:
    """The tree as an editor's YAML mode hands it to a validator."""
    if isinstance(tree, Mapping):
        return {key: plain(value) for key, value in tree.items()}
    if isinstance(tree, Items):
        return [plain(value) for value in tree]
    return str(tree)


def test_it_is_a_valid_schema() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


@pytest.mark.parametrize("path", sorted(ROOT.glob("projects/*/*.yaml")), ids=lambda path: path.stem)
def test_it_takes_the_demos(path: Path) -> None:
    jsonschema.validate(plain(read_tree(path.read_text(encoding="utf-8"), path.name)), SCHEMA)


@pytest.mark.parametrize(
    "text",
    [
        "buildsheet: 1\nmotr: {}\n",
        "buildsheet: 1\nsite: {region: north-amerika}\n",
        "buildsheet: 1\nsite: {ambient: [1]}\n",
        "motor: {kind: magnet-dc}\n",
        "buildsheet: 1\nmachine: {reverse: yes}\n",
    ],
)
def test_it_refuses_what_the_reader_refuses(text: str) -> None:
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(plain(read_tree(text, "t.yaml")), SCHEMA)
