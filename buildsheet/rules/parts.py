"""Parts on hand that are not good enough, and what the circuit's proofs found."""

from collections.abc import Iterator

from buildsheet.circuit import Circuit
from buildsheet.circuit.proofs import prove
from buildsheet.citations import Citation, practice
from buildsheet.design import Design
from buildsheet.rules.finding import Finding, Said
from buildsheet.worksheet import Value

ORDER = Citation("NFPA 70 (NEC) 240.40 and IEC 60204-1 5.3, 7.2", "order of disconnect and fuse")
PROOF_SOURCES = {
    "protective conductor": Citation("IEC 60204-1", "8.2", "6th ed. 2016", "memory"),
    "restart": Citation("IEC 60204-1", "7.5", "6th ed. 2016"),
    "order": ORDER,
    "isolation": ORDER,
}


def seats(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """Parts on hand that do not meet a need, with the rating that fails."""
    del circuit
    for seat in design.seats:
        if seat.part is None or seat.verdict not in ("does not fit", "not known"):
            continue
        failing = next(
            one
            for one in seat.judged
            if one.result == ("not met" if seat.verdict == "does not fit" else "not known")
        )
        label = f"{seat.place.label[0].lower()}{seat.place.label[1:]}"
        if isinstance(failing.had, Value) and isinstance(failing.need.value, Value):
            found = Said.of(
                f"The {seat.part.kind} on hand is marked {{0}}; the {label} needs {{1}}.",
                failing.had,
                failing.need.value,
            )
        else:
            found = Said.of(
                f"The {seat.part.kind} on hand says nothing of its {failing.need.label}."
                if failing.had is None
                else f"The {seat.part.kind} on hand is {failing.had}, not {failing.need.value}."
            )
        yield Finding(f"part-{seat.place.id}", "heed", "NOTICE", found, "It is not good enough for this place, or nobody knows whether it is.",
                      f"Find or buy a {label} that meets it.", practice("need, then part"), (seat.place.code,), key=f"on_hand.{design.project.on_hand.index(seat.part) + 1}")  # fmt: skip


def proofs(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """Breaches of the circuit's proofs."""
    supply = design.project.supply
    if circuit is None or supply is None:
        return
    for number, breach in enumerate(prove(circuit, pole_may_swap=not design.region.plug_polarised), 1):
        path = " → ".join(str(terminal) for terminal in breach.path)
        positions = ", ".join(f"{code} {position}" for code, position in breach.positions)
        yield Finding(f"proof-{breach.proof.replace(' ', '-')}-{number}", "stop", "DANGER", Said.of(f"{breach.found[0].upper()}{breach.found[1:]}."), f"Path {path}" + (f", with {positions}." if positions else "."),
                      "Change the part or the wiring.", PROOF_SOURCES.get(breach.proof, practice("proof of the circuit")), tuple({t.device for t in breach.path}), electric=True)  # fmt: skip


def circuit_missing(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """A machine whose circuit can't be drawn yet."""
    if circuit is None and design.sizes is not None:
        missing = next(
            (
                v
                for v in (design.sizes.line_fuse, design.sizes.motor_fuse, design.sizes.fault_at_fuse)
                if not v.known
            ),
            None,
        )
        why = missing.why if missing is not None else "the lengths of the cables are not in the file"
        yield Finding("no-circuit", "stop", "WARNING", Said.of("The circuit can't be drawn yet."), f"A size is not known: {why}.", "Write what is missing; `check` lists it.", practice("own rule"), key="runs")  # fmt: skip
