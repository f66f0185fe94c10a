"""A size as the parts list spells it: what was written, a table's own digits, else three figures."""

from buildsheet.quantities import signed, spell
from buildsheet.worksheet import Input, Row, Value


def spelt(value: Value | None) -> str:
    """As the parts list spells it: what was written, a table's own digits (halves are fractions in some row names)."""
    if value is None or not value.known:
        return "not known"
    if isinstance(value.parent, Input):
        return " ".join(signed(value.parent.text)).strip()
    if isinstance(value.parent, Row):
        cell = value.parent.cell
        column = cell.table.columns[cell.column]
        return " ".join(signed(cell.printed if column.quantity else f"{cell.printed} {column.printed_unit}")).strip()
    return spell(float(value), value.unit, inches=False)


def row_of(value: Value | None) -> str:
    """By the name of its row, where a size has one."""
    if value is not None and isinstance(value.parent, Row):
        return value.parent.cell.row
    return spelt(value)
