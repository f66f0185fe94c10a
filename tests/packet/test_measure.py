"""The measuring sheets: one page each on both papers, nothing over anything else, and what the bench must be told.

Checked against: PDF/UA-1 by an independent validator; what the bench needs (each reading a box).
"""

import re
from collections import defaultdict
from functools import cache
from itertools import combinations
from pathlib import Path
from typing import Any

import page
import pypdfium2  # type: ignore[import-untyped]
import pytest
from click.testing import CliRunner, Result

from buildsheet.cli import main
from buildsheet.given.problems import BuildsheetError
from buildsheet.packet import edge, measure, pdf
from buildsheet.packet.bench_circuit import drawing
from buildsheet.packet.ink import Ink
from buildsheet.reference import region, region_names, table
from tests.packet.test_demo_packets import QUANTITY
from tests.packet.test_kit import characters, texts

ROOT = Path(__file__).resolve().parents[2]
TEMPLATES = sorted((ROOT / "templates/measure").glob("*.j2"))
EVERY = [(sheet, name) for sheet in measure.SHEETS for name in region_names()]
EACH = pytest.mark.parametrize(("sheet", "name"), EVERY, ids=[f"{sheet.slug}, {name}" for sheet, name in EVERY])


@cache
def html(slug: str, name: str) -> str:
    return measure.html(next(sheet for sheet in measure.SHEETS if sheet.slug == slug), region(name))


@cache
def printed(slug: str, name: str) -> bytes:
    return pdf.write_pdf(html(slug, name), title="t", author="a")


def paper(name: str) -> edge.Paper:
    return edge.A4 if region(name).paper == "a4" else edge.LETTER


# --- paper -----------------------------------------------------------------------------------------


@EACH
def test_a_sheet_is_one_page_of_the_regions_paper(sheet: measure.MeasureSheet, name: str) -> None:
    document = pypdfium2.PdfDocument(printed(sheet.slug, name))
    assert len(document) == 1
    size = [points * 25.4 / 72 for points in document[0].get_size()]
    assert size == pytest.approx((paper(name).width, paper(name).height), abs=0.02)


@EACH
def test_pdf_ua_1_has_no_failed_rule(sheet: measure.MeasureSheet, name: str) -> None:
    """ISO 14289-1, as judged by the page-validation package."""
    report = page.validate_pdf_bytes(printed(sheet.slug, name), profile="ua1")
    assert [(failure.rule_id, failure.message) for failure in report.failures] == []


@EACH
def test_no_text_leaves_the_frame_or_crosses_the_title_block(sheet: measure.MeasureSheet, name: str) -> None:
    f = edge.frame(paper(name))
    rule = f.bottom - edge.TITLE_BLOCK
    for _, sign, left, top, right, bottom in characters(printed(sheet.slug, name)):
        inside = f.left < left and right < f.right - 0.5 and f.top < top and bottom < f.bottom
        assert inside, f"{sign!r} at {left:.1f}, {top:.1f}"
        assert not top < rule < bottom, f"{sign!r} across the title block"


@EACH
def test_no_letter_lies_on_another(sheet: measure.MeasureSheet, name: str) -> None:
    """No two characters share more than a third of the smaller one's box."""
    columns: dict[tuple[int, int], list[tuple[Any, ...]]] = defaultdict(list)
    for _, *sign in characters(printed(sheet.slug, name)):
        for column in range(int(sign[1] // 4), int(sign[3] // 4) + 1):
            columns[column, int(sign[2] // 4)].append(tuple(sign))
    for beside in columns.values():
        for a, b in combinations(beside, 2):
            width, height = min(a[3], b[3]) - max(a[1], b[1]), min(a[4], b[4]) - max(a[2], b[2])
            least = min((a[3] - a[1]) * (a[4] - a[2]), (b[3] - b[1]) * (b[4] - b[2]))
            if width > 0 and height > 0 and least > 0:
                assert width * height < 0.34 * least, f"{a[0]!r} and {b[0]!r} at {a[1]:.1f}, {a[2]:.1f} mm"


@EACH
def test_most_of_the_page_is_used(sheet: measure.MeasureSheet, name: str) -> None:
    f = edge.frame(paper(name))
    foot = f.bottom - edge.TITLE_BLOCK
    lowest = max(bottom for *_, bottom in characters(printed(sheet.slug, name)) if bottom < foot)
    assert lowest > f.top + 0.6 * (foot - f.top)


def test_same_sheet_same_bytes() -> None:
    again = pdf.write_pdf(measure.html(measure.find("motor", "series"), region("europe")), title="t", author="a")
    assert again == printed("motor-series", "europe")


# --- words and numbers -----------------------------------------------------------------------------


@pytest.mark.parametrize("path", TEMPLATES, ids=lambda path: path.name)
def test_templates_hold_no_digit_but_widths(path: Path) -> None:
    """What a sheet says in figures is a row of a table."""
    text = path.read_text(encoding="utf-8")
    assert QUANTITY.findall(re.sub(r"\"\d+(?:\.\d+)?mm\"", "", text)) == []
    bare = re.sub(r"\{#.*?#\}", "", text, flags=re.DOTALL)
    bare = re.sub(r"\"\d+(?:\.\d+)?mm\"|</?h\d|\{% (?:for|if) [^%]*%\}|\{\{ marks\.mm\(.*?\) \}\}|loop\.index0|\.j2|\d-pole", "", bare)
    assert re.findall(r".{0,20}\d.{0,20}", bare) == []


@EACH
def test_no_glyph_is_missing_and_no_template_word_leaks(sheet: measure.MeasureSheet, name: str) -> None:
    text = texts(printed(sheet.slug, name))[0]
    assert not {"{", "}", "<", "__", "None"} & set(re.findall(r"[{}<]|__|None", text))
    assert "\ufffd" not in text


@EACH
def test_no_line_can_break_inside_a_number(sheet: measure.MeasureSheet, name: str) -> None:
    """Unicode Standard Annex 14, table 1: a line may break behind a thin space (U+2009, class BA); from memory."""
    assert "\u2009" not in html(sheet.slug, name)


@EACH
def test_the_regions_words(sheet: measure.MeasureSheet, name: str) -> None:
    """Gray and color in North America, grey and colour in Europe."""
    text = " ".join(texts(printed(sheet.slug, name))[0].split())
    wrong = r"\b(?:grey|colours?)\b" if name == "north-america" else r"\b(?:gray|colors?)\b"
    assert re.findall(wrong, text, re.IGNORECASE) == []


def test_every_row_of_the_tables_is_used() -> None:
    said = "".join(path.read_text(encoding="utf-8") for path in TEMPLATES)
    for of in (measure.RANGES, measure.SETTINGS):
        for name in table(of).rows:
            assert f'"{name}"' in said or name in ("start capacitor volts", "run capacitor volts"), f"{of}: {name}"


def test_ranges_rise_and_name_their_source() -> None:
    ranges = table(measure.RANGES)
    for name, row in ranges.rows.items():
        assert row["source"], name
        if "-" not in (row["low"], row["high"]):
            assert ranges.cell(name, "low").si < ranges.cell(name, "high").si, name
        assert (row["low"], row["high"]) != ("-", "-"), name


def test_a_range_prints_with_its_source_once() -> None:
    said = str(measure.plausible(Ink(), ("magnet plate volts", ("then", "protector"))))
    assert "12 – 180\u202fV" in said
    assert "then <b" in said
    assert said.count("common practice") == 1
    assert "at most 1\u202fΩ" in said


@pytest.mark.parametrize(
    ("low", "high"),
    [("armature", 1.50), ("magnet spun", 47.83), ("free run current", 0.481), ("knob", 5e3), ("knob", 10e3), ("knob", 16e3), ("shunt field", 100.0), ("run capacitor", 20e-6)],
)
def test_published_and_worked_values_are_plausible(low: str, high: float) -> None:
    """A 90 V, half-horsepower motor: 1.50 Ω, 47.83 V at 1000 rpm, 0.48 A without load (worked example in the physics notes);
    potentiometers of 5, 10 and 16 kΩ (public question pages); a field of 100 Ω on 100 V (a drive maker's manual); 20 µF
    run capacitor (textbook row)."""
    ranges = table(measure.RANGES)
    assert ranges.cell(low, "low").si <= high <= ranges.cell(low, "high").si


def test_lamp_currents_are_power_over_volts() -> None:
    """Ohm's law: P / U."""
    settings = table(measure.SETTINGS)

    def si(name: str) -> float:
        return settings.cell(name, "value").si

    for lamp in ("small lamp", "large lamp"):
        assert si(f"{lamp} current") == pytest.approx(si(lamp) / si("battery"), rel=0.03)
    assert si("large lamp current") < si("battery fuse") < 10  # pocket meters carry a 10 A fuse: common practice


def test_film_figures_belong_together() -> None:
    """Pictures a minute are sixty times those a second; at four pictures a turn a shaft does a quarter of them."""
    settings = table(measure.SETTINGS)
    rate = settings.cell("frame rate", "value").si
    assert settings.cell("frames to rpm", "value").si == pytest.approx(60 * rate)
    assert settings.cell("fastest by film", "value").si == pytest.approx(rate / 4 * 2 * 3.14159265, rel=1e-6)


# --- what the bench must be told -------------------------------------------------------------------


@pytest.mark.parametrize(
    ("slug", "said"),
    [
        ("what-is-it", "A capacitor keeps its charge when the plug is out."),
        ("motor-magnet-dc", "The constant says what speed a voltage gives, not what speed is safe."),
        ("motor-series", "The constant says what speed a voltage gives, not what speed is safe."),
        ("motor-series", "A series motor without load runs away until it bursts."),
        ("motor-series", "Made for a battery (starter, winch): never free, leave it out."),
        ("motor-shunt", "With its field lost it runs away until it bursts."),
        ("motor-shunt", "only if the field's plate volts are not above the armature's, else leave it out"),
        ("motor-split-phase", "Lowering its voltage is no speed control."),
        ("motor-capacitor-start", "Lowering its voltage is no speed control."),
        ("motor-permanent-split-capacitor", "Lowering its voltage is no speed control."),
        ("motor-shaded-pole", "Lowering its voltage is no speed control."),
        ("motor-three-phase", "Lowering its voltage is no speed control."),
        ("board", "still not proven separated"),
        ("board", "sheet console"),
        ("console", "One without a tick, or not known: stop here."),
        ("console", "the maker says in words that the console's side is separated from the line"),
        ("console", "What the board then gave is at line voltage."),
        ("console", "pull the plug, stop."),
        ("motor-series", "sheet spare-wires"),
        ("spare-wires", "A tap is live with the motor, and runs it faster."),
        ("spare-wires", "its tachometer counts as live"),
        ("transformer", "It is never powered."),
        ("capacitor", "A capacitor of an oven holds enough to kill"),
        ("switch", "what it breaks on DC is not known at any voltage"),
        ("donor", "Nothing more than that speed is proven."),
    ],
)
def test_the_danger_of_the_sheet_is_said(slug: str, said: str) -> None:
    for name in region_names():
        assert said in " ".join(texts(printed(slug, name))[0].split())


@pytest.mark.parametrize(
    ("slug", "danger", "step"),
    [
        ("motor-magnet-dc", "It starts without warning", "Held rotor"),
        ("motor-series", "A series motor without load", "Held rotor"),
        ("motor-shunt", "With its field lost", "Held rotor"),
        ("motor-capacitor-start", "A capacitor keeps its charge", "Windings"),
        ("transformer", "Fed at the wrong winding", "Low AC"),
        ("transformer", "An oven transformer", "Marks"),
        ("board", "The knob may be live", "Knob to line"),
        ("console", "One without a tick", "Its plug"),
        ("console", "One without a tick", "Clips on"),
        ("console", "One without a tick", "Plug in"),
        ("console", "A capacitor keeps its charge", "All of this"),
        ("capacitor", "A capacitor keeps its charge", "Emptied"),
        ("what-is-it", "A capacitor keeps its charge", "Ohms"),
        ("donor", "A capacitor keeps its charge", "Keep and tag"),
    ],
)
def test_a_danger_stands_before_the_step_that_needs_it(slug: str, danger: str, step: str) -> None:
    text = html(slug, "north-america")
    assert 0 < text.index(danger) < text.index(f'<div class="ms-name">{step}')


def test_one_sheet_alone_reads_with_the_plug_in_and_says_so_on_both_of_its_signs() -> None:
    """Badge in the head and title block at the foot; every other sheet is for a plug that is out from first to last."""
    for sheet in measure.SHEETS:
        text = html(sheet.slug, "europe")
        assert text.count("in for one reading") == (2 if sheet.what == "console" else 0), sheet.slug
        assert ("Plug in<small>" in text) is bool(sheet.plugged), sheet.slug


def test_every_sheet_that_reads_to_the_frame_says_what_that_is_not() -> None:
    """A pocket meter's few volts find no weak insulation: IEC 60204-1, 18.3 tests at 500 V."""
    for sheet in measure.SHEETS:
        text = " ".join(texts(printed(sheet.slug, "europe"))[0].split())
        if "MΩ" in text and sheet.slug not in ("board", "switch"):
            assert "is no insulation test" in text, sheet.slug


def test_the_first_sheet_leads_to_every_motor_sheet() -> None:
    text = html("what-is-it", "europe")
    for kind in measure.KINDS:
        assert f"<td>{kind}</td>" in text


def test_the_circuit_is_a_ring_in_the_order_of_its_parts() -> None:
    drawn = str(drawing((("battery", "12 V"), ("fuse", "7.5 A"), ("motor", "motor"))))
    assert drawn.index(">12 V<") < drawn.index(">7.5 A<") < drawn.index(">motor<")
    assert "Test circuit: 12 V, 7.5 A, motor, in a ring" in drawn


# --- the command -----------------------------------------------------------------------------------


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, ["measure", *arguments])


@pytest.mark.parametrize(
    ("arguments", "name"),
    [((), "what-is-it"), (("motor", "magnet-dc"), "motor-magnet-dc"), (("switch", "--region", "europe"), "switch")],
    ids=["none", "kind", "region"],
)
def test_the_command_writes_both_files(arguments: tuple[str, ...], name: str, tmp_path: Path) -> None:
    ran = run(*arguments, "--out", str(tmp_path / "m"))
    assert ran.exit_code == 0
    assert ran.output.splitlines() == [str(tmp_path / "m" / f"{name}{suffix}") for suffix in (".html", ".pdf")]
    assert {path.name for path in (tmp_path / "m").iterdir()} == {f"{name}.pdf", f"{name}.html"}
    assert (tmp_path / "m" / f"{name}.pdf").read_bytes().startswith(b"%PDF")


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("moter",), 'no sheet "moter"; there are motor, donor, board, console, spare-wires, transformer, capacitor, switch; did you mean motor?'),
        (("motor",), "say which kind of motor: magnet-dc, series"),
        (("motor", "magnet"), 'no kind of motor "magnet"'),
        (("motor", "seris"), "did you mean series?"),
        (("motor", "split-fase"), "did you mean split-phase?"),
        (("series",), "write `buildsheet measure motor series`"),
        (("board", "series"), 'leave "series" out'),
        (("switch", "--region", "europa"), "did you mean europe?"),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, tuple) else "",
)
def test_a_wrong_word_is_one_line_and_exit_2(arguments: tuple[str, ...], said: str, tmp_path: Path) -> None:
    ran = run(*arguments, "--out", str(tmp_path / "m"))
    assert ran.exit_code == 2
    assert len(ran.output.splitlines()) == 1
    assert said in ran.output
    assert not (tmp_path / "m").exists()


def test_a_sheet_that_cant_be_written_leaves_nothing_half(tmp_path: Path) -> None:
    (tmp_path / "m").write_text("a file where a folder should be", encoding="utf-8")
    ran = run("switch", "--out", str(tmp_path / "m"))
    assert ran.exit_code == 2
    assert len(ran.output.splitlines()) == 1
    with pytest.raises(BuildsheetError):
        measure.find("nothing")


@EACH
def test_boxes_of_a_grid_are_wide_enough_for_a_pen(sheet: measure.MeasureSheet, name: str) -> None:
    """Own design rule: a pen box is at least 22 mm wide; a millimetre of each column is the gap."""
    for grid in re.findall(r'<table class="ms-grid">(.*?)</table>', html(sheet.slug, name), re.DOTALL):
        widths = [float(width) for width in re.findall(r'<col style="width:([\d.]+)mm">', grid)]
        first = re.search(r"<tbody><tr>(.*?)</tr>", grid, re.DOTALL)
        assert first is not None
        cells = re.findall(r"<t[hd][^>]*>(.*?)</t[hd]>", first[1], re.DOTALL)
        assert sum(widths) == pytest.approx(139, abs=0.1)
        assert len(cells) == len(widths)
        assert all(width >= 23 for cell, width in zip(cells, widths, strict=True) if "ms-box" in cell)
