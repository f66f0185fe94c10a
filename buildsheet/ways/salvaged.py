"""What a salvaged board leaves behind: parts of its old machine that it needs, and a current limit that belongs to the old motor."""

from collections.abc import Iterator, Mapping
from typing import Literal

from buildsheet.citations import Citation, practice
from buildsheet.sizing.finding import Finding, Said
from buildsheet.ways.way import Beside
from buildsheet.worksheet import Value

Whereabouts = Literal["kept", "it had none", "left behind"]
LEFT = Citation("four threads on boards of exercise machines", "the choke was taken for a transformer and thrown away")
NEEDED_FOR = {
    "choke": ("Its current comes in pulses: the motor hums, warms and jerks.", "Get it back, or put one of some millihenries for the motor's current under controls: choke."),
    "transformer": ("A console or a relay of the board is fed from it; without it the board may not start.", "Get it back, or find out by the board's print what it feeds."),
    "harness": ("Its plugs do not fit a bench clip, and a wrong pin burns the board.", "Cut the plugs off the scrap with a hand's length of wire on each."),
}
HIGHER = 1.25  # a limit this far above the motor's plate is another motor's


def left_behind(parts: Mapping[str, Whereabouts | None], beside: Beside) -> Iterator[Finding]:
    """Parts of its old machine that are not here, or not in the circuit; None where the file does not say."""
    for name, where in parts.items():
        why, do = NEEDED_FOR[name]
        smoothed = name == "choke" and beside.choked
        if where == "left behind" and not smoothed:
            yield Finding(f"left-behind-{name}", "heed", "NOTICE", Said.of(f"The {name} of the board's old machine was left behind."), why, do, LEFT, ("T1",), key=f"power.{name}")
        elif where is None:
            yield Finding(f"kept-{name}-unknown", "note", "NOTICE", Said.of(f"The file does not say where the {name} of the board's old machine is."), why, f"Look into the scrap, and write power: {name}.", LEFT, ("T1",), key=f"power.{name}")
        elif where == "kept" and name == "choke" and not smoothed:
            yield Finding("choke-not-wired", "heed", "NOTICE", Said.of("The choke was kept and is not in the circuit."), why, "Measure its inductance and resistance, and write controls: choke.", LEFT, ("T1",), key="controls.choke")


def limit_of_old_motor(old: Value, set_to: Value, beside: Beside) -> Iterator[Finding]:
    """A limit that nobody has set since, made for a motor of the current `old`."""
    plate = beside.plate_current
    if old.known and plate.known and float(old) > HIGHER * float(plate) and not set_to.known:
        yield Finding("limit-of-old-motor", "heed", "WARNING", Said.of("The board's current limit was set for a motor of {0}; this one's plate says {1}.", old, plate), "A jam overloads this motor for as long as the relay takes.",
                      "Turn the limit's trim down by the clamp meter at a held rotor, for a second at a time, and write power: current_limit.", practice("salvaged drive boards"), ("T1", "M1"), key="power.current_limit")  # fmt: skip
