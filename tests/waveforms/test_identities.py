"""What holds for every steady state: balance of energy, of voltage, and the order of averages."""

from math import cos, inf, isfinite, pi, radians, sin, sqrt

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from buildsheet.waveforms import (
    CONVERTERS,
    DIODE_BRIDGE,
    FULLY_CONTROLLED_BRIDGE,
    HALF_CONTROLLED_BRIDGE,
    HALF_CONTROLLED_BRIDGE_DIODE_LEG,
    HALF_WAVE_DIODE,
    HALF_WAVE_DIODE_FREEWHEEL,
    HALF_WAVE_THYRISTOR_FREEWHEEL,
    TRIAC_BRIDGE,
    Converter,
    Load,
    Source,
    Steady,
    firing_angle_for,
    solve,
)

BOUNDED = settings(derandomize=True, max_examples=150, deadline=None, database=None)


def check(steady: Steady) -> None:
    """All identities that need no other solution."""
    source, load = steady.source, steady.load
    numbers = [getattr(steady, name) for name in steady.__slots__]
    assert all(isfinite(number) for number in numbers if isinstance(number, float))
    peak = sqrt(2.0) * source.rms
    short = peak / (load.R + source.resistance)

    # no average voltage across an inductance that ends its period as it began
    assert steady.average_voltage == pytest.approx(load.E + load.R * steady.average_current, abs=1e-8 * peak)
    # energy from the line ends in the copper, the shaft and the rectifier
    spent = (
        load.R * steady.rms_current**2
        + load.E * steady.average_current
        + steady.device_loss
        + steady.source_loss
    )
    assert steady.line_power == pytest.approx(spent, rel=1e-7, abs=1e-9 * peak * short)
    slack = 1e-9 * short
    assert -slack <= steady.average_current <= steady.rms_current + slack
    assert steady.rms_current <= steady.peak_current + slack
    assert steady.peak_current <= short
    assert 0.0 <= steady.ripple_current <= steady.peak_current
    assert steady.line_current <= steady.rms_current + slack
    assert 0.0 <= steady.conduction_angle <= 2 * pi / steady.converter.pulses
    assert steady.device_loss >= 0.0
    # every device's current flows through the load at some time
    assert all(0.0 <= device.average <= device.rms + slack for device in steady.devices)
    assert all(device.rms <= steady.rms_current + slack for device in steady.devices)
    if steady.average_current > 1e-6 * short:
        assert steady.form_factor >= 1.0
        assert 0.0 < steady.power_factor <= 1.0
    if steady.continuous:
        assert steady.extinction_angle is None
        assert steady.conduction_angle == 2 * pi / steady.converter.pulses
    elif steady.start_angle is not None:
        assert steady.extinction_angle is not None
        assert steady.start_angle >= steady.alpha
        assert steady.ripple_current == steady.peak_current
    chart = steady.samples(181)
    assert min(chart.current) >= -1e-7 * short
    assert max(chart.current) <= steady.peak_current + 1e-7 * short


def spread(low: float, high: float) -> st.SearchStrategy[float]:
    """As many small numbers as large ones."""
    return st.floats(0.0, 1.0).map(lambda part: low * (high / low) ** part)


CASES = {
    "converter": st.sampled_from(CONVERTERS),
    "rms": spread(6.0, 400.0),
    "frequency": st.floats(45.0, 65.0),
    "resistance": st.one_of(st.just(0.0), spread(0.001, 5.0)),
    "drop": st.one_of(st.just(0.0), st.floats(0.1, 4.0)),
    "inductance": st.one_of(st.just(0.0), spread(1e-8, 1e-3)),
    "R": spread(0.02, 100.0),
    "L": spread(1e-6, 1.0),
    "part": st.one_of(st.just(0.0), st.floats(0.0, 1.6)),
}


@BOUNDED
@given(alpha=st.one_of(st.floats(0.0, pi), spread(1e-9, 1.0).map(lambda short: pi - short)), **CASES)
def test_every_solution_balances(
    converter: Converter,
    rms: float,
    frequency: float,
    resistance: float,
    drop: float,
    inductance: float,
    R: float,
    L: float,
    part: float,
    alpha: float,
) -> None:
    """Finite, never negative, energy and voltage balanced, whatever the circuit."""
    assume(2.0 * pi * frequency * L / R <= 1000.0)
    # a source reactance above the load's impedance is a short circuit behind a choke; it is refused, or solved, elsewhere
    assume(inductance <= L + R / (2.0 * pi * frequency))
    source, load = Source(rms, frequency, resistance, drop, inductance), Load(R, L, part * rms)

    check(solve(converter, source, load, alpha if converter.controlled else 0.0))


@BOUNDED
@given(share=st.floats(0.001, 0.999), **CASES)
def test_every_wanted_current_is_met(
    converter: Converter,
    rms: float,
    frequency: float,
    resistance: float,
    drop: float,
    inductance: float,
    R: float,
    L: float,
    part: float,
    share: float,
) -> None:
    """A share of the current at full conduction: found at some angle, and to seven digits."""
    assume(converter.controlled and 2.0 * pi * frequency * L / R <= 1000.0)
    assume(inductance <= L + R / (2.0 * pi * frequency))
    source, E = Source(rms, frequency, resistance, drop, inductance), part * rms
    most = solve(converter, source, Load(R, L, E), 0.0).average_current
    assume(most > 1e-3 * rms / R)

    steady = firing_angle_for(converter, source, R, L, E, share * most)

    assert steady.average_current == pytest.approx(share * most, rel=1e-7)
    check(steady)


def test_triac_fired_at_once_is_the_plain_bridge() -> None:
    """Gate held from the voltage zero on, no drops: the bridge never notices the triac."""
    for resistance, inductance in ((0.0, 0.0), (0.5, 0.0), (0.3, 0.001)):
        source = Source(120.0, 60.0, resistance, 0.0, inductance)
        for load in (Load(1.5, 0.03, 20.0), Load(1.5, 0.005, 90.0)):
            plain, behind = solve(DIODE_BRIDGE, source, load), solve(TRIAC_BRIDGE, source, load, 0.0)

            for name in ("average_current", "rms_current", "peak_current", "rms_voltage", "line_current", "line_power"):
                assert getattr(behind, name) == pytest.approx(getattr(plain, name), rel=1e-9), name


def test_motor_behind_a_triac_freewheels_through_the_bridge() -> None:
    """While the triac is off the bridge holds the motor at minus two drops, so an inductive motor's voltage is the
    resistive formula 2 Vm/pi (1 + cos a)/2, not the 2 Vm/pi cos a of a bridge of thyristors; 120 V, 60 degrees: 81.03 V
    (derived, as for the half-controlled bridge); tolerance 0.1 %."""
    steady = solve(TRIAC_BRIDGE, Source(120.0, 60.0), Load(1.5, 0.2, 10.0), radians(60.0))
    dropping = solve(TRIAC_BRIDGE, Source(120.0, 60.0, 0.0, 3.0), Load(1.5, 0.2, 10.0), radians(60.0))

    assert steady.average_voltage == pytest.approx(81.03, rel=1e-3)
    assert min(dropping.samples(361).terminal_voltage) == pytest.approx(-2.0)


@pytest.mark.parametrize("converter", CONVERTERS, ids=lambda c: c.label)
def test_no_current_above_the_crest(converter: Converter) -> None:
    """A back-EMF above the source's peak leaves the terminals at the back-EMF and the line at rest."""
    steady = solve(converter, Source(120.0, 60.0), Load(1.5, 0.01, 170.0))

    assert (
        steady.average_current == steady.peak_current == steady.line_power == steady.conduction_angle == 0.0
    )
    assert steady.average_voltage == 170.0
    assert steady.rms_voltage == pytest.approx(170.0)
    assert steady.start_angle is None
    assert steady.spans == ()


@pytest.mark.parametrize("E", [0.0, 100.0])
def test_no_current_when_fired_too_late(E: float) -> None:
    """Fired at pi, or behind the angle where the source has fallen below the back-EMF (144 degrees for 100 V)."""
    late = radians(180.0 if E == 0.0 else 144.0)

    assert solve(HALF_CONTROLLED_BRIDGE, Source(120.0, 60.0), Load(1.5, 0.01, E), late).average_current == 0.0


def test_current_just_before_it_is_too_late_is_small_and_sane() -> None:
    """Within a hair of pi the current is a short blip: about (pi - alpha)^2 of full scale, or less."""
    steady = solve(FULLY_CONTROLLED_BRIDGE, Source(120.0, 60.0), Load(1.5, 0.01, 0.0), pi - 1e-4)

    assert 0.0 < steady.peak_current < 1e-4 * 170.0 / 1.5
    check(steady)


@pytest.mark.parametrize("alpha", [0.0, 0.3, pi / 2.0, 2.5])
def test_resistive_limit(alpha: float) -> None:
    """Textbook: Vrms = Vs sqrt(1 - a/pi + sin 2a / 2pi), Va = Vm/pi (1 + cos a) on a resistor, form factor from both.
    Tolerance 0.01 %: 1 microhenry in 20 ohm still holds the current back by omega L/R = 1.6e-5 rad."""
    steady = solve(FULLY_CONTROLLED_BRIDGE, Source(230.0, 50.0), Load(20.0, 1e-6, 0.0), alpha)

    rms = 230.0 * sqrt(1.0 - alpha / pi + sin(2.0 * alpha) / (2.0 * pi))
    average = 230.0 * sqrt(2.0) / pi * (1.0 + cos(alpha))
    assert steady.rms_voltage == pytest.approx(rms, rel=1e-4)
    assert steady.rms_current == pytest.approx(rms / 20.0, rel=1e-4)
    assert steady.average_voltage == pytest.approx(average, rel=1e-4)
    assert steady.form_factor == pytest.approx(rms / average, rel=1e-4)


def test_resistive_source_divides_the_voltage() -> None:
    """On a resistor the source resistance is a divider: 2 ohm behind 8 ohm leave 80 %, at the same form factor."""
    bare = solve(HALF_CONTROLLED_BRIDGE, Source(120.0, 60.0), Load(10.0, 1e-6, 0.0), 1.0)
    divided = solve(HALF_CONTROLLED_BRIDGE, Source(120.0, 60.0, 2.0), Load(8.0, 1e-6, 0.0), 1.0)

    assert divided.average_current == pytest.approx(bare.average_current, rel=1e-5)
    assert divided.average_voltage == pytest.approx(0.8 * bare.average_voltage, rel=1e-5)
    assert divided.form_factor == pytest.approx(bare.form_factor, rel=1e-5)


def test_continuous_mode_begins_where_the_gap_closes() -> None:
    """From gapped to continuous current by firing earlier, nothing jumps: 0.001 degrees either side of the border
    the average differs by less than 0.1 %."""
    source, load = Source(120.0, 60.0), Load(1.5, 0.01, 10.0)
    low, high = radians(10.0), radians(170.0)  # continuous, gapped
    while high - low > radians(0.002):
        middle = 0.5 * (low + high)
        if solve(HALF_CONTROLLED_BRIDGE, source, load, middle).continuous:
            low = middle
        else:
            high = middle

    before, after = (solve(HALF_CONTROLLED_BRIDGE, source, load, angle) for angle in (low, high))

    assert before.continuous
    assert not after.continuous
    assert after.average_current == pytest.approx(before.average_current, rel=1e-3)
    assert after.conduction_angle == pytest.approx(pi, rel=0.01)  # nearly the whole half-cycle


def test_firing_before_the_natural_angle_changes_nothing_when_the_current_has_gaps() -> None:
    """With the gate held, a thyristor fired below the back-EMF waits: 75 V is passed at asin(75/169.7) = 26.2 deg."""
    source, load = Source(120.0, 60.0), Load(3.0, 0.002, 75.0)
    early, natural = (solve(HALF_CONTROLLED_BRIDGE, source, load, radians(angle)) for angle in (5.0, 26.0))

    assert not early.continuous
    assert early.start_angle == natural.start_angle == pytest.approx(radians(26.2), abs=0.002)
    assert early.average_current == pytest.approx(natural.average_current, rel=1e-12)


def test_half_wave_draws_direct_current_from_the_line() -> None:
    """A transformer saturates on it; a bridge draws none. Without a freewheel path line and load current are one."""
    half = solve(HALF_WAVE_DIODE, Source(120.0, 60.0), Load(10.0, 0.01, 20.0))
    bridge = solve(HALF_CONTROLLED_BRIDGE, Source(120.0, 60.0), Load(10.0, 0.01, 20.0))

    assert half.line_average == pytest.approx(half.average_current)
    assert bridge.line_average == 0.0


@pytest.mark.parametrize(
    ("converter", "share"), [(HALF_CONTROLLED_BRIDGE, 2.0), (HALF_WAVE_THYRISTOR_FREEWHEEL, 1.0)]
)
@pytest.mark.parametrize("resistance", [0.0, 0.5])
def test_device_currents_add_up_to_the_load_current(
    converter: Converter, share: float, resistance: float
) -> None:
    """Kirchhoff at the positive terminal: thyristors and freewheel diode together carry the load current."""
    steady = solve(converter, Source(120.0, 60.0, resistance, 1.6), Load(1.5, 0.03, 20.0), 1.2)
    thyristor, *_, wheel = steady.devices

    assert steady.continuous
    assert share * thyristor.average + wheel.average == pytest.approx(steady.average_current, rel=1e-9)
    assert share * thyristor.rms**2 == pytest.approx(steady.line_current**2, rel=1e-9)


@pytest.mark.parametrize(
    ("converter", "degrees", "name", "part"),
    [
        (DIODE_BRIDGE, 0.0, "diode", 1.0 / 2.0),
        (HALF_CONTROLLED_BRIDGE, 60.0, "thyristor", 1.0 / 3.0),
        (HALF_CONTROLLED_BRIDGE, 60.0, "diode", 1.0 / 3.0),
        (HALF_CONTROLLED_BRIDGE, 60.0, "freewheel diode", 1.0 / 3.0),
        (TRIAC_BRIDGE, 60.0, "triac", 2.0 / 3.0),
        (HALF_CONTROLLED_BRIDGE_DIODE_LEG, 60.0, "thyristor", 1.0 / 3.0),
        (HALF_CONTROLLED_BRIDGE_DIODE_LEG, 60.0, "diode", 2.0 / 3.0),
        (FULLY_CONTROLLED_BRIDGE, 60.0, "thyristor", 1.0 / 2.0),
        (HALF_WAVE_DIODE_FREEWHEEL, 0.0, "diode", 1.0 / 2.0),
        (HALF_WAVE_THYRISTOR_FREEWHEEL, 60.0, "thyristor", 1.0 / 3.0),
        (HALF_WAVE_THYRISTOR_FREEWHEEL, 60.0, "freewheel diode", 2.0 / 3.0),
    ],
)
def test_textbook_device_currents_with_smooth_current(
    converter: Converter, degrees: float, name: str, part: float
) -> None:
    """A device that carries a smooth current I for part p of the line period: average p I, RMS sqrt(p) I. Bridge: the
    devices of a pair half of it; fired at a: thyristors (pi - a)/2pi; freewheel diode 2a/2pi in a bridge, (pi + a)/2pi
    in a half-wave converter; a triac in both half-cycles (pi - a)/pi; diodes in series as the freewheel path (pi + a)/2pi. Derived from the circuit; tolerance
    1 % for the ripple that 1 H leaves."""
    steady = solve(converter, Source(120.0, 60.0), Load(1.5, 1.0, 5.0), radians(degrees))
    [device] = [device for device in steady.devices if device.name == name]

    assert steady.form_factor < 1.001
    assert device.average == pytest.approx(part * steady.average_current, rel=0.01)
    assert device.rms == pytest.approx(sqrt(part) * steady.average_current, rel=0.01)


def test_textbook_line_current_with_smooth_current() -> None:
    """Textbook: I sqrt((pi - a)/pi) for a half-controlled bridge, I for a fully controlled one, whatever the angle;
    tolerance 0.2 % for the ripple that 1 H leaves."""
    source, load = Source(120.0, 60.0), Load(1.5, 1.0, 5.0)
    half, full = (solve(c, source, load, pi / 3.0) for c in (HALF_CONTROLLED_BRIDGE, FULLY_CONTROLLED_BRIDGE))

    assert half.line_current == pytest.approx(half.average_current * sqrt(2.0 / 3.0), rel=2e-3)
    assert full.line_current == pytest.approx(full.average_current, rel=2e-3)


def test_freewheel_path_takes_over_where_its_drop_is_the_smaller() -> None:
    """2 V drop in two junctions, 1 V in the freewheel diode: it takes over when the source has fallen to 1 V, at
    pi - asin(1/16.97) on 12 V, and the thyristor fired at 1 degree takes the current back at asin(1/16.97)."""
    steady = solve(HALF_CONTROLLED_BRIDGE, Source(12.0, 60.0, 0.0, 2.0), Load(1.5, 0.05, 0.0), radians(1.0))

    assert steady.continuous
    driven = [span for span in steady.spans if span.driven]
    assert max(span.end for span in driven) == pytest.approx(pi - 0.0589597, abs=1e-6)
    assert min(span.start for span in driven) == pytest.approx(0.0589597, abs=1e-6)


def test_chart_agrees_with_the_figures() -> None:
    """Means of a fine chart, by the trapezoidal rule, are the averages; gaps show the back-EMF; steps are upright."""
    steady = solve(HALF_CONTROLLED_BRIDGE, Source(120.0, 60.0), Load(1.5, 0.01, 75.0), radians(92.84))
    chart = steady.samples(4001)

    def mean(values: tuple[float, ...]) -> float:
        steps = zip(chart.angle, chart.angle[1:], values, values[1:], strict=False)
        return sum((b - a) * 0.5 * (u + v) for a, b, u, v in steps) / (2.0 * pi)

    assert chart.angle[0] == 0.0
    assert chart.angle[-1] == pytest.approx(2.0 * pi)
    assert list(chart.angle) == sorted(chart.angle)
    assert mean(chart.current) == pytest.approx(steady.average_current, rel=1e-4)
    assert mean(chart.terminal_voltage) == pytest.approx(steady.average_voltage, rel=1e-4)
    assert mean(chart.source_voltage) == pytest.approx(0.0, abs=1e-3)
    assert max(chart.current) == pytest.approx(steady.peak_current, rel=1e-5)
    assert {v for v, i in zip(chart.terminal_voltage, chart.current, strict=True) if i == 0.0} == {75.0}
    narrowest = min((b - a for a, b in zip(chart.angle, chart.angle[1:], strict=False)), default=inf)
    assert narrowest < 1e-8
