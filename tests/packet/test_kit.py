"""The paper kit: one page of every form, printed on both papers, then read back from the PDF.

What is checked against: PDF/UA-1 by an independent validator; WCAG 2.2 for contrast; ISO 216 and
the 8 1/2 in x 11 in sheet for paper; a ruler (a millimetre on paper is 72/25.4 points); the
1-2-5 series and the logarithm for scales. Everything else is a refusal or an order of things that
the reader needs.
"""

import hashlib
import importlib.util
import io
import os
import re
import subprocess
import sys
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from typing import Any

import page
import pypdf
import pypdfium2  # type: ignore[import-untyped]
import pytest
from fontTools.ttLib import TTFont  # type: ignore[import-untyped]

from buildsheet.packet import edge, fonts, pdf
from buildsheet.packet.fonts import cut
from tests.packet import kit_content

POINTS_PER_MM = 72 / 25.4
INCH = 25.4
TITLE, AUTHOR = "Fruit mill, build packet", "a builder"


def printed(**choice: Any) -> bytes:
    return pdf.write_pdf(kit_content.html(**choice), title=TITLE, author=AUTHOR, created="2026-03-14")


@pytest.fixture(scope="module")
def a4() -> bytes:
    return printed()


@pytest.fixture(scope="module")
def letter() -> bytes:
    return printed(paper=edge.LETTER, name=kit_content.LONG_NAME, state="do not use", inches=True)


@pytest.fixture(params=["a4", "letter"])
def packet(request: pytest.FixtureRequest) -> tuple[bytes, edge.Paper]:
    return request.getfixturevalue(request.param), edge.A4 if request.param == "a4" else edge.LETTER


def texts(data: bytes) -> list[str]:
    document = pypdfium2.PdfDocument(data)
    return [document[i].get_textpage().get_text_range() for i in range(len(document))]


def characters(data: bytes) -> Iterator[tuple[int, str, float, float, float, float]]:
    """Page index, character and its box in mm from the upper left corner."""
    document = pypdfium2.PdfDocument(data)
    for index in range(len(document)):
        sheet = document[index]
        height = sheet.get_height()
        content = sheet.get_textpage()
        for i in range(content.count_chars()):
            left, bottom, right, top = content.get_charbox(i)
            character = content.get_text_range(i, 1)
            if character.strip():
                yield (
                    index,
                    character,
                    *(x / POINTS_PER_MM for x in (left, height - top, right, height - bottom)),
                )


def test_pdf_ua_1_has_no_failed_rule(packet: tuple[bytes, edge.Paper]) -> None:
    """ISO 14289-1, as judged by the page-validation package."""
    report = page.validate_pdf_bytes(packet[0], profile="ua1")

    assert [(failure.rule_id, failure.message) for failure in report.failures] == []
    assert report.rules.passed > 100


def test_only_the_packets_own_typeface_is_embedded(packet: tuple[bytes, edge.Paper]) -> None:
    names, embedded = set(), True
    for sheet in pypdf.PdfReader(io.BytesIO(packet[0])).pages:
        resources: Any = sheet["/Resources"]
        for reference in resources.get("/Font", {}).values():
            font = reference.get_object()
            names.add(str(font["/BaseFont"]).partition("+")[2])
            descriptor = font["/DescendantFonts"][0].get_object()["/FontDescriptor"].get_object()
            embedded &= any(key.startswith("/FontFile") for key in descriptor)

    assert embedded
    assert len(names) == 4
    assert all(name.startswith(("Bench-Sans", "BenchSans")) for name in names), names


def test_same_content_same_bytes_whatever_the_hash_seed(a4: bytes) -> None:
    script = "import hashlib; from tests.packet import test_kit; print(hashlib.sha256(test_kit.printed()).hexdigest())"
    environment = {**os.environ, "PYTHONHASHSEED": "7", "PYTHONPATH": str(kit_content.ROOT)}

    other = subprocess.run(
        [sys.executable, "-c", script],
        cwd=kit_content.ROOT,
        env=environment,
        capture_output=True,
        text=True,
        check=True,
    )

    assert other.stdout.strip() == hashlib.sha256(a4).hexdigest()


def test_paper_sizes(packet: tuple[bytes, edge.Paper]) -> None:
    """ISO 216: A4 is 210 mm x 297 mm. The other is 8 1/2 in x 11 in."""
    wanted = (210, 297) if packet[1] is edge.A4 else (8.5 * INCH, 11 * INCH)

    for sheet in pypdf.PdfReader(io.BytesIO(packet[0])).pages:
        size = sorted(float(x) / POINTS_PER_MM for x in sheet.mediabox[2:])

        assert size == pytest.approx(wanted, abs=0.02)


def test_no_text_outside_the_frame_or_across_the_title_block(packet: tuple[bytes, edge.Paper]) -> None:
    """The edge's own figures are outlines, so nothing is exempt."""
    data, paper = packet
    document = pypdfium2.PdfDocument(data)
    frames = [
        edge.frame(paper, document[i].get_width() > document[i].get_height()) for i in range(len(document))
    ]
    outside = []
    for index, character, left, top, right, bottom in characters(data):
        f = frames[index]
        rule = f.bottom - edge.TITLE_BLOCK
        inside = f.left < left and right < f.right - 0.5 and f.top < top and bottom < f.bottom
        if not inside or (top < rule < bottom):
            outside.append((index + 1, character, round(left, 1), round(top, 1)))

    assert outside == []


@pytest.mark.parametrize(
    ("fixture", "column", "unit", "ticks"),
    [("a4", 17.0, 10.0, 11), ("letter", 16.4, INCH, 5)],  # where only the longest ticks reach
    ids=["millimetres", "inches"],
)
def test_edge_scale_is_true_to_a_ruler(
    fixture: str, column: float, unit: float, ticks: int, request: pytest.FixtureRequest
) -> None:
    data: bytes = request.getfixturevalue(fixture)
    pixels_per_mm = 600 / INCH
    image = pypdfium2.PdfDocument(data)[1].render(scale=600 / 72).to_pil().convert("L")
    x = round(column * pixels_per_mm)
    dark = [y / pixels_per_mm for y in range(image.height) if image.getpixel((x, y)) < 128]
    groups: list[list[float]] = []
    for y in dark:
        if groups and y - groups[-1][-1] < 0.2:
            groups[-1].append(y)
        else:
            groups.append([y])
    centres = [sum(group) / len(group) for group in groups]

    assert len(centres) == ticks
    for upper, lower in pairwise(centres):
        assert lower - upper == pytest.approx(unit, abs=0.06)


def test_every_sheet_has_its_own_height_of_tab(a4: bytes) -> None:
    """A dropped stack sorts itself: black tabs of upright sheets go down the edge, page after page."""
    document = pypdfium2.PdfDocument(a4)
    tops = []
    for sheet in document:
        if sheet.get_width() > sheet.get_height():
            continue
        image = sheet.render(scale=2).to_pil().convert("L")
        x = round(201 * POINTS_PER_MM * 2)
        dark = [y for y in range(image.height) if image.getpixel((x, y)) < 60]
        tops.append(dark[0] if len(dark) > 30 else None)

    assert tops[-1] is None  # the bench card bears no number
    numbered = [top for top in tops[:-1] if top is not None]
    assert len(numbered) == len(tops) - 1
    assert numbered == sorted(numbered)
    assert len(set(numbered)) == 15


def test_each_page_says_which_sheet_it_is_and_where_the_plug_is(packet: tuple[bytes, edge.Paper]) -> None:
    pages = texts(packet[0])

    assert len(pages) >= 18
    for number, words in enumerate(pages, 1):
        assert re.search(rf"{number}\s+of {len(pages)}", words)
        assert "while in use, the plug is" in words
    assert any("Wiring steps continued" in words and "PLUG OUT" in words for words in pages)


def test_contents_name_the_pages(packet: tuple[bytes, edge.Paper]) -> None:
    pages = texts(packet[0])
    for sheet in kit_content.sheets()[1:-1]:
        found = re.search(rf"^{sheet.number}\s+{re.escape(sheet.name)}\s+(\d+)\s*$", pages[0], re.MULTILINE)

        assert found is not None, sheet.name
        on_it = pages[int(found[1]) - 1]
        assert sheet.name in on_it
        assert f"{sheet.name} continued" not in on_it


def test_nothing_that_belongs_together_is_torn_apart(packet: tuple[bytes, edge.Paper]) -> None:
    pages = texts(packet[0])

    def at(words: str) -> set[int]:
        return {i for i, text in enumerate(pages) if words in re.sub(r"\s+", " ", text)}

    together = [
        ("Fit the speed knob in the panel", "touches no metal of the panel."),
        ("before step 12", "Solder wires 318"),
        ("Bond the motor’s frame.", "under a toothed washer."),
        ("Tug every wire of parts C and D", "What comes loose now"),
        ("Reversing switch and motor", "Make the two links"),
        ("Motor current at the hardest work", "hot magnets, a jam."),
        ("Speed knob 318, 319, 320", "wrong knob, see sheet 4"),
    ]
    for first, last in together:
        assert at(first)
        assert at(first) == at(last), (first, last)

    lists = [words for words in pages if "Parts: to salvage, to buy" in words and re.search(r"\bFC\d", words)]
    assert len(lists) >= 2  # forty rows do not fit on one page
    for words in lists:
        assert re.search(r"need\s+has\s+where\s+cost", words)
        assert words.count("Reversing switch, centre-off") == words.count("its own cover")
    assert sum(len(re.findall(r"\bFC\d+\b", words)) for words in lists) == 40


def test_document_information_and_outline(a4: bytes) -> None:
    reader = pypdf.PdfReader(io.BytesIO(a4))
    titles = [entry.title for entry in reader.outline if not isinstance(entry, list)]

    assert reader.metadata is not None
    assert reader.metadata.title == TITLE
    assert reader.metadata.author == AUTHOR
    assert str(reader.metadata.get("/CreationDate")).startswith("D:20260314")
    assert "Wiring steps" in titles
    assert "Fruit mill" not in titles


# --- the engine's frame -------------------------------------------------------------------------


def page_of(body: str, style: str = "") -> str:
    return f'<!DOCTYPE html><html lang="en"><title>t</title><style>{style}</style><body>{body}</body></html>'


@pytest.mark.parametrize(
    "address", ["http://127.0.0.1:9/a.png", "file:///etc/hostname", "ftp://127.0.0.1/a.png"]
)
def test_nothing_is_fetched(address: str) -> None:
    with pytest.raises(pdf.PaperError, match="disallowed protocol"):
        pdf.write_pdf(page_of(f'<img alt="a" src="{address}">'), title="t", author="a")


def test_a_warning_of_the_engine_is_an_error() -> None:
    with pytest.raises(pdf.PaperError, match="colour-of-ink"):
        pdf.write_pdf(page_of("<p>a", "p { colour-of-ink: black }"), title="t", author="a")


def test_enclosed_file_comes_out_unchanged_and_undated_packets_are_equal() -> None:
    enclosed = [pdf.Enclosure("mill.yaml", "the project file", b"buildsheet: 1\n")]
    first, second = (
        pdf.write_pdf(page_of("<p>a"), title="t", author="a", attachments=enclosed) for _ in range(2)
    )

    assert first == second
    assert pypdf.PdfReader(io.BytesIO(first)).attachments["mill.yaml"] == [b"buildsheet: 1\n"]
    assert pypdf.PdfReader(io.BytesIO(first)).metadata is not None
    assert "/CreationDate" not in (pypdf.PdfReader(io.BytesIO(first)).metadata or {})


# --- typeface -----------------------------------------------------------------------------------


def test_missing_glyphs_names_each_character_once() -> None:
    assert fonts.missing_glyphs("漢 motor 字漢\n") == ["漢", "字"]
    assert fonts.missing_glyphs("12 N·m ≤ 3\u2009380 rpm, −18 °C, η, Ω, µF, ½, “é”") == []


def test_family_does_not_bear_the_reserved_name() -> None:
    """SIL Open Font License 1.1, clause 3; the reserved name stands in the licence's first lines."""
    licence = (fonts.FILES / "LICENSE.txt").read_text(encoding="utf-8")
    found = re.search(r'Reserved Font Name "(\w+)"', licence)
    assert found is not None
    faces = sorted(fonts.FILES.glob("*.ttf"))
    assert len(faces) == 4
    for path in faces:
        names = {record.nameID: str(record) for record in TTFont(path)["name"].names}

        assert names[16] == "Bench Sans"
        assert not [text for number, text in names.items() if number not in (0, 13, 14) and found[1] in text]
        assert "Open Font License" in names[13]


def test_cut_again_gives_the_same_files(tmp_path: Path) -> None:
    cut.cut_fonts(tmp_path)

    assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == {
        path.name: path.read_bytes() for path in fonts.FILES.iterdir()
    }


def test_figures_are_as_wide_as_each_other() -> None:
    for weight in ("regular", "semibold", "bold"):
        assert len({fonts.face(weight).advances[figure] for figure in "0123456789\u2007"}) == 1


def test_fonts_not_cut_is_said_with_its_cure(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(fonts, "FILES", tmp_path)

    with pytest.raises(fonts.FontsNotCut, match=r"python -m buildsheet\.packet\.fonts"):
        fonts.fontconfig_file()


def test_page_engine_is_not_loaded_with_the_module() -> None:
    script = "import sys, buildsheet.packet.pdf, buildsheet.packet.marks; print('weasyprint' in sys.modules)"

    loaded = subprocess.run(
        [sys.executable, "-c", script], cwd=kit_content.ROOT, capture_output=True, text=True, check=True
    )

    assert loaded.stdout.strip() == "False"
    assert importlib.util.find_spec("weasyprint") is not None
