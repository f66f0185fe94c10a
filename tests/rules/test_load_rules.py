"""Rules of the load: hardest when slow, its own law, heat at the lowest speed, volts that the slow end needs, what flies off.

What a case must come to stands beside it by hand: P = T·ω, T = K·(I − I_0), V = E + I·R + U_b.
"""

from math import pi
from pathlib import Path

import pytest

from buildsheet.plan import Plan, plan
from buildsheet.project import read
from buildsheet.reference import table
from buildsheet.sizing.finding import Finding

PROJECTS = Path(__file__).resolve().parents[2] / "projects"
WINDER, SANDER, CLEANER, CARDER = "bobbin-winder", "strip-sander", "seed-cleaner", "wool-carder"
WOUND = ("kind: other", "kind: coil-winder")
OWN = ("kind: belt-sander", "kind: belt-sander\n  load: quadratic torque")
EASY = ("power: 180 W", "power: 80 W")
# machine, finding, grade, changes
CASES = [
    (WINDER, "hardest-when-slow", "note", [WOUND]),
    (WINDER, "cools-badly-when-slow", "heed", [WOUND, ("200..900", "300..900")]),  # 2.47 A of 4·√(900/2160) = 2.58 A
    (CLEANER, "cools-badly-when-slow", "heed", [("kind: other", "kind: blower")]),  # easier, yet its own losses are too much for the fan: 400 of 9000 rpm
    (WINDER, "too-hot-when-slow", "stop", [WOUND]),  # 3.55 A of 4·√(600/2160) = 2.11 A
    (SANDER, "too-hot-when-slow", "stop", [("kind: belt-sander", "kind: belt-sander\n  load: constant power")]),
    (WINDER, "speed-not-held-when-slow", "heed", [WOUND, ("0.9 N·m", "0.2 N·m"), ("200..900", "50..900")]),  # 5 V of its own, of 15 V
    (CLEANER, "slow-needs-more-volts", "stop", [("kind: other", "kind: coil-winder")]),
    (CLEANER, "speed-out-of-reach-when-slow", "stop", [("kind: other", "kind: coil-winder"), ("1.4 N·m", "2.6 N·m")]),
    (CARDER, "overload-too-low", "stop", [("kind: wool-carder", "kind: wool-carder\n  load: constant power")]),  # 17.5 A when slow, 7.9 A when fast
    (CARDER, "drive-too-small", "stop", [("kind: wool-carder", "kind: wool-carder\n  load: constant power")]),
    (SANDER, "load-of-its-own", "heed", [OWN]),  # easier when slow than a sander is
    (SANDER, "load-of-its-own", "note", [("kind: belt-sander", "kind: belt-sander\n  load: constant power"), EASY]),  # harder
    (SANDER, "sparks", "note", [("kind: belt-sander", "kind: grinder"), EASY]),
    (SANDER, "metal-dust", "note", [("kind: belt-sander", "kind: buffer"), EASY]),
    (SANDER, "wood-dust", "note", [("kind: belt-sander", "kind: disc-sander"), EASY]),
    (WINDER, "flour-dust", "note", [("kind: other", "kind: grain-mill")]),
    (WINDER, "turning-not-named", "stop", [("kind: other", "kind: band-saw")]),  # two wheels and the blade, beside the pulley
    (WINDER, "faster-than-usual", "heed", [("kind: other", "kind: potters-wheel")]),
    (WINDER, "slower-than-usual", "note", [("kind: other", "kind: spindle-sander")]),
]  # fmt: skip


def planned(name: str, *changes: tuple[str, str]) -> Plan:
    text = (PROJECTS / name / f"{name}.yaml").read_text(encoding="utf-8")
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    return plan(read(text, f"{name}.yaml"))


def speaking(made: Plan) -> dict[str, Finding]:
    return {name: finding for finding in made.findings for name in (finding.id, *finding.follows)}


@pytest.mark.parametrize(("machine", "name", "grade", "changes"), CASES, ids=[f"{case[1]}-{number}" for number, case in enumerate(CASES)])
def test_the_rule_speaks(machine: str, name: str, grade: str, changes: list[tuple[str, str]]) -> None:
    found = speaking(planned(machine, *changes))
    assert name in found
    assert found[name].grade == grade
    if grade == "stop":
        assert found[name].stops


def test_none_of_them_speaks_of_a_load_that_is_the_same_at_all_speeds() -> None:
    """What the demonstrations were before there was a law."""
    for name in (WINDER, SANDER, CLEANER, CARDER):
        assert not {case[1] for case in CASES} & set(speaking(planned(name))) - {"wood-dust", "cools-badly-when-slow"}


def test_a_load_that_eases_when_slow_needs_no_fan() -> None:
    """A blower at half speed asks for a quarter of the torque: the slow fan is enough, and the rule is silent."""
    assert "cools-badly-when-slow" in speaking(planned(WINDER))
    assert not {"cools-badly-when-slow", "too-hot-when-slow"} & set(speaking(planned(WINDER, ("kind: other", "kind: blower"))))


@pytest.mark.parametrize("load", ["constant torque", "viscous torque", "quadratic torque"])
def test_a_load_that_is_easier_when_slow_is_never_judged_harder(load: str) -> None:
    """The same machine pulls less at slow under each of them than at constant power, so none may stop where that one does not."""
    hard, easy = (planned(CLEANER, ("kind: other", f"kind: other\n  load: {name}")) for name in ("constant power", load))
    assert {f.id for f in easy.findings if f.stops} <= {f.id for f in hard.findings if f.stops}
    assert not easy.stopped


def test_a_fan_that_is_not_on_the_shaft_is_not_asked() -> None:
    """`cooling: none` is a closed motor whose rating is without a fan already (a maker's table: down to 5 % of base speed)."""
    made = speaking(planned(WINDER, WOUND, ("200..900", "300..900"), ("cooling: own fan", "cooling: none")))
    assert not {"cools-badly-when-slow", "too-hot-when-slow"} & set(made)


def test_a_slow_point_that_is_not_known_is_told() -> None:
    """Without the armature's current at the slow end nothing may be sized by the fast end alone."""
    made = planned(WINDER, WOUND, ("200..900 rpm, never above 2600 rpm", "0.5..900 rpm, never above 2600 rpm"))
    low, high = made.design.point("low"), made.design.point("high")
    assert low is not None
    assert high is not None
    assert high.rms.known
    assert not low.rms.known
    assert "no-operating-point" in speaking(made)
    assert made.stopped


def test_where_the_speeds_of_a_kind_come_from_is_said_with_the_finding() -> None:
    """From memory, common practice, or read: by the row, not by the table."""
    memory = speaking(planned(WINDER, ("kind: other", "kind: tumbler")))["faster-than-usual"]
    practice = speaking(planned(WINDER, ("kind: other", "kind: potters-wheel")))["faster-than-usual"]
    assert str(memory.citation).endswith("(from memory)")
    assert str(practice.citation).endswith("(common practice, no source)")


FOOT_PER_MINUTE = 0.3048 / 60
# kind, speed in the window of the kind or not, by a machine that is usual in the trade; from the workshop speed formula
USUAL = [
    ("disc-sander", 0.254 / 2 * 1725 * pi / 30, True, "10 in at 1725 rpm: 4516 ft/min"),
    ("disc-sander", 0.3048 / 2 * 1725 * pi / 30, True, "12 in at 1725 rpm: 27.5 m/s"),
    ("grinder", 5419 * FOOT_PER_MINUTE, True, "6 in at 3450 rpm, usual"),
    ("grinder", 7226 * FOOT_PER_MINUTE, False, "8 in at 3450 rpm: above the generic limit, the wheel's own mark must allow it"),
    ("grinder", 7540 * FOOT_PER_MINUTE, False, "6 in at 4800 rpm: not to be mounted"),
    ("buffer", 7226 * FOOT_PER_MINUTE, True, "8 in at 3450 rpm"),
    ("band-saw", 2.88 * 700 * FOOT_PER_MINUTE, True, "11 in saw's manual: 700 to 1050 rpm, 2.88 ft/min for each"),
    ("band-saw", 2.88 * 1050 * FOOT_PER_MINUTE, False, "its fastest comes to 3024 ft/min, just above the 3000 it allows"),
    ("band-saw", 2827 * FOOT_PER_MINUTE, True, "12 in wheels at 900 rpm"),
    ("metal-band-saw", 255 * FOOT_PER_MINUTE, True, "low-carbon steel 230 to 280 ft/min"),
    ("metal-band-saw", 120 * FOOT_PER_MINUTE, True, "stainless steel"),
    ("drill-press", 840 * pi / 30, True, "1/2 in drill in mild steel"),
    ("drill-press", 1680 * pi / 30, True, "1/4 in drill in mild steel"),
    ("wood-lathe", 1000 * pi / 30, True, "6 in blank by the product rule"),
    ("potters-wheel", 200 * pi / 30, True, "one builder's wheel"),
    ("scroll-saw", 1650 * pi / 30, True, "one maker's saw, 600 to 1650"),
    ("spindle-sander", 1725 * pi / 30, True, "a four-pole motor at 60 Hz"),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "speed", "inside", "why"), USUAL, ids=[f"{row[0]}-{number}" for number, row in enumerate(USUAL)])
def test_windows_hold_what_is_usual_in_the_trade(kind: str, speed: float, inside: bool, why: str) -> None:
    kinds = table("machine_kinds")
    assert (kinds.cell(kind, "low").si * 0.9999 <= speed <= kinds.cell(kind, "high").si * 1.0001) is inside, why


@pytest.mark.parametrize("kind", table("machine_kinds").rows)
def test_every_kind_has_a_danger_a_reason_and_a_basis(kind: str) -> None:
    row = table("machine_kinds").rows[kind]
    assert row["hazard"][0].islower()
    assert min(len(row[name]) for name in ("hazard", "pulls", "basis")) > 8
    assert table("machine_kinds").cell(kind, "parts").si in (1, 3)
    assert table("machine_kinds").cell(kind, "low").si < table("machine_kinds").cell(kind, "high").si
