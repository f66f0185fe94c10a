"""An invented machine for the kit page. Nothing here was worked out: the words only have to look likely."""

import math
from dataclasses import dataclass
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import jinja2
from markupsafe import Markup, escape

from buildsheet.packet import chart, edge, figures, marks

ROOT = Path(__file__).resolve().parents[2]
LONG_NAME = "Two-wheel bandsaw sharpener with coolant pump"


@dataclass(frozen=True)
class Sheet:
    slug: str
    number: str
    name: str
    purpose: Markup
    plug: str | None = None
    landscape: bool = False
    helper: bool = False


def printed(thing: object) -> object:
    """The kit prints words and markup only: whoever passes a raw number through a macro learns of it here."""
    if isinstance(thing, (str, jinja2.Undefined)):
        return thing
    raise TypeError(f"a template printed {thing!r}")


def markup(source: str) -> Markup:
    return Markup(source)  # noqa: S704 (all of it is written in this file)


def nb(words: str) -> Markup:
    """Number and unit, kept on one line by a narrow space that does not break."""
    return markup(escape(words).replace(" ", "\u202f"))


def bold(number: str, unit: str = "") -> Markup:
    return Markup("<b>{}</b> {}").format(number, unit)


def sheets() -> list[Sheet]:
    def sheet(slug: str, number: str, name: str, purpose: str = "", *more: Any, **other: Any) -> Sheet:
        words = markup(
            purpose
            or "What this sheet is for, in two lines at most:<br>what to do with it, and when to stop."
        )
        return Sheet(slug, number, name, words, *more, **other)

    return [
        sheet("cover", "1", "This cover"),
        sheet("read-first", "2", "Read first", helper=True),
        sheet("glance", "3", "At a glance"),
        sheet("parts", "4", "Parts: to salvage, to buy", helper=True),
        sheet("diagram", "5", "Wiring diagram", "Wall at the left, motor at the right. Drawn with switches off, knob at slow.",
              "out", landscape=True, helper=True),
        sheet("wires", "6", "Wire list, cut list", "", "out", helper=True),
        sheet("steps", "7", "Wiring steps", "One action at a time, down the line. Tick the box, then go on. "
              "Where the line is open, stop: a second person closes it.", "out", helper=True),
        sheet("checks", "8", "Checks before power", "Readings with a two-lead meter. Write what you find. "
              "Outside the black bar: stop, find out why, read again.", "out", helper=True),
        sheet("power", "9", "First power, settings", "", "in"),
        sheet("speeds", "10", "Speeds"),
        sheet("heat", "11", "Heat"),
        sheet("faults", "12", "Faults", "", "out"),
        sheet("calculations", "13", "Calculations", "From what you wrote to what to buy, every size in this packet: the "
              "equation as it ran, the numbers put in, the result, and where each number came from."),
        sheet("labels", "14", "Labels to cut out"),
        sheet("revisions", "15", "Revisions"),
        sheet("unverified", "16", "Not verified"),
        sheet("bench", "", "Bench card", "", "in"),
    ]  # fmt: skip


def content(name: str, state: str, paper: edge.Paper, inches: bool) -> dict[str, Any]:
    all_sheets = sheets()
    state_slug = state.replace(" ", "-")
    packet = SimpleNamespace(machine=name, document="FM-01", revision="B", date="2026-03-14", drawn="builder",
                             state=state, state_slug=state_slug)  # fmt: skip
    height = edge.live_area(paper)[1]
    width_wide, height_wide = edge.live_area(paper, landscape=True)
    return {
        "language": "en",
        "title": f"{name}, build packet",
        "style": markup((ROOT / "templates" / "paper.css").read_text(encoding="utf-8")),
        "page_rules": edge.page_rules(all_sheets, paper, inches),
        "packet": packet,
        "sheets": all_sheets[:-1],
        "sheet": {s.slug: s for s in all_sheets},
        "room": marks.path_room(height),
        "nb": nb,
        "bold": bold,
        "inf": math.inf,
        "states": [
            ("draft", "draft", "not to be built"),
            ("for-building", "for building", "no stop, 3 to heed"),
            ("as-built", "as built", "readings filled in"),
            ("do-not-use", "do not use", "a reading is out"),
        ],
        "drawing": figures.svg(
            width_wide - 6, height_wide - 19, "Where the wiring diagram goes",
            figures.rect(3, 0, width_wide - 9, height_wide - 20, figures.TINT)
            + figures.text(8, 8, "the drawing has all of this", 9),
            "drawing",
        ),
        "legend": Markup("").join(
            Markup("<span>{}{}</span>").format(drawn, words)
            for drawn, words in [
                (marks.flag("206", "RD"), "wire 206, red"), (marks.triangle(True, 4), "touched, live"),
                (marks.flag("901", "GNYE"), "protective"),
            ]
        ),
        **cover(), **tables(), **calculations(),
    }  # fmt: skip


def cover() -> dict[str, Any]:
    def stage(icon: str, value: str, what: str, note: str) -> SimpleNamespace:
        return SimpleNamespace(icon=icon, value=value, what=what, note=note)

    return {
        "stages": [
            stage("plug", "120 V 60 Hz", "Wall", "15 A breaker, GFCI"),
            stage("no-volt-release", "8.1 A", "Disconnect, fuse, no-volt release", "fuse 12 A, time-lag"),
            stage("drive", "0 – 81 V DC", "Drive, no separation", "trim MAX set to 81 V"),
            stage("motor", "6.2 A", "Motor, permanent magnet", "3380 rpm, 390 W out"),
            stage("belts", "12.06 : 1", "Two belts", "40 → 160 mm, 63 → 190 mm"),
            stage("tool", "40 – 280 rpm", "Toothed drum", "12 N·m, both ways"),
        ],
        "spans": [("live at line voltage", 0, 3), ("turning", 4, 5)],
        "plate": [("Supply", "120 V 60 Hz"), ("Current", "8.1 A"), ("Fuse", "12 A time-lag"),
                  ("Drum", "280 rpm at most"), ("Duty", "30 min, then 15 min off"), ("Packet", "FM-01 B")],
    }  # fmt: skip


def tables() -> dict[str, Any]:
    def column(name: str, width: str, *look: str) -> SimpleNamespace:
        return SimpleNamespace(name=name, width=width, look=look)

    def number(written: str, unit: str) -> SimpleNamespace:
        whole, point, rest = written.partition(".")
        return SimpleNamespace(whole=whole, rest=point + rest, unit=unit)

    part_rows: list[Any] = [SimpleNamespace(group="To salvage")]
    for i in range(40):
        if i == 18:
            part_rows.append(SimpleNamespace(group="To buy"))
        what = (
            "Reversing switch, centre-off, with screw terminals and its own cover"
            if i % 7 == 3
            else "Fuse holder"
        )
        part_rows.append(
            [Markup('<span class="tick"></span>'), f"FC{i + 1}", what, number("12.5" if i % 3 else "9", "A"),
             number("16", "A") if i % 5 else "not known", "in your box, line 14", "4.20"]
        )  # fmt: skip
    codes = [
        "BK",
        "WH",
        "RD",
        "BU",
        "VT",
        "GY",
        "OG",
        "BN",
        "YE",
        "GN",
        "PK",
        "TQ",
        "GNYE",
        "WHRD",
        "GD",
        "SR",
    ]
    flags = [(str(100 * (i % 9 + 1) + i), code) for i, code in enumerate(codes)]

    def wires(now: int | None) -> list[SimpleNamespace]:
        ends = [
            ("318", "BU", "RA1 · 1", "TA1 · P1"),
            ("319", "VT", "RA1 · 2", "TA1 · P2"),
            ("320", "BN", "RA1 · 3", "TA1 · P3"),
        ]
        return [
            SimpleNamespace(number=n, code=c, end1=a, end2=b, length=nb("350 mm"), now=now)
            for n, c, a, b in ends
        ]

    return {
        "part_columns": [column("", "7mm", "tight"), column("id", "12mm", "bold"), column("part", "54mm"),
                         column("need", "", "number"), column("has", "", "number"), column("where", "30mm", "grey"),
                         column("cost", "10mm", "right", "tight")],
        "part_rows": part_rows,
        "wire_columns": [column("flag", "18mm", "tight"), column("from", "30mm", "bold"), column("to", "30mm", "bold"),
                         column("wire", "40mm"), column("length", "18mm", "right"), column("or colour", "39mm", "grey")],
        "wire_rows": [[marks.flag(n, c), "QA1 · 2", "TA1 · L", "14 AWG, 600 V", nb("350 mm"), "brown, red"] for n, c in flags],
        "wires": wires,
        "bond": [SimpleNamespace(number="903", code="GNYE", end1="XE1 · 3", end2="MA1 · frame", length=nb("900 mm"), now=None)],
        "flags": flags,
        "symbols": sorted(path.stem for path in marks.SYMBOLS.glob("*.svg")),
    }  # fmt: skip


def calculations() -> dict[str, Any]:
    def given(symbol: str, meaning: str, whole: str, rest: str, unit: str, source: str) -> SimpleNamespace:
        cell = SimpleNamespace(whole=whole, rest=rest, unit=unit)
        return SimpleNamespace(symbol=markup(symbol), meaning=meaning, number=cell, source=markup(source))

    ia, td, kt = (
        markup(f"<i>{letter}</i><sub>{index}</sub>") for letter, index in (("I", "a"), ("T", "d"), ("K", "t"))
    )
    wave = [(float(a), 170 * abs(math.sin(math.radians(a)))) for a in range(0, 361, 5)]
    motor = [(a, v if a % 180 >= 85 or a % 180 < 25 else 72.0) for a, v in wave]
    amps = [(a, max(0.0, 14 * math.sin(math.radians(a % 180 - 40)))) for a, _ in wave]
    return {
        "used_by": Markup("<b>C4</b>, <b>C9</b>, wires <b>410–417</b>"),
        "sides": [ia, Markup("{} / (<i>i</i> · <i>η</i> · {}) + <i>I</i><sub>0</sub>").format(td, kt),
                  Markup("12 / (12.06 · 0.90 · 0.2044) + 0.75"), Markup("<b>6.16</b> A")],
        "inputs": [
            given("<i>T</i><sub>d</sub>", "torque at the drum, fruit fed in steadily", "12", "", "N·m", "<b>your file</b>, line 9"),
            given("<i>i</i>", "both belt steps together", "12", ".06", "", "result <b>C1</b>"),
            given("<i>η</i>", "what the two belts pass on", "0", ".90", "", "<b>assumed</b>, see sheet 9, 6"),
            given("<i>K</i><sub>t</sub>", "torque per ampere, from the spin test", "0", ".2044", "N·m/A", "result <b>C2</b>"),
            given("<i>T</i><sub>a</sub>", "ambient, taken low to try the minus sign", "−18", ".5", "°C", "table <b>T3</b>"),
        ],
        "heat_sides": [Markup("<i>I</i><sub>rms</sub>"), Markup("<i>F</i> · {}").format(ia), "1.34 · 6.16", bold("8.25", "A")],
        "heat_inputs": [given("<i>F</i>", "form factor, from the solved wave above", "1", ".34", "", "model M1"),
                        given("<i>n</i>", "speed at that current", "3\u2009380", "", "rpm", "result <b>C7</b>")],
        "fuse_sides": [Markup("<i>I</i><sub>F</sub>"), Markup("<i>I</i><sub>line</sub> / <i>k</i>"), "8.1 / 0.75", bold("10.8", "A")],
        "fuse_inputs": [given("<i>k</i>", "share of its rating a fuse carries all day", "0", ".75", "", "table <b>T7</b>, source 3")],
        "size_strips": [
            marks.size_strip((10.8, "needs 10.8"), (15, "15 at most"), (12, "12 chosen"), "A", [0, 5, 10, 15, 20]),
            marks.size_strip((1.2, "needs 1.2"), None, (2.5, "2.5 chosen"), "mm²", [0, 2, 4, 6, 8, 10]),
            marks.size_strip(None, (2800, "2\u2009800 at most"), (1200, "1\u2009200 now"), "rpm", [0, 1000, 2000, 3000]),
        ],
        "wave_chart": chart.line_chart(
            "Line voltage, motor voltage and motor current over one period",
            [chart.Series("motor V", motor, "area"), chart.Series("line V", wave, "dashed"),
             chart.Series("current", amps, "heavy", right=True)],
            chart.Axis(0, 360, [0, 90, 180, 270, 360], suffix="°"), chart.Axis(0, 180, [0, 60, 120, 180], "V"),
            chart.Axis(0, 18, [0, 6, 12, 18], "A"), height=28),
        "torque_chart": chart.line_chart(
            "Torque over speed with its limit and the usual range",
            [chart.Series("warm", [(40.0, 12.0), (280.0, 9.0)], "heavy"), chart.Series("cold", [(40.0, 14.0), (280.0, 10.5)])],
            chart.Axis(0, 300, chart.ticks(0, 300, 6), "rpm"), chart.Axis(0, 20, chart.ticks(0, 20, 4), "N·m"),
            marks=[chart.Mark("belt slips", 16.0)], bands=[chart.Band("usual", 80.0, 240.0)], height=30),
    }  # fmt: skip


def html(
    paper: edge.Paper = edge.A4, name: str = "Fruit mill", state: str = "for building", inches: bool = False
) -> str:
    loader = jinja2.FileSystemLoader([ROOT / "templates", Path(__file__).parent])
    environment = jinja2.Environment(loader=loader, autoescape=True, finalize=printed, undefined=jinja2.StrictUndefined,
                                     trim_blocks=True, lstrip_blocks=True)  # fmt: skip
    environment.globals["marks"] = marks
    return environment.get_template("kit_page.html.j2").render(content(name, state, paper, inches))
