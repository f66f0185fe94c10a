"""What is decided: every number of the machine, its places and their parts, and the circuit that follows."""

from buildsheet.design.design import Design

__all__ = ["Design"]
