"""A meter reading on paper: its row, the words for the hands, and the value that is expected in print."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import inf

from buildsheet.circuit import Contact, Device
from buildsheet.circuit.readings import Reading
from buildsheet.packet.ink import NARROW
from buildsheet.quantities import figures, shown
from buildsheet.units import OHM

EN_DASH = f"{NARROW}–{NARROW}"
Tip = tuple[str, str]  # a terminal, and what it is called at the bench


# What the hands do to put a kind of device into a position, and back to rest.
HANDS: Mapping[tuple[str, str], str] = {
    ("disconnect", "on"): "{} on",
    ("disconnect", "off"): "{} off",
    ("contactor", "in"): "{} pushed in",
    ("contactor", "out"): "{} left out",
    ("field-relay", "in"): "{} pushed in",
    ("field-relay", "out"): "{} let go",
    ("bridging-relay", "in"): "{} pushed in",
    ("start", "pressed"): "{} held",
    ("stop", "pressed"): "{} held",
    ("emergency-stop", "pressed"): "{} pressed in",
    ("emergency-stop", "free"): "{} out again",
    ("overload", "tripped"): "{} tripped by its test",
    ("overload", "set"): "{} reset",
    ("reversing-switch", "off"): "{} at 0",
    ("reversing-switch", "forward"): "{} forward",
    ("reversing-switch", "reverse"): "{} reverse",
    ("guard", "open"): "guard open ({})",
    ("guard", "shut"): "guard shut ({})",
    ("thermostat", "hot"): "{} warmed by hot air until it clicks",
    ("thermostat", "cool"): "{} cool again",
    ("zero-switch", "up"): "dial turned up ({})",
    ("zero-switch", "zero"): "dial at zero ({})",
    ("autotransformer", "zero"): "dial of {} at zero",
    ("autotransformer", "up"): "dial of {} at its stop",
    ("pedal", "pressed"): "{} held down",
    ("pedal", "free"): "{} let go",
    ("charger-inlet", "in"): "charger, cold and unfed, plugged into {}",
    ("charger-inlet", "out"): "{} free again",
}
# What it means when a contact in the chain does not break it.
BRIDGED = {
    "emergency-stop": "emergency stop bridged",
    "stop": "stop button bridged",
    "overload": "trip contact bridged",
    "field-relay": "the field relay's contact bridged or welded",
    "reversing-switch": "early contact bridged",
    "charger-inlet": "the charger does not lock it out",
    "guard": "the guard does not lock it out",
    "thermostat": "thermostat bridged, or not warm yet",
    "pedal": "pedal bridged",
    "zero-switch": "it starts with the dial turned up",
}
HELD = ("start", "stop", "contactor")  # spring back as soon as the hand leaves


@dataclass(frozen=True, slots=True)
class Row:
    """A row of the sheet: what the hands set, both tips, what a wrong value means, and the expected value."""

    number: str
    hands: str
    red: str
    black: str
    wrong: str
    want: str
    unit: str
    low: float | None
    high: float | None
    faults: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Group:
    """Rows that share a head."""

    name: str
    note: str
    hands: str
    rows: tuple[Row, ...]


def running(device: Device) -> str:
    """The position in which most contacts of a device are closed: as it stands while the machine runs."""
    return max(
        device.positions,
        key=lambda position: sum(
            position in part.closed_in for part in device.inside if isinstance(part, Contact)
        ),
    )


def hand_words(device: Device, position: str) -> str:
    return HANDS.get((device.kind, position), f"{{}} {position}").format(device.code)


def want_of(reading: Reading) -> tuple[str, str]:
    """The expected value in print, and the unit that stands in the pen box."""
    match reading.kind:
        case "open":
            return "OL", "MΩ"
        case "near zero":
            return f"≤{NARROW}{reading.high:g}{NARROW}Ω", "Ω"
        case "record":
            return "write it down", "Ω"
        case "diode drop":
            return f"{figures(reading.low, 1)}{EN_DASH}{figures(reading.high, 1)}{NARROW}V, diode range", "V"
        case "rising":
            return "rises" + ("" if reading.high == inf else f" to {figures(reading.high, 2)}{NARROW}Ω"), "Ω"
        case _:
            if reading.low <= 0.001 * reading.high:  # a wiper's end: near nothing, up to its end resistance
                amount, unit = shown(reading.high, OHM)
                return f"≤{NARROW}{figures(amount, 2)}{NARROW}{unit}", unit
            b, unit = shown(reading.high, OHM)
            a = reading.low * b / reading.high  # both in the unit of the upper end
            return f"{figures(a, 2)}{EN_DASH}{figures(b, 2)}{NARROW}{unit}", unit
