"""The words over a device: letter code, name, rating, broken into lines where there is no room beside the device."""

from dataclasses import dataclass

from buildsheet.circuit import Device
from buildsheet.packet.diagram.model import CODE_TEXT, NAME_TEXT, RATING_TEXT, Rect, Text
from buildsheet.packet.figures import GREY, INK
from buildsheet.packet.fonts import text_width

CODE_GAP = 1.3
FOOT, RATING_LINE, NAME_LINE, CODE_LINE = 1.4, 2.95, 3.35, 4.2
SPARK = 4.9  # width of the spark triangle with its gap


@dataclass(frozen=True)
class Label:
    """A label broken to a width. `spark` is the place of the triangle after the first line, from the left."""

    code: str
    names: tuple[str, ...]
    ratings: tuple[str, ...]
    touched: bool
    note: str = ""

    @property
    def code_width(self) -> float:
        return text_width(self.code, CODE_TEXT, "bold") + CODE_GAP

    @property
    def first_width(self) -> float:
        first = text_width(self.names[0], NAME_TEXT, "semibold") if self.names else 0.0
        return self.code_width + first

    @property
    def width(self) -> float:
        return max(
            self.first_width + (SPARK if self.touched else 0.0),
            0.0,
            *(text_width(words, NAME_TEXT, "semibold") for words in self.names[1:]),
            *(text_width(words, RATING_TEXT) for words in self.ratings),
        )

    @property
    def height(self) -> float:
        return FOOT + RATING_LINE * len(self.ratings) + NAME_LINE * max(0, len(self.names) - 1) + CODE_LINE

    def texts(self, x: float, bottom: float) -> list[Text]:
        """The words with their left edge at `x`, over a box whose upper edge is at `bottom`."""
        found: list[Text] = []
        y = bottom - FOOT
        for words in reversed(self.ratings):
            found.append(text(words, x, y, RATING_TEXT, fill=GREY))
            y -= RATING_LINE
        y -= 0.25
        for words in reversed(self.names[1:]):
            found.append(text(words, x, y, NAME_TEXT, "semibold"))
            y -= NAME_LINE
        if self.names:
            found.append(text(self.names[0], x + self.code_width, y, NAME_TEXT, "semibold"))
        found.append(text(self.code, x, y, CODE_TEXT, "bold"))
        return found[::-1]

    def room(self, x: float, bottom: float) -> Rect:
        return Rect(x, bottom - self.height, self.width, self.height - 0.5)

    def spark(self, x: float, bottom: float) -> tuple[float, float] | None:
        """Left upper corner of the spark triangle."""
        if not self.touched:
            return None
        base = (
            bottom - FOOT - RATING_LINE * len(self.ratings) - NAME_LINE * max(0, len(self.names) - 1) - 0.25
        )
        return x + self.first_width + 0.8, base - 3.4


def text(
    words: str,
    x: float,
    y: float,
    size: float,
    weight: str = "regular",
    anchor: str = "start",
    fill: str = INK,
) -> Text:
    """Words on a baseline, with the room they take."""
    width = text_width(words, size, weight)
    left = x - {"start": 0.0, "middle": 0.5, "end": 1.0}[anchor] * width
    return Text(words, x, y, size, weight, anchor, fill, Rect(left, y - 0.74 * size, width, 0.94 * size))


def label(device: Device, width: float | None = None, note: str = "") -> Label:
    """A device's label, on two lines, or broken to a width."""
    rating = device.rating
    ratings = [rating] if rating else []
    if note:
        ratings.append(note)
    if width is None:
        return Label(device.code, (device.name,) if device.name else (), tuple(ratings), device.touched, note)
    code = text_width(device.code, CODE_TEXT, "bold") + CODE_GAP
    names = _broken(device.name, width, NAME_TEXT, "semibold", code + (SPARK if device.touched else 0.0))
    lines = [line for words in ratings for line in _broken(words, width, RATING_TEXT, "regular", 0.0)]
    return Label(device.code, tuple(names), tuple(lines), device.touched, note)


def least_width(device: Device) -> float:
    """The least width a label can be broken to: its longest word, and the code with the first word."""
    code = text_width(device.code, CODE_TEXT, "bold") + CODE_GAP + (SPARK if device.touched else 0.0)
    words = device.name.split() or [""]
    return max(
        code + text_width(words[0], NAME_TEXT, "semibold"),
        *(text_width(word, NAME_TEXT, "semibold") for word in words),
        *(text_width(word, RATING_TEXT) for word in device.rating.split() or [""]),
    )


def _broken(words: str, width: float, size: float, weight: str, indent: float) -> list[str]:
    lines: list[str] = []
    current = ""
    for word in words.split():
        longer = f"{current} {word}" if current else word
        room = width - (indent if not lines else 0.0)
        if current and text_width(longer, size, weight) > room:
            lines.append(current)
            current = word
        else:
            current = longer
    return [*lines, current] if current else lines
