"""The base of every model of a project file: unknown keys are errors, unwritten quantities are unknown Values, and a
group of quantities may be written on one line.
"""

import re
from collections.abc import Iterator, Mapping
from functools import cache
from types import UnionType
from typing import Any, ClassVar, Literal, Union, get_args, get_origin

from pydantic import BaseModel, ConfigDict, GetJsonSchemaHandler, model_validator
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, PydanticCustomError

from buildsheet.given.fields import Reads, Said, Unwritten, at_piece, refuse
from buildsheet.given.problems import LEAVE_OUT, listed, near, not_known
from buildsheet.given.tree import Items, Text
from buildsheet.given.tree import Mapping as TextMapping
from buildsheet.quantities import QuantityError, kinds_of, read
from buildsheet.units import NUMBER, Unit

_NUMBER = r"(?:\d+\s+\d+/\d+|\d+/\d+|(?:\d+(?:\.\d+)?|\.\d+)(?:[eE][+-]?\d+)?)"
_JOINED = re.compile(rf"[+-]?{_NUMBER}(?:\s*(?:\.\.|->|→|\bx\b|×)\s*[+-]?{_NUMBER})*")
_HYPHENED = re.compile(rf"(?P<low>{_NUMBER})\s*(?:[-\u2013\u2014]|\bto\b)\s*(?P<high>{_NUMBER})")
_UNIT = re.compile(r"\s*(?P<unit>[A-Za-zµμΩ\u2126°%][A-Za-z0-9µμΩ\u2126°·*/^²³]*(?:\*\*\d)?)")
_JOINT = re.compile(r"\s*(?:\.\.|->|→|\bx\b|×)\s*")
_FILLERS = {"at", "and", "with", "of", "in"}
MOST_ON_ONE_LINE = 300  # characters


class Given(BaseModel):
    """A group of statements. Frozen; a key that is not known is an error; a quantity that is not written is unknown.

    `SHORT` names the fields that a one-line form may fill, in the order in which quantities of one kind are taken;
    empty means that there is no one-line form.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", arbitrary_types_allowed=True, defer_build=True)  # the one of the whole file is built, none for each of its groups
    SHORT: ClassVar[tuple[str, ...]] = ()

    @model_validator(mode="before")
    @classmethod
    def _read(cls, given: Any) -> Any:
        key = given.place.key if isinstance(given, Text | TextMapping) else ""
        if isinstance(given, Text):
            if not cls.SHORT:
                raise _no_keys(cls, f'"{given}"')
            given = cls._short(given)
        elif isinstance(given, Items):
            raise _no_keys(cls, "a list")
        if not isinstance(given, Mapping):
            return given
        made = dict(given)
        for name, field in cls.model_fields.items():
            label = _label(field.description or name)
            if isinstance(made.get(name), Text):
                made[name].place.label = label
            elif name not in made and _reads(field.metadata):
                made[name] = Unwritten(f"{key}.{name}".lstrip("."), label)
        return made

    @classmethod
    def __get_pydantic_json_schema__(
        cls, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        made = handler(schema)
        resolved = handler.resolve_ref_schema(made)
        resolved["required"] = [
            name
            for name, field in cls.model_fields.items()
            if field.is_required() and not _reads(field.metadata)
        ]
        if not resolved["required"]:
            del resolved["required"]
        if not cls.SHORT:
            return made
        return {"anyOf": [made, {"type": "string", "description": f"On one line: {', '.join(cls.SHORT)}."}]}

    @classmethod
    def _short(cls, text: Text) -> dict[str, Any]:
        """What the one-line form says, as the mapping that it stands for."""
        filled: dict[str, Any] = {}
        if len(text) > MOST_ON_ONE_LINE:
            raise refuse("wrong-shape", f"{len(text)} characters on one line", "a short line", "use keys")
        for piece in _pieces(text):
            try:
                cls._take(piece, filled)
            except PydanticCustomError as error:
                raise at_piece(error, piece) from None
        return filled

    @classmethod
    def _take(cls, piece: Text, filled: dict[str, Any]) -> None:
        rest = 0
        while rest < len(piece):
            if piece[rest].isspace():
                rest += 1
                continue
            rest = (
                cls._word(piece, rest, filled)
                or cls._quantity(piece, rest, filled)
                or _stop(cls, piece, rest, filled)
            )

    @classmethod
    def _word(cls, piece: Text, start: int, filled: dict[str, Any]) -> int:
        """Takes a flag or a word of a closed list; the end of it, or 0 when there is none."""
        for phrase, name, value in cls.phrases():
            end = start + len(phrase)
            if piece[start:end].lower() == phrase.lower() and (end == len(piece) or not piece[end].isalnum()):
                if name in filled:
                    continue
                filled[name] = Text(value, piece.piece(start, end, f"{piece.place.key}.{name}").place)
                return end
        match = re.compile(r"[A-Za-z]+").match(piece, start)
        return match.end() if match and match[0] in _FILLERS else 0

    @classmethod
    @cache
    def phrases(cls) -> tuple[tuple[str, str, str], ...]:
        """(phrase, field, value) of every flag and word that the one-line form knows, longest first."""
        known: dict[tuple[str, str, str], None] = {}
        for name in cls.SHORT:
            kind = cls.model_fields[name].annotation
            if _is_flag(kind):
                known[name.replace("_", " "), name, "true"] = None
            for word in choices(kind):
                known |= dict.fromkeys([(word, name, word), (word.replace("-", " "), name, word)])
        return tuple(sorted(known, key=lambda entry: -len(entry[0])))

    @classmethod
    def _quantity(cls, piece: Text, start: int, filled: dict[str, Any]) -> int:
        """Takes one quantity, or several that share a unit (`8..15 m/s`); the end of it, or 0 when there is none."""
        fields = [
            (name, _reads(cls.model_fields[name].metadata), _said(cls.model_fields[name].metadata))
            for name in cls.SHORT
        ]
        open_fields = [(name, reads, said) for name, reads, said in fields if reads and name not in filled]
        before = next(
            (s.before for _, _, s in open_fields if s.before and piece.startswith(s.before + " ", start)), ""
        )
        at = start + len(before)
        at += len(piece) - at - len(piece[at:].lstrip())
        numbers = _JOINED.match(piece, at)
        if not numbers:
            return 0
        if hyphened := _HYPHENED.match(piece, at):
            raise cls._range(piece, hyphened, open_fields)
        unit = _UNIT.match(piece, numbers.end())
        plain = any(NUMBER in reads.kinds for _, reads, said in open_fields if before and said.before == before)
        if not unit and not plain:
            found = f'"{piece[at:].strip()}" without a unit'
            raise refuse("bare-number", found, "a number and a unit", cls._instead(open_fields))
        try:
            kinds = kinds_of(unit["unit"]) if unit else (NUMBER,)
        except QuantityError as error:
            name = unit["unit"] if unit else ""
            alike = [phrase for phrase, _, _ in reversed(cls.phrases()) if phrase.rpartition(" ")[2].lower() == name.lower()]
            if alike:  # a word with a number in it, such as a wire size that is not made
                found = f'"{piece[at:unit.end() if unit else None].strip()}"'
                raise refuse("unknown-word", found, f"one of: {listed(dict.fromkeys(alike))}", "write one of these words") from None
            raise refuse(error.code, error.found, error.wanted, cls._instead(open_fields)) from None
        end = unit.end() if unit else numbers.end()
        behind = piece[end:].lstrip()
        after = next((s.after for _, _, s in open_fields if s.after and behind.startswith(s.after)), "")
        free = [
            name
            for name, reads, said in open_fields
            if reads and said.before == before and said.after == after and _common(reads, kinds)
        ]
        parts = list(_spans(piece, numbers.start(), numbers.end()))
        text = piece[at:end].strip()
        marked = "" if before or after or len(parts) > 1 else _marked(text, open_fields, kinds)
        if len(free) < len(parts):
            what = kinds[0].kind if kinds else "quantity"
            raise refuse(
                "unknown-word",
                f'"{text}"',
                f"{f'at most {len(free)}' if free else 'no further'} {what} here: {', '.join(cls.SHORT)}",
                f'write "{marked}"' if marked else "take it away, or write the group with keys",
            )
        reads_it = next(reads for name, reads, _ in open_fields if name == free[0])
        if marked and not _within(text, reads_it):
            raise refuse("out-of-range", f'"{text}"', f"{reads_it.says} here", f'write "{marked}"')
        for name, (low, high) in zip(free, parts, strict=False):
            whole = piece.piece(low, high, f"{piece.place.key}.{name}")
            filled[name] = Text(f"{piece[low:high]} {unit['unit'] if unit else ''}".rstrip(), whole.place)
        return end + (len(piece[end:]) - len(behind) + len(after) if after else 0)

    @classmethod
    def _range(
        cls, piece: Text, hyphened: re.Match[str], open_fields: list[tuple[str, Reads, Said]]
    ) -> PydanticCustomError:
        """The refusal of two numbers with a hyphen: a range has two dots, a mixed number a space."""
        unit = _UNIT.match(piece, hyphened.end())
        end = unit.end() if unit else hyphened.end()
        low, high, tail = hyphened["low"], hyphened["high"], piece[hyphened.end() : end]
        kinds: tuple[Unit, ...] = ()
        if unit:
            try:
                kinds = kinds_of(unit["unit"])
            except QuantityError:
                kinds = ()
        room = sum(_common(reads, kinds) for _, reads, said in open_fields if said == Said())
        if "/" in high and "/" not in low:
            instead = f'write "{low} {high}{tail}"'
        elif room > 1:
            instead = f'write "{low}..{high}{tail}"'
        else:
            instead = f'write one quantity, such as "{low}{tail}"'
        return refuse("not-a-quantity", f'"{piece[hyphened.start() : end]}"', "one quantity, or a range with two dots", instead)

    @classmethod
    def _instead(cls, open_fields: list[tuple[str, Reads, Said]]) -> str:
        """What to type instead, by the first quantity that is still to be written."""
        example = next((_example(cls, name, said) for name, _, said in open_fields), "")
        return f'write for example "{example}"' if example else "take it away"


def _no_keys(model: type[Given], found: str) -> PydanticCustomError:
    keys = list(model.model_fields)
    return refuse("wrong-shape", found, f"keys such as {', '.join(keys[:3])}", f"write {keys[0]}: and so on")


def _example(model: type[Given], name: str, said: Said) -> str:
    examples = model.model_fields[name].examples or [""]
    return f"{said.before} {examples[0]} {said.after}".strip()


def _pieces(text: Text) -> Iterator[Text]:
    """Splits at commas that are not inside a number, keeping columns."""
    if comma := re.search(r"\d+,\d[^,]*", text):
        number = text.piece(comma.start(), comma.end(), text.place.key)
        wanted = "a decimal point; between two quantities a comma and a space"
        instead = "write a point, such as 7.5, and nothing between thousands"
        raise at_piece(refuse("decimal-comma", f'"{comma[0].strip()}"', wanted, instead), number)
    start = 0
    for match in re.finditer(r",(?!\d)|$", text):
        yield text.piece(start, match.start(), text.place.key)
        start = match.end()


def _spans(piece: str, start: int, end: int) -> Iterator[tuple[int, int]]:
    at = start
    for joint in _JOINT.finditer(piece, start, end):
        yield at, joint.start()
        at = joint.end()
    yield at, end


def _stop(model: type[Given], piece: Text, start: int, filled: dict[str, Any]) -> int:
    word = piece[start:].strip()
    phrases = list(dict.fromkeys(phrase for phrase, _, _ in model.phrases()))
    close = near(word, phrases, most=2)
    wanted, instead = "a quantity", "write a number and a unit"
    if not_known(word):
        wanted, instead = "what is known", f"leave it out: {LEAVE_OUT.partition(': ')[2]}"
    elif close:
        wanted, instead = f"a quantity, or a word such as {', '.join(close)}", f'write "{close[0]}"'
    elif words := _open_words(model, filled, word):
        wanted, instead = f"a quantity, or one of: {listed(words)}", "write a quantity or one of these words"
    raise refuse("unknown-word", f'"{word}"', wanted, instead)


def _open_words(model: type[Given], filled: dict[str, Any], word: str) -> list[str]:
    """Words of the fields that are still to be filled: of the first that must be there alone, else of all; those
    with a figure in them only for a word that has one."""
    names = [name for name in model.SHORT if name not in filled]
    must = [
        name
        for name in names
        if model.model_fields[name].is_required() and choices(model.model_fields[name].annotation)
    ]
    words = [one for name in must[:1] or names for one in choices(model.model_fields[name].annotation)]
    flags = [name.replace("_", " ") for name in names if _is_flag(model.model_fields[name].annotation)]
    figures = any(sign.isdigit() for sign in word)
    alike = [one for one in (words if must else [*flags, *words]) if figures or not any(s.isdigit() for s in one)]
    return list(dict.fromkeys(alike))


def _marked(text: str, open_fields: list[tuple[str, Reads, Said]], kinds: tuple[Unit, ...]) -> str:
    """The quantity with the words by which a field that is still open would know it; empty when there is none."""
    return next(
        (
            f"{said.before} {text} {said.after}".strip()
            for _, reads, said in open_fields
            if said != Said() and _common(reads, kinds) and _within(text, reads)
        ),
        "",
    )


def _within(text: str, reads: Reads) -> bool:
    """Whether a field would take it. A quantity that can't be read is refused elsewhere, with its reason."""
    try:
        low, high = reads.bounds
        return low <= read(text, reads.kinds[0]) <= high
    except QuantityError:
        return False


def _label(description: str) -> str:
    """What a value is called in print: the description up to its first stop, without a capital."""
    words = re.split(r"[,.;:]", description)[0].strip()
    return words if words[:2].isupper() else f"{words[:1].lower()}{words[1:]}"


def _reads(metadata: list[Any]) -> Reads | None:
    return next((part for part in metadata if isinstance(part, Reads)), None)


def _said(metadata: list[Any]) -> Said:
    return next((part for part in metadata if isinstance(part, Said)), Said())


def _common(reads: Reads, kinds: tuple[Unit, ...]) -> bool:
    return any(kind in reads.kinds for kind in kinds)


def _is_flag(kind: Any) -> bool:
    return kind is bool or bool in get_args(kind)


def choices(kind: Any) -> tuple[str, ...]:
    if get_origin(kind) is Literal:
        return tuple(word for word in get_args(kind) if isinstance(word, str))
    if get_origin(kind) in (Union, UnionType):
        return tuple(word for part in get_args(kind) for word in choices(part))
    return ()
