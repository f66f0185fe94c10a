"""Kinds of quantity. `quantities` reads and prints what is of these kinds.

A `Unit` is a kind of quantity rather than a unit of measure: rad/s and Hz have the same dimension but are two kinds,
and so are N·m and J, or a temperature and a rise. Kinds are compared by identity.
"""

from dataclasses import dataclass
from typing import Annotated


@dataclass(frozen=True, eq=False, slots=True)
class Unit:
    """A kind of quantity: its name in messages, its coherent SI unit, how it is printed and what to type.

    `si` is a pint expression, `symbol` what is printed for it. `steps` are the units of the metric print, smallest
    first, and `inch` those of the inch print; empty means that SI is printed.
    """

    kind: str
    si: str
    symbol: str
    example: str
    steps: tuple[str, ...] = ()
    inch: tuple[str, ...] = ()

    def __repr__(self) -> str:
        return f"<Unit {self.kind}>"


NUMBER = Unit("plain number", "", "", "0.9")
ALIKE = Unit("quantity of one kind", "", "", "1")
SHARE = Unit("share", "", "", "80 %", ("percent",))
VOLT = Unit("voltage", "volt", "V", "120 V", ("mV", "V", "kV"))
AMPERE = Unit("current", "ampere", "A", "7.5 A", ("mA", "A", "kA"))
OHM = Unit("resistance", "ohm", "Ω", "1.5 ohm", ("mΩ", "Ω", "kΩ", "MΩ"))
HENRY = Unit("inductance", "henry", "H", "10 mH", ("mH", "H"))
FARAD = Unit("capacitance", "farad", "F", "470 µF", ("nF", "µF", "mF"))
WATT = Unit("power", "watt", "W", "180 W", ("W", "kW"))
VOLT_AMPERE = Unit("apparent power", "volt_ampere", "VA", "250 VA", ("VA",))
JOULE = Unit("energy", "joule", "J", "12 J", ("mJ", "J", "kJ"))
NEWTON = Unit("force", "newton", "N", "40 N", ("N", "kN"), ("lbf",))
NEWTON_METRE = Unit("torque", "newton * meter", "N·m", "1.2 N·m", ("N·m",), ("lbf·in",))
KILOGRAM = Unit("mass", "kilogram", "kg", "2 kg", ("g", "kg"), ("lb",))
KILOGRAM_SQUARE_METRE = Unit("moment of inertia", "kilogram * meter ** 2", "kg·m²", "0.004 kg·m²")
METRE = Unit("length", "meter", "m", "900 mm", ("mm", "m"), ("in",))
SQUARE_METRE = Unit("area", "meter ** 2", "m²", "0.4 m²", ("m²",), ("ft²",))
WIRE_AREA = Unit("wire cross-section", "meter ** 2", "m²", "1.5 mm²", ("mm²",), ("cmil",))
IRON_AREA = Unit("iron cross-section", "meter ** 2", "m²", "14 cm²", ("cm²",), ("in²",))
METRE_PER_SECOND = Unit("speed", "meter / second", "m/s", "15 m/s", ("m/s",), ("ft/min",))
RADIAN_PER_SECOND = Unit("rotational speed", "radian / second", "rad/s", "1725 rpm", ("rpm",))
HERTZ = Unit("frequency", "hertz", "Hz", "60 Hz", ("Hz", "kHz"))
SECOND = Unit("time", "second", "s", "30 min", ("ms", "s", "min", "h"))
RADIAN = Unit("angle", "radian", "rad", "48 deg", ("°",))
KELVIN = Unit("temperature", "kelvin", "K", "35 degC", ("°C",), ("°F",))
KELVIN_RISE = Unit("temperature rise", "kelvin", "K", "20 K", ("K",))
VOLT_SECOND_PER_RADIAN = Unit("back-EMF constant", "volt * second / radian", "V·s/rad", "0.457 V·s/rad")
NEWTON_METRE_PER_AMPERE = Unit("torque constant", "newton * meter / ampere", "N·m/A", "0.457 N·m/A")
OHM_PER_METRE = Unit("resistance per length", "ohm / meter", "Ω/m", "10.3 ohm/km")
OHM_METRE = Unit("resistivity", "ohm * meter", "Ω·m", "0.017241 ohm * mm^2 / m")
PER_KELVIN = Unit("temperature coefficient", "1 / kelvin", "1/K", "0.00393 / K")
KELVIN_PER_WATT = Unit("thermal resistance", "kelvin / watt", "K/W", "2.5 K/W")
WATT_PER_SQUARE_METRE_KELVIN = Unit(
    "heat transfer coefficient", "watt / meter ** 2 / kelvin", "W/(m²·K)", "5.5 W/m²/K"
)
CUBIC_METRE_PER_SECOND = Unit("air flow", "meter ** 3 / second", "m³/s", "60 m^3/h", ("m³/h",), ("cfm",))
PASCAL = Unit("pressure", "pascal", "Pa", "0.8 MPa", ("Pa", "kPa", "MPa"), ("psi",))
AMPERE_SQUARE_SECOND = Unit("let-through energy", "ampere ** 2 * second", "A²s", "150 A^2*s", ("A²s",))
AMPERE_HOUR = Unit("charge", "coulomb", "C", "20 Ah", ("Ah",))
METRE_PER_SECOND_SQUARED = Unit("acceleration", "meter / second ** 2", "m/s²", "9.81 m/s^2")
KILOGRAM_PER_CUBIC_METRE = Unit("density", "kilogram / meter ** 3", "kg/m³", "7850 kg/m^3")
JOULE_PER_KILOGRAM_KELVIN = Unit("specific heat", "joule / kilogram / kelvin", "J/(kg·K)", "1005 J/kg/K")
NEWTON_METRE_PER_AMPERE_SQUARED = Unit(
    "series motor constant", "newton * meter / ampere ** 2", "N·m/A²", "0.04 N·m/A²"
)
TESLA = Unit("flux density", "tesla", "T", "1.2 T", ("mT", "T"))
PER_VOLT = Unit("turns per volt", "1 / volt", "1/V", "4.4 / V")
AMPERE_PER_SQUARE_METRE = Unit("current density", "ampere / meter ** 2", "A/m²", "3 A/mm²", ("A/mm²",))
VOLT_AMPERE_PER_METRE4 = Unit("core constant", "volt_ampere / meter ** 4", "VA/m⁴", "0.8 VA/cm⁴", ("VA/cm⁴",))
WATT_PER_SQUARE_METRE_KELVIN4 = Unit(
    "radiation constant", "watt / meter ** 2 / kelvin ** 4", "W/(m²·K⁴)", "5.67e-8 W/m^2/K^4"
)

Number = Annotated[float, NUMBER]
Alike = Annotated[float, ALIKE]
Share = Annotated[float, SHARE]
Volt = Annotated[float, VOLT]
Ampere = Annotated[float, AMPERE]
Ohm = Annotated[float, OHM]
Henry = Annotated[float, HENRY]
Farad = Annotated[float, FARAD]
Watt = Annotated[float, WATT]
VoltAmpere = Annotated[float, VOLT_AMPERE]
Joule = Annotated[float, JOULE]
Newton = Annotated[float, NEWTON]
NewtonMetre = Annotated[float, NEWTON_METRE]
Kilogram = Annotated[float, KILOGRAM]
KilogramSquareMetre = Annotated[float, KILOGRAM_SQUARE_METRE]
Metre = Annotated[float, METRE]
SquareMetre = Annotated[float, SQUARE_METRE]
WireArea = Annotated[float, WIRE_AREA]
IronArea = Annotated[float, IRON_AREA]
MetrePerSecond = Annotated[float, METRE_PER_SECOND]
RadianPerSecond = Annotated[float, RADIAN_PER_SECOND]
Hertz = Annotated[float, HERTZ]
Second = Annotated[float, SECOND]
Radian = Annotated[float, RADIAN]
Kelvin = Annotated[float, KELVIN]
KelvinRise = Annotated[float, KELVIN_RISE]
VoltSecondPerRadian = Annotated[float, VOLT_SECOND_PER_RADIAN]
NewtonMetrePerAmpere = Annotated[float, NEWTON_METRE_PER_AMPERE]
OhmPerMetre = Annotated[float, OHM_PER_METRE]
OhmMetre = Annotated[float, OHM_METRE]
PerKelvin = Annotated[float, PER_KELVIN]
KelvinPerWatt = Annotated[float, KELVIN_PER_WATT]
WattPerSquareMetreKelvin = Annotated[float, WATT_PER_SQUARE_METRE_KELVIN]
CubicMetrePerSecond = Annotated[float, CUBIC_METRE_PER_SECOND]
Pascal = Annotated[float, PASCAL]
AmpereSquareSecond = Annotated[float, AMPERE_SQUARE_SECOND]
AmpereHour = Annotated[float, AMPERE_HOUR]
MetrePerSecondSquared = Annotated[float, METRE_PER_SECOND_SQUARED]
KilogramPerCubicMetre = Annotated[float, KILOGRAM_PER_CUBIC_METRE]
JoulePerKilogramKelvin = Annotated[float, JOULE_PER_KILOGRAM_KELVIN]
NewtonMetrePerAmpereSquared = Annotated[float, NEWTON_METRE_PER_AMPERE_SQUARED]
Tesla = Annotated[float, TESLA]
PerVolt = Annotated[float, PER_VOLT]
AmperePerSquareMetre = Annotated[float, AMPERE_PER_SQUARE_METRE]
VoltAmperePerMetre4 = Annotated[float, VOLT_AMPERE_PER_METRE4]
WattPerSquareMetreKelvin4 = Annotated[float, WATT_PER_SQUARE_METRE_KELVIN4]

UNITS: tuple[Unit, ...] = tuple(
    value for value in list(globals().values()) if isinstance(value, Unit) and value is not ALIKE
)
