"""Dangers of a home-made part that turns: it is used only after a spin test that stands in the file."""

from collections.abc import Iterator
from math import sqrt

from buildsheet.circuit import Circuit
from buildsheet.citations import memory, practice
from buildsheet.design import Design
from buildsheet.design.design import Spin, Turning
from buildsheet.reference import table
from buildsheet.sizing.finding import BRACES, Finding, Said, slug

OVERSPEED = memory("IEC 60034-1", "9.7, overspeed test")
STRAINED = 2  # strength over the stress that a test may reach: what is asked for reaches 1.44 of 3 at the most
BURSTS = "A part that bursts throws its pieces at whoever stands before it."
BEHIND = "behind a shield that holds a burst, nobody in the plane of rotation, as on sheet 10"


def homemade(design: Design, circuit: Circuit | None) -> Iterator[Finding]:
    """Factor of safety, marks, and the spin test of each."""
    del circuit
    for number, given in enumerate(design.project.turning, 1):
        if given.homemade is not None and (given.rated.known or given.basis is not None):
            yield Finding(f"marked-and-home-made-{slug(given.part)}", "stop", "WARNING", Said.of(f"The {given.part.translate(BRACES)} is home-made, and a speed or why it stands one is written for it."), "One of the two is not so, and it counts for life and limb.",
                          "Take rated and basis out for a part that was made at home, or homemade for one that bears a mark.", practice("own rule"), key=f"turning.{number}.homemade")  # fmt: skip
    for number, part in _made(design):
        yield from _of(part, number)


def _made(design: Design) -> Iterator[tuple[int, Turning]]:
    """Home-made parts, with their place in the file's list."""
    parts = iter(part for part in design.turning if part.spin is not None)
    for number, given in enumerate(design.project.turning, 1):
        if given.homemade is not None and (part := next(parts, None)) is not None:
            yield number, part


def _of(part: Turning, number: int) -> Iterator[Finding]:
    spin, name = part.spin, part.name.translate(BRACES)
    if spin is None:
        return
    key = f"turning.{number}.homemade"
    if spin.factor.known and spin.least.known and spin.factor < spin.least:
        yield Finding(f"factor-low-{slug(part.name)}", "stop", "WARNING", Said.of(f"The {name} is worked with a factor of safety of {{0}}; for {spin.given.material} the table asks for {{1}}.", spin.factor, spin.least), BURSTS,
                      "Leave the factor out, or write a larger one.", table("rotor_materials").source, key=f"{key}.factor")  # fmt: skip
    if not (part.rated.known and part.at_maximum.known and part.at_runaway.known):
        return  # told as a speed that nobody knows
    if part.at_maximum > part.rated or part.at_runaway > part.rated:
        return  # told as a speed that it does not stand: it must not be spun faster still
    yield _tested(part, spin, name, key)


def _tested(part: Turning, spin: Spin, name: str, key: str) -> Finding:
    """What the spin test says: without one, or with one that proves nothing, the part is not used."""
    test, about = spin.given.spin_test, f"spin-test-{slug(part.name)}"
    if test is None:
        return Finding(about, "only-with", "WARNING", Said.of(f"The {name} is home-made: by its stress it stands {{0}}; spun at {{1}} it has not been.", part.rated, spin.speed), f"A flaw that nobody sees is in no sum. {BURSTS}",
                       f"Spin it once {BEHIND}, and write it under turning: homemade: spin_test.", OVERSPEED, key=key)  # fmt: skip
    if test.found in ("cracked", "grown or out of true"):
        return Finding(f"{about}-failed", "stop", "WARNING", Said.of(f"The {name} came out of its spin test {test.found}."), BURSTS,
                       "Break it so that nobody uses it, and make another of a sounder piece or a stronger stuff.", OVERSPEED, key=f"{key}.spin_test.found")  # fmt: skip
    if test.found is None or test.shield is None or not test.speed.known:
        return Finding(f"{about}-incomplete", "only-with", "WARNING", Said.of(f"The spin test of the {name} lacks its speed, its shield or what was found."), "What is not written was perhaps not looked at.",
                       "Write speed, shield and found under turning: homemade: spin_test; when one was not looked at, spin it again.", OVERSPEED, key=f"{key}.spin_test")  # fmt: skip
    if not test.shield:
        return Finding(f"{about}-unshielded", "stop", "WARNING", Said.of(f"The {name} was spun without a shield."), "A test that nobody is kept safe from is none, and the next part made like that bursts before somebody.",
                       f"Spin it again {BEHIND}.", practice("spin tests"), key=f"{key}.spin_test.shield")  # fmt: skip
    if not spin.speed.known or test.speed < spin.speed:
        return Finding(f"{about}-too-slow", "stop", "WARNING", Said.of(f"The {name} was spun at {{0}}; this machine asks for {{1}}.", test.speed, spin.speed), f"At runaway it would turn faster than it was proven for. {BURSTS}",
                       f"Spin it faster, {BEHIND}, and write that.", OVERSPEED, key=f"{key}.spin_test.speed")  # fmt: skip
    if part.rated.known and spin.factor.known and float(test.speed) > float(part.rated) * sqrt(float(spin.factor) / STRAINED):
        return Finding(f"{about}-too-fast", "stop", "WARNING", Said.of(f"The {name} was spun at {{0}}; it stands {{1}}. There the stress is past half the strength of its material.", test.speed, part.rated), "Either the speed was misread, or the test has hurt it where nobody sees.",
                       "Read the tachometer again; if it was right, break the part and make another, and spin it no faster than asked.", OVERSPEED, key=f"{key}.spin_test.speed")  # fmt: skip
    return Finding(about, "only-with", "WARNING", Said.of(f"The {name} is home-made; {test.by.translate(BRACES)} spun it at {{0}} on {test.date}, behind a shield, and it was sound.", test.speed), "That holds for it as it is: dropped, drilled, turned down, wet or old it is another part.",
                   "Look at its hole and rim before each day of work; after any change or knock spin it again.", OVERSPEED, met=True, step="motor", key=f"{key}.spin_test")  # fmt: skip
