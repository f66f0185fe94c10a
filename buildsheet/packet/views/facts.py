"""Facts of the sheets that are lists of a name and a value: settings, speeds, belts, heat, what is from memory."""

from collections.abc import Iterable
from dataclasses import dataclass

from markupsafe import Markup

from buildsheet.packet import marks
from buildsheet.packet.chart import ticks
from buildsheet.packet.ink import Ink
from buildsheet.packet.origin import calculation_ids
from buildsheet.packet.views import field
from buildsheet.packet.views.calculations import wave_chart
from buildsheet.plan import Plan
from buildsheet.reference import table
from buildsheet.sizing.spelt import row_of
from buildsheet.sizing.waist import Steered
from buildsheet.worksheet import Line, Model, Row, Value

Fact = tuple[str, object]


def limit(name: str, ink: Ink, table_id: str = "bench_limits") -> str:
    """A limit out of a table, in print."""
    cell = table(table_id).cell(name, "value")
    return str(ink.print(Value(cell.si, id=f"{table_id}.{name}", unit=cell.unit, parent=Row(cell))))


def joined(words: Iterable[object], ink: Ink) -> str:
    """Words around Values as print."""
    return "".join(str(ink.print(word)) if isinstance(word, Value) else str(word) for word in words)


def assumed_rows(values: tuple[Value, ...], ink: Ink) -> list[list[object]]:
    """What is assumed: value, why, and how to measure it."""
    cells = [(value, value.parent.cell) for value in values if isinstance(value.parent, Row)]
    return [
        [value.label, str(ink.print(value)), cell.note("why"), cell.note("measure")] for value, cell in cells
    ]


def decided(plan: Plan, ink: Ink) -> list[Fact]:
    """What was decided, with its reason; nothing while a stop withholds the sizes."""
    sizes, supplied = plan.design.sizes, plan.design.supplied
    if sizes is None or plan.stopped:
        return []
    kind = "time-lag" if supplied is None or supplied.alternating else "marked for DC"
    found: list[Fact] = [
        (f"{plan.circuit.devices['F1'].name if plan.circuit else 'Line fuse'} F1", f"{ink.print(sizes.line_fuse)}, {kind}; carries the supply's current all day"),
    ]
    if sizes.motor_fuse is not None:
        found.append(("Motor fuse F2", f"{ink.print(sizes.motor_fuse)}, marked for {ink.print(sizes.motor_fuse_volts)} DC or more; carries the armature current as heat feels it"))
    if sizes.bleeder is not None:
        found.append(("Bleed resistor R2", f"{row_of(sizes.bleeder.resistor)}, {ink.print(sizes.bleeder.power)} or more; empties the motor's capacitor"))
    if sizes.cord is not None:
        found.append(("Cord", f"{sizes.cord.gauge or 'not known'}, carries what the wall breaker lets through"))
    return [
        *found,
        *field.decided(plan, ink),
        *_soft_start(plan, ink),
        ("Power wires", f"{sizes.wire('line').gauge or 'not known'}, in the box and to the motor"),
        *((name, joined(words, ink)) for name, words in sizes.outfit.facts),
        ("Speed", _speed(plan) + ("; the belt ratio puts the motor near its best speed at the top" if plan.project.belts else "")),
    ]  # fmt: skip


def _soft_start(plan: Plan, ink: Ink) -> list[Fact]:
    soft = plan.design.sizes.soft_start if plan.design.sizes is not None else None
    if soft is None:
        return []
    return [("Soft start", f"R5, {row_of(soft.resistor)}, keeps the first current to {ink.print(soft.first)} instead of {ink.print(soft.bare)}, until K4 and K5 bridge it after {ink.print(soft.waits)}")]


def _speed(plan: Plan) -> str:
    """What sets the speed."""
    power = plan.project.power
    control = power.control if power is not None else None
    if power is None or control is None:
        return "one, which nothing sets while it runs"
    return f"by the {control.name} on the {power.noun}"


def fuse_strips(plan: Plan, ink: Ink) -> list[tuple[str, Markup]]:
    """Each fuse between its need and what the weakest wire behind it carries, as a size strip."""
    sizes = plan.design.sizes
    if sizes is None or plan.stopped:
        return []
    found = []
    for code, need, fuse in (("F1", sizes.line_fuse_need, sizes.line_fuse), ("F2", sizes.motor_fuse_need, sizes.motor_fuse)):
        if need is None or fuse is None:
            continue
        behind = [wire for wire in sizes.wires if wire.protection.id == fuse.id and wire.ampacity.known]
        if not behind or not need.known or not fuse.known:
            continue
        weakest = min(behind, key=lambda wire: float(wire.ampacity))
        steps = ticks(0, 1.25 * max(float(weakest.ampacity), float(fuse)), 5)
        strip = marks.size_strip(
            (float(need), f"needs {ink.print(need)}"), (float(weakest.ampacity), f"{ink.print(weakest.ampacity)}: {weakest.role} wire"),
            (float(fuse), f"{ink.print(fuse)} chosen"), "A", [*steps, steps[-1] + steps[1]] if steps[-1] < float(weakest.ampacity) else steps,
        )  # fmt: skip
        found.append((code, strip))
    return found


def settings(plan: Plan, ink: Ink, *, by_hand: bool = False) -> list[Fact]:
    """What has to be set, and to what; `by_hand`: without what is built in once."""
    sizes = plan.design.sizes
    if sizes is None:
        return []
    motor = plan.design.motor
    found: list[Fact] = [(name, str(ink.print(value))) for name, value in (motor.to_set if motor is not None else ())]
    found += [(one.name, joined(one.to, ink)) for one in sizes.outfit.settings if one.turned or not by_hand]
    if sizes.wait is not None and "K1.t_need" in plan.design.sheet.values:
        found.append(("Standstill timer K1", f"{ink.print(plan.design.sheet.values['K1.t_need'])}, or a little more"))
    if sizes.precharge is not None:
        found.append(("Charging timer K2", f"{ink.print(sizes.precharge.need)}, or a little more"))
    if sizes.soft_start is not None:
        found.append(("Run-up timer K4", f"{ink.print(sizes.soft_start.waits)}, or a little more"))
    found += field.settings(plan, ink)
    dial = sizes.overload_dial
    if (
        plan.project.controls
        and plan.project.controls.overload
        and plan.project.controls.overload.by == "relay"
    ):
        found.append(("Overload relay F3, dial", f"{ink.print(dial)}, manual reset"))
    return found


def point_rows(plan: Plan, ink: Ink) -> list[list[object]]:
    """The two ends of the speed range, from tool to drive."""
    load, low, high = plan.design.load, plan.design.point("low"), plan.design.point("high")
    machine = plan.project.machine
    if load is None or low is None or high is None or machine is None or machine.speed is None:
        return []
    pairs: list[tuple[str, Value, Value]] = [("tool", machine.speed.low, machine.speed.high)]
    if machine.speed.low.unit is not load.tool_low.unit:
        pairs.append(("tool, turning", load.tool_low, load.tool_high))
    pairs += [("torque at the tool", load.tool_torque_low, load.tool_torque_high), ("motor", load.motor_low, load.motor_high)]
    if low.omega.id != load.motor_low.id:  # a motor that keeps a speed of its own
        pairs.append(("speed that it has at this load", low.omega, high.omega))
    pairs += [("torque at the motor", load.motor_torque_low, load.motor_torque_high), ("volts at the motor", low.terminal, high.terminal)]
    if low.form_factor is not None and high.form_factor is not None:
        pairs += [("armature current, average", low.current, high.current), ("the same as heat feels it", low.rms, high.rms), ("form factor", low.form_factor, high.form_factor)]
    else:
        pairs.append(("current of the motor, RMS", low.rms, high.rms))
    pairs.append(("supply current", low.line, high.line))
    if plan.project.power is not None and plan.project.power.control is not None:
        pairs.append((_named(low.setting), low.setting, high.setting))
    pairs += field.currents(plan)
    pairs += [(_named(a), a, b) for a, b in zip(low.more, high.more, strict=True)]
    worked = (load.tool_torque_low.id, load.tool_torque_high.id)  # one of them as it was written, the other worked: in one unit
    shown: list[list[object]] = [[name, *(str(ink.measured(v) if v.id in worked else ink.print(v)) for v in (a, b)), ""] for name, a, b in pairs]
    if plan.project.power is not None and plan.project.power.control is None:
        return [[name, b, ""] for name, _, b, _ in shown]
    return shown


def load_words(plan: Plan) -> str:
    """The law of the load, and where it comes from; empty without one."""
    machine, load = plan.project.machine, plan.design.load
    if machine is None or load is None:
        return ""
    law = load.law
    kind = "no kind of machine is in the file" if machine.kind is None else f"kind {machine.kind}"
    because = "your file says so" if machine.load else f"{kind}: {law.because}; write machine: load if yours is another"
    return f"{law.name}: its torque {law.torque}, its power {law.power} ({because})."


def _named(value: Value) -> str:
    """What a figure of a point is called, without the point."""
    return value.label.rpartition(", ")[0] or value.label


def belt_facts(plan: Plan, ink: Ink) -> list[Fact]:
    """Each belt's numbers."""
    load = plan.design.load
    if load is None:
        return []
    found: list[Fact] = []
    for number, belt in enumerate(plan.project.belts):
        kind = f"{belt.belt} belt" if belt.belt else "belt"
        text = (f"{ink.print(belt.driver)} → {ink.print(belt.driven)}, {kind}, {ink.print(load.belt_lengths[number])} long, wrap {ink.print(load.wraps[number])}, "
                f"runs at {ink.print(load.belt_speeds[number])}, pulls {ink.print(load.pulls[number])}")  # fmt: skip
        found.append((f"Belt {number + 1}", text))
    return found


def battery_facts(plan: Plan, ink: Ink) -> list[Fact]:
    """How long the battery lasts, where it is empty, what it gives into a short, how the drive's capacitor is filled."""
    design, power = plan.design, plan.project.power
    stored, supplied, sizes = design.stored, design.supplied, design.sizes
    if stored is None or supplied is None or sizes is None or power is None:
        return []
    found: list[Fact] = [
        ("Runs for", f"{ink.print(stored.planned)} of run and rest, drawing {ink.print(stored.mean)} on average; it would be empty after {ink.print(stored.runtime)}"),
        ("Under the hardest load", f"{ink.print(stored.loaded)} at the posts"),
        ("Empty at", f"{ink.print(supplied.lowest)}; {'the drive stops' if power.links else 'your guard, which is not drawn here, takes it off'} at {ink.print(power.stops_at)}" if power.stops_at.known else f"{ink.print(supplied.lowest)}; nothing stops it there: watch a voltmeter"),
        ("Into a short", f"{ink.print(supplied.fault)}: what both fuses at the battery must break"),
    ]  # fmt: skip
    charge = sizes.precharge
    if charge is not None:
        found.append(("Charging the drive", f"hold start until the contactor pulls in, {ink.print(charge.time)} at the most on its timer: {ink.print(charge.resistor)} fill the capacitor in {ink.print(charge.need)}"))  # fmt: skip
    if sizes.charger_fuse is not None:
        found.append(("Charger", f"behind its own {ink.print(sizes.charger_fuse)} fuse; the machine does not start while its plug is in"))
    return found


def reversing_facts(plan: Plan, ink: Ink) -> list[Fact]:
    """How long the machine must stand still before it may turn the other way, and why."""
    sizes, values = plan.design.sizes, plan.design.sheet.values
    if sizes is None or sizes.wait is None or plan.design.coast is None or plan.design.motor is None:
        return []
    control = plan.project.power.control if plan.project.power is not None else None
    turned = plan.design.motor.reversal
    over: list[Fact] = []
    if turned.winding is not None and sum(not one.apart for one in plan.design.motor.windings) > 1:
        over = [("Changed over", f"the {turned.winding.part.replace('start', 'start winding')} alone, {turned.winding.a} and {turned.winding.b}; swapping the whole supply turns nothing round")]
    why = turned.thrown
    if "motor.I_self" in values:
        why = f"reversed at speed the motor would take {ink.print(values['motor.I_plug'])}; the lever thrown over while it coasts, {ink.print(values['motor.I_self'])} through the drive's diodes"
    return [
        ("Sequence", f"lever to 0, wait for standstill, lever to the other side, {f'{control.name} to {control.slow}, ' if control is not None else ''}start"),
        *over,
        ("Timer K1", f"set to {ink.print(values['K1.t_need'])} or a little more: one and a half times the longest coast of {ink.print(plan.design.coast)}; start does nothing before that"),
        ("Why", why),
    ]  # fmt: skip


def runaway_note(plan: Plan) -> str:
    """What the runaway of this machine is: by what feeds the motor, else by the motor."""
    power, motor = plan.project.power, plan.design.motor
    return power.runaway_by if power is not None and power.runaway_by else motor.runs_away if motor is not None else ""


def turning_rows(plan: Plan, ink: Ink) -> list[list[object]]:
    """Every turning part at two speeds and what it stands."""
    return [
        [
            part.name,
            str(ink.measured(part.at_maximum)),
            str(ink.measured(part.at_runaway)),
            str(ink.measured(part.rated)),
            part.basis or (f"worked for {part.spin.given.material}, {'spun' if part.spin.given.spin_test else 'not spun yet'}" if part.spin else "not said"),
        ]
        for part in plan.design.turning
    ]


def box_facts(plan: Plan, ink: Ink) -> list[Fact]:
    """Heat in the box."""
    heat = plan.design.heat
    if heat is None:
        return []
    noun = plan.project.power.noun if plan.project.power is not None else "drive"
    own = [(f"Heat of the {noun}", str(ink.print(heat.drive_loss)))] if heat.drive_loss is not None else []
    stands = f"the {noun} stands" if heat.drive_loss is not None else "contactor and relay stand"
    return [
        *own, *field.heats(plan, ink)[0], ("Heat in the box", str(ink.print(heat.box_heat))), ("Rise of its air", str(ink.print(heat.rise))),
        ("Air inside", f"{ink.print(heat.inside)}; {stands} {ink.print(heat.limit)}"), ("A fan would have to move", f"{ink.print(heat.air_flow)} through the box"),
    ]  # fmt: skip


def motor_facts(plan: Plan, ink: Ink) -> list[Fact]:
    """Heat in the motor."""
    heat = plan.design.heat
    if heat is None:
        return []
    return [
        ("Heat of the winding", f"{ink.print(heat.winding_loss)} while it works"),
        *field.heats(plan, ink)[1],
        ("Average current it stands", f"{ink.print(heat.allowed_current)} at this form factor, all day")
        if plan.design.applied is None or isinstance(plan.design.applied, Steered)
        else ("Current it stands, RMS", f"{ink.print(heat.allowed_current)}, all day"),
        ("Over run and rest", f"{ink.print(heat.duty_current)}"),
        *([("On its own fan", f"full torque down to {ink.print(heat.lowest_speed)}")] if plan.project.power is None or plan.project.power.control is not None or plan.design.motor is None or plan.design.motor.direct else []),
        *([("At its lowest speed", f"{ink.print(heat.slow.current)} by heat, over run and rest; its own fan then lets it stand {ink.print(heat.slow.stands)}")] if heat.slow is not None else []),
    ]


@dataclass(frozen=True, slots=True)
class WavePoint:
    """A solved operating point and its chart."""

    label: str
    chart: Markup


def wave_points(plan: Plan) -> list[WavePoint]:
    """Charts of the solved points."""
    return [
        WavePoint(point.label, wave_chart(point)) for point in plan.design.points if point.wave is not None
    ]


def unsourced(plan: Plan) -> list[str]:
    """Every citation of this packet that is from memory or custom, each once."""
    found: dict[str, None] = {}
    for value in plan.design.sheet.values.values():
        match value.parent:
            case Line(formula=formula):
                citation = formula.source
            case Model(source=source):
                citation = source
            case Row(cell=cell):
                citation = cell.table.source
            case _:
                continue
        if citation.read_from in ("memory", "practice"):
            found.setdefault(str(citation))
    if plan.circuit is not None and not plan.stopped:
        found.setdefault(str(table("hole_sizes").source))
    for finding in plan.findings:
        if finding.citation.read_from in ("memory", "practice"):
            found.setdefault(str(finding.citation))
    return list(found)


def armature_source(plan: Plan) -> str:
    """Where the armature's resistance comes from, in words."""
    number = calculation_ids(plan.design.sheet).get("motor.R_a")
    return f"in calculation {number}" if number else "in your file"


def strip_words(length: Value, ink: Ink) -> str:
    """The strip length in words."""
    return f"strip {ink.print(length)}"


def millimetres(length: Value) -> float:
    """A length as a position in a drawing."""
    return 1000 * float(length)
