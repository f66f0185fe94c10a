"""A place gets its needs first; then a part is judged rating by rating. Unknown is never a pass."""

from dataclasses import dataclass
from typing import Literal

from buildsheet.formulas.choice import margin, room
from buildsheet.given.parts import Part
from buildsheet.worksheet import Value, Worksheet

Op = Literal["≥", "≤", "="]
Result = Literal["met", "not met", "not known"]
Verdict = Literal["fits", "fits with a condition", "does not fit", "not known", "to buy"]
USABLE = ("fits", "fits with a condition")


@dataclass(frozen=True, slots=True)
class Need:
    """One demand of a place: the rating's name in the part, and a quantity or a word that it must meet. `slack` is how
    far an equal quantity may differ, as a share: nothing for a fuse, whose excess is a hazard. `also` are other words
    that meet it."""

    rating: str
    op: Op
    value: Value | str
    label: str
    slack: float = 1e-9
    also: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Place:
    """A place in the machine that one part fills. `say` is how to ask for it at the counter, in words around Values;
    `or_else` what else will do; `code` the device of the circuit; `proof` what a used part must show before it may
    stay, when the place is a safety place."""

    id: str
    kind: str
    label: str
    needs: tuple[Need, ...]
    say: tuple[object, ...]
    code: str = ""
    or_else: str = ""
    safety: bool = False
    proof: str = ""


@dataclass(frozen=True, slots=True)
class Judged:
    """A need against a part: what the part has, the result, and the margin when both are numbers."""

    need: Need
    had: Value | str | None
    result: Result
    margin: Value | None = None


@dataclass(frozen=True, slots=True)
class Seat:
    """A place with the part that fills it, or none when it is to be bought."""

    place: Place
    part: Part | None
    judged: tuple[Judged, ...]
    verdict: Verdict

    @property
    def usable(self) -> bool:
        """Whether the part on hand takes the place, if only under a condition."""
        return self.part is not None and self.verdict in USABLE

    @property
    def least(self) -> Value | None:
        """The smallest margin that is known."""
        margins = [one.margin for one in self.judged if one.margin is not None and one.margin.known]
        return min(margins, default=None)


def judge(place: Place, part: Part, sheet: Worksheet, tag: str) -> Seat:
    """How well `part` meets the needs of `place`: a used part fits a safety place on condition that it shows its proof.
    `tag` keeps the ids of the margins apart."""
    judged = tuple(_judge(need, part, sheet, f"{place.id}.{tag}.{need.rating}") for need in place.needs)
    results = {one.result for one in judged}
    verdict: Verdict = (
        "does not fit"
        if "not met" in results
        else "not known"
        if "not known" in results
        else "fits with a condition"
        if place.proof and part.origin not in ("new", "bought")
        else "fits"
    )
    return Seat(place, part, judged, verdict)


def _judge(need: Need, part: Part, sheet: Worksheet, id: str) -> Judged:
    had = getattr(part, need.rating, None)
    if isinstance(need.value, str):
        if had is None or had == "":
            return Judged(need, None, "not known")
        return Judged(need, str(had), "met" if str(had) in (need.value, *need.also) else "not met")
    if not isinstance(had, Value) or not had.known or not need.value.known or had.unit is not need.value.unit:
        return Judged(need, had if isinstance(had, Value) else None, "not known")
    sheet.take(had)
    if need.op == "≤":
        return Judged(
            need,
            had,
            "met" if had <= need.value else "not met",
            sheet.work(f"{id}_room", room, f"room, {need.label}", used=had, limit=need.value),
        )
    met = had >= need.value if need.op == "≥" else abs(float(had) / float(need.value) - 1) <= need.slack
    return Judged(
        need,
        had,
        "met" if met else "not met",
        sheet.work(f"{id}_margin", margin, f"to spare, {need.label}", had=had, needed=need.value),
    )


def fit(places: tuple[Place, ...], parts: tuple[Part, ...], sheet: Worksheet) -> tuple[Seat, ...]:
    """Seats parts at places of their kind, as many as can be (augmenting paths); the rest is to buy.

    A part that does not fit takes a place only when nothing else claims it, so that the sheet can say why it is not
    good enough.
    """
    verdicts = {
        (place.id, index): judge(place, part, sheet, str(index + 1))
        for place in places
        for index, part in enumerate(parts)
        if part.kind == place.kind
    }
    seated: dict[int, str] = {}
    for place in places:
        _augment(place.id, places, verdicts, seated, set())
    by_place = {place_id: index for index, place_id in seated.items()}
    taken = set(seated)
    seats = []
    for place in places:
        index = by_place.get(place.id)
        if index is None:
            spare = next((i for p, i in verdicts if p == place.id and i not in taken), None)
            if spare is not None:
                taken.add(spare)
                seats.append(verdicts[place.id, spare])
                continue
        seats.append(
            verdicts[place.id, index]
            if index is not None
            else Seat(place, None, tuple(Judged(n, None, "not known") for n in place.needs), "to buy")
        )
    return tuple(seats)


def _augment(
    place_id: str,
    places: tuple[Place, ...],
    verdicts: dict[tuple[str, int], Seat],
    seated: dict[int, str],
    tried: set[int],
) -> bool:
    for (wanted, index), seat in verdicts.items():
        if wanted != place_id or not seat.usable or index in tried:
            continue
        tried.add(index)
        if index not in seated or _augment(seated[index], places, verdicts, seated, tried):
            seated[index] = place_id
            return True
    return False
