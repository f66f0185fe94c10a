"""The ink: how a Value becomes print. The only place where a number turns into text.

A value that the builder wrote prints as it was written, a table's cell with the table's own digits, a result with
three figures. An unknown prints as a blank to fill in.
"""

import re
from dataclasses import dataclass

from markupsafe import Markup, escape

from buildsheet.quantities import figures, shown, signed
from buildsheet.sizing.finding import Said
from buildsheet.worksheet import Input, Row, Value
from buildsheet.worksheet.equation import Step, Token, Tokens, number_tokens

NARROW = "\u202f"  # no-break thin space between number and unit
THIN = "\u2009"  # at the thousands, which plain text closes up; `html.unsplit` keeps it from breaking
GREEK = {
    "alpha": "α", "beta": "β", "eta": "η", "theta": "θ", "omega": "ω", "rho": "ρ", "pi": "π", "sigma": "σ", "tau": "τ", "phi": "φ", "nu": "ν",
}  # fmt: skip
CLOSE_UP = ("°", "′", "″")


@dataclass(frozen=True, slots=True)
class Printed:
    """A number in print: whole part, the rest with its point, and unit; `blank` when it is not known."""

    whole: str
    rest: str
    unit: str
    blank: bool = False

    @property
    def number(self) -> str:
        return self.whole + self.rest

    def __str__(self) -> str:
        if self.blank:
            return "not known"
        if not self.unit:
            return self.number
        return self.number + ("" if self.unit in CLOSE_UP else NARROW) + self.unit


@dataclass(frozen=True, slots=True)
class Ink:
    """Prints Values for one packet. `inches` takes inch units for results; inputs print as written either way."""

    inches: bool = False

    def print(self, value: Value, count: int = 3) -> Printed:
        """A value as print, with `count` significant figures when it was worked out."""
        if not value.known:
            return Printed("", "", value.unit.symbol, blank=True)
        match value.parent:
            case Input(text=text):
                return _written(text)
            case Row(cell=cell) if self.inches and cell.table.columns[cell.column].quantity and value.unit.inch:
                # a quantity of ours carries its unit with it, so it may take the one of the print
                amount, symbol = shown(float(value), value.unit, self.inches)
                return _parts(figures(amount, count), symbol)
            case Row(cell=cell):
                quantity = cell.table.columns[cell.column].quantity
                return _written(
                    cell.printed
                    if quantity
                    else f"{cell.printed} {cell.table.columns[cell.column].printed_unit}"
                )
            case _:
                amount, symbol = shown(float(value), value.unit, self.inches)
                return _parts(figures(amount, count), symbol)

    def measured(self, value: Value) -> Printed:
        """A value in the unit of the print, whoever wrote it in what: for columns that are compared."""
        if not value.known:
            return self.print(value)
        amount, symbol = shown(float(value), value.unit, self.inches)
        return _parts(figures(amount, 3), symbol)

    def factor(self, value: Value) -> Printed:
        """A share as the plain number that an equation multiplies by: 80 % is 0.8, and 100 % is 1."""
        if not value.known:
            return self.print(value)
        number = figures(float(value), 3)
        return _parts(number.rstrip("0").rstrip(".") if "." in number else number, "")

    def text(self, value: Value) -> str:
        """A value as plain text for messages and listings."""
        return str(self.print(value)).replace(NARROW, " ").replace(THIN, "")

    def said(self, said: Said) -> str:
        """A sentence with its Values filled in, as plain text with narrow spaces."""
        return (
            said.text.format(*(str(self.print(value)) for value in said.values)) if said.values else said.text
        )

    def plain(self, said: Said) -> str:
        """A sentence with its Values filled in, with ordinary spaces."""
        return self.said(said).replace(NARROW, " ").replace(THIN, "")


def _written(text: str) -> Printed:
    """A quantity as a person wrote it, with the unit's sign and a real minus."""
    try:
        return _parts(*signed(text))
    except ValueError:
        return Printed(text, "", "")


def _parts(number: str, unit: str) -> Printed:
    number = number.replace("-", "−")
    whole, point, rest = number.partition(".")
    if re.fullmatch(r"−?\d{4,}", whole):
        sign, digits = ("−", whole[1:]) if whole.startswith("−") else ("", whole)
        whole = sign + re.sub(r"(?<=\d)(?=(\d{3})+$)", THIN, digits)
    return Printed(whole, point + rest, unit)


def capital(text: str) -> str:
    """The text with a capital in front, the rest as it is."""
    return text[:1].upper() + text[1:]


def symbol(name: str) -> Markup:
    """A quantity symbol in type: `I_line` is an italic I with an upright index. The id's place is not part of it."""
    base, _, index = name.rpartition(".")[2].rstrip("~").partition("_")
    index = ",".join(GREEK.get(part, part) for part in index.split("_")) if index else ""
    head = Markup("<i>{}</i>").format(GREEK.get(base, base))
    return head + Markup("<sub>{}</sub>").format(index) if index else head


def plain_symbol(name: str) -> str:
    """A quantity symbol as plain text."""
    base, _, index = name.rpartition(".")[2].rstrip("~").partition("_")
    return GREEK.get(base, base) + (f"_{index}" if index else "")


def tokens(row: Tokens) -> Markup:
    """A row of an equation in type."""
    return Markup("").join(
        _token(token, row[place - 1] if place else None) for place, token in enumerate(row)
    )


def _token(token: Token, before: Token | None) -> Markup:
    match token.kind:
        case "symbol":
            return symbol(token.text)
        case "power":
            return Markup("<sup>{}</sup>").format(_exponent(token.text))
        case "operator" if token.text == ";":
            return Markup("; ")
        case "operator":
            unary = before is None or before.kind in ("open", "operator")
            return escape(token.text) if unary and token.text == "−" else Markup(" {} ").format(token.text)
        case "function":
            return escape(token.text if token.text == "√" else f"{token.text}{NARROW}")
        case _:
            return escape(token.text)


def _exponent(text: str) -> str:
    return text.replace("*", "·").replace("-", "−")


def plain_tokens(row: Tokens) -> str:
    """A row of an equation as plain text, which a calculator takes."""
    parts = []
    for token in row:
        match token.kind:
            case "symbol":
                parts.append(plain_symbol(token.text))
            case "power":
                parts.append(
                    f"^{_exponent(token.text)}" if len(token.text) < 3 else f"^({_exponent(token.text)})"
                )
            case "operator":
                parts.append(f" {token.text} ")
            case _:
                parts.append(token.text)
    return "".join(parts)


def step_result(step: Step, count: int = 3) -> Markup:
    """The result of one line of an equation in coherent SI, with a power of ten where plain digits would hide it."""
    row = tuple(number_tokens(step.value, count))
    if len(row) == 1:
        return escape(_parts(figures(step.value, count) if step.value else "0", "").number)
    return tokens(row)
