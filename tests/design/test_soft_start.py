"""A soft start: by hand, and against an integration in time of motor, resistor and relay. Where it does nothing or harm, the
program says so (facts of the trade, common practice, no source).
"""


import pytest

from buildsheet.circuit.proofs import prove
from buildsheet.packet.html import html
from buildsheet.plan import Plan, plan
from buildsheet.project import load, read
from tests.demos import PROJECTS

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
    """Held at 3 and 10 A: R = (3.00 − 1.46)/7 = 0.22 ohm, U_b = 0.80 V; battery and leads 5 mΩ at the least, a full one 14.4 V;
    twice the plate's 14 A. (14.4 − 0.8)/28 − 0.225 = 0.261 ohm; the next of E6 is 0.47 ohm: 13.6/0.695 = 19.6 A."""
    assert number(stirrer, "R5.R_m") == pytest.approx((14.4 - 0.8) / 28.0 - 0.225, rel=1e-6)
    assert number(stirrer, "R5.R") == 0.47
    assert number(stirrer, "R5.I_1") == pytest.approx(13.6 / 0.695, rel=1e-6)


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
