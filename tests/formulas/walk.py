"""All registered formulas with the arguments of their docstring's example, and points around it within the limits."""

import ast
import importlib
import pkgutil
import random
import re
from typing import Any

import buildsheet.formulas
from buildsheet.formulas.formula import REGISTRY, Formula, OutsideLimits

for module in pkgutil.iter_modules(buildsheet.formulas.__path__):
    importlib.import_module(f"buildsheet.formulas.{module.name}")

FORMULAS: dict[str, Formula[...]] = dict(REGISTRY)


def example(formula: Formula[Any]) -> dict[str, float]:
    """The arguments of the first example in the docstring. Raises AssertionError when there is none."""
    doc = formula.function.__doc__ or ""
    match = re.search(r">>> (.+)", doc)
    assert match, f"{formula.name} has no example"
    for node in ast.walk(ast.parse(match[1], mode="eval")):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == formula.name:
            return {str(word.arg): float(ast.literal_eval(word.value)) for word in node.keywords}
    raise AssertionError(f"the example of {formula.name} does not call it")


def points(formula: Formula[Any], count: int, spread: float = 1.35) -> list[dict[str, float]]:
    """`count` sets of arguments: the example first, then each argument times a random factor up to `spread` and down to
    1/`spread`, kept inside the limits; sets for which the formula has no result are drawn again."""
    random_numbers = random.Random(formula.name)  # noqa: S311  the same points in every run
    found = [example(formula)]
    for _ in range(200 * count):
        if len(found) == count:
            return found
        drawn = {}
        for name, value in found[0].items():
            low, high = formula.limits.get(name, (float("-inf"), float("inf")))
            number = (value or 0.37) * spread ** random_numbers.uniform(-1, 1)
            drawn[name] = min(max(number, low), high)
        try:
            formula(**drawn)
        except OutsideLimits:
            continue
        found.append(drawn)
    raise AssertionError(f"{formula.name}: too few points have a result")
