"""A number with its unit and its parent. Nothing is printed, compared or summed that has none."""

from collections.abc import Callable
from dataclasses import dataclass
from math import isnan, nan
from typing import TYPE_CHECKING, NoReturn, Self

from buildsheet.units import Unit

if TYPE_CHECKING:
    from buildsheet.reference import Cell
    from buildsheet.worksheet.sheet import Line, Model


class UnknownValueError(TypeError):
    """Something was asked of a value that nobody knows. An error in the code: unknown is not zero and never a pass."""


@dataclass(frozen=True, slots=True)
class Input:
    """Written by the builder: file, line and column (from 1), the key path and the text as it stands there."""

    file: str
    line: int
    column: int
    key: str
    text: str


@dataclass(frozen=True, slots=True)
class Row:
    """One cell of a published table, or of the table of assumed values; `bound` is the value that chose the row."""

    cell: "Cell"
    bound: "Value | None" = None


@dataclass(frozen=True, slots=True)
class Absent:
    """Not known. `why` says so in words; `missing` are the values that would have to be known first."""

    why: str
    missing: tuple["Value", ...] = ()


Parent = "Input | Row | Line | Model | Absent"


class Value(float):
    """A float with id, kind of quantity, parent, label and printed symbol. Unknown values are not-a-number.

    Arithmetic yields a plain float, which the worksheet and the templates refuse: a number loses its parent only in
    the open. Comparing, printing or truth-testing an unknown raises UnknownValueError, and so does comparing
    different kinds.
    """

    __slots__ = ("id", "label", "parent", "symbol", "unit")
    id: str
    unit: Unit
    parent: "Input | Row | Line | Model | Absent"
    label: str
    symbol: str

    def __new__(
        cls,
        number: float,
        *,
        id: str,
        unit: Unit,
        parent: "Input | Row | Line | Model | Absent",
        label: str = "",
        symbol: str = "",
    ) -> Self:
        self = super().__new__(cls, number)
        self.id, self.unit, self.parent, self.label = id, unit, parent, label or id
        self.symbol = symbol or id.rpartition(".")[2]
        return self

    @property
    def known(self) -> bool:
        return not isnan(self)

    @property
    def why(self) -> str:
        """Why an unknown value is not known; empty for a known one."""
        return self.parent.why if isinstance(self.parent, Absent) else ""

    def __repr__(self) -> str:
        number = float.__repr__(self) if self.known else "unknown"
        return f"<Value {self.id} {number} {self.unit.symbol}>"

    def __str__(self) -> NoReturn:
        raise TypeError(f"{self.id}: a Value prints through the ink alone")

    def __format__(self, spec: str) -> NoReturn:
        raise TypeError(f"{self.id}: a Value prints through the ink alone")

    def __bool__(self) -> NoReturn:
        raise TypeError(f"{self.id}: ask `.known`, or compare with another value")

    def _comparable(self, other: object) -> None:
        if not self.known:
            raise UnknownValueError(f"{self.id} is not known: {self.why}")
        if isinstance(other, Value):
            if not other.known:
                raise UnknownValueError(f"{other.id} is not known: {other.why}")
            if other.unit is not self.unit:
                raise TypeError(f"{self.id} is a {self.unit.kind}, {other.id} a {other.unit.kind}")

    def __lt__(self, other: float) -> bool:
        self._comparable(other)
        return float.__lt__(self, other)

    def __le__(self, other: float) -> bool:
        self._comparable(other)
        return float.__le__(self, other)

    def __gt__(self, other: float) -> bool:
        self._comparable(other)
        return float.__gt__(self, other)

    def __ge__(self, other: float) -> bool:
        self._comparable(other)
        return float.__ge__(self, other)

    __eq__ = float.__eq__
    __hash__ = float.__hash__

    def relabelled(self, label: str, symbol: str = "") -> "Value":
        """The same value with the same parent under another label, for a place that names it in its own words."""
        return Value(
            float(self),
            id=self.id,
            unit=self.unit,
            parent=self.parent,
            label=label,
            symbol=symbol or self.symbol,
        )


def unknown(
    id: str, unit: Unit, why: str, label: str = "", *, symbol: str = "", missing: tuple[Value, ...] = ()
) -> Value:
    """A value that nobody knows, with the reason."""
    return Value(nan, id=id, unit=unit, parent=Absent(why, missing), label=label, symbol=symbol)


def roots(value: Value) -> tuple[Value, ...]:
    """The inputs, table rows and unknowns that a value rests on, in the order they were used, each once."""
    found: dict[str, Value] = {}
    _walk(value, lambda root: found.setdefault(root.id, root), set())
    return tuple(found.values())


def _walk(value: Value, meet: Callable[[Value], object], seen: set[str]) -> None:
    if value.id in seen:
        return
    seen.add(value.id)
    match value.parent:
        case Row(bound=Value() as bound):
            _walk(bound, meet, seen)
            meet(value)
        case Input() | Row():
            meet(value)
        case Absent(missing=missing):
            if not missing:
                meet(value)
            for part in missing:
                _walk(part, meet, seen)
        case line:
            for part in line.arguments.values():
                _walk(part, meet, seen)
