"""Netlist and contraction: what is refused, what is one node in which positions, what current can reach."""

from dataclasses import replace

import pytest

from buildsheet.circuit import Circuit, Resistance, Terminal
from buildsheet.circuit.builder import Board, Conductor
from buildsheet.circuit.contraction import all_positions, contract, path_to, pulled_in, reached
from buildsheet.circuit.netlist import Device
from tests.circuit.small import DEVICES, SMALL, WIRES, adding, terminal, wire, with_device, without

REST = SMALL.rest
RUNNING = {**REST, "Q1": "on", "Q2": "in"}


def test_a_wire_number_is_used_once() -> None:
    with pytest.raises(ValueError, match="wire number 104 is used twice"):
        adding(SMALL, wire(104, "M1:A1", "M1:A2"))


def test_two_terminals_are_joined_by_one_wire() -> None:
    """Either way round: wires are known by their ends."""
    with pytest.raises(ValueError, match="wire 150 joins Q2:1 and F1:2, as another does"):
        adding(SMALL, wire(150, "Q2:1", "F1:2"))


def test_a_wire_to_a_terminal_that_is_not_there_is_refused() -> None:
    with pytest.raises(ValueError, match="wire 150 goes to F1:3, which is not there"):
        adding(SMALL, wire(150, "F1:3", "Q2:1"))
    with pytest.raises(ValueError, match="wire 150 goes to F9:1, which is not there"):
        adding(SMALL, wire(150, "Q2:1", "F9:1"))


def test_a_wire_that_ends_where_it_begins_is_refused() -> None:
    with pytest.raises(ValueError, match="wire 150 begins and ends at Q2:1"):
        adding(SMALL, wire(150, "Q2:1", "Q2:1"))


def test_a_circuit_without_a_source_says_so() -> None:
    bare = replace(
        SMALL, devices={code: one for code, one in DEVICES.items() if code != "X1"}, wires=WIRES[2:9]
    )

    with pytest.raises(LookupError, match="no source"):
        _ = bare.source


def test_switches_rest_in_their_first_position() -> None:
    assert REST == {"Q1": "off", "Q2": "out", "S1": "free", "S2": "free"}


def test_wires_at_a_terminal() -> None:
    assert [one.number for one in SMALL.at(terminal("F1:2"))] == [104, 201]
    assert SMALL.wires[0].stage == 1
    assert SMALL.wires[0].key == (terminal("Q1:1"), terminal("X1:L"))


@pytest.mark.parametrize(
    ("a", "b", "positions", "same"),
    [
        ("X1:L", "Q1:1", {}, True),  # a wire
        ("X1:L", "Q1:2", {}, False),  # an open switch
        ("X1:L", "Q1:2", {"Q1": "on"}, True),
        ("X1:L", "F1:2", {"Q1": "on"}, True),  # through the fuse
        ("X1:L", "M1:A1", {"Q1": "on"}, False),  # the contactor is out
        ("X1:L", "M1:A1", {"Q1": "on", "Q2": "in"}, True),
        ("M1:A1", "M1:A2", {"Q1": "on", "Q2": "in"}, False),  # a load is no join
        ("S1:11", "S1:12", {}, True),  # closed at rest
        ("S1:11", "S1:12", {"S1": "pressed"}, False),
        ("X2:1", "M1:frame", {}, True),  # through the bar
    ],
)  # fmt: skip
def test_what_is_one_node(a: str, b: str, positions: dict[str, str], same: bool) -> None:
    """By hand from the drawing above the small circuit."""
    nodes = contract(SMALL, {**REST, **positions})

    assert nodes.same(terminal(a), terminal(b)) is same


def test_a_blown_fuse_and_a_device_taken_off_join_nothing() -> None:
    assert not contract(SMALL, RUNNING, blown=frozenset({"F1"})).same(terminal("F1:1"), terminal("F1:2"))
    off = contract(SMALL, RUNNING, off=frozenset({"M1"}))
    assert not off.same(terminal("Q2:2"), terminal("M1:A1"))
    assert off.same(terminal("Q2:2"), terminal("X1:L"))


def test_current_reaches_through_a_load_and_finds_its_way_back() -> None:
    """Running, the pole reaches the other through motor and coil, and every step of the path is a neighbour."""
    found = reached(SMALL, RUNNING, terminal("X1:L"))

    assert terminal("X1:N") in found
    assert terminal("M1:frame") not in found
    path = [str(one) for one in path_to(found, terminal("M1:A2"))]
    assert path[0] == "X1:L"
    assert path[-2:] == ["M1:A1", "M1:A2"]


def test_with_wires_off_nothing_is_reached_through_them() -> None:
    found = reached(SMALL, RUNNING, terminal("M1:A1"), off=frozenset({"M1"}))

    assert set(found) == {terminal("M1:A1"), terminal("M1:A2")}


def test_positions_are_those_that_can_happen() -> None:
    """2 × 2 × 2 positions of disconnect, emergency stop and start with the contactor out; it is in only while its coil
    is fed: disconnect on, stop free, and then whether start is pressed or not, since it holds itself."""
    positions = list(all_positions(SMALL))
    pulled = [at for at in positions if at["Q2"] == "in"]

    assert len(positions) == 2 * 2 * 2 + 2
    assert all(at["Q1"] == "on" and at["S1"] == "free" for at in pulled)
    assert {at["S2"] for at in pulled} == {"free", "pressed"}


def test_a_coil_that_is_fed_pulls_in() -> None:
    """Start pressed with the disconnect on; not with it off, and not while nobody presses."""
    assert pulled_in(SMALL, {**REST, "Q1": "on", "S2": "pressed"})["Q2"] == "in"
    assert pulled_in(SMALL, {**REST, "Q1": "off", "S2": "pressed"})["Q2"] == "out"
    assert pulled_in(SMALL, {**REST, "Q1": "on"})["Q2"] == "out"


def test_one_contactor_pulls_the_next() -> None:
    """A second coil fed through the first one's contact follows it."""
    coil = Resistance("A1", "A2", 300.0, 400.0)
    second = Device("Q3", "contactor", "Second", "", ("A1", "A2"), (coil,), ("out", "in"), coil=("A1", "A2"))
    chain = Circuit(
        {**DEVICES, "Q3": second}, (*WIRES, wire(301, "Q2:2", "Q3:A1"), wire(302, "Q2:4", "Q3:A2")), 600.0, 15.0
    )  # fmt: skip

    assert pulled_in(chain, {**chain.rest, "Q1": "on", "S2": "pressed"})["Q3"] == "in"
    assert pulled_in(chain, {**chain.rest, "Q1": "on"})["Q3"] == "out"


def test_board_numbers_and_names_devices_once() -> None:
    """What a stage adds; a code is taken once, a length is that of the run, a role of the cord is one of the circuit."""
    board = Board({"cord-line": Conductor("14 AWG", 15.0, ("BK", "BN"), "line")}, {"cord": 2.5})
    for code in ("X1", "Q1"):
        board.add(DEVICES[code])
    board.wire(101, "X1:L", "Q1:1", "cord-line", "cord", cable="W1")
    with pytest.raises(ValueError, match="X1 is already there"):
        board.add(DEVICES["X1"])

    made = board.circuit(600.0, 15.0).wires[0]

    assert (made.role, made.colour, made.length, made.ampacity, made.cable) == ("line", "BK", 2.5, 15.0, "W1")
    assert made.a == Terminal("X1", "L")


def test_terminals_that_fall_off_leave_the_rest_alone() -> None:
    """Contracting a circuit with a wire less parts what that wire joined, and nothing else."""
    parted = contract(without(SMALL, 104), RUNNING)

    assert not parted.same(terminal("F1:2"), terminal("Q2:1"))
    assert parted.same(terminal("F1:2"), terminal("S1:11"))
    assert with_device(SMALL, "F1", trips_at=5.0).devices["F1"].trips_at == 5.0
