"""A project written back as a project file in long form: from the models alone, each quantity in the builder's own words."""

from collections.abc import Iterator

import yaml
from pydantic.fields import FieldInfo

from buildsheet.given.fields import Reads
from buildsheet.given.model import Given
from buildsheet.worksheet import Input, Value

STRING = "tag:yaml.org,2002:str"
STEP = "  "


def write(group: Given, *, explained: bool = False) -> str:
    """The text of a file that means the same: every group as keys, one key a line, in the order of the models with
    the keys first that must be there.

    What was not written is left out. With `explained` each key's description stands behind it where it comes up first.
    Raises ValueError for a quantity that is known and was not written by the builder.
    """
    met: set[tuple[type[Given], str]] | None = set() if explained else None
    return "".join(f"{line}\n" for line in _lines(group, met))


def _lines(group: Given, met: set[tuple[type[Given], str]] | None) -> Iterator[str]:
    fields = type(group).model_fields
    for name in sorted(fields, key=lambda name: not must(fields[name])):
        field = fields[name]
        if name not in group.model_fields_set:
            continue
        written = list(_written(getattr(group, name), met))
        if not written:
            continue
        remark = ""
        if met is not None and (type(group), name) not in met and field.description:
            met.add((type(group), name))
            remark = f"  # {field.description}"
        head, *rest = written
        yield f"{name}:{f' {head}' if head else ''}{remark}"
        yield from rest


def _written(thing: object, met: set[tuple[type[Given], str]] | None) -> Iterator[str]:
    """What stands behind the colon of a key, then the lines below it; nothing for what is not known or not there."""
    match thing:
        case Value(known=False) | None | ():
            return
        case Value(parent=Input(text=text)):
            yield scalar(text)
        case Value():
            raise ValueError(f"{thing.id} was not written by the builder")
        case bool():
            yield "true" if thing else "false"
        case str():
            yield scalar(thing)
        case tuple():
            yield ""
            for one in thing:
                yield from _item(one, met)
        case Given():
            lines = list(_lines(thing, met))
            yield from ["", *(f"{STEP}{line}" for line in lines)] if lines else ["{}"]
        case _:
            raise TypeError(f"a {type(thing).__name__} can't be written")


def _item(thing: object, met: set[tuple[type[Given], str]] | None) -> Iterator[str]:
    lines = list(_lines(thing, met)) if isinstance(thing, Given) else list(_written(thing, met))
    head, *rest = lines or ["{}"]
    yield f"{STEP}- {head}"
    yield from (f"{STEP}{STEP}{line}" for line in rest)


def must(field: FieldInfo) -> bool:
    """Whether a group can't be without the key; a quantity that is not written is unknown."""
    return field.is_required() and not any(isinstance(part, Reads) for part in field.metadata)


def scalar(text: str) -> str:
    """A text as YAML on one line, in quotes only where it would be read as something else without them."""
    node = yaml.ScalarNode(STRING, str(text), style='"' if text.splitlines() != [text] else None)
    # BaseDumper resolves nothing, as the reader of project files does: `no`, `1` and `2026-11-25` stay as they are
    made: str = yaml.serialize(node, Dumper=yaml.BaseDumper, allow_unicode=True, width=float("inf"))
    return made.removesuffix("\n").removesuffix("\n...")


__all__ = ["must", "scalar", "write"]
