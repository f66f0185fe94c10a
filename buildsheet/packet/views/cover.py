"""The cover: the power path from wall to tool with its values, the rating plate, the gravest hazards."""

from dataclasses import dataclass
from math import ceil

from buildsheet.packet.ink import NARROW, Ink
from buildsheet.plan import Plan
from buildsheet.sizing.finding import Finding
from buildsheet.ways.way import capital
from buildsheet.worksheet import Value

MOST_HAZARDS, COVER_LINES, PER_LINE = 3, 6, 32  # beside the line: so many, in so many lines of so many letters
READ_FIRST, LEAST_FIRST = 5, 3  # on sheet 2: so many, as long as they leave room for the rest of it
FIRST_LINES = {"letter": 41.0, "a4": 46.0}  # lines of text that the hazards may take there
HEAD, TEXT, SOURCE = 60, 88, 100  # letters of a line of a warning's head, its text, its source
EN_DASH = f"{NARROW}–{NARROW}"


@dataclass(frozen=True, slots=True)
class Stage:
    """One stage of the power path."""

    icon: str
    value: str
    what: str
    note: str


def stages(plan: Plan, ink: Ink) -> tuple[Stage, ...]:
    """Wall, protection, drive, motor, belts, tool: as far as the file says something of them."""
    project, design = plan.project, plan.design
    found: list[Stage] = []
    supply, sizes, power, motor = project.supply, design.sizes, project.power, project.motor
    if supply is not None:
        residual = {"none": "no residual-current protection", None: ""}.get(
            supply.residual_current, supply.residual_current or ""
        )
        note = ", ".join(part for part in (f"{ink.print(supply.breaker)} breaker", residual) if part)
        found.append(
            Stage("plug", f"{ink.print(supply.voltage)} {ink.print(supply.frequency)}", "Wall", note)
        )
    if project.battery is not None:
        capacity = project.battery.capacity
        note = str(ink.print(capacity)) if capacity.known else "capacity not known"
        found.append(Stage("battery", str(ink.print(project.battery.voltage)), "Battery", note))
    if sizes is not None:
        found.append(
            Stage(
                "fuse",
                str(ink.print(sizes.line_current)),
                "Fuse and no-volt release",
                "sizes withheld: there is a stop" if plan.stopped else f"fuse {ink.print(sizes.line_fuse)}{', time-lag' if design.supplied is None or design.supplied.alternating else ' DC'}",
            )
        )
    high, low = design.point("high"), design.point("low")
    if power is not None and power.links and high is not None and low is not None:
        live = {
            True: "not separated from the line",
            False: ("knob separated from the line" if power.control is not None and power.control.wired else "") if design.supplied is None or design.supplied.live else "at extra-low voltage",
            None: "separation not known",
        }[power.live_controls]
        volts = span(low.terminal, high.terminal, ink) if power.control is not None else str(ink.print(high.terminal))
        found.append(Stage(power.icon, volts, capital(power.noun), live))
    if motor is not None:
        plate = motor.plate
        most = design.hardest("current")
        if high is not None and design.load is not None:
            found.append(
                Stage(
                    "motor",
                    str(ink.print(high.current if most is None else most)),
                    motor.printed,
                    f"{ink.print(design.load.motor_high)} at the most",
                )
            )
        elif plate is not None:
            found.append(
                Stage(
                    "motor",
                    str(ink.print(plate.voltage)),
                    motor.printed,
                    f"{ink.print(plate.current)}, {ink.print(plate.speed)}",
                )
            )
    if design.load is not None and project.belts:
        pulleys = "; ".join(f"{ink.print(b.driver)} → {ink.print(b.driven)}" for b in project.belts)
        found.append(
            Stage(
                "belts",
                f"{ink.print(design.load.ratio)} : 1",
                "One belt" if len(project.belts) == 1 else f"{len(project.belts)} belts",
                pulleys,
            )
        )
    machine = project.machine
    if machine is not None and machine.speed is not None:
        note = (
            (span(design.load.tool_low, design.load.tool_high, ink) if machine.speed.low.unit is not design.load.tool_low.unit or power is None or power.control is not None else "one speed")
            if design.load
            else ""
        )
        found.append(Stage("tool", span(machine.speed.low, machine.speed.high, ink), "Tool", note))
    return tuple(found)


def span(low: Value, high: Value, ink: Ink) -> str:
    """A range: the unit stands once when both ends have the same."""
    a, b = ink.print(low), ink.print(high)
    if str(a) == str(b):
        return str(a)
    return f"{a.number}{EN_DASH}{b}" if a.unit == b.unit else f"{a}{EN_DASH}{b}"


def brackets(plan: Plan, count: int) -> tuple[tuple[str, int, int], ...]:
    """What stands beside the line: which stages are live, which turn."""
    motor = next((i for i, name in enumerate(_icons(plan)) if name == "motor"), None)
    if motor is None or count < 2:
        return ()
    live = (
        (("live at line voltage", 0, motor),)
        if plan.project.power and (plan.design.supplied is None or plan.design.supplied.live)
        else ()
    )
    turns = (("turning", motor + 1, count - 1),) if count - 1 > motor + 1 else ()
    return (*live, *turns)


def _icons(plan: Plan) -> list[str]:
    return [stage.icon for stage in stages(plan, Ink())]


def plate(plan: Plan, ink: Ink) -> list[tuple[str, str]]:
    """The rating plate to put on the machine."""
    project, design = plan.project, plan.design
    rows: list[tuple[str, str]] = []
    if project.supply is not None:
        rows.append(("Supply", f"{ink.print(project.supply.voltage)} {ink.print(project.supply.frequency)}"))
    if design.sizes is not None:
        rows += [
            ("Current", str(ink.print(design.sizes.line_current))),
            ("Fuse F1", f"{ink.print(design.sizes.line_fuse)} {'time-lag' if design.supplied is None or design.supplied.alternating else 'DC'}"),
        ]
        if design.sizes.motor_fuse is not None:
            rows.append(("Fuse F2", f"{ink.print(design.sizes.motor_fuse)}, ≥{NARROW}{ink.print(design.sizes.motor_fuse_volts)} DC"))
    machine = project.machine
    if machine is not None and machine.speed is not None:
        rows.append(("Tool", f"{ink.print(machine.speed.high)} at most"))
    if machine is not None and machine.duty is not None:
        rows.append(("Duty", f"{ink.print(machine.duty.on)} on, {ink.print(machine.duty.off)} off"))
    if machine is not None and machine.number:
        rows.append(("Packet", f"{machine.number} {revision(plan)}".strip()))
    return rows


def revision(plan: Plan) -> str:
    """Letter of the newest revision."""
    return plan.project.revisions[-1].rev if plan.project.revisions else ""


def date(plan: Plan) -> str:
    """Date of the newest revision; never today's."""
    return plan.project.revisions[-1].date if plan.project.revisions else ""


def hazards(plan: Plan) -> tuple[Finding, ...]:
    """The gravest hazards: findings that name a danger to people, DANGER first, stops before all."""
    dangers = [f for f in plan.findings if f.signal in ("DANGER", "WARNING", "CAUTION")]
    order = {"DANGER": 0, "WARNING": 1, "CAUTION": 2}
    return tuple(sorted(dangers, key=lambda f: (not f.stops, order[f.signal])))


def on_the_cover(plan: Plan) -> tuple[Finding, ...]:
    """The gravest hazards as far as they fit beside the line."""
    taken: list[Finding] = []
    lines = 0
    for finding in hazards(plan)[:MOST_HAZARDS]:
        lines += -(-len(finding.found.text) // PER_LINE)
        if taken and lines > COVER_LINES:
            break
        taken.append(finding)
    return tuple(taken)


def read_first(plan: Plan) -> tuple[Finding, ...]:
    """What sheet 2 tells: at most five, fewer where they are long, so that the sheet stays one page."""
    taken: list[Finding] = []
    lines = 0.0
    for finding in hazards(plan)[:READ_FIRST]:
        lines += _lines(finding)
        if len(taken) >= LEAST_FIRST and lines > FIRST_LINES[plan.design.region.paper]:
            break
        taken.append(finding)
    return tuple(taken)


def _lines(finding: Finding) -> float:
    """About how many lines of text a warning takes: its head is larger, its source smaller, and DANGER has thick bars."""
    head, text = ceil(len(finding.found.text) / HEAD), ceil((len(finding.why) + len(finding.do) + 1) / TEXT)
    source = ceil(len(str(finding.citation)) / SOURCE)
    return 1.35 * head + text + 0.9 * source + (5.0 if finding.signal == "DANGER" else 1.6)


def others(plan: Plan) -> tuple[Finding, ...]:
    """Notes that stand nowhere else: not among the gravest, not before a step, not on the sheet of faults."""
    first = read_first(plan)
    return tuple(
        f for f in plan.findings if f.grade == "note" and f not in first and not f.step and not f.id.startswith(("fault-", "used-"))
    )


def states(plan: Plan) -> list[tuple[str, str, str]]:
    """The four states with a remark each."""
    stops = sum(f.stops for f in plan.findings)
    heeds = sum(f.grade == "heed" and not f.accepted for f in plan.findings)
    draft = f"{stops} stop{'s' if stops != 1 else ''}" if stops else "not to be built"
    return [
        ("draft", "draft", draft),
        ("for-building", "for building", f"no stop, {heeds} to heed"),
        ("as-built", "as built", "readings filled in"),
        ("do-not-use", "do not use", "a reading was wrong"),
    ]
