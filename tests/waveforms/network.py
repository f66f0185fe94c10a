"""A third opinion, for circuits with memory on both sides of the rectifier: source inductance, capacitor, motor.

Implicit Euler on the network equations, all points side by side with numpy. No span, no switching angle, no closed form:
in each step the rectifier is one relation between the voltage v of its output and the current it lets through,

    |l| = max(0, a - b v)          of a pair that may conduct, from  Ls dl/dt = e - drop - v - Rs l
    v >= -drop of the freewheel path, and what flows there is what is missing

which is solved for v with the current balance of capacitor, bleeder and motor. Readings of two step sizes are
extrapolated to none (L. F. Richardson); what is left is mostly of second order. The start of the period is shot at.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from tests.waveforms.points import CONTROLLED, Circuit

Array = NDArray[np.float64]
JUNCTIONS = {  # forward drops in series: from the source, in the freewheel path (0: there is none)
    "diode bridge": (2, 2),
    "half-controlled bridge": (2, 1),
    "half-controlled bridge, diode leg": (2, 2),
    "fully controlled bridge": (2, 0),
    "diode bridge behind a triac": (3, 2),
    "half-wave diode": (1, 0),
    "half-wave diode, freewheel": (1, 1),
    "half-wave thyristor": (1, 0),
    "half-wave thyristor, freewheel": (1, 1),
}


@dataclass(frozen=True)
class Readings:
    """What meters would show, one number per point."""

    average_voltage: Array
    rms_voltage: Array
    peak_voltage: Array
    least_voltage: Array
    average_current: Array
    rms_current: Array
    peak_current: Array
    least_current: Array
    line_current: Array
    line_peak: Array
    line_power: Array
    capacitor_current: Array


class _Network:
    """All points as columns, and one line period of steps."""

    def __init__(self, circuits: list[Circuit], steps: int) -> None:
        def column(name: str) -> Array:
            return np.array([getattr(c, name) for c in circuits], dtype=np.float64)

        self.steps = steps
        self.peak = 2.0**0.5 * column("rms")
        self.fires_behind = np.rint(column("alpha") * steps / 360.0)  # steps; exact if alpha is a whole number of them
        self.R, self.L, self.E = column("R"), column("L"), column("E")
        self.C, self.drop, self.Rs, self.Ls = column("C"), column("drop"), column("source_resistance"), column("source_inductance")
        self.Rs = np.maximum(self.Rs, 1e-7)
        self.G = 1.0 / column("bleeder")
        self.dt = 1.0 / (column("frequency") * steps)
        self.half_wave = np.array([c.converter.startswith("half-wave") for c in circuits])
        self.gated = np.array([c.converter in CONTROLLED for c in circuits])
        self.pairs = np.array([c.converter == "fully controlled bridge" for c in circuits])
        junctions = np.array([JUNCTIONS[c.converter] for c in circuits], dtype=np.float64)
        self.wheel = junctions[:, 1] > 0.0
        self.free_drop = np.where(self.wheel, self.drop * junctions[:, 1] / junctions[:, 0], self.drop)

    def period(self, start: Array, meters: bool) -> tuple[Array, Readings | None]:
        """One line period from the source's rising zero: (l, v, i) at its end, and the readings if asked for."""
        l, v, i = start.copy()
        dt = self.dt
        z = self.Rs + self.Ls / dt
        q = 1.0 / (self.R + self.L / dt)  # of the load: i = p + q v
        fixed = self.G + self.C / dt
        b = 1.0 / z
        sums = np.zeros((7, l.size))
        top, low = np.full((3, l.size), -np.inf), np.full((3, l.size), np.inf)
        never = np.zeros(l.size, dtype=bool)
        for step in range(1, self.steps + 1):
            x = 2.0 * np.pi * step / self.steps
            e = self.peak * np.sin(x)
            positive = 2 * step <= self.steps
            fires = ~self.gated | ((step - 1) % (self.steps // 2) >= self.fires_behind)
            up = (fires if positive else never) | (~self.gated) | (l > 0.0)
            down = ((never if positive else fires) | (~self.gated) | (l < 0.0)) & ~self.half_wave
            sign = np.where(l > 0.0, 1.0, np.where(l < 0.0, -1.0, 1.0 if positive else -1.0))
            may = np.where(sign > 0.0, up, down)
            # in a thyristor bridge a fired pair and one that still carries hold the load between them: the positive pair
            # has (i + l)/2, the negative (i - l)/2
            tiny = 1e-6 * self.peak / self.R
            floor = self.wheel | (
                self.pairs & (up | (i + l > tiny)) & (down | (i - l > tiny)) & (i > tiny)
            )
            p = (i * self.L / dt - self.E) * q
            a = np.where(may, (sign * l * self.Ls / dt + sign * e - self.drop) / z, 0.0)
            through = np.where(may, b, 0.0)
            # current balance: |l| = (fixed + q) v + p - v_before C/dt
            rest = p - v * self.C / dt
            new_v = (a - rest) / (fixed + q + through)
            cut = a - through * new_v <= 0.0
            new_v = np.where(cut, -rest / (fixed + q), new_v)
            new_v = np.where(floor, np.maximum(new_v, -self.free_drop), new_v)
            new_l = sign * np.maximum(np.where(may, a - through * new_v, 0.0), 0.0)
            new_i = p + q * new_v
            if meters:
                charge = self.C * (new_v - v) / dt
                sums += np.stack((new_v, new_v**2, new_i, new_i**2, new_l**2, e * new_l, charge**2))
                seen = np.stack((new_v, new_i, np.abs(new_l)))
                top, low = np.maximum(top, seen), np.minimum(low, seen)
            l, v, i = new_l, new_v, new_i
        end = np.stack((l, v, i))
        if not meters:
            return end, None
        mean = sums / self.steps
        return end, Readings(
            mean[0], np.sqrt(mean[1]), top[0], low[0], mean[2], np.sqrt(mean[3]), top[1], low[1],
            np.sqrt(mean[4]), top[2], mean[5], np.sqrt(mean[6]),
        )  # fmt: skip


def _shoot(circuits: list[Circuit], steps: int, start: Array, strict: bool = True) -> Array:
    """The state that a period of `steps` steps gives back; if not `strict`, the best of a few rounds."""
    n = len(circuits)
    four = _Network([*circuits] * 4, steps)
    one = _Network(circuits, steps)
    scale = np.stack((one.peak / (one.R + one.Rs), one.peak, one.peak / (one.R + one.Rs)))
    low, high = np.full(n, -np.inf), np.full(n, np.inf)
    for round_ in range(60 if strict else 15):
        nudges = 1e-4 * scale
        starts = [start]
        for k in range(3):
            moved = start.copy()
            moved[k] += nudges[k]
            starts.append(moved)
        end, _none = four.period(np.concatenate(starts, axis=1), meters=False)
        base = end[:, :n]
        slope = np.stack([(end[:, n * (k + 1) : n * (k + 2)] - base) / nudges[k] for k in range(3)], axis=1)
        step = np.linalg.solve(np.eye(3) - slope.transpose(2, 0, 1), (base - start).T[:, :, None])[:, :, 0].T
        # both: next to a kink the slope, and with it the step, may be anything
        off = np.max(np.maximum(np.abs(step), np.abs(base - start)) / scale, axis=0)
        if np.all(off <= 2e-5):
            return start
        # a step from a start at which the source never charges, or never takes the load, is too long: halve what is known
        # of the voltage, or without capacitor of the current
        main = np.where(one.C > 0.0, start[1], start[2])
        moves = np.where(one.C > 0.0, step[1], step[2])
        low, high = np.where(moves > 0.0, main, low), np.where(moves > 0.0, high, main)
        stuck = high - low <= 1e-5 * np.abs(high)
        low, high = np.where(stuck, -np.inf, low), np.where(stuck, np.inf, high)
        outside = ((main + moves <= low) | (main + moves >= high)) & np.isfinite(low) & np.isfinite(high)
        with np.errstate(divide="ignore", invalid="ignore"):
            part = np.where(outside & (moves != 0.0), np.abs((0.5 * (low + high) - main) / moves), 1.0)
        # now and then the circuit itself has its say: it always leads there, if slowly
        walks = round_ % 6 == 5 or (round_ >= 20 and round_ % 6 > 0)
        if walks:
            low, high = np.full(n, -np.inf), np.full(n, np.inf)
        start = np.where(off <= 2e-5, start, base if walks else start + part * step)
    if not strict:
        return start
    raise AssertionError(f"the period of {circuits[int(np.argmax(off))]} does not close")


def readings(circuits: list[Circuit], steps: int = 3600) -> Readings:
    """Readings over one line period in the periodic steady state, extrapolated from `steps` and twice as many steps."""
    network = _Network(circuits, steps)
    v = np.where(network.C > 0.0, np.maximum(0.8 * (network.peak - network.drop), network.E), 0.0)
    start = np.stack((np.zeros_like(v), v, np.where(network.C > 0.0, (v - network.E) / network.R, 0.0)))
    start = _shoot(circuits, steps // 4, start, strict=False)
    found = []
    for fine in (steps, 2 * steps):
        start = _shoot(circuits, fine, start)
        found.append(_Network(circuits, fine).period(start, meters=True)[1])
    coarse, fine_ones = found
    assert coarse is not None
    assert fine_ones is not None
    return Readings(
        **{name: 2.0 * getattr(fine_ones, name) - getattr(coarse, name) for name in Readings.__dataclass_fields__}
    )
