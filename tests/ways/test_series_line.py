"""A universal motor straight on the line, against an integration in time that shares nothing with the program, and against
what textbooks and builders say of it: it takes the speed that its load leaves it, and without load it runs away.
"""

from math import pi, sqrt

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from buildsheet.circuit import Terminal
from buildsheet.circuit.proofs import prove
from buildsheet.circuit.readings import expected
from buildsheet.packet.fonts import characters
from buildsheet.packet.ink import Ink
from buildsheet.packet.views import checks, power
from buildsheet.packet.views.steps import StepItem
from buildsheet.plan import Plan, plan
from buildsheet.project import read

POLISHER = """buildsheet: 1
machine:
  name: Wax polisher
  number: WP-01
  kind: other
  purpose: turns a felt drum
  speed: 1300..1300 rpm, never above 4500 rpm
  torque: 1.4 N·m
  reach: guarded
  inertia: 0.004 kg·m²
  drawn_by: builder
site: {region: north-america, where: dry shed, ambient: 30 degC, altitude: 200 m, users: household, skill: instructed}
supply: 120 V 60 Hz, 15 A breaker, GFCI, plug
motor:
  kind: series
  plate: 120 V, 3.0 A, 9000 rpm
  held: 2.95 V at 1.0 A, 8.55 V at 3.0 A
  field_winding: 1.10 ohm
  spun_field: 6.40 V at 1000 rpm, 1.5 A
  free_run: 12.0 V, 2330 rpm, 0.90 A
  alternating: 12.0 V 60 Hz, 0.86 A
  inertia: 0.0004 kg·m²
  rotor: 40000 rpm
  rotor_basis: plate
  protector: none
  double_insulated: false
  cooling: own fan
  pulley: key
belts:
  - 25 -> 200 mm, poly-V, centres 260 mm
turning:
  - {part: motor pulley, shaft: motor, diameter: 25 mm, rated: 60 m/s, basis: rim limit of its material}
  - {part: drum pulley, shaft: tool, diameter: 200 mm, rated: 60 m/s, basis: rim limit of its material}
  - {part: felt drum, shaft: tool, rated: 5000 rpm, basis: ran at it in the old machine}
power:
  way: straight-on-line
controls:
  overload: {by: relay}
box: 300 x 300 x 150 mm, steel, sealed
runs: {cord: 2.0 m, motor: 700 mm, panel: 350 mm}
revisions:
  - {rev: A, date: 2026-11-25, note: first issue}
"""


def changed(*changes: tuple[str, str]) -> Plan:
    """The polisher with some of its lines changed; every change must hit."""
    text = POLISHER
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    return plan(read(text, "polisher.yaml", characters()))


@pytest.fixture(scope="module")
def polisher() -> Plan:
    return changed()


def ids(made: Plan) -> set[str]:
    return {finding.id for finding in made.findings}


def integrated(volts: float, k: float, R: float, L: float, U_b: float, omega: float) -> tuple[float, float, float]:
    """RMS and peak current and mean torque at a speed, over the last of thirty periods: torque is k·i², back-EMF k·ω·i."""
    period = 1 / 60

    def slope(t: float, i: np.ndarray) -> np.ndarray:
        return (sqrt(2) * volts * np.sin(2 * pi * 60 * t) - (R + k * omega) * i - U_b * np.tanh(i / 0.01)) / L

    made = solve_ivp(slope, (0, 30 * period), [0.0], max_step=period / 400, rtol=1e-7)
    last = made.t > 29 * period
    t, i = made.t[last], made.y[0][last]
    square = float(np.trapezoid(i**2, t) / (t[-1] - t[0]))
    return sqrt(square), float(np.abs(i).max()), k * square


def test_the_current_at_its_speed_is_that_of_the_integration(polisher: Plan) -> None:
    values, point = polisher.design.sheet.values, polisher.design.point("high")
    assert point is not None
    k, R, L, U_b, own = (float(values[key]) for key in ("motor.k", "motor.R_hot", "motor.L_a", "motor.U_b", "motor.T_0"))

    rms, peak, torque = integrated(120.0, k, R, L, U_b, float(point.omega))

    assert float(point.rms) == pytest.approx(rms, rel=0.01)
    assert float(point.peak) == pytest.approx(peak, rel=0.02)  # type: ignore[arg-type]
    assert torque == pytest.approx(float(point.torque) + own, rel=0.02)


def test_with_the_rotor_held_its_impedance_alone_holds_the_current_back(polisher: Plan) -> None:
    """The bench: 12.0 V at 60 Hz pushed 0.86 A through it, so 132 V push eleven times as much, its iron aside."""
    start = polisher.design.motor.at_start  # type: ignore[union-attr]

    assert start == pytest.approx(0.86 * 132 / 12.0, rel=0.01)


def test_the_less_work_the_faster_up_to_its_runaway(polisher: Plan) -> None:
    light = changed(("torque: 1.4 N·m", "torque: 0.7 N·m"))
    speed, faster = (made.design.point("high").omega for made in (polisher, light))  # type: ignore[union-attr]
    bare = polisher.design.runaway
    assert bare is not None
    values = polisher.design.sheet.values
    k, R, L, U_b, own = (float(values[key]) for key in ("motor.k", "motor.R_a", "motor.L_a", "motor.U_b", "motor.T_0"))

    assert speed < faster < bare
    assert integrated(132.0, k, R, L, U_b, float(bare))[2] == pytest.approx(own, rel=0.02)


def test_field_and_armature_lie_in_a_row_and_read_so(polisher: Plan) -> None:
    """Winding 2.80 ohm in all, of which 1.10 ohm are the field's; both ends of the motor's circuit at the contactor."""
    circuit = polisher.circuit
    assert circuit is not None
    ends = {wire.number: {str(wire.a), str(wire.b)} for wire in circuit.wires}
    field = expected(circuit, Terminal("M1", "D1"), Terminal("M1", "D2"), {})
    both = expected(circuit, Terminal("Q2", "2"), Terminal("Q2", "4"), {})

    assert {"M1:D1"} < ends[403]
    assert ends[410] == {"M1:D2", "M1:A1"}
    assert {"M1:A2"} < ends[404]
    assert field.low <= 1.10 <= field.high
    assert both.low <= 2.80 <= both.high
    assert prove(circuit) == ()
    rows = next(group for group in checks.all_groups(circuit, "ground") if group.name == "Motor").rows
    assert rows[0].hands == "turn the shaft slowly"


def test_it_is_never_started_with_nothing_coupled(polisher: Plan) -> None:
    items = list(power.items(polisher, Ink()))
    texts = [item.action if isinstance(item, StepItem) else getattr(item, "text", "") for item in items]
    coupled = next(n for n, text in enumerate(texts) if "Lay the belt on" in text)
    starts = [n for n, text in enumerate(texts) if "press start" in text and "elease the emergency stop" in text]

    assert starts
    assert min(starts) > coupled
    assert any("runs away" in text for text in texts[:coupled])


def test_its_coast_counts_from_the_speed_that_it_may_reach(polisher: Plan) -> None:
    """Nothing but its load holds its speed: J·ω/T_0 from the runaway, inertia 0.0004 + 0.004/8² kg·m², T_0 = k·0.90²."""
    k, bare = 6.40 / (1.5 * 1000 * 2 * pi / 60), polisher.design.runaway
    assert bare is not None

    assert polisher.design.coast == pytest.approx((0.0004 + 0.004 / 64) * float(bare) / (k * 0.90**2), rel=1e-3)


@pytest.mark.parametrize(
    ("name", "changes"),
    [
        ("runaway-motor-rotor", [("rotor: 40000 rpm", "rotor: 12000 rpm")]),
        ("one-speed-only", [("1300..1300 rpm", "700..1300 rpm")]),
        ("speed-by-belts", [("1300..1300 rpm", "900..900 rpm")]),
        ("no-speed-on-line", [("12.0 V 60 Hz, 0.86 A", "119 V 60 Hz, 0.86 A")]),  # 323 V over its coils at 2.34 A: it can't turn
        ("no-overload", [("controls:\n  overload: {by: relay}\n", "")]),
        ("no-operating-point", [("  kind: series", "  kind: magnet-dc"), ("  field_winding: 1.10 ohm\n", ""), ("  spun_field: 6.40 V at 1000 rpm, 1.5 A\n", "")]),
    ],
)
def test_each_danger_stops(name: str, changes: list[tuple[str, str]]) -> None:
    made = changed(*changes)
    told = {one: finding for finding in made.findings for one in (finding.id, *finding.follows)}

    assert name in told, sorted(told)
    assert told[name].grade == "stop"
    assert made.state == "draft"


def test_the_polisher_itself_may_be_built(polisher: Plan) -> None:
    assert polisher.state == "for building"
    assert {"runs-away-unloaded", "line-voltage"} <= ids(polisher)
