"""The wiring diagram's sheets: each drawing with its legend."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from buildsheet.packet import edge, figures, marks
from buildsheet.packet.diagram import SETS, Legend, draw
from buildsheet.packet.diagram.conductors import conductor_area
from buildsheet.packet.views.wires import colour_name
from buildsheet.plan import Plan

HEAD = 17.0  # mm, the head of a landscape sheet
MARGIN = 2.2  # mm, between drawing and frame on each side


@dataclass(frozen=True, slots=True)
class DiagramSheet:
    """One drawing and what beside the title block explains it."""

    svg: Markup
    legend: Markup


def sheets(plan: Plan, paper: edge.Paper) -> tuple[DiagramSheet, ...]:
    """The wiring diagram on one sheet, or on several with references."""
    if plan.circuit is None or plan.stopped:
        return ()
    width, height = edge.live_area(paper, landscape=True)
    drawings = draw(
        plan.circuit,
        width=width - 2 * MARGIN,
        height=height - HEAD - 2,
        title="Wiring diagram",
        ground_name=plan.design.region.words["earth"],
        symbols=SETS[plan.design.region.symbols],
    )
    legend = _legend(_joined([drawing.legend for drawing in drawings]), plan.design.region.words)
    return tuple(DiagramSheet(drawing.svg, legend) for drawing in drawings)


def _joined(legends: Sequence[Legend]) -> Legend:
    """One legend for all the sheets of a diagram, since they share a title block."""
    return Legend(
        tuple(sorted({colour for legend in legends for colour in legend.colours})),
        tuple(sorted({width for legend in legends for width in legend.widths}, key=lambda pair: -conductor_area(pair[0]))),
        tuple(dict.fromkeys(symbol for legend in legends for symbol in legend.symbols)),
        any(legend.long_ring for legend in legends),
        any(legend.touched for legend in legends),
        any(legend.bridges for legend in legends),
    )


def _legend(legend: Legend, words: Mapping[str, str]) -> Markup:
    """Widths, marks and colours, in the cells beside the title block."""
    cells = [_cell(_line(width), size) for size, width in legend.widths]
    if legend.bridges:
        cells.append(_cell(_bridge(), "not joined"))
    if legend.long_ring:
        cells.append(_cell(_long_ring(), "takes two"))
    if legend.touched:
        cells.append(_cell(marks.triangle(True, 4.0), "touched, live"))
    names = ", ".join(f"{code} {colour_name(code, words)}" for code in legend.colours)
    cells.append(Markup('<span class="legend-words">{}</span>').format(names))
    return Markup("").join(cells)


def _cell(drawing: Markup, words: str) -> Markup:
    return Markup("<span>{}{}</span>").format(drawing, words)


def _line(width: float) -> Markup:
    return figures.svg(7, 3, "a wire", figures.line(0.2, 1.5, 6.8, 1.5, width), "mark")


def _bridge() -> Markup:
    body = (
        figures.line(3.5, 0, 3.5, 4, 0.6)
        + figures.line(0.2, 2, 6.8, 2, 1.9, figures.PAPER)
        + figures.line(0.2, 2, 6.8, 2, 0.6)
    )
    return figures.svg(7, 4, "two wires that cross", body, "mark")


def _long_ring() -> Markup:
    return figures.svg(
        2.2,
        4,
        "a terminal for two wires",
        '<rect x="0.25" y="0.3" width="1.7" height="3.4" rx="0.85" fill="#fff" stroke="#000" stroke-width="0.5"/>',
        "mark",
    )
