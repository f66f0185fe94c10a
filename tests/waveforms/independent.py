"""A second opinion: the same circuits stepped through time, device by device, with numpy. Shares no code and no
derivation with the package: no closed form over an interval, no switching angle, no integral.

Each step asks which devices conduct, at the voltage in the middle of the step, and lets the current relax towards
what that circuit would drive. All points go through the steps side by side. The start value is shot at until the line
period closes. Errors are of the order of one step at each switching.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from tests.waveforms.points import Point

Array = NDArray[np.float64]
JUNCTIONS = {  # forward drops in series: from the source, in the freewheel path (0: there is none)
    "diode bridge": (2, 0),
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
class Measured:
    """What meters would read, one number per point."""

    average: Array
    rms: Array
    peak: Array
    least: Array
    average_voltage: Array
    rms_voltage: Array
    line_rms: Array
    line_power: Array
    free_average: Array
    free_rms: Array


class _Bench:
    """All points as columns, and one line period of steps."""

    def __init__(self, points: list[Point], steps: int) -> None:
        def column(*numbers: float) -> Array:
            return np.array(numbers, dtype=np.float64)

        self.steps = steps
        self.peak = column(*(2.0**0.5 * p.rms for p in points))
        self.alpha = np.radians(column(*(p.alpha for p in points)))
        self.Rs = column(*(p.source_resistance for p in points))
        self.drop = column(*(p.drop for p in points))
        self.R = column(*(p.R for p in points))
        self.E = column(*(p.E for p in points))
        dt = column(*(1.0 / (p.frequency * steps) for p in points))
        L = column(*(p.L for p in points))
        junctions = np.array([JUNCTIONS[p.converter] for p in points], dtype=np.float64)
        self.half_wave = np.array([p.converter.startswith("half-wave") for p in points])
        self.wheel = junctions[:, 1] > 0
        self.diodes = np.array([p.converter == "diode bridge" for p in points])
        self.pairs = np.array([p.converter == "fully controlled bridge" for p in points])
        # a bridge whose four devices all conduct shorts load and source alike: two drops on the load
        self.free_drop = np.where(self.wheel, self.drop * junctions[:, 1] / junctions[:, 0], self.drop)
        self.keep_source = np.exp(-(self.R + self.Rs) / L * dt)
        self.keep_free = np.exp(-self.R / L * dt)

    def period(self, start: Array, meters: bool) -> tuple[Array, Measured | None]:
        """One line period from the source's rising zero: the current at its end, and the readings if asked for."""
        i = start.copy()
        n = i.size
        # the pair or single device that still carries current from before: the negative pair of a thyristor bridge
        polarity = np.where(i > 0.0, -1.0, 0.0)
        sums = np.zeros((8, n))
        top = i.copy()
        least = i.copy()
        for step in range(self.steps):
            x = (step + 0.5) * 2.0 * np.pi / self.steps
            sine = self.peak * np.sin(x)
            half = x % np.pi
            sign = 1.0 if x < np.pi else -1.0
            gate = half >= self.alpha
            # open-circuit voltage each kind would put on the load, and whether it has a way to the source now
            able = sine - np.zeros(n)
            rectified = np.abs(sine)
            on = self.diodes | (~self.half_wave & self.wheel & gate)
            able[on] = rectified[on]
            # thyristor bridge: the gated pair takes over if it is forward biased, else the old pair carries on; as long
            # as the source can't carry the load current through its resistance, both pairs conduct
            takes = self.pairs & gate & ((i > 0.0) | (rectified - self.drop > self.E))
            both = takes & (polarity == -sign) & (i * self.Rs > rectified)
            polarity = np.where(takes & ~both, sign, np.where(i > 0.0, polarity, 0.0))
            able = np.where(self.pairs, np.where(both, rectified, polarity * sine), able)
            on |= self.pairs & (polarity != 0.0)
            # one device: gated in the positive half-cycle, then for as long as it carries current
            single = self.half_wave & ~self.wheel & (((x < np.pi) & gate) | (i > 0.0))
            on |= single | (self.half_wave & self.wheel & (x < np.pi) & gate)
            shorted = both | (self.diodes & (i * self.Rs > able))
            relieved = self.wheel & (able - self.drop - i * self.Rs < -self.free_drop)
            from_source = on & ~shorted & ~relieved
            driving = able - self.drop - self.E
            rest = (i <= 0.0) & ((driving <= 0.0) | ~on)
            target = np.where(from_source, driving / (self.R + self.Rs), (-self.free_drop - self.E) / self.R)
            keep = np.where(from_source, self.keep_source, self.keep_free)
            after = np.where(rest, 0.0, target + (i - target) * keep)
            live = np.where(rest, 0.0, 1.0)
            ends = after < 0.0
            with np.errstate(divide="ignore", invalid="ignore"):
                live = np.where(ends, np.clip(i / (i - after), 0.0, 1.0), live)
            after = np.maximum(after, 0.0)
            if meters:
                mid = 0.5 * (i + after)
                terminal = np.where(from_source, able - self.drop - mid * self.Rs, -self.free_drop)
                changing = on & (shorted | relieved) & (self.Rs > 0.0)
                spare = able - self.drop + self.free_drop
                with np.errstate(divide="ignore", invalid="ignore"):
                    shared = np.where(changing, np.clip(spare / self.Rs, 0.0, mid), 0.0)
                line = np.where(from_source, mid, shared)
                square = np.where(ends, live * i * i / 3.0, mid * mid + (after - i) ** 2 / 12.0)
                sums += np.stack(
                    (
                        np.where(ends, 0.5 * live * i, mid),
                        square,
                        terminal * live + self.E * (1.0 - live),
                        terminal**2 * live + self.E**2 * (1.0 - live),
                        np.where(from_source, square, shared * shared),
                        np.where(able < 0.0, -1.0, 1.0) * np.abs(sine) * line,
                        np.where(from_source, 0.0, mid - line),
                        np.where(from_source, 0.0, (mid - line) ** 2),
                    )
                )
                top = np.maximum(top, after)
                least = np.minimum(least, after)
            i = after
        if not meters:
            return i, None
        mean = sums / self.steps
        return i, Measured(
            mean[0],
            np.sqrt(mean[1]),
            top,
            least,
            mean[2],
            np.sqrt(mean[3]),
            np.sqrt(mean[4]),
            mean[5],
            mean[6],
            np.sqrt(mean[7]),
        )


def simulate(points: list[Point], steps: int = 14400) -> Measured:
    """Readings over one line period in the periodic steady state, from `steps` steps."""
    bench = _Bench(points, steps)
    twin = _Bench([*points, *points], steps)
    n = len(points)
    start = np.zeros(n)
    for _ in range(25):
        nudge = 0.01 + 0.01 * start
        end, _none = twin.period(np.concatenate((start, start + nudge)), meters=False)
        slope = (end[n:] - end[:n]) / nudge
        step = (end[:n] - start) / (1.0 - slope)
        if np.all(np.abs(step) <= 1e-5 * (1.0 + start)):
            _end, measured = bench.period(start, meters=True)
            assert measured is not None
            return measured
        start = np.maximum(start + step, 0.0)
    raise AssertionError(f"the period of point {int(np.argmax(np.abs(step)))} does not close")
