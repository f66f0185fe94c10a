"""An inductive source: its current can't jump, so for a while two paths share the load and its terminals are shorted.

Three things can be the case while current flows in the load:

    driven     the line carries the whole of it; source and load are in series
    overlap    the freewheel path (in a thyristor bridge both pairs) carries a part: the load runs down by itself, and
               the source works on its own impedance, with -Rs l - Xs dl/dx + Vm sin x = spare
    free       the line carries nothing

Line currents are counted in the direction of the pulse that drives them. The state between two spans is the pair of load
and line current; a walk over one period carries along how its end depends on its start, for Newton's step. Where overlap
ends, the flux linkage X i + Xs l is what both circuits keep.
"""

from math import ceil, cos, exp, expm1, inf, isfinite, pi, sin
from typing import NamedTuple

from .converters import Converter
from .inputs import NotSolved, Source, refuse_unless
from .periodic import CLOSED, ROUNDS, Cycle, Loop, Shared, Span
from .roots import falling_root
from .spans import GAUSS, SHORT, SLOW, Commutating

Derivative = tuple[tuple[float, float], tuple[float, float]]  # of (i, l) over (i, l) at the start

SAME = 1e-9  # of the load current: a line current this close to it is the same
NOTHING: Derivative = ((0.0, 0.0), (0.0, 0.0))
SPANS = 40  # in one period
LONGEST = 1.5 * pi  # rad from the voltage zero: the source's lowest, to which its fall lets another path take over



class _At(NamedTuple):
    """Where the walk is: angle, pulse, load and line current, their derivative, whether the line carries all or none."""

    x: float
    pulse: int
    i: float
    l: float
    carried: Derivative
    mode: str  # "driven", "rising", "falling", "free", "rest"


class Overlapping(Loop):
    """The loop of an inductive source and a converter in which the current changes over."""

    __slots__ = ("line", "load_share", "opposing", "pulses", "source_reactance")

    def __init__(self, converter: Converter, source: Source, R: float, L: float, E: float) -> None:
        super().__init__(converter, source, R, L, E)
        self.pulses = converter.pulses
        self.source_reactance = source.reactance
        self.line = Commutating(self.peak, self.spare, source.resistance, source.reactance)
        self.load_share = self.part_sine
        self.opposing = source.drop + E

    def cycle(self, alpha: float) -> Cycle:
        """The periodic current at firing angle alpha (rad)."""
        natural = self.natural
        if natural is None or self.crossover is None or alpha >= pi - natural:
            return Cycle((), None, None)
        start = max(alpha, natural)
        if self.driven.current(pi - natural, start, 0.0) * max(1.0, self.driven.decay) <= self.none:
            return Cycle((), None, None)
        i = l = step = 0.0
        low, high = -1.0, inf  # no current at all is a possible answer
        for _ in range(ROUNDS):
            spans, stop, end = self._period(alpha, start, i, l)
            if stop is not None and i == 0.0:
                return Cycle(spans, start, stop)
            (a, b), (c, d) = end.carried
            a, d, left_i, left_l = 1.0 - a, 1.0 - d, end.i - i, end.l - l
            whole = a * d - b * c
            step = (d * left_i + b * left_l) / whole
            step_l = (c * left_i + a * left_l) / whole
            if max(abs(step), abs(step_l)) <= CLOSED * (self.driven.amplitude + i):
                return Cycle(spans, start, None)
            # the step points towards the answer, but from beyond a change of mode it may be too long
            low, high = (i, high) if step > 0.0 else (low, i)
            if high - low <= CLOSED * self.driven.amplitude:
                low, high = -1.0, inf
            part = 1.0
            if not low < i + step < high:
                part = min(1.0, abs(0.5 * (max(low, 0.0) + min(high, 2.0 * i + 1.0)) - i) / abs(step))
            i = max(i + part * step, 0.0)
            l = min(max(l + part * step_l, -i), i)
            refuse_unless(isfinite(i + l), "the search for a steady state left the road")
        raise NotSolved(f"no steady state after {ROUNDS} rounds; the last one was still {step:.3g} A off")

    def _period(self, alpha: float, start: float, i: float, l: float) -> tuple[tuple[Span, ...], float | None, _At]:
        """One period from `start`: spans, where the current stops, and the end in the direction of the next pulse."""
        end = start + self.period
        spans: list[Span] = []
        at = self._begin(start, i, l)
        for _ in range(SPANS):
            if at.mode == "rest" or at.x >= end:
                break
            if at.mode == "driven":
                at = self._carry(spans, at, alpha, end)
            elif at.mode == "free":
                at = self._run_free(spans, at, alpha, end)
            else:
                at = self._share(spans, at, alpha, end)
        else:
            raise NotSolved(f"more than {SPANS} changes of conduction in one period")
        stop = at.x if at.mode == "rest" else None
        if self.pulses == 2 and at.pulse == 0:
            at = at._replace(l=-at.l, carried=_turned(at.carried))
        return tuple(spans), stop, at

    def _begin(self, x: float, i: float, l: float) -> _At:
        """The state at the start of a walk; a negative line current is that of the pulse before."""
        if i - abs(l) <= SAME * i:
            if l < 0.0:
                return _At(x, -1, i, i, ((1.0, 0.0), (1.0, 0.0)), "driven")
            return _At(x, 0, i, i, ((1.0, 0.0), (1.0, 0.0)), "driven")
        if l == 0.0 and self.freewheels:
            return _At(x, -1, i, 0.0, ((1.0, 0.0), (0.0, 0.0)), "free")
        if l < 0.0 and self.freewheels:
            return _At(x, -1, i, -l, ((1.0, 0.0), (0.0, -1.0)), "falling")
        rises = self._line_slope(x, l) > self._free_slope(i)
        return _At(x, 0, i, l, ((1.0, 0.0), (0.0, 1.0)), "rising" if rises else "falling")

    def _line_slope(self, x: float, l: float) -> float:
        return (self.peak * sin(x) - self.spare - self.resistance * l) / self.source_reactance

    def _free_slope(self, i: float) -> float:
        return -self.free.decay * (i + self.free.level)

    def _carry(self, spans: list[Span], at: _At, alpha: float, end: float) -> _At:
        """The line carries the whole: until the current dies, or another path begins to carry."""
        driven, natural = self.driven, self.natural or 0.0
        offset = at.pulse * self.period
        x0, i0 = at.x - offset, at.i
        limit = end - offset
        dead = None
        early = min(natural, limit)
        if x0 < early and driven.current(early, x0, i0) <= 0.0:
            dead = driven.zero(x0, i0, x0, early)
        else:
            latest = min(limit, 2.0 * pi)  # where a single pulse's source turns positive again
            if latest > x0 and driven.current(latest, x0, i0) <= 0.0:
                dead = driven.zero(x0, i0, max(x0, pi - natural), latest)
        stop = limit if dead is None else dead
        # the freewheel path, or the pair that has been fired, is blocked as long as the load shows more than its drop
        opens = 0.5 * pi if self.freewheels else self.period + alpha
        low, high = max(x0, opens), min(stop, max(LONGEST, opens))
        changes = low <= high and self._above_free(high, driven.current(high, x0, i0)) < 0.0
        if changes:
            if self._above_free(low, driven.current(low, x0, i0)) <= 0.0:
                stop = low
            else:
                stop = self._relieved(x0, i0, low, high)
        i = driven.current(stop, x0, i0) if changes or dead is None else 0.0
        if stop > x0:
            spans.append(Span(True, x0, stop, i0, i))
        left = exp(-driven.decay * (stop - x0))
        (a, b), _ = at.carried
        row = (a * left, b * left)
        x = stop + offset
        if changes and not self.freewheels:
            return _At(x, at.pulse + 1, i, -i, (row, (-row[0], -row[1])), "rising")
        if changes:
            return _At(x, at.pulse, i, i, (row, row), "falling")
        if dead is None:
            return _At(end, at.pulse, i, i, (row, row), "driven")
        # the other direction follows at once where its pulse has begun and the source exceeds the back-EMF
        e = -self.peak * sin(stop)
        if self.pulses == 2 and x >= alpha + offset + self.period and e > self.opposing:
            part = -(e - self.opposing) / (e + self.opposing)
            row = (part * row[0], part * row[1])
            return _At(x, at.pulse + 1, 0.0, 0.0, (row, row), "driven")
        return _At(x, at.pulse, 0.0, 0.0, NOTHING, "rest")

    def _above_free(self, x: float, i: float) -> float:
        """Volts of the load above its freewheel path while driven."""
        return self.part_sine * self.peak * sin(x) + self.part_constant + self.part_current * i + self.free_drop

    def _relieved(self, x0: float, i0: float, low: float, high: float) -> float:
        """Angle at which the freewheel path begins to carry."""
        driven = self.driven
        A, k, lag, K = driven.amplitude, driven.decay, driven.lag, driven.transient(x0, i0)

        def relief(x: float) -> tuple[float, float]:
            slope = A * cos(x - lag) - k * K * exp(-k * (x - x0))
            return (
                self._above_free(x, driven.current(x, x0, i0)),
                self.part_sine * self.peak * cos(x) + self.part_current * slope,
            )

        return falling_root(relief, low, high, pi)

    def _run_free(self, spans: list[Span], at: _At, alpha: float, end: float) -> _At:
        """The freewheel path carries the whole: until the current dies or the next pulse may begin."""
        crossover = self.crossover or 0.0
        pulse = at.pulse
        while pi - crossover + pulse * self.period <= at.x:
            pulse += 1
        begin = max(at.x, max(alpha, crossover) + pulse * self.period)
        if begin >= pi - crossover + pulse * self.period:
            begin, pulse = max(alpha, crossover) + (pulse + 1) * self.period, pulse + 1
        stop = min(begin, end)
        if at.i <= self.none or at.x + self.free.width_down_to(at.i, self.none) <= stop:
            width = self.free.width_down_to(at.i, self.none) if at.i > self.none else 0.0
            spans.append(Span(False, at.x, at.x + width, at.i, 0.0))
            return _At(at.x + width, pulse, 0.0, 0.0, NOTHING, "rest")
        i = self.free.current(stop, at.x, at.i)
        if stop > at.x:
            spans.append(Span(False, at.x, stop, at.i, i))
        left = exp(-self.free.decay * (stop - at.x))
        (a, b), _ = at.carried
        return _At(stop, pulse, i, 0.0, ((a * left, b * left), (0.0, 0.0)), "rising" if begin < end else "free")

    def _share(self, spans: list[Span], at: _At, alpha: float, end: float) -> _At:
        """Both paths carry: until the line has all of the load, or nothing any more."""
        offset = at.pulse * self.period
        x0, i0, l0 = at.x - offset, at.i, at.l
        limit = end - offset
        taken, stop = (self._taken(x0, i0, l0, limit) if at.mode == "rising" else (False, x0))
        if not taken and stop < limit:
            refuse_unless(
                self.freewheels,
                "the source inductance keeps the next pair from taking over before the voltage turns: commutation fails",
            )
            stop = self._emptied(x0, l0, stop, limit)
        i, l = self.free.current(stop, x0, i0), self.line.current(stop, x0, l0)
        if stop > x0:
            spans.append(Span(False, x0, stop, i0, i, l0))
        left, left_l = exp(-self.free.decay * (stop - x0)), exp(-self.line.decay * (stop - x0))
        (a, b), (c, d) = at.carried
        a, b, c, d = a * left, b * left, c * left_l, d * left_l
        x = stop + offset
        if taken:
            part = self.load_share
            row = (part * a + (1.0 - part) * c, part * b + (1.0 - part) * d)
            return _At(x, at.pulse, i, i, (row, row), "driven")
        if stop >= limit:
            return _At(end, at.pulse, i, l, ((a, b), (c, d)), at.mode)
        # the other direction follows at once where its pulse has begun
        if self.pulses == 2 and x >= alpha + offset + self.period and -self.peak * sin(stop) > self.spare:
            e = -self.peak * sin(stop)
            part = -(e - self.spare) / (e + self.spare)
            return _At(x, at.pulse + 1, i, 0.0, ((a, b), (part * c, part * d)), "rising")
        return _At(x, at.pulse + 1, i, 0.0, ((a, b), (0.0, 0.0)), "free")

    def _taken(self, x0: float, i0: float, l0: float, limit: float) -> tuple[bool, float]:
        """Whether the line takes over the whole load before the walk ends, and where; else where it comes closest."""
        free, line = self.free, self.line

        def gain(x: float) -> tuple[float, float]:
            i, l = free.current(x, x0, i0), line.current(x, x0, l0)
            return i - l, self._free_slope(i) - self._line_slope(x, l)

        crest = min(max(0.5 * pi, x0), limit)
        if gain(crest)[0] <= 0.0:
            return True, falling_root(gain, x0, crest, 0.5 * (x0 + crest))

        def closing(x: float) -> tuple[float, float]:
            i, l = free.current(x, x0, i0), line.current(x, x0, l0)
            closer, drift = self._line_slope(x, l), self._free_slope(i)
            return (
                closer - drift,
                (self.peak * cos(x) - self.resistance * closer) / self.source_reactance + free.decay * drift,
            )

        # a current that follows its source at once falls from there on, and seems to rise again behind its zero
        ends = pi - (self.crossover or 0.0)
        far = min(limit, ends if ends > crest and closing(min(ends, limit))[0] < 0.0 else LONGEST)
        low = max(x0, crest)
        if low >= far or closing(low)[0] <= 0.0:
            return False, low
        closest = far if closing(far)[0] >= 0.0 else falling_root(closing, low, far, pi)
        if gain(closest)[0] <= 0.0:
            return True, falling_root(gain, low, closest, 0.5 * (low + closest))
        return False, closest

    def _emptied(self, x0: float, l0: float, low: float, limit: float) -> float:
        """Angle behind `low` at which the line current is gone, at latest `limit`."""
        line = self.line
        high = min(limit, 2.0 * pi)
        if line.current(high, x0, l0) >= 0.0:
            refuse_unless(high == limit, "the source inductance is too large for this load: the line current outlasts a half-cycle")
            return limit

        def current(x: float) -> tuple[float, float]:
            l = line.current(x, x0, l0)
            return l, self._line_slope(x, l)

        return falling_root(current, low, high, pi)

    def shared(self, span: Span) -> Shared:
        """Integrals of the line current over a span of overlap."""
        line, free, l0 = self.line, self.free, span.line or 0.0
        x0, x1, i0 = span.start, span.end, span.i_start
        width = x1 - x0
        l, l2, l_sin = line.integrals(x0, l0, x1)
        k, f = line.decay, free.decay
        if k < SLOW or width * max(1.0, k, f) < SHORT:
            parts = ceil(width * max(1.0, f) / SHORT)
            half = 0.5 * width / max(parts, 1)
            il = 0.0
            for part in range(parts):
                for node, weight in GAUSS:
                    x = x0 + half * (2.0 * part + 1.0 + node)
                    il += half * weight * free.current(x, x0, i0) * line.current(x, x0, l0)
            return Shared(l, l2, l_sin, il)
        A, lag, c, K = line.amplitude, line.lag, line.level, line.transient(x0, l0)
        left = exp(-f * width)
        wave = (f * sin(x0 - lag) + cos(x0 - lag) - left * (f * sin(x1 - lag) + cos(x1 - lag))) / (1.0 + f * f)
        fading = A * wave + c * expm1(-f * width) / f - K * expm1(-(f + k) * width) / (f + k)
        return Shared(l, l2, l_sin, (i0 + free.level) * fading - free.level * l)


def _turned(carried: Derivative) -> Derivative:
    """The same with the line current counted in the other direction."""
    (a, b), (c, d) = carried
    return (a, b), (-c, -d)


def loop_of(converter: Converter, source: Source, R: float, L: float, E: float) -> Loop:
    """The loop that suits source and converter."""
    changes_over = converter.freewheel_junctions > 0 or converter.pulses == 2
    kind = Overlapping if source.inductance > 0.0 and changes_over else Loop
    return kind(converter, source, R, L, E)
