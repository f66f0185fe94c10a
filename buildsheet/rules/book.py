"""All rules in order, the findings they yield, and the state that these leave the packet in."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Literal

from buildsheet.circuit import Circuit
from buildsheet.design import Design
from buildsheet.rules import (
    battery,
    combinations,
    extras,
    faults,
    induction,
    iron,
    machine,
    missing,
    parts,
    power,
    reversing,
    rotor,
    series,
    shunt,
    soft_start,
    stored,
    wet,
)
from buildsheet.rules.missing import grouped
from buildsheet.sizing.finding import GRADES, SIGNALS, Finding
from buildsheet.worksheet import Value

Rule = Callable[[Design, Circuit | None], Iterator[Finding]]
RULES: tuple[Rule, ...] = (
    power.supply, power.persons, power.drive, power.own, power.protection, power.restart, power.users,
    battery.battery, combinations.combinations, extras.extras, extras.pedal, reversing.reversing, reversing.residual,
    machine.turning, rotor.homemade, machine.belts, machine.box, machine.window, machine.load, machine.coast, machine.motor, series.series, shunt.shunt, soft_start.soft_start,
    wet.wet, iron.stop, iron.winding, iron.there, iron.primary_fuse, iron.rush, iron.capacitor, iron.rectified,
    induction.line_motor, induction.inverter,
    parts.seats, parts.used, parts.proofs, faults.single_faults, stored.turning_motor, stored.blown_motor_fuse, stored.charged_drive, missing.circuit,
)  # fmt: skip
State = Literal["draft", "for building", "as built", "do not use"]
# What safety needs answered: until then the packet is a draft.
SAFETY_QUESTIONS = (("site", "where"), ("supply", "residual_current"), ("power", "separation"), ("motor", "protector"))


def all_findings(design: Design, circuit: Circuit | None) -> tuple[Finding, ...]:
    """Every finding, gravest first: by grade, then by signal word, then in the order of the rules.

    Findings with one unknown root are told as one, which leads those of its gravity. A `heed` that the builder
    accepted in writing carries who and when; nothing else can be accepted.
    """
    found = list(grouped(finding for rule in RULES for finding in rule(design, circuit)))
    accepted = {entry.finding: f"{entry.by}, {entry.date}: {entry.why}" for entry in design.project.accept}
    found = [
        replace(f, accepted=accepted[f.id]) if f.grade == "heed" and f.id in accepted else f for f in found
    ]
    return tuple(
        sorted(
            found,
            key=lambda f: (not f.stops, GRADES.index(f.grade), SIGNALS.index(f.signal), not f.follows),
        )
    )


def unanswered(design: Design) -> tuple[str, ...]:
    """Keys of the safety questions that the file leaves open. A group that has no such key is not asked."""
    keys = []
    for group, name in SAFETY_QUESTIONS:
        if group == "supply" and design.project.fed_by == "battery":
            continue
        part = getattr(design.project, group)
        if part is None or (name in type(part).model_fields and getattr(part, name) is None):
            keys.append(f"{group}.{name}")
    return tuple(keys)


def state_of(design: Design, circuit: Circuit | None, findings: tuple[Finding, ...]) -> State:
    """draft: a stop, an open safety question, or no circuit yet; else for building."""
    unknown_need = any(
        seat.place.safety
        and (
            (seat.part is not None and seat.verdict == "not known")
            or any(isinstance(need.value, Value) and not need.value.known for need in seat.place.needs)
        )
        for seat in design.seats
    )
    if circuit is None or unknown_need or unanswered(design) or any(finding.stops for finding in findings):
        return "draft"
    return "for building"
