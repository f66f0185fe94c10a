"""The packet's small drawings: colours, strips, charts, symbols, sizes of type.

Checked against WCAG 2.2 (contrast), the 1-2-5 series and the logarithm (scales); the rest is refusals.
"""

import re
from typing import Any

import pytest

from buildsheet.packet import chart, edge, figures, fonts, marks
from tests.packet import kit_content

POINTS_PER_MM = 72 / 25.4


def luminance(colour: str) -> float:
    """WCAG 2.2, definition of relative luminance."""
    full = colour if len(colour) == 7 else "#" + "".join(c * 2 for c in colour[1:])
    parts = [int(full[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    r, g, b = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def contrast(one: str, other: str) -> float:
    """WCAG 2.2, definition of contrast ratio."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize("code", [*marks.COLOURS, "GNYE"])
def test_letters_on_a_wire_colour_can_be_read(code: str) -> None:
    """WCAG 2.2, success criterion 1.4.3: 4.5 to 1."""
    ground, letters, _ = marks.colour(code)

    assert contrast(ground, letters) >= 4.5


def test_grey_text_can_be_read_on_paper_and_tint() -> None:
    """WCAG 2.2, success criterion 1.4.3: 4.5 to 1."""
    assert contrast(figures.GREY, figures.PAPER) >= 4.5
    assert contrast(figures.GREY, figures.TINT) >= 4.5


def test_flag_escapes_what_is_written_on_it() -> None:
    assert "<script>" not in marks.flag("<script>", "BU")


@pytest.mark.parametrize("code", ["XX", "bu", "BUXX", "", "BUWHRD"])
def test_unknown_colour_code_is_refused(code: str) -> None:
    with pytest.raises(ValueError, match="unknown colour code"):
        marks.flag("1", code)


def bars(drawing: str) -> list[tuple[float, float]]:
    """Start and end of the black bars."""
    found = re.findall(r'<rect x="([\d.]+)" y="0.7" width="([\d.]+)"', drawing)
    return [(float(x), float(x) + float(width)) for x, width in found]


def test_ohm_strip_has_eight_equal_decades() -> None:
    """From 0.1 ohm to 10 Mohm are eight factors of ten: 1 kohm lies in the middle, 10 ohm at a quarter."""
    ((start, end),) = bars(marks.reading_strip(10, 1e3))

    assert start == pytest.approx(marks.OHM_LINE / 4, abs=0.001)
    assert end == pytest.approx(marks.OHM_LINE / 2, abs=0.001)


def test_open_circuit_is_a_field_of_its_own() -> None:
    infinite = float("inf")

    assert bars(marks.reading_strip(infinite, infinite)) == [(marks.OPEN_FROM, marks.STRIP)]
    line, field = bars(marks.reading_strip(1e5, infinite))
    assert line[1] == marks.OHM_LINE
    assert field == (marks.OPEN_FROM, marks.STRIP)


def test_volt_strip_has_zero_in_the_middle() -> None:
    ((start, end),) = bars(marks.reading_strip(0, 10, kind="volt", span=20))

    assert start == pytest.approx(marks.OHM_LINE / 2, abs=0.001)
    assert end == pytest.approx(marks.OHM_LINE * 3 / 4, abs=0.001)


@pytest.mark.parametrize(
    ("arguments", "complaint"),
    [
        ({"low": -1, "high": 5}, "no meter reads"),
        ({"low": 5, "high": 1}, "nothing lies between"),
        ({"low": 1, "high": 30, "kind": "volt", "span": 20}, "off a scale"),
        ({"low": 1, "high": 2, "kind": "amp"}, "no strip of kind"),
    ],
)
def test_strip_refuses_what_no_meter_shows(arguments: dict[str, Any], complaint: str) -> None:
    with pytest.raises(ValueError, match=complaint):
        marks.reading_strip(**arguments)


def test_size_strip_refuses_a_size_off_its_scale() -> None:
    marks.size_strip((10, "needs"), (20, "at most"), (20, "chosen"), "A", [0, 10, 20])
    with pytest.raises(ValueError, match="off the scale"):
        marks.size_strip((10, "needs"), (20, "at most"), (20.1, "chosen"), "A", [0, 10, 20])


def test_strip_length_is_drawn_at_true_size() -> None:
    drawing = marks.wire_end(8)
    strands = re.findall(
        r"M([\d.]+) ([\d.]+)L([\d.]+) \2\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.35\"", drawing
    )

    assert len(strands) == 3
    assert {float(end) for _, _, end in strands} == {40.0}
    (insulated,) = re.findall(r'<rect x="0.2" y="3.5" width="([\d.]+)"', drawing)
    assert 40.0 - float(insulated) == pytest.approx(8)
    assert 'width="40.3mm"' in drawing
    assert 'viewBox="0 0 40.3 ' in drawing


@pytest.mark.parametrize("strip", [0, -1, 31, float("nan")])
def test_strip_length_that_cannot_be_drawn_is_refused(strip: float) -> None:
    with pytest.raises(ValueError, match="can't be drawn"):
        marks.wire_end(strip)


@pytest.mark.parametrize(
    ("low", "high", "about", "wanted"),
    [
        (0, 20, 4, [0, 5, 10, 15, 20]),
        (0, 1, 5, [0, 0.2, 0.4, 0.6, 0.8, 1]),
        (-18, 18, 5, [-10, 0, 10]),
        (0, 3380, 4, [0, 1000, 2000, 3000]),
    ],
)
def test_ticks_stand_at_steps_of_1_2_5(low: float, high: float, about: int, wanted: list[float]) -> None:
    """Steps of one, two or five times a power of ten, worked by hand."""
    assert chart.ticks(low, high, about) == pytest.approx(wanted)


def test_chart_refuses_a_point_off_its_axis() -> None:
    axis = chart.Axis(0, 10, [0, 5, 10], "A")
    chart.line_chart("t", [chart.Series("a", [(0, 0), (10, 10)])], axis, axis)
    with pytest.raises(chart.OffTheScale, match=r"10\.1 is off the scale"):
        chart.line_chart("t", [chart.Series("a", [(0, 0), (10, 10.1)])], axis, axis)


@pytest.mark.parametrize("name", sorted(path.stem for path in marks.SYMBOLS.glob("*.svg")))
def test_symbol_says_what_it_is(name: str) -> None:
    drawing = marks.icon(name)

    assert re.match(r"<svg [^>]*><title>[A-Z][^<]+</title>", drawing)


def test_symbol_name_cannot_leave_its_folder() -> None:
    with pytest.raises(ValueError, match="not a symbol's name"):
        marks.symbol("../paper")


@pytest.mark.parametrize(
    "name", ["Saw", "Fruit mill", kit_content.LONG_NAME, "Donaudampfschifffahrtsgesellschaft"]
)
def test_machines_name_fits_the_cover(name: str) -> None:
    size = float(marks.name_size(name).removesuffix("pt")) / POINTS_PER_MM

    for word in name.split():
        assert fonts.text_width(word, size, "bold") <= 139
    assert fonts.text_width(name, size, "bold") <= 2 * 139


def test_more_stages_than_the_cover_holds_are_refused() -> None:
    room = marks.path_room(edge.live_area(edge.LETTER)[1])
    assert marks.path_pitch(7, room) * 7 <= room
    with pytest.raises(ValueError, match="do not fit"):
        marks.path_pitch(12, room)
