"""Dangers of a battery: what it gives into a short, gas, a drive it is too high for, running it flat."""

from collections.abc import Iterator

from buildsheet.circuit import Circuit
from buildsheet.citations import Citation, memory, practice
from buildsheet.design import Design
from buildsheet.reference import table
from buildsheet.rules.clauses import clause
from buildsheet.sizing.finding import Finding, Said

ABYC = memory("ABYC E-11", "fuse within 7 in of the battery's post; interrupt ratings")
CUT_OFF = Citation("a lead-acid article and a battery monitor's manual", "cut-off under load, depth of discharge")
WHOLE = 0.05  # of a cell, by which printed voltages are rounded
NEAR = 0.1  # voltages that differ by less are the same voltage


def battery(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """A machine that runs on a battery."""
    del circuit
    given, supplied = design.project.battery, design.supplied
    if given is None or design.project.fed_by != "battery":
        return
    if design.project.supply is not None:
        yield Finding("two-supplies", "stop", "WARNING", Said.of("The file names an outlet and a battery."), "The circuit is wired for one of them.",
                      "Take out the one that does not feed the drive.", practice("own rule"), key="supply")  # fmt: skip
    if given.kind is None:
        yield Finding("battery-kind-unknown", "stop", "WARNING", Said.of("The file does not say what kind of battery it is."), "Its highest and lowest voltage, and what it gives into a short, follow from its cells.",
                      "Read it off the battery and write battery: kind.", CUT_OFF, ("X1",), key="battery.kind")  # fmt: skip
    if supplied is None:
        return
    limit = table(design.region.tables["rules"]).cell("touch voltage", "value")
    if supplied.highest.known and float(supplied.highest) > limit.si:
        yield Finding("battery-not-extra-low", "stop", "DANGER", Said.of(f"The battery reaches {{0}}; {limit.printed} is the most that may be touched.", supplied.highest), "This program wires a battery without protective conductor, insulation test or live-part warnings.",
                      "Take a battery of a lower voltage, or let a licensed person plan it.", clause(design, "touch voltage"), ("X1",), electric=True, key="battery.voltage")  # fmt: skip
    machine, controls = design.project.machine, design.project.controls
    if machine is not None and machine.reverse:
        yield Finding("battery-reverse", "stop", "NOTICE", Said.of("A machine on a battery that runs both ways is not wired by this version."), "Its charging timer and its standstill timer would stand in each other's way.",
                      "Leave reverse out, or feed it from an outlet.", practice("own limit of this version"), key="machine.reverse")  # fmt: skip
    if controls is not None and controls.fan is not None:
        yield Finding("battery-fan", "stop", "NOTICE", Said.of("A fan beside a drive on a battery is not wired by this version."), "It would take the current that fills the drive's capacitor, so that the contactor closes on an empty one.",
                      "Cool the drive by its heat sink.", practice("own limit of this version"), key="controls.fan")  # fmt: skip
    if given.kind is not None and given.voltage.known:
        cell = table("batteries").cell(given.kind, "nominal").si
        cells = float(given.voltage) / cell
        if abs(cells - round(cells)) > WHOLE:
            yield Finding("battery-cells", "stop", "WARNING", Said.of("{0} is no whole number of cells of this kind.", given.voltage), "Its highest and lowest voltage are worked from its cells: charger, drive and fuses rest on them.",
                          "Write the voltage as printed, 12.8 V, 25.6 V or 51.2 V for lithium-iron-phosphate.", CUT_OFF, ("X1",), key="battery.voltage")  # fmt: skip
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
    if made_for is not None and made_for.known and supplied.voltage.known and abs(float(made_for) / float(supplied.voltage) - 1) > NEAR:
        yield Finding("drive-for-another-battery", "stop", "WARNING", Said.of(f"The {power.noun} is made for {{0}}, the battery has {{1}}.", made_for, supplied.voltage), "Too much bursts its capacitor; too little and it does not start.",
                      "Take a drive for this battery.", practice("drives on batteries"), ("T1",))  # fmt: skip
    if supplied.highest.known and most is not None:
        if not most.known:
            yield Finding("drive-voltage-unknown", "heed", "WARNING", Said.of(f"Nobody knows the highest voltage that the {power.noun} stands; the battery reaches {{0}}.", supplied.highest), "A capacitor above its voltage bursts.",
                          "Read the voltage on its capacitor or in its data and write power: battery_most.", practice("drives on batteries"), ("T1",), key="power.battery_most")  # fmt: skip
        elif supplied.highest > most:
            yield Finding("drive-below-battery", "stop", "WARNING", Said.of(f"The battery reaches {{0}} on its charger; the {power.noun} stands {{1}}.", supplied.highest, most), "A capacitor above its voltage bursts.",
                          "Take one that stands it.", practice("drives on batteries"), ("T1",))  # fmt: skip
    if supplied.lowest.known and (not cut_off.known or float(cut_off) < float(supplied.lowest) * (1 - 0.01)):
        yield Finding("battery-run-flat", "heed", "NOTICE", Said.of("Nothing stops the machine at {0}, where this battery is empty.", supplied.lowest), "A battery that is run flat is soon a dead one, and cells that are turned round gas or burn.",
                      "Take a drive with a cut-off and write power: cut_off, or fit a battery guard.", CUT_OFF, ("X1", "T1"), key="power.cut_off")  # fmt: skip
    if stored is not None and stored.loaded.known and supplied.lowest.known and stored.loaded < supplied.lowest:
        yield Finding("battery-too-weak", "stop", "WARNING", Said.of("Under the hardest load the battery falls to {0}; it is empty at {1}.", stored.loaded, supplied.lowest), "The machine stops or runs the battery flat in minutes.",
                      "Take a larger battery, or work it less.", CUT_OFF, ("X1",))  # fmt: skip
