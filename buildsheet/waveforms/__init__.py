"""Exact periodic steady state of single-phase rectifiers and phase controls into a motor.

    solve           any rectifier, controlled or not, a diode bridge behind a triac too, into R, L and a back-EMF
    smoothed        a diode rectifier with a capacitor, into a motor or a constant current
    on_alternating  a series motor on alternating current, plain or behind a triac
    chopped         a chopper on a steady voltage
    voltage_for     the voltage ahead of a rectifier that drives a wanted current

A line source has resistance, inductance and the constant drop of the path through the devices.

Plain floats in SI in and out; angles in rad. Between switchings the current is a closed form, switching angles are
roots, averages and RMS values are integrals of the closed form: no time stepping. A solution has converged, or
`NotSolved` says in plain words why there is none.
"""

from .alternating import Alternating, SeriesMotor, alternating_angle_for, on_alternating, series_emf_for
from .chopped import Chopped, SteadySource, chopped, duty_for
from .converters import (
    CONVERTERS,
    DIODE_BRIDGE,
    FULLY_CONTROLLED_BRIDGE,
    HALF_CONTROLLED_BRIDGE,
    HALF_CONTROLLED_BRIDGE_DIODE_LEG,
    HALF_WAVE_DIODE,
    HALF_WAVE_DIODE_FREEWHEEL,
    HALF_WAVE_THYRISTOR,
    HALF_WAVE_THYRISTOR_FREEWHEEL,
    TRIAC_BRIDGE,
    Converter,
    Device,
)
from .fed import Fed, referred, voltage_for
from .inputs import Capacitor, ConstantCurrent, Load, NotSolved, Source
from .smoothed import Smoothed, smoothed, smoothed_emf_for
from .solve import at_terminal_voltage, back_emf_for, firing_angle_for, solve
from .steady import DeviceCurrent, Samples, Steady

__all__ = [
    "CONVERTERS",
    "DIODE_BRIDGE",
    "FULLY_CONTROLLED_BRIDGE",
    "HALF_CONTROLLED_BRIDGE",
    "HALF_CONTROLLED_BRIDGE_DIODE_LEG",
    "HALF_WAVE_DIODE",
    "HALF_WAVE_DIODE_FREEWHEEL",
    "HALF_WAVE_THYRISTOR",
    "HALF_WAVE_THYRISTOR_FREEWHEEL",
    "TRIAC_BRIDGE",
    "Alternating",
    "Capacitor",
    "Chopped",
    "ConstantCurrent",
    "Converter",
    "Device",
    "DeviceCurrent",
    "Fed",
    "Load",
    "NotSolved",
    "Samples",
    "SeriesMotor",
    "Smoothed",
    "Source",
    "Steady",
    "SteadySource",
    "alternating_angle_for",
    "at_terminal_voltage",
    "back_emf_for",
    "chopped",
    "duty_for",
    "firing_angle_for",
    "on_alternating",
    "referred",
    "series_emf_for",
    "smoothed",
    "smoothed_emf_for",
    "solve",
    "voltage_for",
]
