"""Project -> Design -> Circuit -> Findings, held together."""

from collections.abc import Iterator
from dataclasses import dataclass
from string import Template

from buildsheet.circuit import Circuit
from buildsheet.design import Design
from buildsheet.design.wiring import wire
from buildsheet.design.work import work
from buildsheet.plan.cuts import Cut, cuts
from buildsheet.project import Project, example_of, words_of
from buildsheet.reference import table
from buildsheet.rules import all_findings, state_of
from buildsheet.rules.book import State, unanswered
from buildsheet.rules.missing import GIVEN_BY, key_of, unwritten
from buildsheet.sizing.finding import Finding
from buildsheet.worksheet import Value
from buildsheet.worksheet.value import roots


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
        _questions(design, findings),
        cuts(design, circuit) if circuit and not any(f.stops for f in findings) else (),
    )


# Most useful first: what each group is for and what to paste, with the usual values of the region, when the file does not
# have it at all.
GROUPS: tuple[tuple[str, str, str], ...] = (
    (
        "motor",
        "what the motor is and what it can take",
        "motor: {kind: magnet-dc, plate: '$drive, 5.0 A, 1725 rpm, 370 W'}",
    ),
    (
        "supply",
        "what the machine may draw and what protects its cord",
        "supply: $line $frequency, $breaker breaker, plug",
    ),
    (
        "battery",
        "what the machine is fed with, and for how long",
        "battery: 24 V, 35 Ah, lead-acid AGM",
    ),
    (
        "machine",
        "speed, load and dangers",
        "machine: {name: ..., kind: other, speed: 40..280 rpm, torque: 2 N·m}",
    ),
    (
        "power",
        "what is put on the motor's terminals",
        "power: {way: phase-controlled-drive, output_high: $drive, rated: 10 A}",
    ),
    (
        "site",
        "cooling, wetness and region",
        "site: {region: $region, ambient: 35 degC}",
    ),
    ("runs", "the length of every wire", "runs: {cord: 2.5 m, motor: 900 mm, panel: 350 mm}"),
    ("box", "how warm the drive gets", "box: 300 x 300 x 150 mm, steel, sealed"),
    ("controls", "what protects the motor from overload", "controls: {overload: {by: relay}}"),
)
# Why safety asks. What to paste names all the words: none of them is handed out as the answer.
ANSWERS = {
    "site.where": "whether controls may be at line voltage",
    "supply.residual_current": "what trips when current leaks through a person",
    "power.separation": "whether the knob is at line voltage",
    "motor.protector": "whether the motor may start by itself",
}


def _usual(design: Design) -> dict[str, str]:
    """What stands in the lines to paste: the usual values of the design's region."""
    rules = table(design.region.tables["rules"])
    names = {"line": "nominal line", "frequency": "line frequency", "breaker": "usual breaker", "drive": "usual drive output"}
    return {"region": design.region.id, **{name: rules.rows[rule]["value"] for name, rule in names.items()}}


def _questions(design: Design, findings: tuple[Finding, ...]) -> tuple[Question, ...]:
    """Groups that are not there, open safety questions, what findings wait for, and what any other line waits for."""
    project = design.project
    usual = _usual(design)
    suits = design.motor.suits if design.motor is not None else {}
    spared = "supply" if project.fed_by == "battery" else "battery"
    found = [
        Question(key, why, Template(suits.get(key, paste)).substitute(usual))
        for key, why, paste in GROUPS
        if key != spared and getattr(project, key) is None
    ]
    missing = {question.key for question in found}
    found += [
        Question(key, ANSWERS[key], f"  {key.rpartition('.')[2]}: {' | '.join(words_of(project, key))}", safety=True)
        for key in unanswered(design)
        if key.split(".")[0] not in missing
    ]
    asked = {question.key for question in found}
    for root, why in (*_of_lines(design), *_of_findings(findings)):
        key = key_of(root)
        if not key or key in asked or key.split(".")[0] in missing or not unwritten(root):
            continue
        asked.add(key)
        example = GIVEN_BY[root.id].example if root.id in GIVEN_BY else f"{key.rpartition('.')[2]}: {example_of(project, key) or root.unit.example}"
        found.append(Question(key, why, f"  {example}"))
    return tuple(found)


def _of_findings(findings: tuple[Finding, ...]) -> Iterator[tuple[Value, str]]:
    """Every unknown root that a finding waits for, and why it matters."""
    for finding in findings:
        for value in finding.unknown:
            for root in roots(value):
                if not root.known:
                    yield root, f"needed for {finding.awaits}" if finding.awaits else finding.why.rstrip(".")


def _of_lines(design: Design) -> Iterator[tuple[Value, str]]:
    """The same for the lines of the worksheet."""
    for value in design.sheet.values.values():
        if not value.known:
            for root in roots(value):
                if not root.known and root is not value:
                    yield root, f"needed for {value.label}"
