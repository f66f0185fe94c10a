"""What a person writes <-> SI floats, and SI floats as a person reads them. The one pint registry lives here."""

import json
import re
from difflib import get_close_matches
from functools import cache
from math import floor, isfinite, log10
from pathlib import Path
from typing import TYPE_CHECKING, Any

from buildsheet.units import (
    AMPERE_HOUR,
    HENRY,
    HERTZ,
    JOULE,
    KELVIN,
    KELVIN_RISE,
    NEWTON_METRE,
    NEWTON_METRE_PER_AMPERE_SQUARED,
    NUMBER,
    RADIAN,
    RADIAN_PER_SECOND,
    SECOND,
    SHARE,
    UNITS,
    VOLT_AMPERE,
    Unit,
)

if TYPE_CHECKING:
    import pint

_BY_KIND = {unit.kind: unit for unit in UNITS}


@cache
def registry() -> "pint.UnitRegistry[Any]":
    """The registry of this program: its own short list of units, conversions of °C and °F allowed."""
    import pint

    path = Path(__file__).with_name("units.txt")
    return pint.UnitRegistry(str(path), autoconvert_offset_to_baseunit=True, on_redefinition="raise")


class QuantityError(ValueError):
    """A text that is not a quantity of the wanted kind. `code` is stable; `wanted` says what to type."""

    def __init__(self, code: str, found: str, wanted: str):
        super().__init__(f"found {found}, wanted {wanted}")
        self.code, self.found, self.wanted = code, found, wanted


SIGNS = {
    "ohm": "Ω", "kohm": "kΩ", "Mohm": "MΩ", "mohm": "mΩ", "degC": "°C", "degF": "°F", "deg": "°", "uF": "µF", "N*m": "N·m",
    "mm2": "mm²", "mm^2": "mm²", "ohm / kft": "Ω/kft", "ohm/kft": "Ω/kft", "ohm / km": "Ω/km", "ohm/km": "Ω/km", "m^2": "m²", "kg*m^2": "kg·m²", "amp": "A", "hour": "h",
}  # fmt: skip
_NUMBER = r"[+-]?(?:\d+\s+\d+/\d+|\d+/\d+|(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)"
_QUANTITY = re.compile(rf"\s*(?P<number>{_NUMBER})\s*(?P<unit>[^\d\s.,+-].*?)?\s*", re.DOTALL)
_DECIMAL_COMMA = re.compile(r"\d,\d")
_MOST_CHARACTERS = 100  # of a quantity: the patterns above backtrack, and no honest quantity is longer
_SPELLINGS = {"²": "**2", "³": "**3", "⁴": "**4", "^": "**", "·": "*", "⋅": "*", "×": "*", "\u2126": "Ω", "μ": "µ"}
# Words of the bench that are not unit names of the registry.
_WORDS = {
    "°C": "degC",
    "°F": "degF",
    "°": "deg",
    "%": "percent",
    "lbf·in": "lbf * in",
    "in·lbf": "lbf * in",
    "m³/h": "m**3 / h",
    "A²s": "A**2 * s",
    "V/krpm": "V / krpm",
    "ohms": "ohm",
    "minutes": "min",
    "hours": "hour",
    "rev/min": "rpm",
    "r/min": "rpm",
}


def number(text: str) -> float:
    """What a person writes as a number: `7.5`, `3/4`, `1 1/2`, `1e3`.

    Raises QuantityError (decimal-comma, not-a-number) for anything else; never a value that was not written.
    """
    _refuse_long(text, "not-a-number", "a number, such as 7.5 or 1 1/2")
    if _DECIMAL_COMMA.search(text):
        raise QuantityError("decimal-comma", f'"{text}"', "a decimal point, such as 7.5")
    if not re.fullmatch(rf"\s*{_NUMBER}\s*", text):
        raise QuantityError("not-a-number", f'"{text}"', "a number, such as 7.5 or 1 1/2")
    return _number(text.strip())


def _refuse_long(text: str, code: str, wanted: str) -> None:
    if len(text) > _MOST_CHARACTERS:
        raise QuantityError(code, f'"{text[: _MOST_CHARACTERS // 2]}...", {len(text)} characters', wanted)


def _number(text: str) -> float:
    sign = -1.0 if text.startswith("-") else 1.0
    value = sum(_fraction(part) if "/" in part else float(part) for part in text.lstrip("+-").split())
    if not isfinite(value):
        raise QuantityError("not-a-number", f'"{text}"', "a number that is not beyond all bounds")
    return sign * value


def _fraction(text: str) -> float:
    over, under = text.split("/")
    if float(under) == 0:
        raise QuantityError("not-a-number", f'"{text}"', "a fraction whose lower number is not zero")
    return float(over) / float(under)


@cache
def _unit_of(text: str) -> "pint.Unit":
    spelt = _WORDS.get(text, text)
    for mark, plain in _SPELLINGS.items():
        spelt = spelt.replace(mark, plain)
    # Only names, powers and the four signs reach pint: its own parser evaluates what it is given.
    spelt = "1 " + spelt if spelt.startswith("/") else spelt
    # A power of a power is refused as well: V**4**4**4 would be worked out before it is seen to be no unit.
    names_only = re.fullmatch(r"(?:[A-Za-zµΩ°_%]+|\*\*-?[1-4](?!\s*(?:\d|\*\*))|[*/() ]|\b1\b)+", spelt)
    if not names_only or len(spelt) > 40:
        raise KeyError(text)
    try:
        return registry().parse_units(spelt)
    except Exception as error:  # pint raises a dozen unrelated kinds here, and all of them mean the same
        raise KeyError(text) from error


# Dimensions do not tell these kinds apart; the unit that a person chose does.
_TELLING: dict[str, tuple[Unit, ...]] = {
    "hertz": (HERTZ,),
    "(?:rpm|radian / second)": (RADIAN_PER_SECOND,),
    "joule": (JOULE,),
    "volt_ampere": (VOLT_AMPERE,),
    "(?:watt|horsepower)": tuple(u for u in UNITS if "watt" in u.si),
    "^newton \\* meter": (NEWTON_METRE,),
    "^meter \\* newton": (NEWTON_METRE,),
    "delta_degree_(?:Celsius|Fahrenheit)": (KELVIN_RISE,),
    "(?:degree_Celsius|degree_Fahrenheit)": (KELVIN,),
    "percent": (SHARE,),
    "^(?:degree|radian)": (RADIAN,),
    "ampere_hour": (AMPERE_HOUR,),
    "henry": (HENRY,),
    "newton / ampere \\*\\* 2": (NEWTON_METRE_PER_AMPERE_SQUARED,),
}


@cache
def _known_units() -> tuple[str, ...]:
    return (
        "V",
        "mV",
        "kV",
        "A",
        "mA",
        "ohm",
        "kohm",
        "W",
        "kW",
        "hp",
        "VA",
        "mm",
        "m",
        "cm",
        "in",
        "ft",
        "rpm",
        "Hz",
        "mH",
        "µF",
        "degC",
        "degF",
        "K",
        "N·m",
        "s",
        "min",
        "h",
        "m/s",
        "ft/min",
        "%",
        "mm²",
        "J",
        "N",
        "lbf",
        "deg",
    )


def split(text: str) -> tuple[float, str]:
    """Number and unit text of a quantity as a person writes it. Raises QuantityError."""
    _refuse_long(text, "not-a-quantity", "a number and a unit")
    if _DECIMAL_COMMA.search(text):
        raise QuantityError("decimal-comma", f'"{text}"', "a decimal point, not a comma")
    match = _QUANTITY.fullmatch(text)
    if not match:
        raise QuantityError("not-a-quantity", f'"{text}"', "a number and a unit")
    return _number(match["number"]), (match["unit"] or "")


def signed(text: str) -> tuple[str, str]:
    """Number as it was written, and the unit's sign in print. Raises ValueError as `split` does."""
    _, unit = split(text)
    number = text[: len(text.rstrip()) - len(unit)].strip() if unit else text.strip()
    return number, SIGNS.get(unit.strip(), unit.strip())


def kinds_of(unit_text: str) -> tuple[Unit, ...]:
    """The kinds of quantity that a unit text can mean, such as "rpm" a rotational speed. Raises QuantityError."""
    return _kinds(unit_text)


@cache
def _worked_out() -> dict[str, dict[str, Any]]:
    """Kinds and scales of the usual unit texts, worked out by pint beforehand (`python tests/units_worked.py`; a test
    compares every one): pint takes a third of a short command's time, and most commands meet usual units only."""
    found: dict[str, dict[str, Any]] = json.loads(Path(__file__).with_name("units_worked.json").read_text(encoding="utf-8"))
    return found


@cache
def _kinds(unit_text: str) -> tuple[Unit, ...]:
    names = _worked_out()["kinds"].get(unit_text)
    return _kinds_by_pint(unit_text) if names is None else tuple(_BY_KIND[name] for name in names)


def _kinds_by_pint(unit_text: str) -> tuple[Unit, ...]:
    try:
        found = _unit_of(unit_text).dimensionality
    except KeyError:
        near = get_close_matches(unit_text, _known_units(), n=1, cutoff=0.3)
        hint = f'a unit that is known, perhaps "{near[0]}"' if near else "a unit that is known"
        raise QuantityError("unknown-unit", f'"{unit_text}"', hint) from None
    named = str(_unit_of(unit_text))
    for ending, only in _TELLING.items():
        told = tuple(unit for unit in only if _dimension(unit) == found)
        if told and re.search(rf"{ending}\b", named):
            return told
    return tuple(unit for unit in UNITS if _dimension(unit) == found)


@cache
def _dimension(unit: Unit) -> Any:
    return registry().parse_units(unit.si).dimensionality


@cache
def _scale(unit_text: str, si: str) -> tuple[float, float]:
    """(factor, offset) with SI = factor · number + offset."""
    usual = _worked_out()["scales"].get(f"{unit_text} -> {si}")
    return _scale_by_pint(unit_text, si) if usual is None else (usual[0], usual[1])


def _scale_by_pint(unit_text: str, si: str) -> tuple[float, float]:
    ureg = registry()
    unit = _unit_of(unit_text)
    zero = ureg.Quantity(0.0, unit).to(si).magnitude
    one = ureg.Quantity(1.0, unit).to(si).magnitude
    return one - zero, zero


def read(text: str, unit: Unit) -> float:
    """The SI value of a quantity as a person writes it: `read("3/4 hp", WATT)` is 559.27.

    Raises QuantityError: decimal-comma, not-a-quantity, bare-number, unknown-unit, unit-mismatch. A bare number is
    refused unless the kind has no unit.
    """
    value, unit_text = split(text)
    wanted = f'{_article(unit.kind)} such as "{unit.example}"'
    if not unit_text:
        if unit is not NUMBER:
            raise QuantityError("bare-number", f'"{text.strip()}" without a unit', wanted)
        return value
    kinds = kinds_of(unit_text)
    if unit not in kinds:
        names = kinds[0].kind if kinds else "something else"
        raise QuantityError("unit-mismatch", f'{_article(names)} ("{text.strip()}")', wanted)
    return to_si(value, unit_text, unit)


def to_si(value: float, unit_text: str, unit: Unit) -> float:
    """`value` in `unit_text` as an SI float. Raises QuantityError when it is not finite."""
    factor, offset = _scale(unit_text, unit.si)
    si = factor * value + offset
    if not isfinite(si):
        raise QuantityError(
            "not-a-number", f'"{value} {unit_text}"', f'{_article(unit.kind)} such as "{unit.example}"'
        )
    return si


def _article(kind: str) -> str:
    return f"{'an' if kind[0] in 'aeiou' else 'a'} {kind}"


@cache
def _steps(unit: Unit, inches: bool) -> tuple[tuple[str, float, float], ...]:
    names = (unit.inch if inches and unit.inch else unit.steps) or ()
    return tuple((name, *_scale(name, unit.si)) for name in names)


def shown(value: float, unit: Unit, inches: bool = False) -> tuple[float, str]:
    """`value` in the unit that a person would use for it, and that unit's symbol: 0.0085 H is (8.5, "mH").

    The largest unit that leaves at least 1 in front of the point, else the smallest. `inches` takes the inch units
    of kinds that have them.
    """
    steps = _steps(unit, inches)
    if not steps:
        return value, unit.symbol
    chosen = steps[0]
    for step in steps:
        if abs((value - step[2]) / step[1]) >= 0.99995:
            chosen = step
    if unit is SECOND and value < 120 and chosen[0] == "min":
        chosen = next(step for step in steps if step[0] == "s")
    name, factor, offset = chosen
    return (value - offset) / factor, "%" if name == "percent" else name


def figures(value: float, count: int) -> str:
    """`value` with `count` significant figures, plain digits and no exponent: 0.068966 with 3 is "0.0690".

    Raises ValueError for infinity and not-a-number, which have no figures.
    """
    if not isfinite(value):
        raise ValueError(f"{value} has no figures")
    if value == 0:
        return "0"
    decimals = count - 1 - floor(log10(abs(value)))
    rounded = round(value, decimals)
    if rounded and floor(log10(abs(rounded))) > floor(log10(abs(value))):  # 9.996 becomes 10.0, not 10.00
        decimals -= 1
    return f"{rounded:.{max(decimals, 0)}f}"


def spell(value: float, unit: Unit, count: int = 3, inches: bool = False) -> str:
    """A quantity in words for messages and listings: `spell(0.0085, HENRY)` is "8.50 mH"."""
    amount, symbol = shown(value, unit, inches)
    return f"{figures(amount, count)} {symbol}".strip()
