"""A pocket calculator for printed equations: it knows the signs of the print and their order, nothing of Python's.

Grammar: sum of products of signed powers; `^` binds before a sign in front of it and takes its exponent from the right;
functions take their arguments in brackets, `;` between two.
"""

import math
import re
from collections.abc import Callable

TOKEN = re.compile(r"\s*(smaller of|larger of|round up|ln|exp|a?(?:sin|cos|tan)|√|π|[\d.]+|[-+−·×/^();])")
FUNCTIONS: dict[str, Callable[..., float]] = {
    "√": math.sqrt, "ln": math.log, "exp": math.exp, "sin": math.sin, "cos": math.cos, "tan": math.tan,
    "asin": math.asin, "acos": math.acos, "atan": math.atan, "smaller of": min, "larger of": max, "round up": math.ceil,
}  # fmt: skip


def calculate(text: str) -> float:
    """The value of a printed row of numbers. Raises ValueError for a sign that no calculator has, such as a letter."""
    keys, at = [], 0
    while text[at:].strip():
        key = TOKEN.match(text, at)
        if not key:
            raise ValueError(f"{text[at:]!r} can't be typed")
        keys.append(key[1])
        at = key.end()
    calculator = _Calculator(keys)
    value = calculator.sum()
    if calculator.keys:
        raise ValueError(f"{calculator.keys} is left over of {text!r}")
    return value


class _Calculator:
    def __init__(self, keys: list[str]):
        self.keys = keys

    def _next(self, *wanted: str) -> str:
        if self.keys and self.keys[0] in wanted:
            return self.keys.pop(0)
        return ""

    def sum(self) -> float:
        value = self._product()
        while sign := self._next("+", "−", "-"):
            value = value + self._product() if sign == "+" else value - self._product()
        return value

    def _product(self) -> float:
        value = self._signed()
        while sign := self._next("·", "×", "/"):
            value = value / self._signed() if sign == "/" else value * self._signed()
        return value

    def _signed(self) -> float:
        return -self._signed() if self._next("−", "-") else self._power()

    def _power(self) -> float:
        base = self._piece()
        return base ** self._signed() if self._next("^") else base

    def _piece(self) -> float:
        if not self.keys:
            raise ValueError("something is missing")
        key = self.keys.pop(0)
        if key == "(":
            value = self.sum()
            self._close()
            return value
        if key == "π":
            return math.pi
        if key in FUNCTIONS:
            if not self._next("("):
                raise ValueError(f"{key} has no bracket")
            arguments = [self.sum()]
            while self._next(";"):
                arguments.append(self.sum())
            self._close()
            return float(FUNCTIONS[key](*arguments))
        return float(key)

    def _close(self) -> None:
        if not self._next(")"):
            raise ValueError("a bracket is not closed")
