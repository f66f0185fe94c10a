"""The edge of every page: frame, millimetre or inch scale, thumb index, filing marks, zones.

Written as page rules, one named page for each sheet, with the edge as the page's background.
Lengths are millimetres from the paper's upper left corner.
"""

import base64
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

from markupsafe import Markup

from buildsheet.packet.figures import GREY, INK, LINE, PAPER, drawn, figures, line, num, rect

FRAME_LEFT = 20.0  # as ISO 5457 (from memory): 20 mm to file, 10 mm elsewhere
FRAME_TOP = FRAME_BOTTOM = FRAME_RIGHT = 10.0
FRAME_LINE = 0.5
LIVE_WIDTH = 180.0  # of an upright page, on either paper
GAP = 1.0  # frame to content, above
CONTINUED = 15.0  # the strip that says on later pages of a sheet which sheet this is
TITLE_BLOCK = 22.0
FOOT_GAP = 2.0  # content to title block
UNPRINTED = 5.0  # home printers reach no nearer to the paper's edge

TAB_PITCH = 17.66
TABS_FROM = 6.0  # from the frame's corner

ZONES_ACROSS, ZONES_DOWN = "123456", "ABCD"


@dataclass(frozen=True)
class Paper:
    """A paper size, upright, in mm."""

    name: str
    width: float
    height: float
    holes: tuple[float, ...]  # filing holes, distances from the middle of the long side


A4 = Paper("A4", 210, 297, (-40, 40))  # ISO 216; holes 80 mm apart, ISO 838 (both from memory)
LETTER = Paper(
    "US Letter", 215.9, 279.4, (-107.95, 0, 107.95)
)  # 8 1/2 in x 11 in; three holes 4 1/4 in apart


class HasEdge(Protocol):
    """What the edge needs to know of a sheet."""

    @property
    def slug(self) -> str: ...  # its named page: a CSS identifier

    @property
    def number(self) -> str: ...  # on its tab; empty for a sheet outside the numbered set

    @property
    def landscape(self) -> bool: ...


@dataclass(frozen=True)
class Frame:
    """The frame on a page: what stands inside is printed matter, what stands outside is edge."""

    page_width: float
    page_height: float
    left: float
    top: float
    right: float
    bottom: float


def frame(paper: Paper, landscape: bool = False) -> Frame:
    """Where the frame stands. An upright page keeps its 180 mm on any paper."""
    if landscape:
        width, height = paper.height, paper.width
        right = width - FRAME_RIGHT
    else:
        width, height = paper.width, paper.height
        right = FRAME_LEFT + LIVE_WIDTH
    return Frame(width, height, FRAME_LEFT, FRAME_TOP, right, height - FRAME_BOTTOM)


def live_area(paper: Paper, landscape: bool = False) -> tuple[float, float]:
    """Width and height, mm, that a sheet's content has on its first page."""
    f = frame(paper, landscape)
    return f.right - f.left, f.bottom - f.top - GAP - TITLE_BLOCK - FOOT_GAP


def page_rules(sheets: Sequence[HasEdge], paper: Paper = A4, inches: bool = False) -> Markup:
    """The @page rules of a set of sheets, in the order in which they are bound."""
    numbered = [sheet.slug for sheet in sheets if sheet.number]
    rules = []
    for sheet in sheets:
        f = frame(paper, sheet.landscape)
        drawing = frame_line(f) + edge_scale(f, inches, sheet.landscape) + filing_marks(f, paper)
        at = numbered.index(sheet.slug) if sheet.number else None
        drawing += thumb_index(f, len(numbered), at, sheet.number)
        if sheet.landscape:
            drawing += zones(f)
        rules.append(_rule(sheet, f, drawing))
    return drawn("\n".join(rules))


def _rule(sheet: HasEdge, f: Frame, drawing: str) -> str:
    width, height = num(f.page_width), num(f.page_height)
    image = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" '
        f'viewBox="0 0 {width} {height}">{drawing}</svg>'
    )
    url = "data:image/svg+xml;base64," + base64.b64encode(image.encode()).decode()
    right = num(f.page_width - f.right)
    foot = num(f.page_height - f.bottom + TITLE_BLOCK + FOOT_GAP)
    page = f"s-{sheet.slug}"
    first, later = (num(f.top + GAP), num(f.top + GAP + CONTINUED))
    blocks = "@bottom-right{content:element(title-block);width:180mm}"
    if sheet.landscape:
        legend = num(f.right - f.left - LIVE_WIDTH)
        blocks += f"@bottom-left{{content:element(legend);width:{legend}mm}}"
    return (
        # The background is placed from the content box, hence the way back to the paper's corner.
        f"@page {page}{{size:{width}mm {height}mm;margin:{later}mm {right}mm {foot}mm {num(f.left)}mm;"
        f'background:url("{url}") no-repeat -{num(f.left)}mm -{later}mm;background-size:{width}mm {height}mm;'
        f"@top-left{{content:element(continued);width:{num(f.right - f.left)}mm;height:{num(CONTINUED)}mm}}{blocks}}}\n"
        f"@page {page}:nth(1 of {page}){{margin-top:{first}mm;background-position:-{num(f.left)}mm -{first}mm;"
        f"@top-left{{content:none}}}}\n"
        f".{page}{{page:{page}}}"
    )


def frame_line(f: Frame) -> str:
    """The frame. Its line lies outside the content, so that a tint which fills a sheet's width spares it."""
    half = FRAME_LINE / 2
    return (
        f'<rect x="{num(f.left - half)}" y="{num(f.top - half)}" width="{num(f.right - f.left + FRAME_LINE)}" '
        f'height="{num(f.bottom - f.top + FRAME_LINE)}" fill="none" stroke="{INK}" stroke-width="{FRAME_LINE}"/>'
    )


def edge_scale(f: Frame, inches: bool = False, landscape: bool = False) -> str:
    """A scale of true length outside the frame, up the left side, or along the foot of a landscape page.

    It shows whether a print came out at full size, and measures strip lengths at the bench.
    """
    if inches:  # 0 to 4 in by sixteenths; the longer the tick, the rounder the fraction
        unit, name, last = 25.4, "in", 64
        reach = {16: 4.0, 8: 3.0, 4: 2.4, 2: 1.8, 1: 1.2}
        step, numbered = 25.4 / 16, 16
    else:
        unit, name, last = 1.0, "mm", 100
        reach = {10: 3.6, 5: 2.4, 1: 1.3}
        step, numbered = 1.0, 20
    d, labels = "", ""
    for i in range(last + 1):
        length = next(reach[every] for every in reach if i % every == 0)
        at = i * step
        label = str(round(at / unit)) if i % numbered == 0 else ""
        if landscape:
            x, y = f.left + at, f.bottom
            d += f"M{num(x)} {num(y)}v{num(length)}"
            labels += figures(x, y + 6.2, label, anchor="middle") if label else ""
        else:
            x, y = f.left, f.bottom - at
            d += f"M{num(x)} {num(y)}h-{num(length)}"
            labels += figures(x - 4.3, y + 0.85, label, anchor="end") if label else ""
    if landscape:
        labels += figures(f.left + last * step + 4, f.bottom + 6.2, name, fill=GREY)
    else:
        labels += figures(f.left - 4.3, f.bottom - last * step - 2.6, name, anchor="end", fill=GREY)
    return f'<path d="{d}" stroke="{INK}" stroke-width="0.18"/>{labels}'


def thumb_index(f: Frame, count: int, current: int | None, number: str) -> str:
    """One mark for each numbered sheet down the right edge, the current one a black tab with its number.

    A dropped stack sorts itself by it. `current` counts from 0; None draws no tab.
    """
    if count == 0:
        return ""
    outer = f.page_width - UNPRINTED
    pitch = min(TAB_PITCH, (f.bottom - f.top - 2 * TABS_FROM) / count)
    drawing = ""
    for i in range(count):
        top = f.top + TABS_FROM + i * pitch
        middle = top + pitch / 2
        if i != current:
            drawing += line(f.right, middle, f.right + 1.6, middle, 0.3, LINE)
        else:
            drawing += rect(f.right, top, outer - f.right, pitch)
            drawing += figures((f.right + outer) / 2, middle + 1.15, number, 9, "bold", "middle", PAPER)
    return drawing


def filing_marks(f: Frame, paper: Paper) -> str:
    """A short mark at the height of each filing hole and of the middle, where a punch is laid on."""
    drawing = ""
    middle = f.page_height / 2
    for offset in paper.holes:
        y = middle + offset
        if f.top < y < f.bottom:
            drawing += line(UNPRINTED + 0.5, y, UNPRINTED + 3, y, 0.25, LINE)
    return drawing + f'<path d="M{UNPRINTED + 0.5} {num(middle - 0.9)}l1.6 .9l-1.6 .9z" fill="{LINE}"/>'


def zones(f: Frame) -> str:
    """Letters down the left side and figures along the top, to say where on the drawing a thing is."""
    drawing = ""
    across = (f.right - f.left) / len(ZONES_ACROSS)
    for i, name in enumerate(ZONES_ACROSS):
        if i:
            drawing += line(f.left + i * across, f.top, f.left + i * across, f.top - 3, 0.25)
        drawing += figures(f.left + (i + 0.5) * across, f.top - 1.3, name, 8, "semibold", "middle")
    down = (f.bottom - f.top) / len(ZONES_DOWN)
    for i, name in enumerate(ZONES_DOWN):
        if i:
            drawing += line(f.left, f.top + i * down, f.left - 3, f.top + i * down, 0.25)
        drawing += figures(f.left - 2.6, f.top + (i + 0.5) * down + 1, name, 8, "semibold", "middle")
    return drawing
