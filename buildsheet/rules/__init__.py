"""The book of dangers: one module per family, each rule a function over design and circuit that yields findings."""

from buildsheet.rules.book import all_findings, state_of

__all__ = ["all_findings", "state_of"]
