"""Converters as data: how often the source is put on the load, who decides when, and where the current goes after.

A converter puts the rectified sine on the load from the firing angle on. What ends that, and what the load sees
next, is all that tells the converters apart:

    freewheel path    the load sees minus the drop of that path as soon as the source would give it less
    no such path      the same devices carry on, so the load follows the source below zero, until the current
                      stops or the next pair is fired

A diode bridge has a freewheel path through its own legs. With an ideal source it is in use for no time at all; with
a resistive source it carries the current around each voltage zero, while the line current changes sign.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Device:
    """One kind of device in a converter, and the parts of the current that one of them carries.

    Average and mean square of the device are the sums of these parts of the averages and mean squares of
    the line, the freewheel and the load current, since a device carries them one after the other.
    """

    name: str
    count: int
    line: float = 0.0
    freewheel: float = 0.0
    whole: float = 0.0


@dataclass(frozen=True, slots=True)
class Converter:
    """A single-phase rectifier, uncontrolled or phase-controlled.

    pulses                times per line period that the source is put on the load: 1 or 2
    controlled            fired by a gate, else as soon as the voltage allows
    junctions             forward drops in series between source and load
    freewheel_junctions   forward drops in series in the freewheel path, 0 for a converter without one
    """

    label: str
    pulses: int
    controlled: bool
    junctions: int
    freewheel_junctions: int
    devices: tuple[Device, ...]


# While a resistive source changes over, the legs of a bridge share the load current. Counting the whole of it for each
# (`whole=0.5`) leaves the average exact and the RMS figure a little high, never low.
DIODE_BRIDGE = Converter("diode bridge", 2, False, 2, 2, (Device("diode", 4, whole=0.5),))

HALF_CONTROLLED_BRIDGE = Converter(
    "half-controlled bridge with freewheel diode",
    2,
    True,
    2,
    1,
    (
        Device("thyristor", 2, line=0.5),
        Device("diode", 2, line=0.5),
        Device("freewheel diode", 1, freewheel=1.0),
    ),
)

# Both thyristors in one leg, both diodes in the other: the diodes in series are the freewheel path, each carries the
# load current of its own half-cycle and the freewheel current of the other.
HALF_CONTROLLED_BRIDGE_DIODE_LEG = Converter(
    "half-controlled bridge, freewheeling through its diode leg",
    2,
    True,
    2,
    2,
    (Device("thyristor", 2, line=0.5), Device("diode", 2, freewheel=0.5, whole=0.5)),
)

FULLY_CONTROLLED_BRIDGE = Converter(
    "fully controlled bridge", 2, True, 2, 0, (Device("thyristor", 4, whole=0.5),)
)

# While the triac is off the load current runs on through both legs of the bridge, so on its way through the bridge it
# is a half-controlled one that freewheels through diodes. Equal legs share that current; `whole=0.5` counts it as if one
# of them carried all of it, which leaves the average exact and the RMS figure high, never low. The average of the triac
# is that of its current's amount, which heats it; what passes in one direction is half of it.
TRIAC_BRIDGE = Converter(
    "diode bridge behind a triac", 2, True, 3, 2, (Device("triac", 1, line=1.0), Device("diode", 4, whole=0.5))
)

HALF_WAVE_DIODE = Converter("half-wave diode", 1, False, 1, 0, (Device("diode", 1, line=1.0),))

HALF_WAVE_DIODE_FREEWHEEL = Converter(
    "half-wave diode with freewheel diode",
    1,
    False,
    1,
    1,
    (Device("diode", 1, line=1.0), Device("freewheel diode", 1, freewheel=1.0)),
)

HALF_WAVE_THYRISTOR = Converter("half-wave thyristor", 1, True, 1, 0, (Device("thyristor", 1, line=1.0),))

HALF_WAVE_THYRISTOR_FREEWHEEL = Converter(
    "half-wave thyristor with freewheel diode",
    1,
    True,
    1,
    1,
    (Device("thyristor", 1, line=1.0), Device("freewheel diode", 1, freewheel=1.0)),
)

CONVERTERS = (
    DIODE_BRIDGE,
    HALF_CONTROLLED_BRIDGE,
    HALF_CONTROLLED_BRIDGE_DIODE_LEG,
    FULLY_CONTROLLED_BRIDGE,
    TRIAC_BRIDGE,
    HALF_WAVE_DIODE,
    HALF_WAVE_DIODE_FREEWHEEL,
    HALF_WAVE_THYRISTOR,
    HALF_WAVE_THYRISTOR_FREEWHEEL,
)
