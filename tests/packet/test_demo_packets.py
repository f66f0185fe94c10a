"""The demos' packets, printed whole and read back: nothing off the page, nothing over anything else, same bytes again."""

import io
import json
import re
from collections import defaultdict
from functools import cache
from itertools import combinations
from pathlib import Path

import page
import pypdf
import pytest
from markupsafe import Markup

from buildsheet.packet import edge, pdf
from buildsheet.packet.html import PrintError, environment, html
from buildsheet.packet.ink import Ink
from buildsheet.packet.sheets import SHEETS
from buildsheet.packet.words import check_json
from buildsheet.plan import Plan, plan
from buildsheet.project import load, read
from buildsheet.units import VOLT
from buildsheet.worksheet import Input, Value, unknown
from tests.demos import DEMOS
from tests.packet.test_kit import characters, texts

ROOT = Path(__file__).resolve().parents[2]
SANDER = ROOT / "projects/strip-sander/strip-sander.yaml"
GOLDEN = ROOT / "tests/golden"
PROJECTS = sorted(ROOT.glob("projects/*/*.yaml"))


def printed(made: Plan) -> bytes:
    return pdf.write_pdf(html(made), title="t", author="a", created="2026-11-25")


@pytest.fixture(scope="module")
def sander() -> Plan:
    return plan(load(SANDER))


@pytest.fixture(scope="module")
def packet() -> bytes:
    return demo("strip-sander")[1]


@cache
def demo(name: str) -> tuple[Plan, bytes]:
    made = plan(load(ROOT / f"projects/{name}/{name}.yaml"))
    return made, printed(made)


EACH = pytest.mark.parametrize("name", DEMOS)


@EACH
def test_pdf_ua_1_has_no_failed_rule(name: str) -> None:
    """ISO 14289-1, as judged by the page-validation package."""
    report = page.validate_pdf_bytes(demo(name)[1], profile="ua1")
    assert [(failure.rule_id, failure.message) for failure in report.failures] == []


@EACH
def test_no_text_leaves_the_frame(name: str) -> None:
    """Print stays between the frame's sides and off the paper's edge; figures of the edge scale are outlines."""
    made, packet = demo(name)
    paper = edge.A4 if made.design.region.paper == "a4" else edge.LETTER
    wide = {i for i, sheet in enumerate(pypdf.PdfReader(io.BytesIO(packet)).pages) if sheet.mediabox.width > sheet.mediabox.height}
    frames = {upright: edge.frame(paper, landscape=not upright) for upright in (True, False)}
    for index, sign, left, top, right, bottom in characters(packet):
        frame = frames[index not in wide]
        inside = frame.left - 0.1 <= left and right <= frame.right + 0.1 and frame.top - 0.1 <= top and bottom <= frame.bottom + 0.1
        assert inside, f"page {index + 1}: {sign!r} at {left:.1f}, {top:.1f}"


@EACH
def test_no_letter_lies_on_another(name: str) -> None:
    """No two characters share more than a third of the smaller one's box; an index may touch its symbol."""
    pages = defaultdict(list)
    for index, sign, *box in characters(demo(name)[1]):
        pages[index].append((sign, *box))
    for index, signs in pages.items():
        columns = defaultdict(list)
        for sign in signs:
            for column in range(int(sign[1] // 4), int(sign[3] // 4) + 1):
                columns[column, int(sign[2] // 4)].append(sign)
        for beside in columns.values():
            for a, b in combinations(beside, 2):
                width = min(a[3], b[3]) - max(a[1], b[1])
                height = min(a[4], b[4]) - max(a[2], b[2])
                least = min((a[3] - a[1]) * (a[4] - a[2]), (b[3] - b[1]) * (b[4] - b[2]))
                if width > 0 and height > 0 and least > 0:
                    assert width * height < 0.34 * least, f"page {index + 1}: {a[0]!r} and {b[0]!r} at {a[1]:.1f}, {a[2]:.1f} mm"


@EACH
def test_no_line_can_break_inside_a_number(name: str) -> None:
    """Unicode Standard Annex 14, table 1: a line may break behind a thin space (U+2009, class BA), and on neither side of
    a narrow no-break space (U+202F, class GL). All packets print figures over 999; from memory."""
    page_text = html(demo(name)[0])
    assert "\u2009" not in page_text
    assert re.search(r"\d\u202f\d{3}(?!\d)", page_text)


@EACH
def test_no_page_is_nearly_empty(name: str) -> None:
    """A page of which less than a quarter is used wastes paper and tears a sheet apart."""
    made, packet = demo(name)
    frame = edge.frame(edge.A4 if made.design.region.paper == "a4" else edge.LETTER)
    lowest: dict[int, float] = defaultdict(float)
    for index, _, _, _, _, bottom in characters(packet):
        if bottom < frame.bottom - edge.TITLE_BLOCK:
            lowest[index] = max(lowest[index], bottom)
    height = frame.bottom - edge.TITLE_BLOCK - frame.top
    assert {index + 1: round(low) for index, low in lowest.items() if low - frame.top < 0.25 * height} == {}


def test_same_project_same_bytes(packet: bytes) -> None:
    assert printed(plan(load(SANDER))) == packet


def test_every_sheet_that_has_something_to_say_is_there_and_the_others_are_named(packet: bytes, sander: Plan) -> None:
    page_text = html(sander)
    for sheet in SHEETS:
        there = f'id="sheet-{sheet.slug}"' in page_text
        assert there or f"Sheet {sheet.number}, {sheet.name}:" in page_text.replace("&#39;", "'"), sheet.slug
    assert len(texts(packet)) >= 14


def test_inches_change_results_and_leave_what_was_written(sander: Plan) -> None:
    made = plan(read(SANDER.read_text(encoding="utf-8").replace("measures: metric", "measures: inch"), "s.yaml"))
    text = html(made)
    assert "80\u202fmm → 63\u202fmm" in text  # as written
    assert re.search(r"\d\u202fin\b", text)  # a result
    assert made.state == sander.state


@pytest.mark.parametrize("thing", [3, 3.0, None, [1], True], ids=repr)
def test_the_engine_refuses_a_number_without_a_parent(thing: object) -> None:
    with pytest.raises(PrintError, match="neither words nor a Value"):
        environment(Ink()).from_string("{{ thing }}").render(thing=thing)


def test_the_engine_has_no_format_filter() -> None:
    assert "format" not in environment(Ink()).filters


def test_a_value_prints_with_its_unit_and_an_unknown_as_a_blank() -> None:
    engine = environment(Ink())
    volts = Value(90.0, id="v", unit=VOLT, parent=Input("f", 1, 1, "v", "90 V"))
    assert engine.from_string("{{ v }}").render(v=volts) == "90\u202fV"
    assert "blank" in engine.from_string("{{ v }}").render(v=unknown("u", VOLT, "nobody measured"))
    assert engine.from_string("{{ v }}").render(v="<b>") == "&lt;b&gt;"
    assert engine.from_string("{{ v }}").render(v=Markup("<b>")) == "<b>"


QUANTITY = re.compile(r"(?<![\w#-])\d+(?:\.\d+)?\s?(?:V|A|W|mA|kΩ|Ω|mm|m|s|min|rpm|Hz|°C|K|kg|N·m|%)(?![\w%}])")


@pytest.mark.parametrize("path", sorted((ROOT / "templates/sheets").glob("*.j2")), ids=lambda path: path.name)
def test_prose_in_templates_holds_no_quantity(path: Path) -> None:
    assert QUANTITY.findall(re.sub(r"\"\d+(?:\.\d+)?mm\"", "", path.read_text(encoding="utf-8"))) == []


@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
def test_regression_of_the_demos_results(path: Path) -> None:
    """A golden file: it fixes what was worked out, right or wrong. `python tests/golden.py` writes it anew; read the diff."""
    made = check_json(plan(load(path)), path.name)
    wanted = json.loads((GOLDEN / f"{path.stem}.json").read_text(encoding="utf-8"))
    assert made["state"] == wanted["state"]
    assert [finding["id"] for finding in made["findings"]] == [finding["id"] for finding in wanted["findings"]]
    assert {r["id"]: r["shown"] for r in made["results"]} == {r["id"]: r["shown"] for r in wanted["results"]}
    assert made["wires"] == wanted["wires"]
