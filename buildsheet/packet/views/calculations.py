"""The calculations sheet: every line and model of the worksheet as a block, its inputs with their sources."""

from dataclasses import dataclass, replace
from math import ceil

from markupsafe import Markup, escape

from buildsheet.packet.chart import Axis, Series, line_chart, ticks
from buildsheet.packet.ink import Ink, Printed, capital, plain_tokens, step_result, symbol, tokens
from buildsheet.packet.origin import calculation_ids, origin_word, table_ids_used
from buildsheet.plan import Plan
from buildsheet.reference import table
from buildsheet.sizing.waist import Point
from buildsheet.units import SHARE
from buildsheet.worksheet import Line, Model, Row, Value, Worksheet
from buildsheet.worksheet.equation import Tokens, worked

MOST_USERS = 4
MOST_LETTERS = 44
LONG = 12  # rows, from which a block may be split over pages
MARGINS = ("margin", "room")  # formulas of which there is one line for each rating of each part


@dataclass(frozen=True, slots=True)
class GivenRow:
    """An input of a calculation: symbol, meaning, number point under point, source in plain words."""

    symbol: Markup
    meaning: str
    number: Printed | Markup
    source: Markup


@dataclass(frozen=True, slots=True)
class Block:
    """One calculation. `sides` are the equation between its equals signs, several rows for a formula with intermediates."""

    id: str
    name: str
    result: Printed
    used_by: str
    equations: tuple[tuple[Markup, ...], ...]
    inputs: tuple[GivenRow, ...]
    remark: str
    figure: Markup | None = None
    long: bool = False


def blocks(plan: Plan, ink: Ink) -> tuple[Block, ...]:
    """Every calculation in order. What one solution gave stands in one block, and so do the margins of the parts."""
    sheet = plan.design.sheet
    ids, tables = calculation_ids(sheet), table_ids_used(sheet)
    users = _users(sheet, ids)
    points = {point.rms.id: point for point in plan.design.points if point.wave is not None}
    solved = _together(sheet)
    made: list[Block] = []
    margins: list[Value] = []
    cut: list[Value] = []
    for value in sheet.values.values():
        if value.id not in ids:
            continue
        match value.parent:
            case Line(formula=formula) if formula.name in MARGINS:
                margins.append(value)
            case Line():
                block = _line_block(value, ids, tables, users, ink)
                made.append(replace(block, remark=f"{_load_words(plan, value)}{block.remark}"))
            case Model() if value.id.startswith("cut."):
                cut.append(value)
            case Model():
                group = solved[id(value.parent.arguments)]
                if group[0] is value:
                    made.append(_model_block(group, ids, tables, users, ink, points.get(value.id)))
    return (*made, *_margin_block(margins, ids, ink), *_cut_block(plan, cut, ids, ink))


def _load_words(plan: Plan, value: Value) -> str:
    """The law of the load, beside the calculations that carry its torque to the motor."""
    load = plan.design.load
    if load is None or value.id not in (load.motor_torque_low.id, load.motor_torque_high.id, load.tool_torque_low.id):
        return ""
    return f"Load of {load.law.name}: its torque {load.law.torque}. "


def _together(sheet: Worksheet) -> dict[int, list[Value]]:
    """Values that one solution gave, by the identity of its arguments."""
    found: dict[int, list[Value]] = {}
    for value in sheet.values.values():
        if isinstance(value.parent, Model) and value.known:
            found.setdefault(id(value.parent.arguments), []).append(value)
    return found


def _users(sheet: Worksheet, ids: dict[str, str]) -> dict[str, str]:
    found: dict[str, list[str]] = {}
    for value in sheet.values.values():
        if value.id not in ids and not (isinstance(value.parent, Row) and value.parent.bound is not None):
            continue
        if isinstance(value.parent, Line | Model):
            for argument in value.parent.arguments.values():
                if ids[value.id] not in found.setdefault(argument.id, []):
                    found[argument.id].append(ids[value.id])
        elif isinstance(value.parent, Row) and value.parent.bound is not None:
            found.setdefault(value.parent.bound.id, []).append(value.label)
    return {key: _few(names) for key, names in found.items()}


def _few(names: list[str]) -> str:
    """The first of them: the label column is narrow, and a block is short."""
    shown: list[str] = []
    for name in names:
        if len(shown) == MOST_USERS or (shown and len(", ".join([*shown, name])) > MOST_LETTERS):
            break
        shown.append(name)
    more = len(names) - len(shown)
    return ", ".join(shown) + (f" and {more} more" if more > 0 else "")


def _line_block(
    value: Value, ids: dict[str, str], tables: dict[str, str], users: dict[str, str], ink: Ink
) -> Block:
    line = value.parent
    assert isinstance(line, Line)  # noqa: S101  chosen by the caller
    equations = []
    conditions = []
    for step in worked(line.formula, line.arguments, value.symbol):
        if step.unit is None:
            conditions.append(f"{_plain(step.letters)}: {'yes' if step.value else 'no'}")
            continue
        result = step_result(step)
        shown = Markup("<b>{}</b> {}").format(result, step.unit.symbol)
        printed = ink.print(value)
        last = step.symbol == value.symbol
        if last and printed.unit != step.unit.symbol:
            shown += Markup(' <span class="grey">({})</span>').format(str(printed))
        equations.append((symbol(step.symbol), tokens(step.letters), tokens(step.numbers), shown))
    rows = tuple(_given(name, argument, ids, tables, ink, plain=True) for name, argument in line.arguments.items())
    remark = f"Leaves out {line.formula.leaves_out}. " if line.formula.leaves_out else ""
    remark += " ".join(f"Condition {text}." for text in conditions) + f"Equation: {line.formula.source}."
    return Block(
        ids[value.id],
        capital(value.label),
        ink.print(value),
        users.get(value.id, ""),
        tuple(equations),
        rows,
        remark,
    )


def _plain(row: Tokens) -> str:

    return plain_tokens(row)


def _model_block(
    group: list[Value],
    ids: dict[str, str],
    tables: dict[str, str],
    users: dict[str, str],
    ink: Ink,
    point: Point | None,
) -> Block:
    """One solution: what went in, then everything that came out."""
    first = group[0]
    model = first.parent
    assert isinstance(model, Model)  # noqa: S101  chosen by the caller
    given = tuple(_given(name, argument, ids, tables, ink) for name, argument in model.arguments.items())
    came_out = tuple(
        GivenRow(
            symbol(value.symbol),
            value.label,
            ink.print(value),
            Markup("model <b>{}</b>").format(ids[value.id]),
        )
        for value in group[1:]
    )
    used = ", ".join(
        dict.fromkeys(name for value in group for name in users.get(value.id, "").split(", ") if name)
    )
    remark = f"Model: {model.name}; solved for {model.solved}. {model.source}."
    if model.textbook is not None and model.textbook.known:
        remark += f" By the textbook ({ids.get(model.textbook.id, '')}): {ink.text(model.textbook)}; {model.differs}."
    number = ids[first.id] if len(group) == 1 else f"{ids[first.id]}–{ids[group[-1].id].removeprefix('C')}"
    figure = wave_chart(point) if point is not None else None
    return Block(
        number, capital(first.label), ink.print(first), used, (), (*given, *came_out), remark, figure
    )


def _margin_block(margins: list[Value], ids: dict[str, str], ink: Ink) -> tuple[Block, ...]:
    """What each part on hand has to spare: one equation, many rows."""
    if not margins:
        return ()
    rows = []
    for value in margins:
        line = value.parent
        assert isinstance(line, Line)  # noqa: S101  chosen by the caller
        a, b = (ink.print(argument) for argument in line.arguments.values())
        sum_ = (
            f"{a.number} / {b.number} − 1"
            if line.formula.name == MARGINS[0]
            else f"1 − {a.number} / {b.number}"
        )
        rows.append(
            GivenRow(
                escape(ids[value.id]),
                f"{value.id.split('.')[0].replace('-', ' ')}: {value.label}",
                ink.print(value),
                escape(f"= {sum_}, {b.unit}"),
            )
        )
    first, last = margins[0], margins[-1]
    number = f"{ids[first.id]}–{ids[last.id].removeprefix('C')}"
    remark = "Rating over need, less one; for a most, one less need over limit. Equation: excess over the need, as a share of it."
    return (
        Block(
            number,
            "What the parts on hand have to spare",
            Printed("", "", ""),
            "sheet 4",
            (),
            tuple(rows),
            remark,
            long=len(rows) > LONG,
        ),
    )


def _cut_block(plan: Plan, cut: list[Value], ids: dict[str, str], ink: Ink) -> tuple[Block, ...]:
    """Wire to buy: every sum in one block."""
    if not cut:
        return ()
    pieces = {
        one.total.id: " + ".join(f"{count} · {ink.print(piece)}" for count, piece in one.pieces)
        for one in plan.cuts
    }
    rows = tuple(
        GivenRow(escape(ids[value.id]), value.label, ink.print(value), escape(f"= {pieces[value.id]}"))
        for value in cut
    )
    number = f"{ids[cut[0].id]}–{ids[cut[-1].id].removeprefix('C')}"
    return (
        Block(
            number,
            "Wire to buy",
            Printed("", "", ""),
            "sheets 4, 6",
            (),
            rows,
            "Pieces times length, added up; cables left out.",
            long=len(rows) > LONG,
        ),
    )


def _given(name: str, value: Value, ids: dict[str, str], tables: dict[str, str], ink: Ink, *, plain: bool = False) -> GivenRow:
    """An input. `plain`: as the equation takes it, where 80 % is a factor of 0.8."""
    bold, rest = origin_word(value, ids, tables)
    strong = bold in ("your file", "assumed", "not known")
    source = Markup("<b>{}</b>{}").format(bold, rest) if strong else Markup("{}{}").format(bold, rest)
    number = ink.factor(value) if plain and value.unit is SHARE else ink.print(value)
    return GivenRow(symbol(name), value.label, number, source)


def wave_chart(point: Point) -> Markup:
    """Line volts, motor volts and current over one period, drawn from the solution."""
    wave = point.wave
    if wave is None:
        raise ValueError("no solution to draw")
    samples = wave.samples(180)
    degrees = [angle * 57.29577951308232 for angle in samples.angle]
    volts = max(abs(v) for v in samples.source_voltage)
    amperes = max(samples.current)
    both = min(samples.current) < -1e-6 * amperes  # alternating current in the motor itself, drawn with its sign
    line = [(d, v if both else abs(v)) for d, v in zip(degrees, samples.source_voltage, strict=True)]
    motor = [(d, v if both else max(v, 0.0)) for d, v in zip(degrees, samples.terminal_voltage, strict=True)]
    current = list(zip(degrees, samples.current, strict=True))
    top_v, top_a = _round_up(volts), _round_up(amperes)
    low_v, low_a = (-top_v, -top_a) if both else (0.0, 0.0)
    return line_chart(
        f"Supply voltage, motor voltage and armature current over one period, {point.label}",
        [
            Series("motor V", motor, "line" if both else "area"),
            Series("supply V", line, "dashed"),
            Series("current", current, "heavy", right=True),
        ],
        Axis(0, 360, [0, 90, 180, 270, 360], suffix="°"),
        Axis(low_v, top_v, ticks(low_v, top_v, 4), "V"),
        Axis(low_a, top_a, ticks(low_a, top_a, 4), "A"),
        height=28,
    )


def _round_up(value: float) -> float:
    """End of an axis that holds a value: a whole number of its round steps."""
    step = ticks(0, value, 4)[1]
    return ceil(value / step) * step


def sources(plan: Plan) -> list[tuple[str, str]]:
    """The tables used, by their numbers, with their citations."""
    return [
        (number, f"{table(name).title}: {table(name).source}")
        for name, number in table_ids_used(plan.design.sheet).items()
    ]


__all__ = ["Block", "GivenRow", "blocks", "sources", "wave_chart"]
