"""Metal parts at the foot of the sheet: a column for each, so that the bar's studs come in their order if they can."""

from collections.abc import Iterable, Mapping
from itertools import combinations, islice, permutations

from buildsheet.packet.diagram.layout import Placement
from buildsheet.packet.diagram.model import DoesNotFit

SPACIOUS, CRAMPED = 30.0, 0.2  # a column with less left over a metal part, mm, is avoided, so much per mm
TURNED = 4.0  # two wires whose studs stand the other way round than what they come from
TRIED = 3000


def place_feet(p: Placement, room: Mapping[int, float], tall: float) -> dict[str, int]:
    """A column for each metal part. `room`: height left in each column, of which a metal part takes `tall`, mm.

    Raises DoesNotFit.
    """
    codes = list(p.feet)
    if not codes:
        return {}
    studs = {name: i for bar in p.bars for i, name in enumerate(p.circuit.devices[bar].terminals)}

    def stud(drop: int) -> int:
        wire = p.drops[drop][0]
        return studs[(wire.a if wire.a.device in p.bars else wire.b).name]

    others = [(stud(i), p.gap(end) - 0.5) for i, (_, end) in enumerate(p.drops) if end[0] not in p.feet]
    free = [column for column in range(len(p.columns)) if room[column] >= tall]
    if len(free) < len(codes):
        raise DoesNotFit("no room at the foot for every metal part")
    alone: list[dict[int, float]] = []  # what each metal part costs in each column, whatever the others do
    for code in codes:
        mine = stud(p.feet[code])
        hint = sum(h < p.circuit.devices[code].column for h in p.hints)
        alone.append({
            column: abs(hint - column)
            + CRAMPED * max(0.0, SPACIOUS - room[column] + tall)
            + TURNED * sum((mine - other) * (column - at) < 0 for other, at in others)
            for column in free
        })  # fmt: skip
    order = [stud(p.feet[code]) for code in codes]
    pairs = [(i, j) if order[i] < order[j] else (j, i) for i, j in combinations(range(len(codes)), 2)]

    options: Iterable[tuple[int, ...]] = islice(permutations(free, len(codes)), TRIED)

    def cost(columns: tuple[int, ...]) -> float:
        turned = sum(columns[i] > columns[j] for i, j in pairs)
        return round(TURNED * turned + sum(costs[c] for costs, c in zip(alone, columns, strict=True)), 6)

    best = min(options, key=cost)
    return dict(zip(codes, best, strict=True))
