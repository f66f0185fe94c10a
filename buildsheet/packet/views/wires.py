"""Wire list and cut list: every conductor by number, and by colour and size for cutting."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

from markupsafe import Markup

from buildsheet.circuit import Circuit, Terminal, Wire
from buildsheet.circuit.proofs import protected_by
from buildsheet.packet import marks
from buildsheet.packet.ink import Ink
from buildsheet.packet.views.facts import limit
from buildsheet.plan import Plan
from buildsheet.plan.cuts import Cut, run_lengths
from buildsheet.ways.way import capital

_NAMES = {"BK": "black", "WH": "white", "RD": "red", "BU": "blue", "VT": "violet", "BN": "brown", "GNYE": "green-yellow", "GN": "green", "OG": "orange", "YE": "yellow", "PK": "pink"}  # fmt: skip


def colour_name(code: str, words: Mapping[str, str]) -> str:
    """A colour code in words, spelt as the region spells it."""
    return words["grey"] if code == "GY" else _NAMES.get(code, code)


@dataclass(frozen=True, slots=True)
class WireLine:
    """A wire beside a step: flag, both ends, length, and which end is worked on now."""

    number: str
    code: str
    end1: str
    end2: str
    length: str
    now: int | None = None


def end(terminal: Terminal) -> str:
    """A wire's end as it is called at the bench."""
    return f"{terminal.device} · {terminal.name}"


def length(wire: Wire, plan: Plan, ink: Ink) -> str:
    """A wire's length for cutting."""
    return str(ink.print(run_lengths(plan.design)[wire.run]))


def wire_line(wire: Wire, plan: Plan, ink: Ink, now: int | None = None) -> WireLine:
    """The line of a wire beside a step."""
    return WireLine(str(wire.number), wire.colour, end(wire.a), end(wire.b), length(wire, plan, ink), now)


def rows(plan: Plan, ink: Ink) -> list[object]:
    """Rows of the wire list, grouped by stage."""
    if plan.circuit is None:
        return []
    guards = protected_by(plan.circuit)
    found: list[object] = []
    stage = None
    for wire in plan.circuit.wires:
        if wire.stage != stage:
            stage = wire.stage
            control = plan.project.power.control if plan.project.power is not None else None
            named = "Speed knob" if control is None or control.name == "knob" else capital(control.name)
            noun = plan.project.power.noun if plan.project.power is not None else "drive"
            first = "Soft start" if "R5" in plan.circuit.devices and not any(one.stage == 3 and one.number < 330 for one in plan.circuit.wires) else capital(noun)
            found.append({"group": STAGES.get(stage, "Others").replace("Drive", first).replace("Speed knob", named)})
        guard = guards.get(wire.number)
        cable = f"cable {wire.cable}" if wire.cable else ""
        found.append([
            marks.flag(str(wire.number), wire.colour), end(wire.a), end(wire.b), f"{wire.size}, {insulation(plan, ink)}{', ' + cable if cable else ''}",
            length(wire, plan, ink), substitutes(wire, plan), _guard(plan.circuit, guard[0]) if guard else "",
        ])  # fmt: skip
    return found


STAGES = {
    1: "Supply, 100s",
    2: "No-volt release, 200s",
    3: "Drive, 300s",
    4: "Motor, 400s",
    5: "Speed knob, 500s",
    6: "Field, 600s",
    9: "Protective, 900s",
}


def _guard(circuit: Circuit, name: str) -> str:
    """What protects a wire, as the list names it: behind iron that is the fuse that follows it."""
    device = circuit.devices.get(name)
    if device is None or device.kind not in ("transformer", "autotransformer"):
        return name
    return next(other.code for other in circuit.devices.values() if other.kind == "output-fuse")


def insulation(plan: Plan, ink: Ink) -> str:
    """Voltage that the insulation of every wire is made for."""
    return limit("wire insulation", ink, plan.design.region.tables["rules"])


def substitutes(wire: Wire, plan: Plan) -> str:
    """Colours that may stand in: those of the region for this function, or any that nothing else reserves."""
    region = plan.design.region
    own = region.reserved_colours.get(wire.role)
    if own is not None:
        others = [colour_name(code, region.words) for code in own if code != wire.colour]
        return f"or {', '.join(others)}" if others else "no other"
    return "any free one"


def reserved(plan: Plan) -> str:
    """The colours that no other wire may have, in words: those that the region keeps for a function."""
    region = plan.design.region
    words = dict.fromkeys(
        word
        for codes in region.reserved_colours.values()
        for code in codes
        for word in colour_name(code, region.words).split("-")
    )
    return ", ".join(words)


def cuts(plan: Plan, ink: Ink) -> list[list[object]]:
    """By colour and size: how many pieces of which lengths, and how much in all. A cable is one piece."""
    found: list[list[object]] = []
    for cut in plan.cuts:
        pieces = ", ".join(f"{count} × {ink.print(piece)}" for count, piece in cut.pieces)
        if cut.cable:
            found.append([f"cable {cut.cable}", cores(cut), f"{pieces}: {colour_names(cut, plan)}", str(ink.print(cut.total))])
            continue
        flag = Markup("{} {}").format(marks.flag("", cut.colours[0]), colour_names(cut, plan))
        found.append([flag, cut.size, pieces, str(ink.print(cut.total))])
    return found


def cores(cut: Cut) -> str:
    """How many conductors of which size a cable has."""
    return " + ".join(f"{count} × {size}" for count, size in cut.cores)


def colour_names(cut: Cut, plan: Plan) -> str:
    """The colours of a cut in words, each once with how often it comes."""
    counted = Counter(colour_name(code, plan.design.region.words) for code in cut.colours)
    return ", ".join(name if count == 1 else f"{count} {name}" for name, count in counted.items())
