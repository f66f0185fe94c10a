"""The book of dangers: one module per family, each rule a function over design and circuit that yields findings."""

from buildsheet.rules.book import all_findings, state_of
from buildsheet.rules.finding import Finding, Grade, Said, Signal

__all__ = ["Finding", "Grade", "Said", "Signal", "all_findings", "state_of"]
