"""The equation of a line, read from the source of the formula that ran: in letters, with its numbers put in, result.

An equation is a row of tokens and knows no markup; the ink sets them in type, the command line as plain text.
Numbers put in are coherent SI with five figures, so that a pocket calculator gives the printed result.
"""

import ast
import inspect
import textwrap
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from math import floor, isfinite, log10
from typing import Any, Literal

from buildsheet.formulas.formula import Constant, Formula
from buildsheet.quantities import figures
from buildsheet.units import UNITS, Unit

Kind = Literal["symbol", "number", "operator", "function", "open", "close", "power", "word"]
FIGURES_PUT_IN = 5


@dataclass(frozen=True, slots=True)
class Token:
    """A piece of an equation. A `power` holds the exponent's text; a `symbol` its name, such as R_a."""

    kind: Kind
    text: str


Tokens = tuple[Token, ...]


@dataclass(frozen=True, slots=True)
class Step:
    """One line of a worked formula: `symbol = letters = numbers = value unit`.

    For a condition `symbol` is empty, `unit` None, and `value` 1 or 0.
    """

    symbol: str
    unit: Unit | None
    letters: Tokens
    numbers: Tokens
    value: float


class GrammarError(TypeError):
    """A formula whose body is more than assignments with a kind, branches and returns."""


_LEVEL: dict[type[ast.AST], int] = {ast.Add: 1, ast.Sub: 1, ast.Mult: 2, ast.Div: 2, ast.USub: 3, ast.Pow: 4}
_SIGNS: dict[type[ast.AST], str] = {
    ast.Add: "+", ast.Sub: "−", ast.Mult: "·", ast.Div: "/",
    ast.Lt: "<", ast.LtE: "≤", ast.Gt: ">", ast.GtE: "≥", ast.Eq: "=", ast.NotEq: "≠",
}  # fmt: skip
_FUNCTIONS = {"sqrt": "√", "log": "ln", "exp": "exp", "sin": "sin", "cos": "cos", "tan": "tan", "asin": "asin",
              "acos": "acos", "atan": "atan", "min": "smaller of", "max": "larger of", "ceil": "round up"}  # fmt: skip


def worked(formula: Formula[Any], arguments: Mapping[str, float], symbol: str) -> tuple[Step, ...]:
    """Every line of the formula that ran for these arguments; the last one is the result.

    Raises GrammarError for a body outside the grammar.
    """
    names: dict[str, Any] = dict(_globals(formula))
    names.update({name: float(value) for name, value in arguments.items()})
    return tuple(_statements(_body(formula), names, symbol, formula.gives))


def letters(formula: Formula[Any]) -> tuple[tuple[str, Tokens], ...]:
    """All expressions of the formula in letters: (name or condition word, tokens), branches included."""
    names = _globals(formula)
    return tuple(_all_letters(_body(formula), names))


def _globals(formula: Formula[Any]) -> Mapping[str, Any]:
    module: Mapping[str, Any] = getattr(formula.function, "__globals__")  # noqa: B009  a function has it, a Callable not
    return module


@cache
def _body(formula: Formula[Any]) -> tuple[ast.stmt, ...]:
    tree = ast.parse(textwrap.dedent(inspect.getsource(formula.function)))
    function = tree.body[0]
    if not isinstance(function, ast.FunctionDef):
        raise GrammarError(f"{formula.name} is no plain function")
    has_docstring = ast.get_docstring(function) is not None
    return tuple(function.body[1:] if has_docstring else function.body)


def _statements(
    body: tuple[ast.stmt, ...] | list[ast.stmt], names: dict[str, Any], symbol: str, gives: Unit
) -> Iterator[Step]:
    for statement in body:
        match statement:
            case ast.AnnAssign(
                target=ast.Name(id=name), annotation=annotation, value=ast.expr() as expression
            ):
                value = float(_evaluate(expression, names))
                yield Step(
                    name,
                    _unit(annotation, names),
                    _tokens(expression, names, None),
                    _tokens(expression, names, names),
                    value,
                )
                names[name] = value
            case ast.If(test=test, body=then, orelse=otherwise):
                truth = bool(_evaluate(test, names))
                yield Step("", None, _tokens(test, names, None), _tokens(test, names, names), float(truth))
                taken = then if truth else otherwise
                yield from _statements(taken, names, symbol, gives)
                if taken and isinstance(taken[-1], ast.Return):
                    return
            case ast.Return(value=ast.expr() as expression):
                value = float(_evaluate(expression, names))
                yield Step(
                    symbol, gives, _tokens(expression, names, None), _tokens(expression, names, names), value
                )
                return
            case _:
                raise GrammarError(
                    f"line {statement.lineno}: only assignments with a kind, branches and returns"
                )


def _all_letters(
    body: tuple[ast.stmt, ...] | list[ast.stmt], names: Mapping[str, Any]
) -> Iterator[tuple[str, Tokens]]:
    for statement in body:
        match statement:
            case ast.AnnAssign(target=ast.Name(id=name), value=ast.expr() as expression):
                yield name, _tokens(expression, names, None)
            case ast.If(test=test, body=then, orelse=otherwise):
                yield "if", _tokens(test, names, None)
                yield from _all_letters(then, names)
                if otherwise:
                    yield "else", ()
                    yield from _all_letters(otherwise, names)
            case ast.Return(value=ast.expr() as expression):
                yield "", _tokens(expression, names, None)
            case _:
                raise GrammarError(
                    f"line {statement.lineno}: only assignments with a kind, branches and returns"
                )


def _evaluate(expression: ast.expr, names: Mapping[str, Any]) -> Any:
    code = compile(ast.Expression(body=expression), "<formula>", "eval")
    return eval(code, {"__builtins__": {"min": min, "max": max, "float": float}}, dict(names))  # noqa: S307  our own source


def _unit(annotation: ast.expr, names: Mapping[str, Any]) -> Unit:
    hint = _evaluate(annotation, names)
    return next(part for part in UNITS if part in getattr(hint, "__metadata__", ()))


def _tokens(node: ast.expr, names: Mapping[str, Any], values: Mapping[str, Any] | None) -> Tokens:
    return tuple(_walk(node, names, values, 0))


def _walk(
    node: ast.expr, names: Mapping[str, Any], values: Mapping[str, Any] | None, outer: int
) -> Iterator[Token]:
    match node:
        case ast.Name(id="pi"):
            yield Token("symbol", "pi")
        case ast.Name(id=name):
            value = names.get(name)
            if values is None:
                yield Token("symbol", value.symbol if isinstance(value, Constant) else name)
            else:
                yield from _bracketed_number(float(values[name]), outer)
        case ast.Constant(value=int() | float() as number):
            yield Token("number", put_in(float(number), exact=True))
        case ast.BinOp(left=left, op=ast.Pow(), right=right):
            base = tuple(_walk(left, names, values, 5))
            yield from _bracket(base, needed=isinstance(left, ast.BinOp) and isinstance(left.op, ast.Pow))
            yield Token("power", _exponent(_walk(right, names, values, 0)))
        case ast.BinOp(left=left, op=op, right=right):
            level = _LEVEL[type(op)]
            stays_apart = level + isinstance(op, ast.Sub | ast.Div)
            sign = Token("operator", _SIGNS[type(op)])
            inner = (*_walk(left, names, values, level), sign, *_walk(right, names, values, stays_apart))
            yield from _bracket(inner, needed=level < outer)
        case ast.UnaryOp(op=ast.USub(), operand=operand):
            yield from _bracket((Token("operator", "−"), *_walk(operand, names, values, 3)), needed=outer > 1)
        case ast.Call(func=ast.Name(id=name), args=arguments) if name in _FUNCTIONS:
            yield Token("function", _FUNCTIONS[name])
            yield Token("open", "(")
            for position, argument in enumerate(arguments):
                if position:
                    yield Token("operator", ";")
                yield from _walk(argument, names, values, 0)
            yield Token("close", ")")
        case ast.Compare(left=left, ops=[op], comparators=[right]):
            yield from _walk(left, names, values, 0)
            yield Token("operator", _SIGNS[type(op)])
            yield from _walk(right, names, values, 0)
        case _:
            raise GrammarError(f"{ast.unparse(node)} can't be printed")


def _exponent(tokens: Iterator[Token]) -> str:
    """An exponent as text; a power inside it, which type can't raise once more, gets the calculator's sign."""
    return "".join(f"^({token.text})" if token.kind == "power" else token.text for token in tokens)


def _bracket(inner: Tokens, *, needed: bool) -> Iterator[Token]:
    if needed:
        yield Token("open", "(")
    yield from inner
    if needed:
        yield Token("close", ")")


def _bracketed_number(value: float, outer: int) -> Iterator[Token]:
    inner = tuple(number_tokens(value))
    yield from _bracket(inner, needed=(value < 0 and outer > 0) or (len(inner) > 1 and outer > 2))


def number_tokens(value: float, count: int = FIGURES_PUT_IN) -> Iterator[Token]:
    """A number with `count` figures, with a power of ten where plain digits would hide them."""
    size = floor(log10(abs(value))) if value and isfinite(value) else 0
    if -4 <= size <= 6:
        yield Token("number", put_in(value, count))
        return
    yield Token("number", put_in(value / 10.0**size, count))
    yield Token("operator", "×")
    yield Token("number", "10")
    yield Token("power", str(size).replace("-", "−"))


def put_in(value: float, count: int = FIGURES_PUT_IN, *, exact: bool = False) -> str:
    """Plain digits with `count` figures, without trailing zeros; `exact` keeps what the formula's source says."""
    if exact:
        text = repr(value).removesuffix(".0")
    else:
        text = figures(value, count)
        text = text.rstrip("0").rstrip(".") if "." in text else text
    return text.replace("-", "−")
