"""The packet's typeface: where its cut files lie, what it can print, how wide a word is."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from pathlib import Path

FAMILY = "Bench Sans"
FILES = Path(__file__).resolve().parent / "files"


class FontsNotCut(RuntimeError):
    """The font files are missing; they are made once, at set-up."""

    def __init__(self, path: Path) -> None:
        super().__init__(f"{path} is missing: run  python -m buildsheet.packet.fonts")


@dataclass(frozen=True)
class Face:
    """Widths and a few outlines of one weight, in units of which `per_em` make the type size."""

    per_em: float
    advances: Mapping[str, float]
    outlines: Mapping[str, str]


def fontconfig_file() -> Path:
    """The configuration that shows the packet's own fonts and no others."""
    return _file("fonts.conf")


def missing_glyphs(text: str) -> list[str]:
    """The characters of `text` that the typeface cannot print, in order of appearance, each once.

    Line ends and tabs are layout, not print, and never count.
    """
    known = characters()
    return list(dict.fromkeys(c for c in text if c not in known and c not in "\n\r\t"))


@cache
def characters() -> frozenset[str]:
    """Every character that all weights of the typeface can print."""
    return frozenset(_file("characters.txt").read_text(encoding="utf-8"))


@cache
def face(weight: str) -> Face:
    """Widths and outlines of one weight: regular, semibold, bold or italic."""
    data = json.loads(_file("metrics.json").read_text(encoding="utf-8"))
    found = data["faces"][weight]
    return Face(data["per_em"], found["advances"], found["outlines"])


@lru_cache(maxsize=4096)
def text_width(text: str, size: float, weight: str = "regular") -> float:
    """Width of a line of text without kerning, in the unit in which `size` is given.

    Raises KeyError with the character that the typeface lacks.
    """
    of = face(weight)
    return sum(of.advances[c] for c in text) * size / of.per_em


def _file(name: str) -> Path:
    path = FILES / name
    if not path.is_file():
        raise FontsNotCut(path)
    return path
