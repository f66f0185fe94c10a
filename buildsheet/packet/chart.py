"""Line charts: waveforms over the angle, speed over torque, temperature over time.

Lengths are millimetres on paper. The caller gives axes with their ends and ticks (see `ticks`);
nothing is scaled, cut off or smoothed here, and a point outside its axis is an error.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Literal

from markupsafe import Markup

from buildsheet.packet.figures import GREY, INK, POINT, TINT, figures, line, num, rect, svg, text, tick_label
from buildsheet.packet.fonts import text_width

Look = Literal["heavy", "line", "dashed", "dotted", "area"]

AREA = "#dcdcd6"
ABOVE, BELOW = 5.0, 6.2  # room for the unit and for the figures of the x axis
BESIDE = 11.0  # room for the figures of a y axis


class OffTheScale(ValueError):
    """A point or a mark that its axis does not reach."""


@dataclass(frozen=True)
class Axis:
    """A linear scale from `low` to `high`; `unit` stands at its end, `suffix` after each figure (as in 90°)."""

    low: float
    high: float
    ticks: Sequence[float]
    unit: str = ""
    suffix: str = ""

    def place(self, value: float, length: float) -> float:
        """Where a value lies on the axis, mm from its start."""
        slack = 1e-9 * (self.high - self.low)
        if not self.low - slack <= value <= self.high + slack:
            raise OffTheScale(f"{value:g} is off the scale from {self.low:g} to {self.high:g} {self.unit}")
        return (value - self.low) / (self.high - self.low) * length


@dataclass(frozen=True)
class Series:
    """One line of a chart, with its name for the key."""

    label: str
    points: Sequence[tuple[float, float]]
    look: Look = "line"
    right: bool = False  # read on the right-hand axis


@dataclass(frozen=True)
class Mark:
    """A level on the left-hand axis with its words, such as a limit: a thin line across."""

    label: str
    at: float
    right: bool = False


@dataclass(frozen=True)
class Band:
    """A stretch of the x axis with its words: a pale ground behind the lines."""

    label: str
    low: float
    high: float


@dataclass(frozen=True)
class _Plot:
    left: float
    top: float
    width: float
    height: float
    x: Axis
    y: Axis
    y_right: Axis | None = field(default=None)

    def at(self, point: tuple[float, float], right: bool) -> tuple[float, float]:
        return self.left + self.x.place(point[0], self.width), self.level(point[1], right)

    def level(self, value: float, right: bool) -> float:
        axis = self.y_right if right else self.y
        if axis is None:
            raise OffTheScale("the chart has no right-hand axis")
        return self.top + self.height - axis.place(value, self.height)


def ticks(low: float, high: float, about: int = 5) -> list[float]:
    """Round positions between `low` and `high`, both included if round: steps of 1, 2 or 5 times a power of ten."""
    if not low < high:
        raise ValueError(f"no scale from {low:g} to {high:g}")
    rough = (high - low) / about
    power = 10.0 ** math.floor(math.log10(rough))
    step = next(power * m for m in (1, 2, 5, 10) if power * m >= rough * (1 - 1e-9))
    first, last = math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9)
    return [round(i * step, 12) for i in range(first, last + 1)]


def line_chart(
    title: str,
    series: Sequence[Series],
    x: Axis,
    y: Axis,
    y_right: Axis | None = None,
    marks: Sequence[Mark] = (),
    bands: Sequence[Band] = (),
    width: float = 139,
    height: float = 36,
) -> Markup:
    """A chart `width` mm wide whose field is `height` mm high, with its key at the right.

    `title` is what a reading machine says for it. Raises OffTheScale if a point lies outside its axis.
    """
    key = max((text_width(s.label, 7 * POINT) for s in series), default=0) + 9
    right_room = (BESIDE if y_right else 3.0) + key
    p = _Plot(BESIDE, ABOVE, width - BESIDE - right_room, height, x, y, y_right)
    body = "".join(_band(p, b) for b in bands)
    body += "".join(_line(p, s) for s in sorted(series, key=lambda s: s.look != "area"))
    body += "".join(_mark(p, m) for m in marks)
    body += _axes(p) + _key(series, width - key + 1.5, p.top + 3)
    return svg(width, ABOVE + height + BELOW, title, body, "chart")


def _axes(p: _Plot) -> str:
    foot, end = p.top + p.height, p.left + p.width
    body = line(p.left, foot, end, foot, 0.25) + line(p.left, p.top, p.left, foot, 0.25)
    for value in p.x.ticks:
        at = p.left + p.x.place(value, p.width)
        body += line(at, foot, at, foot + 1, 0.25)
        body += figures(at, foot + 4, tick_label(value) + p.x.suffix, anchor="middle", fill=GREY)
    if p.x.unit:
        last = tick_label(p.x.ticks[-1]) + p.x.suffix
        beside = p.left + p.x.place(p.x.ticks[-1], p.width) + text_width(last, 7 * POINT) / 2
        body += text(beside + 1, foot + 4, p.x.unit, fill=GREY)
    for value in p.y.ticks:
        at = p.level(value, False)
        body += line(p.left - 1, at, p.left, at, 0.25)
        body += figures(p.left - 1.8, at + 0.85, tick_label(value) + p.y.suffix, anchor="end", fill=GREY)
    body += text(p.left - 1.8, p.top - 2.4, p.y.unit, anchor="end", fill=GREY)
    if p.y_right is not None:
        body += line(end, p.top, end, foot, 0.25)
        for value in p.y_right.ticks:
            at = p.level(value, True)
            body += line(end, at, end + 1, at, 0.25)
            body += figures(end + 1.8, at + 0.85, tick_label(value) + p.y_right.suffix, fill=GREY)
        body += text(end + 1.8, p.top - 2.4, p.y_right.unit, fill=GREY)
    return body


def _line(p: _Plot, s: Series) -> str:
    at = [p.at(point, s.right) for point in s.points]
    d = "M" + "L".join(f"{num(px)} {num(py)}" for px, py in at)
    if s.look == "area":
        foot = num(p.level(0, s.right))
        return f'<path d="{d}L{num(at[-1][0])} {foot}L{num(at[0][0])} {foot}z" fill="{AREA}"/>'
    return f'<path d="{d}" {_stroke(s.look)}/>'


def _stroke(look: Look) -> str:
    """Told apart by width and dashes, since colour means a wire or a signal word and nothing else."""
    width, dashes, ink = {
        "heavy": (0.75, "", INK),
        "line": (0.4, "", INK),
        "dashed": (0.3, "1.2 0.8", GREY),
        "dotted": (0.4, "0.01 1", INK),
        "area": (0, "", AREA),
    }[look]
    dashed = f' stroke-dasharray="{dashes}"' if dashes else ""
    return f'fill="none" stroke="{ink}" stroke-width="{num(width)}" stroke-linejoin="round" stroke-linecap="round"{dashed}'


def _mark(p: _Plot, m: Mark) -> str:
    at = p.level(m.at, m.right)
    body = line(p.left, at, p.left + p.width, at, 0.25, INK, ' stroke-dasharray="3 1"')
    return body + text(p.left + p.width - 1, at - 0.8, m.label, weight="semibold", anchor="end")


def _band(p: _Plot, b: Band) -> str:
    low, high = p.x.place(b.low, p.width), p.x.place(b.high, p.width)
    body = rect(p.left + low, p.top, high - low, p.height, TINT)
    return body + text(p.left + (low + high) / 2, p.top - 0.9, b.label, anchor="middle", fill=GREY)


def _key(series: Sequence[Series], left: float, top: float) -> str:
    body = ""
    for i, s in enumerate(series):
        y = top + i * 4.6
        if s.look == "area":
            body += rect(left, y - 1.2, 5, 2.4, AREA)
        else:
            body += f'<path d="M{num(left)} {num(y)}h5" {_stroke(s.look)}/>'
        body += text(left + 6.5, y + 0.85, s.label)
    return body
