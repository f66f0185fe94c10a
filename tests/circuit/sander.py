"""The circuit of the demonstration machine, planned once."""

from functools import cache
from pathlib import Path

from buildsheet.circuit import Circuit
from buildsheet.plan.plan import plan
from buildsheet.project import load

PROJECT = Path(__file__).parents[2] / "projects" / "strip-sander" / "strip-sander.yaml"


@cache
def sander() -> Circuit:
    """Its netlist. Raises AssertionError when the demonstration has none."""
    circuit = plan(load(PROJECT)).circuit
    assert circuit is not None
    return circuit
