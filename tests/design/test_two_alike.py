"""What a salvaged part must be before it fills a place: two where two are needed, and strong enough. Facts of the trade."""

from pathlib import Path

import pytest

from buildsheet.plan import plan
from buildsheet.project import read

PROJECTS = Path(__file__).resolve().parents[2] / "projects"


def seat(machine: str, part: str, place: str) -> tuple[bool, str]:
    text = (PROJECTS / machine / f"{machine}.yaml").read_text(encoding="utf-8")
    head, _, rest = text.partition("on_hand:\n")
    assert rest
    made = plan(read(f"{head}on_hand:\n  - {part}\n{rest}", f"{machine}.yaml"))
    found = next(one for one in made.design.seats if one.place.id == place)
    return found.usable, found.verdict


@pytest.mark.parametrize(
    ("machine", "place", "part", "verdict"),
    [
        ("wool-carder", "diode", "diode, 3 A 400 V", "not known"),  # one diode, or nobody says how many
        ("wool-carder", "diode", "diode, 3 A 400 V, two of them", "fits"),
        ("wool-carder", "diode", "diode, 1 A 400 V, two of them", "does not fit"),
        ("wool-carder", "diode", "diode, 3 A 100 V, two of them", "does not fit"),
        ("wool-carder", "charging-resistor", "resistor, 220 ohm, 0.25 W", "does not fit"),
        ("wool-carder", "charging-resistor", "resistor, 220 ohm", "not known"),
        ("wool-carder", "charging-resistor", "resistor, 220 ohm, 10 W", "fits"),
        ("yarn-twister", "line-fuse", "fuse, 2.5 A 250 V AC, time-lag, breaks 1.5 kA, new", "not known"),
        ("yarn-twister", "line-fuse", "fuse, 2.5 A 250 V AC, time-lag, breaks 1.5 kA, two of them, new", "fits"),
    ],
)  # fmt: skip
def test_the_verdict_on_a_part(machine: str, place: str, part: str, verdict: str) -> None:
    assert seat(machine, part, place) == (verdict == "fits", verdict)
