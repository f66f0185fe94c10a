"""The closed forms of one span against their own differential equation and against numerical integration."""

from collections.abc import Callable
from math import e, sin

import numpy as np
import pytest
from scipy import integrate  # type: ignore[import-untyped]

from buildsheet.waveforms.spans import SHORT, Driven, Freewheel, _short_integrals

PEAK, OPPOSING = 169.7, 76.5
CASES = [  # resistance, reactance, start, current there, end
    (1.5, 3.77, 1.0, 0.0, 3.4),
    (1.5, 3.77, 0.2, 12.0, 3.1),
    (0.3, 22.6, 0.5, 40.0, 6.0),
    (5.0, 0.00038, 0.6, 0.0, 2.5),
    (0.1, 90.0, 1.2, 0.0, 1.3),
    (2.0, 1.0, 1.0, 3.0, 1.0 + 0.999 * SHORT / 2.0),
    (2.0, 1.0, 1.0, 3.0, 1.0 + 1.001 * SHORT / 2.0),
]


@pytest.mark.parametrize(("resistance", "reactance", "x0", "i0", "x1"), CASES)
def test_current_obeys_its_circuit(
    resistance: float, reactance: float, x0: float, i0: float, x1: float
) -> None:
    """scipy's stiff integrator (Radau) on X di/dx + R i = Vm sin x - opposing, and without the source."""
    for span, peak in (
        (Driven(PEAK, OPPOSING, resistance, reactance), PEAK),
        (Freewheel(OPPOSING, resistance, reactance), 0.0),
    ):
        stepped = integrate.solve_ivp(
            lambda x, i, peak=peak: (peak * np.sin(x) - OPPOSING - resistance * i) / reactance,
            (x0, x1),
            (i0,),
            method="Radau",
            rtol=1e-9,
            atol=1e-9,
        )

        assert stepped.success
        assert span.current(x1, x0, i0) == pytest.approx(float(stepped.y[0, -1]), rel=1e-6, abs=1e-6)


@pytest.mark.parametrize("freewheels", [False, True])
@pytest.mark.parametrize(("resistance", "reactance", "x0", "i0", "x1"), CASES)
def test_integrals_are_those_of_the_current(
    resistance: float, reactance: float, x0: float, i0: float, x1: float, freewheels: bool
) -> None:
    """scipy's adaptive quadrature of the closed-form current; short spans, by the Gauss rule, included."""
    span = (
        Freewheel(OPPOSING, resistance, reactance)
        if freewheels
        else Driven(PEAK, OPPOSING, resistance, reactance)
    )
    kink = min(
        x1, x0 + 30.0 * reactance / resistance
    )  # the start-up of a small inductance needs a look of its own
    parts = ((x0, kink), (kink, x1)) if kink < x1 else ((x0, x1),)

    def current(x: float) -> float:
        return span.current(x, x0, i0)

    def whole(f: Callable[[float], float]) -> float:
        return sum(float(integrate.quad(f, a, b, epsabs=1e-11, epsrel=1e-11, limit=200)[0]) for a, b in parts)

    found = span.integrals(x0, i0, x1)
    assert found.i == pytest.approx(whole(current), rel=1e-8)
    assert found.i2 == pytest.approx(whole(lambda x: current(x) ** 2), rel=1e-8)
    assert found.i_sin == pytest.approx(whole(lambda x: current(x) * sin(x)), rel=1e-8)


def test_gauss_rule_is_exact_for_the_ninth_degree() -> None:
    """Five points integrate polynomials up to degree 9 exactly: 1 + x^9, and the square of x^4, over 1 to 2."""

    def ninth(x: float, _x0: float, _i0: float) -> float:
        return 1.0 + x**9

    def fourth(x: float, _x0: float, _i0: float) -> float:
        return x**4

    assert _short_integrals(ninth, 1.0, 0.0, 2.0).i == pytest.approx(1.0 + 102.3, rel=1e-14)
    assert _short_integrals(fourth, 1.0, 0.0, 2.0).i2 == pytest.approx(511.0 / 9.0, rel=1e-14)


def test_time_to_fall() -> None:
    """A freewheeling current falls from 10 to 2 A in ln((10 + c)/(2 + c)) time constants, c = opposing/R."""
    free = Freewheel(30.0, 1.5, 3.77)
    width = free.width_down_to(10.0, 2.0)

    assert width == pytest.approx(3.77 / 1.5 * 0.310154928, rel=1e-8)  # ln(30/22)
    assert free.current(1.0 + width, 1.0, 10.0) == pytest.approx(2.0, rel=1e-12)
    # without anything opposing it the tail is a plain exponential
    assert Freewheel(0.0, 1.5, 3.77).width_down_to(10.0, 10.0 / e) == pytest.approx(3.77 / 1.5, rel=1e-12)
