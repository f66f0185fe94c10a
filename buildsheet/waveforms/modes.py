"""Closed forms of a circuit with one, two or three memories: source inductance, capacitor, armature inductance.

    Xs dl/dx = Vm sin x - drop - Rs l - v        (while the source is on; without Xs: l = (Vm sin x - drop - v)/Rs)
    B  dv/dx = l - G v - i                       B = omega C, G of the bleeder
    X  di/dx = v - R i - E                       (or i constant)

A natural mode exp(lambda x) with v = 1 has l = -1/(Rs + Xs lambda) and i = 1/(R + X lambda), where lambda is a zero of

    F(lambda) = B lambda + G + 1/(Rs + Xs lambda) + 1/(R + X lambda)

The equations are symmetric but for the signs of their memories -Xs, B, -X, so the modes are orthogonal with those as
weights, and the share of a mode in a state (l, v, i) is (B v - Xs l l_mode - X i i_mode) / F'(lambda). What the sine
drives adds one phasor, what is constant one number: every quantity is a sum of exponentials, and so are its integrals.
"""

from abc import ABC, abstractmethod
from cmath import exp as cexp
from cmath import sqrt as csqrt
from math import ceil, cos, exp, expm1, inf, log, sin
from typing import NamedTuple

from .inputs import NotSolved
from .spans import GAUSS, SHORT

APART = 1e-4  # relative distance that two modes need for their shares to keep eight digits
NUDGE = 1e-6  # relative change of the capacitance or source inductance that pulls two modes apart
SERIES = 0.02  # argument below which (exp z - 1)/z is summed as a series
GLANCE = 0.25  # rad: how far apart two looks at a closed form are when its first root is sought
RINGING = 2.0  # of an own angle, per GLANCE of it: how much closer the looks are while a mode rings
CALM = 1e-7  # of the source's peak and of what it drives: a mode below it rings no longer
FAINT = 1e-3  # of the constant current: a bleeder current below it makes an exponential a straight line but for rounding


class State(NamedTuple):
    """Line current (A, in the direction of the rectifier), capacitor voltage (V), load current (A)."""

    l: float
    v: float
    i: float


class Sums(NamedTuple):
    """Integrals over a span: of v, v², i, i², l, l², l sin x, and of the square of the capacitor current."""

    v: float = 0.0
    v2: float = 0.0
    i: float = 0.0
    i2: float = 0.0
    l: float = 0.0
    l2: float = 0.0
    l_sin: float = 0.0
    c2: float = 0.0


class Motor(NamedTuple):
    """Load as the modes see it: resistance, reactance, back-EMF; or, where R is None, the constant current `E`."""

    R: float | None
    X: float
    E: float


class Parts(NamedTuple):
    """Source and capacitor: peak (V), drop (V), Rs and Xs (ohm), B = omega C and G (siemens)."""

    peak: float
    drop: float
    Rs: float
    Xs: float
    B: float
    G: float


class Modes:
    """One circuit, source on or off: natural modes, phasor and constant part."""

    __slots__ = ("B", "G", "Rs", "Xs", "constant", "drop", "motor", "natural", "on", "peak", "phasor")

    def __init__(self, parts: Parts, motor: Motor, on: bool) -> None:
        self.peak, self.drop, self.Rs, self.Xs, self.B, self.G = parts
        self.motor = motor
        self.on = on
        if not on:
            self.Xs = 0.0
        self._separate()
        self._forced()

    def _separate(self) -> None:
        """Find the modes; move the capacitance or the source inductance by a millionth while two of them coincide."""
        R, X, _ = self.motor
        for _ in range(8):
            if self.Xs > 0.0 and R is not None and abs(self.Rs * X - R * self.Xs) <= NUDGE * (self.Rs * X + R * self.Xs):
                self.Xs *= 1.0 + 4.0 * NUDGE
            roots = self._roots()
            close = any(
                abs(a - b) <= APART * (abs(a) + abs(b)) for n, a in enumerate(roots) for b in roots[n + 1 :]
            )
            if not close:
                break
            self.B *= 1.0 + NUDGE
        else:
            raise NotSolved("two natural modes of this circuit coincide")
        self.natural = [(root, 1.0 / self._slope(root), self._line(root), self._load(root)) for root in roots]

    def _line(self, root: complex) -> complex:
        return -1.0 / (self.Rs + self.Xs * root) if self.on else 0.0

    def _load(self, root: complex) -> complex:
        R, X, _ = self.motor
        return 1.0 / (R + X * root) if R is not None else 0.0

    def _slope(self, root: complex) -> complex:
        """F'(lambda)."""
        line, load = self._line(root), self._load(root)
        return self.B - self.Xs * line * line - self.motor.X * load * load

    def _roots(self) -> list[complex]:
        """Zeros of F; a pair of complex ones is given as both."""
        R, X, _ = self.motor
        B, G = self.B, self.G
        if self.on and self.Xs == 0.0:
            G += 1.0 / self.Rs
        if self.Xs == 0.0:
            return [-G / B] if R is None else _pair(B * X, B * R + G * X, G * R + 1.0)
        Rs, Xs = self.Rs, self.Xs
        if R is None:
            return _pair(B * Xs, B * Rs + G * Xs, G * Rs + 1.0)
        root = self._between_poles(R, X)
        a3, a2 = B * Xs * X, B * (Rs * X + R * Xs) + G * Xs * X
        a1, a0 = B * Rs * R + G * (Rs * X + R * Xs) + X + Xs, G * Rs * R + R + Rs
        # what is left after division by (lambda - root), from the end that loses no digits
        b0 = -a0 / root
        b1 = a2 + root * a3 if -root * a3 < 0.5 * a2 else (b0 - a1) / root
        return [root, *_pair(a3, b1, b0)]

    def _between_poles(self, R: float, X: float) -> float:
        """The real zero that lies between the poles -R/X and -Rs/Xs, where the cubic has opposite signs."""
        B, G, Rs, Xs = self.B, self.G, self.Rs, self.Xs
        low, high = sorted((-R / X, -Rs / Xs))
        x = 0.5 * (low + high)
        for _ in range(200):
            line, load = Rs + Xs * x, R + X * x
            value = (B * x + G) * line * load + line + load
            slope = B * line * load + (B * x + G) * (Xs * load + X * line) + Xs + X
            if value > 0.0:
                high = x
            elif value < 0.0:
                low = x
            else:
                return x
            following = x - value / slope if slope != 0.0 else low
            if abs(following - x) <= 4e-16 * abs(x):
                return x
            if not low < following < high:
                following = 0.5 * (low + high)
            if high - low <= 4e-16 * abs(low):
                return following
            x = following
        return x

    def _forced(self) -> None:
        """Constant part and phasor of (l, v, i); a phasor P stands for Im(P exp(jx))."""
        R, X, E = self.motor
        G = self.G
        drawn = E if R is None else -E / R  # what the load draws at v = 0
        if R is not None:
            G += 1.0 / R
        if not self.on:
            v = -drawn / G if G > 0.0 else 0.0
            self.constant = State(0.0, v, E if R is None else (v - E) / R)
            self.phasor: tuple[complex, complex, complex] = (0.0, 0.0, 0.0)
            return
        v = (-self.drop - self.Rs * drawn) / (1.0 + self.Rs * G)
        i = E if R is None else (v - E) / R
        self.constant = State(self.G * v + i, v, i)
        line = complex(self.Rs, self.Xs)
        load = 1.0 / complex(R, X) if R is not None else 0.0
        volts = self.peak / line / (complex(self.G, self.B) + 1.0 / line + load)
        self.phasor = ((self.peak - volts) / line, volts, volts * load)

    def shares(self, x: float, state: State) -> list[complex]:
        """Of each mode in a state at x."""
        s, c = sin(x), cos(x)
        pl, pv, pi_ = self.phasor
        l = state.l - self.constant.l - pl.real * s - pl.imag * c
        v = state.v - self.constant.v - pv.real * s - pv.imag * c
        i = state.i - self.constant.i - pi_.real * s - pi_.imag * c
        B, Xs, X = self.B, self.Xs, self.motor.X
        return [(B * v - Xs * line * l - X * load * i) * per for _, per, line, load in self.natural]

    def carried(self, width: float) -> list[list[float]]:
        """d(l, v, i) at the end of a span over d(l, v, i) at its start: rows of the end, columns of the start."""
        B, Xs, X = self.B, self.Xs, self.motor.X
        vv = vl = vi = ll = li = ii = 0.0
        for root, per, line, load in self.natural:
            left = cexp(root * width) * per
            vv += left.real
            vl += (left * line).real
            vi += (left * load).real
            ll += (left * line * line).real
            li += (left * line * load).real
            ii += (left * load * load).real
        return [[-Xs * ll, B * vl, -X * li], [-Xs * vl, B * vv, -X * vi], [-Xs * li, B * vi, -X * ii]]

    def field(self, x: float, state: State) -> State:
        """d(l, v, i)/dx; of l without source inductance through that of the source."""
        R, X, E = self.motor
        l, v, i = state
        dv = (l - self.G * v - i) / self.B
        di = 0.0 if R is None else (v - R * i - E) / X
        if not self.on:
            return State(0.0, dv, di)
        if self.Xs > 0.0:
            return State((self.peak * sin(x) - self.drop - self.Rs * l - v) / self.Xs, dv, di)
        return State((self.peak * cos(x) - dv) / self.Rs, dv, di)

    def motion(self, x: float, state: State) -> "Motion":
        """What happens from x on."""
        if not self.on and self.motor.R is None and self.G * self.peak <= FAINT * self.motor.E:
            return Drain(self, x, state)
        return Modal(self, x, state)


def _pair(a: float, b: float, c: float) -> list[complex]:
    """Roots of a x² + b x + c, all coefficients positive."""
    inside = b * b - 4.0 * a * c
    if inside < 0.0:
        root = csqrt(inside)
        return [(-b + root) / (2.0 * a), (-b - root) / (2.0 * a)]
    large = -0.5 * (b + inside**0.5)
    return [large / a, c / large]


def _grown(z: complex) -> complex:
    """(exp z - 1)/z."""
    if abs(z) > SERIES:
        return (cexp(z) - 1.0) / z
    return 1.0 + z / 2.0 * (1.0 + z / 3.0 * (1.0 + z / 4.0 * (1.0 + z / 5.0 * (1.0 + z / 6.0 * (1.0 + z / 7.0)))))


class Motion(ABC):
    """The state as a function of the angle since the start of a span. Up to the angle `calm` a mode may ring, which
    looks `look` apart don't miss."""

    __slots__ = ("calm", "look", "modes", "start", "x")

    def __init__(self, modes: Modes, x: float, start: State) -> None:
        self.modes, self.x, self.start = modes, x, start
        self.look, self.calm = GLANCE, 0.0

    @abstractmethod
    def at(self, width: float) -> State:
        """State after an angle."""

    @abstractmethod
    def sums(self, width: float) -> Sums:
        """Integrals over the span."""


class Modal(Motion):
    """Modes, phasor and constant part."""

    __slots__ = ("fading",)

    def __init__(self, modes: Modes, x: float, start: State) -> None:
        super().__init__(modes, x, start)
        # of a complex pair only the upper one, twice
        self.fading = []
        for share, (root, _, line, load) in zip(modes.shares(x, start), modes.natural, strict=True):
            if root.imag == 0.0:
                self.fading.append((root.real, 0.0, share, share * line, share * load))
            elif root.imag > 0.0:
                self.fading.append((root.real, root.imag, 2.0 * share, 2.0 * share * line, 2.0 * share * load))
                look = GLANCE * RINGING / root.imag
                if look < GLANCE:
                    rings = max(1.0, abs(share) * max(1.0, abs(line) * (modes.Rs + modes.Xs)) / (CALM * modes.peak))
                    self.look = look
                    self.calm = inf if root.real == 0.0 else log(rings) / -root.real

    def at(self, width: float) -> State:
        """State after an angle."""
        modes = self.modes
        x = self.x + width
        s, c = sin(x), cos(x)
        (l, v, i), (pl, pv, pi_) = modes.constant, modes.phasor
        l += pl.real * s + pl.imag * c
        v += pv.real * s + pv.imag * c
        i += pi_.real * s + pi_.imag * c
        for fall, turn, share, line, load in self.fading:
            left = exp(fall * width)
            if turn == 0.0:
                l += left * line.real
                v += left * share.real
                i += left * load.real
            else:
                a, b = left * cos(turn * width), left * sin(turn * width)
                l += a * line.real - b * line.imag
                v += a * share.real - b * share.imag
                i += a * load.real - b * load.imag
        return State(l, v, i)

    def sums(self, width: float) -> Sums:
        """Integrals over the span: products of exponentials."""
        modes = self.modes
        turn = cexp(1j * self.x) / 2j
        (l0, v0, i0), (pl, pv, pi_) = modes.constant, modes.phasor
        rates: list[complex] = [0.0, 1j, -1j]
        sine = [0.0, turn, turn.conjugate()]
        l: list[complex] = [l0, pl * turn, (pl * turn).conjugate()]
        v: list[complex] = [v0, pv * turn, (pv * turn).conjugate()]
        i: list[complex] = [i0, pi_ * turn, (pi_ * turn).conjugate()]
        for share, (root, _, line, load) in zip(modes.shares(self.x, self.start), modes.natural, strict=True):
            rates.append(root)
            l.append(share * line)
            v.append(share)
            i.append(share * load)
        G = modes.G
        c = [a - b - G * u for a, b, u in zip(l, i, v, strict=True)]
        once = [_grown(rate * width) * width for rate in rates]
        sums = [0.0] * 8
        n = len(rates)
        for j in range(n):
            sums[0] += (v[j] * once[j]).real
            sums[2] += (i[j] * once[j]).real
            sums[4] += (l[j] * once[j]).real
            for k in range(j, n):
                both = _grown((rates[j] + rates[k]) * width) * width
                if k != j:
                    both *= 2.0
                sums[1] += (v[j] * v[k] * both).real
                sums[3] += (i[j] * i[k] * both).real
                sums[7] += (c[j] * c[k] * both).real
                if modes.on:
                    sums[5] += (l[j] * l[k] * both).real
                    if j < 3:
                        cross = l[j] * sine[k] + l[k] * sine[j] if k < 3 else l[k] * sine[j]
                        sums[6] += (0.5 * cross * both).real
        return Sums(*sums)


class Drain(Motion):
    """A capacitor that gives a constant current, with a bleeder or without: near enough to a straight line that its
    exponential would be a small difference of large numbers."""

    __slots__ = ()

    def at(self, width: float) -> State:
        """State after an angle."""
        modes = self.modes
        fall = modes.G / modes.B * width
        lost = -expm1(-fall) / fall if fall > 0.0 else 1.0
        current = modes.motor.E
        return State(0.0, self.start.v * exp(-fall) - current / modes.B * width * lost, current)

    def sums(self, width: float) -> Sums:
        """Integrals over the span, by a Gauss rule that is exact for so slow a fall."""
        modes = self.modes
        current = modes.motor.E
        parts = ceil(max(1.0, width * modes.G / (modes.B * SHORT)))
        half = 0.5 * width / parts
        v1 = v2 = c2 = 0.0
        for part in range(parts):
            for node, weight in GAUSS:
                v = self.at(half * (2.0 * part + 1.0 + node)).v
                v1 += weight * v
                v2 += weight * v * v
                c2 += weight * (current + modes.G * v) ** 2
        return Sums(half * v1, half * v2, current * width, current * current * width, c2=half * c2)
