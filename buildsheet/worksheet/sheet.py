"""The worksheet: every number that is worked out stands here as a line with its formula and arguments."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ParamSpec

from buildsheet.citations import Citation
from buildsheet.formulas.formula import Formula, OutsideLimits
from buildsheet.reference import Cell, MissingRow, Table, table
from buildsheet.units import ALIKE, Unit
from buildsheet.worksheet.value import Absent, Input, Row, Value, unknown

P = ParamSpec("P")


@dataclass(frozen=True, slots=True)
class Line:
    """One formula worked once. `value` is set by the worksheet right after the line is made."""

    formula: Formula[...]
    arguments: Mapping[str, Value]


@dataclass(frozen=True, slots=True)
class Model:
    """A solved system of equations, which has no one-line equation: what was solved, from what, and its limits.

    `textbook` is the usual hand formula's value for the same thing, with why it differs; None when there is none.
    """

    name: str
    arguments: Mapping[str, Value]
    solved: str
    source: Citation
    textbook: Value | None = None
    differs: str = ""


class Worksheet:
    """Works formulas on Values, looks values up in tables, and keeps every result in order under its id.

    Ids are `place.symbol`, such as "line.I_rms": the part behind the last dot is the printed symbol. An id is used
    once; working it twice raises ValueError. An unknown argument, or one outside a formula's limits, gives an unknown
    result that says why. An argument of another kind, or a plain number, raises TypeError.
    """

    def __init__(self) -> None:
        self.values: dict[str, Value] = {}

    def take(self, value: Value) -> Value:
        """Enters a value that the builder wrote, so that it is found by its id. Entering it again does nothing; another
        number or kind under an id that is taken raises ValueError."""
        known = self.values.setdefault(value.id, value)
        same = float(known) == float(value) if known.known else not value.known
        if known.unit is not value.unit or not same:
            raise ValueError(f"{value.id} is already another value")
        return known

    def work(
        self, id: str, formula: Formula[P], label: str = "", /, *args: P.args, **arguments: P.kwargs
    ) -> Value:
        """Works `formula` on Values of the right kinds; the result's parent is the new line."""
        if args:
            raise TypeError(f"{formula.name}: name the arguments")
        given: dict[str, Value] = {}
        gives = formula.gives
        for name, argument in arguments.items():
            if not isinstance(argument, Value):
                raise TypeError(f"{id}: {name} is {argument!r}, which has no parent")
            wanted = formula.arguments[name]
            if wanted is ALIKE:
                alike = next((given[n].unit for n in given if formula.arguments[n] is ALIKE), argument.unit)
                gives = argument.unit if formula.gives is ALIKE else gives
                wanted = alike
            if argument.unit is not wanted:
                raise TypeError(
                    f"{id}: {name} of {formula.name} is a {wanted.kind}, not a {argument.unit.kind}"
                )
            given[name] = self.take(argument)
        label = label or formula.title
        missing = tuple(argument for argument in given.values() if not argument.known)
        if missing:
            why = f"needs {missing[0].label}" + (f" and {len(missing) - 1} more" if len(missing) > 1 else "")
            return self._enter(unknown(id, gives, why, label, missing=missing))
        try:
            number = formula(**{name: float(argument) for name, argument in given.items()})  # type: ignore[call-arg, arg-type]
        except OutsideLimits as refusal:
            return self._enter(unknown(id, gives, str(refusal), label))
        return self._enter(Value(number, id=id, unit=gives, parent=Line(formula, given), label=label))

    def pick(
        self,
        id: str,
        table_id: str,
        column: str,
        label: str = "",
        *,
        key: str | None = None,
        at_least: Value | None = None,
        at_most: Value | None = None,
        where: str | None = None,
    ) -> Value:
        """A cell of a published table: the row named `key`, or the first whose `where` column (the same column when
        left out) is at least or at most a value. The cell is the parent. A row that is not there gives an unknown."""
        source = table(table_id)
        bound = at_least if at_least is not None else at_most
        unit = source.columns[column].unit
        searched = source.columns[where or column]
        if bound is not None and not searched.quantity and bound.unit is not searched.unit:
            raise TypeError(f"{id}: {source.id} is searched by a {searched.unit.kind}, not a {bound.unit.kind}")
        if bound is not None and not bound.known:
            return self._enter(
                unknown(id, unit, f"needs {bound.label}", label or source.title, missing=(bound,))
            )
        try:
            cell = _cell(source, column, where or column, key, at_least, at_most)
        except MissingRow as error:
            return self._enter(unknown(id, unit, str(error), label or source.title))
        return self._enter(
            Value(cell.si, id=id, unit=cell.unit, parent=Row(cell, bound), label=label or source.title)
        )

    def assume(self, id: str, name: str, label: str = "") -> Value:
        """The assumed value `name` of the table of assumed values. It prints as assumed, with how to measure it."""
        cell = table("assumed").cell(name, "value")
        return self._enter(
            Value(cell.si, id=id, unit=cell.unit, parent=Row(cell), label=label or cell.note("label"))
        )

    def known_or_assumed(self, given: Value, name: str) -> Value:
        """What the builder wrote, or else the assumed value `name` under the same id with the suffix `~`."""
        return self.take(given) if given.known else self.assume(f"{given.id}~", name)

    def solved(self, id: str, number: float, unit: Unit, model: Model, label: str) -> Value:
        """A number out of a solved model."""
        return self._enter(Value(number, id=id, unit=unit, parent=model, label=label))

    def unsolved(self, id: str, unit: Unit, why: str, label: str, missing: tuple[Value, ...] = ()) -> Value:
        """What a model would have given, had it been possible to solve it."""
        return self._enter(unknown(id, unit, why, label, missing=missing))

    def _enter(self, value: Value) -> Value:
        if value.id in self.values:
            raise ValueError(f"{value.id} is worked twice")
        self.values[value.id] = value
        return value


def _cell(
    source: Table, column: str, where: str, key: str | None, at_least: Value | None, at_most: Value | None
) -> Cell:
    if key is not None:
        return source.cell(key, column)
    if at_least is not None:
        return source.cell(source.first_at_least(where, float(at_least)), column)
    if at_most is not None:
        return source.cell(source.last_at_most(where, float(at_most)), column)
    raise TypeError(f"{source.id}: name a key, at_least or at_most")


__all__ = ["Absent", "Input", "Line", "Model", "Row", "Worksheet"]
