"""What a supply is to what hangs on it."""

from buildsheet.citations import derivation
from buildsheet.formulas.formula import formula
from buildsheet.units import Ampere, Ohm, Volt


@formula(
    source=derivation("Ohm's law in a short circuit"),
    limits={"V": (1, 1000), "I_s": (10, 1e5)},
    leaves_out="the inductance of the line, which takes the tips off short pulses",
)
def source_resistance(V: Volt, I_s: Ampere) -> Ohm:
    """Resistance of a supply, from its voltage and the current into a short circuit.

    >>> source_resistance(V=120.0, I_s=1000.0)
    0.12
    """
    return V / I_s
