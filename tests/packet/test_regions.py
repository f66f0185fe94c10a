"""No word of one region stands in a packet of the other: terms, spelling, sizes, codes (law: a region is data)."""

import re
from functools import cache
from html import unescape
from pathlib import Path

import pytest

from buildsheet.packet.html import html
from buildsheet.plan import Plan, plan
from buildsheet.project import load
from buildsheet.reference import region

PROJECTS = Path(__file__).resolve().parents[2] / "projects"
# Words that only one region's trade uses. What both use (IEC 60204-1 for machines, IEC letter codes) is no such word.
AMERICAN = ("NEC", "NFPA", "UL", "ANSI", "ABYC", "AWG", "GFCI", "ground", "grounded", "grounding", "gauge", "gray", "color", "colors", "license",
            "class CC", "cmil", "inch", "inches", "lbf", "cfm", "ft", "three-pin")  # fmt: skip
EUROPEAN = ("earth", "earthed", "earthing", "RCD", "colour", "colours", "grey", "licence", "mm²", "gG", "IEC 60364", "IEC 60127", "IEC 60228", "IEC 60335",
            "IEC 60038")  # fmt: skip


@cache
def planned(name: str) -> Plan:
    return plan(load(PROJECTS / name / f"{name}.yaml"))


@cache
def words(name: str) -> str:
    """Every sheet of a packet without its markup: what the reader sees."""
    made = html(planned(name))
    bare = re.sub(r"<[^>]+>", " ", re.sub(r"<style>.*?</style>", "", made, flags=re.DOTALL))
    return re.sub(r"\s+", " ", unescape(bare))


def found(text: str, word: str) -> str:
    """The word with what stands around it, or nothing."""
    hit = re.search(rf".{{0,40}}(?<![\w-]){re.escape(word)}(?![\w-]).{{0,40}}", text)
    return hit[0] if hit else ""


@pytest.mark.parametrize("word", AMERICAN)
def test_a_european_packet_has_no_american_word(word: str) -> None:
    assert planned("yarn-twister").design.region.id == "europe"
    assert found(words("yarn-twister"), word) == ""


# The sander's file asks for metric measures, which any region may: square millimetres are no foreign word there.
@pytest.mark.parametrize(("name", "word"), [(name, word) for name in ("strip-sander", "wool-carder") for word in EUROPEAN if (name, word) != ("strip-sander", "mm²")])
def test_an_american_packet_has_no_european_word(name: str, word: str) -> None:
    assert planned(name).design.region.id == "north-america"
    assert found(words(name), word) == ""


def test_each_packet_has_its_own_words() -> None:
    """So that the tests above can fail."""
    for name, own in (("yarn-twister", ("earth", "RCD", "mm²", "IEC 60364", "colour")), ("strip-sander", ("ground", "GFCI", "AWG", "NEC", "color"))):
        assert [word for word in own if not found(words(name), word)] == []


@pytest.mark.parametrize("word", ["plug out", "outlet", "line voltage", "wall", "mains", "breaker"])
def test_a_machine_on_a_battery_speaks_of_no_outlet(word: str) -> None:
    assert found(words("wool-carder"), word) == ""


def test_regions_answer_the_same_questions() -> None:
    """Every table, word, code and colour that one region's file names, the other's does too."""
    a, b = region("north-america"), region("europe")
    for part in ("tables", "words", "codes", "colours"):
        assert set(getattr(a, part)) == set(getattr(b, part)), part
