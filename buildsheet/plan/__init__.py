"""All arrows at once: the one object that every output reads."""

from buildsheet.plan.plan import Plan, plan

__all__ = ["Plan", "plan"]
