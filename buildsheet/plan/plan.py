"""Project -> Design -> Circuit -> Findings, held together."""

from dataclasses import dataclass

from buildsheet.circuit import Circuit
from buildsheet.design import Design
from buildsheet.design.wiring import wire
from buildsheet.design.work import work
from buildsheet.plan.cuts import Cut, cuts
from buildsheet.project import Project
from buildsheet.rules import Finding, all_findings, state_of
from buildsheet.rules.book import State, unanswered
from buildsheet.worksheet import Absent, Value


@dataclass(frozen=True, slots=True)
class Question:
    """Something to find out: the value or key, why it matters, and the line to paste."""

    key: str
    why: str
    paste: str
    safety: bool = False


@dataclass(frozen=True, slots=True)
class Plan:
    """What all outputs read."""

    project: Project
    design: Design
    circuit: Circuit | None
    findings: tuple[Finding, ...]
    state: State
    questions: tuple[Question, ...]
    cuts: tuple[Cut, ...] = ()

    @property
    def stopped(self) -> bool:
        """Whether a stop withholds the packet."""
        return any(finding.stops for finding in self.findings)


def plan(project: Project) -> Plan:
    """Works a project all the way."""
    design = work(project)
    circuit = wire(design)
    findings = all_findings(design, circuit)
    return Plan(
        project,
        design,
        circuit,
        findings,
        state_of(design, circuit, findings),
        _questions(design),
        cuts(design, circuit) if circuit and not any(f.stops for f in findings) else (),
    )


# Most useful first: what each group is for and what to paste, when the file does not have it at all.
GROUPS: tuple[tuple[str, str, str], ...] = (
    (
        "motor",
        "what the motor is and what it can take",
        "motor: {kind: magnet-dc, plate: '90 V, 5.0 A, 1725 rpm, 0.5 hp'}",
    ),
    (
        "supply",
        "what the machine may draw and what protects its cord",
        "supply: 120 V 60 Hz, 15 A breaker, GFCI, plug",
    ),
    (
        "machine",
        "speed, load and dangers",
        "machine: {name: ..., kind: other, speed: 40..280 rpm, torque: 2 N·m}",
    ),
    (
        "power",
        "what is put on the motor's terminals",
        "power: {way: phase-controlled-drive, output_high: 90 V, rated: 10 A, separation: none}",
    ),
    (
        "site",
        "cooling, wetness and region",
        "site: {region: north-america, where: dry shed, ambient: 35 degC}",
    ),
    ("runs", "the length of every wire", "runs: {cord: 2.5 m, motor: 900 mm, panel: 350 mm}"),
    ("box", "how warm the drive gets", "box: 300 x 300 x 150 mm, steel, sealed"),
    ("controls", "what protects the motor from overload", "controls: {overload: {by: relay}}"),
)
ANSWERS = {
    "site.where": ("whether controls may be at line voltage", "  where: dry shed"),
    "power.separation": ("whether the knob is at line voltage", "  separation: none"),
    "motor.protector": ("whether the motor may start by itself", "  protector: none"),
}


def _questions(design: Design) -> tuple[Question, ...]:
    project = design.project
    found = [Question(key, why, paste) for key, why, paste in GROUPS if getattr(project, key) is None]
    missing = {question.key for question in found}
    found += [
        Question(key, *ANSWERS[key], safety=True)
        for key in unanswered(design)
        if key.split(".")[0] not in missing
    ]
    for value in design.sheet.values.values():
        for root in _absent(value):
            key = root.id
            if "." in key and not any(q.key == key for q in found) and key.split(".")[0] not in missing:
                name = key.rpartition(".")[2]
                found.append(Question(key, f"needed for {value.label}", f"  {name}: {root.unit.example}"))
    return tuple(found)


def _absent(value: Value) -> tuple[Value, ...]:
    parent = value.parent
    if isinstance(parent, Absent):
        return tuple(
            root
            for part in parent.missing
            for root in (_absent(part) or (part,))
            if not root.known and isinstance(root.parent, Absent) and root.parent.why == "not in the file"
        )
    return ()
