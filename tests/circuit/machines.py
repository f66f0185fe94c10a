"""Circuits of the demonstration machines, each planned once."""

from functools import cache

from buildsheet.circuit import Circuit
from buildsheet.plan.plan import plan
from buildsheet.project import load
from tests.demos import PROJECTS


@cache
def circuit(name: str) -> Circuit:
    """The netlist of a demonstration. Raises AssertionError when it has none."""
    made = plan(load(PROJECTS / name / f"{name}.yaml")).circuit
    assert made is not None
    return made
