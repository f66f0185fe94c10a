"""A soft start: by hand, and against an integration in time of motor, resistor and relay. Where it does nothing or harm, the
program says so (facts of the trade, common practice, no source).
"""


from math import sqrt

import pytest
from scipy.integrate import solve_ivp

from buildsheet.circuit.proofs import prove
from buildsheet.packet.html import html
from buildsheet.plan import Plan, plan
from buildsheet.project import load, read
from tests.demos import PROJECTS
from tests.ways.test_series_line import POLISHER, integrated

STIRRER = PROJECTS / "plaster-stirrer/plaster-stirrer.yaml"
ASKED = "  overload: {by: relay}\n"


def soft(name: str) -> Plan:
    """A demonstration, with a soft start asked for."""
    text = (PROJECTS / name / f"{name}.yaml").read_text(encoding="utf-8")
    assert ASKED in text
    return plan(read(text.replace(ASKED, f"{ASKED}  soft_start: true\n"), f"{name}.yaml"))


@pytest.fixture(scope="module")
def stirrer() -> Plan:
    return plan(load(STIRRER))


@pytest.fixture(scope="module")
def mixer() -> Plan:
    return soft("ink-mixer")


def number(made: Plan, id: str) -> float:
    return float(made.design.sheet.values[id])


def test_the_stirrer_by_hand(stirrer: Plan) -> None:
    """Held at 3 and 10 A: R = (3.00 − 1.46)/7 = 0.22 ohm, U_b = 0.80 V; its battery 8 mΩ, a full one 14.4 V;
    twice the plate's 14 A. (14.4 − 0.8)/28 − 0.228 = 0.258 ohm; the next of E6 is 0.47 ohm: 13.6/0.698 = 19.5 A."""
    assert number(stirrer, "R5.R_m") == pytest.approx((14.4 - 0.8) / 28.0 - 0.228, rel=1e-6)
    assert number(stirrer, "R5.R") == 0.47
    assert number(stirrer, "R5.I_1") == pytest.approx(13.6 / 0.698, rel=1e-6)


def test_behind_a_transformer_the_resistor_lies_on_the_line_s_side(mixer: Plan) -> None:
    """A resistance goes with the square of the turns: as the motor feels it R·(V_2/V_1)²."""
    ratio = number(mixer, "T2.V_open") / 230.0
    assert number(mixer, "R5.R_f") == pytest.approx(number(mixer, "R5.R") * ratio**2, rel=1e-9)
    assert number(mixer, "R5.R_f") >= number(mixer, "R5.R_m")
    assert number(mixer, "R5.I_1") <= 2 * 6.0


def stepped(made: Plan, load: float) -> tuple[float, float, float]:
    """Share of its settled speed that the motor has when the timer ends, the current just after, and the heat in the resistor (of
    what the motor feels) until then: Euler steps of a ten-thousandth of the time constant. `load` is the work's current."""
    volts = 14.4 - 0.8  # a full battery, less the brushes
    K, R, Rs, J = number(made, "motor.K_e"), number(made, "R5.R_1"), number(made, "R5.R"), number(made, "coast.J")
    step = number(made, "R5.tau") / 1e4
    omega = heat = time = 0.0
    while time < number(made, "K4.t_need"):
        current = (volts - K * omega) / (R + Rs)
        omega = max(0.0, omega + K * (current - load) / J * step)
        heat += current * current * Rs * step
        time += step
    settled = (volts - load * (R + Rs)) / K
    return omega / settled, (volts - K * omega) / R, heat


def test_when_the_timer_ends_the_run_up_is_done(stirrer: Plan) -> None:
    """Idle: three time constants, so that a twentieth is left (own choice)."""
    share, _, _ = stepped(stirrer, 0.0)
    assert share == pytest.approx(0.95, abs=1e-3)


def test_bridging_and_heat_with_the_work_on_agree_with_stepping_in_time(stirrer: Plan) -> None:
    """The formulas take the run-up as finished, which it is to a twentieth: current within that, heat not below the stepped."""
    load = float(stirrer.design.points[-1].current)
    _, current, heat = stepped(stirrer, load)
    left = 0.05 * (number(stirrer, "R5.I_1") - load) * (1 + 0.47 / number(stirrer, "R5.R_1"))
    assert current == pytest.approx(number(stirrer, "R5.I_2") + left, rel=0.01)
    assert heat == pytest.approx(number(stirrer, "R5.W"), rel=0.06)
    assert number(stirrer, "R5.W") >= heat


def test_its_fuses_carry_the_soft_start_and_no_more_than_the_hard_one(stirrer: Plan) -> None:
    text = STIRRER.read_text(encoding="utf-8").replace("  soft_start: true\n", "")
    hard = plan(read(text, "stirrer.yaml"))
    assert stirrer.design.sizes is not None
    assert hard.design.sizes is not None
    assert float(stirrer.design.sizes.line_fuse) <= float(hard.design.sizes.line_fuse)
    assert hard.circuit is not None
    assert "R5" not in hard.circuit.devices


@pytest.mark.parametrize("name", ["polisher", "mixer"])
def test_it_goes_with_a_machine_that_runs_both_ways(name: str) -> None:
    """The standstill timer hangs ahead of the start resistor, and its proofs hold as ever."""
    text = POLISHER if name == "polisher" else (PROJECTS / "ink-mixer/ink-mixer.yaml").read_text(encoding="utf-8")
    reach = next(line for line in text.splitlines() if line.startswith("  reach:"))
    made = plan(read(text.replace(ASKED, f"{ASKED}  soft_start: true\n").replace(reach, f"{reach}\n  reverse: true"), f"{name}.yaml"))
    assert made.circuit is not None
    assert {"K1", "K4", "K5", "S5"} <= set(made.circuit.devices)
    assert prove(made.circuit) == ()
    assert made.state == "for building"


@pytest.mark.parametrize("name", ["stirrer", "mixer"])
def test_it_is_sound_and_the_paper_tells_of_it(name: str, request: pytest.FixtureRequest) -> None:
    made: Plan = request.getfixturevalue(name)
    assert made.state == "for building"
    assert made.circuit is not None
    assert prove(made.circuit) == ()
    paper = html(made)
    for words in ("Start resistor", "Run-up timer K4", "click of K5", "keeps the first current to"):
        assert words in paper


@pytest.mark.parametrize(
    ("name", "id", "stops"),
    [
        ("strip-sander", "soft-start-needless", False),  # a drive's ramp does it
        ("stone-tumbler", "soft-start-of-induction-motor", True),
        ("seed-coater", "soft-start-needless", False),
        ("drum-polisher", "soft-start-needless", False),
    ],
)
def test_where_it_is_no_help_it_is_left_out_with_a_word(name: str, id: str, stops: bool) -> None:
    made = soft(name)
    found = next(finding for finding in made.findings if finding.id == id)
    assert found.stops == stops
    assert made.circuit is None or "R5" not in made.circuit.devices


def test_more_work_than_it_starts_with_is_told(mixer: Plan) -> None:
    """By hand: work's current times the resistance with the resistor over that without is more than twice the plate's."""
    assert number(mixer, "R5.I_2") > 2 * 6.0
    assert "soft-start-loaded" in {finding.id for finding in mixer.findings}


def test_a_stronger_source_resistance_needs_no_resistor() -> None:
    text = STIRRER.read_text(encoding="utf-8").replace("plate: 24 V, 14 A", "plate: 24 V, 60 A").replace(", 250 W", "")
    made = plan(read(text, "stirrer.yaml"))
    assert "soft-start-needless" in {finding.id for finding in made.findings}


@pytest.fixture(scope="module")
def polisher() -> Plan:
    """A universal motor straight on the line."""
    assert ASKED in POLISHER
    return plan(read(POLISHER.replace(ASKED, f"{ASKED}  soft_start: true\n"), "polisher.yaml"))


def test_a_universal_motor_is_kept_to_twice_its_plate_by_hand(polisher: Plan) -> None:
    """Held on 12.0 V 60 Hz 0.86 A: Z = 13.95 ohm, R = (8.55 − 2.95)/2 = 2.80 ohm, so X = 13.67 ohm. Twice 3.0 A on 132 V are 22 ohm:
    √(22² − 13.67²) − 2.80 = 14.4 ohm, the next of E6 15 ohm."""
    assert number(polisher, "R5.R_need") == pytest.approx(sqrt(22.0**2 - ((12.0 / 0.86) ** 2 - 2.80**2)) - 2.80, rel=1e-3)
    assert number(polisher, "R5.R") == 15.0


def test_its_first_current_is_that_of_an_integration_in_time(polisher: Plan) -> None:
    """Full sine, winding and brushes, nothing turning; the brushes' drop, which the formula leaves out, set to nothing."""
    rms, _, _ = integrated(132.0, 0.0, number(polisher, "R5.R_1"), number(polisher, "motor.L_a"), 0.0, 0.0)
    assert number(polisher, "R5.I_1") == pytest.approx(rms, rel=0.01)


def test_its_run_up_and_heat_agree_with_an_integration_over_time(polisher: Plan) -> None:
    k, J, R, X, T = (number(polisher, name) for name in ("motor.k", "coast.J", "R5.R_2", "motor.X", "R5.T"))
    speed = number(polisher, "R5.omega")

    def slope(t: float, y: list[float]) -> tuple[float, float]:
        square = 120.0**2 / ((R + k * y[0]) ** 2 + X**2)
        return (k * square - T) / J, 15.0 * square

    def there(t: float, y: list[float]) -> float:
        return y[0] - speed

    there.terminal = True  # type: ignore[attr-defined]
    made = solve_ivp(slope, (0.0, 60.0), [0.0, 0.0], events=there, rtol=1e-8, atol=1e-9)
    assert number(polisher, "K4.t_need") == pytest.approx(float(made.t[-1]), rel=1e-4)
    assert number(polisher, "R5.W") == pytest.approx(float(made.y[1][-1]), rel=1e-4)


def test_the_universal_motor_starts_first_with_its_work_and_is_listened_to(polisher: Plan) -> None:
    assert polisher.state == "for building"
    assert polisher.circuit is not None
    assert prove(polisher.circuit) == ()
    paper = html(polisher)
    assert paper.index("Put all guards back on") < paper.index("click of K5")
