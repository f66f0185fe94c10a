"""Dangers of a machine that runs both ways, and what a residual-current device must see behind a rectifier."""

from collections.abc import Iterator

from buildsheet.circuit import Circuit
from buildsheet.citations import Citation, derivation, memory
from buildsheet.design import Design
from buildsheet.reference import table
from buildsheet.sizing.finding import Finding, Said
from buildsheet.sizing.waist import Steered

PLUGGING = Citation("textbooks on DC machines, plugging; a shop report on magnets weakened by it")
THREADS = derivation("a thread that tightens one way unscrews the other way")
BRUSHES = Citation("a thread on reversing motors of exercise machines: brushes set off neutral", read_from="secondary copy")
TYPES = Citation("IEC 60755 and IEC 62423, types of residual-current devices")
# a single-phase motor by one winding's two ends, at standstill; a series motor by armature or field; neither by the supply
WINDINGS = memory("handbooks on motors", "how each kind is reversed")
LOOSENS = ("left-hand thread", "right-hand thread")


def reversing(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """A motor that no switch turns round, threads that unscrew, brushes off neutral, and what a reversal does that does not wait."""
    machine, motor, sizes = design.project.machine, design.project.motor, design.sizes
    if machine is None or not machine.reverse or motor is None:
        return
    if motor.pulley in LOOSENS or motor.pulley is None:
        known = motor.pulley is not None
        yield Finding("pulley-unscrews", "stop" if known else "heed", "WARNING", Said.of(f"The motor's pulley sits on a {motor.pulley}." if known else "The file does not say how the motor's pulley sits."),
                      "Run the other way it unscrews and flies off.", "Lock it by a key, a pin or a set screw on a flat before it is reversed, and write motor: pulley.", THREADS, ("M1",), key="motor.pulley")  # fmt: skip
    yield from _by_its_windings(design)
    plugged = design.sheet.values.get("motor.I_plug")
    if plugged is not None and plugged.known:
        own = design.sheet.values["motor.I_self"]
        apart = design.motor is not None and design.motor.separate_field is not None
        weakens = " and sparks at the brushes" if apart else " and weakens the magnets, so that the motor runs faster from then on"
        yield Finding("never-plugged", "note", "WARNING", Said.of("Reversed at speed the motor would take {0}; thrown over while it only coasts, still {1}.", plugged, own), f"It jerks the machine, burns contacts, blows the motor fuse{weakens}; coasting it does so with the contactor out, since its own voltage drives the current through the drive's diodes.",
                      "Keep the direction switch where it is until the motor stands: the timer keeps start from working before that, but it can't hold the lever.", PLUGGING, ("S5", "K1"), key="machine.reverse")  # fmt: skip
    if sizes is not None and sizes.wait is not None and not sizes.wait.known:
        yield Finding("wait-unknown", "stop", "WARNING", Said.of("Nobody knows how long the machine coasts, so the standstill timer can't be set."), "Start would reverse it while it still turns.",
                      "Write machine: inertia and motor: inertia, or measure the coast.", PLUGGING, ("K1",), key="machine.inertia", unknown=(sizes.wait,))  # fmt: skip
    del circuit


def _by_its_windings(design: Design) -> Iterator[Finding]:
    """What its kind says: whether a switch turns it round, whether brushes stand for one direction, what it does when thrown."""
    if design.motor is None:
        return
    turned = design.motor.reversal
    if turned.winding is None:
        name, key = ("reverse-needs-leads", turned.asks) if turned.asks else ("reverse-not-worked", "machine.reverse")
        yield Finding(name, "stop", "WARNING", Said.of("A direction switch in its leads does not turn this motor round." if not turned.asks else "Nobody knows whether a direction switch can turn this motor round."), turned.why, turned.instead, WINDINGS, ("M1",), key=key)  # fmt: skip
        return
    steered = design.applied is None or isinstance(design.applied, Steered)
    if design.motor.direct:
        yield Finding("brushes-off-neutral", "note", "NOTICE", Said.of("The brushes of some motors are set for one direction."), "The other way they spark and heat, though it turns.",
                      f"Compare the current {'without load' if steered else 'at the same work'} both ways at first power; more than a fifth apart means a motor for one direction.", BRUSHES, ("M1",), key="machine.reverse")  # fmt: skip
    if not steered:
        yield Finding("reverse-at-rest-only", "note", "WARNING", Said.of(f"{turned.thrown[0].upper()}{turned.thrown[1:]}."), turned.follows,
                      "Turn the direction switch to 0 and wait for standstill: the timer holds back start, not the lever.", WINDINGS, ("S5", "K1", "M1"), step="motor", key="machine.reverse")  # fmt: skip


def residual(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """A residual-current device must see the shape of a fault current behind this way of powering."""
    del circuit
    supply, applied, supplied = design.project.supply, design.applied, design.supplied
    if supply is None or applied is None or supplied is None or not supplied.live:
        return
    word = supply.residual_current
    kinds = table("residual_current")
    seen = ", ".join(key for key in kinds.rows if kinds.cell(key, applied.fault).si)
    if word == "RCD" or (word == "GFCI" and design.region.words["residual-current-device"] != "GFCI"):
        yield Finding("residual-type-unknown", "heed", "WARNING", Said.of("The file does not say of which type the residual-current device is."), "Behind this drive a fault current is no sine; some types do not see it, and stay blind for others too.",
                      f"Read its sign; it must be {seen}. Write supply: RCD type A, or what it is.", TYPES, electric=True, key="supply.residual_current")  # fmt: skip
    elif word is not None and word.startswith("RCD ") and not kinds.cell(word.removeprefix("RCD "), applied.fault).si:
        yield Finding("residual-type-blind", "stop", "DANGER", Said.of(f"An {word} does not see the fault current of a rectifier."), "A fault behind the drive leaves direct current that saturates its core: it no longer trips, for any other machine on it either.",
                      f"Let a licensed person fit one of {seen}.", TYPES, electric=True, key="supply.residual_current")  # fmt: skip
