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
        able = power.control is not None
        found = f"Started with the {power.control.name} at {power.control.slow}, the {power.noun} runs the motor up softly: a resistor ahead of it does nothing for the start." if power.control is not None else "A soft start of this motor, fed so, is not worked by this version."
        yield Finding("soft-start-needless" if able else "soft-start-not-worked", "heed" if able else "stop", "NOTICE", Said.of(found), "The circuit leaves it out." if able else "Its run-up follows no time constant that this version knows.",
                      "Take controls: soft_start out of the file" + (", and start it slow." if able else "."), RAMPS if able else OWN_LIMIT, (power.first[0],), key="controls.soft_start")  # fmt: skip
        return
    if soft is None:
        values = design.sheet.values
        stalls = values.get("R5.omega_s")
        if stalls is not None:
            yield Finding("soft-start-stalls", "stop", "WARNING", Said.of("With the start resistor in, this work holds the motor still."), "It stands and heats until the resistor is bridged, and then starts hard.",
                          "Start it without work, or take controls: soft_start out of the file.", KEEPS, ("M1", "R5"), key="controls.soft_start")  # fmt: skip
            return
        judged = values.get("R5.R_m", values.get("motor.I_lr"))  # what was found enough: a resistance below nothing, or the held current
        if judged is not None and judged.known and "R5.I_max" in values:
            yield Finding("soft-start-needless", "heed", "NOTICE", Said.of("What lies ahead of the motor already keeps its start to {0}.", values["R5.I_max"]), "The circuit leaves the resistor out.",
                          "Take controls: soft_start out of the file.", KEEPS, ("M1",), key="controls.soft_start")  # fmt: skip
        else:
            yield Finding("soft-start-unknown", "stop", "NOTICE", Said.of("The soft start can't be worked: something of motor or work is not known yet."), "It needs the motor's plate, its constant and its resistance, what turns with it, and the work.",
                          "Measure the motor (sheet of its kind), or take controls: soft_start out of the file.", OWN_LIMIT, ("M1",), key="controls.soft_start")  # fmt: skip
        return
    if soft.second.known and soft.most.known and soft.second > soft.most:
        yield Finding("soft-start-loaded", "heed", "NOTICE", Said.of("With the hardest work on, bridging the resistor takes {0}, more than the {1} that the start is kept to.", soft.second, soft.most), "With work on, the motor comes up to a part of its speed only until the resistor is bridged.",
                      "Start it without work.", KEEPS, ("R5", "K5"), key="controls.soft_start")  # fmt: skip
    yield Finding("start-resistor-hot", "note", "CAUTION", Said.of("If it is never bridged, the start resistor makes {0}.", soft.stuck), "Its thermostat stops the machine, and until then it is hot enough to burn.",
                  "Hear the relay click after each start; when it does not, stop and read sheet 8 again.", practice("start resistors"), ("R5", "F8"), key="controls.soft_start")  # fmt: skip
