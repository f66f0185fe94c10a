"""The root of a project file: what a builder means by the whole of it, and reading it from text."""

from pathlib import Path
from typing import Annotated, Any, Literal, TypeVar, get_args, overload

from pydantic import BeforeValidator, Discriminator, Field, Tag, ValidationError
from pydantic.fields import FieldInfo
from pydantic_core import ErrorDetails

from buildsheet.controls.choices import Controls
from buildsheet.given.battery import Battery
from buildsheet.given.extras import Extra, Renamed
from buildsheet.given.fields import refuse
from buildsheet.given.machine import BeltStep, Machine, TurningPart
from buildsheet.given.model import Given, choices
from buildsheet.given.parts import Part
from buildsheet.given.problems import (
    CODES,
    LEAVE_OUT,
    BuildsheetError,
    Problem,
    ProjectError,
    cut,
    listed,
    near,
    not_known,
)
from buildsheet.given.site import Box, Runs, Site, Supply
from buildsheet.given.tree import Items, Mapping, Text, read_tree, texts
from buildsheet.motors.magnet_dc import MagnetDC
from buildsheet.motors.series import SeriesMotor
from buildsheet.motors.shunt import ShuntMotor
from buildsheet.motors.single_phase import SinglePhase
from buildsheet.motors.three_phase import ThreePhaseMotor
from buildsheet.ways.battery_direct import BatteryDirect
from buildsheet.ways.battery_drive import BatteryPulseDrive
from buildsheet.ways.inverter import Inverter
from buildsheet.ways.kept_board import KeptBoard
from buildsheet.ways.line import StraightOnLine
from buildsheet.ways.line_pulse_drive import LinePulseDrive
from buildsheet.ways.phase_drive import PhaseControlledDrive
from buildsheet.ways.pulsed_board import PulsedBoard
from buildsheet.ways.speed_box import SpeedBox
from buildsheet.ways.supply_unit import SupplyUnitDrive
from buildsheet.ways.transformer_bridge import TransformerBridge
from buildsheet.ways.variable_autotransformer import VariableAutotransformer
from buildsheet.ways.way import Way

FORMAT = "1"
MOST_LETTERS = 110  # of a long list of words in a message


def _format(given: object) -> object:
    if isinstance(given, Text) and given != FORMAT:
        raise refuse(
            "format",
            f'"{given}"',
            f"a format that this program knows: {FORMAT}",
            f"begin with the line: buildsheet: {FORMAT}",
        )
    return FORMAT if isinstance(given, Text) else given


def kind(given: Any) -> str:
    """The kind of motor that a group is of; one that does not say is read as the first, so that all that is wrong in it is
    told at once."""
    word = given.get("kind", KINDS[0]) if isinstance(given, Mapping) else getattr(given, "kind", KINDS[0])
    return str(word)


KINDS = ("magnet-dc", "series", "split-phase", "capacitor-start", "permanent-split-capacitor", "shaded-pole", "three-phase", "shunt")
AnyMotor = Annotated[
    Annotated[MagnetDC, Tag(KINDS[0])]
    | Annotated[SeriesMotor, Tag(KINDS[1])]
    | Annotated[SinglePhase, Tag(KINDS[2])]
    | Annotated[SinglePhase, Tag(KINDS[3])]
    | Annotated[SinglePhase, Tag(KINDS[4])]
    | Annotated[SinglePhase, Tag(KINDS[5])]
    | Annotated[ThreePhaseMotor, Tag(KINDS[6])]
    | Annotated[ShuntMotor, Tag(KINDS[7])],
    Discriminator(kind),
]


class Accepted(Given):
    """A finding that was accepted in writing."""

    finding: str = Field(description="Id of the finding.")
    why: str = Field(description="Why it is accepted.")
    by: str = Field(description="Who accepts it.")
    date: str = Field(description="Date, year first.", pattern=r"^\d{4}-\d{2}-\d{2}$")


class Revision(Given):
    """One revision of the sheet."""

    rev: str = Field(description="Letter.", examples=["A"], max_length=3)
    date: str = Field(description="Date, year first.", pattern=r"^\d{4}-\d{2}-\d{2}$")
    note: str = Field("", description="What changed.", max_length=120)


class Project(Given):
    """A machine that is to be built around a salvaged motor. Everything but the format number is optional."""

    buildsheet: Annotated[str, BeforeValidator(_format, json_schema_input_type=int | str)] = Field(
        description="Format of this file: 1."
    )
    machine: Machine | None = Field(None, description="What the machine is and does.")
    site: Site | None = Field(None, description="Where it stands.")
    supply: Supply | None = Field(None, description="The outlet that it is fed from.")
    battery: Battery | None = Field(None, description="The battery that it is fed from, instead of an outlet.")
    motor: AnyMotor | None = Field(None, description="What is known of the motor.")
    belts: tuple[BeltStep, ...] = Field((), description="Belts from the motor to the tool, in order.")
    turning: tuple[TurningPart, ...] = Field((), description="Parts that turn, with the speed each stands.")
    power: Annotated[PhaseControlledDrive | KeptBoard | PulsedBoard | LinePulseDrive | VariableAutotransformer | TransformerBridge | SpeedBox | SupplyUnitDrive | BatteryPulseDrive | BatteryDirect | Inverter | StraightOnLine, Field(discriminator="way")] | None = Field(
        None, description="How the motor is powered."
    )
    extras: tuple[Extra, ...] = Field((), max_length=8, description="Lamps, indicators and fans of your own.")
    names: tuple[Renamed, ...] = Field((), description="Screws that are called otherwise on the part itself.")
    controls: Controls | None = Field(None, description="Stages between plug and motor.")
    box: Box | None = Field(None, description="The enclosure of the electrical parts.")
    runs: Runs | None = Field(None, description="Lengths of cables.")
    on_hand: tuple[Part, ...] = Field((), description="Parts on hand.")
    accept: tuple[Accepted, ...] = Field((), description="Findings accepted in writing.")
    revisions: tuple[Revision, ...] = Field((), description="Revisions of the sheet, oldest first.")

    @property
    def fed_by(self) -> Literal["supply", "battery"]:
        """The group that feeds the machine: what its way of powering runs on, an outlet when none is named."""
        return "battery" if self.power is not None and self.power.runs_on == "battery" else "supply"


P = TypeVar("P", bound=Project)


@overload
def load(path: Path, characters: frozenset[str] | None = None) -> Project: ...
@overload
def load(path: Path, characters: frozenset[str] | None = None, *, model: type[P]) -> P: ...
def load(
    path: Path, characters: frozenset[str] | None = None, *, model: type[Project] = Project
) -> Project:
    """Reads a project file. Raises ProjectError with every problem, BuildsheetError when it can't be opened."""
    try:
        text = path.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError as error:
        problem = Problem(
            1,
            1,
            "syntax",
            "",
            f"a byte that is no UTF-8 (number {error.start})",
            "a text file",
            1,
            "save the file as UTF-8",
        )
        raise ProjectError(path.name, [problem], "") from None
    except OSError as error:
        raise BuildsheetError(f"{path}: {error.strerror or error}") from None
    return read(text, path.name, characters, model=model)


@overload
def read(text: str, file: str, characters: frozenset[str] | None = None) -> Project: ...
@overload
def read(text: str, file: str, characters: frozenset[str] | None = None, *, model: type[P]) -> P: ...
def read(
    text: str, file: str, characters: frozenset[str] | None = None, *, model: type[Project] = Project
) -> Project:
    """A project from its text. `characters` are those that can be printed; others are refused with their place.
    `model` is a Project with further ways of powering in its union.

    Raises ProjectError with every problem of the file, in file order.
    """
    tree = read_tree(text, file)
    problems = list(_unprintable(tree, characters)) if characters is not None else []
    if "buildsheet" not in tree:
        problems.append(
            Problem(
                1,
                1,
                "missing-key",
                "buildsheet",
                "no format number",
                "buildsheet: 1",
                1,
                f"begin with the line: buildsheet: {FORMAT}",
            )
        )
    try:
        project = model.model_validate(tree)
    except ValidationError as error:
        problems += [
            _problem(detail, tree, model)
            for detail in error.errors(include_url=False)
            if detail["loc"] != ("buildsheet",) or "buildsheet" in tree
        ]
        raise ProjectError(file, problems, text) from None
    if problems:
        raise ProjectError(file, problems, text)
    return project


def json_schema() -> dict[str, Any]:
    """JSON Schema of a project file, with descriptions and examples."""
    made = Project.model_json_schema()
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **made}


def _unprintable(tree: Mapping, characters: frozenset[str]) -> list[Problem]:
    found = []
    for text in texts(tree):
        bad = next(
            (index for index, sign in enumerate(text) if sign not in characters and not sign.isspace()), None
        )
        if bad is not None:
            at = text.place
            found.append(
                Problem(
                    at.line,
                    at.column + bad * at.exact,
                    "glyph",
                    at.key,
                    f'"{text[bad]}", which the print has no sign for',
                    "another sign",
                    1,
                    "write it with letters and digits",
                )
            )
    return found


def _problem(detail: ErrorDetails, tree: Mapping, model: type[Project]) -> Problem:
    """A pydantic error as a Problem: the place is the value's own, a missing key points at its parent."""
    loc = tuple(
        part
        for part in detail["loc"]
        if not (isinstance(part, str) and part.startswith(("function-", "is-instance")))
    )
    node, parent, key = _walk(tree, loc)
    place = node.place if isinstance(node, Text | Mapping | Items) else parent.place
    context = detail.get("ctx", {})
    width = node.width if isinstance(node, Text) else 1
    line, column = place.line, place.column
    if "line" in context:  # a piece of a one-line form knows its own place
        line, column, width = context["line"], context["column"], context["width"]
    found, wanted, instead = (
        str(context.get("found", "")),
        str(context.get("wanted", "")),
        str(context.get("instead", "")),
    )
    code = str(context.get("code", ""))
    kind = detail["type"]
    if kind == "extra_forbidden":
        name = str(loc[-1])
        place = parent.key_places.get(name, place) if isinstance(parent, Mapping) else place
        keys = list(_model_at(model, loc[:-1]).model_fields)
        close = near(name, keys)
        line, column = place.line, place.column
        code, found, wanted, width = "unknown-key", f'"{cut(name)}"', f"a key such as {', '.join(close) or listed(keys)}", len(name)
        instead = f"write {close[0]}: instead" if close else "take the line away, or write one of these keys"
    elif kind == "missing":
        code, found, wanted, instead = (
            "missing-key",
            "no such key",
            f"the key {loc[-1]}",
            f"add a line {loc[-1]}: below",
        )
    elif kind == "union_tag_not_found":
        name = str(context.get("discriminator", "")).strip("'")
        code, found, wanted, instead = "missing-key", "no such key", f"the key {name}", f"add a line {name}: below"
    elif kind in ("literal_error", "union_tag_invalid", "enum"):
        chooser = str(context.get("discriminator", "")).strip("'").removesuffix("()")
        if isinstance(node, Mapping) and chooser in node:  # the word by which one of several models is chosen
            node, key = node[chooser], f"{key}.{chooser}"
            line, column, width = node.place.line, node.place.column, getattr(node, "width", 1)
        words = _words(str(context.get("expected") or context.get("expected_tags") or ""))
        close = near(str(node), words) if isinstance(node, Text) else []
        code, found, wanted = "unknown-word", _found(node), f"one of: {listed(words, MOST_LETTERS)}"
        instead = f'write "{close[0]}"' if close else "write one of these words"
        if isinstance(node, Text) and not_known(node) and not chooser and not _required(model, loc):
            instead = LEAVE_OUT
    elif kind == "too_long":
        code, found, wanted, instead = "wrong-shape", f"{context['actual_length']} items", f"at most {context['max_length']}", "take some away"
    elif kind == "string_pattern_mismatch" and not key.endswith("date"):
        code, found, wanted, instead = "wrong-shape", _found(node), "the few letters and digits of a code or a screw", "write for example A1"
    elif kind in SHAPES:
        code, found, (wanted, instead) = "wrong-shape", _found(node), SHAPES[kind]
    elif not code:
        code, found, wanted = (
            "wrong-shape",
            _found(node),
            detail["msg"].lower().removeprefix("input should be "),
        )
    code = code if code in CODES else "wrong-shape"
    return Problem(line, column, code, key, found, wanted, width, instead)


# What pydantic calls the shape of a value -> what is wanted, and what to type instead.
SHAPES = {
    "tuple_type": ("a list", "write one line for each, beginning with a dash"),
    "string_type": ("one text", "write a few words"),
    "string_too_long": ("a shorter text", "shorten it"),
    "string_pattern_mismatch": ("a date, year first", "write for example 2026-03-14"),
}


def _found(node: Any) -> str:
    if isinstance(node, Text):
        return f'"{cut(node)}"'
    return "a list" if isinstance(node, Items) else "keys"


def _walk(tree: Mapping, loc: tuple[Any, ...]) -> tuple[Any, Any, str]:
    node: Any = tree
    parent: Any = tree
    key = []
    for part in loc:
        if isinstance(node, Mapping) and part not in node and (part in KINDS or part in (v for v in node.values() if isinstance(v, Text))):
            continue  # the word by which one of several models is chosen is no key
        key.append(str(part + 1) if isinstance(part, int) else str(part))
        if (isinstance(node, Mapping) and part in node) or (
            isinstance(node, Items) and isinstance(part, int) and part < len(node)
        ):
            parent, node = node, node[part]
        elif isinstance(node, Text):
            return node, parent, ".".join(key)  # a short form: the piece's text is not kept, its line is
        else:
            return None, node if isinstance(node, Mapping | Items) else parent, ".".join(key)
    return node, parent, ".".join(key)


def _model_at(root: type[Project], loc: tuple[Any, ...]) -> Any:
    models: list[Any] = [root]
    for part in loc:
        if isinstance(part, int):
            continue
        holding = [model for model in models if part in model.model_fields]
        if holding:
            models = models_of(holding[0].model_fields[part].annotation) or models
        else:  # the word by which one of several models is chosen
            models = [m for m in models if any(part in choices(f.annotation) for f in m.model_fields.values())] or models
    return models[0]


def models_of(annotation: Any) -> list[type[Given]]:
    """The models that an annotation names, through unions and tuples."""
    if isinstance(annotation, type) and issubclass(annotation, Given):
        return [annotation]
    return [found for part in get_args(annotation) for found in models_of(part)]


def ways() -> dict[str, type[Way]]:
    """The models of the ways of powering, by the word that chooses one."""
    return {
        word: model
        for model in models_of(Project.model_fields["power"].annotation)
        if issubclass(model, Way)
        for word in choices(model.model_fields["way"].annotation)
    }


def _required(root: type[Project], loc: tuple[Any, ...]) -> bool:
    """Whether its group can't be without the key."""
    model = _model_at(root, loc[:-1])
    return loc[-1] in model.model_fields and model.model_fields[loc[-1]].is_required()


def words_of(project: Project, key: str) -> tuple[str, ...]:
    """The closed list of words of a key, such as `site.where`; empty when it has none."""
    field = _field(project, key)
    return choices(field.annotation) if field is not None else ()


def example_of(project: Project, key: str) -> str:
    """An example of a key from its description; empty when there is none."""
    field = _field(project, key)
    return str(field.examples[0]) if field is not None and field.examples else ""


def _field(project: Project, key: str) -> FieldInfo | None:
    """The field of a key whose group is in the file; items of a list count from 1."""
    *groups, name = key.split(".")
    thing: Any = project
    for part in groups:
        thing = thing[int(part) - 1] if part.isdigit() else getattr(thing, part, None)
    return type(thing).model_fields.get(name) if isinstance(thing, Given) else None


def _words(expected: str) -> list[str]:
    return [word.strip().strip("'\"") for word in expected.replace(" or ", ", ").split(",") if word.strip()]


__all__ = ["FORMAT", "Project", "load", "models_of", "read", "ways"]
