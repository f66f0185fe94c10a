"""The chopper against a textbook's worked example, against scipy stepping through time, and against its own balances."""

from math import sqrt

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from buildsheet.waveforms import Chopped, Load, NotSolved, SteadySource, chopped, duty_for

RNG = np.random.default_rng(20261125)


def _draws(count: int) -> list[tuple[SteadySource, Load, float]]:
    made = []
    for _ in range(count):
        volts = RNG.uniform(10, 60)
        source = SteadySource(volts, RNG.uniform(300, 20e3), RNG.uniform(0, 0.6), RNG.uniform(0, 1.0))
        load = Load(RNG.uniform(0.05, 3), 10 ** RNG.uniform(-5, -2), RNG.uniform(0, 0.9) * volts)
        made.append((source, load, RNG.uniform(0.05, 1.0)))
    return made


def test_the_worked_example_of_a_textbook() -> None:
    """Power Electronics, 4th ed. (Rashid), example 5.2: 220 V, 5 ohm, 7.5 mH, 1 kHz, half of the time on, no back-EMF.
    Its answers by the open companion code: 18.37, 25.63, 7.27, 22 and 22.1 A. The RMS current of the switch, 15.63 A
    there, is worked with a straight-line current; 1 % is allowed for that."""
    wave = chopped(SteadySource(220.0, 1000.0), Load(5.0, 7.5e-3, 0.0), 0.5)

    assert wave.peak_current - wave.ripple_current == pytest.approx(18.37, abs=0.006)
    assert wave.peak_current == pytest.approx(25.63, abs=0.006)
    assert wave.ripple_current == pytest.approx(7.27, abs=0.006)
    assert wave.average_current == pytest.approx(22.0, abs=0.006)
    assert wave.rms_current == pytest.approx(22.1, abs=0.06)
    assert wave.line_average == pytest.approx(11.0, rel=0.02)
    assert wave.line_current == pytest.approx(15.63, rel=0.01)


def _stepped(source: SteadySource, load: Load, duty: float) -> tuple[float, float, float]:
    """Average, RMS and peak by scipy, one period after another until it repeats."""
    period = 1 / source.frequency
    start = 0.0
    for _ in range(4000):
        spans = []
        for volts, begin, end in (
            (source.voltage - source.drop_on, 0.0, duty * period),
            (-source.drop_off, duty * period, period),
        ):
            if end <= begin:
                continue

            def slope(_: float, i: np.ndarray, v: float = volts) -> np.ndarray:
                return (v - load.E - load.R * i) / load.L

            def ended(_: float, i: np.ndarray) -> float:
                return float(i[0])

            ended.terminal, ended.direction = True, -1  # type: ignore[attr-defined]
            times = np.linspace(begin, end, 400)
            begin_at = start if not spans else float(spans[-1][1][-1])
            if volts < load.E and begin_at <= 0:
                spans.append((times, np.zeros_like(times)))
                continue
            got = solve_ivp(slope, (begin, end), [begin_at], t_eval=times, events=ended, rtol=1e-9, atol=1e-12)
            current = np.zeros_like(times)
            current[: got.y.shape[1]] = got.y[0]
            spans.append((times, current))
        last = float(spans[-1][1][-1])
        if abs(last - start) <= 1e-7 * max(abs(last), 1e-3):
            break
        # the error of one period shrinks by exp(-R·T/L): take the jump that leaves none
        shrink = np.exp(-load.R / load.L * period)
        start = max(start + (last - start) / (1 - shrink), 0.0) if last > 0 else 0.0
    total = sum(np.trapezoid(i, t) for t, i in spans)
    square = sum(np.trapezoid(i * i, t) for t, i in spans)
    return total / period, sqrt(square / period), max(float(i.max()) for _, i in spans)


@pytest.mark.parametrize("number", range(24))
def test_an_independent_integration_agrees(number: int) -> None:
    source, load, duty = DRAWS[number]
    average, rms, peak = _stepped(source, load, duty)
    wave = chopped(source, load, duty)

    assert wave.average_current == pytest.approx(average, rel=0.01, abs=1e-3)
    assert wave.rms_current == pytest.approx(rms, rel=0.01, abs=1e-3)
    assert wave.peak_current == pytest.approx(peak, rel=0.01, abs=1e-3)


DRAWS = _draws(200)


def _on_balance(wave: Chopped) -> float:
    """Volts that drive the average current: what the switch puts on, less the freewheel drop and the back-EMF."""
    s = wave.source
    return wave.duty * (s.voltage - s.drop_on) - (1 - wave.duty) * s.drop_off - wave.load.E


@pytest.mark.parametrize("draw", DRAWS)
def test_average_volts_balance(draw: tuple[SteadySource, Load, float]) -> None:
    """An inductance has no average voltage in a steady state; with gaps the freewheel drop and EMF stand aside."""
    wave = chopped(*draw)
    if wave.continuous:
        assert wave.average_current * wave.load.R == pytest.approx(_on_balance(wave), abs=1e-7 * wave.source.voltage)
    else:
        assert wave.average_current * wave.load.R >= _on_balance(wave) - 1e-7
    assert wave.peak_current >= wave.rms_current >= wave.average_current * (1 - 1e-9) >= 0


@pytest.mark.parametrize("draw", DRAWS[:60])
def test_power_in_is_power_out(draw: tuple[SteadySource, Load, float]) -> None:
    """The source gives V·I_avg; it goes into the winding, the back-EMF and the two drops."""
    wave = chopped(*draw)
    s, load = wave.source, wave.load
    freewheel = wave.average_current - wave.line_average
    spent = load.R * wave.rms_current**2 + load.E * wave.average_current
    spent += s.drop_on * wave.line_average + s.drop_off * freewheel
    assert s.voltage * wave.line_average == pytest.approx(spent, rel=1e-6, abs=1e-9)


@pytest.mark.parametrize("draw", DRAWS[:60])
def test_the_duty_that_is_asked_for_gives_the_current(draw: tuple[SteadySource, Load, float]) -> None:
    there = chopped(*draw)
    if there.average_current < 1e-6:
        return
    back = duty_for(there.source, there.load.R, there.load.L, there.load.E, there.average_current)
    assert back.average_current == pytest.approx(there.average_current, rel=1e-6)
    assert back.duty == pytest.approx(there.duty, rel=1e-4)


@pytest.mark.parametrize(
    ("source", "asked"),
    [
        ({"voltage": 0.0, "frequency": 1e3}, 1.0),
        ({"voltage": 24.0, "frequency": 0.0}, 1.0),
        ({"voltage": 24.0, "frequency": 1e3, "drop_on": 25.0}, 1.0),
        ({"voltage": 24.0, "frequency": 1e3, "drop_off": -0.1}, 1.0),
        ({"voltage": 24.0, "frequency": 1e3}, 0.0),
        ({"voltage": 24.0, "frequency": 1e3}, 500.0),
        ({"voltage": float("nan"), "frequency": 1e3}, 1.0),
    ],
)
def test_what_has_no_answer_is_refused(source: dict[str, float], asked: float) -> None:
    with pytest.raises(NotSolved):
        duty_for(SteadySource(**source), 0.2, 1e-3, 12.0, asked)


def test_a_chart_starts_and_ends_at_the_same_current() -> None:
    for draw in DRAWS[:20]:
        seen = chopped(*draw).samples(50)
        assert seen.current[0] == pytest.approx(seen.current[-1], abs=1e-6 * max(seen.current) + 1e-9)
        assert max(seen.current) == pytest.approx(chopped(*draw).peak_current, rel=1e-6, abs=1e-9)
