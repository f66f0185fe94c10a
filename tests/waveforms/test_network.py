"""Source inductance and smoothing capacitor against an implicit integration of the network, which shares nothing with
the package: readings of voltage, current, line and capacitor; see `circuit_errors`."""

from math import inf, pi

import pytest

from buildsheet.waveforms import Smoothed, Steady
from tests.waveforms.comparison import answered, circuit_errors, worst_circuit
from tests.waveforms.points import NAMES, Circuit, inductive_circuits, smoothed_circuits


def test_sixty_circuits_with_source_inductance_agree_within_one_percent() -> None:
    """All converters, 10 microhenry to 1 millihenry, without capacitor."""
    error, reading, circuit = worst_circuit(inductive_circuits(60))

    assert error <= 0.01, (reading, circuit)


def test_sixty_smoothed_circuits_agree_within_one_percent() -> None:
    """Bridge and half-wave diodes, with and without source inductance and bleeder."""
    error, reading, circuit = worst_circuit(smoothed_circuits(60))

    assert error <= 0.01, (reading, circuit)


def test_difference_is_the_step_of_the_simulation() -> None:
    """Of second order after extrapolation, but for the kinks: a quarter of the step leaves a quarter of the difference,
    or less. A flaw on our side would stay where it is."""
    circuits = [*inductive_circuits(18), *smoothed_circuits(18)]

    coarse, fine = (sum(sum(found.values()) for found in circuit_errors(circuits, steps)) for steps in (1800, 7200))

    assert fine <= 0.25 * coarse


def test_circuits_reach_every_converter_in_every_mode() -> None:
    """Without capacitor: continuous and gapped current in each converter that can do both, currents that change over.
    With one: line current with gaps and without, capacitors that keep a voltage and such that the load empties."""
    met: set[tuple[str, bool]] = set()
    overlap = set()
    for circuit in inductive_circuits(120):
        steady = answered(circuit)
        assert isinstance(steady, Steady)
        met.add((circuit.converter, steady.continuous))
        if any(span.line is not None for span in steady.spans):
            overlap.add(circuit.converter)

    gapped = {"half-wave thyristor", "half-wave diode"}
    assert met == {(name, False) for name in NAMES} | {(name, True) for name in NAMES if name not in gapped}
    assert overlap == set(NAMES) - gapped

    empties = set()
    for circuit in smoothed_circuits(60):
        smooth = answered(circuit)
        assert isinstance(smooth, Smoothed)
        empties.add(any(stretch.held for stretch in smooth.stretches))
        assert smooth.line_current > 0.0
    assert empties == {True, False}


@pytest.mark.parametrize("inductance", [0.02, 0.05])
def test_line_current_without_a_gap(inductance: float) -> None:
    """A choke in the line, its reactance above the load's resistance: the line current never rests."""
    circuit = Circuit("diode bridge", 120.0, 60.0, 0.3, inductance, 1.5, 3.0, 0.005, 20.0, 0.0, 0.002, inf)

    steady = answered(circuit)
    error, reading, _ = worst_circuit([circuit], steps=7200)

    assert steady.conduction_angle == pytest.approx(pi)
    assert steady.extinction_angle is None
    assert error <= 0.002, reading
