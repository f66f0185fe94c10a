"""Which sheets there are: a list in data. A sheet with nothing to say is left out and named."""

from dataclasses import dataclass, replace

from buildsheet.packet.views.power import purpose
from buildsheet.plan import Plan


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet: its number is fixed, whether or not others are left out. `needs_circuit` sheets are withheld by a stop."""

    slug: str
    number: str
    name: str
    purpose: str = ""
    plug: str | None = None
    landscape: bool = False
    helper: bool = False
    needs_circuit: bool = False
    needs_design: bool = True


SHEETS: tuple[Sheet, ...] = (
    Sheet("cover", "1", "This cover", needs_design=False),
    Sheet("read-first", "2", "Read first", "What can kill or maim here, what must be in place before anything is wired, and what is not yours to do.",
          helper=True, needs_design=False),
    Sheet("glance", "3", "At a glance", "What was decided and why, what is only assumed, what is still to find out.", needs_design=False),
    Sheet("parts", "4", "Parts: to salvage, to buy", "What each place needs, what you have for it, and how to ask for what is missing.", helper=True),
    Sheet("diagram", "5", "Wiring diagram", "", "out", landscape=True,
          helper=True, needs_circuit=True),
    Sheet("wires", "6", "Wire list, cut list", "Every conductor with its two ends. Cut and label them all before the first is screwed on.", "out",
          helper=True, needs_circuit=True),
    Sheet("steps", "7", "Wiring steps", "One action at a time, down the line. Tick the box, then go on. Where the line is open, stop: a second person closes it.",
          "out", helper=True, needs_circuit=True),
    Sheet("checks", "8", "Checks before power", "Readings with a two-lead meter. Write what you find. Outside the black bar: stop, find out why, read again.",
          "out", helper=True, needs_circuit=True),
    Sheet("power", "9", "First power, settings", "", "in",
          needs_circuit=True),
    Sheet("speeds", "10", "Speeds", ""),
    Sheet("heat", "11", "Heat", "What gets warm, how warm it may get, and how to see that it does not get warmer."),
    Sheet("faults", "12", "Faults", "Make it safe, prove it dead, then look for the fault.", "out",
          needs_circuit=True),
    Sheet("calculations", "13", "Calculations", "From what you wrote to what to buy, every size in this packet: the equation as it ran, the numbers put in, "
          "the result, and where each number came from."),
    Sheet("labels", "14", "Labels to cut out", "Print without scaling. Fold each wire label round its wire, one at each end.", needs_circuit=True),
    Sheet("revisions", "15", "Revisions", "What changed, when, and who should look at a built machine again."),
    Sheet("unverified", "16", "Not verified", "What nobody measured, what was not calculated, and what this packet can't know.", needs_design=False),
)  # fmt: skip


def _drawn(plan: Plan) -> str:
    """How the diagram is drawn."""
    control = plan.project.power.control if plan.project.power is not None else None
    at = f" and the {control.name} at {control.slow}" if control is not None else ""
    return f"Supply at the left, motor at the right. Drawn with switches off{at}."


def _speeds(plan: Plan) -> str:
    """What the sheet of speeds goes through."""
    control = plan.project.power.control if plan.project.power is not None else None
    return f"From the {control.name if control is not None else 'motor'} to the tool, through the belt, and how fast each part may ever turn."


PURPOSES = {"power": purpose, "diagram": _drawn, "speeds": _speeds}
NOT_YET = {
    "revisions": "revisions are not compared by this version",
}


def sheets_of(plan: Plan) -> tuple[tuple[Sheet, ...], tuple[tuple[Sheet, str], ...]]:
    """The sheets of this packet, and those that are left out with the reason."""
    taken, left = [], []
    for sheet in SHEETS:
        if sheet.slug in NOT_YET:
            left.append((sheet, NOT_YET[sheet.slug]))
        elif sheet.needs_circuit and plan.stopped:
            left.append((sheet, "withheld by a stop"))
        elif sheet.needs_circuit and plan.circuit is None:
            left.append((sheet, "nothing can be wired yet"))
        elif sheet.needs_design and plan.design.sizes is None:
            left.append((sheet, "nothing is sized yet"))
        else:
            taken.append(replace(sheet, purpose=PURPOSES[sheet.slug](plan)) if sheet.slug in PURPOSES else sheet)
    return tuple(taken), tuple(left)
