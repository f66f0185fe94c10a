"""Cuts the packet's typeface from the published variable font.

Needs fonttools and the package named in SOURCE, at set-up and when a wheel is built, never to print
a packet. Imports nothing else of this project, so that a build hook can load it by its path.
"""

import importlib
import json
import logging
from collections.abc import Iterator
from importlib.metadata import distribution
from pathlib import Path
from typing import Any

SOURCE = "fontpkg-ibm-plex-sans"
FAMILY = "Bench Sans"  # the licence reserves the source's name for the unchanged font
WIDTH = 85
FACES = {  # name: (style, weight, italic)
    "regular": ("Regular", 400, False),
    "semibold": ("SemiBold", 600, False),
    "bold": ("Bold", 700, False),
    "italic": ("Italic", 400, True),
}

LATIN = "".join(map(chr, [*range(0x20, 0x7F), *range(0xA0, 0x180)]))
GREEK = "αβγδεζηθκλμνξπρστφχψωΓΔΘΛΠΣΦΨΩ\u2126"
MATHS = "≤≥≈≠×·−±√∞∑∫∂→←↑↓↔°′″½¼¾⅓⅔⅛⅜⅝⅞⁄‰"
RAISED = "⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉"
PUNCTUATION = "‘’‚“”„–—…•†‡‹›€™"
SPACES = "\u2007\u2009\u200a\u202f"
WANTED = LATIN + GREEK + MATHS + RAISED + PUNCTUATION + SPACES
FEATURES = ["kern", "mark", "ccmp", "locl", "sups", "subs", "frac", "numr", "dnom", "zero", "tnum"]

# The figures of scales are drawn as outlines: cheaper than text, and no text stands outside the frame.
OUTLINED = "0123456789.,-+\u2212\u2009\u2026°%×ABCDHLMOQRVWkminrpszµΩ "

KEPT_NAMES = {0, 13, 14}  # copyright and licence; everything else would name the unchanged font
THIN = 1 / 6  # em: the source draws its thin spaces so thin that 170 V reads as 170V
FIXED_TIME = 3_786_912_000  # 2024-01-01, seconds since 1904: the same input gives the same bytes

FONTS_CONF = """<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "urn:fontconfig:fonts.dtd">
<fontconfig><dir prefix="relative">.</dir><cachedir prefix="xdg">fontconfig</cachedir></fontconfig>
"""


def cut_fonts(target: Path) -> None:
    """Write the fonts, their licence, their widths, their characters and fonts.conf into `target`.

    Files of an earlier cut go first. The bytes depend on the versions of fonttools and of the
    published font only. Raises PackageNotFoundError without the published font, ValueError if a
    style of it lacks a character that another has.
    """
    target.mkdir(parents=True, exist_ok=True)
    for old in target.iterdir():  # a changed folder is what makes fontconfig look again
        old.unlink()

    published = {path.name: path for path in _published()}
    roman = next(path for name, path in published.items() if name.endswith("Sans[wdth,wght].ttf"))
    italic = next(path for name, path in published.items() if name.endswith("Italic[wdth,wght].ttf"))

    metrics: dict[str, dict[str, Any]] = {}
    known: set[int] | None = None
    for name, (style, weight, slanted) in FACES.items():
        font = _cut(italic if slanted else roman, style, weight, slanted)
        font.save(target / f"bench-sans-{name}.ttf")
        metrics[name] = _metrics(font)
        cmap = set(font.getBestCmap())
        if known is not None and cmap != known:
            raise ValueError(f"{style} differs in {sorted(map(chr, cmap ^ known))}")
        known = cmap
        per_em = font["head"].unitsPerEm

    (target / "metrics.json").write_text(
        json.dumps({"per_em": per_em, "faces": metrics}, ensure_ascii=False, sort_keys=True), "utf-8"
    )
    (target / "characters.txt").write_text("".join(map(chr, sorted(known or ()))), "utf-8")
    (target / "fonts.conf").write_text(FONTS_CONF, "utf-8")
    (target / "LICENSE.txt").write_bytes(published["LICENSE"].read_bytes())


def _published() -> Iterator[Path]:
    dist = distribution(SOURCE)
    for file in dist.files or ():
        if file.suffix == ".ttf" or file.name == "LICENSE":
            yield Path(str(dist.locate_file(file)))


def _cut(path: Path, style: str, weight: int, slanted: bool) -> Any:
    subset, ttlib = importlib.import_module("fontTools.subset"), importlib.import_module("fontTools.ttLib")
    instancer = importlib.import_module("fontTools.varLib.instancer")
    logging.getLogger("fontTools").setLevel(logging.ERROR)  # it tells of every table it drops

    font = ttlib.TTFont(path, recalcTimestamp=False)
    options = subset.Options(
        layout_features=FEATURES,
        hinting=False,
        notdef_outline=True,
        name_IDs=[*KEPT_NAMES],
        name_languages=["*"],
    )
    cutter = subset.Subsetter(options)
    cutter.populate(text=WANTED)
    cutter.subset(font)
    font = instancer.instantiateVariableFont(font, {"wght": weight, "wdth": WIDTH})

    _rename(font, style)
    font["OS/2"].usWeightClass = weight
    font["OS/2"].usWidthClass = 5  # the only width there is, so nobody has to ask for it
    font["OS/2"].fsSelection = (0x40 if style == "Regular" else 0) | (0x20 if weight == 700 else 0) | slanted
    font["head"].macStyle = (weight == 700) | (slanted << 1)
    font["head"].created = font["head"].modified = FIXED_TIME
    for space in (0x2009, 0x202F):
        name = font.getBestCmap()[space]
        font["hmtx"][name] = (round(THIN * font["head"].unitsPerEm), 0)
    if "STAT" in font:  # names the axes of the variable font
        del font["STAT"]
    return font


def _rename(font: Any, style: str) -> None:
    names = font["name"]
    names.names = [record for record in names.names if record.nameID in KEPT_NAMES]
    full, postscript = f"{FAMILY} {style}", f"{FAMILY}-{style}".replace(" ", "")
    plain = style in ("Regular", "Bold", "Italic")  # the four styles that the oldest name pair can hold
    texts = {
        1: FAMILY if plain else full,
        2: style if plain else "Regular",
        3: f"{postscript};{distribution(SOURCE).version};{WIDTH}",
        4: full,
        5: f"Version {distribution(SOURCE).version}; subset",
        6: postscript,
        16: FAMILY,
        17: style,
    }
    for number, text in texts.items():
        names.setName(text, number, 3, 1, 0x409)


def _metrics(font: Any) -> dict[str, Any]:
    svg_pen = importlib.import_module("fontTools.pens.svgPathPen").SVGPathPen
    transform_pen = importlib.import_module("fontTools.pens.transformPen").TransformPen
    cmap, glyphs = font.getBestCmap(), font.getGlyphSet()
    outlines = {}
    for character in sorted(set(OUTLINED)):
        pen = svg_pen(glyphs, ntos=lambda value: str(round(value)))
        glyphs[cmap[ord(character)]].draw(transform_pen(pen, (1, 0, 0, -1, 0, 0)))  # SVG counts downwards
        outlines[character] = pen.getCommands()
    advances = {chr(code): glyphs[name].width for code, name in cmap.items()}
    return {"advances": advances, "outlines": outlines}
