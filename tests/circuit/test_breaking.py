"""Every demonstration's circuit broken in every way that applies: the right proof catches it, and the sound one has none.

What each proof asks is in IEC 60204-1 (order and isolation 5.3, excess current 7.2, unexpected start 7.5, emergency
stop 10.7, protective conductor 8.2, stored energy 6.2.4), from memory; the ways to break it are facts of the trade.
"""

import pytest

from buildsheet.circuit import Circuit
from buildsheet.circuit.proofs import PROOFS, prove
from tests.circuit.breaking import BREAKINGS, Breaking
from tests.circuit.machines import circuit
from tests.circuit.small import SMALL
from tests.demos import DEMOS

CIRCUITS: dict[str, Circuit] = {"small": SMALL, **{name: circuit(name) for name in DEMOS}}
CASES = [
    pytest.param(one, name, broken, id=f"{name}: {one.words}")
    for name in DEMOS
    for one in BREAKINGS
    if (broken := one.of(CIRCUITS[name])) is not None
]


@pytest.mark.parametrize("name", CIRCUITS)
def test_the_sound_circuit_breaks_nothing(name: str) -> None:
    assert prove(CIRCUITS[name]) == ()
    if name == "yarn-twister":
        assert prove(CIRCUITS[name], pole_may_swap=True) == ()


@pytest.mark.parametrize(("one", "name", "broken"), CASES)
def test_each_way_to_break_it_is_caught_by_its_proof(one: Breaking, name: str, broken: Circuit) -> None:
    """The proof that the way is about is among those that fail."""
    del name
    assert one.proof in {breach.proof for breach in prove(broken)}


def test_there_are_more_than_forty_ways_and_each_applies_somewhere() -> None:
    """And every proof on the list is the one that catches some way."""
    applied = {case.values[0].words for case in CASES}  # type: ignore[union-attr]

    assert applied == {one.words for one in BREAKINGS}
    assert len(applied) > 40
    assert {one.proof for one in BREAKINGS} == set(PROOFS)
