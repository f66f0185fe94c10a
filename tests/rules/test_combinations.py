"""What does not go together is a stop that says why and what would go together; a lithium pack needs its board.

The verdicts are the matrix's, which is checked against rules stated apart (tests/reference/test_combinations.py).
"""

from pathlib import Path

import pytest

from buildsheet.plan import Plan, plan
from buildsheet.project import load, read
from buildsheet.reference import table
from buildsheet.rules.combinations import chain

PROJECTS = Path(__file__).resolve().parents[2] / "projects"
CLEANER = (PROJECTS / "seed-cleaner/seed-cleaner.yaml").read_text(encoding="utf-8")
DEMOS = {
    "drum-polisher": ("line", "brush-tool speed box", "series motor"),
    "felt-roller": ("line", "supply unit", "chopper", "magnet motor"),
    "strip-sander": ("line", "phase control", "magnet motor"),
    "grain-crusher": ("line", "magnet-motor drive", "choke", "magnet motor"),
    "edge-burnisher": ("line", "variable autotransformer", "bridge", "capacitor", "magnet motor"),
    "ink-mixer": ("line", "rewound transformer", "bridge", "magnet motor"),
    "root-washer": ("battery", "chopper", "magnet motor"),
    "seed-coater": ("line", "brush-tool speed box", "bridge", "magnet motor"),
    "plaster-stirrer": ("battery", "magnet motor"),
    "pulp-beater": ("line", "magnet-motor drive", "magnet motor"),
    "bobbin-winder": ("line", "magnet-motor drive", "magnet motor"),
    "stone-tumbler": ("line", "capacitor-run motor"),
    "clay-mixer": ("line", "inverter", "three-phase motor"),
    "compost-sieve": ("line", "capacitor-start motor"),
    "flax-breaker": ("line", "phase control", "shunt motor"),
    "seed-cleaner": ("battery", "chopper", "series motor"),
}


def lithium(protection: str) -> Plan:
    line = next(line for line in CLEANER.splitlines() if line.startswith("battery:"))
    return plan(read(CLEANER.replace(line, f"battery: 25.6 V, 40 Ah, lithium-iron-phosphate, 20 mohm{protection}"), "cleaner.yaml"))


@pytest.mark.parametrize(("name", "links"), DEMOS.items(), ids=DEMOS)
def test_the_chain_of_each_demonstration_is_legal(name: str, links: tuple[str, ...]) -> None:
    made = plan(load(PROJECTS / name / f"{name}.yaml"))

    assert chain(made.design) == links
    assert not [finding for finding in made.findings if finding.id.startswith("together-")]


@pytest.mark.parametrize("protection", ["", ", no protection board"])
def test_a_lithium_pack_without_its_board_is_a_stop(protection: str) -> None:
    """Facts of the trade: nothing ends its discharge, charge or short. Not said counts as not there."""
    found = [finding for finding in lithium(protection).findings if finding.id.startswith("together-unprotected")]

    assert len(found) == 1
    assert found[0].stops
    assert "protection board" in found[0].do


def test_with_its_board_it_may_be_used() -> None:
    assert not [finding for finding in lithium(", protection board").findings if finding.id.startswith("together-")]


def test_a_pair_that_is_never_built_says_why_and_what_instead() -> None:
    """Every stop of the matrix has a reason and something instead, one sentence each."""
    for pair, row in table("combinations").rows.items():
        if row["verdict"] == "stop":
            assert row["reason"], pair
            assert row["instead"], pair
