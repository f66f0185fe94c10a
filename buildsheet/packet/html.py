"""Plan to HTML: one environment whose ink refuses numbers without a parent, one context, one template per sheet."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from importlib.resources import files
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined, Undefined
from markupsafe import Markup

from buildsheet.motors.series import SeriesMachine
from buildsheet.packet import edge, marks
from buildsheet.packet.ink import NARROW, THIN, Ink, Printed, symbol
from buildsheet.packet.sheets import sheets_of
from buildsheet.packet.views import (
    calculations,
    checks,
    cover,
    diagram,
    drill,
    facts,
    faults,
    insulation,
    one_line,
    parts,
    power,
    rotor,
    wires,
    wiring_steps,
)
from buildsheet.packet.words import assumed_values, ink_of, say, source_of
from buildsheet.plan import Plan
from buildsheet.sizing.finding import Said
from buildsheet.worksheet import Value

PAPERS = {"letter": edge.LETTER, "a4": edge.A4}


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a plain table; widths of a table add up to 175 mm."""

    name: str
    width: str
    look: tuple[str, ...] = ()

    def spelt(self, words: Mapping[str, str]) -> "Column":
        """The same column in the region's spelling."""
        return replace(self, name=self.name.replace("colour", words["colour"]))


COLUMNS = {
    "salvage": (Column("place", "48mm"), Column("needs", "46mm"), Column("yours", "28mm", ("bold",)), Column("to spare", "18mm", ("right",)),
                Column("", "15mm", ("grey",)), Column("verdict", "20mm", ("bold",))),
    "buy": (Column("", "9mm"), Column("say", "100mm"), Column("what else will do", "51mm", ("grey",)), Column("cost", "15mm")),
    "wires": (Column("wire", "17mm", ("tight",)), Column("from", "22mm", ("bold",)), Column("to", "22mm", ("bold",)), Column("conductor", "40mm"),
              Column("cut", "18mm", ("right",)), Column("other colour", "38mm", ("grey",)), Column("fuse", "18mm", ("grey", "tight"))),
    "cuts": (Column("colour", "32mm"), Column("size", "20mm"), Column("pieces", "95mm"), Column("in all", "28mm", ("right", "bold"))),
    "assumed": (Column("what", "48mm"), Column("taken as", "24mm", ("bold",)), Column("why", "51mm", ("grey",)), Column("how to measure it", "52mm", ("grey",))),
    "turning": (Column("part", "46mm"), Column("set maximum", "30mm", ("right",)), Column("runaway", "30mm", ("right",)), Column("stands", "30mm", ("right", "bold")),
                Column("because", "39mm", ("grey",))),
    "holes": (Column("", "64mm"), Column("hole", "20mm", ("right", "bold")), Column("from the left", "24mm", ("right",)), Column("from above", "24mm", ("right",)),
              Column("", "43mm", ("grey",))),
    "seen": (Column("seen", "44mm", ("bold",)), Column("look at", "91mm"), Column("rows of sheet 8", "40mm")),
    "singles": (Column("fails", "57mm", ("bold",)), Column("what happens", "50mm"), Column("still stops it", "38mm"), Column("rows of sheet 8", "30mm")),
    "rotors": (Column("home-made", "36mm"), Column("of", "33mm"), Column("factor", "14mm", ("right",)), Column("stands", "22mm", ("right", "bold")), Column("spin at", "22mm", ("right", "bold")),
               Column("spun", "48mm", ("grey",))),
    "point": (Column("", "56mm"), Column("at its speed", "40mm", ("right",)), Column("", "79mm")),
    "points": (Column("", "56mm"), Column("slowest", "40mm", ("right",)), Column("fastest", "40mm", ("right",)), Column("", "39mm")),
}  # fmt: skip


class PrintError(TypeError):
    """A template printed a number that has no parent."""


class Finalizer:
    """What the engine does with everything that a template prints: words and markup pass, Values print, any other
    number is refused. An unknown Value becomes a blank to fill in."""

    def __init__(self, ink: Ink):
        self.ink = ink

    def __call__(self, thing: Any) -> Any:
        if isinstance(thing, Value):
            printed = self.ink.print(thing)
            return Markup('<span class="blank" style="width:18mm"></span>') if printed.blank else str(printed)
        if isinstance(thing, Said):
            return self.ink.said(thing)
        if isinstance(thing, str | Undefined | Printed):
            return thing
        raise PrintError(f"a template printed {thing!r}, which is neither words nor a Value")


def templates() -> Path:
    """The folder of templates, in a checkout and in an installed wheel."""
    return Path(str(files("buildsheet") / "templates"))


def environment(ink: Ink) -> Environment:
    """The template engine. `format` is taken away: numbers print through the ink or not at all."""
    made = Environment(
        loader=FileSystemLoader(templates()),
        autoescape=True,
        finalize=Finalizer(ink),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.filters.pop("format")
    made.globals["marks"] = marks
    made.filters["symbol"] = symbol
    made.filters["source"] = source_of
    made.filters["nb"] = lambda text: Markup('<span class="nb">{}</span>').format(text)
    return made


def html(plan: Plan) -> str:
    """The packet as one self-contained HTML document."""
    ink = ink_of(plan)
    return unsplit(environment(ink).get_template("packet.html.j2").render(context(plan, ink)))


def unsplit(page: str) -> str:
    """The page with thousands that hold together: a line may break at a thin space, never at a narrow one. Both are of
    the same width in the packet's typeface."""
    return page.replace(THIN, NARROW)


def context(plan: Plan, ink: Ink) -> dict[str, Any]:
    """Everything the templates read."""
    taken, left = sheets_of(plan)
    machine = plan.project.machine
    paper = PAPERS[plan.design.region.paper]
    name = machine.name if machine else "Motor alone"
    packet = {
        "machine": name,
        "document": machine.number if machine and machine.number else "no number",
        "revision": cover.revision(plan) or "–",
        "date": cover.date(plan) or "–",
        "drawn": machine.drawn_by if machine and machine.drawn_by else "–",
        "state": plan.state,
        "state_slug": plan.state.replace(" ", "-"),
        "plug": "battery fuse" if plan.design.supplied is not None and plan.design.supplied.guard is None else "plug",
    }
    stages = cover.stages(plan, ink)
    failing = faults.found(plan)
    return {
        "language": "en",
        "title": f"{name}, build packet",
        "style": Markup((templates() / "paper.css").read_text(encoding="utf-8")),  # noqa: S704  our own style sheet
        "page_rules": edge.page_rules(taken, paper, ink.inches),
        "plan": plan, "project": plan.project, "design": plan.design, "region": plan.design.region, "words": plan.design.region.words,
        "packet": packet, "sheets": taken, "left_out": [(sheet, why) for sheet, why in left],
        "room": marks.path_room(edge.live_area(paper)[1], len(taken)),
        "stages": stages, "brackets": cover.brackets(plan, len(stages)), "plate": cover.plate(plan, ink), "states": cover.states(plan),
        "cover_hazards": cover.on_the_cover(plan), "read_first": cover.read_first(plan), "assumed": assumed_values(plan), "say": lambda seat: say(seat, ink),
        "salvage_rows": parts.salvage_rows(plan, ink), "buy_rows": parts.buy_rows(plan, ink), "wire_buys": parts.wire_buys(plan, ink), "tools": parts.tools(plan, ink),
        "wire_rows": wires.rows(plan, ink), "cuts": wires.cuts(plan, ink), "reserved": wires.reserved(plan),
        "steps": wiring_steps.items(plan, ink), "groups": checks.groups(plan, ink), "wires_back": checks.wires_back(plan.circuit) if plan.circuit else (), "insulation": insulation.insulation(plan), "blocks": calculations.blocks(plan, ink), "tables": calculations.sources(plan),
        "one_line": one_line.drawing(plan), "drawings": diagram.sheets(plan, paper), "columns": {name: tuple(column.spelt(plan.design.region.words) for column in columns) for name, columns in COLUMNS.items()}, "drill": drill.drill(plan, ink),
        "decided": facts.decided(plan, ink), "fuse_strips": facts.fuse_strips(plan, ink), "settings": facts.settings(plan, ink), "power_items": power.items(plan, ink),
        "assumed_rows": facts.assumed_rows(assumed_values(plan), ink),
        "others": cover.others(plan),
        "heeds": [f for f in plan.findings if f.grade == "heed"], "stops": [f for f in plan.findings if f.stops],
        "point_rows": facts.point_rows(plan, ink), "belt_facts": facts.belt_facts(plan, ink), "load_words": facts.load_words(plan), "battery_facts": facts.battery_facts(plan, ink), "reversing_facts": facts.reversing_facts(plan, ink), "turning_rows": facts.turning_rows(plan, ink),
        "rotor_rows": rotor.rows(plan, ink), "spin_test": rotor.procedure(plan, ink),
        "box_facts": facts.box_facts(plan, ink), "motor_facts": facts.motor_facts(plan, ink), "wave_points": facts.wave_points(plan), "low_behind": plan.project.power.low_behind if plan.project.power else "", "by_square": isinstance(plan.design.motor, SeriesMachine),
        "touch_limit": facts.limit("touch limit", ink, plan.design.region.tables["rules"]), "spacing": facts.limit("control spacing", ink),
        "bond_limit": facts.limit("bond drop", ink), "insulation_volts": facts.limit("insulation voltage", ink), "insulation_ohms": facts.limit("insulation", ink),
        "strip_words": lambda length: facts.strip_words(length, ink), "millimetres": facts.millimetres, "unsourced": facts.unsourced(plan), "armature_id": facts.armature_source(plan), "brushes": plan.design.motor is None or plan.design.motor.direct, "runaway_note": facts.runaway_note(plan), "live": bool(plan.project.power and plan.project.power.live_controls is not False), "wired": bool(plan.project.power and plan.project.power.control and plan.project.power.control.wired),
        "safe_steps": faults.safe_steps(plan, ink), "fault_seen": faults.seen_rows(plan, failing), "fault_singles": faults.single_rows(plan, failing),
        "control_name": plan.project.power.control.name if plan.project.power and plan.project.power.control else "motor", "circuit": plan.circuit, "stopped": plan.stopped,
    }  # fmt: skip
