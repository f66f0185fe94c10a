"""Measuring sheets: one page each, filled in with a pen at the bench, before there is a project file.

A sheet is a template in `templates/measure/`. What is plausible, and every other figure in its text, is a row of a table;
the grey lines are lines of a project file with gaps where the readings go.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from markupsafe import Markup, escape

from buildsheet.given.problems import BuildsheetError, near
from buildsheet.packet import bench_circuit, edge
from buildsheet.packet.files import put
from buildsheet.packet.html import PAPERS, environment, templates, unsplit
from buildsheet.packet.ink import NARROW, Ink
from buildsheet.packet.pdf import write_pdf
from buildsheet.reference import Region, region, region_names, table
from buildsheet.reference.tables import Cell
from buildsheet.units import METRE_PER_SECOND
from buildsheet.worksheet import Row, Value

RANGES, SETTINGS = "measure_ranges", "measure_settings"
GAP = "___"  # where a reading goes in a line of a project file


@dataclass(frozen=True, slots=True)
class MeasureSheet:
    """A measuring sheet. `what` and `kind` are the words of the command; `under` is the group of a project file that its
    grey lines belong to, empty when no file takes any of them yet; `plugged` says for what the plug goes in, empty for
    nothing."""

    what: str
    name: str
    purpose: str
    icon: str
    kind: str = ""
    under: str = ""
    plugged: str = ""

    @property
    def slug(self) -> str:
        return "-".join(part for part in (self.what, self.kind) if part) or "what-is-it"

    @property
    def command(self) -> str:
        return " ".join(part for part in ("measure", self.what, self.kind) if part)

    number, landscape = "", False  # what the edge asks of a sheet: outside the numbered set, upright


_TO_FILE = "Boxes are for the pen, grey lines for your file, under motor:"

SHEETS: tuple[MeasureSheet, ...] = (
    MeasureSheet("", "What is it?", "What kind of motor it is, and which sheet comes next.", "meter"),
    MeasureSheet("motor", "Motor, permanent magnet", _TO_FILE, "motor", "magnet-dc", "motor"),
    MeasureSheet("motor", "Motor, series or universal", _TO_FILE, "motor", "series", "motor"),
    MeasureSheet("motor", "Motor, shunt field", _TO_FILE, "motor", "shunt", "motor"),
    MeasureSheet("motor", "Motor, split-phase", _TO_FILE, "motor", "split-phase", "motor"),
    MeasureSheet("motor", "Motor, capacitor start", _TO_FILE, "motor", "capacitor-start", "motor"),
    MeasureSheet("motor", "Motor, capacitor always in", _TO_FILE, "motor", "permanent-split-capacitor", "motor"),
    MeasureSheet("motor", "Motor, shaded pole", _TO_FILE, "motor", "shaded-pole", "motor"),
    MeasureSheet("motor", "Motor, three-phase", _TO_FILE, "motor", "three-phase", "motor"),
    MeasureSheet("donor", "The old machine", "What to keep before it is scrapped, and how fast it ran.", "scissors", "", "motor"),
    MeasureSheet("board", "Drive board", "Read by ohms, before any power. Grey lines go under power:", "drive", "", "power"),
    MeasureSheet("console", "Console's pulses", "What a console tells its board. Grey lines go under power:", "pulses", "", "power", "in for one reading"),
    MeasureSheet("spare-wires", "Wires left over", "Which lead is a tap, which pair a tachometer, and its use.", "meter"),
    MeasureSheet("transformer", "Transformer", "Which winding is which, by ohms and a low voltage.", "transformer"),
    MeasureSheet("capacitor", "Capacitor", "Emptied, proved empty, then read.", "capacitor"),
    MeasureSheet("switch", "Switch", "What it joins in each position, and what it may break.", "switch", "", "on_hand"),
)  # fmt: skip
WHATS = tuple(dict.fromkeys(sheet.what for sheet in SHEETS if sheet.what))
KINDS = tuple(sheet.kind for sheet in SHEETS if sheet.kind)


def find(what: str = "", kind: str = "") -> MeasureSheet:
    """The sheet of these words; without any, the one that asks what a motor is.

    Raises BuildsheetError, on one line, with the nearest words.
    """
    for sheet in SHEETS:
        if (sheet.what, sheet.kind) == (what, kind):
            return sheet
    if what in KINDS:
        raise BuildsheetError(f'"{what}" is a kind of motor: write `buildsheet measure motor {what}`')
    if what not in WHATS:
        raise BuildsheetError(_unknown("sheet", what, WHATS))
    if what != "motor":
        raise BuildsheetError(f'the sheet "{what}" has no kinds: leave "{kind}" out')
    if not kind:
        raise BuildsheetError(f"say which kind of motor: {', '.join(KINDS)}; `buildsheet measure` helps to find out")
    raise BuildsheetError(_unknown("kind of motor", kind, KINDS))


def region_of(name: str) -> Region:
    """The region of this name. Raises BuildsheetError, on one line, with the nearest words."""
    if name not in region_names():
        raise BuildsheetError(_unknown("region", name, region_names()))
    return region(name)


def _unknown(what: str, word: str, words: Iterable[str]) -> str:
    close = near(word, words, most=2)
    meant = f"; did you mean {' or '.join(close)}?" if close else ""
    return f'no {what} "{word}"; there are {", ".join(words)}{meant}'


def html(sheet: MeasureSheet, of: Region) -> str:
    """A measuring sheet as one self-contained HTML document."""
    ink, paper = Ink(of.inches), PAPERS[of.paper]
    written = Ink()  # a setting prints in the unit that its table gives, in every region
    engine = environment(written)
    engine.globals |= {
        "at": lambda name: _printed(written, table(SETTINGS).cell(name, "value")),
        "plausible": lambda *asked: plausible(ink, asked),
        "line": line,
        "hint": hint,
        "circuit": bench_circuit.drawing,
    }
    page = engine.get_template(f"measure/{sheet.slug}.html.j2").render(
        language="en",
        title=f"{sheet.name}, measuring sheet",
        style=Markup((templates() / "paper.css").read_text(encoding="utf-8")),  # noqa: S704  our own style sheet
        page_rules=edge.page_rules((sheet,), paper, of.inches),
        taller=edge.live_area(paper)[1] - min(edge.live_area(one)[1] for one in PAPERS.values()),
        sheet=sheet,
        words=of.words,
        inches=of.inches,
    )
    return unsplit(page)


def _printed(ink: Ink, cell: Cell) -> str:
    value = Value(cell.si, id=f"{cell.table.id}.{cell.row}", unit=cell.unit, parent=Row(cell))
    return str(ink.print(value, 2))


def plausible(ink: Ink, asked: Sequence[str | tuple[str, str]]) -> Markup:
    """Ranges of readings that are to be expected, each a row or (words, row), with their sources behind the last that has
    them: `12 – 180 V, 1 – 20 A (common practice)`."""
    rows = [(words, name) for words, name in (("", one) if isinstance(one, str) else one for one in asked)]
    sources = [table(RANGES).rows[name]["source"] for _, name in rows]
    said = Markup("")
    for i, (words, name) in enumerate(rows):
        last = i == len(rows) - 1
        said += Markup('{}<b class="nb">{}</b>').format(f"{words} " if words else "", _range(ink, name))
        if last or sources[i] != sources[i + 1]:
            said += Markup(' <span class="ms-of">({})</span>').format(sources[i])
        said += "" if last else ", "
    return said


def _range(ink: Ink, name: str) -> str:
    ranges = table(RANGES)
    if ranges.rows[name]["kind"] == METRE_PER_SECOND.kind:
        ink = Ink()  # a display shows no feet a minute
    low, high = (_printed(ink, ranges.cell(name, column)) if ranges.rows[name][column] != "-" else "" for column in ("low", "high"))
    if not (low and high):
        return f"at least {low}" if low else f"at most {high}"
    number, _, unit = low.rpartition(NARROW)
    return f"{number} – {high}" if number and high.endswith(NARROW + unit) else f"{low} – {high}"


def line(text: str) -> Markup:
    """A line of a project file with a ruled gap for each reading."""
    return Markup('<i class="ms-gap"></i>').join(escape(piece) for piece in text.split(GAP))


def hint(words: str, more: str) -> Markup:
    """A thing and, small behind it, what to know of it."""
    return Markup('<b>{}</b> <span class="ms-hint">{}</span>').format(words, more)


def write(sheet: MeasureSheet, of: Region, folder: Path) -> tuple[Path, ...]:
    """Writes the sheet as HTML and PDF into `folder`, whole or not at all; the PDF is the last path."""
    page = html(sheet, of)
    printed = write_pdf(page, title=f"{sheet.name}, measuring sheet", author="buildsheet", subject=sheet.purpose)
    return put(folder, {f"{sheet.slug}.html": page.encode(), f"{sheet.slug}.pdf": printed})

