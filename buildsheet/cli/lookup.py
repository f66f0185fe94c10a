"""The two reference commands: formulas and tables, listed, found by a word, worked or shown."""

import json
from difflib import get_close_matches
from importlib import import_module
from pkgutil import iter_modules
from typing import Any

from buildsheet import formulas as topics
from buildsheet.formulas.formula import REGISTRY, Formula, OutsideLimits
from buildsheet.given.problems import BuildsheetError
from buildsheet.packet.ink import plain_symbol, plain_tokens
from buildsheet.quantities import QuantityError, figures, kinds_of, read, spell, split
from buildsheet.reference import MissingRow, Table, table, table_ids
from buildsheet.units import ALIKE, Unit
from buildsheet.worksheet.equation import letters, worked

for _topic in iter_modules(topics.__path__):  # formulas register themselves when their module is imported
    import_module(f"{topics.__name__}.{_topic.name}")


def formula_report(name: str | None, quantities: tuple[str, ...], *, as_json: bool) -> str:
    """All formulas, those that a word finds, or one worked from quantities as a person writes them."""
    if name is None:
        return _listed(list(REGISTRY.values()), as_json=as_json)
    if name not in REGISTRY:
        found = [
            f
            for f in REGISTRY.values()
            if name.lower() in f"{f.name} {f.summary} {f.source}".lower().replace("_", " ")
        ]
        if quantities or not found:
            near = get_close_matches(name, REGISTRY, n=3, cutoff=0.4)
            raise BuildsheetError(f'no formula "{name}"' + (f"; perhaps {', '.join(near)}" if near else ""))
        return _listed(found, as_json=as_json)
    chosen = REGISTRY[name]
    if not quantities:
        return _listed([chosen], as_json=as_json) if as_json else _described(chosen)
    return _worked(chosen, quantities, as_json=as_json)


def _listed(formulas: list[Formula[Any]], *, as_json: bool) -> str:
    if as_json:
        return json.dumps([_as_json(one) for one in formulas], ensure_ascii=False, indent=1)
    return "\n".join(
        f"{one.name:<32} {one.summary}\n{'':<32} {one.source}"
        for one in sorted(formulas, key=lambda f: f.name)
    )


def _as_json(one: Formula[Any]) -> dict[str, Any]:
    return {
        "id": one.name, "equation": _equation(one), "arguments": {name: unit.symbol for name, unit in one.arguments.items()},
        "unit": one.gives.symbol, "source": str(one.source), "limits": _limits(one),
    }  # fmt: skip


def _limits(one: Formula[Any]) -> dict[str, list[str]]:
    return {
        name: [spell(low, one.arguments[name]), spell(high, one.arguments[name])]
        for name, (low, high) in one.limits.items()
    }


def _equation(one: Formula[Any]) -> str:
    parts = []
    for name, row in letters(one):
        head = {"": "result = ", "if": "if ", "else": "else"}.get(name, f"{plain_symbol(name)} = ")
        parts.append(head + plain_tokens(row))
    return "; ".join(parts)


def _described(one: Formula[Any]) -> str:
    lines = [one.name, f"  {one.summary}", f"  {_equation(one)}"]
    lines += [
        f'  {name}: {unit.kind}{f" in {unit.symbol}" if unit.symbol else ""}, for example {name}="{unit.example}"'
        for name, unit in one.arguments.items()
    ]
    lines += [f"  {name} from {low} to {high}" for name, (low, high) in _limits(one).items()]
    lines += [f"  leaves out: {one.leaves_out}"] if one.leaves_out else []
    return "\n".join([*lines, f"  source: {one.source}"])


def _worked(one: Formula[Any], quantities: tuple[str, ...], *, as_json: bool) -> str:
    given: dict[str, float] = {}
    alike: Unit | None = None
    for pair in quantities:
        name, equals, text = pair.partition("=")
        if not equals or name not in one.arguments:
            raise BuildsheetError(
                f'"{pair}": write one of {", ".join(one.arguments)}, an equals sign and a quantity'
            )
        unit = one.arguments[name]
        try:
            if unit is ALIKE:
                unit = alike = alike or kinds_of(split(text)[1])[0]
            given[name] = read(text, unit)
        except QuantityError as error:
            raise BuildsheetError(f"{name}: {error}") from None
    missing = [name for name in one.arguments if name not in given]
    if missing:
        raise BuildsheetError(f"{one.name} also needs {', '.join(missing)}")
    try:
        number = one(**given)
    except OutsideLimits as refusal:
        raise BuildsheetError(str(refusal)) from None
    gives = alike if one.gives is ALIKE and alike is not None else one.gives
    if as_json:
        return json.dumps([{**_as_json(one), "value": number}], ensure_ascii=False, indent=1)
    lines = [one.summary]
    for step in worked(one, given, one.name):
        head = plain_symbol(step.symbol) if step.symbol != one.name else "result"
        result = (
            f" = {figures(step.value, 5)} {(step.unit or gives).symbol}"
            if step.unit is not None
            else ("  yes" if step.value else "  no")
        )
        lines.append(
            f"  {head} = {plain_tokens(step.letters)}"
            if step.unit is not None
            else f"  if {plain_tokens(step.letters)}"
        )
        lines.append(
            f"    = {plain_tokens(step.numbers)}{result}"
            if step.unit is not None
            else f"    {plain_tokens(step.numbers)}{result}"
        )
    lines.append(f"  {spell(number, gives)}")
    lines += [f"  {name} from {low} to {high}" for name, (low, high) in _limits(one).items()]
    return "\n".join([*lines, f"  source: {one.source}"])


def table_report(name: str | None, row: str | None, *, as_json: bool) -> str:
    """All tables, one, or one row."""
    if name is None:
        tables = [table(one) for one in table_ids()]
        if as_json:
            return json.dumps([_table_json(one, None) for one in tables], ensure_ascii=False, indent=1)
        return "\n".join(f"{one.id:<24} {one.title}\n{'':<24} {one.source}" for one in tables)
    try:
        chosen = table(name)
        if row is not None and row not in chosen.rows:
            chosen.cell(row, list(chosen.columns)[-1])
    except (MissingRow, LookupError) as error:
        raise BuildsheetError(str(error.args[0])) from None
    if as_json:
        return json.dumps(_table_json(chosen, row), ensure_ascii=False, indent=1)
    rows = {row: chosen.rows[row]} if row else chosen.rows
    heads = [
        f"{column.label}{f' ({column.printed_unit})' if column.printed_unit else ''}"
        for column in chosen.columns.values()
    ]
    widths = [
        max(len(head), *(len(cells[name]) for cells in rows.values()))
        for head, name in zip(heads, chosen.columns, strict=True)
    ]
    lines = [chosen.title, str(chosen.source), *([chosen.conditions] if chosen.conditions else [])]
    lines.append("  ".join(head.ljust(width) for head, width in zip(heads, widths, strict=True)).rstrip())
    lines += [
        "  ".join(
            cells[name].ljust(width) for name, width in zip(chosen.columns, widths, strict=True)
        ).rstrip()
        for cells in rows.values()
    ]
    return "\n".join(lines)


def _table_json(one: Table, row: str | None) -> dict[str, Any]:
    rows = {row: one.rows[row]} if row else one.rows
    return {
        "id": one.id, "title": one.title, "source": str(one.source),
        "columns": {column.name: column.printed_unit for column in one.columns.values()},
        "rows": {key: dict(cells) for key, cells in rows.items()},
    }  # fmt: skip
