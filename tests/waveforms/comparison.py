"""The package against the independent simulation."""

from math import radians

from buildsheet.waveforms import (
    DIODE_BRIDGE,
    FULLY_CONTROLLED_BRIDGE,
    HALF_CONTROLLED_BRIDGE,
    HALF_CONTROLLED_BRIDGE_DIODE_LEG,
    HALF_WAVE_DIODE,
    HALF_WAVE_DIODE_FREEWHEEL,
    HALF_WAVE_THYRISTOR,
    HALF_WAVE_THYRISTOR_FREEWHEEL,
    Load,
    Source,
    Steady,
    solve,
)
from tests.waveforms.independent import simulate
from tests.waveforms.points import Point

BY_NAME = {
    "diode bridge": DIODE_BRIDGE,
    "half-controlled bridge": HALF_CONTROLLED_BRIDGE,
    "half-controlled bridge, diode leg": HALF_CONTROLLED_BRIDGE_DIODE_LEG,
    "fully controlled bridge": FULLY_CONTROLLED_BRIDGE,
    "half-wave diode": HALF_WAVE_DIODE,
    "half-wave diode, freewheel": HALF_WAVE_DIODE_FREEWHEEL,
    "half-wave thyristor": HALF_WAVE_THYRISTOR,
    "half-wave thyristor, freewheel": HALF_WAVE_THYRISTOR_FREEWHEEL,
}
# Readings smaller than a hundredth of what the source could drive or show are compared on that scale: next to the
# firing angle at which all current ends, one step of the simulation is as long as the current itself.
SMALL = 0.01


def solved(point: Point) -> Steady:
    """The package's answer for a point."""
    source = Source(point.rms, point.frequency, point.source_resistance, point.drop)
    return solve(BY_NAME[point.converter], source, Load(point.R, point.L, point.E), radians(point.alpha))


def errors(points: list[Point], steps: int = 14400) -> list[dict[str, float]]:
    """Relative difference of each reading, point by point."""
    seen = simulate(points, steps)
    found = []
    for k, point in enumerate(points):
        ours = solved(point)
        volts = SMALL * point.rms
        amps = volts / (point.R + point.source_resistance)
        pairs = {
            "average current": (ours.average_current, seen.average[k], amps),
            "RMS current": (ours.rms_current, seen.rms[k], amps),
            "peak current": (ours.peak_current, seen.peak[k], amps),
            "least current": (ours.peak_current - ours.ripple_current, seen.least[k], amps),
            "average voltage": (ours.average_voltage, seen.average_voltage[k], volts),
            "RMS voltage": (ours.rms_voltage, seen.rms_voltage[k], volts),
            "line RMS current": (ours.line_current, seen.line_rms[k], amps),
            "line power": (ours.line_power, seen.line_power[k], volts * amps),
        }
        for device in ours.devices:
            if device.name == "freewheel diode":
                pairs["freewheel diode average"] = (device.average, seen.free_average[k], amps)
                pairs["freewheel diode RMS"] = (device.rms, seen.free_rms[k], amps)
        found.append({name: float(abs(a - b) / max(abs(b), small)) for name, (a, b, small) in pairs.items()})
    return found


def worst_error(points: list[Point], steps: int = 14400) -> tuple[float, Point]:
    """Largest relative difference of any reading at any point, and the point."""
    return max(
        ((max(found.values()), point) for found, point in zip(errors(points, steps), points, strict=True)),
        key=lambda pair: pair[0],
    )
