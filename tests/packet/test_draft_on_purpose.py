"""A packet that ends in a draft: it says why in one sentence and what would go together instead, and withholds what would let
the machine be built.
"""

import io
from pathlib import Path

import pypdf
import pytest

from buildsheet.packet.html import html
from buildsheet.packet.pdf import write_pdf
from buildsheet.packet.sheets import sheets_of
from buildsheet.plan import Plan, plan
from buildsheet.project import load, read

FILE = Path(__file__).resolve().parents[2] / "projects/leaf-turner/leaf-turner.yaml"


@pytest.fixture(scope="module")
def made() -> Plan:
    return plan(load(FILE))


def test_it_is_a_draft_for_one_reason(made: Plan) -> None:
    stops = [finding for finding in made.findings if finding.stops]
    assert made.state == "draft"
    assert [finding.id for finding in stops] == ["together-unprotected-lithium-pack-chopper"]
    assert "goes together" in stops[0].do


def test_its_packet_prints_without_what_would_let_it_be_built(made: Plan) -> None:
    """Steps, diagram, wire list, checks, first power, faults and labels are withheld, and named with the reason."""
    taken, left = sheets_of(made)
    withheld = {"diagram", "wires", "steps", "checks", "power", "faults", "labels"}
    assert withheld.isdisjoint(sheet.slug for sheet in taken)
    assert {sheet.slug for sheet, why in left if why == "withheld by a stop"} == withheld
    text = "".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(write_pdf(html(made), title="t", author="a", created="2026-11-28"))).pages)
    assert "DRAFT" in text
    assert "unprotected lithium pack" in text


def test_a_protection_board_makes_it_one_for_building() -> None:
    """The pack's data decide, and nothing else of the file."""
    text = FILE.read_text(encoding="utf-8")
    line = next(line for line in text.splitlines() if line.startswith("battery:"))
    assert plan(read(text.replace(line, f"{line}, protection board"), "leaf-turner.yaml")).state == "for building"
