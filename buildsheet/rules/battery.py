"""Dangers of a battery: what it gives into a short, gas, a drive it is too high for, running it flat."""

from collections.abc import Iterator

from buildsheet.circuit import Circuit
from buildsheet.citations import Citation, memory, practice
from buildsheet.design import Design
from buildsheet.rules.finding import Finding, Said

ABYC = memory("ABYC E-11", "fuse within 7 in of the battery's post; interrupt ratings")
CUT_OFF = Citation("a lead-acid article and a battery monitor's manual", "cut-off under load, depth of discharge")
NEAR = 0.1  # voltages that differ by less are the same voltage


def battery(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """A machine that runs on a battery."""
    del circuit
    given, supplied, power = design.project.battery, design.supplied, design.project.power
    if given is None or power is None or power.runs_on != "battery":
        return
    if design.project.supply is not None:
        yield Finding("two-supplies", "stop", "WARNING", Said.of("The file names an outlet and a battery."), "The circuit is wired for one of them.",
                      "Take out the one that does not feed the drive.", practice("own rule"), key="supply")  # fmt: skip
    if given.kind is None:
        yield Finding("battery-kind-unknown", "stop", "WARNING", Said.of("The file does not say what kind of battery it is."), "Its highest and lowest voltage, and what it gives into a short, follow from its cells.",
                      "Read it off the battery and write battery: kind.", CUT_OFF, ("X1",), key="battery.kind")  # fmt: skip
    if supplied is None:
        return
    if supplied.fault.known:
        yield Finding("battery-short", "note", "WARNING", Said.of("A spanner across the battery's posts carries {0}.", supplied.fault), "It glows and throws molten metal before anybody can let go.",
                      "Take rings off, wrap the handle of the spanner, plus comes off first and goes on last, keep the posts covered.", ABYC, ("X1", "F1"), step="cord", key="battery")  # fmt: skip
    if given.kind is not None and given.kind.startswith("lead-acid"):
        yield Finding("battery-gas", "note", "WARNING", Said.of("A lead battery gives off gas that explodes while it is charged."), "A spark at the post sets it off and bursts the case.",
                      "Charge it where air passes, switch the charger off before its plug comes out, wear eye protection.", practice("charging of lead batteries"), ("X1", "X4"), key="battery.kind")  # fmt: skip
    yield from _drive(design)


def _drive(design: Design) -> Iterator[Finding]:
    power, supplied, stored = design.project.power, design.supplied, design.stored
    if power is None or supplied is None:
        return
    made_for, most, cut_off = power.made_for, power.stands, power.stops_at
    if made_for.known and supplied.voltage.known and abs(float(made_for) / float(supplied.voltage) - 1) > NEAR:
        yield Finding("drive-for-another-battery", "stop", "WARNING", Said.of("The drive is made for {0}, the battery has {1}.", made_for, supplied.voltage), "Too much bursts its capacitor; too little and it does not start.",
                      "Take a drive for this battery.", practice("drives on batteries"), ("T1",))  # fmt: skip
    if supplied.highest.known:
        if not most.known:
            yield Finding("drive-voltage-unknown", "heed", "WARNING", Said.of("Nobody knows the highest voltage that the drive stands; the battery reaches {0}.", supplied.highest), "A capacitor above its voltage bursts.",
                          "Read the voltage on its capacitor or in its data and write power: battery_most.", practice("drives on batteries"), ("T1",), key="power.battery_most")  # fmt: skip
        elif supplied.highest > most:
            yield Finding("drive-below-battery", "stop", "WARNING", Said.of("The battery reaches {0} on its charger; the drive stands {1}.", supplied.highest, most), "A capacitor above its voltage bursts.",
                          "Take a drive that stands it.", practice("drives on batteries"), ("T1",))  # fmt: skip
    if supplied.lowest.known and (not cut_off.known or float(cut_off) < float(supplied.lowest) * (1 - 0.01)):
        yield Finding("battery-run-flat", "heed", "NOTICE", Said.of("Nothing stops the machine at {0}, where this battery is empty.", supplied.lowest), "A battery that is run flat is soon a dead one, and cells that are turned round gas or burn.",
                      "Take a drive with a cut-off and write power: cut_off, or fit a battery guard.", CUT_OFF, ("X1", "T1"), key="power.cut_off")  # fmt: skip
    if stored is not None and stored.loaded.known and supplied.lowest.known and stored.loaded < supplied.lowest:
        yield Finding("battery-too-weak", "stop", "WARNING", Said.of("Under the hardest load the battery falls to {0}; it is empty at {1}.", stored.loaded, supplied.lowest), "The machine stops or runs the battery flat in minutes.",
                      "Take a larger battery, or work it less.", CUT_OFF, ("X1",))  # fmt: skip
