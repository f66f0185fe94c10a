"""A first project file, made from the models' own descriptions: a line for each group, blocks for what was named."""

from typing import Any, Literal, get_args, get_origin

from pydantic.fields import FieldInfo

from buildsheet.given.fields import Reads, Said
from buildsheet.given.model import Given
from buildsheet.project import FORMAT, Project

SCHEMA_FILE = "buildsheet.schema.json"
GROUPS = ("machine", "site", "supply", "motor", "power", "controls", "box", "runs")


def started(*, region: str, blocks: tuple[str, ...]) -> str:
    """The text of a new file for a region. `blocks` are the groups that get a line for each of their keys.

    Every line but the format number and the region is a comment: taking its sign away gives a file that reads.
    """
    lines = [f"# $schema: ./{SCHEMA_FILE}", f"buildsheet: {FORMAT}", f"site: {{region: {region}}}"]
    for group in GROUPS:
        field = Project.model_fields[group]
        model = _model(field.annotation)
        if group in blocks and model is not None:
            lines += _block(group, field, model)
        elif group != "site":
            lines.append(f"# {group}: {_example(model)}  # {field.description}")
    return "\n".join(lines) + "\n"


def _block(group: str, field: FieldInfo, model: type[Given]) -> list[str]:
    lines = [f"# {group}:  # {field.description}"]
    for name, part in model.model_fields.items():
        example = _field_example(part)
        if example:
            lines.append(f"#   {name}: {example}  # {part.description}")
    return lines


def _example(model: type[Given] | None) -> str:
    """One example of a model: its one-line form, or keys with the examples of those that must be there or come first."""
    if model is None:
        return ""
    if model.SHORT:
        parts = [_spoken(model.model_fields[name]) for name in model.SHORT]
        return ", ".join(part for part in parts if part)
    keys = [(name, _field_example(part)) for name, part in model.model_fields.items()]
    wanted = [(name, example) for name, example in keys if example][:3]
    return "{" + ", ".join(f"{name}: {_quoted(example)}" for name, example in wanted) + "}"


def _quoted(example: str) -> str:
    return f'"{example}"' if "," in example and not example.startswith("{") else example


def _spoken(field: FieldInfo) -> str:
    """A field of a one-line form as it is spoken there."""
    if not any(isinstance(part, Reads) for part in field.metadata):
        return _choice(field.annotation)
    said = next((part for part in field.metadata if isinstance(part, Said)), Said())
    example = str((field.examples or [""])[0])
    if not example:
        return ""
    return " ".join(part for part in (said.before, example, said.after) if part)


def _field_example(field: FieldInfo) -> str:
    if field.examples:
        return str(field.examples[0])
    model = _model(field.annotation)
    if model is not None:
        return _example(model) if get_origin(field.annotation) is not tuple else ""
    if bool in (field.annotation, *get_args(field.annotation)):
        return "true"
    return _choice(field.annotation)


def _choice(annotation: Any) -> str:
    """The first word of a closed list."""
    if get_origin(annotation) is Literal:
        return str(get_args(annotation)[0])
    return next((found for part in get_args(annotation) if (found := _choice(part))), "")


def _model(annotation: Any) -> type[Given] | None:
    if isinstance(annotation, type) and issubclass(annotation, Given):
        return annotation
    return next((found for part in get_args(annotation) if (found := _model(part)) is not None), None)
