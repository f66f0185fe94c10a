"""Extra-low voltage and line voltage meet only in a part that is marked for it."""

from collections.abc import Iterator

from buildsheet.circuit.breach import Breach, breach
from buildsheet.circuit.contraction import all_positions, path_to, reached
from buildsheet.circuit.netlist import Circuit, Terminal


def separation(circuit: Circuit, starts: tuple[Terminal, ...]) -> Iterator[Breach]:
    """Nothing that is said to be extra-low voltage is reached from a live pole, unless through marked separation; nor is
    the protective conductor used to part them. A source that is itself extra-low voltage has nothing to part."""
    if circuit.direct:
        return
    declared = {Terminal(device.code, name) for device in circuit.devices.values() for name in device.low}
    if not declared:
        return
    for positions in all_positions(circuit):
        for start in starts:
            found = reached(circuit, positions, start, barred=True)
            hit = next((terminal for terminal in found if terminal in declared), None)
            if hit is not None:
                words = f"{hit} is said to be extra-low voltage, and line voltage reaches it"
                yield breach("separation", path_to(found, hit), positions, words)
                return
