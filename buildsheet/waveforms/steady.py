"""What a meter, a fuse, a device and a chart see of one periodic current: closed-form integrals over its spans."""

from dataclasses import dataclass, field
from math import isfinite, pi, sin, sqrt
from typing import NamedTuple

from .converters import Converter
from .inputs import Load, Source, refuse_unless
from .overlap import loop_of
from .periodic import Cycle, Loop, Span

AGREEMENT = 1e-6  # of the source's peak: how well the two ways to the average terminal voltage have to agree
BESIDE = 1e-9  # rad, on either side of a switching in a chart


@dataclass(frozen=True, slots=True)
class DeviceCurrent:
    """Current of one device of its kind, A, over the whole line period; `peak` is the highest that it carries."""

    name: str
    count: int
    average: float
    rms: float
    peak: float


class Samples(NamedTuple):
    """One line period for a chart: rad from the source's rising zero, V, V, A of the load; where it is another than
    that of the load, A of the line, else none."""

    angle: tuple[float, ...]
    source_voltage: tuple[float, ...]
    terminal_voltage: tuple[float, ...]
    current: tuple[float, ...]
    line_current: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Steady:
    """The periodic steady state of one converter, source, load and firing angle.

    Load: average, RMS, peak and peak-to-peak ripple current (A); average and RMS terminal voltage (V), which during
    a gap in the current is the back-EMF. Line: RMS and average current (A; a bridge draws no average), power (W) from
    the ideal source. `device_loss` is the heat of the forward drops (W), `source_loss` that of the source resistance.

    Angles in rad from the voltage zero of the half-cycle (rad from the rising zero for a half-wave converter):
    `start_angle` is where current starts, None without any current; `extinction_angle` where it stops, which may lie in
    the next half-cycle, None if it never stops. `conduction_angle` is the angle with current in each pulse.
    """

    converter: Converter
    source: Source
    load: Load
    alpha: float
    average_current: float
    rms_current: float
    peak_current: float
    ripple_current: float
    average_voltage: float
    rms_voltage: float
    line_current: float
    line_average: float
    line_power: float
    device_loss: float
    source_loss: float
    continuous: bool
    start_angle: float | None
    extinction_angle: float | None
    conduction_angle: float
    devices: tuple[DeviceCurrent, ...]
    spans: tuple[Span, ...] = field(repr=False)

    @property
    def form_factor(self) -> float:
        """RMS over average current; raises NotSolved when no current flows."""
        refuse_unless(self.average_current > 0.0, "no current flows, so it has no form factor")
        return self.rms_current / self.average_current

    @property
    def power_factor(self) -> float:
        """Line power over the product of RMS voltage and RMS line current; raises NotSolved when no current flows."""
        refuse_unless(self.line_current > 0.0, "no current flows, so the line has no power factor")
        return self.line_power / (self.source.rms * self.line_current)

    def samples(self, n: int) -> Samples:
        """`n` evenly spaced points over one line period, both ends included.

        Each switching adds a point just before and one just after it, so that steps stand upright in a chart.
        Raises NotSolved for less than two points.
        """
        refuse_unless(n >= 2, f"a chart needs at least two points, not {n}")
        source, load = self.source, self.load
        loop = loop_of(self.converter, source, load.R, load.L, load.E)
        whole = 2.0 * pi
        angles = [whole * j / (n - 1) for j in range(n)]
        for span in self.spans:
            for edge in (span.start, span.end):
                for pulse in range(self.converter.pulses):
                    angle = (edge + pulse * loop.period) % whole
                    angles += [a for a in (angle - BESIDE, angle + BESIDE) if 0.0 <= a <= whole]
        angles.sort()
        points = [loop.at(self.spans, angle % loop.period) for angle in angles]
        return Samples(
            tuple(angles),
            tuple(loop.peak * sin(angle) for angle in angles),
            tuple(load.E if voltage is None else voltage for voltage, _ in points),
            tuple(current for _, current in points),
        )


class _Sums:
    """Integrals over one period of the pulses: load (i), line (l), both, terminal voltage (v)."""

    __slots__ = ("free_top", "i", "i2", "il", "l", "l2", "power", "top", "v", "v2")

    def __init__(self) -> None:
        self.i = self.i2 = self.il = self.l = self.l2 = self.power = self.v = self.v2 = self.top = self.free_top = 0.0


def _sum(loop: Loop, spans: tuple[Span, ...], source: Source, alpha: float) -> _Sums:
    """Add up all spans of one period."""
    s = _Sums()
    for span in spans:
        _, x0, x1, i0, i1, _ = span
        s.top = max(s.top, i0, i1)
        if span.driven:
            i, i2, i_sin = loop.driven.integrals(x0, i0, x1)
            ones, sines, squares = sine_integrals(x0, x1)
            s.l += i
            s.l2 += i2
            s.il += i2
            s.power += loop.peak * i_sin
            a, b, c = loop.peak * loop.part_sine, loop.part_constant, loop.part_current
            s.v += a * sines + b * ones + c * i
            s.v2 += (
                a * (a * squares + 2.0 * b * sines) + b * b * ones + 2.0 * c * (a * i_sin + b * i) + c * c * i2
            )
            top = loop.turning(span, top=True)
            if top is not None:
                s.top = max(s.top, top)
        else:
            i, i2, _ = loop.free.integrals(x0, i0, x1)
            s.free_top = max(s.free_top, i0)
            s.v -= loop.free_drop * (x1 - x0)
            s.v2 += loop.free_drop * loop.free_drop * (x1 - x0)
            if span.line is not None:
                shared = loop.shared(span)
                s.l += shared.l
                s.l2 += shared.l2
                s.il += shared.il
                s.power += loop.peak * shared.l_sin
            elif source.inductance == 0.0 and source.resistance > 0.0:
                _add_overlap(s, loop, span, source.resistance, alpha)
        s.i += i
        s.i2 += i2
    return s


def sine_integrals(x0: float, x1: float) -> tuple[float, float, float]:
    """Of 1, sin x and sin^2 x from x0 to x1."""
    width = x1 - x0
    across, middle = sin(width), sin(0.5 * (x0 + x1))
    # the usual form (2x - sin 2x)/4, written as a sum of two terms that can't be negative
    return width, 2.0 * middle * sin(0.5 * width), 0.5 * (width - across) + across * middle * middle


def _add_overlap(s: _Sums, loop: Loop, span: Span, resistance: float, alpha: float) -> None:
    """Add the line's share of a freewheel span that it has not yet left, or is about to end.

    Both paths conduct then; the source works on its own resistance alone: l = (Vm sin x - spare) / Rs.
    """
    if loop.crossover is None:
        return
    low = max(span.start, alpha, loop.crossover)
    high = min(span.end, pi - loop.crossover)
    if low >= high:
        return
    ones, sines, squares = sine_integrals(low, high)
    peak, spare = loop.peak, loop.spare
    i, _, i_sin = loop.free.integrals(low, loop.free.current(low, span.start, span.i_start), high)
    s.l += (peak * sines - spare * ones) / resistance
    s.l2 += (peak * (peak * squares - 2.0 * spare * sines) + spare * spare * ones) / (resistance * resistance)
    s.il += (peak * i_sin - spare * i) / resistance
    s.power += peak * (peak * squares - spare * sines) / resistance


def summary(
    converter: Converter, source: Source, load: Load, alpha: float, loop: Loop, cycle: Cycle
) -> Steady:
    """All figures of a cycle; raises NotSolved if they contradict one another."""
    s = _sum(loop, cycle.spans, source, alpha)
    per = 1.0 / loop.period
    if cycle.start is None:
        conduction = 0.0
    elif cycle.stop is None:
        conduction = loop.period
    else:
        conduction = cycle.stop - cycle.start
    gap = loop.period - conduction
    average = s.i * per
    average_voltage = (s.v + load.E * gap) * per
    # not 'not (... > ...)': a NaN has to fail here
    refuse_unless(
        abs(average_voltage - load.E - load.R * average) <= AGREEMENT * loop.peak
        and isfinite(s.i2 + s.power + s.v2),
        "the solution contradicts itself: terminal voltage and current don't agree",
    )
    least = 0.0
    continuous = cycle.start is not None and cycle.stop is None
    if continuous:
        least = min(span.i_start for span in cycle.spans)
        for span in cycle.spans:
            low = loop.turning(span, top=False) if span.driven else None
            if low is not None:
                least = min(least, low)
    wheel, wheel2 = (s.i - s.l) * per, (s.i2 - 2.0 * s.il + s.l2) * per
    devices = tuple(
        DeviceCurrent(
            d.name,
            d.count,
            per * (d.line * s.l + d.whole * s.i) + d.freewheel * wheel,
            sqrt(max(0.0, per * (d.line * s.l2 + d.whole * s.i2) + d.freewheel * wheel2)),
            s.top if d.line or d.whole else s.free_top,
        )
        for d in converter.devices
    )
    # a sum of squares that is nothing but rounding may come out just below zero
    volts_squared = max(0.0, s.v2 + load.E * load.E * gap)
    return Steady(
        converter=converter,
        source=source,
        load=load,
        alpha=alpha,
        average_current=average,
        rms_current=sqrt(s.i2 * per),
        peak_current=s.top,
        ripple_current=s.top - least,
        average_voltage=average_voltage,
        rms_voltage=sqrt(volts_squared * per),
        line_current=sqrt(s.l2 * per),
        line_average=s.l * per if converter.pulses == 1 else 0.0,
        line_power=s.power * per,
        device_loss=source.drop * s.l * per + loop.free_drop * wheel,
        source_loss=source.resistance * s.l2 * per,
        continuous=continuous,
        start_angle=cycle.start,
        extinction_angle=cycle.stop,
        conduction_angle=conduction,
        devices=devices,
        spans=cycle.spans,
    )
