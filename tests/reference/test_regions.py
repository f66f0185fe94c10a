"""Region files: tables that exist, colours that are codes, functions that keep their colour to themselves."""

import pytest

from buildsheet.reference import Region, region, region_names, table
from tests.reference.printed import COLOUR_CODES

ALL = [region(name) for name in region_names()]
EACH = pytest.mark.parametrize("one", ALL, ids=lambda one: one.id)
WORDS = {
    "earth", "earthed", "earthing", "protective-conductor", "residual-current-device", "metre-unit", "colour", "line-pole", "neutral", "mains",
}  # fmt: skip


@EACH
def test_tables_of_the_region_exist(one: Region) -> None:
    """Each part is played by a table that is there and that allows the look-up that its part needs."""
    for role in (
        "wire",
        "terminals",
        "ampacity",
        "ambient",
        "cord-ambient",
        "bundle",
        "cord",
        "fuse",
        "protective",
        "rules",
    ):
        assert table(one.tables[role])
    for role in ("ambient", "cord-ambient", "bundle", "fuse", "protective"):
        assert "next_larger" in table(one.tables[role]).lookups


@EACH
def test_colours_are_codes_of_the_standard(one: Region) -> None:
    """IEC 60757; the preferred one first, each once."""
    for codes in (*one.colours.values(), *one.reserved_colours.values()):
        assert codes
        assert set(codes) <= COLOUR_CODES
        assert len(set(codes)) == len(codes)


@EACH
def test_reserved_colours_are_used_by_no_other_function(one: Region) -> None:
    """The protective conductor's colours and the neutral's are theirs alone."""
    for owner, codes in one.reserved_colours.items():
        assert set(one.colours[owner]) <= set(codes)
        for role, used in one.colours.items():
            if role != owner:
                assert not set(used) & set(codes), f"{role} uses a colour of {owner}"


@EACH
def test_words_and_papers_are_there(one: Region) -> None:
    assert set(one.words) >= WORDS
    assert all(one.words.values())
    assert one.paper in ("letter", "a4")
    assert one.codes["installation"]


def test_colours_of_north_america() -> None:
    """NFPA 79, 13.2.4: power black, AC control red, DC control blue; NEC 200.6(A): grounded white or gray; NEC 250.119:
    green, or green and yellow. A line conductor is distinguishable from both, NEC 310.6(C)."""
    colours = region("north-america").colours

    assert colours["line"][0] == colours["armature"][0] == "BK"
    assert colours["control"] == ("RD",)
    assert colours["extra-low"] == ("BU",)
    assert set(colours["neutral"]) == {"WH", "GY"}
    assert set(colours["protective"]) == {"GN", "GNYE"}
    assert not set(colours["line"]) & {"WH", "GY", "GN", "GNYE"}


def test_a_region_that_is_not_there_names_those_that_are() -> None:
    with pytest.raises(LookupError, match=r'no region "atlantis"; there are .*north-america'):
        region("atlantis")
