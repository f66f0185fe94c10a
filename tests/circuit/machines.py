"""Circuits of the demonstration machines, each planned once."""

from functools import cache
from pathlib import Path

from buildsheet.circuit import Circuit
from buildsheet.plan.plan import plan
from buildsheet.project import load

PROJECTS = Path(__file__).parents[2] / "projects"


@cache
def circuit(name: str) -> Circuit:
    """The netlist of a demonstration. Raises AssertionError when it has none."""
    made = plan(load(PROJECTS / name / f"{name}.yaml")).circuit
    assert made is not None
    return made


DEMOS = ("strip-sander", "yarn-twister", "wool-carder", "seed-cleaner", "bobbin-winder", "grain-crusher", "edge-burnisher", "ink-mixer", "root-washer", "seed-coater", "plaster-stirrer", "pulp-beater", "stone-tumbler", "clay-mixer", "flax-breaker", "compost-sieve")
