"""A universal motor on alternating current, plain or behind a triac: exact, one closed form per half-cycle.

The field of a series motor changes sign with its current, so the back-EMF k_omega·i always opposes the current: at
constant speed an unsaturated series motor is a resistance R + k_omega behind its inductance. On rectified current it
is the same resistance to the other solvers, as `SeriesMotor.load`.
"""

from dataclasses import dataclass
from functools import lru_cache
from math import asin, isfinite, pi, sin, sqrt, tanh

from .inputs import SMALLEST_INDUCTANCE, Load, NotSolved, Source, refuse_unless
from .periodic import LONGEST_TIME_CONSTANT
from .roots import crossing
from .spans import Driven
from .steady import BESIDE, Samples, sine_integrals

KEPT = 4096
ACCURACY = 1e-9  # relative, of a wanted RMS current


@dataclass(frozen=True, slots=True)
class SeriesMotor:
    """A series motor at constant speed on an unsaturated iron path.

    R         ohm, field, armature, brushes and leads together
    L         H, field and armature together
    k_omega   ohm (volts of back-EMF per ampere): the motor's constant times its angular velocity; 0 at standstill

    Saturation lowers k and L at high current, so the current at starting comes out low; remanence and the ripple
    of the speed are left out. Raises NotSolved for a value that is not finite, R not above zero, L under 1 microhenry,
    or k_omega negative (a motor driven backwards).
    """

    R: float
    L: float
    k_omega: float = 0.0

    def __post_init__(self) -> None:
        for name in ("R", "L", "k_omega"):
            number = float(getattr(self, name))
            refuse_unless(isfinite(number), f"motor {name} is not a finite number: {number}")
            object.__setattr__(self, name, number)
        refuse_unless(self.R > 0.0, f"motor resistance must be above zero, not {self.R:.3g} ohm")
        refuse_unless(
            self.L >= SMALLEST_INDUCTANCE,
            f"motor inductance must be at least {SMALLEST_INDUCTANCE} H, not {self.L:.3g} H",
        )
        refuse_unless(
            self.k_omega >= 0.0,
            f"k·omega can't be negative: {self.k_omega:.3g} ohm; a motor turning backwards is not modelled",
        )

    @property
    def load(self) -> Load:
        """The same motor for the solvers of rectified current: its back-EMF is a resistance there too."""
        return Load(self.R + self.k_omega, self.L, 0.0)


@dataclass(frozen=True, slots=True)
class Alternating:
    """The periodic steady state of a series motor on alternating current.

    Current in A: RMS, peak and the average of its amount; the line carries the same. `rms_voltage` (V) is that at the
    motor, zero while no current flows. `line_power` is drawn from the ideal source, `motor_power` taken by the motor,
    `shaft_power` what its back-EMF turns into torque, iron and friction losses included; `device_loss` and `source_loss`
    are the heat of the forward drop and of the source resistance (all W). Angles in rad from the voltage zero of the
    half-cycle: where the current starts and stops, None without a gap (`continuous`) or without any current.
    """

    source: Source
    motor: SeriesMotor
    alpha: float
    average_current: float
    rms_current: float
    peak_current: float
    rms_voltage: float
    line_power: float
    continuous: bool
    start_angle: float | None
    extinction_angle: float | None
    conduction_angle: float
    begins: float  # rad, where the pulse of `samples` begins

    @property
    def line_current(self) -> float:
        """RMS, A."""
        return self.rms_current

    @property
    def line_average(self) -> float:
        """A: both half-cycles are alike."""
        return 0.0

    @property
    def form_factor(self) -> float:
        """RMS over average amount of the current; raises NotSolved when no current flows."""
        refuse_unless(self.average_current > 0.0, "no current flows, so it has no form factor")
        return self.rms_current / self.average_current

    @property
    def power_factor(self) -> float:
        """Line power over the product of RMS voltage and current; raises NotSolved when no current flows."""
        refuse_unless(self.rms_current > 0.0, "no current flows, so the line has no power factor")
        return self.line_power / (self.source.rms * self.rms_current)

    @property
    def motor_power(self) -> float:
        """W, copper and shaft."""
        return (self.motor.R + self.motor.k_omega) * self.rms_current**2

    @property
    def shaft_power(self) -> float:
        """W, back-EMF times current."""
        return self.motor.k_omega * self.rms_current**2

    @property
    def device_loss(self) -> float:
        """W, of the constant drop."""
        return self.source.drop * self.average_current

    @property
    def source_loss(self) -> float:
        """W, of the source resistance."""
        return self.source.resistance * self.rms_current**2

    def samples(self, n: int) -> Samples:
        """`n` evenly spaced points over one line period, and one on either side of each start and stop.

        Raises NotSolved for less than two points.
        """
        refuse_unless(n >= 2, f"a chart needs at least two points, not {n}")
        circuit = _Circuit(self.source, self.motor)
        angles = [2.0 * pi * j / (n - 1) for j in range(n)]
        if not self.continuous and self.start_angle is not None:
            for edge in (self.begins, self.begins + self.conduction_angle):
                for half in (0.0, pi):
                    angle = (edge + half) % (2.0 * pi)
                    angles += [a for a in (angle - BESIDE, angle + BESIDE) if 0.0 <= a <= 2.0 * pi]
        angles.sort()
        volts, currents = [], []
        for angle in angles:
            since = (angle - self.begins) % pi
            half = round((angle - self.begins - since) / pi)
            sign = -1.0 if half % 2 else 1.0
            i = v = 0.0
            if since <= self.conduction_angle:
                i = max(circuit.driven.current(self.begins + since, self.begins, 0.0), 0.0)
                v = circuit.terminal(self.begins + since, i)
            volts.append(sign * v)
            currents.append(sign * i)
        shown = tuple(circuit.peak * sin(angle) for angle in angles)
        return Samples(tuple(angles), shown, tuple(volts), tuple(currents))


class _Circuit:
    """Source, triac and motor in series; terminal voltage v = a Vm sin x + b + c i while current flows."""

    __slots__ = ("a", "b", "c", "driven", "natural", "peak")

    def __init__(self, source: Source, motor: SeriesMotor) -> None:
        reactance = 2.0 * pi * source.frequency * motor.L
        inside = motor.R + motor.k_omega
        resistance = inside + source.resistance
        refuse_unless(
            reactance <= LONGEST_TIME_CONSTANT * resistance,
            f"omega L over R + k·omega of {reactance / resistance:.4g} is beyond {LONGEST_TIME_CONSTANT:g}: hardly any "
            "of the current would be active",
        )
        self.peak = sqrt(2.0) * source.rms
        self.driven = Driven(self.peak, source.drop, resistance, reactance + source.reactance)
        self.natural = asin(source.drop / self.peak) if source.drop < self.peak else None
        self.a = reactance / (reactance + source.reactance)
        self.b = -self.a * source.drop
        self.c = inside - self.a * resistance

    def terminal(self, x: float, i: float) -> float:
        """Voltage at the motor."""
        return self.a * self.peak * sin(x) + self.b + self.c * i

    def pulse(self, alpha: float) -> tuple[float, float, bool] | None:
        """Where the current of a half-cycle starts and stops, and whether the next follows at once; None without any."""
        natural = self.natural
        if natural is None or alpha >= pi - natural:
            return None
        driven = self.driven
        start = max(alpha, natural)
        if driven.current(start + pi, start, 0.0) < 0.0:
            stop = driven.zero(start, 0.0, max(start, pi - natural), start + pi)
            return start, stop, False
        # i is zero at x0 and again at x0 + pi: both in the closed form give sin(x0 - lag) = -level tanh(k pi/2)/amplitude
        zero = driven.lag - asin(driven.level * tanh(0.5 * pi * driven.decay) / driven.amplitude)
        return zero, zero + pi, True


@lru_cache(maxsize=KEPT)
def on_alternating(source: Source, motor: SeriesMotor, alpha: float = 0.0) -> Alternating:
    """Steady state at firing angle `alpha` (rad, 0 to pi) of a triac ahead of the motor; 0 is plain alternating current.

    The gate is held from alpha to pi in each half-cycle: fired before the current of the last one has ended, the triac
    goes on conducting (full conduction). With a single short pulse it would conduct in one direction only, which heats
    the motor and saturates a transformer. Raises NotSolved for an angle outside its range.
    """
    alpha = float(alpha)
    refuse_unless(0.0 <= alpha <= pi, f"a firing angle lies between 0 and pi rad, not at {alpha:.3g}")
    circuit = _Circuit(source, motor)
    pulse = circuit.pulse(alpha)
    if pulse is None:
        return Alternating(source, motor, alpha, 0.0, 0.0, 0.0, 0.0, 0.0, False, None, None, 0.0, 0.0)
    start, stop, continuous = pulse
    driven, peak = circuit.driven, circuit.peak
    i, i2, i_sin = driven.integrals(start, 0.0, stop)
    ones, sines, squares = sine_integrals(start, stop)
    a, b, c = circuit.a, circuit.b, circuit.c
    v2 = (
        a * a * peak * peak * squares
        + b * b * ones
        + c * c * i2
        + 2.0 * (a * b * peak * sines + a * c * peak * i_sin + b * c * i)
    )
    top = driven.turning(start, 0.0, stop, top=True)
    return Alternating(
        source, motor, alpha, i / pi, sqrt(max(i2, 0.0) / pi), top or 0.0, sqrt(max(v2, 0.0) / pi), peak * i_sin / pi,
        continuous, None if continuous else start, None if continuous else stop, stop - start, start,
    )  # fmt: skip


@lru_cache(maxsize=KEPT)
def alternating_angle_for(source: Source, motor: SeriesMotor, rms_current: float) -> Alternating:
    """Steady state with the firing angle that gives an RMS current (A) at the motor's speed.

    Raises NotSolved for a current not above zero, or beyond what flows on plain alternating current.
    """
    wanted = _wanted(rms_current)
    full = on_alternating(source, motor)
    most = full.rms_current
    refuse_unless(
        wanted <= most * (1.0 + ACCURACY),
        f"{wanted:.4g} A is out of reach: at full conduction {source.rms:.4g} V give {most:.4g} A at this speed",
    )
    if wanted >= most * (1.0 - ACCURACY):
        return full
    # up to the angle of full conduction nothing changes; above it the current falls with the angle
    angle = crossing(
        lambda alpha: on_alternating(source, motor, alpha).rms_current - wanted,
        0.0, most - wanted, pi, -wanted, ACCURACY * wanted, "firing angle",
    )  # fmt: skip
    return on_alternating(source, motor, angle)


@lru_cache(maxsize=KEPT)
def series_emf_for(source: Source, R: float, L: float, rms_current: float, alpha: float = 0.0) -> Alternating:
    """Steady state with the k_omega, so the speed, at which an RMS current (A) flows at firing angle `alpha` (rad).

    The answer is in `motor.k_omega`. Raises NotSolved for a current not above zero, or beyond that at standstill.
    """
    wanted = _wanted(rms_current)
    still = on_alternating(source, SeriesMotor(R, L), alpha)
    if wanted > still.rms_current * (1.0 + ACCURACY):
        raise NotSolved(
            f"{wanted:.4g} A is out of reach: at standstill {source.rms:.4g} V give {still.rms_current:.4g} A at this "
            "firing angle"
        )
    if wanted >= still.rms_current * (1.0 - ACCURACY):
        return still
    # a resistance that leaves less than the wanted current even on the whole of the voltage
    most = 1.01 * source.rms / wanted
    found = crossing(
        lambda k: on_alternating(source, SeriesMotor(R, L, k), alpha).rms_current - wanted,
        0.0, still.rms_current - wanted,
        most, on_alternating(source, SeriesMotor(R, L, most), alpha).rms_current - wanted,
        ACCURACY * wanted, "speed",
    )  # fmt: skip
    return on_alternating(source, SeriesMotor(R, L, found), alpha)


def _wanted(rms_current: float) -> float:
    wanted = float(rms_current)
    refuse_unless(isfinite(wanted) and wanted > 0.0, f"the RMS current must be above zero, not {wanted:.3g} A")
    return wanted
