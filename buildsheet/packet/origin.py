"""Where a printed number comes from, in one of five plain words; and the numbers of the calculations."""

from buildsheet.worksheet import Absent, Input, Line, Model, Row, Value, Worksheet


def calculation_ids(sheet: Worksheet) -> dict[str, str]:
    """C1, C2 … for every line and model that gave a number, by value id, in the order in which they were worked."""
    worked = (
        value for value in sheet.values.values() if isinstance(value.parent, Line | Model) and value.known
    )
    return {value.id: f"C{number}" for number, value in enumerate(worked, 1)}


def table_ids_used(sheet: Worksheet) -> dict[str, str]:
    """T1, T2 … for every table that a value was looked up in."""
    found: dict[str, str] = {}
    for value in sheet.values.values():
        if isinstance(value.parent, Row) and value.parent.cell.table.id != "assumed":
            found.setdefault(value.parent.cell.table.id, f"T{len(found) + 1}")
    return found


def origin_word(value: Value, calculations: dict[str, str], tables: dict[str, str]) -> tuple[str, str]:
    """(bold word, rest): `your file`, `table`, `result`, `model` or `assumed`, and which one."""
    match value.parent:
        case Input(line=line):
            return "your file", f", line {line}"
        case Row(cell=cell) if cell.table.id == "assumed":
            return "assumed", ", see sheet 3"
        case Row(cell=cell):
            return "table", f" {tables.get(cell.table.id, '')}, {cell.row}"
        case Line():
            return "result", f" {calculations.get(value.id, '')}"
        case Model():
            return "model", f" {calculations.get(value.id, '')}"
        case Absent(why=why):
            return "not known", f": {why}"
