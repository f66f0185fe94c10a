"""The waist between ways of powering and motors: what a way puts on the terminals, what a motor makes of it."""

from dataclasses import dataclass

from buildsheet.waveforms import Converter, Steady
from buildsheet.worksheet import Value


@dataclass(frozen=True, slots=True)
class Applied:
    """What a way puts on the motor's terminals: a converter on a line voltage, with the drop along its path.

    `ceiling` is the most average voltage it is set to give; `unleashed` the converter that is left when its power
    device is shorted, on `highest` line voltage.
    """

    shape: str
    converter: Converter
    voltage: Value
    frequency: Value
    drop: Value
    ceiling: Value
    unleashed: Converter
    highest: Value


@dataclass(frozen=True, slots=True)
class Point:
    """What a motor does at one speed and load: average, RMS and peak armature current, form factor, terminal volts and
    line current, each at the worst inductance of the band; `wave` is the solution, for the chart."""

    tag: str
    label: str
    omega: Value
    torque: Value
    current: Value
    emf: Value
    terminal: Value
    rms: Value
    peak: Value
    form_factor: Value
    line: Value
    angle: Value
    inductance: Value
    wave: Steady | None
