"""A soft start: where it helps, where it does nothing, and what it asks of the hands."""

from collections.abc import Iterator

from buildsheet.circuit import Circuit
from buildsheet.citations import derivation, practice
from buildsheet.design import Design
from buildsheet.sizing.finding import Finding, Said

WINDINGS = practice("single-phase motors with a start winding")
RAMPS = practice("drives and dials")
OWN_LIMIT = practice("own limit of this version")
KEEPS = derivation("the current that the work takes, times the resistance with it over that without")


def soft_start(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """A soft start that was asked for."""
    del circuit
    project, motor, sizes = design.project, design.motor, design.sizes
    controls, power = project.controls, project.power
    if controls is None or not controls.soft_start or motor is None or power is None or sizes is None:
        return
    soft, hard = sizes.soft_start, sizes.outfit.hard_start
    if motor.starting is not None:
        yield Finding("soft-start-of-induction-motor", "stop", "WARNING", Said.of("A resistor ahead of this motor is no soft start."), "Its torque falls with the square of the volts: it comes up slowly or not at all, and its start winding stays on and burns.",
                      "Take controls: soft_start out of the file; start it without work, or behind a belt that slips at first.", WINDINGS, ("M1",), key="controls.soft_start")  # fmt: skip
        return
    if hard is None:
        able = motor.direct and power.control is not None
        found = f"The {power.noun} runs the motor up by itself: a resistor ahead of it does nothing for the start." if able else "A soft start of this motor, fed so, is not worked by this version."
        yield Finding("soft-start-needless", "heed" if able else "stop", "NOTICE", Said.of(found), "The circuit leaves it out." if able else "Its run-up follows no time constant that this version knows.",
                      "Take controls: soft_start out of the file" + (f", and set the {power.noun} to a slow run-up." if able else "."), RAMPS if able else OWN_LIMIT, (power.first[0],), key="controls.soft_start")  # fmt: skip
        return
    if soft is None:
        enough = design.sheet.values.get("R5.R_m")
        if enough is not None and enough.known:
            yield Finding("soft-start-needless", "heed", "NOTICE", Said.of("What lies ahead of the motor already keeps its start to {0}.", design.sheet.values["R5.I_max"]), "The circuit leaves the resistor out.",
                          "Take controls: soft_start out of the file.", KEEPS, ("M1",), key="controls.soft_start")  # fmt: skip
        else:
            yield Finding("soft-start-unknown", "stop", "NOTICE", Said.of("The soft start can't be worked for this motor."), "It needs a motor that makes its own field, its back-EMF constant and its resistance.",
                          "Measure the motor (sheet of its kind), or take controls: soft_start out of the file.", OWN_LIMIT, ("M1",), key="controls.soft_start")  # fmt: skip
        return
    if project.machine is not None and project.machine.reverse:
        yield Finding("soft-start-reverse", "stop", "NOTICE", Said.of("A machine that runs both ways has no soft start in this version."), "Its standstill timer would hang behind the start resistor.",
                      "Take one of the two.", OWN_LIMIT, ("K1", "K4"), key="controls.soft_start")  # fmt: skip
    if soft.second.known and soft.most.known and soft.second > soft.most:
        yield Finding("soft-start-loaded", "heed", "NOTICE", Said.of("With the hardest work on, bridging the resistor takes {0}, more than the {1} that the start is kept to.", soft.second, soft.most), "With work on, the motor comes up to a part of its speed only until the resistor is bridged.",
                      "Start it without work.", KEEPS, ("R5", "K5"), key="controls.soft_start")  # fmt: skip
    yield Finding("start-resistor-hot", "note", "CAUTION", Said.of("If it is never bridged, the start resistor makes {0}.", soft.stuck), "Its thermostat stops the machine, and until then it is hot enough to burn.",
                  "Hear the relay click after each start; when it does not, stop and read sheet 8 again.", practice("start resistors"), ("R5", "F8"), key="controls.soft_start")  # fmt: skip
