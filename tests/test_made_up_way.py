"""A way of powering is one module and one name in the union: a made-up one is read, planned and printed, and nothing else
of the package was written for it.
"""

import io
from math import pi
from pathlib import Path
from typing import Annotated, Any, Union

import pypdf
import pytest
from pydantic import Field, create_model

from buildsheet.given.problems import ProjectError
from buildsheet.given.write import write
from buildsheet.packet.fonts import characters
from buildsheet.packet.html import html
from buildsheet.packet.pdf import write_pdf
from buildsheet.packet.words import check_json, check_text
from buildsheet.plan import Plan, plan
from buildsheet.project import Project, load, read, ways
from tests.given.files import SANDER, facts
from tests.made_up_way import BenchSupply

ROOT = Path(__file__).resolve().parents[1]
POWER = """\
power:
  way: bench-supply
  line_voltage: 120 V
  output_high: 95 V
  output_failed: 110 V
  efficiency: 80 %
  power_factor: 0.9
  drop: 1.0 V
  rated: 10 A
  rated_bare: 6 A
  cooled_by: fan
  potentiometer: 5 kohm
  reference: 10 V
  current_limit: 4.5 A
  starts_from_zero: true
  open_low_end: stops
  hottest_air: 50 degC
"""
union: Any = Annotated[Union[*ways().values(), BenchSupply], Field(discriminator="way")]
Extended = create_model(
    "Extended",
    __base__=Project,
    power=(union | None, Field(None, description="How it is powered.")),
)


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The strip sander, on a bench supply."""
    before, _, rest = SANDER.read_text(encoding="utf-8").partition("power:\n  way:")
    _, _, after = rest.partition("\ncontrols:\n")
    assert before, after
    path = tmp_path_factory.mktemp("made-up") / "sander.yaml"
    path.write_text(f"{before}{POWER}controls:\n{after}", encoding="utf-8")
    return path


@pytest.fixture(scope="module")
def made(file: Path) -> Plan:
    return plan(load(file, characters(), model=Extended))


def test_its_file_reads_and_comes_back(file: Path) -> None:
    project = load(file, model=Extended)
    assert type(project.power).__name__ == BenchSupply.__name__
    assert facts(read(write(project), "m.yaml", model=Extended)) == facts(project)


def test_its_words_and_keys_are_suggested_only_where_it_is_known(file: Path) -> None:
    text = file.read_text(encoding="utf-8")
    with pytest.raises(ProjectError) as unknown:
        read(text, "m.yaml")
    with pytest.raises(ProjectError) as misspelt:
        read(text.replace("efficiency:", "eficiency:"), "m.yaml", model=Extended)
    assert [problem.code for problem in unknown.value.problems] == ["unknown-word"]
    assert [(problem.code, problem.instead) for problem in misspelt.value.problems] == [
        ("unknown-key", "write efficiency: instead")
    ]


def test_it_plans_to_a_machine_for_building(made: Plan) -> None:
    assert made.state == "for building", check_text(made, everything=True)
    assert made.circuit is not None
    assert made.circuit.wires
    assert made.questions == ()


def test_the_current_is_smooth_to_everything_behind_it(made: Plan) -> None:
    """Average, RMS and peak of a steady current are one, and its form factor is 1, by their definitions."""
    assert len(made.design.points) == 2
    for point in made.design.points:
        assert float(point.form_factor) == 1.0
        assert float(point.rms) == float(point.peak) == float(point.current) > 0.0


def test_where_the_knob_stands_is_what_the_hand_formula_says(made: Plan) -> None:
    for point in made.design.points:
        volts = float(point.terminal) + 1.0  # and the supply's own drop
        assert float(point.setting) == pytest.approx(volts / 95.0, rel=1e-12)


def test_runaway_is_what_the_failed_supply_gives(made: Plan) -> None:
    """By hand: K_e = 46.9 V at 1000 rpm; R = (6.2 − 3.2)/2 = 1.5 ohm; U_b = 3.2 − 1.5 = 1.7 V; so at 0.48 A without load
    110 V turn it at (110 − 0.72 − 1.7)/0.0469 rpm."""
    assert made.design.runaway is not None
    assert float(made.design.runaway) * 30 / pi == pytest.approx((110 - 0.72 - 1.7) / 0.0469, rel=1e-9)


def test_its_packet_prints_with_its_own_words(made: Plan) -> None:
    """`write_pdf` raises on any complaint of the engine."""
    page = html(made)
    pdf = write_pdf(page, title="t", author="a", created="2026-11-25")
    text = "".join(sheet.extract_text() for sheet in pypdf.PdfReader(io.BytesIO(pdf)).pages)
    assert "Bench supply" in text
    assert "turn of the supply’s knob" in text.replace("'", "’")
    assert check_json(made, "sander.yaml")["results"]


@pytest.mark.parametrize("room", ["design", "rules", "packet", "plan"])
def test_no_room_above_the_ways_names_one(room: str) -> None:
    """They read facts that a way publishes. A line to paste may name one as an example."""
    for path in sorted((ROOT / "buildsheet" / room).rglob("*.py")):
        text = path.read_text(encoding="utf-8")
        for word, model in ways().items():
            assert model.__name__ not in text, path
            assert f'"{word}"' not in text, path


def test_no_template_names_one() -> None:
    for path in sorted((ROOT / "templates").rglob("*.j2")):
        text = path.read_text(encoding="utf-8")
        assert not [word for word in ways() if word in text], path
