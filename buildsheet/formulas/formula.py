"""What a formula is: a pure function of SI floats that knows its units, its source and where it holds.

The body of a formula keeps to a small grammar (`name: Unit = expression`, `if … return`, `return`), because the
worksheet prints the equation from it: the equation on paper is the code that ran.
"""

import inspect
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from math import isfinite
from typing import Generic, ParamSpec, Self, get_type_hints

from buildsheet.citations import Citation
from buildsheet.quantities import spell
from buildsheet.units import Unit

P = ParamSpec("P")
Limits = Mapping[str, tuple[float, float]]
INFINITE = float("inf")


class OutsideLimits(ValueError):
    """An argument for which the formula is not made. The message names it, what it was and what it may be."""


class Constant(float):
    """A constant of nature or of a standard: its printed symbol, its kind and where its value stands."""

    symbol: str
    unit: Unit
    source: Citation

    def __new__(cls, value: float, unit: Unit, symbol: str, source: Citation) -> Self:
        self = super().__new__(cls, value)
        self.symbol, self.unit, self.source = symbol, unit, source
        return self


@dataclass(frozen=True, eq=False)
class Formula(Generic[P]):
    """A registered formula. `arguments` and `gives` are kinds; `limits` are (lowest, highest) in SI by argument.

    Calling it raises OutsideLimits instead of clamping: for an argument outside the limits or not finite, and where
    these numbers have no finite result, such as the root of a negative one.
    """

    name: str
    function: Callable[P, float]
    arguments: Mapping[str, Unit]
    gives: Unit
    source: Citation
    limits: Limits
    leaves_out: str

    def __call__(self, *args: P.args, **kwargs: P.kwargs) -> float:
        given: dict[str, object] = {**dict(zip(self.arguments, args, strict=False)), **kwargs}
        for name, value in given.items():
            if not isinstance(value, int | float):
                continue
            if not isfinite(value):
                raise OutsideLimits(f"{self.title}: {name} is no finite number")
            low, high = self.limits.get(name, (-INFINITE, INFINITE))
            if not low <= value <= high:
                raise OutsideLimits(self._outside(name, value, low, high))
        try:
            result = self.function(*args, **kwargs)
        except (ValueError, ZeroDivisionError, OverflowError) as error:
            raise OutsideLimits(f"{self.title} has no result for these numbers ({error})") from error
        if not isfinite(result):
            raise OutsideLimits(f"{self.title} has no finite result for these numbers")
        return result

    def _outside(self, name: str, value: float, low: float, high: float) -> str:
        unit = self.arguments[name]
        if value < low:
            return f"{self.title}: {name} is {spell(value, unit)}, must be at least {spell(low, unit)}"
        return f"{self.title}: {name} is {spell(value, unit)}, must be at most {spell(high, unit)}"

    @property
    def title(self) -> str:
        """The name in words: `copper_resistance` is "copper resistance"."""
        return self.name.replace("_", " ")

    @property
    def summary(self) -> str:
        """The first line of the docstring."""
        return inspect.getdoc(self.function).splitlines()[0] if self.function.__doc__ else ""  # type: ignore[union-attr]


REGISTRY: dict[str, Formula[...]] = {}


def formula(
    *, source: Citation, limits: Limits | None = None, leaves_out: str = ""
) -> Callable[[Callable[P, float]], Formula[P]]:
    """Registers a function as a formula. Its signature carries the kinds: `def drop(l: Metre, …) -> Volt`.

    Raises TypeError when an argument or the result has no kind, when a limit names no argument, or when the name is
    taken.
    """

    def register(function: Callable[P, float]) -> Formula[P]:
        kinds = {name: _kind(hint) for name, hint in get_type_hints(function, include_extras=True).items()}
        name = function.__name__
        gives = kinds.pop("return", None)
        if gives is None or not kinds or None in kinds.values():
            raise TypeError(f"formula {name}: every argument and the result need a kind of quantity")
        if unknown := set(limits or {}) - set(kinds):
            raise TypeError(f"formula {name}: limits for {sorted(unknown)}, which are no arguments")
        if name in REGISTRY:
            raise TypeError(f"formula {name} is already registered")
        arguments = {key: kind for key, kind in kinds.items() if kind is not None}
        made = Formula(name, function, arguments, gives, source, limits or {}, leaves_out)
        REGISTRY[name] = made
        return made

    return register


def _kind(hint: object) -> Unit | None:
    return next((part for part in getattr(hint, "__metadata__", ()) if isinstance(part, Unit)), None)
