"""A library of circuits that knows no design: devices, terminals, wires, what joins them in each switch position,
what must never happen, and what a meter shows.
"""

from buildsheet.circuit.netlist import (
    Barrier,
    Capacitor,
    Circuit,
    Contact,
    Device,
    Diode,
    Electronics,
    Fuse,
    Inside,
    Link,
    Resistance,
    Source,
    Terminal,
    Winding,
    Wire,
)

__all__ = [
    "Barrier",
    "Capacitor",
    "Circuit",
    "Contact",
    "Device",
    "Diode",
    "Electronics",
    "Fuse",
    "Inside",
    "Link",
    "Resistance",
    "Source",
    "Terminal",
    "Winding",
    "Wire",
]
