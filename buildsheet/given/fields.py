"""Fields of a project file: a quantity becomes a Value that knows its line; flags and words refuse what is not one."""

import re
from dataclasses import dataclass
from functools import cached_property
from math import nan
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from buildsheet import units as u
from buildsheet.given.problems import LEAVE_OUT, cut, not_known
from buildsheet.given.tree import Text
from buildsheet.quantities import QuantityError, kinds_of, read, spell, split
from buildsheet.units import Unit
from buildsheet.worksheet import Absent, Input, Value


def refuse(code: str, found: str, wanted: str, instead: str = "") -> PydanticCustomError:
    """The error that the reader turns into a Problem at the place of the value."""
    context = {"found": cut(found), "wanted": wanted, "instead": instead}
    return PydanticCustomError("buildsheet", "{code}", {"code": code, **context})


def at_piece(error: PydanticCustomError, piece: Text) -> PydanticCustomError:
    """The same error, pointing at one piece of a one-line form instead of at the whole line."""
    at = piece.piece(len(piece) - len(piece.lstrip()), len(piece.rstrip()), piece.place.key)
    where = {"line": at.place.line, "column": at.place.column, "width": at.width}
    return PydanticCustomError("buildsheet", "{code}", {**where, **(error.context or {})})


class Unwritten:
    """Stands for a key that is not in the file, and knows which."""

    def __init__(self, key: str, label: str = ""):
        self.key, self.label = key, label


@dataclass(frozen=True)
class Reads:
    """Makes a field a Value of one of some kinds. `low` and `high` are sanity limits, not safety limits."""

    kinds: tuple[Unit, ...]
    low: str
    high: str

    @cached_property
    def bounds(self) -> tuple[float, float]:
        return read(self.low, self.kinds[0]), read(self.high, self.kinds[0])

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        del source, handler
        return core_schema.no_info_plain_validator_function(self.value)

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        del schema, handler
        return {"type": "string", "examples": [kind.example for kind in self.kinds]}

    def value(self, given: object) -> Value:
        """A Value from a text with its place, or an unknown Value for a key that is not in the file."""
        if isinstance(given, Value):
            return given
        if isinstance(given, Unwritten):
            return Value(
                nan,
                id=given.key,
                unit=self.kinds[0],
                parent=Absent("not in the file"),
                label=given.label or label_of(given.key),
            )
        if not isinstance(given, Text):
            example = self.kinds[0].example
            raise refuse(
                "wrong-shape",
                "a list or keys",
                f'{self.kinds[0].kind}, such as "{example}"',
                f'write for example "{example}"',
            )
        try:
            unit = self.kind_of(given)
            number = read(given, unit)
        except QuantityError as error:
            instead = _degrees(given, self.kinds) or f'write for example "{self.kinds[0].example}"'
            instead = LEAVE_OUT if not_known(given) else instead
            raise at_piece(refuse(error.code, error.found, error.wanted, instead), given) from None
        low, high = self.bounds
        if unit is self.kinds[0] and not low <= number <= high:
            limit = f"at least {self.low}" if number < low else f"at most {self.high}"
            refusal = refuse("out-of-range", f'"{given}"', limit, f'write for example "{unit.example}"')
            raise at_piece(refusal, given)
        at = given.place
        parent = Input(at.file, at.line, at.column, at.key, str(given).strip())
        return Value(number, id=at.key, unit=unit, parent=parent, label=at.label or label_of(at.key))

    def kind_of(self, text: str) -> Unit:
        """Which of the field's kinds this text is of; the first when it is of none, so that the message names it."""
        if len(self.kinds) == 1:
            return self.kinds[0]
        told = kinds_of(split(text)[1]) if split(text)[1] else ()
        return next((kind for kind in self.kinds if kind in told), self.kinds[0])

    @property
    def says(self) -> str:
        """The limits in words, for the schema's readers."""
        return f"{spell(self.bounds[0], self.kinds[0])} to {spell(self.bounds[1], self.kinds[0])}"


@dataclass(frozen=True)
class Said:
    """In a short form this quantity is recognised by words next to it: `never above 350 rpm`, `15 A breaker`."""

    before: str = ""
    after: str = ""


def label_of(key: str) -> str:
    """A key path in words: `motor.rated_current` is "motor: rated current"."""
    place, _, name = key.rpartition(".")
    return (f"{place}: " if place else "") + name.replace("_", " ")


def _degrees(text: str, kinds: tuple[Unit, ...]) -> str:
    """What to type for a temperature whose letter stands alone: F is the farad, C the coulomb."""
    alone = re.fullmatch(r"\s*([+-]?\d+(?:\.\d+)?)\s*(?:deg\s+)?([FfCc])\s*", text) if u.KELVIN in kinds else None
    return f'write "{alone[1]} deg{alone[2].upper()}"' if alone else ""


def _flag(given: object) -> object:
    if isinstance(given, Text):
        if given in ("true", "false"):
            return given == "true"
        instead = LEAVE_OUT if not_known(given) else "write true or false"
        raise refuse("not-a-flag", f'"{given}"', "true or false", instead)
    return given


Flag = Annotated[bool, BeforeValidator(_flag, json_schema_input_type=Literal["true", "false"] | bool)]
Flags = Annotated[bool | None, BeforeValidator(_flag, json_schema_input_type=Literal["true", "false"] | bool)]


def quantity(*kinds: Unit, low: str, high: str) -> Any:
    """The annotation of a quantity field; built once for each kind below."""
    return Annotated[Value, Reads(kinds, low, high)]


Volts = Annotated[Value, Reads((u.VOLT,), "0.01 V", "1000 V")]
Amperes = Annotated[Value, Reads((u.AMPERE,), "1 mA", "200 A")]
IdleAmperes = Annotated[Value, Reads((u.AMPERE,), "0 A", "50 A")]
FaultAmperes = Annotated[Value, Reads((u.AMPERE,), "10 A", "50 kA")]
Ohms = Annotated[Value, Reads((u.OHM,), "1 mohm", "10 Mohm")]
Henries = Annotated[Value, Reads((u.HENRY,), "1 µH", "10 H")]
Farads = Annotated[Value, Reads((u.FARAD,), "1 nF", "1 F")]
Charges = Annotated[Value, Reads((u.AMPERE_HOUR,), "0.1 Ah", "1000 Ah")]
VoltAmperes = Annotated[Value, Reads((u.VOLT_AMPERE,), "1 VA", "20 kVA")]
Turns = Annotated[Value, Reads((u.NUMBER,), "1", "5000")]
Watts = Annotated[Value, Reads((u.WATT,), "10 mW", "20 kW")]
Hertzes = Annotated[Value, Reads((u.HERTZ,), "1 Hz", "1 kHz")]
PulseHertzes = Annotated[Value, Reads((u.HERTZ,), "50 Hz", "200 kHz")]
Speeds = Annotated[Value, Reads((u.RADIAN_PER_SECOND,), "0.1 rpm", "60000 rpm")]
RunningSpeeds = Annotated[Value, Reads((u.METRE_PER_SECOND,), "1 mm/s", "120 m/s")]
WorkSpeeds = Annotated[Value, Reads((u.RADIAN_PER_SECOND, u.METRE_PER_SECOND), "0.1 rpm", "60000 rpm")]
Torques = Annotated[Value, Reads((u.NEWTON_METRE,), "0.0001 N·m", "2000 N·m")]
Lengths = Annotated[Value, Reads((u.METRE,), "0.01 mm", "50 m")]
Heights = Annotated[Value, Reads((u.METRE,), "0 m", "5000 m")]
WireAreas = Annotated[Value, Reads((u.WIRE_AREA,), "0.05 mm²", "50 mm²")]
Temperatures = Annotated[Value, Reads((u.KELVIN,), "-30 degC", "60 degC")]
PartTemperatures = Annotated[Value, Reads((u.KELVIN,), "20 degC", "250 degC")]
Times = Annotated[Value, Reads((u.SECOND,), "1 ms", "100 h")]
Masses = Annotated[Value, Reads((u.KILOGRAM,), "1 g", "500 kg")]
Inertias = Annotated[Value, Reads((u.KILOGRAM_SQUARE_METRE,), "1e-7 kg·m²", "10 kg·m²")]
Shares = Annotated[Value, Reads((u.SHARE,), "0 %", "100 %")]
Factors = Annotated[Value, Reads((u.NUMBER,), "0.2", "1")]
PowerFactors = Annotated[Value, Reads((u.NUMBER,), "0.5", "3")]
SafetyFactors = Annotated[Value, Reads((u.NUMBER,), "1", "50")]
Flows = Annotated[Value, Reads((u.CUBIC_METRE_PER_SECOND,), "0.1 m³/h", "2000 m³/h")]
ThermalResistances = Annotated[Value, Reads((u.KELVIN_PER_WATT,), "0.01 K/W", "100 K/W")]
