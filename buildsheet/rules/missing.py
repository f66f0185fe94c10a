"""What is not known, and what follows from it: findings with the same unknown root become one that names the root."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from buildsheet.circuit import Circuit
from buildsheet.citations import practice
from buildsheet.design import Design
from buildsheet.design.wiring import missing as waits_for
from buildsheet.project import Project
from buildsheet.sizing.finding import GRADES, SIGNALS, Finding, Said
from buildsheet.worksheet import Value
from buildsheet.worksheet.value import roots

UNWRITTEN = "in the file"  # how the reason ends when a key is not written
NEVER_A_PASS = practice("unknown is never a pass")
MOST_NAMED = 3  # of what stays open, in one sentence; `why` has them all


@dataclass(frozen=True, slots=True)
class Ways:
    """A value that several keys can give: what they are, which one is asked for first, and an example of it."""

    keys: str
    key: str
    example: str


# Values that are no keys themselves, by their id.
GIVEN_BY = {
    "load.T_t": Ways("machine: power, torque or cut", "machine.power", "power: 180 W"),
    "motor.K_e_plate": Ways("motor: spun, free_run or plate", "motor.spun", "spun: 46.9 V at 1000 rpm"),
    "motor.capacitor.capacitance": Ways("motor: capacitor", "motor.capacitor", "capacitor: 12 µF, 400 V"),
    "motor.capacitor.voltage": Ways("motor: capacitor", "motor.capacitor", "capacitor: 12 µF, 400 V"),
    "motor.I_0": Ways("motor: free_run or plate", "motor.free_run", "free_run: 12.0 V, 203 rpm, 0.48 A"),
}


def unwritten(root: Value) -> bool:
    """Whether an unknown value becomes known by writing a key, and not by mending one that is written."""
    return root.why.endswith(UNWRITTEN) or root.id in GIVEN_BY


def key_of(root: Value) -> str:
    """The key to ask for; empty when no key gives the value."""
    key = GIVEN_BY[root.id].key if root.id in GIVEN_BY else root.id
    group, dot, _ = key.partition(".")
    return key if dot and group in Project.model_fields else ""


def unknown_roots(finding: Finding) -> tuple[Value, ...]:
    """What would have to be known before the finding could be judged, or told without a blank."""
    found: dict[str, Value] = {}
    for value in (*finding.unknown, *finding.found.values):
        if not value.known:
            for root in roots(value):
                if not root.known:
                    found.setdefault(_identity(root), root)
    return tuple(found.values())


def _identity(root: Value) -> str:
    """Two values that fail for the same reason have one root; what is not written is told apart by its key."""
    return root.id if unwritten(root) else root.why


def grouped(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """The findings, those with the same unknown root told as one, at the place of the first of them.

    A finding about the root itself leads those that follow from it; where there is none, one is made that names the
    roots. So is one for a finding that would print an unknown number, or that has nothing of its own to do.
    """
    found = tuple(findings)
    rests = {index: unknown_roots(finding) for index, finding in enumerate(found)}
    heads: dict[str, int] = {}
    for index, finding in enumerate(found):
        if finding.unknown and not finding.awaits:
            heads.setdefault(_identity(rests[index][0]), index)
    made: dict[int, Finding] = {}
    told: set[int] = set()
    for group in _groups(rests, heads):
        first, *others = group
        told.update(group)
        if first in heads.values():
            made[first] = _led(found[first], [found[index] for index in others]) if others else found[first]
        elif not others and found[first].do and all(value.known for value in found[first].found.values):
            made[first] = found[first]
        else:
            named = {_identity(root): root for index in group for root in rests[index] if _identity(root) not in heads}
            made[first] = _rooted(tuple(named.values()), [found[index] for index in group])
    return tuple(made.get(index, finding) for index, finding in enumerate(found) if index in made or index not in told)


def _groups(rests: dict[int, tuple[Value, ...]], heads: dict[str, int]) -> Iterator[list[int]]:
    """Indexes of findings that share a root, each once. Those whose every root has a finding of its own go with the
    first of these; the others hang together by the roots that have none."""
    own: dict[int, list[int]] = {index: [index] for index in heads.values()}
    others: list[tuple[set[str], list[int]]] = []
    for index, roots_ in rests.items():
        names = {_identity(root) for root in roots_}
        if not names or index in own:
            continue
        open_ = names - heads.keys()
        if not open_:
            own[heads[next(_identity(root) for root in roots_)]].append(index)
            continue
        touching = [entry for entry in others if entry[0] & open_]
        others = [entry for entry in others if not entry[0] & open_]
        others.append((open_.union(*(e[0] for e in touching)), sorted([index, *(i for e in touching for i in e[1])])))
    yield from own.values()
    yield from (indexes for _, indexes in others)


def _waiting(followers: list[Finding]) -> list[str]:
    """What stays open, each once."""
    named = [
        finding.awaits or next((v.label for v in (*finding.found.values, *finding.unknown) if not v.known), finding.id)
        for finding in followers
    ]
    return list(dict.fromkeys(named))


def _open(waiting: list[str]) -> str:
    """The first of them, and how many more there are, as the end of a sentence."""
    more = len(waiting) - MOST_NAMED
    named = "; ".join(waiting) if more <= 1 else f"{'; '.join(waiting[:MOST_NAMED])} and {more} more"
    return f" It leaves open: {named}."


def _worst(findings: list[Finding], base: Finding) -> Finding:
    """`base` with the gravest grade and signal word, and the parts, of all."""
    met = all(finding.met for finding in findings if finding.grade == "only-with")
    return replace(
        base,
        grade=min((f.grade for f in findings), key=GRADES.index),
        signal=min((f.signal for f in findings), key=SIGNALS.index),
        about=tuple(dict.fromkeys(code for finding in findings for code in finding.about)),
        electric=any(finding.electric for finding in findings),
        met=met,
    )


def _led(head: Finding, followers: list[Finding]) -> Finding:
    """A finding about the root itself, with what follows from it."""
    waiting = _waiting(followers)
    tail = _open(waiting)
    if head.found.values:  # names out of the file may hold signs of a format
        tail = tail.replace("{", "{{").replace("}", "}}")
    led = _worst([head, *followers], head)
    return replace(
        led,
        found=Said(head.found.text + tail, head.found.values),
        why=f"{head.why} It leaves open: {'; '.join(waiting)}.",
        follows=tuple(finding.id for finding in followers),
    )


def _rooted(named: tuple[Value, ...], followers: list[Finding]) -> Finding:
    """A finding that names the unknown roots of others: what is not in the file, since what fails may fail for want of
    it; else what has no result, and why."""
    blank = tuple(root for root in named if unwritten(root))
    named = blank or named
    if blank:
        says = f"Not in the file: {'; '.join(f'{root.label} ({_keys(root)})' if _keys(root) else root.label for root in blank)}."
        do = f"Write {'; '.join(_keys(root) or root.label for root in blank)}."
    else:
        says = f"No result for {'; '.join(f'{root.label}: {root.why}' for root in named)}."
        do = "Correct the number of the file that can't be right; compare plate and readings."
    labels = {root.label for root in named}
    waiting = [one for one in _waiting(followers) if one not in labels]
    name = f"not-known-{(key_of(named[0]) or named[0].id).replace('.', '-').replace('_', '-').lower()}"
    base = Finding(
        name, "heed", "NOTICE", Said(says + (_open(waiting) if waiting else "")), f"Unknown is never a pass. It leaves open: {'; '.join(waiting) or 'what rests on it'}.",
        do, NEVER_A_PASS, key=key_of(named[0]), unknown=named, follows=tuple(finding.id for finding in followers),
    )  # fmt: skip
    return _worst(followers, base)


def _keys(root: Value) -> str:
    return GIVEN_BY[root.id].keys if root.id in GIVEN_BY else key_of(root).replace(".", ": ")


def circuit(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """A machine whose circuit can't be drawn yet, and the values that it waits for."""
    wanted = waits_for(design) if circuit is None else ()
    if wanted:
        yield Finding("no-circuit", "stop", "WARNING", Said.of("The circuit can't be drawn yet."), "A size or a length is not known.", "",
                      NEVER_A_PASS, unknown=wanted, awaits="the circuit")  # fmt: skip
