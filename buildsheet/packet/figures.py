"""Pieces that every drawing on the packet is made of: ink, numbers, outlined figures, an SVG frame.

Lengths are millimetres on paper. A drawing's inline SVG sees nothing of the page's style sheet, so
it names its font and its colours itself, and it carries its title first, which is what a reading
machine says for it.
"""

from markupsafe import Markup, escape

from buildsheet.packet.fonts import FAMILY, face, text_width

INK = "#000"  # pure, because a laser printer breaks anything lighter into dots
GREY = "#565b61"
LINE = "#9a9c9e"
TINT = "#eeeeea"
PAPER = "#fff"

POINT = 25.4 / 72  # mm


def num(x: float) -> str:
    """A coordinate, to a thousandth of a millimetre."""
    return "0" if abs(x) < 0.0005 else f"{x:.3f}".rstrip("0").rstrip(".")


def drawn(source: str) -> Markup:
    """Source of a drawing as markup. Words in it have been escaped where they were put in."""
    return Markup(source)  # noqa: S704


def svg(
    width: float,
    height: float,
    title: str,
    body: str,
    css_class: str,
    view: tuple[float, float] | None = None,
) -> Markup:
    """A drawing of `width` by `height` mm; its coordinates are millimetres too, unless `view` gives others."""
    across, down = view or (width, height)
    return drawn(
        f'<svg xmlns="http://www.w3.org/2000/svg" class="{css_class}" width="{num(width)}mm" '
        f'height="{num(height)}mm" viewBox="0 0 {num(across)} {num(down)}">'
        f"<title>{escape(title)}</title>{body}</svg>"
    )


def line(
    x1: float, y1: float, x2: float, y2: float, width: float = 0.25, stroke: str = INK, more: str = ""
) -> str:
    """A straight line."""
    d = f"M{num(x1)} {num(y1)}L{num(x2)} {num(y2)}"
    return f'<path d="{d}" fill="none" stroke="{stroke}" stroke-width="{num(width)}"{more}/>'


def rect(x: float, y: float, width: float, height: float, fill: str = INK) -> str:
    """A filled rectangle."""
    return f'<rect x="{num(x)}" y="{num(y)}" width="{num(width)}" height="{num(height)}" fill="{fill}"/>'


def ring(x: float, y: float, radius: float, width: float, fill: str = PAPER) -> str:
    """A circle drawn with a line of `width`."""
    return (
        f'<circle cx="{num(x)}" cy="{num(y)}" r="{num(radius)}" fill="{fill}" '
        f'stroke="{INK}" stroke-width="{num(width)}"/>'
    )


def text(
    x: float,
    y: float,
    words: str,
    points: float = 7,
    weight: str = "regular",
    anchor: str = "start",
    fill: str = INK,
) -> str:
    """Words as text; `points` is the type size, `weight` regular, semibold or bold, `anchor` as in SVG."""
    heavy = {"regular": 400, "semibold": 600, "bold": 700}[weight]
    return (
        f'<text x="{num(x)}" y="{num(y)}" font-family="{FAMILY}" font-size="{num(points * POINT)}" '
        f'font-weight="{heavy}" text-anchor="{anchor}" fill="{fill}">{escape(words)}</text>'
    )


def figures(
    x: float,
    y: float,
    written: str,
    points: float = 7,
    weight: str = "regular",
    anchor: str = "start",
    fill: str = INK,
) -> str:
    """Figures as outlines: quick to draw, and no text where only a mark is meant. Arguments as for text()."""
    of = face(weight)
    size = points * POINT
    x -= {"start": 0.0, "middle": 0.5, "end": 1.0}[anchor] * text_width(written, size, weight)
    glyphs, at = "", 0.0
    for character in written:
        shift = f' transform="translate({num(at)} 0)"' if at else ""
        if of.outlines[character]:  # a space has none
            glyphs += f'<path{shift} d="{of.outlines[character]}"/>'
        at += of.advances[character]
    scale = size / of.per_em
    return f'<g fill="{fill}" transform="translate({num(x)} {num(y)}) scale({scale:.6f})">{glyphs}</g>'


def tick_label(x: float) -> str:
    """A tick's position as it is printed on a scale: real minus, thin space between thousands."""
    written = f"{x:,.6f}".rstrip("0").rstrip(".")
    return written.replace(",", "\u2009").replace("-", "\u2212")
