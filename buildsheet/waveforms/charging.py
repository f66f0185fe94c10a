"""Rectifier, capacitor and load: a walk from one change of conduction to the next, and Newton on what it starts from.

Three things can be the case: the source charges the capacitor; it does not; or the load has emptied the capacitor and
its current runs on through the diodes, which hold the voltage at minus their drop. Within each the circuit is linear and
solved in closed form; the walk looks for the first root of what ends it. A walk covers one period of the pulses from a
voltage zero of the source and carries along how its end depends on its start, so that Newton's step closes the period.

The circuit is a chain of resistances, diodes and memories, none of which gives energy back: two walks from different
starts draw closer (in stored energy), so there is one steady state.
"""

from collections.abc import Callable
from math import copysign, cos, inf, isfinite, isnan, pi, sin
from typing import NamedTuple

from .converters import Converter
from .inputs import NotSolved, refuse_unless
from .modes import GLANCE, Modes, Motion, Motor, Parts, State, Sums
from .spans import Commutating, Freewheel
from .steady import sine_integrals

ANGLE = 1e-13  # rad, to which a root is found
CLOSED = 1e-10  # of peak voltage and current: Newton's step at which the period is closed
CLOSED_LATE = 1e-8  # the same after LATE rounds, where rounding keeps it from better
LATE = 20
WILD = 3.0  # of what the line current changes in a period: a step of it beyond that is not trusted
ROUNDS = 80
EVENTS = 200  # changes of conduction in one period
NEAR = 0.3  # of the source's peak: a voltage above it does not dip under the diodes' hold between two looks
EMPTY = 1e-9  # of the source's peak: a voltage this close to the diodes' hold is at it

Matrix = list[list[float]]
Test = Callable[[float, State], float]  # of the angle since the start of a stretch and the state there


class Held(Motion):
    """The load current runs through the diodes, which hold the voltage; the source works on its own impedance."""

    __slots__ = ("free", "hold", "line", "on")

    def __init__(self, modes: Modes, x: float, start: State, hold: float, on: bool) -> None:
        super().__init__(modes, x, start)
        R, X, E = modes.motor
        if R is None:
            raise NotSolved("a constant current can't be drawn from an empty capacitor")
        self.hold = hold
        self.on = on
        self.free = Freewheel(E - hold, R, X)
        self.line = Commutating(modes.peak, 0.0, modes.Rs, modes.Xs) if modes.Xs > 0.0 else None

    def at(self, width: float) -> State:
        """State after an angle."""
        i = self.free.current(width, 0.0, self.start.i)
        if not self.on:
            return State(0.0, self.hold, i)
        if self.line is None:
            return State(self.modes.peak * sin(self.x + width) / self.modes.Rs, self.hold, i)
        return State(self.line.current(self.x + width, self.x, self.start.l), self.hold, i)

    def sums(self, width: float) -> Sums:
        """Integrals over the span; no current in the capacitor."""
        i, i2, _ = self.free.integrals(self.x, self.start.i, self.x + width)
        l = l2 = l_sin = 0.0
        if self.on and self.line is not None:
            l, l2, l_sin = self.line.integrals(self.x, self.start.l, self.x + width)
        elif self.on:
            _, sines, squares = sine_integrals(self.x, self.x + width)
            most = self.modes.peak / self.modes.Rs
            l, l2, l_sin = most * sines, most * most * squares, most * squares
        return Sums(self.hold * width, self.hold**2 * width, i, i2, l, l2, l_sin)

    def carried(self, width: float) -> Matrix:
        """As `Modes.carried`."""
        i = 1.0 + self.free.current(width, 0.0, 1.0) - self.free.current(width, 0.0, 0.0) - 1.0
        l = 0.0
        if self.line is not None and self.on:
            l = self.line.current(self.x + width, self.x, 1.0) - self.line.current(self.x + width, self.x, 0.0)
        return [[l, 0.0, 0.0], [0.0, 0.0, 0.0], [0.0, 0.0, i]]


class Stretch(NamedTuple):
    """Angle over which nothing changes its conduction: where it starts (rad from a rising zero of the source), how
    long it is, the pulse whose line current flows, whether any does, whether the diodes hold the voltage."""

    x: float
    width: float
    pulse: int
    on: bool
    held: bool
    motion: Motion


class Charging:
    """Source, diodes, capacitor and load put together."""

    __slots__ = ("bridge", "freewheels", "hold", "load", "off", "on", "parts", "period", "scale")

    def __init__(self, converter: Converter, parts: Parts, load: Motor) -> None:
        refuse_unless(
            parts.Rs > 0.0 or parts.Xs > 0.0,
            "a capacitor on a source without resistance and inductance is charged by no finite current: give the "
            "resistance of line, cord and transformer",
        )
        self.parts, self.load = parts, load
        self.bridge = converter.pulses == 2
        self.freewheels = converter.freewheel_junctions > 0
        self.hold = -parts.drop
        self.period = 2.0 * pi / converter.pulses
        self.on = Modes(parts, load, on=True)
        self.off = Modes(parts, load, on=False)
        amperes = load.E if load.R is None else parts.peak / (load.R + load.X)
        self.scale = State(amperes, parts.peak, amperes)

    def solve(self, start: State | None = None) -> tuple[list[Stretch], State]:
        """One period of the steady state, and the state at its beginning."""
        state = start or self._guess()
        ones = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]]
        low, high = self.floor, inf
        for round_ in range(ROUNDS):
            stretches, end, carried = self._walk(state, ones)
            residual = [b - a for a, b in zip(state, end, strict=True)]
            step = _solved([[one - m for one, m in zip(*rows, strict=True)] for rows in zip(ones, carried, strict=True)], residual)
            left = max(abs(d) / (s + abs(z)) for d, s, z in zip(step, self.scale, state, strict=True))
            if left <= (CLOSED if round_ < LATE else CLOSED_LATE):
                return stretches, state
            refuse_unless(not isnan(left), "the search for a steady state left the road")
            if abs(step[0]) > max(WILD * abs(residual[0]), self.scale.l):
                step[0] = residual[0]  # a line current that the mode at hand only just fails to damp
            state, low, high = self._stepped(state, step, low, high)
        raise NotSolved(f"no steady state after {ROUNDS} rounds: the last one was still {left:.2g} off")

    def _stepped(self, state: State, step: list[float], low: float, high: float) -> tuple[State, float, float]:
        """Newton's step, cut where it leaves the bracket of the voltage, and the bracket.

        A voltage at which the source just fails to charge has a kink: above it hardly anything depends on the start, so
        Newton's step from there is far too long. The step always points towards the answer.
        """
        if step[1] > 0.0:
            low = max(low, state.v)
        else:
            high = min(high, state.v)
        if high - low <= EMPTY * self.parts.peak:  # the other quantities have moved meanwhile
            low, high = self.floor, inf
        part = 1.0
        v = max(state.v + step[1], self.floor)
        if not low <= v <= high:
            v = 0.5 * (low + min(high, 2.0 * self.parts.peak))
            part = (v - state.v) / step[1] if isfinite(step[1]) else 0.0
        l, i = (a + part * d if part else a for a, d in ((state.l, step[0]), (state.i, step[2])))
        return State(l, v, i), low, high

    def _guess(self) -> State:
        R, _, E = self.load
        top = self.parts.peak - self.parts.drop
        if R is None:
            return State(0.0, 0.8 * top, E)
        v = E + 0.7 * max(top - E, 0.0) / (1.0 + 2.0 * (self.parts.Rs + self.parts.Xs) / R)
        return State(0.0, v, (v - E) / R)

    def _walk(self, state: State, carried: Matrix) -> tuple[list[Stretch], State, Matrix]:
        """One period from a voltage zero: stretches, end state, its derivative; l is negative in the old direction."""
        x, pulse, l = 0.0, 0, state.l
        found: list[Stretch] = []
        if l < 0.0:
            pulse, state, carried = -1, state._replace(l=-l), _turned(carried)
        on = l != 0.0
        held = self._emptied(state)
        for _ in range(EVENTS):
            if held:
                x, pulse, state, carried, on, held = self._hold(found, x, pulse, state, carried, on)
            elif on:
                x, state, carried, on, held = self._charge(found, x, pulse, state, carried)
            else:
                x, pulse, state, carried, on, held = self._rest(found, x, pulse, state, carried)
            if x >= self.period:
                # the direction of the next period's pulse
                if self.bridge and state.l != 0.0 and pulse == 0:
                    state, carried = state._replace(l=-state.l), _turned(carried)
                return found, state, carried
        raise NotSolved(f"more than {EVENTS} changes of conduction in one period: the capacitor is so small that it rings")

    def _emptied(self, state: State) -> bool:
        """Whether the diodes hold the voltage."""
        return (
            self.freewheels
            and state.v <= self.hold + EMPTY * self.parts.peak
            and state.l <= state.i + self.parts.G * state.v
        )

    def _charge(
        self, found: list[Stretch], x: float, pulse: int, state: State, carried: Matrix
    ) -> tuple[float, State, Matrix, bool, bool]:
        """The source charges: to where its current ends, or the voltage reaches the diodes' hold."""
        modes = self.on
        local = x - pulse * pi
        motion = modes.motion(local, state)
        width, event = self._first(
            motion, self.period - x, (lambda _, s: s.l, self._above_floor), (None, self._sinks(modes, local))
        )
        end = motion.at(width)
        found.append(Stretch(x, width, pulse, on=True, held=False, motion=motion))
        carried = _times(modes.carried(width), carried)
        if event == 0:
            carried[0] = [0.0, 0.0, 0.0]
            return x + width, end._replace(l=0.0), carried, False, False
        if event == 1:
            return x + width, self._empty(end, carried), carried, True, True
        return self.period, end, carried, True, False

    @property
    def floor(self) -> float:
        """Volts under which the diodes hold the capacitor, or none without a way through them."""
        return self.hold if self.freewheels else 0.0

    def _empty(self, end: State, carried: Matrix) -> State:
        """The state with the capacitor at the diodes' hold; refuses where there is no such thing."""
        refuse_unless(
            self.freewheels,
            "the load empties the capacitor and charges it backwards before the next pulse: take a larger one, or a "
            "rectifier with a way for the load's current",
        )
        refuse_unless(
            self.load.R is not None,
            "the capacitor is empty before the next pulse: a constant current can't be drawn from it",
        )
        carried[1] = [0.0, 0.0, 0.0]
        return end._replace(v=self.hold)

    def _rest(
        self, found: list[Stretch], x: float, pulse: int, state: State, carried: Matrix
    ) -> tuple[float, int, State, Matrix, bool, bool]:
        """The source is off: to where it exceeds the capacitor, or the voltage reaches the diodes' hold."""
        peak, drop = self.parts.peak, self.parts.drop

        def above(angle: float, s: State) -> float:
            e = peak * sin(x + angle)
            return drop + s.v - (abs(e) if self.bridge else e)

        motion = self.off.motion(x, state)
        if above(0.0, state) < -EMPTY * peak:  # the other pair follows at once
            return x, int(x // pi) if self.bridge else 0, state, carried, True, False
        def slope(angle: float, s: State) -> float:
            e = peak * cos(x + angle)
            return (e if not self.bridge or sin(x + angle) > 0.0 else -e) - self.off.field(x, s).v

        width, event = self._first(
            motion, self.period - x, (above, self._above_floor), (slope, self._sinks(self.off, x))
        )
        end = motion.at(width)
        found.append(Stretch(x, width, pulse, on=False, held=False, motion=motion))
        carried = _times(self.off.carried(width), carried)
        if event == 0:
            return x + width, int((x + width) // pi) if self.bridge else 0, end, carried, True, False
        if event == 1:
            end = self._empty(end, carried)
            return x + width, int((x + width) // pi), end, carried, self.bridge, True
        return self.period, pulse, end, carried, False, False

    def _hold(
        self, found: list[Stretch], x: float, pulse: int, state: State, carried: Matrix, on: bool
    ) -> tuple[float, int, State, Matrix, bool, bool]:
        """The diodes hold the voltage: to where the line carries the whole of the load again, or the load turns."""
        modes = self.on
        if state.l == 0.0:  # whichever direction the source has
            pulse = int(x / pi + ANGLE) if self.bridge else 0
            on = self.bridge or x < pi - ANGLE
        local = x - pulse * pi
        motion = Held(modes, local, state, self.hold, on)
        rest = self.period - x
        limit = min(rest, pi - local) if modes.Xs == 0.0 and on else rest
        drawn = self.parts.G * self.hold
        tests: list[Test] = [lambda _, s: s.i + drawn - s.l]
        if modes.Xs > 0.0 and on:
            tests.append(lambda _, s: s.l)
        width, event = self._first(motion, limit, tuple(tests))
        end = motion.at(width)
        found.append(Stretch(x, width, pulse, on=on, held=True, motion=motion))
        carried = _times(motion.carried(width), carried)
        x += width
        if event == 0:
            return x, pulse, end, carried, on and end.l > 0.0, False
        if event == 1:
            end = end._replace(l=0.0)
            if self.bridge:
                return x, pulse + 1, end, _turned(carried), True, True
            carried[0] = [0.0, 0.0, 0.0]
            return x, pulse, end, carried, False, True
        if modes.Xs == 0.0:
            end = end._replace(l=0.0)
        return (self.period if limit == rest else x), pulse, end, carried, on, True

    def _above_floor(self, _: float, s: State) -> float:
        """Above zero as long as the voltage is not under the diodes' hold, but for rounding."""
        return s.v - self.floor + EMPTY * self.parts.peak

    def _sinks(self, modes: Modes, x: float) -> Test:
        """Above zero where the voltage falls, as far as it is near the diodes' hold at all."""
        near = NEAR * self.parts.peak

        def sinks(angle: float, s: State) -> float:
            return -modes.field(x + angle, s).v if s.v < near else -1.0

        return sinks

    def _first(
        self, motion: Motion, limit: float, tests: tuple[Test, ...], falls: tuple[Test | None, ...] = ()
    ) -> tuple[float, int | None]:
        """The first angle at which one of the tests is below zero, and which; the limit and None if none is.

        Where `falls` is above zero the test at its place falls: between two looks it may dip below zero and come back.
        """
        step, calm = motion.look, motion.calm
        low, high = 0.0, min(step if calm > 0.0 else GLANCE, limit)
        watched = [(n, fall) for n, fall in enumerate(falls) if fall is not None]
        fell = [fall(0.0, motion.start) > 0.0 for _, fall in watched]
        while True:
            state = motion.at(high)
            below = [(high, n) for n, test in enumerate(tests) if test(high, state) < 0.0]
            falling = [fall(high, state) > 0.0 for _, fall in watched]
            for (n, fall), before, now in zip(watched, fell, falling, strict=True):
                if before and not now:
                    least = _root(motion, fall, low, high)
                    if tests[n](least, motion.at(least)) < 0.0:
                        below = [*((end, m) for end, m in below if m != n), (least, n)]
            if below and low == 0.0 and high > 1e-7:
                closer = 0.25 * high  # near the start, where a quantity may have begun at zero
                near = motion.at(closer)
                if any(test(closer, near) < 0.0 for test in tests):
                    high = closer
                    continue
                if all(closer < end for end, _ in below):
                    low = closer
            if below:
                return min((_root(motion, tests[n], low, end), n) for end, n in below)
            if high >= limit:
                return limit, None
            fell = falling
            low, high = high, min(high + (step if high < calm else GLANCE), limit)


def _root(motion: Motion, test: Test, low: float, high: float) -> float:
    """Where a test, above zero at `low` and below it at `high`, is zero: false position with the Illinois halving."""
    f_low, f_high = test(low, motion.at(low)), test(high, motion.at(high))
    if f_low <= 0.0:
        return low
    side = 0
    for _ in range(100):
        x = high - f_high * (high - low) / (f_high - f_low)
        y = test(x, motion.at(x))
        if y > 0.0:
            if x - low <= ANGLE or high - x <= ANGLE:
                return x
            low, f_low = x, y
            if side > 0:
                f_high *= 0.5
            side = 1
        else:
            if high - x <= ANGLE or x - low <= ANGLE or y == 0.0:
                return x
            high, f_high = x, y
            if side < 0:
                f_low *= 0.5
            side = -1
    return 0.5 * (low + high)


def _times(a: Matrix, b: Matrix) -> Matrix:
    return [
        [row[0] * b[0][k] + row[1] * b[1][k] + row[2] * b[2][k] for k in range(3)] for row in a
    ]


def _turned(carried: Matrix) -> Matrix:
    """The same with the line current counted in the other direction."""
    return [[-value for value in carried[0]], carried[1], carried[2]]


def _solved(a: Matrix, b: list[float]) -> list[float]:
    """Three linear equations, by elimination with the largest pivot."""
    rows = [[*row, value] for row, value in zip(a, b, strict=True)]
    for k in range(3):
        pivot = max(range(k, 3), key=lambda n: abs(rows[n][k]))
        rows[k], rows[pivot] = rows[pivot], rows[k]
        if abs(rows[k][k]) < 1e-14:  # nothing depends on the start: as far as may be
            return [copysign(inf, value) if value else 0.0 for value in b]
        for n in range(k + 1, 3):
            part = rows[n][k] / rows[k][k]
            for m in range(k, 4):
                rows[n][m] -= part * rows[k][m]
    out = [0.0, 0.0, 0.0]
    for k in (2, 1, 0):
        out[k] = (rows[k][3] - sum(rows[k][m] * out[m] for m in range(k + 1, 3))) / rows[k][k]
    return out
