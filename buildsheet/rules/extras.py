"""What a builder adds: it must be for this supply, and be wired by this program."""

from collections.abc import Iterator

from buildsheet.circuit import Circuit
from buildsheet.citations import practice
from buildsheet.design import Design
from buildsheet.rules.wet import WET
from buildsheet.sizing.finding import Finding, Said

NEAR = 0.1  # two voltages that differ by less are the same voltage



def pedal(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """A foot pedal in a chain at line voltage."""
    del circuit
    controls, supplied, site = design.project.controls, design.supplied, design.project.site
    if controls is None or "foot pedal" not in controls.also_stops or supplied is None or not supplied.live:
        return
    wet = site is None or site.where is None or site.where in WET  # not known counts as wet
    yield Finding("pedal-live", "stop" if wet else "heed", "DANGER", Said.of("Line voltage in the pedal and its cable, under a foot" + (", in a wet place or nobody knows where." if wet else ".")), "A cut cable or a wet pedal puts line voltage on the foot.",
                  "Take a pedal that air or a rope works, its switch in the box, or leave it out." if wet else "Take a pedal with a whole case and a cable of its own, lead it where nobody treads, and bond the pedal if its case is metal.", practice("foot switches"), ("S7",), electric=True, key="controls.also_stops")  # fmt: skip


def extras(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """Each extra against the supply; screws that are named and not there."""
    supplied, project = design.supplied, design.project
    for number, extra in enumerate(project.extras, 1):
        name = extra.name or extra.what
        if project.fed_by == "battery":
            yield Finding(f"extra-battery-{number}", "stop", "NOTICE", Said.of(f"The {name} on a battery is not wired by this version."), "It would take the current that fills the drive's capacitor, and shorten the run that is worked out.",
                          "Feed it from a battery of its own.", practice("own limit of this version"), key=f"extras.{number}")  # fmt: skip
        elif supplied is not None and extra.voltage.known and supplied.voltage.known and abs(float(extra.voltage) / float(supplied.voltage) - 1) > NEAR:
            yield Finding(f"extra-voltage-{number}", "stop", "WARNING", Said.of(f"The {name} is made for {{0}}, the line has {{1}}.", extra.voltage, supplied.voltage), "It burns, or stays dark.",
                          "Take one for this line; one on a separate adapter is not wired by this program.", practice("loads on the line"), key=f"extras.{number}.voltage")  # fmt: skip
    if circuit is None:
        return
    for number, one in enumerate(project.names, 1):
        device = circuit.devices.get(one.device)
        if device is None or one.name not in device.terminals or one.terminal in device.terminals:  # not renamed
            yield Finding(f"name-of-nothing-{number}", "heed", "NOTICE", Said.of(f"There is no screw {one.terminal} on {one.device}, or {one.name} is another's name."), "The packet goes on calling the screws by its own names.",
                          "Look at sheet 5 for the codes and screws, and write names anew.", practice("own rule"), key=f"names.{number}")  # fmt: skip
