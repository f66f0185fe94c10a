"""What a sheet of steps is made of: heads, steps with their wires or readings, hold points, warnings."""

from dataclasses import dataclass

from buildsheet.packet.views.wires import WireLine
from buildsheet.sizing.finding import Finding
from buildsheet.worksheet import Value


@dataclass(frozen=True, slots=True)
class PartHead:
    """Head of a part of the work, with what is common to its wires."""

    label: str
    name: str
    note: str
    strip: Value | None


@dataclass(frozen=True, slots=True)
class Taken:
    """A reading that a step takes: what it is, what is expected, the unit in its box, the instrument."""

    what: str
    want: str
    unit: str
    tool: str = "meter"


@dataclass(frozen=True, slots=True)
class StepItem:
    """One action, with its wires or its readings at the right."""

    number: str
    action: str
    right_when: str
    wires: tuple[WireLine, ...] = ()
    note: str = ""
    readings: tuple[Taken, ...] = ()


@dataclass(frozen=True, slots=True)
class HoldItem:
    """A hold point: the line is open until a second person signs."""

    number: str
    action: str
    why: str


@dataclass(frozen=True, slots=True)
class WarningItem:
    """A finding that stands before a step."""

    finding: Finding
    before: str


Item = PartHead | StepItem | HoldItem | WarningItem
