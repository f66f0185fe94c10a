"""Values to try a worksheet on."""

from buildsheet.units import Unit
from buildsheet.worksheet import Input, Value


def value(number: float, unit: Unit, id: str = "a.x", label: str = "") -> Value:
    """A value as a builder would have written it."""
    return Value(number, id=id, unit=unit, parent=Input("m.yaml", 3, 7, id, "as written"), label=label)
