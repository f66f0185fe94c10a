"""Against a time-stepping simulation that shares no code and no derivation with the package."""

from tests.waveforms.comparison import errors, solved, worst_error
from tests.waveforms.points import LOW_VOLTAGE, NAMES, Point, fixed_points


def test_sixty_points_agree_within_one_percent() -> None:
    """Average, RMS, peak, least, line and freewheel current, average and RMS voltage, line power; see `errors`."""
    error, point = worst_error(fixed_points(60))

    assert error <= 0.01, point


def test_low_voltage_points_agree_within_one_percent() -> None:
    """12 and 24 V behind a transformer, where drops and source resistance take a good part of the voltage."""
    error, point = worst_error(fixed_points(40, lines=LOW_VOLTAGE, highest_E=30.0))

    assert error <= 0.01, point


def test_points_reach_every_converter_in_both_modes() -> None:
    """Continuous and gapped current in each converter that can do both."""
    met = {(point.converter, solved(point).continuous) for point in fixed_points(60)}

    always_gapped = {"half-wave thyristor", "half-wave diode"}
    assert met == {(name, False) for name in NAMES} | {
        (name, True) for name in NAMES if name not in always_gapped
    }


def test_difference_is_the_step_of_the_simulation() -> None:
    """A simulation of first order: with a quarter of the step, a quarter of the difference. A flaw on our side would
    stay where it is."""
    points = fixed_points(24)

    coarse, fine = (sum(sum(found.values()) for found in errors(points, steps)) for steps in (1800, 7200))

    assert fine <= 0.35 * coarse


def test_change_over_of_a_resistive_low_voltage_source() -> None:
    """Fired at 0.3 degrees on 12 V with 2.5 V of drop: no line current flows before the source beats the freewheel
    diode, at 4.2 degrees, and both paths share the load current for a while after it. Fine steps, 0.1 %."""
    point = Point("half-controlled bridge", 12.0, 60.0, 0.3, 2.5, 0.5, 0.02, 0.0, 0.3)

    error, _ = worst_error([point], steps=28800)

    assert error <= 0.001
