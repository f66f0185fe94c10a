"""A drive board kept from the motor's own machine, and the choke that belongs to it."""

from pathlib import Path

import pytest

from buildsheet.circuit.proofs import prove
from buildsheet.plan import Plan, plan
from buildsheet.project import load, read
from buildsheet.waveforms import HALF_CONTROLLED_BRIDGE, Source, firing_angle_for

CRUSHER = Path(__file__).resolve().parents[2] / "projects/grain-crusher/grain-crusher.yaml"
TEXT = CRUSHER.read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def crusher() -> Plan:
    return plan(load(CRUSHER))


def changed(*pairs: tuple[str, str]) -> Plan:
    text = TEXT
    for old, new in pairs:
        assert old in text, old
        text = text.replace(old, new, 1)
    return plan(read(text, "crusher.yaml"))


def test_the_choke_lies_in_a_row_with_the_armature(crusher: Plan) -> None:
    """By hand: resistances and inductances in a row add up; the waveform is that of both together."""
    values, point = crusher.design.sheet.values, crusher.design.point("high")
    assert point is not None
    R, L = float(values["motor.R_hot"]) + 0.30, float(values["motor.L_a"]) + 0.012
    wave = firing_angle_for(
        HALF_CONTROLLED_BRIDGE, Source(120.0, 60.0, drop=float(values["high.U_path"])), R, L, float(point.emf), float(point.current)
    )

    assert values["motor.R_loop"] == pytest.approx(R)
    assert float(point.form_factor) == pytest.approx(wave.form_factor, rel=1e-9)


def test_a_choke_lowers_form_factor_and_heat_and_nothing_else_is_gained(crusher: Plan) -> None:
    """A DC-drive catalogue's form-factor page: unfiltered about 1.37 and more, filtered less; torque goes with the average
    current, which stays; heat goes with the square of the form factor."""
    bare = changed(("  choke: 12 mH, 0.30 ohm, 10 A\n", ""), ("  - choke, 12 mH, 10 A, salvaged\n", ""))
    with_it, without = crusher.design.point("high"), bare.design.point("high")
    assert with_it is not None
    assert without is not None

    assert float(with_it.current) == pytest.approx(float(without.current))
    assert float(with_it.form_factor) < float(without.form_factor) - 0.1
    assert float(with_it.rms) < float(without.rms)


def test_it_is_wired_between_fuse_and_relay_and_read(crusher: Plan) -> None:
    circuit = crusher.circuit
    assert circuit is not None
    ends = {wire.number: (str(wire.a), str(wire.b)) for wire in circuit.wires}

    assert ends[411] == ("F2:2", "L1:1")
    assert ends[402] == ("L1:2", "F3:1")
    assert prove(circuit) == ()
    assert crusher.state == "for building"


@pytest.mark.parametrize(
    ("pairs", "finding"),
    [
        ((("  choke: kept\n", "  choke: left behind\n"), ("  choke: 12 mH, 0.30 ohm, 10 A\n", ""), ("  - choke, 12 mH, 10 A, salvaged\n", "")), "left-behind-choke"),
        ((("  choke: 12 mH, 0.30 ohm, 10 A\n", ""), ("  - choke, 12 mH, 10 A, salvaged\n", "")), "choke-not-wired"),
        ((("  harness: kept\n", "  harness: left behind\n"),), "left-behind-harness"),
        ((("  transformer: it had none\n", ""),), "kept-transformer-unknown"),
        ((("  old_current: 8.0 A\n", "  old_current: 14 A\n"), ("  current_limit: 8.0 A\n", "")), "limit-of-old-motor"),
    ],
)
def test_what_a_kept_board_lacks_is_told(pairs: tuple[tuple[str, str], ...], finding: str) -> None:
    """Facts of the trade (threads on boards of exercise machines): the choke is taken for a transformer and dropped; the
    limit belongs to the old motor."""
    assert finding in {one.id for one in changed(*pairs).findings}


def test_a_choke_too_small_for_the_current_is_not_seated() -> None:
    made = changed(("  - choke, 12 mH, 10 A, salvaged\n", "  - choke, 12 mH, 3 A, salvaged\n"))
    seat = next(seat for seat in made.design.seats if seat.place.id == "choke")

    assert seat.verdict == "does not fit"
