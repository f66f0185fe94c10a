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
    TRIAC_BRIDGE,
    Capacitor,
    Load,
    Smoothed,
    Source,
    Steady,
    smoothed,
    solve,
)
from tests.waveforms.independent import simulate
from tests.waveforms.network import readings
from tests.waveforms.points import Circuit, Point

BY_NAME = {
    "diode bridge": DIODE_BRIDGE,
    "half-controlled bridge": HALF_CONTROLLED_BRIDGE,
    "half-controlled bridge, diode leg": HALF_CONTROLLED_BRIDGE_DIODE_LEG,
    "fully controlled bridge": FULLY_CONTROLLED_BRIDGE,
    "diode bridge behind a triac": TRIAC_BRIDGE,
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


def answered(circuit: Circuit) -> Steady | Smoothed:
    """The package's answer for a circuit."""
    converter = BY_NAME[circuit.converter]
    source = Source(
        circuit.rms, circuit.frequency, circuit.source_resistance, circuit.drop, circuit.source_inductance
    )
    load = Load(circuit.R, circuit.L, circuit.E)
    if circuit.C == 0.0:
        return solve(converter, source, load, radians(circuit.alpha))
    return smoothed(converter, source, load, Capacitor(circuit.C, circuit.bleeder))


def circuit_errors(circuits: list[Circuit], steps: int = 3600) -> list[dict[str, float]]:
    """Relative difference of each reading, circuit by circuit."""
    seen = readings(circuits, steps)
    found = []
    for k, circuit in enumerate(circuits):
        ours = answered(circuit)
        volts = SMALL * circuit.rms
        amps = volts / (circuit.R + circuit.source_resistance)
        names = {
            "average_voltage": volts, "rms_voltage": volts, "average_current": amps, "rms_current": amps,
            "peak_current": amps, "line_current": amps, "line_power": volts * amps,
        }  # fmt: skip
        if isinstance(ours, Smoothed):
            names |= {
                "peak_voltage": volts, "least_voltage": volts, "least_current": amps, "line_peak": amps,
                "capacitor_current": amps,
            }  # fmt: skip
        found.append({})
        for name, small in names.items():
            theirs = float(getattr(seen, name)[k])
            found[-1][name] = abs(getattr(ours, name) - theirs) / max(abs(theirs), small)
    return found


def worst_circuit(circuits: list[Circuit], steps: int = 3600) -> tuple[float, str, Circuit]:
    """Largest relative difference of any reading of any circuit, which it is, and the circuit."""
    return max(
        (
            (error, name, circuit)
            for found, circuit in zip(circuit_errors(circuits, steps), circuits, strict=True)
            for name, error in found.items()
        ),
        key=lambda triple: triple[0],
    )
