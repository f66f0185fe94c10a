"""Meter readings to expect before power, solved from the circuit's resistance network: which, between which points, with
which switches set by hand, and what a wrong value means. Read from the circuit alone, whatever machine it is of.
"""

from buildsheet.circuit import Circuit, Wire
from buildsheet.packet.ink import Ink
from buildsheet.packet.views.alternating_rows import alternating, lifted
from buildsheet.packet.views.asking import Asker, boards
from buildsheet.packet.views.end_rows import ends, parts
from buildsheet.packet.views.field import field
from buildsheet.packet.views.motor_rows import dial, knob, motor, reversing, separated, transformer
from buildsheet.packet.views.reading import Group
from buildsheet.packet.views.start_rows import bridged, start
from buildsheet.packet.views.supply_rows import chain, metal, supply
from buildsheet.plan import Plan

SECTIONS = (metal, supply, chain, reversing, knob, dial, transformer, separated, motor, field, alternating, start, parts, ends)


def groups(plan: Plan, ink: Ink) -> tuple[Group, ...]:
    """All readings, grouped in the order in which they are taken."""
    del ink
    return () if plan.circuit is None else all_groups(plan.circuit, plan.design.region.words["earth"])


def wires_back(circuit: Circuit) -> tuple[Wire, ...]:
    """Wires that were taken off for the readings and go back on."""
    off = boards(circuit) | lifted(circuit) | bridged(circuit)
    return tuple(w for w in circuit.wires if w.role != "protective" and off & {w.a.device, w.b.device})


def all_groups(circuit: Circuit, earth: str, wired: Circuit | None = None) -> tuple[Group, ...]:
    """All groups that have rows. `earth` is the region's word for it; `wired` is another circuit that they are taken on,
    such as the same one with a mistake in it."""
    asker = Asker(circuit, earth, wired)
    made = (section(asker) for section in SECTIONS)
    return tuple(group for group in made if group.rows)
