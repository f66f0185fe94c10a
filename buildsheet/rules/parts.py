"""Parts on hand that are not good enough, and what the circuit's proofs found."""

from collections.abc import Iterator

from buildsheet.circuit import Circuit
from buildsheet.circuit.proofs import prove
from buildsheet.citations import Citation, practice
from buildsheet.design import Design
from buildsheet.sizing.finding import Finding, Said
from buildsheet.worksheet import Value

ORDER = Citation("IEC 60204-1", "5.3 and 7.2, order of disconnect and fuse", "6th ed. 2016", "memory")
PROOF_SOURCES = {
    "protective conductor": Citation("IEC 60204-1", "8.2", "6th ed. 2016", "memory"),
    "restart": Citation("IEC 60204-1", "7.5", "6th ed. 2016"),
    "order": ORDER,
    "isolation": ORDER,
    "reversal": Citation("IEC 60204-1", "9.3, operation of opposite motions interlocked", "6th ed. 2016", "memory"),
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
                else f"The {seat.part.kind} on hand is {failing.had}; it must be {failing.need.value}."
            )
        yield Finding(f"part-{seat.place.id}", "heed", "NOTICE", found, "It is not good enough for this place, or nobody knows whether it is.",
                      f"Find or buy a {label} that meets it.", practice("need, then part"), (seat.place.code,), key=f"on_hand.{design.project.on_hand.index(seat.part) + 1}", awaits=f"whether the {seat.part.kind} on hand fits")  # fmt: skip


def used(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """Used parts at safety places: they may stay when they show what their place asks."""
    del circuit
    for seat in design.seats:
        if seat.part is not None and seat.verdict == "fits with a condition":
            label = f"{seat.place.label[0].lower()}{seat.place.label[1:]}"
            yield Finding(f"used-{seat.place.id}", "note", "NOTICE", Said.of(f"The {label} is a used part."), "Its marks fit; nobody knows what it has been through.",
                          f"It may stay when it shows this: {seat.place.proof}.", practice("used parts at safety places"), (seat.place.code,), key=f"on_hand.{design.project.on_hand.index(seat.part) + 1}")  # fmt: skip


def proofs(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """Breaches of the circuit's proofs."""
    if circuit is None or design.supplied is None:
        return
    for number, breach in enumerate(prove(circuit, pole_may_swap=design.supplied.pole_may_swap), 1):
        path = " → ".join(str(terminal) for terminal in breach.path)
        positions = ", ".join(f"{code} {position}" for code, position in breach.positions)
        yield Finding(f"proof-{breach.proof.replace(' ', '-')}-{number}", "stop", "DANGER", Said.of(f"{breach.found[0].upper()}{breach.found[1:]}."), f"Path {path}" + (f", with {positions}." if positions else "."),
                      "Change the part or the wiring.", PROOF_SOURCES.get(breach.proof, practice("proof of the circuit")), tuple({t.device for t in breach.path}), electric=True)  # fmt: skip
