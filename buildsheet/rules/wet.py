"""A wet place: what makes a machine acceptable there, and what is missing for it."""

from collections.abc import Iterator

from buildsheet.circuit import Circuit
from buildsheet.citations import memory
from buildsheet.design import Design
from buildsheet.reference import table
from buildsheet.sizing.finding import Finding, Said

WET = ("damp cellar", "wet place", "outdoors")
EXTRA_LOW = memory("IEC 60364-4-41", "414.4.5: in the wet, live parts are covered at any voltage above 12 V AC or 30 V DC")
RESIDUAL = memory("NFPA 70 (NEC) 210.8, IEC 60364-4-41 411.3.3", "residual-current protection of outlets outdoors and in the damp")
SHUT = memory("IEC 60529", "degrees of protection: a box in the wet keeps splashed water out, second figure 4 or more")


def wet(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """A machine that stands where it is damp, wet or open to the sky."""
    del circuit
    project, supplied = design.project, design.supplied
    if project.site is None or project.site.where not in WET or supplied is None:
        return
    place = {"damp cellar": "a damp cellar", "wet place": "a wet place", "outdoors": "the open"}[project.site.where]
    box = project.box
    if box is not None and box.openings not in (None, "sealed"):
        yield Finding("wet-box", "stop", "DANGER" if supplied.live else "WARNING", Said.of(f"The machine stands in {place}, and its box has openings."), "Water that gets in bridges what the wires keep apart, and stays.",
                      "Take a sealed box, and work its heat without openings.", SHUT, ("U1",), electric=supplied.live, key="box.openings")  # fmt: skip
    if supplied.live:
        given = project.supply
        if given is not None and given.residual_current in (None, "none"):
            word = design.region.words["residual-current-device"]
            yield Finding("wet-no-residual-current", "stop", "DANGER", Said.of(f"Line voltage in {place}, and no {word} that the file knows of."), "Wet skin and a wet floor let a current through that stops a heart, and no fuse sees it.",
                          f"Feed it from a {word} outlet and write supply: residual_current, or take a battery.", RESIDUAL, ("X1",), electric=True, key="supply.residual_current")  # fmt: skip
        yield Finding("wet-line", "heed", "DANGER", Said.of(f"Line voltage in {place}: a battery would take that danger away."), "All rests on a whole cord, a shut box, a bonded frame and a residual-current device that trips.",
                      "Press the test button each day, lift the cord off the ground, hang the box under a roof, and let a licensed person look at the place.", RESIDUAL, ("X1", "U1"), electric=True, key="site.where")  # fmt: skip
        return
    limit = table("bench_limits").cell("wet voltage", "value")
    if supplied.highest.known and float(supplied.highest) > limit.si:
        yield Finding("wet-battery-high", "heed", "WARNING", Said.of(f"In {place} the battery's {{0}} are above the {limit.printed} that wet hands may meet.", supplied.highest), "Wet skin lets more current through than dry skin.",
                      "Cover every live screw, the posts too, and take a lower battery if you can.", EXTRA_LOW, ("X1",), electric=True, key="battery.voltage")  # fmt: skip
    else:
        yield Finding("wet-battery", "note", "CAUTION", Said.of(f"It may stand in {place} because its battery never passes {limit.printed} and its box is shut."), "Water still eats contacts and carries the battery's current where it is not meant to go.",
                      "Cable entries from below, a drip loop in each cable, the battery off the ground; after a soaking open it, dry it, and read sheet 8 again.", EXTRA_LOW, ("U1", "X1"), key="site.where")  # fmt: skip
