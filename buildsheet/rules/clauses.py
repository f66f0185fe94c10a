"""Where the rules of a region stand."""

from buildsheet.citations import Citation
from buildsheet.design import Design
from buildsheet.reference import table


def clause(design: Design, rule: str) -> Citation:
    """Where a rule of the design's region stands."""
    return Citation(table(design.region.tables["rules"]).rows[rule]["clause"])
