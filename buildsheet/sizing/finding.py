"""A finding: what was found, why it matters, what to do, how grave it is, and where in the file it comes from."""

from dataclasses import dataclass, field
from typing import Literal

from buildsheet.citations import Citation
from buildsheet.worksheet import Input, Value
from buildsheet.worksheet.value import roots

Grade = Literal["stop", "only-with", "heed", "note"]
Signal = Literal["DANGER", "WARNING", "CAUTION", "NOTICE"]
GRADES: tuple[Grade, ...] = ("stop", "only-with", "heed", "note")
SIGNALS: tuple[Signal, ...] = ("DANGER", "WARNING", "CAUTION", "NOTICE")


@dataclass(frozen=True, slots=True)
class Said:
    """A sentence with Values in it: `Said("{0} of {1}", current, limit)`. The ink fills it in."""

    text: str
    values: tuple[Value, ...] = ()

    @classmethod
    def of(cls, text: str, *values: Value) -> "Said":
        return cls(text, values)


MORE = 1.001  # two figures worked in two ways may differ in their last digit and be the same
BRACES = str.maketrans({"{": "{{", "}": "}}"})  # a name out of the file may hold signs of a format


def slug(name: str) -> str:
    """A name out of the file as the end of a finding's id."""
    return "".join(sign if sign.isalnum() else "-" for sign in name.lower()).replace("-s-", "-").strip("-")


@dataclass(frozen=True, slots=True)
class Finding:
    """One finding. `grade` says what it does to the packet, `signal` how badly it can end.

    `only-with` counts as a stop unless `measure` is in the circuit or on the record (`met`). `about` are device codes;
    `step` is the stage of wiring before which its warning stands. `unknown` are values that nobody knows and without
    which it can't be judged, and `awaits` what stays open without them; a finding without `awaits` is about the unknown
    value itself and leads what follows from it. `follows` are the ids of the findings that are told with this one.
    """

    id: str
    grade: Grade
    signal: Signal
    found: Said
    why: str
    do: str
    citation: Citation
    about: tuple[str, ...] = ()
    met: bool = False
    electric: bool = False
    step: str = ""
    key: str = ""
    accepted: str = ""
    unknown: tuple[Value, ...] = ()
    awaits: str = ""
    follows: tuple[str, ...] = ()
    sort: tuple[int, int] = field(default=(0, 0))

    @property
    def stops(self) -> bool:
        """Whether it withholds the packet."""
        return self.grade == "stop" or (self.grade == "only-with" and not self.met)

    @property
    def where(self) -> Input | None:
        """The first input that its values rest on."""
        for value in self.found.values:
            for root in roots(value):
                if isinstance(root.parent, Input):
                    return root.parent
        return None
