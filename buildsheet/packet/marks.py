"""The small drawings of the packet's sheets: strips, signs, icons, flags.

Plain floats and words in, inline SVG (or, for the wire flag, HTML) out. Lengths are millimetres.
A scale's own figures are drawn here as positions of its ticks; every other number comes in as words
that the ink has printed already.
"""

import math
import re
from collections.abc import Sequence
from functools import cache
from html import unescape
from pathlib import Path
from typing import Protocol

from markupsafe import Markup

from buildsheet.packet.figures import (
    GREY,
    INK,
    PAPER,
    POINT,
    TINT,
    figures,
    line,
    num,
    rect,
    ring,
    svg,
    text,
    tick_label,
)
from buildsheet.packet.fonts import text_width

SYMBOLS = Path(__file__).resolve().parents[1] / "templates" / "symbols"

# --- wires -------------------------------------------------------------------------------------

COLOURS = {  # codes of IEC 60757; the shades are our pick. code: (insulation, letters on it)
    "BK": ("#16171b", PAPER),
    "BN": ("#7a4a1e", PAPER),
    "RD": ("#c8202b", PAPER),
    "OG": ("#f58220", INK),
    "YE": ("#ffd100", INK),
    "GN": ("#1d7f3c", PAPER),
    "BU": ("#1668b8", PAPER),
    "VT": ("#7438a0", PAPER),
    "GY": ("#969b9f", INK),
    "WH": ("#ffffff", INK),
    "PK": ("#f3a6ba", INK),
    "TQ": ("#3fb5b0", INK),
    "GD": ("#c9a227", INK),
    "SR": ("#c3c7cc", INK),
}


def colour(code: str) -> tuple[str, str, str | None]:
    """Insulation, letters on it and stripe (None without) of a colour code such as BU, GNYE or WHRD.

    Of four letters the first two are the ground, the last two the stripe. Raises ValueError.
    """
    ground, stripe = code[:2], code[2:]
    if ground not in COLOURS or (stripe and stripe not in COLOURS):
        raise ValueError(
            f"unknown colour code {code!r}: known are {', '.join(COLOURS)}, alone or two together"
        )
    return (*COLOURS[ground], COLOURS[stripe][0] if stripe else None)


def flag(number: str, code: str) -> Markup:
    """The wire flag: number in white, colour code in the wire's colour. HTML, because a sheet holds dozens."""
    ground, letters, stripe = colour(code)
    style = f"background:{ground};color:{letters}"
    if stripe is not None:
        style += f";border-top:.55mm solid {stripe};border-bottom:.55mm solid {stripe};line-height:2.7mm"
    return Markup('<span class="flag"><b>{}</b><i style="{}">{}</i></span>').format(number, style, code)


def wire_end(strip: float) -> Markup:
    """A wire's end with `strip` mm of bare conductor and its dimension, at true size."""
    if not 0 < strip <= 30:
        raise ValueError(f"a strip length of {strip:g} mm can't be drawn")
    insulated, y = 40.0 - strip, 5.0
    body = (
        f'<rect x="0.2" y="{num(y - 1.5)}" width="{num(insulated)}" height="3" fill="{PAPER}" '
        f'stroke="{INK}" stroke-width="0.3"/>'
    )
    end = insulated + strip
    for dy in (-0.75, 0, 0.75):
        body += line(insulated + 0.2, y + dy, end, y + dy, 0.35)
    for x in (insulated + 0.2, end):
        body += line(x, 0.2, x, 3.2 if x < end else 4, 0.18)
    body += line(insulated + 0.2, 1.2, end, 1.2, 0.18)
    if strip >= 4:
        body += f'<path d="M{num(insulated + 0.2)} 1.2l1.6-.5v1zM{num(end)} 1.2l-1.6-.5v1z" fill="{INK}"/>'
    return svg(40.3, 6.8, "Wire end stripped, at true size", body, "wire-end")


# --- signs -------------------------------------------------------------------------------------

TRIANGLE = "M4 .55L7.55 6.6H.45z"
SPARK = "M4.35 2.15L3.05 4.35h.85l-.3 1.5 1.35-2.15h-.9z"


def triangle(electric: bool, height: float = 7.2) -> Markup:
    """The warning triangle: a spark inside means electricity, a bar and dot anything else."""
    if electric:
        title, inside = "Electricity", f'<path d="{SPARK}" fill="{INK}"/>'
    else:
        title = "Warning"
        inside = f'<path d="M3.62 2.5h.76l-.16 2.1h-.44z" fill="{INK}"/><circle cx="4" cy="5.4" r=".42" fill="{INK}"/>'
    body = f'<path d="{TRIANGLE}" fill="{PAPER}" stroke="{INK}" stroke-width=".62" stroke-linejoin="round"/>{inside}'
    return svg(8 / 7.1 * height, height, title, body, "triangle", (8, 7.1))


def plug(inserted: bool) -> Markup:
    """The plug beside its outlet, or in it; in white when it is in, to stand on the black badge."""
    ink = PAPER if inserted else INK
    gap = 0.0 if inserted else 2.2
    head = f'<path d="M.3 4H2.4M2.4 1h1.7a3 3 0 0 1 0 6H2.4z" fill="none" stroke="{ink}" stroke-width=".65"/>'
    pins = f'<path d="M7 2.7h1.5M7 5.3h1.5" stroke="{ink}" stroke-width=".75"/>'
    outlet = f'<rect x="{num(8.6 + gap)}" y=".6" width="2" height="6.8" fill="none" stroke="{ink}" stroke-width=".65"/>'
    title = "Plug in its outlet" if inserted else "Plug out of its outlet"
    return svg(13.2, 8, title, head + pins + outlet, "plug")


def arrow() -> Markup:
    """A bold arrow for a label, to be stuck on so that it points the way a part runs."""
    body = f'<path d="M0 3.2H31V.4L43 6 31 11.6V8.8H0z" fill="{INK}"/>'
    return svg(43, 12, "Arrow", body, "arrow")


def open_contact() -> Markup:
    """The open contact of a hold point: the line is broken until somebody signs."""
    x = 10.0
    body = rect(x - 1, 6.3, 2, 9.9, TINT)  # takes the line away that runs down the whole block
    body += f'<path d="M{num(x)} 16.2L3.4 5" stroke="{INK}" stroke-width="1.2" stroke-linecap="round"/>'
    body += ring(x, 6.3, 1.25, 0.75) + ring(x, 16.2, 1.25, 0.75)
    return svg(12, 20, "The line is open here", body, "contact")


@cache
def _symbol(name: str) -> tuple[float, float, str, str]:
    """Width and height in its own units, title and drawing of a symbol file."""
    if not re.fullmatch(r"[a-z][a-z-]*", name):
        raise ValueError(f"not a symbol's name: {name!r}")
    source = (SYMBOLS / f"{name}.svg").read_text(encoding="utf-8")
    found = re.search(r'viewBox="0 0 ([\d.]+) ([\d.]+)".*?<title>(.*?)</title>(.*)</svg>', source, re.DOTALL)
    if found is None:
        raise ValueError(f"symbol {name}: it must begin with a viewBox and a title")
    return float(found[1]), float(found[2]), unescape(found[3]), found[4].strip()


def symbol_parts(name: str) -> tuple[float, float, str]:
    """Width and height of a symbol in its own units, and its drawing, to be placed in another one."""
    across, down, _, body = _symbol(name)
    return across, down, body


def symbol(name: str, title: str = "", height: float = 8) -> Markup:
    """A symbol from templates/symbols, `height` mm high; `title` replaces the one in the file."""
    across, down, named, body = _symbol(name)
    return svg(across * height / down, height, title or named, body, "symbol", (across, down))


def icon(name: str, title: str = "") -> Markup:
    """A symbol in a ring, as it sits on the cover's line."""
    across, down, named, body = _symbol(name)
    scale = 8 / max(across, down)
    x, y = 6 - across * scale / 2, 6 - down * scale / 2
    drawing = f'<g transform="translate({num(x)} {num(y)}) scale({scale:.6f})">{body}</g>'
    return svg(12, 12, title or named, ring(6, 6, 5.5, 1.0) + drawing, "icon")


# --- readings ----------------------------------------------------------------------------------

OHM_FLOOR, OHM_CEILING, DECADES = 0.1, 10e6, 8
OHM_LINE, OPEN_FROM, STRIP = 35.6, 40.2, 44.0  # mm: end of the line, start of the OL field, its end


def reading_strip(
    low: float, high: float, faults: Sequence[float] = (), kind: str = "ohm", span: float = 0
) -> Markup:
    """Where a reading is right (black bar from `low` to `high`) and what likely faults read (crosses).

    kind "ohm": one logarithmic line for all rows, 0.1 ohm to 10 Mohm, then a gap, then OL. What lies
    below the line is drawn at its left end; math.inf is OL, and a bar up to it fills that field too.
    kind "volt": linear, from -span to span. Raises ValueError for what no meter can show.
    """
    if not low <= high:
        raise ValueError(f"nothing lies between {low:g} and {high:g}")
    body = ""
    if kind == "ohm":
        body += _ruler(OHM_LINE, DECADES) + line(OPEN_FROM, 2, STRIP, 2, 0.25)
        if low < OHM_CEILING:
            body += _bar(_ohm(low), OHM_LINE if math.isinf(high) else _ohm(high))
        if high > OHM_CEILING:
            body += rect(OPEN_FROM, 0.7, STRIP - OPEN_FROM, 2.6)
        crosses = [_ohm(fault) for fault in faults]
    elif kind == "volt":
        body += _ruler(OHM_LINE, 8)
        body += _bar(_volt(low, span), _volt(high, span))
        crosses = [_volt(fault, span) for fault in faults]
    else:
        raise ValueError(f"no strip of kind {kind!r}")
    body += "".join(_cross(x) for x in crosses)
    return _strip(4, "Where the reading is right, and what faults read", body)


def strip_scale(kind: str = "ohm", span: float = 0) -> Markup:
    """The figures of a group's strips, once above them."""
    body = ""
    if kind == "ohm":
        for ohms, label in ((0, "0"), (1, "1"), (100, "100"), (10e3, "10\u2009k"), (1e6, "1\u2009M")):
            body += figures(_ohm(ohms), 2.6, label, anchor="middle", fill=GREY)
        body += figures((OPEN_FROM + STRIP) / 2, 2.6, "OL", anchor="middle", fill=GREY)
    else:
        for share in (-1.0, -0.5, 0.0, 0.5, 1.0):
            body += figures(
                _volt(share * span, span), 2.6, tick_label(share * span), anchor="middle", fill=GREY
            )
    return _strip(3.2, "Scale of the strips below", body)


def _strip(height: float, title: str, body: str) -> Markup:
    # Two mm more at either end: a cross or a figure at the line's end is wider than its tick.
    return svg(STRIP + 4, height, title, f'<g transform="translate(2 0)">{body}</g>', "strip")


def _ohm(ohms: float) -> float:
    if ohms < 0 or math.isnan(ohms):
        raise ValueError(f"no meter reads {ohms:g} ohm")
    if ohms > OHM_CEILING:
        return (OPEN_FROM + STRIP) / 2
    return 0.0 if ohms <= OHM_FLOOR else math.log10(ohms / OHM_FLOOR) / DECADES * OHM_LINE


def _volt(volts: float, span: float) -> float:
    if not abs(volts) <= span:
        raise ValueError(f"{volts:g} V is off a scale of {span:g} V either way")
    return (volts + span) / (2 * span) * OHM_LINE


def _ruler(length: float, steps: int) -> str:
    d = f"M0 2H{num(length)}" + "".join(f"M{num(i * length / steps)} 1.1v1.8" for i in range(steps + 1))
    return f'<path d="{d}" fill="none" stroke="{INK}" stroke-width="0.25"/>'


def _bar(start: float, end: float) -> str:
    short = max(1.3 - (end - start), 0)  # a bar shorter than its ticks are high would not be seen
    return rect(start - (short / 2 if start else 0), 0.7, end - start + short, 2.6)


def _cross(x: float) -> str:
    arms = (
        f'<path d="M{num(x - 0.85)} 1.15l1.7 1.7m0-1.7l-1.7 1.7" fill="none" stroke-linecap="round" stroke='
    )
    return f'{arms}"{PAPER}" stroke-width="1.1"/>{arms}"{INK}" stroke-width="0.5"/>'


# --- sizes -------------------------------------------------------------------------------------


def size_strip(
    need: tuple[float, str] | None,
    limit: tuple[float, str] | None,
    chosen: tuple[float, str],
    unit: str,
    ticks: Sequence[float],
    width: float = 137,
) -> Markup:
    """A size picked from a series: black bar from need to limit, pointer at the choice, all three in words.

    Each of the three is a position and its words ("needs 10.8"). Without need or limit the bar runs
    to that end of the scale. `ticks` are the scale's figures; the first and last are its ends.
    Raises ValueError if a position is off the scale.
    """
    low, high = ticks[0], ticks[-1]
    room = width - 6.0 - text_width(unit, 7.5 * POINT) - text_width(tick_label(high), 7.5 * POINT) / 2

    def place(value: float) -> float:
        if not low <= value <= high:
            raise ValueError(f"{value:g} {unit} is off the scale from {low:g} to {high:g}")
        return 2 + (value - low) / (high - low) * room

    start = place(need[0]) if need else 2.0
    end = place(limit[0]) if limit else 2 + room
    at, y = place(chosen[0]), 10.2
    d = f"M2 {y}H{num(2 + room)}"
    minor = len(ticks) - 1
    for i in range(minor * 5 + 1):
        x = 2 + i * room / (minor * 5)
        d += f"M{num(x)} {num(y - (1.2 if i % 5 == 0 else 0.7))}v{2.4 if i % 5 == 0 else 1.4}"
    body = f'<path d="{d}" fill="none" stroke="{INK}" stroke-width="0.25"/>'
    body += rect(start, y - 1.4, end - start, 2.8)
    for tick in ticks:
        body += figures(place(tick), y + 4.6, tick_label(tick), 7.5, anchor="middle", fill=GREY)
    beside = 2 + room + text_width(tick_label(high), 7.5 * POINT) / 2 + 1
    body += text(beside, y + 4.6, unit, 7.5, fill=GREY)
    body += f'<path d="M{num(at - 1.3)} {num(y - 3.7)}h2.6l-1.3 2.1z" fill="{PAPER}" stroke="{INK}" stroke-width="0.4"/>'
    body += _words(chosen[1], at, y - 4.7, "middle", width, "bold")
    if need and need[1]:
        body += _words(need[1], min(start, at - 1.9), y - 2.2, "end", width)
    if limit and limit[1]:
        body += _words(limit[1], max(end, at + 1.9), y - 2.2, "start", width)
    return svg(width, y + 5.4, "The size's need, limit and choice on one scale", body, "size-strip")


def _words(words: str, x: float, y: float, anchor: str, width: float, weight: str = "regular") -> str:
    """Words beside a position, moved just so far that they stay on the drawing."""
    long = text_width(words, 8 * POINT, weight)
    left = x - {"start": 0.0, "middle": 0.5, "end": 1.0}[anchor] * long
    left = min(max(left, 0), width - long)
    return text(left, y, words, 8, weight)


# --- type and layout of the cover --------------------------------------------------------------


def fit(words: str, width: float, largest: int, smallest: int) -> str:
    """The largest type size, in whole points, at which bold words fit on one line `width` mm long.

    Words too long for the smallest size get that size, and break.
    """
    for points in range(largest, smallest, -1):
        if text_width(words, points * POINT, "bold") <= width:
            return f"{points}pt"
    return f"{smallest}pt"


def name_size(name: str, width: float = 138) -> str:
    """Type size of the machine's name on the cover: 46 pt, less only for a name that fills more than a line."""
    for points, lines in ((46, 1), (40, 1), (36, 1), (27, 1.8), (22, 1.8)):
        size = points * POINT
        longest = max(text_width(word, size, "bold") for word in name.split())
        if text_width(name, size, "bold") <= lines * width and longest <= width:
            return f"{points}pt"
    return "16pt"


def path_room(height: float, sheets: int = 14) -> float:
    """Height, mm, that the cover's line has on a page whose live area is `height` mm high, when the list under it, in two
    columns of 5.3 mm lines, names so many sheets."""
    return height - 92.0 - 5.3 * ((sheets + 1) // 2)


def path_pitch(stages: int, room: float) -> float:
    """Height, mm, of one of the cover's stages. Raises ValueError if that many can't be read."""
    pitch = min(19.4, room / stages)
    if pitch < 13:
        raise ValueError(f"{stages} stages do not fit on the cover")
    return pitch


def path_spans(spans: Sequence[tuple[str, int, int]], stages: int, pitch: float) -> Markup:
    """Brackets beside the cover's line: words, first and last stage (counted from 0) of each."""
    body = ""
    for words, first, last in spans:
        top, bottom = first * pitch + 1.8, (last + 1) * pitch - 1.2
        body += (
            f'<path d="M12 {num(top)}H9.5V{num(bottom)}H12" fill="none" stroke="{INK}" stroke-width="0.35"/>'
        )
        middle = (top + bottom) / 2
        turned = text(0, 0, words, 9.5, anchor="middle")
        body += f'<g transform="translate(7 {num(middle)}) rotate(-90)">{turned}</g>'
    return svg(12, stages * pitch, "; ".join(words for words, _, _ in spans), body, "path-spans")


def mm(length: float) -> str:
    """A length for a style attribute."""
    return f"{num(length)}mm"


class HasLook(Protocol):
    """A column of a plain table."""

    @property
    def look(self) -> Sequence[str]: ...


def columns(of: Sequence[HasLook]) -> str:
    """How many cells a row of a plain table has: a number takes three."""
    return str(sum(3 if "number" in column.look else 1 for column in of))
