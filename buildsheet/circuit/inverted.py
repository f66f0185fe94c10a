"""What must hold behind an inverter: nothing but wire between its outputs and the motor, and its run input closed."""

from collections.abc import Iterator

from buildsheet.circuit.breach import Breach, breach, of_kind
from buildsheet.circuit.contraction import contract
from buildsheet.circuit.netlist import Circuit, Electronics, Terminal
from buildsheet.circuit.sequence import runs


def inverted(circuit: Circuit) -> Iterator[Breach]:
    """Each output of an inverter goes by wire alone to a motor: a contact that opens there, a fuse, a capacitor, or a relay's
    heater can kill it. While the machine runs its run input is closed."""
    for drive in of_kind(circuit, "drive"):
        if not any(isinstance(part, Electronics) and part.does == "inverts" for part in drive.inside):
            continue
        for name in drive.limits:
            output = Terminal(drive.code, name)
            ends = [wire.b if wire.a == output else wire.a for wire in circuit.at(output)]
            other = next((end for end in ends if circuit.devices[end.device].kind != "motor"), None)
            if other is not None:
                yield breach("inverter", (output, other), {}, f"{output} goes to {other}: nothing may lie between an inverter and its motor")
            elif len(ends) != 1:
                yield breach("inverter", (output,), {}, f"{output} feeds {len(ends)} leads of the motor, and not one")
        if drive.runs_by is None:
            continue
        run_input = (Terminal(drive.code, drive.runs_by[0]), Terminal(drive.code, drive.runs_by[1]))
        for run in runs(circuit):
            if not contract(circuit, run.positions).same(*run_input):
                yield breach("inverter", run_input, run.positions, f"{drive.code} has power and its run input is open")
                break
