"""Every reading that sheet 8 of a demonstration asks for, against the independent solution of tests/circuit/test_readings.py:
the pseudo-inverse of the network's Laplacian, with ideal joins found by a search of its own. Rows that ask for a diode's drop, a rising reading or a record have no ohms
to compare, and are passed over.
"""

from math import inf

import pytest

from buildsheet.circuit.readings import expected
from buildsheet.packet.views.asking import Asker
from buildsheet.packet.views.checks import SECTIONS
from tests.circuit.machines import circuit
from tests.circuit.test_readings import by_hand
from tests.demos import DEMOS


@pytest.mark.parametrize("name", DEMOS)
def test_every_row_agrees_with_the_independent_solution(name: str) -> None:
    """Open where it is infinite, near zero where it is nothing, else both ends of the band to a part in a million."""
    made = circuit(name)
    asker = Asker(made, "earth")
    for section in SECTIONS:
        section(asker)
    kinds = set()
    for one in asker.asked:
        reading = expected(made, one.red, one.black, one.at, off=one.off, joined=asker.joined)
        kinds.add(reading.kind)
        if reading.kind in ("record", "diode drop", "rising"):
            continue
        low, high = (by_hand(made, str(one.red), str(one.black), dict(one.at), one.off, part) for part in ("low", "high"))
        where = f"{one.red} to {one.black} at {one.at}"
        if reading.kind == "open":
            assert low == high == inf, where
        elif reading.kind == "near zero":
            assert high == 0.0, where
        else:
            assert reading.low == pytest.approx(low, rel=1e-6, abs=2e-6), where  # a wiper at its end is a microhm here
            assert reading.high == pytest.approx(high, rel=1e-6, abs=2e-6), where

    assert {"open", "near zero", "value"} <= kinds
    assert len(asker.asked) > 25
