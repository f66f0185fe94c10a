"""Fault finding, read from the circuit: each single fault by what it shows, and what it does when it shows nothing; and
which readings of sheet 8 find it. Before all of it: how to make the machine safe, and prove it dead.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from buildsheet.circuit import Barrier, Capacitor, Circuit, Electronics
from buildsheet.circuit.breach import of_kind
from buildsheet.circuit.effects import Effect, Outcome, effects
from buildsheet.circuit.faults import faults
from buildsheet.circuit.netlist import numbers
from buildsheet.packet.ink import Ink
from buildsheet.packet.views.checks import all_groups
from buildsheet.packet.views.facts import limit
from buildsheet.packet.views.power_steps import at, drive_ends, output_of
from buildsheet.packet.views.reading import Group, Row
from buildsheet.packet.views.steps import StepItem, Taken
from buildsheet.plan import Plan
from buildsheet.sizing.waist import Steered
from buildsheet.worksheet import Value

SEEN: tuple[tuple[Outcome, str], ...] = (
    ("no pull-in", "Start does nothing: the contactor does not pull in."),
    ("no hold", "The contactor pulls in and drops out again."),
    ("resistor stays in", "It comes up slowly, no relay clicks, and after a while it stops by itself."),
    ("no turning", "The contactor holds, the motor stands still."),
    ("knob fails", "The knob does nothing, or there is one speed only."),
    ("fan stops", "The fan stands still."),
    ("fuse blows", "A fuse blows at once."),
    ("no charging", "The battery is not charged though the charger is on."),
)
HAPPENS: dict[Outcome, str] = {
    "starts by itself": "starts when it is switched on",
    "stop fails": "stop does not stop it",
    "emergency stop fails": "the emergency stop does not stop it",
    "overload fails": "the overload relay trips and nothing stops",
    "brake fails": "coasts: nothing brakes",
    "brake drags": "the braking resistor glows while it runs",
    "starts hard": "starts with all of the voltage at once: a fuse may blow",
    "field lost": "runs without its field: overspeed",
    "field unwatched": "nothing watches the field: its next break is overspeed",
    "guard fails": "runs on with the guard open",
    "thermostat fails": "runs on though what the thermostat feels is hot",
    "pedal fails": "runs on when the foot leaves the pedal",
    "disconnect fails": "the box stays live with the disconnect off",
    "full speed": "runs at runaway speed",
    "reverses without waiting": "can be reversed while it turns",
    "runs on the charger": "starts with the charger plugged in",
    "charged at once": "the drive's capacitor fills in one jolt",
    "stays charged": "the capacitor keeps its charge",
    "start winding burns": "the start winding stays in and burns",
    "frame unprotected": "a metal part has lost its {earth}",
    "nothing yet": "nothing: the next fault finds one protection less",
}
STOPPERS = {"stop": "stop", "emergency-stop": "emergency stop", "disconnect": "disconnect"}  # by a hand, at any time


def safe_steps(plan: Plan, ink: Ink) -> tuple[StepItem, ...]:
    """Off, still, the meter tried, dead, the meter tried again."""
    if plan.circuit is None or plan.stopped:
        return ()
    return tuple(_safe_steps(plan, plan.circuit, ink))


def _safe_steps(plan: Plan, circuit: Circuit, ink: Ink) -> Iterator[StepItem]:
    design = plan.design
    on_plug = design.supplied is None or design.supplied.guard is not None
    fuses = " and ".join(code for code in ("F1", "F4") if code in circuit.devices)
    off = "plug out, and where you see it" if on_plug else f"{fuses} out, and in your pocket" + (", the charger's lead out" if "X4" in circuit.devices else "")
    why = "" if on_plug else "The posts and the upper screws of the holders never go dead."
    seen = "the lever shows off, and nobody can plug it in behind your back." if on_plug else "the lever shows off, and no fuse is left in its holder."
    yield StepItem("1", f"Emergency stop pressed, disconnect off, {off}.", seen, note=why)
    made, coast = _top_volts(plan), design.coast
    note = f"While it turns the motor makes up to {ink.print(made)} of its own." if made is not None else "While it turns the motor makes voltage of its own."
    lasts = f" It coasts up to {ink.print(coast)}." if coast is not None and coast.known else ""
    yield StepItem("2", "Wait until all stands.", "nothing turns.", note=note + lasts)
    kept = plan.project.power.keeps_charge if plan.project.power is not None else None
    wait = str(ink.print(kept)) if kept is not None and kept.known else limit("safe time", ink, design.region.tables["rules"])
    least = limit("no output", ink)
    first, second = output_of(circuit)
    poles = " and ".join(f"Q1 · {name}" for name in ("2", "4"))
    ranges = "Meter on V DC, tips on a battery that is good" + ("; on V AC, tips in an outlet that is live." if on_plug else ".")
    yield StepItem("3", ranges, "it shows each: the meter and both ranges work." if on_plug else "it shows that battery: the meter works.")
    steered = plan.design.applied is None or isinstance(plan.design.applied, Steered)
    across = f"{at(first)} to {second.name if second.device == first.device else at(second)}"
    taken = [Taken(across, f"under {least}", "V DC"), *(() if steered else (Taken("the same", f"under {least}", "V AC"),))]
    taken.append(Taken(f"{poles.replace('Q1 · 4', '4')}", f"under {least}", "V AC" if on_plug else "V DC"))
    taken = [*_on_the_drive(plan, circuit, least), *_on_capacitors(circuit, least), *taken]
    yield StepItem("4", f"Wait {wait} more. Cover off; read without touching anything.", "all are under it. If one is not, go away from it and wait: something still makes it.", readings=tuple(taken))
    yield StepItem("5", "Tips on that battery again" + (", and in that outlet." if on_plug else "."), "the meter still shows it. Only now is the machine dead.")


def _on_capacitors(circuit: Circuit, least: str) -> list[Taken]:
    """What a motor's own capacitor keeps."""
    own = [d for d in circuit.devices.values() if any(isinstance(part, Capacitor) and part.passes for part in d.inside)]
    return [Taken(f"{device.code} · {device.terminals[0]} to {device.terminals[1]}", f"under {least}", "V DC") for device in own]


def _on_the_drive(plan: Plan, circuit: Circuit, least: str) -> list[Taken]:
    """What a drive keeps at its supply: a capacitor behind its bridge, or at its battery terminals."""
    power = plan.project.power
    if power is None:
        return []
    if power.keeps_charge is not None:
        return [Taken(f"{power.noun}'s capacitor, its own two screws", f"under {least}, or hands off", "V DC")]
    if power.capacitor_in is not None or any(isinstance(part, Electronics) and part.does == "chops" for d in of_kind(circuit, "drive") for part in d.inside):
        first, second = drive_ends(circuit, 3)
        return [Taken(f"{first.device} · {first.name} to {second.name}", f"under {least}", "V DC")]
    return []


def _top_volts(plan: Plan) -> Value | None:
    loose = plan.design.sheet.values.get("runaway.E") if plan.project.power is not None and plan.project.power.control is None else None
    return loose if loose is not None and loose.known else plan.design.hardest("emf")


@dataclass(frozen=True, slots=True)
class Found:
    """An effect with the numbers of the readings that show it."""

    effect: Effect
    rows: tuple[int, ...]


def found(plan: Plan) -> tuple[Found, ...]:
    """Each single fault, its effect, and the rows of sheet 8 that read otherwise with it."""
    circuit, supplied = plan.circuit, plan.design.supplied
    if circuit is None or supplied is None or plan.stopped:
        return ()
    earth = plan.design.region.words["earth"]
    sound = _rows(all_groups(circuit, earth))
    told = effects(circuit, pole_may_swap=supplied.pole_may_swap)
    made = []
    for effect, (_, broken) in zip(told, faults(circuit), strict=True):
        rows = _rows(all_groups(circuit, earth, broken))
        free = f"wire {effect.fault.wire}"  # its own free end is a tip
        differ = tuple(int(a.number) for a, b in zip(sound, rows, strict=True) if _differs(a, b) or (free in (a.red, a.black) and a.want != "OL"))
        made.append(Found(effect, differ))
    return tuple(made)


def _held_back(plan: Plan, circuit: Circuit) -> str:
    """What keeps a sound machine from starting."""
    control = plan.project.power.control if plan.project.power is not None else None
    waits = plan.project.power.waits_for_zero if plan.project.power is not None else None
    found = ["disconnect off", "emergency stop not released"]
    found += ["overload relay not reset"] if "F3" in circuit.devices else []
    found += ["direction switch at 0, or its timer not over"] if "S5" in circuit.devices else []
    found += ["charger plugged in"] if "X4" in circuit.devices else []
    found += [f"{control.name} not at {control.slow}"] if control is not None and waits is not False else []
    found += [f"{device.name.lower()} ({code}) open" for code, device in circuit.devices.items() if device.kind in ("guard", "thermostat")]
    return ", ".join(found)


def _rows(groups: tuple[Group, ...]) -> list[Row]:
    return [row for group in groups for row in group.rows]


def _differs(sound: Row, broken: Row) -> bool:
    """Whether a reading falls outside its bar: the two bands do not meet, or one is none."""
    if sound.low is None or sound.high is None or broken.low is None or broken.high is None:
        return sound.want != broken.want
    return broken.low > sound.high or broken.high < sound.low


def seen_rows(plan: Plan, all_found: tuple[Found, ...]) -> list[list[object]]:
    """What is seen, where to look in the order of likelihood, and the rows of sheet 8 that tell."""
    made: list[list[object]] = []
    earth = plan.design.region.words["earth"]
    if plan.circuit is not None and plan.circuit.source[1].earth:
        metal = [row for group in all_groups(plan.circuit, earth) for row in group.rows if row.want == "OL" and any(word in row.black for word in (f"{earth} pin", "frame", "heat sink"))]
        what = f"The {plan.design.region.words['residual-current-device']} or the breaker trips."
        brushed = plan.design.motor is None or plan.design.motor.direct
        parts = "a wire, a winding" + (" or a power device" if any(isinstance(part, Electronics) for d in plan.circuit.devices.values() for part in d.inside) else "")
        apart = "; behind a transformer or a supply unit nothing trips: only these rows find it there" if any(isinstance(part, Barrier) for d in plan.circuit.devices.values() for part in d.inside) else ""
        made.append([what, f"{parts} on metal; a wet motor{'; carbon dust in it' if brushed else ''}{apart}", numbers([int(row.number) for row in metal])])
    if plan.circuit is not None:
        made.append(["Start does nothing, and nothing is broken.", _held_back(plan, plan.circuit), "none"])
    for outcome, words in SEEN:
        those = [one for one in all_found if outcome in one.effect.outcomes]
        if those:
            made.append([words, suspects([one.effect for one in those]), _numbers(those)])
    if plan.circuit is not None and "F3" in plan.circuit.devices:
        made.append(["The overload relay trips again and again.", "the work: a dull tool, a tight belt, a dry bearing; its dial (sheet 3)", "none; sheet 9 shows it"])
    if plan.circuit is not None and not any(d.kind == "reversing-switch" for d in plan.circuit.devices.values()):
        what = "the armature's two wires at the motor changed over" if plan.design.motor is None or plan.design.motor.direct else "the leads that sheet 9 names, plug out and waited"
        made.append(["It turns the wrong way.", what, "none; sheet 9 shows it"])
    return made


def suspects(those: list[Effect]) -> str:
    """Faults in the order in which they are looked for: fuses, contacts, wires, what is wound."""
    by_kind: dict[str, list[str]] = {}
    for effect in those:
        fault = effect.fault
        ends = "\u2060–\u2060".join(end.name for end in fault.ends)  # a line does not break within a pair
        match fault.kind:
            case "blown":
                by_kind.setdefault("fuse", []).append(fault.device)
            case "open" | "shorted" | "welded" | "stuck in":
                word = {"open": "open", "shorted": "shorted", "welded": "stuck", "stuck in": "stuck"}[fault.kind]
                by_kind.setdefault(word, []).append(f"{fault.device}\u00a0{ends}" if ends else fault.device)
            case "broken wire":
                by_kind.setdefault("wire", []).append(str(fault.wire))
    parts = []
    if "fuse" in by_kind:
        parts.append(f"fuse {', '.join(dict.fromkeys(by_kind['fuse']))}")
    for word in ("open", "stuck", "shorted"):
        if word in by_kind:
            parts.append(f"{word}: {', '.join(by_kind[word])}")
    if "wire" in by_kind:
        parts.append(f"wire {numbers([int(number) for number in by_kind['wire']])}")
    return "; ".join(parts)


def single_rows(plan: Plan, all_found: tuple[Found, ...]) -> list[list[object]]:
    """Faults that are dangerous or that nothing shows, grouped by what they do and what still stops the machine."""
    earth = plan.design.region.words["earth"]
    groups: dict[tuple[tuple[Outcome, ...], tuple[str, ...]], list[Found]] = {}
    for one in all_found:
        outcomes = tuple(outcome for outcome in one.effect.outcomes if outcome in HAPPENS)
        if outcomes:
            groups.setdefault((outcomes, one.effect.stopped_by), []).append(one)
    made: list[list[object]] = []
    for (outcomes, stops), those in sorted(groups.items(), key=lambda item: _gravity(item[0][0])):
        happens = "; ".join(HAPPENS[outcome] for outcome in outcomes).replace("{earth}", earth)
        still = ", ".join(STOPPERS[kind] for kind in stops if kind in STOPPERS) or "the plug alone"
        made.append([suspects([one.effect for one in those]), f"{happens[0].upper()}{happens[1:]}.", still, _numbers(those)])
    return made


def _gravity(outcomes: tuple[Outcome, ...]) -> int:
    order: list[Outcome] = ["field lost", "emergency stop fails", "full speed", "stays charged", "starts by itself", "disconnect fails", "stop fails", "field unwatched", "brake fails", "brake drags", "guard fails", "pedal fails",
                            "start winding burns", "frame unprotected", "reverses without waiting", "runs on the charger", "overload fails", "thermostat fails", "charged at once", "starts hard", "nothing yet"]  # fmt: skip
    return min(order.index(outcome) for outcome in outcomes)


def _numbers(those: list[Found]) -> str:
    rows = sorted({row for one in those for row in one.rows})
    hidden = any(not one.rows for one in those)
    if not rows:
        return "none; sheet 9 shows it"
    return numbers(rows) + (", not all" if hidden else "")
