"""The sheet as SVG: wires with bridges, boxes with their insides, rings, labels, the bar, flags. One unit is a millimetre."""

import itertools
from collections.abc import Callable, Mapping

from markupsafe import escape

from buildsheet.circuit import Wire
from buildsheet.packet.diagram.conductors import conductor_area, line_width
from buildsheet.packet.diagram.inside import DROP_TO_BASELINE, Inside
from buildsheet.packet.diagram.labels import text
from buildsheet.packet.diagram.model import (
    BOX_LINE,
    CASING,
    CODE_TEXT,
    FLAG_HEIGHT,
    NAME_TEXT,
    RATING_TEXT,
    RING,
    TERMINAL_TEXT,
    Colours,
    Drawing,
    Flag,
    Legend,
    Point,
    Rect,
    Text,
    crossings,
)  # fmt: skip
from buildsheet.packet.diagram.sheet import BAR_HEIGHT, STUD_DOWN, Sheet
from buildsheet.packet.diagram.symbols import Symbol
from buildsheet.packet.figures import GREY, INK, PAPER, TINT, drawn, num
from buildsheet.packet.fonts import FAMILY, text_width
from buildsheet.packet.marks import SPARK, TRIANGLE

Paint = Callable[[str], tuple[str, str, str | None]]
PALE = 0.55  # a wire of this relative lightness or more is drawn as a double line
WEIGHTS = {"regular": 400, "semibold": 600, "bold": 700}
SPARE_PITCH = 5.5


def drawing(
    sheet: Sheet, title: str, ground_name: str, colours: Colours, symbols: Mapping[str, Symbol], name: str
) -> Drawing:
    """The finished drawing of a sheet."""
    paint: Paint = colours.__getitem__ if isinstance(colours, Mapping) else colours
    p = sheet.placement
    by_number = {wire.number: wire for wire in p.circuit.wires}
    texts: list[Text] = []
    body = _wires(sheet, by_number, paint) + _bar(sheet, ground_name, texts)
    used: set[str] = set()
    for code, box in sheet.boxes.items():
        body += _box(box)
        if code in sheet.stack.feet:
            x, y = box.x + box.width / 2, box.y + 2.6
            body += f'<g transform="translate({num(x)} {num(y)})">{symbols["metal"].draw(False)}</g>'
            used.add("metal")
            continue
        form, shape = p.forms[code], sheet.stack.shapes[code]
        rows = {row: sheet.stack.rows[code, row] for row in range(shape.rows)}
        inside = Inside(p.circuit.devices[code], form, p.chosen(code), shape, box, rows, symbols)
        inside.draw()
        body += inside.body
        texts += inside.texts
        used |= inside.used
    for ring in sheet.rings:
        body += _ring(ring.room)
    for code, (made, x) in sheet.labels.items():
        texts += made.texts(x, sheet.boxes[code].y)
        spark = made.spark(x, sheet.boxes[code].y)
        if spark:
            body += _spark(*spark)
    body += "".join(_text(words) for words in texts)
    for flag in sheet.flags:
        markup, words = _flag(flag, by_number[flag.wire], paint)
        body += markup
        texts += words
    legend = Legend(
        tuple(sorted({by_number[number].colour for number in sheet.wires})),
        tuple(sorted({(by_number[number].size, line_width(by_number[number].size)) for number in sheet.wires}, key=lambda pair: -conductor_area(pair[0]))),
        tuple(sorted(used)),
        any(ring.room.height > 2.1 * RING for ring in sheet.rings),
        any(made.touched for made, _ in sheet.labels.values()),
        bool(crossings(sheet.wires)),
    )  # fmt: skip
    w, h = num(sheet.width), num(sheet.height)
    source = (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="diagram" width="{w}mm" height="{h}mm" viewBox="0 0 {w} {h}">'
        f"<title>{escape(title)}</title>{body}</svg>"
    )
    return Drawing(
        drawn(source), sheet.width, sheet.height, dict(sheet.boxes), tuple(sheet.rings), tuple(texts),
        tuple(sheet.flags), dict(sheet.wires), legend, name,
        {number: line_width(by_number[number].size) for number in sheet.wires},
    )  # fmt: skip


def _d(points: tuple[Point, ...]) -> str:
    d = f"M{num(points[0][0])} {num(points[0][1])}"
    for (ax, _), (bx, by) in itertools.pairwise(points):
        d += f"V{num(by)}" if ax == bx else f"H{num(bx)}"
    return d


def _stroke(d: str, colour: str, width: float, more: str = "") -> str:
    return f'<path d="{d}" fill="none" stroke="{colour}" stroke-width="{num(width)}" stroke-linejoin="miter"{more}/>'


def _wires(sheet: Sheet, by_number: Mapping[int, Wire], paint: Paint) -> str:
    """Wires to the bar first, so that all others bridge them, then the rest from the last to the first."""
    body = ""
    bar = {wire.number for wire, _ in sheet.placement.drops}
    for number in sorted(sheet.wires, key=lambda number: (number not in bar, -number)):
        wire = by_number[number]
        d, width = _d(sheet.wires[number]), line_width(wire.size)
        ground, _, stripe = paint(wire.colour)
        body += _stroke(d, PAPER, width + 2 * CASING)
        if _lightness(ground) >= PALE:
            body += _stroke(d, INK, width) + _stroke(d, ground, width - 0.4)
        else:
            body += _stroke(d, ground, width)
        if stripe is not None:
            body += _stroke(d, stripe, width, ' stroke-dasharray="1.5 1.5"')
    return body


def _lightness(colour: str) -> float:
    """Relative luminance as WCAG 2.2 defines it."""
    full = colour if len(colour) == 7 else "#" + "".join(c * 2 for c in colour[1:])
    parts = [int(full[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    r, g, b = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def _box(box: Rect) -> str:
    return (
        f'<rect x="{num(box.x)}" y="{num(box.y)}" width="{num(box.width)}" height="{num(box.height)}" '
        f'fill="{PAPER}" stroke="{INK}" stroke-width="{BOX_LINE}"/>'
    )


def _ring(room: Rect) -> str:
    pen = 0.5
    return (
        f'<rect x="{num(room.x + pen / 2)}" y="{num(room.y + pen / 2)}" width="{num(room.width - pen)}" '
        f'height="{num(room.height - pen)}" rx="{num(RING - pen / 2)}" fill="{PAPER}" stroke="{INK}" stroke-width="{pen}"/>'
    )


def _spark(x: float, y: float) -> str:
    scale = 0.56
    return (
        f'<g transform="translate({num(x)} {num(y)}) scale({scale})"><path d="{TRIANGLE}" fill="{PAPER}" stroke="{INK}" '
        f'stroke-width=".7" stroke-linejoin="round"/><path d="{SPARK}" fill="{INK}"/></g>'
    )


def _text(words: Text) -> str:
    return (
        f'<text x="{num(words.x)}" y="{num(words.y)}" font-family="{FAMILY}" font-size="{num(words.size)}" '
        f'font-weight="{WEIGHTS[words.weight]}" text-anchor="{words.anchor}" fill="{words.fill}">{escape(words.words)}</text>'
    )


def _bar(sheet: Sheet, ground_name: str, texts: list[Text]) -> str:
    p = sheet.placement
    if not p.bars or not sheet.studs:
        return ""
    bar = p.circuit.devices[p.bars[0]]
    box = Rect(0.3, sheet.bar_top, sheet.width - 0.6, BAR_HEIGHT)
    body = (
        f'<rect x="{num(box.x)}" y="{num(box.y)}" width="{num(box.width)}" height="{num(box.height)}" fill="{TINT}" '
        f'stroke="{INK}" stroke-width="{BOX_LINE}"/>'
    )
    y = box.y + STUD_DOWN + RING + 2.9
    for _, name, x in sheet.studs:
        texts.append(text(name, x, y, TERMINAL_TEXT, "semibold", "middle"))
    name = bar.name or f"{ground_name.capitalize()} bar"
    wide = text_width(bar.code, CODE_TEXT, "bold") + 1.3 + text_width(name, NAME_TEXT, "semibold")
    rated = text_width(bar.rating, RATING_TEXT)
    studs = sorted(x for _, _, x in sheet.studs)
    spaces = [
        (a, b)
        for a, b in zip(
            [box.x - 1.5, *(x + 2.5 for x in studs)], [*(x - 2.5 for x in studs), box.right], strict=True
        )
    ]
    room = 8.5 + max(wide, rated)
    space = next((s for s in spaces if s[1] - s[0] >= room), None) or max(spaces, key=lambda s: s[1] - s[0])
    x = space[0] + 2.0
    middle = box.y + BAR_HEIGHT / 2
    body += (
        f'<g transform="translate({num(x + 2.8)} {num(middle)})"><circle r="2.6" fill="{PAPER}" stroke="{INK}" stroke-width=".4"/>'
        f'<path d="M0 -1.9V.1M-1.7 .1H1.7M-1.1 .9H1.1M-.5 1.7H.5" fill="none" stroke="{INK}" stroke-width=".4"/></g>'
    )
    x += 6.6
    texts.append(text(bar.code, x, box.y + 3.9, CODE_TEXT, "bold"))
    texts.append(
        text(name, x + text_width(bar.code, CODE_TEXT, "bold") + 1.3, box.y + 3.9, NAME_TEXT, "semibold")
    )
    if bar.rating and space[1] - space[0] >= 6.6 + rated:
        texts.append(text(bar.rating, x, box.y + 6.9, RATING_TEXT, fill=GREY))
    left = [(a, b) if (a, b) != space else (space[0] + room, b) for a, b in spaces]
    return body + _spares(sheet, left, y, texts)


def _spares(sheet: Sheet, spaces: list[tuple[float, float]], y: float, texts: list[Text]) -> str:
    """The bar's free studs, in the last space that holds them."""
    bar = sheet.placement.circuit.devices[sheet.placement.bars[0]]
    used = {name for _, name, _ in sheet.studs}
    free = [name for name in bar.terminals if name not in used]
    need = SPARE_PITCH * len(free) + 3.0
    space = next((space for space in reversed(spaces) if space[1] - space[0] >= need), None)
    if not free or space is None:
        return ""
    body, at = "", sheet.bar_top + STUD_DOWN
    for i, name in enumerate(free):
        x = space[0] + 4.0 + SPARE_PITCH * i
        body += f'<circle cx="{num(x)}" cy="{num(at)}" r="{num(RING - 0.15)}" fill="{TINT}" stroke="{GREY}" stroke-width=".3"/>'
        texts.append(text(name, x, y, TERMINAL_TEXT, "regular", "middle", GREY))
    return body


def _flag(flag: Flag, wire: Wire, paint: Paint) -> tuple[str, list[Text]]:
    """Number on white, code on the wire's colour; an upright one is turned a quarter to the left."""
    room = flag.room
    size = max(room.width, room.height)
    ground, letters, stripe = paint(wire.colour)
    number = text_width(str(wire.number), TERMINAL_TEXT, "bold")
    split = (size - number - text_width(wire.colour, TERMINAL_TEXT, "semibold")) / 4 * 2 + number
    base = FLAG_HEIGHT / 2 + DROP_TO_BASELINE * TERMINAL_TEXT - 0.05
    pen, r = 0.35, 0.8
    inner = FLAG_HEIGHT - pen
    code = (
        f'<path d="M{num(split)} {num(pen / 2)}H{num(size - pen / 2 - r)}a{r} {r} 0 0 1 {r} {r}v{num(inner - 2 * r)}'
        f'a{r} {r} 0 0 1 -{r} {r}H{num(split)}z" fill="{ground}"/>'
    )
    if stripe is not None:
        code += f'<path d="M{num(split)} .55H{num(size - 0.6)}M{num(split)} {num(FLAG_HEIGHT - 0.55)}H{num(size - 0.6)}" stroke="{stripe}" stroke-width=".5"/>'
    frame = f'<rect x="{num(pen / 2)}" y="{num(pen / 2)}" width="{num(size - pen)}" height="{num(inner)}" rx="{r}" '
    markup = f'{frame}fill="{PAPER}"/>{code}{frame}fill="none" stroke="{INK}" stroke-width="{pen}"/>'
    markup += f'<path d="M{num(split)} 0V{FLAG_HEIGHT}" stroke="{INK}" stroke-width="{pen}"/>'
    made = [
        text(str(wire.number), split / 2, base, TERMINAL_TEXT, "bold", "middle"),
        text(wire.colour, (split + size) / 2, base, TERMINAL_TEXT, "semibold", "middle", letters),
    ]
    markup += "".join(_text(words) for words in made)
    turn = (
        f"translate({num(room.x)} {num(room.bottom)}) rotate(-90)"
        if flag.upright
        else f"translate({num(room.x)} {num(room.y)})"
    )
    moved = [_moved(words, flag) for words in made]
    return f'<g transform="{turn}">{markup}</g>', moved


def _moved(words: Text, flag: Flag) -> Text:
    """The words of a flag where they lie on the sheet."""
    r = words.room
    if flag.upright:
        room = Rect(flag.room.x + r.y, flag.room.bottom - r.right, r.height, r.width)
    else:
        room = Rect(flag.room.x + r.x, flag.room.y + r.y, r.width, r.height)
    return Text(words.words, room.x, room.bottom, words.size, words.weight, "start", words.fill, room)
