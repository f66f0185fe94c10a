"""What `check` prints: state, findings, sizes, what is assumed and what to find out next; and the same as JSON."""

from collections.abc import Iterator
from textwrap import wrap
from typing import Any

from buildsheet.circuit.proofs import protected_by
from buildsheet.design.design import WireSize
from buildsheet.packet.ink import Ink
from buildsheet.packet.origin import calculation_ids
from buildsheet.plan import Plan
from buildsheet.plan.cuts import run_lengths
from buildsheet.reference import Table
from buildsheet.sizing.finding import Finding
from buildsheet.sizing.places import Need, Seat
from buildsheet.worksheet import Absent, Input, Line, Model, Row, Value
from buildsheet.worksheet.value import roots

WIDTH = 100
LINES = 40
WITHHELD = "withheld: there is a stop"
MOST_ASSUMED, MOST_QUESTIONS = 3, 8
FORMAT = 1
CONSTANTS = ("motor.K_e", "motor.K_e_run", "motor.K_e_plate")  # by spinning, by running free, by the plate


def ink_of(plan: Plan) -> Ink:
    """The ink of a plan: inches by the file, else by the region."""
    site = plan.project.site
    measures = site.measures if site else None
    return Ink(plan.design.region.inches if measures is None else measures == "inch")


def check_text(plan: Plan, *, everything: bool) -> str:
    """At most 40 lines of 100 columns, or all of it."""
    ink = ink_of(plan)
    head = [_state_line(plan)]
    findings = [list(_finding_lines(finding, ink, full=everything)) for finding in plan.findings]
    sizes = list(_size_lines(plan, ink))
    assumed = list(_assumed_lines(plan, ink))
    questions = list(_question_lines(plan))
    if everything:
        sizes = [*_alone_lines(plan, ink), *_asked_lines(plan, ink), *sizes]
        return "\n".join(
            [*head, *(line for block in findings for line in block), *sizes, *assumed, *questions]
        )
    sizes = [*_alone_lines(plan, ink), *_asked_lines(plan, ink), *sizes]
    tail = [*sizes, *_short(assumed, MOST_ASSUMED), *_short(questions, MOST_QUESTIONS)]
    room = LINES - len(head) - len(tail) - 1
    shown: list[str] = []
    left = 0
    for block in findings:
        if len(shown) + len(block) <= max(room, 6):
            shown += block
        else:
            left += 1
    more = [f"… and {left} more: --all shows them"] if left else []
    return "\n".join([*head, *shown, *more, *tail][:LINES])


def _short(lines: list[str], most: int) -> list[str]:
    """The first lines of a group, with how many more there are."""
    return (
        lines
        if len(lines) <= most
        else [*lines[: most - 1], f"  … {len(lines) - most + 1} more lines: --all shows them"]
    )


def _state_line(plan: Plan) -> str:
    machine = plan.project.machine
    name = f"{machine.name} {machine.number}".strip() if machine else "Motor alone"
    stops = sum(finding.stops for finding in plan.findings)
    heeds = sum(finding.grade == "heed" for finding in plan.findings)
    return _cut(
        f"{name}: {plan.state}. {_count(stops, 'stop')}, {heeds} to heed, {_count(len(plan.questions), 'thing')} to find out.",
        WIDTH,
    )


def _cut(text: str, width: int) -> str:
    """Text that fits a width: whole words, then a sign that something is missing."""
    if len(text) <= width:
        return text
    return text[: width - 1].rpartition(" ")[0].rstrip(" ,;:") + "…"


def _count(number: int, word: str) -> str:
    return f"{number or 'no'} {word}{'' if number == 1 else 's'}"


def _finding_lines(finding: Finding, ink: Ink, *, full: bool) -> Iterator[str]:
    where = finding.where
    place = f" (line {where.line})" if where else ""
    grade = "STOP" if finding.stops else finding.grade.upper()
    head = f"{grade:<5} {finding.signal:<8}"
    text = ink.plain(finding.found)
    yield from wrap(f"{head} {text}{place} [{finding.id}]", WIDTH, subsequent_indent=" " * 15)
    if full:
        yield from wrap(finding.why, WIDTH, initial_indent=" " * 15, subsequent_indent=" " * 15)
    if full or finding.stops or finding.grade == "heed":
        yield from wrap(f"→ {finding.do}", WIDTH, initial_indent=" " * 15, subsequent_indent=" " * 17)
    if full:
        yield f"{' ' * 15}{finding.citation}"


def _missing(value: Value) -> str:
    """What would have to be known first: the first two things that the file does not say."""
    labels = [root.label for root in roots(value) if not root.known]
    return " and ".join(dict.fromkeys(labels[:2])) or value.why


def _alone_lines(plan: Plan, ink: Ink) -> Iterator[str]:
    """What a motor without a way of powering would do."""
    alone = plan.design.alone
    if alone is None:
        return
    known = plan.design.sheet.values
    constant = next((known[one] for one in CONSTANTS if one in known and known[one].known), None)
    if constant is not None:
        yield f"the motor: {ink.text(constant)}, {ink.text(plan.design.sheet.values['motor.K_t'])}"
    of_itself = {speed.why for speed in (alone.on_battery, alone.on_drive, alone.on_bridge) if isinstance(speed.parent, Absent) and not speed.parent.missing}
    if len(of_itself) == 1 and not alone.on_battery.known:  # the motor has no such speed, whatever is written
        yield _cut(f"without load: {next(iter(of_itself))}", WIDTH)
        return
    whole = plan.design.motor is not None and plan.design.motor.separate_field is not None
    yield "without load it would turn at" + (", the whole of its field fed (never without it)" if whole else "")
    for words, volts, speed in (
        ("a battery", alone.battery, alone.on_battery),
        ("a drive", alone.drive, alone.on_drive),
        ("a bare bridge", alone.line, alone.on_bridge),
    ):
        what = ink.text(speed) if speed.known else f"not known without {_missing(speed)}"
        warn = (
            "  (far above a drive: the current stops between the peaks)"
            if words == "a bare bridge" and speed.known
            else ""
        )
        yield _cut(f"  {what:>9} on {words} of {ink.text(volts)}{warn}", WIDTH)


def _asked_lines(plan: Plan, ink: Ink) -> Iterator[str]:
    """The answer to what the file asks of the motor."""
    if not plan.design.asked:
        return
    volts, torque, current, speed = plan.design.asked
    known = speed.known and current.known
    does = f"{ink.text(speed)} and {ink.text(current)}" if known else f"not known without {_missing(speed)}"
    yield _cut(f"asked: at {ink.text(volts)} with {ink.text(torque)} on its shaft the motor does {does}", WIDTH)


def _size_lines(plan: Plan, ink: Ink) -> Iterator[str]:
    rows = [row for seat in plan.design.seats if (row := _size_row(seat, plan, ink))]
    sizes = plan.design.sizes
    if sizes is not None:
        ids = calculation_ids(plan.design.sheet)
        rows += [
            (
                f"{size.role} wire",
                f"≥ {ink.text(size.protection)}" if size.protection.known else "not known",
                _wire_taken(size, plan, ink),
                "",
                _calculation(size.ampacity, ids),
            )
            for size in ((sizes.cord,) if sizes.cord is not None else ()) + sizes.wires
        ]
    if rows:
        yield f"{'size':<26}{'needs':<20}{'take':<34}{'to spare':<12}calc"
        for name, need, take, spare, calculation in rows:
            yield f"{_cut(name, 25):<26}{_cut(need, 19):<20}{_cut(take, 33):<34}{spare:<12}{calculation}".rstrip()


def _wire_taken(size: WireSize, plan: Plan, ink: Ink) -> str:
    if not size.ampacity.known:
        return "not known"
    return WITHHELD if plan.stopped else f"{size.gauge}, carries {ink.text(size.ampacity)}"


def _size_row(seat: Seat, plan: Plan, ink: Ink) -> tuple[str, str, str, str, str] | None:
    leading = next((need for need in seat.place.needs if isinstance(need.value, Value)), None)
    if leading is None or not isinstance(leading.value, Value):
        return None
    ids = calculation_ids(plan.design.sheet)
    op = "" if leading.op == "=" else f"{leading.op} "
    take = (
        f"yours ({seat.verdict})"
        if seat.usable
        else f"buy {ink.text(_bought(seat, leading))}"
    )
    if not seat.usable and not leading.value.known:
        take = "not known"
    elif plan.stopped and not seat.usable:
        take = WITHHELD
    elif seat.part is not None and not seat.usable:
        take += f"; yours {seat.verdict}"
    spare = next(
        (
            ink.text(one.margin)
            for one in seat.judged
            if one.need is leading and one.margin is not None and one.margin.known
        ),
        "",
    )
    return (
        f"{seat.place.code} {seat.place.label}",
        f"{op}{ink.text(leading.value)}" if leading.value.known else "not known",
        take,
        spare,
        ids.get(leading.value.id, ""),
    )


def _calculation(value: Value, ids: dict[str, str]) -> str:
    """The calculation of a value, or of what chose its table row."""
    if isinstance(value.parent, Row) and value.parent.bound is not None:
        return _calculation(value.parent.bound, ids)
    return ids.get(value.id, "")


def _bought(seat: Seat, leading: Need) -> Value:
    """The standard size that the counter is asked for: the first value of the buying words, else the need itself."""
    assert isinstance(leading.value, Value)  # noqa: S101  chosen by the caller
    return next(
        (word for word in seat.place.say if isinstance(word, Value) and word.unit is leading.value.unit),
        leading.value,
    )


def _assumed_lines(plan: Plan, ink: Ink) -> Iterator[str]:
    assumed = assumed_values(plan)
    if assumed:
        text = "; ".join(f"{value.label} {ink.text(value)}" for value in assumed)
        yield from wrap(f"assumed: {text}", WIDTH, subsequent_indent="  ")


def assumed_values(plan: Plan) -> tuple[Value, ...]:
    """Every value that was assumed because nobody measured it."""
    values = plan.design.sheet.values.values()
    return tuple(
        value for value in values if isinstance(value.parent, Row) and value.parent.cell.table.id == "assumed"
    )


def _question_lines(plan: Plan) -> Iterator[str]:
    if plan.questions:
        yield "to find out next:"
    for question in plan.questions:
        yield _cut(f"  {question.key}: {question.why}", WIDTH)
        yield _cut(f"    {question.paste.strip()}", WIDTH)


def check_json(plan: Plan, file: str) -> dict[str, Any]:
    """The program's public face, documented in the README. With a stop the lengths to cut are left out with the wires;
    calculations and needs stay, for they say why it stops."""
    ink = ink_of(plan)
    cut = {length.id for length in run_lengths(plan.design).values() if isinstance(length.parent, Line)}
    withheld = cut if plan.stopped else set()
    return {
        "format": FORMAT,
        "state": plan.state,
        "findings": [_finding_json(finding, ink, file) for finding in plan.findings],
        "results": [
            _result_json(value, ink) for value in plan.design.sheet.values.values() if value.id not in withheld
        ],
        "places": [_place_json(seat, ink, withheld=plan.stopped) for seat in plan.design.seats],
        "wires": _wires_json(plan),
    }


def _finding_json(finding: Finding, ink: Ink, file: str) -> dict[str, Any]:
    where = finding.where
    found = ink.plain(finding.found)
    place = {"file": file, "line": where.line, "column": where.column} if where else None
    return {
        "id": finding.id, "grade": finding.grade, "signal": finding.signal, "where": place, "found": found, "why": finding.why,
        "do": finding.do, "source": str(finding.citation), "accepted": finding.accepted or None, "follows": list(finding.follows),
    }  # fmt: skip


def _result_json(value: Value, ink: Ink) -> dict[str, Any]:
    made: dict[str, Any] = {
        "id": value.id, "label": value.label, "symbol": value.symbol, "value": float(value) if value.known else None,
        "unit": value.unit.symbol, "shown": ink.text(value), "parent": _parent_json(value), "source": source_of(value),
    }  # fmt: skip
    return made if value.known else {**made, "why": value.why}


def _parent_json(value: Value) -> dict[str, Any]:
    match value.parent:
        case Input(line=line, column=column, text=text):
            return {"input": {"line": line, "column": column, "text": text}}
        case Row(cell=cell):
            return {"table": cell.table.id, "row": cell.row, "column": cell.column}
        case Line(formula=formula, arguments=arguments):
            return {"formula": formula.name, "inputs": [argument.id for argument in arguments.values()]}
        case Model(name=name, arguments=arguments):
            return {"formula": f"model: {name}", "inputs": [argument.id for argument in arguments.values()]}
        case Absent(why=why):
            return {"absent": why}


def source_of(value: Value) -> str:
    """The citation of a value's parent, or what it is instead."""
    match value.parent:
        case Input():
            return "your file"
        case Row(cell=cell):
            table: Table = cell.table
            clause = cell.note("clause") if "clause" in table.columns else ""
            return clause or str(table.source)
        case Line(formula=formula):
            return str(formula.source)
        case Model(source=source):
            return str(source)
        case _:
            return ""


def _place_json(seat: Seat, ink: Ink, *, withheld: bool) -> dict[str, Any]:
    needs = []
    for one in seat.judged:
        needed = one.need.value
        is_value = isinstance(needed, Value)
        value = (float(needed) if needed.known else None) if isinstance(needed, Value) else needed
        unit = needed.unit.symbol if is_value and isinstance(needed, Value) else ""
        needs.append(
            {"rating": one.need.rating, "op": one.need.op, "value": value, "unit": unit, "result": one.result}
        )
    least = seat.least
    part = (
        None
        if seat.part is None
        else {"kind": seat.part.kind, "id": seat.part.id or None, "origin": seat.part.origin}
    )
    buy = None if withheld or seat.usable else say(seat, ink)
    return {
        "id": seat.place.id, "kind": seat.place.kind, "code": seat.place.code, "needs": needs, "part": part, "verdict": seat.verdict,
        "margin": float(least) if least is not None else None, "buy": buy, "cost": (seat.part.price if seat.part is not None else "") or None,
    }  # fmt: skip


def say(seat: Seat, ink: Ink) -> str:
    """How to ask for a part at the counter."""
    return "".join(ink.text(word) if isinstance(word, Value) else str(word) for word in seat.place.say)


def _wires_json(plan: Plan) -> list[dict[str, Any]]:
    if plan.circuit is None or plan.stopped:
        return []
    guards = protected_by(plan.circuit)
    return [
        {
            "number": wire.number, "from": str(wire.a), "to": str(wire.b), "size": wire.size, "colour": wire.colour, "length": wire.length,
            "role": wire.role, "protected_by": guards.get(wire.number, ("", 0.0))[0] or None,
        }
        for wire in plan.circuit.wires
    ]  # fmt: skip


__all__ = ["assumed_values", "check_json", "check_text", "ink_of", "say", "source_of"]
