"""What a pocket meter shows on good parts, by custom, and how far one may read from its value."""

from buildsheet.reference import table


def usual(part: str) -> tuple[float, float]:
    """Ohms that a meter shows on a good part, least and greatest."""
    cells = table("usual_ohms")
    return cells.cell(part, "low").si, cells.cell(part, "high").si


def spread(part: str) -> tuple[float, float]:
    """How far a good part may read from its value, as factors."""
    cells = table("meter_spread")
    return cells.cell(part, "low").si, cells.cell(part, "high").si


def around(part: str, ohms: float) -> tuple[float, float]:
    """Least and greatest reading of a good part of so many ohms."""
    low, high = spread(part)
    return low * ohms, high * ohms
