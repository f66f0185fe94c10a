"""Tracks: in each gap between two columns every wire that changes height gets an upright track of its own.

The order of the tracks is the one with the fewest crossings; two ends at one height must not pass each
other. Then the tracks are packed towards the device they start from, which leaves room for flags between.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

from buildsheet.packet.diagram.forms import L, R
from buildsheet.packet.diagram.layout import Placement
from buildsheet.packet.diagram.model import LEAST_GAP, TRACK, TRACK_EDGE, DoesNotFit
from buildsheet.packet.diagram.stack import Meets, Stack

CLOSE = 1.9  # two level pieces this near each other may not lie side by side
FLAG_ROOM = 7.4  # more than a track's pitch, so that a flag fits beside a wire
WINDOW = 12.4  # a flag across a gap
MARGIN = 2.4  # from the outermost track to the sheet's edge: an upright flag fits
HARD = 1000


@dataclass(frozen=True, slots=True)
class Track:
    """A wire in one gap: where it enters at the left and right rims, and whether it goes down to the bar. `run` is -1 - n for drop n."""

    run: int
    left: tuple[float, ...]
    right: tuple[float, ...]
    foot: float | None = None
    left_ends: tuple[Meets, ...] = ()
    right_ends: tuple[Meets, ...] = ()

    @property
    def top(self) -> float:
        return min((*self.left, *self.right))

    @property
    def bottom(self) -> float:
        return self.foot if self.foot is not None else max((*self.left, *self.right))

    @property
    def level(self) -> bool:
        return len(self.left) == len(self.right) == 1 and abs(self.left[0] - self.right[0]) < 0.01


@dataclass
class Channel:
    """A gap: its tracks in order from the left, how far each must stay from either side, and the wires that cross it level."""

    tracks: list[Track] = field(default_factory=list)
    level: list[Track] = field(default_factory=list)
    from_left: list[float] = field(default_factory=list)
    from_right: list[float] = field(default_factory=list)
    split: int = 0
    extra: float = 0.0
    roomy: set[int] = field(
        default_factory=set
    )  # runs whose track is kept a flag's width from the next one inwards

    @property
    def packed(self) -> float:
        """Least width, from the first device's edge to the next one's."""
        if not self.tracks:
            return 0.0
        return max(a + b for a, b in zip(self.from_left, self.from_right, strict=True)) + 2 * TRACK_EDGE

    @property
    def wanted(self) -> float:
        if not self.tracks:
            return LEAST_GAP
        left = max(self.from_left[: self.split], default=-TRACK) + TRACK
        right = max(self.from_right[self.split :], default=-TRACK) + TRACK
        return max(LEAST_GAP, self.packed, left + right + WINDOW + 2) + self.extra


class Clash(ValueError):
    """Two ends at one height that would have to pass each other; they must be moved apart."""

    def __init__(self, pairs: Sequence[tuple[Meets, Meets]]) -> None:
        self.pairs = tuple(pairs)
        super().__init__(f"{len(pairs)} pairs of wires meet end to end")


def channels(placement: Placement, stack: Stack, foot: float) -> list[Channel]:
    """The channels of all gaps, tracks ordered and packed. Raises Clash."""
    made = [Channel() for _ in range(len(placement.columns) + 1)]
    for gap, track in _tracks(placement, stack, foot):
        (made[gap].level if track.level else made[gap].tracks).append(track)
    clashes: list[tuple[Meets, Meets]] = []
    for channel in made:
        channel.tracks, bad = _ordered(channel.tracks)
        clashes += bad
        pack(channel)
    made[0].split, made[-1].split = 0, len(made[-1].tracks)
    if clashes:
        raise Clash(clashes)
    return made


def _tracks(p: Placement, stack: Stack, foot: float) -> list[tuple[int, Track]]:
    found: list[tuple[int, Track]] = []
    for run, (wire, a, b) in enumerate(p.runs):
        low, high = (a, b) if p.gap(a) <= p.gap(b) else (b, a)
        y_low, y_high = stack.landing[wire.number, low], stack.landing[wire.number, high]
        lanes = [stack.lanes[run, column] for column in p.passes(run)]
        heights = [y_low, *(y for lane in lanes for y in (lane, lane)), y_high]
        columns = list(p.passes(run))
        meets: list[Meets] = [
            (wire.number, low),
            *((run, c) for c in columns for _ in (0, 1)),
            (wire.number, high),
        ]
        for i in range(len(lanes) + 1):
            rims: dict[str, list[int]] = {L: [], R: []}
            rims[L if i or p.side[low] == R else R].append(2 * i)
            rims[R if i < len(lanes) or p.side[high] == L else L].append(2 * i + 1)
            left, right = (tuple(heights[k] for k in rims[side]) for side in (L, R))
            left_ends, right_ends = (tuple(meets[k] for k in rims[side]) for side in (L, R))
            found.append((p.gap(low) + i, Track(run, left, right, None, left_ends, right_ends)))
    for i, (wire, end) in enumerate(p.drops):
        if end[0] not in p.feet:
            y = (stack.landing[wire.number, end],)
            side = p.side[end]
            meet: tuple[Meets, ...] = ((wire.number, end),)
            left, right = (y, ()) if side == R else ((), y)
            left_ends, right_ends = (meet, ()) if side == R else ((), meet)
            found.append((p.gap(end), Track(-1 - i, left, right, foot, left_ends, right_ends)))
    return found


def _price(u: Track, v: Track) -> int:
    """Crossings of two tracks with u left of v; HARD more where their ends meet head on."""
    price = 0
    for y in v.left:
        if u.top < y < u.bottom:
            price += 1
        price += HARD * any(abs(y - other) < CLOSE for other in u.right)
    for y in u.right:
        if v.top < y < v.bottom:
            price += 1
    return price


def _ordered(tracks: list[Track]) -> tuple[list[Track], list[tuple[Meets, Meets]]]:
    count = len(tracks)
    price = [[_price(u, v) if u is not v else 0 for v in tracks] for u in tracks]
    order: list[int] = []
    for i in sorted(
        range(count), key=lambda i: (len(tracks[i].right) - len(tracks[i].left), tracks[i].top, tracks[i].run)
    ):
        _insert(order, i, price)
    for _ in range(6):
        before = order[:]
        for i in before:
            order.remove(i)
            _insert(order, i, price)
        if order == before:
            break
    clashes = [
        pair
        for n, u in enumerate(order)
        for v in order[n + 1 :]
        if price[u][v] >= HARD
        for pair in _meeting(tracks[u], tracks[v])
    ]
    return [tracks[i] for i in order], clashes


def _meeting(u: Track, v: Track) -> list[tuple[Meets, Meets]]:
    """The ends that meet head on with u left of v, the upper one first."""
    found = []
    for y, end in zip(v.left, v.left_ends, strict=True):
        for other, end_other in zip(u.right, u.right_ends, strict=True):
            if abs(y - other) < CLOSE:
                found.append((end, end_other) if y <= other else (end_other, end))
    return found


def _insert(order: list[int], i: int, price: list[list[int]]) -> None:
    cost = sum(price[i][j] for j in order)
    best, where = cost, 0
    for n, j in enumerate(order):
        cost += price[j][i] - price[i][j]
        if cost < best:
            best, where = cost, n + 1
    order.insert(where, i)


def _beside(u: Track, v: Track) -> bool:
    return u.top < v.bottom + CLOSE and v.top < u.bottom + CLOSE


def pack(channel: Channel) -> None:
    tracks = channel.tracks
    count = len(tracks)
    left, right = [0.0] * count, [0.0] * count
    roomy = channel.roomy

    def apart(u: Track, v: Track) -> float:
        """Between a track and one further right."""
        leans_right = len(v.right) > len(v.left)
        wide = (v.run in roomy and leans_right) or (u.run in roomy and len(u.right) <= len(u.left))
        return TRACK + (FLAG_ROOM if wide else 0.0)

    for i in range(count):
        left[i] = max(
            (left[j] + apart(tracks[j], tracks[i]) for j in range(i) if _beside(tracks[i], tracks[j])),
            default=0.0,
        )
    for i in reversed(range(count)):
        right[i] = max(
            (
                right[j] + apart(tracks[i], tracks[j])
                for j in range(i + 1, count)
                if _beside(tracks[i], tracks[j])
            ),
            default=0.0,
        )
    channel.from_left, channel.from_right = left, right
    leaning = [len(track.left) - len(track.right) for track in tracks]
    scores = [sum(leaning[:m]) - sum(leaning[m:]) for m in range(count + 1)]
    best = max(scores)
    choices = [m for m, score in enumerate(scores) if score == best]
    channel.split = choices[len(choices) // 2]


def widen(channel: Channel, run: int) -> None:
    """Make room for the flag of a run that found none."""
    split = channel.split
    if run in channel.roomy or all(track.run != run for track in channel.tracks):
        channel.extra += 4.0
    channel.roomy.add(run)
    pack(channel)
    channel.split = split


def spread(
    channels: Sequence[Channel], columns: Sequence[float], width: float
) -> tuple[list[float], list[float]]:
    """Left edge of each column, and width of each gap, that fill the sheet. Raises DoesNotFit."""
    last = len(channels) - 1
    least, wanted = [], []
    for gap, channel in enumerate(channels):
        outer = gap in (0, last)
        if outer:
            used = bool(channel.tracks)
            least.append(channel.packed - TRACK_EDGE + MARGIN if used else 0.4)
            wanted.append(max(channel.packed - TRACK_EDGE + MARGIN, 8.0 + channel.extra) if used else 0.4)
        else:
            least.append(max(LEAST_GAP, channel.packed))
            wanted.append(channel.wanted)
    room = width - sum(columns)
    if sum(least) > room + 1e-6:
        raise DoesNotFit(f"the diagram is {sum(least) - room:.0f} mm too wide")
    want = sum(wanted)
    if want <= room:
        inner = list(range(1, last)) or [0]
        more = (room - want) / len(inner)
        gaps = [w + (more if gap in inner else 0.0) for gap, w in enumerate(wanted)]
    else:
        share = (room - sum(least)) / (want - sum(least))
        gaps = [low + (high - low) * share for low, high in zip(least, wanted, strict=True)]
    edges: list[float] = []
    x = 0.0
    for space, column in zip(gaps, columns, strict=False):
        x += space
        edges.append(x)
        x += column
    return edges, gaps


def places(channel: Channel, start: float, end: float) -> list[float]:
    """Where on the sheet the tracks of a gap lie, from `start` to `end`."""
    found = []
    for i, (left, right) in enumerate(zip(channel.from_left, channel.from_right, strict=True)):
        found.append(start + TRACK_EDGE + left if i < channel.split else end - TRACK_EDGE - right)
    return found
