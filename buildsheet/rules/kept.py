"""A salvaged board: what must come with it, and what its settings belong to."""

from collections.abc import Iterator

from buildsheet.circuit import Circuit
from buildsheet.citations import Citation, practice
from buildsheet.design import Design
from buildsheet.rules.finding import Finding, Said

LEFT = Citation("four threads on boards of exercise machines", "the choke was taken for a transformer and thrown away")
SIGNALS = practice("boards that take their speed from a console")
NEEDED_FOR = {
    "choke": ("Its current comes in pulses: the motor hums, warms and jerks.", "Get it back, or put one of some millihenries for the motor's current under controls: choke."),
    "transformer": ("A console or a relay of the board is fed from it; without it the board may not start.", "Get it back, or find out by the board's print what it feeds."),
    "harness": ("Its plugs do not fit a bench clip, and a wrong pin burns the board.", "Cut the plugs off the scrap with a hand's length of wire on each."),
}
HIGHER = 1.25  # a limit this far above the motor's plate is another motor's


def kept(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """Parts of its old machine, and a current limit that belongs to its old motor."""
    del circuit
    power, motor, controls = design.project.power, design.project.motor, design.project.controls
    if power is None:
        return
    if power.signal_source == "":
        yield Finding("speed-signal-unknown", "stop", "WARNING", Said.of("The file does not say what gives the board its pulses."), "A board that gets none may stand still, or run to the full.",
                      "Write power: speed_by: console or pulse source, after its pulses are measured at the old console.", SIGNALS, ("T1",), key="power.speed_by")  # fmt: skip
    if not power.console_fed:
        yield Finding("console-without-transformer", "stop", "WARNING", Said.of("The console is kept, and the small transformer that fed it is not."), "Its voltage belongs to this console: another one burns it, or the board never starts.",
                      "Get it back out of the scrap and write power: transformer: kept, or take a pulse source.", SIGNALS, ("T1",), key="power.transformer")  # fmt: skip
    for name, where in power.parts_of_old_machine.items():
        why, do = NEEDED_FOR[name]
        smoothed = name == "choke" and controls is not None and controls.choke is not None
        if where == "left behind" and not smoothed:
            yield Finding(f"left-behind-{name}", "heed", "NOTICE", Said.of(f"The {name} of the board's old machine was left behind."), why, do, LEFT, ("T1",), key=f"power.{name}")  # fmt: skip
        elif where is None:
            yield Finding(f"kept-{name}-unknown", "note", "NOTICE", Said.of(f"The file does not say where the {name} of the board's old machine is."), why, f"Look into the scrap, and write power: {name}.", LEFT, ("T1",), key=f"power.{name}")  # fmt: skip
        elif where == "kept" and name == "choke" and not smoothed:
            yield Finding("choke-not-wired", "heed", "NOTICE", Said.of("The choke was kept and is not in the circuit."), why, "Measure its inductance and resistance, and write controls: choke.", LEFT, ("T1",), key="controls.choke")  # fmt: skip
    plate = motor.plate if motor is not None else None
    old = power.limit_made_for
    if old.known and plate is not None and plate.current.known and float(old) > HIGHER * float(plate.current) and (set_to := power.current_limit_set) is not None and not set_to.known:
        yield Finding("limit-of-old-motor", "heed", "WARNING", Said.of("The board's current limit was set for a motor of {0}; this one's plate says {1}.", old, plate.current), "A jam overloads this motor for as long as the relay takes.",
                      "Turn the limit's trim down by the clamp meter at a held rotor, for a second at a time, and write power: current_limit.", practice("salvaged drive boards"), ("T1", "M1"), key="power.current_limit")  # fmt: skip
