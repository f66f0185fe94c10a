"""Heights: how far down each device, terminal and passing wire stands, so that as many wires as possible run level.

Unknown heights and least distances between them form a graph; its least solution is found by pushing
down. A wire is made level by tying its two ends together; a tie that would push anything off the
sheet is given up again. The wires that matter most are tied first.
"""

from collections import deque
from dataclasses import dataclass, field

INF = 1e9


@dataclass
class Heights:
    """Heights with least distances. `y[v] >= y[u] + d` for every kept (u, v, d); `ceiling[v]` is as far down as v may come."""

    y: list[float] = field(default_factory=list)
    least: list[float] = field(default_factory=list)
    ceiling: list[float] = field(default_factory=list)
    after: list[list[tuple[int, float]]] = field(default_factory=list)
    before: list[list[tuple[int, float]]] = field(default_factory=list)

    def add(self, least: float = 0.0, most: float = INF) -> int:
        """A new height between `least` and `most`."""
        self.y.append(least)
        self.least.append(least)
        self.ceiling.append(most)
        self.after.append([])
        self.before.append([])
        return len(self.y) - 1

    def keep(self, upper: int, lower: int, distance: float) -> None:
        """Keep `lower` at least `distance` below `upper`; takes effect with settle()."""
        self.after[upper].append((lower, distance))
        self.before[lower].append((upper, distance))

    def settle(self) -> bool:
        """Find the least solution from where things stand. False, and nothing changed, if there is none."""
        return self._push(range(len(self.y)))

    def demand(self, upper: int, lower: int, distance: float) -> bool:
        """Keep a distance if that is possible without pushing anything off the sheet."""
        self.keep(upper, lower, distance)
        if self._push((upper,)):
            return True
        self._forget(upper, lower)
        return False

    def tie(self, a: int, b: int, offset: float) -> bool:
        """Set y[b] = y[a] + offset for good if that is possible."""
        self.keep(a, b, offset)
        self.keep(b, a, -offset)
        if self._push((a, b)):
            return True
        self._forget(a, b)
        self._forget(b, a)
        return False

    def _forget(self, upper: int, lower: int) -> None:
        self.after[upper].pop()
        self.before[lower].pop()

    def _push(self, start: "range | tuple[int, ...]") -> bool:
        y, after, ceiling = self.y, self.after, self.ceiling
        old: dict[int, float] = {}
        waiting, queued = deque(start), set(start)
        pushes, limit = 0, 60 * len(y) + 200
        while waiting:
            u = waiting.popleft()
            queued.discard(u)
            base = y[u]
            for v, distance in after[u]:
                need = base + distance
                if need > y[v] + 1e-7:
                    old.setdefault(v, y[v])
                    y[v] = need
                    pushes += 1
                    if need > ceiling[v] + 1e-7 or pushes > limit:
                        for w, value in old.items():
                            y[w] = value
                        return False
                    if v not in queued:
                        queued.add(v)
                        waiting.append(v)
        return True

    def room(self, group: "set[int] | tuple[int, ...]") -> tuple[float, float]:
        """How far a group may move up (negative) and down while everything else stays."""
        up, down = -INF, INF
        for v in group:
            down = min(down, self.ceiling[v] - self.y[v])
            up = max(up, self.least[v] - self.y[v])
            for w, distance in self.after[v]:
                if w not in group:
                    down = min(down, self.y[w] - distance - self.y[v])
            for u, distance in self.before[v]:
                if u not in group:
                    up = max(up, self.y[u] + distance - self.y[v])
        return up, down
