"""How wide the columns are, and how the labels over their devices break."""

from collections.abc import Mapping

from buildsheet.packet.diagram.labels import Label, label, least_width
from buildsheet.packet.diagram.layout import Placement

OVERHANG = 2.4  # a label may reach so far past its box: the first track is further off
FOOT_WIDTH = 13.0
WIDER = 9.0  # no column gets more than this for its labels


def column_widths(p: Placement) -> list[float]:
    """The least width of each column: its widest device, and the longest word of a label."""
    least = []
    feet = max((least_width(p.circuit.devices[code]) for code in p.feet), default=0.0)
    for items in p.columns:
        codes = [item for item in items if isinstance(item, str)]
        hang = OVERHANG if items is not p.columns[-1] else 0.0
        needs = [
            max(p.shapes[code].least_width, least_width(p.circuit.devices[code]) - hang) for code in codes
        ]
        least.append(max(needs, default=FOOT_WIDTH))
    if least:
        least[-1] = max(least[-1], feet)  # the name of a metal part has nowhere to go past the last column
    return least


def broken_labels(
    p: Placement, columns: list[float], foot: float, notes: Mapping[str, str]
) -> dict[str, Label]:
    """Each device's label, broken to its column, or to `foot` mm for a metal part at the foot."""
    return {
        code: label(
            p.circuit.devices[code],
            (columns[p.column[code]] if code in p.column else foot)
            + (OVERHANG if p.column.get(code) != len(columns) - 1 else 0.0),
            notes.get(code, ""),
        )
        for code in p.forms
    }


def widen_columns(p: Placement, columns: list[float], labels: Mapping[str, Label], slack: float) -> bool:
    """Give columns what is left of the sheet's width where it saves a line of a label; the tallest column first."""
    widened = False
    tall = [p.tall(items) for items in p.columns]
    for column in sorted(range(len(columns)), key=lambda c: -tall[c]):
        codes = [item for item in p.columns[column] if isinstance(item, str)]
        needs = sorted(
            label(p.circuit.devices[code]).width - OVERHANG
            for code in codes
            if len(labels[code].names) > 1 or len(labels[code].ratings) > 1
        )
        affordable = [need + 0.05 for need in needs if need - columns[column] <= min(slack, WIDER) - 0.05]
        if affordable:
            slack -= max(0.0, affordable[-1] - columns[column])
            columns[column], widened = max(columns[column], affordable[-1]), True
    return widened
