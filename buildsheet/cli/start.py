"""A first project file, made from the models' own descriptions: a line for each group, blocks for what was named; or a
copy of another file in long form.
"""

from collections.abc import Collection, Iterator
from typing import Any, Literal, get_args, get_origin

from pydantic.fields import FieldInfo

from buildsheet.given.fields import Reads, Said
from buildsheet.given.model import Given
from buildsheet.given.problems import BuildsheetError, near
from buildsheet.given.site import REGIONS, Supply
from buildsheet.given.write import must, scalar, write
from buildsheet.project import FORMAT, Project, models_of, ways
from buildsheet.reference import region as region_of
from buildsheet.reference import table
from buildsheet.ways.drive import Drive
from buildsheet.ways.inverter import Inverter

SCHEMA_FILE = "buildsheet.schema.json"
HEAD = f"# $schema: ./{SCHEMA_FILE}\n"
GROUPS = ("machine", "supply", "battery", "motor", "power", "controls", "box", "runs")
# Groups and keys of which a machine has nothing to say, by what its way of powering runs on.
SPARED = {"line": ("battery",), "battery": ("supply", "cord")}
# Examples that a region knows better than the model: a row of its rules, or one of its words.
ROWS: tuple[tuple[type[Given], str, str], ...] = (
    (Supply, "voltage", "nominal line"),
    (Supply, "frequency", "line frequency"),
    (Supply, "breaker", "usual breaker"),
    (Drive, "line_voltage", "nominal line"),
    (Inverter, "output_high", "nominal line"),
    (Drive, "output_high", "usual drive output"),
)
WORDS: tuple[tuple[type[Given], str, str], ...] = ((Supply, "residual_current", "residual-current-device"),)
# What few can say and nobody should leave standing as an example: left out of one-line forms.
RARE = ("form_factor", "fault_current", "rated_over")
KEYS_ON_A_LINE = 3


def started(*, region: str, blocks: Collection[str] = (), way: str = "") -> str:
    """The text of a new file for a region. `blocks` are the groups that get a line for each of their keys; `way` is the
    way of powering, whose block is written when it is named. Raises BuildsheetError for a region or way that there is not.

    Every line but the format number and the region is a comment: taking its sign away gives a file that reads.
    """
    known = ways()
    _refuse_unless(region in REGIONS, "region", region, REGIONS)
    _refuse_unless(not way or way in known, "way of powering", way, known)
    chosen = known[way] if way else next(iter(known.values()))
    examples = _Examples(region, SPARED[chosen.runs_on])
    lines = [f"buildsheet: {FORMAT}", f"site: {{region: {region}}}"]
    for group in GROUPS:
        field = Project.model_fields[group]
        model = chosen if group == "power" else models_of(field.annotation)[0]
        if group in examples.spared:
            continue
        if group in blocks or (group == "power" and way):
            lines += examples.block(group, field, model)
        else:
            lines.append(f"# {group}: {examples.of(model)}  # {field.description}")
    return HEAD + "\n".join(lines) + "\n"


def copied(project: Project) -> str:
    """The text of a new file that means the same as a project: every group as keys, each key with what it is."""
    return HEAD + write(project, explained=True)


def _refuse_unless(there: bool, what: str, name: str, names: Collection[str]) -> None:
    if not there:
        close = near(name, names, most=1)
        meant = f'; did you mean "{close[0]}"?' if close else ""
        raise BuildsheetError(f'no {what} "{name}"; there are {", ".join(names)}{meant}')


class _Examples:
    """An example of every model and key, for one region and one kind of supply."""

    def __init__(self, region: str, spared: tuple[str, ...]):
        self.region, self.spared = region_of(region), spared

    def block(self, group: str, field: FieldInfo, model: type[Given]) -> Iterator[str]:
        """A commented line for the group and one for each of its keys, those first that must be there."""
        yield f"# {group}:  # {field.description}"
        for name, part in sorted(model.model_fields.items(), key=lambda item: not must(item[1])):
            if example := self.of_key(model, name):
                yield f"#   {name}: {example if example.startswith('{') else scalar(example)}  # {part.description}"

    def of(self, model: type[Given]) -> str:
        """Its one-line form, or keys: those that must be there, then the first that have something to say."""
        if model.SHORT:
            return ", ".join(said for name in model.SHORT if (said := self._spoken(model, name)))
        fields = sorted(model.model_fields.items(), key=lambda item: not must(item[1]))
        keys = [
            f"{name}: {_quoted(example)}"
            for name, field in fields
            if name not in self.spared and _speaks(field) and (example := self.of_key(model, name))
        ]
        return "{" + ", ".join(keys[:KEYS_ON_A_LINE]) + "}"

    def of_key(self, model: type[Given], name: str) -> str:
        """An example of one key; empty for free words and lists that have none."""
        field = model.model_fields[name]
        for kind, key, row in ROWS:
            if issubclass(model, kind) and key == name:
                return table(self.region.tables["rules"]).cell(row, "value").printed
        for kind, key, word in WORDS:
            if issubclass(model, kind) and key == name:
                return self.region.words[word]
        if field.examples:
            return str(field.examples[0])
        if nested := models_of(field.annotation):
            return self.of(nested[0]) if get_origin(field.annotation) is not tuple else ""
        if get_origin(field.annotation) is tuple:
            return ""
        if bool in (field.annotation, *get_args(field.annotation)):
            return "true"
        return _choice(field.annotation)

    def _spoken(self, model: type[Given], name: str) -> str:
        """A field of a one-line form as it is spoken there; empty for one that goes without saying."""
        field = model.model_fields[name]
        if name in RARE or isinstance(field.default, str | bool):
            return ""
        example = self.of_key(model, name)
        said = next((part for part in field.metadata if isinstance(part, Said)), Said())
        if not example or (not _quantity(field) and not _choice(field.annotation)):
            return ""
        return " ".join(part for part in (said.before, example, said.after) if part)


def _speaks(field: FieldInfo) -> bool:
    """Whether a key belongs into a short example: not a flag that is as it should be, and not a group that is neither
    short nor has a key that must be there."""
    if field.default is True:
        return False
    return all(
        model.SHORT or any(must(part) for part in model.model_fields.values())
        for model in models_of(field.annotation)
    )


def _quantity(field: FieldInfo) -> bool:
    return any(isinstance(part, Reads) for part in field.metadata)


def _quoted(example: str) -> str:
    """An example inside braces, where a comma would end it."""
    if example.startswith("{"):
        return example
    return f'"{example}"' if "," in example else scalar(example)


def _choice(annotation: Any) -> str:
    """The first word of a closed list."""
    if get_origin(annotation) is Literal:
        return str(get_args(annotation)[0])
    return next((found for part in get_args(annotation) if (found := _choice(part))), "")
