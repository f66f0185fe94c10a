"""YAML read as text only: every scalar stays the text that was written and knows its place.

No resolver runs, so that `no`, `010`, `12:30` and `1e3` keep their spelling until a field says what it wants. Aliases,
tags, duplicate keys and bombs are refused.
"""

from collections.abc import Iterator
from typing import Any

import yaml

from buildsheet.given.problems import Problem, ProjectError

MOST_BYTES = 500_000
MOST_ITEMS = 20_000
MOST_DEPTH = 24
TOO_DEEP = ("too many nested or too many items", "a project file", "take the brackets or indents away")
_Loader: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


class Place:
    """Where something stands in a file; line and column count from 1. A field adds the label of what it is.

    `exact` is false for a text that stands there otherwise than it reads (folded over lines, with escapes), so that
    a column inside it can't be told.
    """

    __slots__ = ("column", "exact", "file", "key", "label", "line")

    def __init__(self, file: str, line: int, column: int, key: str, exact: bool = True):
        self.file, self.line, self.column, self.key, self.exact = file, line, column, key, exact
        self.label = ""


class Text(str):
    """A scalar as written, with its place. Slices for short forms are made by `piece`."""

    __slots__ = ("place",)
    place: Place

    def __new__(cls, text: str, place: Place) -> "Text":  # noqa: PYI034  only this class is made
        self = super().__new__(cls, text)
        self.place = place
        return self

    def piece(self, start: int, end: int, key: str) -> "Text":
        """A part of a one-line text under its own key, with its own column."""
        at = self.place
        return Text(self[start:end], Place(at.file, at.line, at.column + start * at.exact, key, at.exact))

    @property
    def width(self) -> int:
        """How many columns it takes in the file, 1 when that can't be told."""
        return len(self) if self.place.exact else 1

    def under(self, key: str) -> "Text":
        """The same text at the same place under another key."""
        return self.piece(0, len(self), key)


class Mapping(dict[str, Any]):
    """A mapping with its place, and the places of its keys."""

    def __init__(self, place: Place):
        super().__init__()
        self.place = place
        self.key_places: dict[str, Place] = {}


class Items(list[Any]):
    """A sequence with its place."""

    def __init__(self, place: Place):
        super().__init__()
        self.place = place


def read_tree(text: str, file: str) -> Mapping:
    """The file's mapping. Raises ProjectError with the first problem that stops reading, or all duplicate keys."""
    if len(text.encode("utf-8", "replace")) > MOST_BYTES:
        found, instead = f"more than {MOST_BYTES} bytes", "keep one machine in a file"
        raise _error(file, text, 1, 1, "too-big", found, "a project file", instead)
    if bad := yaml.reader.Reader.NON_PRINTABLE.search(text):
        before = (text[: bad.start()] + "x").splitlines()
        found, instead = f"the character U+{ord(bad[0]):04X}", "take the invisible character out"
        raise _error(file, text, len(before), len(before[-1]), "syntax", found, "plain text", instead)
    try:
        _refuse(text, file)
        node = yaml.compose(text, Loader=_Loader)
    except (yaml.MarkedYAMLError, yaml.reader.ReaderError) as error:
        raise _syntax(error, text, file) from None
    if node is None:
        wanted = "a project file"
        raise _error(
            file, text, 1, 1, "empty", "nothing", wanted, instead="begin with the line: buildsheet: 1"
        )
    if not isinstance(node, yaml.MappingNode):
        raise _error(
            file,
            text,
            1,
            1,
            "not-a-mapping",
            "a list or a text",
            "keys with values",
            instead="begin with the line: buildsheet: 1",
        )
    problems: list[Problem] = []
    tree = _build(node, file, "", problems)
    if problems:
        raise ProjectError(file, problems, text)
    assert isinstance(tree, Mapping)  # noqa: S101  the node is a mapping
    return tree


def _refuse(text: str, file: str) -> None:
    depth = items = documents = 0
    for event in yaml.parse(text, Loader=_Loader):
        mark: Any = event.start_mark
        line, column = mark.line + 1, mark.column + 1
        if isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None):
            raise _error(
                file,
                text,
                line,
                column,
                "alias",
                "an alias or anchor",
                "the value itself",
                instead="write the value out at both places",
            )
        if tag := getattr(event, "tag", None):
            raise _error(
                file,
                text,
                line,
                column,
                "tag",
                f'the tag "{tag}"',
                "a plain value",
                instead="take the word with ! away",
            )
        if isinstance(event, yaml.DocumentStartEvent):
            documents += 1
            if documents > 1:
                raise _error(
                    file,
                    text,
                    line,
                    column,
                    "syntax",
                    "a second document",
                    "one document",
                    instead="take the line --- away",
                )
        opens = isinstance(event, yaml.CollectionStartEvent)
        depth += opens - isinstance(event, yaml.CollectionEndEvent)
        items += isinstance(event, yaml.NodeEvent)
        if depth > MOST_DEPTH or items > MOST_ITEMS:
            raise _error(file, text, line, column, "too-deep", *TOO_DEEP)


def _build(node: yaml.Node, file: str, key: str, problems: list[Problem]) -> Text | Mapping | Items:
    place = Place(file, node.start_mark.line + 1, node.start_mark.column + 1, key)
    if isinstance(node, yaml.ScalarNode):
        quotes = 1 if node.style in ("'", '"') else 0
        start, end = node.start_mark, node.end_mark
        exact = start.line == end.line and end.column - start.column - 2 * quotes == len(node.value)
        return Text(node.value, Place(file, place.line, place.column + quotes, key, exact))
    if isinstance(node, yaml.SequenceNode):
        items = Items(place)
        items.extend(
            _build(child, file, f"{key}.{number}".lstrip("."), problems)
            for number, child in enumerate(node.value, 1)
        )
        return items
    mapping = Mapping(place)
    for key_node, child in node.value:
        at = Place(file, key_node.start_mark.line + 1, key_node.start_mark.column + 1, key)
        if not isinstance(key_node, yaml.ScalarNode):
            problems.append(
                Problem(at.line, at.column, "syntax", key, "a key that is no word", "a word as key", 1, "write a word and a colon")
            )
            continue
        name = key_node.value
        path = f"{key}.{name}".lstrip(".")
        if name in mapping:
            first = mapping.key_places[name].line
            found, wanted = f'"{name}" again, after line {first}', "each key once"
            problems.append(
                Problem(
                    at.line,
                    at.column,
                    "duplicate-key",
                    path,
                    found,
                    wanted,
                    len(name),
                    "keep one of the two lines",
                )
            )
            continue
        mapping.key_places[name] = Place(file, at.line, at.column, path)
        mapping[name] = _build(child, file, path, problems)
    return mapping


def texts(tree: Any) -> Iterator[Text]:
    """Every scalar of a tree."""
    if isinstance(tree, Text):
        yield tree
    else:
        for child in tree.values() if isinstance(tree, Mapping) else tree:
            yield from texts(child)


def _error(
    file: str, text: str, line: int, column: int, code: str, found: str, wanted: str, instead: str = ""
) -> ProjectError:
    return ProjectError(file, [Problem(line, column, code, "", found, wanted, 1, instead)], text)


def _syntax(error: yaml.YAMLError, text: str, file: str) -> ProjectError:
    mark = getattr(error, "problem_mark", None)
    line, column = (mark.line + 1, mark.column + 1) if mark else (1, 1)
    found = (getattr(error, "problem", None) or "a character that can't be read").removeprefix("found ")
    if "nesting depth" in found:
        return _error(file, text, line, column, "too-deep", *TOO_DEEP)
    if "character" in found and "\t" in text:
        found = "a tab"
    instead = "check the indentation of this line and of the one above: spaces only, two for each level"
    return _error(file, text, line, column, "syntax", found, "YAML: key, colon, space, value", instead)
