"""What one failing part does: told as findings, each with the measure that is missing against it."""

from collections.abc import Iterator

from buildsheet.circuit import Circuit
from buildsheet.circuit.effects import Effect, Outcome, effects
from buildsheet.circuit.netlist import numbers
from buildsheet.citations import Citation, practice
from buildsheet.design import Design
from buildsheet.sizing.finding import Finding, Said, Signal

FAULTS = Citation("IEC 60204-1", "9.4, control functions in the event of failure", "6th ed. 2016", "memory")
TESTED = practice("what nothing shows is tried at set times")


class Told:
    """How an outcome is told: id, signal word, what is found about these parts, why it matters, and what to do."""

    def __init__(self, id: str, signal: Signal, found: str, why: str, do: str):
        self.id, self.signal, self.found, self.why, self.do = id, signal, found, why, do


TOLD: dict[Outcome, Told] = {
    "emergency stop fails": Told("fault-emergency-stop", "WARNING", "With {}, the emergency stop does not stop the machine.", "Stop and emergency stop both work through that one part.",
                                 "Missing is a second contactor with its poles in series. Without it: try the emergency stop before each day's work, and know that the disconnect still stops the machine."),
    "starts by itself": Told("fault-start", "WARNING", "With {}, the machine starts as soon as it is switched on.", "Nobody expects it, and a hand may be in it.",
                             "Missing is a device that checks its own contacts. Without it: stand clear whenever it is switched on, and let nobody else do it."),
    "disconnect fails": Told("fault-disconnect", "WARNING", "With {}, part of the box stays live with the disconnect off.", "Its lever shows off.",
                             "Prove it dead by meter every time, as sheet 12 says, whatever the lever shows."),
    "full speed": Told("fault-full-speed", "WARNING", "With {}, the motor runs at the speed of the runaway column, whatever the knob says.", "Power devices that fail mostly fail so.",
                       "Missing is a device that watches the speed. Without it: everything that turns stands the runaway speed (sheet 10), and a hand is near the emergency stop while it works."),
    "reverses without waiting": Told("fault-reversal", "WARNING", "With {}, the machine can be reversed while it still turns.", "The wait is kept by one timer and one contact.",
                                     "Leave the direction switch at 0 until the machine stands, as if there were no timer."),
    "runs on the charger": Told("fault-charger", "CAUTION", "With {}, the machine starts with its charger plugged in.", "It drives off with the lead, and the charger feeds the motor.",
                                "Pull the charger's plug before you touch start."),
    "charged at once": Told("fault-charging", "CAUTION", "With {}, the drive's capacitor is filled in one jolt.", "The jolt welds contacts and blows fuses.",
                            "Listen: the contactor pulls in a moment after start is pressed. When it comes at once, or a fuse blows at start, read the charging part of sheet 8 again."),
    "starts hard": Told("fault-hard-start", "CAUTION", "With {}, the start is no longer soft.", "All of the voltage meets a standing motor: belt and gear get a blow, and a fuse may blow.",
                        "Hear the relay click a moment after each start; when the machine jumps off, read the rows of the start resistor on sheet 8 again."),
    "brake fails": Told("fault-brake", "WARNING", "With {}, the brake does not brake: the tool coasts.", "Who has learnt to count on it reaches in.",
                        "Watch it stop at the start of each day's work. One that coasts is not used until the brake is whole."),
    "brake drags": Told("fault-brake-drags", "CAUTION", "With {}, the braking resistor lies across the motor while it runs.", "It glows, and what feeds the motor carries more than it shows.",
                        "Feel that it is cool while the machine runs; one that warms without a stop means plug out."),
    "field lost": Told("fault-field-lost", "DANGER", "With {}, the motor runs without its field: overspeed.", "No sum gives a bound to that speed, and the field relay does not see this fault.",
                       "Hands off and emergency stop at the first sound of a motor that speeds up by itself. Read the field's ohms each month (sheet 8): less than before means shorted turns, and the motor is not run."),
    "field unwatched": Told("fault-field-unwatched", "WARNING", "With {}, nothing watches the motor's field any more: the next break in it is overspeed.", "One contact keeps the machine out while the field carries no current.",
                            "Try it once a month, belt off: plug out, one wire of the field off and taped, plug in, press start: the contactor must not pull in."),
    "guard fails": Told("fault-guard", "WARNING", "With {}, the machine runs on with its guard open.", "The one contact that knows of the guard is stuck.",
                        "Try it once a month: open the guard while it runs without work, and see it stop."),
    "pedal fails": Told("fault-pedal", "WARNING", "With {}, the machine runs on when the foot leaves its pedal.", "A pedal is wet, dusty and stepped on; its contact sticks sooner than others.",
                        "Lift the foot at the start of each day's work, and see it stop."),
    "start winding burns": Told("fault-start-winding", "WARNING", "With {}, the start winding stays on the whole line and burns.", "The motor still turns, with more hum; smoke is the first that is seen.",
                                "Hear the start switch click at each start, where there is one; a motor that hums more or warms faster than it did is stopped and read by sheet 8."),
    "stays charged": Told("fault-charge", "DANGER", "With {}, the capacitor keeps its charge after the plug is out.", "It kills as the line does.",
                          "Never trust the bleeder: read the capacitor with a meter before each touch."),
    "frame unprotected": Told("fault-frame", "WARNING", "With {}, a metal part has lost its {earth}; nothing shows it.", "The next fault makes that part live.",
                              "Prove the bonds of sheet 8 again each year, after each move of the machine, and whenever a protective wire was off."),
}  # fmt: skip


def single_faults(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """Each dangerous outcome of a single fault with the parts that lead to it; a fault after which nothing in the machine
    stops it any more is a stop."""
    if circuit is None or design.supplied is None:
        return
    found = effects(circuit, pole_may_swap=design.supplied.pole_may_swap)
    earth = design.region.words["earth"]
    for outcome, told in TOLD.items():
        those = [effect for effect in found if outcome in effect.outcomes]
        if not those:
            continue
        codes = tuple(dict.fromkeys(code for effect in those for code in concerned(effect)))
        text = told.found.replace("{earth}", earth).replace("{}", named(those))
        yield Finding(told.id, "note", told.signal, Said.of(text), told.why, told.do, FAULTS if outcome != "frame unprotected" else TESTED, codes, electric=outcome in ("disconnect fails", "stays charged", "frame unprotected"))  # fmt: skip
    helpless = [effect for effect in found if "emergency stop fails" in effect.outcomes and not effect.stopped_by]
    if helpless:
        yield Finding("fault-nothing-stops", "stop", "DANGER", Said.of(f"With {named(helpless)}, nothing in the machine stops it."), "Only the plug or the breaker is left, and nobody reaches them in time.",
                      "Put a disconnect within reach.", FAULTS, tuple(dict.fromkeys(code for effect in helpless for code in concerned(effect))))  # fmt: skip


def named(those: list[Effect]) -> str:
    """The faults of some effects in a few words, each once."""
    wires = [effect.fault.wire for effect in those if effect.fault.wire]
    words = list(dict.fromkeys(effect.fault.words for effect in those if not effect.fault.wire))
    if wires:
        words.append(f"wire {wires[0]} broken" if len(wires) == 1 else f"one of the wires {numbers(wires)} broken")
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} or {words[-1]}"


def concerned(effect: Effect) -> tuple[str, ...]:
    """The devices that a fault concerns."""
    return (effect.fault.device,) if effect.fault.device else tuple(end.device for end in effect.fault.ends)
