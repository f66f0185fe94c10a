"""What stays dangerous when the supply is away or a fuse has blown: told, with what to do about it."""

from collections.abc import Iterator

from buildsheet.circuit import Circuit, Terminal
from buildsheet.circuit.breach import is_metal, of_kind
from buildsheet.circuit.contraction import reached
from buildsheet.circuit.sequence import runs
from buildsheet.circuit.stored import SAFE_VOLTS
from buildsheet.citations import Citation, derivation
from buildsheet.design import Design
from buildsheet.sizing.finding import Finding, Said

SIXTY = Citation("IEC 60204-1", "6.2.4, protection against residual voltages", "6th ed. 2016", "memory")


def turning_motor(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """A motor that makes more than 60 V of its own while it turns."""
    most = design.hardest("emf")
    if circuit is None or most is None:
        return
    if float(most) > SAFE_VOLTS:
        yield Finding("turning-motor-live", "note", "WARNING", Said.of("While it turns the motor makes up to {0} of its own, with the supply off.", most), "Its wires, the drive's output and what hangs on them are live until it stands, also when it is turned by hand or belt.",
                      "Wait until it stands before the cover comes off, and don't turn it with its wires bare.", SIXTY, ("M1", "T1"), electric=True, step="motor")  # fmt: skip


def blown_motor_fuse(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """A motor fuse in one lead leaves the other lead live."""
    if circuit is None or design.supplied is None or not design.supplied.live:
        return
    source, poles = circuit.source
    starts = [Terminal(source.code, name) for name in (poles.poles if design.supplied.pole_may_swap else poles.live)]
    for fuse in of_kind(circuit, "motor-fuse"):
        for run in runs(circuit):
            live = {end for start in starts for end in reached(circuit, run.positions, start, blown=frozenset({fuse.code}))}
            motor = sorted(str(end) for end in live if circuit.devices[end.device].kind == "motor" and not is_metal(circuit, end))
            if motor:
                yield Finding("live-behind-motor-fuse", "note", "DANGER", Said.of(f"With {fuse.code} blown the motor stands, and its wires are still live."), "The fuse lies in one lead; the other still joins them to the line.",
                              f"Plug out before the fuse is looked at. The holder of {fuse.code} is one that no finger reaches into.", derivation("one fuse in one of two leads"), (fuse.code, "M1"), electric=True)  # fmt: skip
                return


def charged_drive(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """A drive whose capacitor stays charged to the line's peak when the plug is out."""
    del circuit
    power = design.project.power
    kept = power.keeps_charge if power is not None else None
    if kept is None or design.applied is None or power is None:
        return
    volts = power.pulse_height(design.applied)
    if volts is None:
        return
    lasts = "" if kept.known else " Nobody knows for how long."
    find = "" if kept.known else f" Find the time in the {power.noun}'s data and write power: discharged_after."
    yield Finding("drive-stays-charged", "note" if kept.known else "heed", "DANGER", Said.of(f"With the plug out the {power.noun} still holds {{0}}.{lasts}", volts), "It kills as the line does, and nothing outside its case shows it: not its output, not the disconnect.",
                  "Read the capacitor's own two screws before each touch; if they can't be reached the cover stays shut." + find, SIXTY, ("T1",), electric=True, step="motor", key="power.discharged_after")  # fmt: skip
