"""Needs that many places share: what a supply asks of a part, and what is asked of a fuse."""

from buildsheet.sizing.places import Need
from buildsheet.sizing.supply import Supplied

LINE_SLACK = 0.1  # the tolerance of a supply's voltage
TEN_TIMES = "its rows of sheet 8 in band, ten times in a row"
# nobody knows what currents a used fuse has seen
NEVER_USED = Need("origin", "=", "new", "origin", also=("bought",))
TWO_PIECES = Need("pieces", "=", "two of them", "how many")


def volts_need(supplied: Supplied) -> Need:
    """What a switching part must be marked for: the line's nominal voltage, or the most that a battery reaches."""
    return Need("voltage", "≥", supplied.voltage if supplied.alternating else supplied.highest, "volts")


def kind_need(supplied: Supplied) -> Need:
    """Whether it must be marked for alternating or for direct current."""
    return Need("supply", "=", "AC" if supplied.alternating else "DC", "kind of supply")
