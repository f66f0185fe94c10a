"""Tables from TOML files: the printed digits in their printed unit, with a citation, and SI derived on loading."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache
from importlib.resources import files
from typing import Any

from buildsheet.citations import Citation
from buildsheet.quantities import QuantityError, kinds_of, number, read, to_si
from buildsheet.units import NUMBER, UNITS, Unit

LOOKUPS = ("exact", "next_larger", "next_smaller")


class MissingRow(LookupError):
    """No such row. The message names the nearest keys; they are a hint, never an answer."""


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its kind of quantity and the unit that is printed over it; `text` columns hold words."""

    name: str
    unit: Unit
    printed_unit: str
    label: str
    text: bool = False
    quantity: bool = False


@dataclass(frozen=True, slots=True)
class Cell:
    """One printed value. `si` is derived from `printed`; `unit` is its kind."""

    table: "Table"
    row: str
    column: str
    printed: str
    si: float
    unit: Unit

    def note(self, column: str) -> str:
        """A word column of the same row, such as the label or the reason of an assumed value."""
        return self.table.rows[self.row][column]


@dataclass(frozen=True, eq=False, slots=True)
class Table:
    """A published table. `rows` hold the printed text by key and column; "-" marks a cell that the source leaves empty."""

    id: str
    title: str
    source: Citation
    lookups: tuple[str, ...]
    conditions: str
    columns: Mapping[str, Column]
    rows: Mapping[str, Mapping[str, str]]

    def cell(self, key: str, column: str) -> Cell:
        """The cell at row `key`. Raises MissingRow for a row that is not there or an empty cell."""
        if key not in self.rows:
            near = get_close_matches(key, self.rows, n=3, cutoff=0) or list(self.rows)[:3]
            raise MissingRow(f'{self.title} has no row "{key}"; the nearest are {", ".join(near)}')
        printed = self.rows[key][column]
        if printed == "-":
            raise MissingRow(f'{self.title} gives nothing for "{key}" under {self.columns[column].label}')
        kind, si = self._value(key, column)
        return Cell(self, key, column, printed, si, kind)

    def first_at_least(self, column: str, value: float) -> str:
        """Key of the first row whose cell is at least `value`: the next larger standard size."""
        self._allow("next_larger")
        for key in self._filled(column):
            if self._value(key, column)[1] >= value * (1 - 1e-12):
                return key
        near = ", ".join(self._filled(column)[-2:])
        raise MissingRow(f"{self.title} ends below what is needed; the nearest are {near}")

    def last_at_most(self, column: str, value: float) -> str:
        """Key of the last row whose cell is at most `value`: the next smaller standard size."""
        self._allow("next_smaller")
        fitting = [key for key in self._filled(column) if self._value(key, column)[1] <= value * (1 + 1e-12)]
        if not fitting:
            near = ", ".join(self._filled(column)[:2])
            raise MissingRow(f"{self.title} begins above what is allowed; the nearest are {near}")
        return fitting[-1]

    def _allow(self, lookup: str) -> None:
        if lookup not in self.lookups:
            raise TypeError(f"table {self.id} does not allow {lookup}")

    def _filled(self, column: str) -> list[str]:
        return [key for key, row in self.rows.items() if row[column] != "-"]

    def _value(self, key: str, column: str) -> tuple[Unit, float]:
        made, printed = self.columns[column], self.rows[key][column]
        if made.text:
            raise TypeError(f"column {column} of table {self.id} holds words")
        if made.quantity:
            kind = _kind(self.rows[key]["kind"])
            return kind, read(printed, kind)
        return made.unit, _si(printed, made.printed_unit, made.unit)


def _si(printed: str, unit_text: str, unit: Unit) -> float:
    plain = number(printed.replace(" ", "").replace(" ", ""))
    return to_si(plain, unit_text, unit) if unit_text else plain


def _kind(name: str) -> Unit:
    return next(unit for unit in UNITS if unit.kind == name)


def table_ids() -> tuple[str, ...]:
    """Ids of all tables, sorted."""
    folder = files("buildsheet.reference") / "tables"
    return tuple(
        sorted(path.name.removesuffix(".toml") for path in folder.iterdir() if path.name.endswith(".toml"))
    )


@cache
def table(id: str) -> Table:
    """The table with this id. Raises LookupError for an id that is not there, ValueError for a faulty file."""
    if id not in table_ids():
        near = get_close_matches(id, table_ids(), n=3, cutoff=0.3)
        raise LookupError(f'no table "{id}"' + (f"; perhaps {', '.join(near)}" if near else ""))
    path = files("buildsheet.reference") / "tables" / f"{id}.toml"
    return parse(id, path.read_text(encoding="utf-8"))


def parse(id: str, text: str) -> Table:
    """A table from the text of its file. Raises ValueError naming what is wrong with the file."""
    raw = tomllib.loads(text)
    try:
        columns = {name: _column(name, made) for name, made in raw["columns"].items()}
        if raw["id"] != id or not set(raw["lookups"]) <= set(LOOKUPS):
            raise ValueError(f"id {raw['id']}, lookups {raw['lookups']}")
        key, *others = columns
        rows = {name: {key: name, **_row(id, name, others, cells)} for name, cells in raw["rows"].items()}
        title, source = raw["title"], raw["source"]
        citation = Citation(
            source["work"], source.get("at", ""), source.get("edition", ""), source["read_from"]
        )
    except (KeyError, QuantityError) as error:
        raise ValueError(f"table {id}: {error}") from error
    return Table(id, title, citation, tuple(raw["lookups"]), source.get("conditions", ""), columns, rows)


def _row(id: str, name: str, columns: list[str], cells: list[str]) -> dict[str, str]:
    if len(cells) != len(columns):
        raise ValueError(f"table {id}: row {name} has {len(cells)} cells for {len(columns)} columns")
    return dict(zip(columns, cells, strict=True))


def _column(name: str, made: dict[str, Any]) -> Column:
    label = made.get("label", name.replace("_", " "))
    if made.get("text"):
        return Column(name, NUMBER, "", label, text=True)
    if made.get("quantity"):
        return Column(name, NUMBER, "", label, quantity=True)
    unit_text = made.get("unit", "")
    kind = _kind(made["kind"]) if "kind" in made else (kinds_of(unit_text)[0] if unit_text else NUMBER)
    return Column(name, kind, unit_text, label)
