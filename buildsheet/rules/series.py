"""Dangers of a motor whose field carries the armature's current: it has no speed of its own."""

from collections.abc import Iterator

from buildsheet.circuit import Circuit
from buildsheet.citations import Citation
from buildsheet.design import Design
from buildsheet.motors.series import SeriesMachine
from buildsheet.sizing.finding import Finding, Said

RUNAWAY = Citation("textbooks on electrical machines, series motor; a builder's account of a vacuum motor run bare", "never unloaded on full voltage")
IN_A_ROW = Citation("two drive makers' manuals on series motors", "on a drive made for magnets: field and armature in a row")


def series(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """A series motor: what holds its speed, and how its windings must lie on a drive."""
    del circuit
    if not isinstance(design.motor, SeriesMachine):
        return
    fastest, power = design.runaway, design.project.power
    knob = power is None or power.control is not None
    if fastest is not None and fastest.known:
        bare = "never run it with the knob up and nothing coupled" if knob else "never start it with nothing coupled"
        yield Finding("runs-away-unloaded", "note", "WARNING", Said.of("This motor has no speed of its own: with the belt off it can run up to {0}.", fastest), "Only its load and its fan hold it; a belt that jumps off sets it free.",
                      f"Keep the belt guarded and tight, {bare}, and know that the figure rests on a rotor that stands it (sheet 10).", RUNAWAY, ("M1", "T1") if knob else ("M1",), step="motor", key="motor.kind")  # fmt: skip
    if power is not None and knob:
        yield Finding("field-in-a-row", "note", "NOTICE", Said.of("Field and armature lie in a row on this drive."), "A field across the drive by itself would leave the drive's control of the torque, and one left off lets the armature burn.",
                      "Compare the field's two screws with sheet 5 before the first power; the speed holds less well under load than a magnet motor's.", IN_A_ROW, ("M1",), key="motor.field_winding")  # fmt: skip
