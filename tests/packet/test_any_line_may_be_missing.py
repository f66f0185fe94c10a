"""A file is worked as far as it goes: each line of each demonstration taken out, and odd but allowed changes, give words
and JSON, and of every fifth the pages, never a crash (a builder's file is rarely complete)."""

from contextlib import suppress
from pathlib import Path

import pytest

from buildsheet.given.problems import ProjectError
from buildsheet.packet.html import html
from buildsheet.packet.words import check_json, check_text
from buildsheet.plan import plan
from buildsheet.project import read

PROJECTS = Path(__file__).resolve().parents[2] / "projects"
TEXTS = {name: (PROJECTS / name / f"{name}.yaml").read_text(encoding="utf-8") for name in ("strip-sander", "yarn-twister", "wool-carder", "stone-tumbler", "clay-mixer", "flax-breaker", "compost-sieve")}
LINES = [
    pytest.param(name, number, id=f"{name}-{number}")
    for name, text in TEXTS.items()
    for number, line in enumerate(text.splitlines())
    if line.strip() and not line.startswith(("#", "buildsheet"))
]
CHANGES = [
    ("yarn-twister", "region: europe", "region: north-america"),
    ("strip-sander", "region: north-america", "region: europe"),
    ("yarn-twister", "type A, plug", "type A, plug, two-hot"),
    ("yarn-twister", "reverse: true", "reverse: false"),
    ("wool-carder", "machine:\n", "machine:\n  reverse: true\n"),
    ("wool-carder", "overload: {by: relay}", "fan: {voltage: 24 V, power: 5 W}"),
    ("wool-carder", "lead-acid AGM", "lithium-iron-phosphate"),
    ("wool-carder", "35 Ah", "0.1 Ah"),
    ("wool-carder", "24 V, 35 Ah", "48 V, 35 Ah"),
    ("wool-carder", "battery: 24 V, 35 Ah, lead-acid AGM, 20 mohm", "battery: {voltage: 24 V, capacity: 35 Ah, kind: lead-acid, charger_inlet: false}"),
    ("yarn-twister", "16 A breaker", "6 A breaker"),
    ("strip-sander", "separation: none", "separation: galvanic"),
    ("strip-sander", "protector: none", "protector: self-resetting"),
    ("stone-tumbler", "region: north-america", "region: europe"),
    ("stone-tumbler", "GFCI, plug", "GFCI, plug, two-hot"),
    ("stone-tumbler", "machine:\n", "machine:\n  reverse: true\n"),
    ("stone-tumbler", "permanent-split-capacitor", "shaded-pole"),
    ("stone-tumbler", "12 µF, 250 V\n", "0.5 F, 250 V\n"),
    ("stone-tumbler", "{by: relay}", "{by: relay}\n  choke: 8 mH, 0.35 ohm, 6 A"),
    ("clay-mixer", "region: europe", "region: north-america"),
    ("clay-mixer", "machine:\n", "machine:\n  reverse: true\n"),
    ("clay-mixer", "setting: 1.9 A}", "setting: 1.9 A}\n  choke: 8 mH, 0.35 ohm, 6 A"),
    ("clay-mixer", "setting: 1.9 A}", "setting: 1.9 A}\n  fan: {voltage: 230 V, power: 5 W}"),
    ("clay-mixer", "50 Hz, 1390 rpm", "50 Hz, 1510 rpm"),
    ("flax-breaker", "region: europe", "region: north-america"),
    ("flax-breaker", "RCD type A, plug", "RCD type A, plug, two-hot"),
    ("flax-breaker", "  field_relay: true\n", ""),
    ("flax-breaker", "field_fuse: true", "field_fuse: true\n  choke: 8 mH, 0.35 ohm, 6 A"),
    ("flax-breaker", "field_winding: 345 ohm", "field_winding: 1 ohm"),
    ("flax-breaker", "field_plate: 180 V, 0.40 A", "field_plate: 20 V, 0.40 A"),
    ("flax-breaker", "way: phase-controlled-drive", "way: kept-board"),
    ("compost-sieve", "region: europe", "region: north-america"),
    ("compost-sieve", "RCD type A, plug", "RCD type A, plug, two-hot"),
    ("compost-sieve", "{by: relay}", "{by: relay}\n  fan: {voltage: 230 V, power: 5 W}"),
    ("compost-sieve", "capacitor-start", "shaded-pole"),
    ("compost-sieve", "leads: four", "leads: three"),
    ("yarn-twister", "on_hand:\n", "on_hand:\n  - fuse, 2.5 A 500 V DC, time-lag, breaks 10 kA\n"),
]


def worked(text: str, *, pages: bool) -> None:
    made = plan(read(text, "x.yaml"))
    assert check_text(made, everything=True)
    assert check_json(made, "x.yaml")["state"] == made.state
    if pages:
        assert "<html" in html(made)


@pytest.mark.parametrize(("name", "number"), LINES)
def test_a_line_may_be_missing(name: str, number: int) -> None:
    lines = TEXTS[name].splitlines()
    with suppress(ProjectError):  # a line that another hangs on: told with its place
        worked("\n".join(lines[:number] + lines[number + 1 :]), pages=number % 5 == 0)


@pytest.mark.parametrize(("name", "old", "new"), CHANGES)
def test_an_odd_but_allowed_file(name: str, old: str, new: str) -> None:
    assert old in TEXTS[name]
    worked(TEXTS[name].replace(old, new, 1), pages=True)
