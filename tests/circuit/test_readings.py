"""What a meter shows, against an independent solution: the pseudo-inverse of the network's Laplacian matrix.

R between two nodes is L⁺aa + L⁺bb − 2·L⁺ab (resistance distance, graph theory textbooks). Ideal joins are found here by
a search of its own, so that nothing of the package's contraction or elimination is used.
"""

from collections.abc import Iterable
from itertools import combinations
from math import inf

import numpy as np
import pytest

from buildsheet.circuit import Circuit, Contact, Device, Diode, Electronics, Fuse, Link, Resistance, Terminal
from buildsheet.circuit.readings import expected, span
from tests.circuit.sander import sander
from tests.circuit.small import SMALL, terminal, wire, without

Edge = tuple[int, int, float]


def resistance(edges: Iterable[Edge], size: int, a: int, b: int) -> float:
    """Ohms between nodes a and b of a connected network."""
    laplacian = np.zeros((size, size))
    for i, j, ohms in edges:
        if i != j:
            laplacian[i, i] += 1 / ohms
            laplacian[j, j] += 1 / ohms
            laplacian[i, j] -= 1 / ohms
            laplacian[j, i] -= 1 / ohms
    inverse = np.linalg.pinv(laplacian)
    return float(inverse[a, a] + inverse[b, b] - 2 * inverse[a, b])


def by_hand(
    circuit: Circuit, red: str, black: str, positions: dict[str, str], off: frozenset[str], part: str
) -> float:
    """The reading from the netlist by the independent way; `part` is "low" or "high"; infinite when open."""
    at = {**{d.code: d.positions[0] for d in circuit.devices.values() if d.positions}, **positions}
    groups: list[set[str]] = [{f"{d.code}:{name}"} for d in circuit.devices.values() for name in d.terminals]
    joined = [(str(w.a), str(w.b)) for w in circuit.wires if not {w.a.device, w.b.device} & off]
    edges = []
    for device in circuit.devices.values():
        for inside in device.inside:
            if isinstance(inside, Link | Fuse) or (
                isinstance(inside, Contact) and at[device.code] in inside.closed_in
            ):
                joined.append((f"{device.code}:{inside.a}", f"{device.code}:{inside.b}"))
            elif isinstance(inside, Resistance) and inside.position in ("", at.get(device.code)):
                ohms = getattr(inside, part)
                if ohms == 0:
                    joined.append((f"{device.code}:{inside.a}", f"{device.code}:{inside.b}"))
                else:
                    edges.append((f"{device.code}:{inside.a}", f"{device.code}:{inside.b}", ohms))
    for a, b in joined:
        touching = [group for group in groups if a in group or b in group]
        groups = [group for group in groups if group not in touching] + [set().union(*touching)]
    node = {name: index for index, group in enumerate(groups) for name in group}
    network = [(node[a], node[b], ohms) for a, b, ohms in edges]
    seen = {node[red]}
    while more := {j for i, j, _ in network if i in seen} | {i for i, j, _ in network if j in seen}:
        if more <= seen:
            break
        seen |= more
    if node[black] not in seen:
        return inf
    index = {name: place for place, name in enumerate(sorted(seen))}
    local = [(index[i], index[j], ohms) for i, j, ohms in network if i in seen]
    return resistance(local, len(seen), index[node[red]], index[node[black]]) if local else 0.0


def test_the_independent_way_knows_series_and_parallel() -> None:
    """3 and 6 ohm side by side are 2; 2 and 3 in a row are 5; a balanced bridge of 1 ohm is 1."""
    assert resistance([(0, 1, 3.0), (0, 1, 6.0)], 2, 0, 1) == pytest.approx(2.0)
    assert resistance([(0, 1, 2.0), (1, 2, 3.0)], 3, 0, 2) == pytest.approx(5.0)
    bridge = [(0, 1, 1.0), (0, 2, 1.0), (1, 3, 1.0), (2, 3, 1.0), (1, 2, 1.0)]
    assert resistance(bridge, 4, 0, 3) == pytest.approx(1.0)


def network(seed: int) -> tuple[Circuit, list[Edge], list[Edge], int]:
    """A random connected network of resistors as devices and wires, with the same as numbers, low and high."""
    random = np.random.default_rng(seed)
    size = int(random.integers(3, 9))
    pairs = [(int(random.integers(0, node)), node) for node in range(1, size)]
    pairs += [(int(a), int(b)) for a, b in random.integers(0, size, (size, 2)) if a != b]
    devices: dict[str, Device] = {}
    low, high, ends = [], [], []
    for number, (a, b) in enumerate(pairs):
        least = float(10 ** random.uniform(-1, 4))
        most = least * float(random.uniform(1, 3))
        devices[f"R{number}"] = Device(
            f"R{number}", "resistor", "", "", ("1", "2"), (Resistance("1", "2", least, most),)
        )
        low.append((a, b, least))
        high.append((a, b, most))
        ends += [(a, f"R{number}:1"), (b, f"R{number}:2")]
    devices["N"] = Device("N", "nodes", "", "", tuple(str(node) for node in range(size)))
    wires = tuple(wire(number, f"N:{node}", end) for number, (node, end) in enumerate(ends, 1))
    return Circuit(devices, wires, 0.0, 0.0), low, high, size


@pytest.mark.parametrize("seed", range(25))
def test_random_networks_agree(seed: int) -> None:
    """Every pair of nodes, least and greatest; double precision allows 1e-9, six decades of ohms cost 1e-7."""
    circuit, low, high, size = network(seed)
    for a, b in combinations(range(size), 2):
        reading = expected(circuit, Terminal("N", str(a)), Terminal("N", str(b)), {})

        assert reading.kind == "value"
        assert reading.low == pytest.approx(resistance(low, size, a, b), rel=1e-7)
        assert reading.high == pytest.approx(resistance(high, size, a, b), rel=1e-7)
        assert reading.low <= reading.high


PROBES = [
    ("X1:L", "X1:N", {"Q1": "on"}),
    ("X1:L", "X1:N", {"Q1": "on", "S2": "pressed"}),
    ("X1:L", "X1:N", {"Q1": "on", "Q2": "in"}),
    ("F1:2", "Q2:A2", {"S2": "pressed"}),
    ("Q2:A1", "Q2:A2", {}),
    ("Q2:2", "Q2:4", {}),
    ("M1:A1", "M1:A2", {}),
    ("F2:1", "M1:A2", {}),
    ("F2:1", "F3:2", {}),
    ("S4:1", "S4:2", {"S4": "slow"}),
    ("S4:2", "S4:3", {"S4": "slow"}),
    ("S4:1", "S4:2", {"S4": "fast"}),
    ("S4:1", "S4:3", {"S4": "slow"}),
    ("S4:1", "S4:3", {"S4": "fast"}),
    ("X1:L", "X1:PE", {"Q1": "on", "Q2": "in"}),
    ("M1:A1", "M1:frame", {}),
]


@pytest.mark.parametrize(("red", "black", "positions"), PROBES)
def test_readings_of_the_sander_with_the_drive_taken_off(
    red: str, black: str, positions: dict[str, str]
) -> None:
    """The drive's wires off, as a meter asks for; probes over line, chain, motor lead and knob."""
    off = frozenset({"T1"})
    reading = expected(sander(), terminal(red), terminal(black), positions, off=off)

    assert reading.low == pytest.approx(
        by_hand(sander(), red, black, positions, off, "low"), rel=1e-6, abs=1e-5
    )
    assert reading.high == pytest.approx(
        by_hand(sander(), red, black, positions, off, "high"), rel=1e-6, abs=1e-5
    )


def test_the_whole_potentiometer_reads_its_marked_value_at_either_end() -> None:
    """5 kohm within a tenth, from end to end, wherever the wiper stands."""
    for position in ("slow", "fast"):
        reading = expected(
            sander(), terminal("S4:1"), terminal("S4:3"), {"S4": position}, off=frozenset({"T1"})
        )

        assert [reading.low, reading.high] == pytest.approx([4500.0, 5500.0], rel=0.02)


def test_kinds_of_readings_of_the_small_circuit() -> None:
    """By hand from its drawing."""
    joined = expected(SMALL, terminal("X1:PE"), terminal("M1:frame"), {}, joined=0.7)
    open_at_rest = expected(SMALL, terminal("X1:L"), terminal("X1:N"), {})
    coil = expected(SMALL, terminal("X1:L"), terminal("X1:N"), {"Q1": "on", "S2": "pressed"})
    motor = expected(SMALL, terminal("M1:A1"), terminal("M1:A2"), {})

    assert (joined.kind, joined.low, joined.high) == ("near zero", 0.0, 0.7)
    assert (open_at_rest.kind, open_at_rest.low, open_at_rest.high) == ("open", inf, inf)
    assert coil.kind == motor.kind == "value"
    assert [coil.low, coil.high, motor.low, motor.high] == pytest.approx([300.0, 400.0, 1.0, 2.0])
    assert list(span((coil, motor))) == pytest.approx([1.0, 400.0])


def test_coil_and_motor_side_by_side() -> None:
    """Contactor pushed in by hand with the start pressed: 300 ∥ 1 to 400 ∥ 2 ohm."""
    reading = expected(SMALL, terminal("X1:L"), terminal("X1:N"), {"Q1": "on", "Q2": "in", "S2": "pressed"})

    assert reading.low == pytest.approx(300 * 1 / 301)
    assert reading.high == pytest.approx(400 * 2 / 402)


BOARD = Circuit(
    {
        "T1": Device("T1", "drive", "", "", ("L", "N", "P"), (Electronics(("L", "N", "P")),)),
        "R1": Device("R1", "resistor", "", "", ("1", "2"), (Resistance("1", "2", 100.0, 110.0),)),
        "R2": Device("R2", "resistor", "", "", ("1", "2"), (Resistance("1", "2", 5.0, 6.0),)),
    },
    (wire(1, "R1:1", "T1:L"), wire(2, "R1:2", "T1:N")),
    0.0,
    0.0,
)


def test_through_electronics_no_figure_is_foretold() -> None:
    """Across a resistor with a drive beside it the meter's figure is written down, not judged."""
    reading = expected(BOARD, terminal("R1:1"), terminal("R1:2"), {})

    assert (reading.kind, reading.low, reading.high) == ("record", 0.0, inf)


def test_with_the_wires_of_the_drive_off_the_resistor_is_read() -> None:
    reading = expected(BOARD, terminal("R1:1"), terminal("R1:2"), {}, off=frozenset({"T1"}))

    assert reading.kind == "value"
    assert [reading.low, reading.high] == pytest.approx([100.0, 110.0])


def test_with_its_own_wires_off_a_part_is_read_though_the_drive_is_on() -> None:
    """A motor with its leads off is a motor alone."""
    alone = expected(BOARD, terminal("R1:1"), terminal("R1:2"), {}, off=frozenset({"R1"}))
    motor = expected(sander(), terminal("M1:A1"), terminal("M1:A2"), {}, off=frozenset({"M1"}))

    assert alone.kind == motor.kind == "value"
    assert alone.low == pytest.approx(100.0)


def test_a_part_that_no_electronics_touch_is_read_as_it_is() -> None:
    assert expected(BOARD, terminal("R2:1"), terminal("R2:2"), {}).kind == "value"
    assert expected(BOARD, terminal("R1:1"), terminal("R2:1"), {}).kind == "open"


def test_the_sander_with_its_drive_on_is_written_down() -> None:
    """Between the drive's output leads with everything wired."""
    assert expected(sander(), terminal("M1:A1"), terminal("M1:A2"), {}).kind == "record"
    assert expected(sander(), terminal("X1:PE"), terminal("M1:frame"), {}).kind == "near zero"


def _with_diode(*, way: tuple[str, str]) -> Circuit:
    """A lamp of 10 ohm from red to black, and beside it a diode with a 100 ohm resistor."""
    devices = {
        "A": Device("A", "terminal", "", "", ("1",)),
        "B": Device("B", "terminal", "", "", ("1",)),
        "H1": Device("H1", "lamp", "", "", ("1", "2"), (Resistance("1", "2", 10.0, 10.0),)),
        "D1": Device("D1", "diode", "", "", ("A", "K"), (Diode(*way),)),
        "R1": Device("R1", "resistor", "", "", ("1", "2"), (Resistance("1", "2", 100.0, 100.0),)),
    }
    ends = (("A:1", "H1:1"), ("H1:2", "B:1"), ("A:1", "D1:A"), ("D1:K", "R1:1"), ("R1:2", "B:1"))
    wires = tuple(wire(100 + number, a, b) for number, (a, b) in enumerate(ends))
    return Circuit(devices, wires, 100.0, None)


def test_a_diode_that_the_meter_opens_leaves_no_figure_and_one_that_blocks_leaves_the_rest() -> None:
    """The meter's red tip is its plus (facts of the trade): anode on red conducts, cathode on red blocks."""
    opened = expected(_with_diode(way=("A", "K")), Terminal("A", "1"), Terminal("B", "1"), {})
    blocked = expected(_with_diode(way=("K", "A")), Terminal("A", "1"), Terminal("B", "1"), {})

    assert opened.kind == "record"
    assert blocked.kind == "value"
    assert blocked.low == pytest.approx(10.0)


def test_a_diode_alone_between_the_tips() -> None:
    made = without(_with_diode(way=("A", "K")), 100)
    forward = expected(made, Terminal("A", "1"), Terminal("B", "1"), {})
    backward = expected(made, Terminal("B", "1"), Terminal("A", "1"), {})

    assert (forward.kind, backward.kind) == ("record", "open")
