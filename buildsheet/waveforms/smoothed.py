"""A diode rectifier with a smoothing capacitor into a motor or a constant current, and the same without the capacitor."""

from dataclasses import dataclass, field
from functools import lru_cache
from itertools import pairwise
from math import inf, isfinite, pi, sin, sqrt

from .charging import Charging, Stretch
from .converters import Converter
from .inputs import Capacitor, ConstantCurrent, Load, NotSolved, Source, refuse_unless
from .modes import Motion, Motor, Parts, State, Sums
from .solve import KEPT, back_emf_for, solve
from .steady import AGREEMENT, BESIDE, DeviceCurrent, Samples, Steady

ACCURACY = 1e-9  # relative, of a wanted average current
SMALLEST_CAPACITANCE = 1e-9  # F; far below it nothing is smoothed, and the closed forms run out of digits
ROUNDS = 60
EARLY = (0.001, 0.01, 0.1)
LEVEL = 1e-8  # relative, to which an extreme is sought
LOOKS = 0.15  # rad between two looks at a quantity whose extremes are sought
CHART = 720  # points from which the extremes of a voltage without capacitor are read


@dataclass(frozen=True, slots=True)
class Smoothed:
    """The periodic steady state of a rectifier, a capacitor and a load.

    Voltage of the capacitor, which is that of the motor: average, RMS, highest, lowest (V). Current of the load:
    average, RMS, highest, lowest (A); it may turn round where the capacitor falls below the back-EMF. Line: RMS,
    average (A; a bridge draws no average) and peak current, power (W) from the ideal source. `capacitor_current` is the
    RMS ripple current of the capacitor (A). `device_loss`, `source_loss`, `bleeder_loss`: heat (W) of the forward drops,
    of the source resistance, of the bleeder.

    Angles in rad: the line charges the capacitor for `conduction_angle` of each pulse, from `start_angle` to
    `extinction_angle` from the rising zero of that half-cycle; None without any line current, or where it never stops.
    """

    converter: Converter
    source: Source
    load: Load | ConstantCurrent
    capacitor: Capacitor
    average_voltage: float
    rms_voltage: float
    peak_voltage: float
    least_voltage: float
    average_current: float
    rms_current: float
    peak_current: float
    least_current: float
    line_current: float
    line_average: float
    line_peak: float
    line_power: float
    capacitor_current: float
    device_loss: float
    source_loss: float
    bleeder_loss: float
    start_angle: float | None
    extinction_angle: float | None
    conduction_angle: float
    devices: tuple[DeviceCurrent, ...]
    stretches: tuple[Stretch, ...] = field(repr=False)
    alone: Steady | None = field(default=None, repr=False)  # the rectifier's own answer, without capacitor

    @property
    def ripple_voltage(self) -> float:
        """V, peak to peak."""
        return self.peak_voltage - self.least_voltage

    @property
    def ripple_current(self) -> float:
        """A, peak to peak, of the load."""
        return self.peak_current - self.least_current

    @property
    def continuous(self) -> bool:
        """Whether the load's current never stops and never turns round."""
        return self.least_current > 0.0

    @property
    def form_factor(self) -> float:
        """RMS over average current of the load; raises NotSolved when it takes no average current."""
        refuse_unless(self.average_current > 0.0, "no current flows, so it has no form factor")
        return self.rms_current / self.average_current

    @property
    def power_factor(self) -> float:
        """Line power over the product of RMS voltage and RMS line current; raises NotSolved when no current flows."""
        refuse_unless(self.line_current > 0.0, "no current flows, so the line has no power factor")
        return self.line_power / (self.source.rms * self.line_current)

    def samples(self, n: int) -> Samples:
        """`n` evenly spaced points over one line period, and one on either side of each change of conduction.

        Raises NotSolved for less than two points.
        """
        refuse_unless(n >= 2, f"a chart needs at least two points, not {n}")
        if self.alone is not None:
            return self.alone.samples(n)
        period = 2.0 * pi / self.converter.pulses
        angles = [2.0 * pi * j / (n - 1) for j in range(n)]
        for stretch in self.stretches:
            for pulse in range(self.converter.pulses):
                edge = stretch.x + pulse * period
                angles += [a for a in (edge - BESIDE, edge + BESIDE) if 0.0 <= a <= 2.0 * pi]
        angles.sort()
        states, lines = [], []
        for angle in angles:
            turns, x = divmod(angle, period)
            stretch = next((s for s in reversed(self.stretches) if s.x <= x), self.stretches[0])
            state = stretch.motion.at(x - stretch.x)
            states.append(state)
            backwards = self.converter.pulses == 2 and int(turns + stretch.pulse) % 2 == 1
            lines.append(-state.l if backwards else state.l)
        shown = tuple(sqrt(2.0) * self.source.rms * sin(angle) for angle in angles)
        return Samples(tuple(angles), shown, tuple(s.v for s in states), tuple(s.i for s in states), tuple(lines))


@lru_cache(maxsize=KEPT)
def smoothed(
    converter: Converter, source: Source, load: Load | ConstantCurrent, capacitor: Capacitor
) -> Smoothed:
    """Steady state of a diode rectifier with a capacitor across its load; with C = 0, that of the rectifier alone.

    The load is a motor behind its resistance and inductance (a choke counts to both), or a constant current. Where it
    empties the capacitor, its current runs on through the diodes, as without one. A back-EMF above the source's peak
    feeds the bleeder alone.

    Raises NotSolved for a converter with a gate, a source without any impedance, a constant current from an empty
    capacitor or none, a half-wave diode without freewheel path whose capacitor would be charged backwards, and when no
    steady state was found.
    """
    _refuse_gate(converter, capacitor)
    if capacitor.C == 0.0:
        return _bare(converter, source, load, capacitor)
    charging = _charging(converter, source, load, capacitor)
    stretches, _ = charging.solve()
    return _summary(converter, source, load, capacitor, charging, stretches)


@lru_cache(maxsize=KEPT)
def smoothed_emf_for(
    converter: Converter, source: Source, R: float, L: float, average_current: float, capacitor: Capacitor
) -> Smoothed:
    """Steady state with the back-EMF at which the motor takes `average_current` (A): its speed at that load.

    The answer is in `load.E`, the terminal voltage that goes with it in `average_voltage`. Raises NotSolved for a current
    not above zero, or one beyond what flows at standstill, and as `smoothed`.
    """
    _refuse_gate(converter, capacitor)
    if capacitor.C == 0.0:
        found = back_emf_for(converter, source, R, L, average_current)
        return smoothed(converter, source, found.load, capacitor)
    wanted = float(average_current)
    refuse_unless(isfinite(wanted) and wanted > 0.0, f"the average current must be above zero, not {wanted:.3g} A")
    search = _Search(converter, source, R, L, capacitor, wanted)
    return smoothed(converter, source, Load(R, L, search.answer()), capacitor)


class _Search:
    """The back-EMF at which a wanted average current flows; each round starts where the last two steady states point."""

    def __init__(
        self, converter: Converter, source: Source, R: float, L: float, capacitor: Capacitor, wanted: float
    ) -> None:
        self.circuit = (converter, source, capacitor)
        self.R, self.L, self.wanted = R, L, wanted
        self.known: list[tuple[float, State]] = []

    def excess(self, E: float) -> float:
        """Average current at E beyond the wanted one, A."""
        converter, source, capacitor = self.circuit
        charging = _charging(converter, source, Load(self.R, self.L, E), capacitor)
        stretches, state = charging.solve(self._start(E))
        self.known.append((E, state))
        return sum(s.motion.sums(s.width).i for s in stretches) / charging.period - self.wanted

    def _start(self, E: float) -> State | None:
        if len(self.known) < 2:
            return self.known[-1][1] if self.known else None
        (E1, one), (E2, two) = self.known[-2:]
        return State(*(b + (b - a) * (E - E2) / (E2 - E1) for a, b in zip(one, two, strict=True)))

    def answer(self) -> float:
        """The back-EMF, V."""
        converter, source, _ = self.circuit
        peak, wanted, R = sqrt(2.0) * source.rms, self.wanted, self.R
        # a resistance a little above that of the armature stands for the whole: a guess that the first step mends
        slope = -1.0 / (R + 2.0 * (source.resistance + source.reactance))
        E = max(0.0, 0.9 * (peak - source.drop) + wanted / slope)
        low, high = 0.0, peak
        last: tuple[float, float] | None = None
        for _ in range(ROUNDS):
            excess = self.excess(E)
            if abs(excess) <= ACCURACY * wanted:
                return E
            if E == 0.0 and excess < 0.0:
                raise NotSolved(
                    f"{wanted:.4g} A is out of reach: at standstill a {converter.label} with capacitor gives "
                    f"{excess + wanted:.4g} A into {R:.4g} ohm"
                )
            low, high = (E, high) if excess > 0.0 else (low, E)
            if last is not None and last[0] != E:
                slope = (excess - last[1]) / (E - last[0])
            last = (E, excess)
            following = E - excess / slope if slope < 0.0 else high
            if following <= 0.0 == low:
                following = 0.0
            elif not low < following < high:
                following = 0.5 * (low + high)
            E = following
        raise NotSolved(f"the back-EMF did not converge: {excess:.3g} A left over at {E:.4g} V")


def _refuse_gate(converter: Converter, capacitor: Capacitor) -> None:
    refuse_unless(
        capacitor.C == 0.0 or not converter.controlled,
        f"a capacitor behind a {converter.label} is forbidden: each firing would charge it from the line's momentary "
        "voltage in one blow, limited by nothing but the line, which destroys device, capacitor or fuse",
    )


def _charging(converter: Converter, source: Source, load: Load | ConstantCurrent, capacitor: Capacitor) -> Charging:
    omega = 2.0 * pi * source.frequency
    refuse_unless(
        capacitor.C >= SMALLEST_CAPACITANCE,
        f"a capacitance of {capacitor.C:.3g} F smooths nothing: give 0, or at least {SMALLEST_CAPACITANCE:g} F",
    )
    G = 1.0 / capacitor.bleeder if isfinite(capacitor.bleeder) else 0.0
    parts = Parts(
        sqrt(2.0) * source.rms, source.drop, source.resistance, source.reactance, omega * capacitor.C, G
    )
    if isinstance(load, ConstantCurrent):
        return Charging(converter, parts, Motor(None, 0.0, load.current))
    return Charging(converter, parts, Motor(load.R, omega * load.L, load.E))


def _bare(
    converter: Converter, source: Source, load: Load | ConstantCurrent, capacitor: Capacitor
) -> Smoothed:
    """Without capacitor: the figures of the rectifier alone."""
    if isinstance(load, ConstantCurrent):
        raise NotSolved("a constant current without a capacitor is not modelled: describe the load by R, L and E")
    refuse_unless(
        not isfinite(capacitor.bleeder), "a bleeder without a capacitor has nothing to discharge: leave it out"
    )
    steady = solve(converter, source, load)
    volts = steady.samples(CHART + 1).terminal_voltage
    return Smoothed(
        converter, source, load, capacitor, steady.average_voltage, steady.rms_voltage, max(volts), min(volts),
        steady.average_current, steady.rms_current, steady.peak_current, steady.peak_current - steady.ripple_current,
        steady.line_current, steady.line_average, steady.peak_current, steady.line_power, 0.0, steady.device_loss,
        steady.source_loss, 0.0, steady.start_angle, steady.extinction_angle, steady.conduction_angle, steady.devices, (),
        steady,
    )  # fmt: skip


def _summary(
    converter: Converter,
    source: Source,
    load: Load | ConstantCurrent,
    capacitor: Capacitor,
    charging: Charging,
    stretches: list[Stretch],
) -> Smoothed:
    """All figures of a period; raises NotSolved if they contradict one another."""
    period, G, hold = charging.period, charging.parts.G, charging.hold
    total = Sums()
    # what leaves the rectifier: the line current, but while the diodes hold the voltage that of load and bleeder
    out = out2 = conduction = 0.0
    begins = ends = None
    for stretch in stretches:
        sums = stretch.motion.sums(stretch.width)
        total = Sums(*(a + b for a, b in zip(total, sums, strict=True)))
        if stretch.held:
            out += sums.i + G * hold * stretch.width
            out2 += sums.i2 + 2.0 * G * hold * sums.i + (G * hold) ** 2 * stretch.width
        else:
            out += sums.l
            out2 += sums.l2
        if stretch.on:
            conduction += stretch.width
            if begins is None and stretch.pulse == 0:
                begins = stretch.x
        if ends is None and begins is not None and not stretch.on:
            ends = stretch.x
    if ends is None and begins is not None:
        # the line current of this pulse runs on into the first stretch of the next
        ends = period + (stretches[0].width if stretches[0].on and stretches[0].pulse < 0 else 0.0)
    v, v2, i, i2, l, l2, l_sin, c2 = (max(0.0, s) if n in {1, 3, 5, 7} else s for n, s in enumerate(total))
    per = 1.0 / period
    peak = charging.parts.peak
    drawn = i + G * v
    # not 'not (... > ...)': a NaN has to fail here
    refuse_unless(
        abs(out - drawn) * per <= AGREEMENT * charging.scale.i + AGREEMENT * abs(drawn) and isfinite(v2 + c2 + l_sin),
        "the solution contradicts itself: the capacitor gains or loses charge in a period",
    )
    highest, lowest = _extremes(stretches)
    unbroken = conduction >= period * (1.0 - 1e-12)
    devices = tuple(
        DeviceCurrent(
            d.name,
            d.count,
            per * (d.line * l + d.whole * out + d.freewheel * (out - l)),
            sqrt(max(0.0, per * (d.line * l2 + d.whole * out2 + d.freewheel * (out2 - l2)))),
            max(highest.l, _held_top(stretches)) if d.whole else highest.l if d.line else _held_top(stretches),
        )
        for d in converter.devices
    )
    return Smoothed(
        converter=converter,
        source=source,
        load=load,
        capacitor=capacitor,
        average_voltage=v * per,
        rms_voltage=sqrt(v2 * per),
        peak_voltage=highest.v,
        least_voltage=lowest.v,
        average_current=i * per,
        rms_current=sqrt(i2 * per),
        peak_current=highest.i,
        least_current=lowest.i,
        line_current=sqrt(l2 * per),
        line_average=l * per if converter.pulses == 1 else 0.0,
        line_peak=highest.l,
        line_power=peak * l_sin * per,
        capacitor_current=sqrt(c2 * per),
        device_loss=source.drop * out * per,
        source_loss=source.resistance * l2 * per,
        bleeder_loss=G * v2 * per,
        start_angle=None if unbroken else begins,
        extinction_angle=None if unbroken else ends,
        conduction_angle=conduction,
        devices=devices,
        stretches=tuple(stretches),
    )


def _held_top(stretches: list[Stretch]) -> float:
    """Highest current of the load while the diodes hold the voltage, A."""
    return max((s.motion.start.i for s in stretches if s.held), default=0.0)


def _extremes(stretches: list[Stretch]) -> tuple[State, State]:
    """Highest and lowest of each quantity: at the ends of stretches, or where its slope is zero inside one."""
    highest, lowest = [-inf] * 3, [inf] * 3
    for stretch in stretches:
        motion, modes = stretch.motion, stretch.motion.modes
        steps = max(4, int(stretch.width / LOOKS))
        if motion.calm > 0.0:
            steps = max(steps, int(min(stretch.width, motion.calm) / motion.look))
        # closer at the start, where a mode that dies quickly may turn a quantity round
        looks = [0.0, *(stretch.width / steps * part for part in EARLY)]
        looks += [stretch.width * k / steps for k in range(1, steps + 1)]
        states = [motion.at(w) for w in looks]
        slopes = [] if stretch.held else [modes.field(motion.x + w, s) for w, s in zip(looks, states, strict=True)]
        for n in range(3):
            highest[n] = max(highest[n], *(state[n] for state in states))
            lowest[n] = min(lowest[n], *(state[n] for state in states))
            for k, (one, other) in enumerate(pairwise(slopes)):
                if one[n] * other[n] < 0.0:
                    flat = _flat(motion, n, looks[k], looks[k + 1], one[n], other[n])
                    highest[n], lowest[n] = max(highest[n], flat), min(lowest[n], flat)
    return State(*highest), State(*lowest)


def _flat(motion: Motion, n: int, low: float, high: float, one: float, other: float) -> float:
    """A quantity where its slope, `one` at `low` and `other` at `high`, is zero: it varies little, so few steps do."""
    value = 0.0
    for _ in range(60):
        x = low + (high - low) * one / (one - other)
        state = motion.at(x)
        value = state[n]
        slope = motion.modes.field(motion.x + x, state)[n]
        if abs(slope) * (high - low) <= LEVEL * abs(value):
            break
        if slope * one > 0.0:
            low, one, other = x, slope, 0.5 * other
        else:
            high, other, one = x, slope, 0.5 * one
    return value
