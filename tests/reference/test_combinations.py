"""The table of what may stand behind what, against physics stated here on its own: what a thing gives, what it needs."""

from itertools import product

import pytest

from buildsheet.reference import MissingRow, table
from tests import matrix

TABLE = table("combinations")
PAIRS = {key: tuple(key.split(" > ")) for key in TABLE.rows}

# Textbooks on electrical machines and power electronics: a transformer, an induction motor and a thyristor that must go
# out need a current that passes zero; these things give direct current.
GIVE_DIRECT = {"battery", "unprotected lithium pack", "bridge", "chopper", "supply unit"}
GIVE_LINE = {"line", "transformer", "variable autotransformer", "rewound transformer"}
NEED_ALTERNATING = {"transformer", "variable autotransformer", "phase control", "triac", "brush-tool speed box"}
INDUCTION = {"split-phase motor", "capacitor-start motor", "capacitor-run motor", "three-phase motor", "fan motor"}
CHANGE_VOLTS_ONLY = {"triac", "variable autotransformer", "brush-tool speed box"}
MOTORS = INDUCTION | {"magnet motor", "shunt motor", "series motor"}
THINGS = (
    GIVE_DIRECT | GIVE_LINE | NEED_ALTERNATING | MOTORS
    | {"half-wave rectifier", "inverter", "magnet-motor drive", "capacitor", "choke"}
    | {"contactor", "reversing switch", "no load", "belt alone", "split field"}
)  # fmt: skip

# Stops that every bench knows, each pair written out by hand.
STOPS = (
    "phase control > capacitor",
    "triac > capacitor",
    "half-wave rectifier > transformer",
    "half-wave rectifier > variable autotransformer",
    "transformer > half-wave rectifier",
    "battery > transformer",
    "battery > supply unit",
    "supply unit > magnet motor",
    "inverter > capacitor",
    "inverter > contactor",
    "inverter > reversing switch",
    "triac > split-phase motor",
    "variable autotransformer > capacitor-run motor",
    "triac > rewound transformer",
    "magnet-motor drive > split field",
    "line > magnet motor",
    "triac > magnet motor",
    "unprotected lithium pack > chopper",
    "series motor > no load",
    "series motor > belt alone",
    "battery > three-phase motor",
    "triac > capacitor-start motor",
    "inverter > capacitor-run motor",
    "capacitor > brush-tool speed box",
    "line > three-phase motor",
)
# And what is built every day.
LEGAL = (
    "line > bridge", "line > supply unit", "supply unit > chopper", "bridge > capacitor", "capacitor > inverter", "inverter > three-phase motor", "line > phase control",
    "phase control > magnet motor", "battery > chopper", "chopper > magnet motor", "line > capacitor-run motor",
    "triac > series motor", "triac > fan motor", "transformer > bridge", "magnet-motor drive > series motor",
)  # fmt: skip


def _verdict(pair: str) -> str:
    return TABLE.rows[pair]["verdict"]


@pytest.mark.parametrize("pair", STOPS)
def test_what_must_not_be_built_is_a_stop(pair: str) -> None:
    assert _verdict(pair) == "stop"


@pytest.mark.parametrize("pair", LEGAL)
def test_what_is_built_every_day_is_legal(pair: str) -> None:
    assert _verdict(pair) == "legal"


@pytest.mark.parametrize("pair", PAIRS)
def test_row_speaks_in_full(pair: str) -> None:
    """Two known things; a reason, something to do instead or to keep, and a source or the word that there is none."""
    row = TABLE.rows[pair]

    assert len(PAIRS[pair]) == 2
    assert set(PAIRS[pair]) <= THINGS
    assert row["verdict"] in ("legal", "stop")
    assert len(row["reason"].split()) >= 4
    assert len(row["instead"].split()) >= 2
    assert any(word in row["basis"] for word in ("textbooks", "makers' manuals", "common practice", "IEC", "reference"))


def test_direct_current_never_meets_what_needs_alternating() -> None:
    """Every such pair is in the table, and stops."""
    for ahead, behind in product(GIVE_DIRECT, NEED_ALTERNATING):
        assert _verdict(f"{ahead} > {behind}") == "stop", (ahead, behind)


@pytest.mark.parametrize("motor", sorted(INDUCTION))
def test_an_induction_motor_gets_alternating_current_and_its_own_frequency(motor: str) -> None:
    """No direct current, of whatever source; volts alone set the speed of a fan at most; an inverter turns three phases."""
    for ahead in (*GIVE_DIRECT, "half-wave rectifier", "phase control", "magnet-motor drive", "capacitor"):
        assert _verdict(f"{ahead} > {motor}") == "stop"
    for ahead in CHANGE_VOLTS_ONLY - {"brush-tool speed box"}:
        assert _verdict(f"{ahead} > {motor}") == ("legal" if motor == "fan motor" else "stop")
    assert _verdict(f"inverter > {motor}") == ("legal" if motor == "three-phase motor" else "stop")


def test_a_magnet_motor_never_gets_alternating_current() -> None:
    for ahead in ("line", "transformer", "variable autotransformer", "triac", "brush-tool speed box", "inverter"):
        assert _verdict(f"{ahead} > magnet motor") == "stop"


def test_a_wave_in_steps_never_meets_a_capacitor() -> None:
    """Phase control and inverters close onto it, whichever kind."""
    for ahead in ("phase control", "triac", "brush-tool speed box", "inverter"):
        assert _verdict(f"{ahead} > capacitor") == "stop"


def test_a_series_motor_without_load_has_no_legal_row() -> None:
    """It is the one stop of which the load is the subject; every legal feeding of it says that the load must stay."""
    fed = [key for key, (_, behind) in PAIRS.items() if behind == "series motor" and _verdict(key) == "legal"]

    assert len(fed) >= 5
    for key in fed:
        assert "load that can't come off" in TABLE.rows[key]["instead"]


@pytest.mark.parametrize("motor", sorted(MOTORS))
def test_every_motor_has_a_way_to_be_fed(motor: str) -> None:
    assert any(behind == motor and _verdict(key) == "legal" for key, (_, behind) in PAIRS.items())


def test_what_is_not_in_the_table_is_no_answer() -> None:
    """A pair that nobody has judged raises, so that a design can stop."""
    with pytest.raises(MissingRow, match='has no row "three-phase motor > line"'):
        TABLE.cell("three-phase motor > line", "verdict")


def test_developers_md_prints_the_matrix_as_it_is() -> None:
    """`python tests/matrix.py` writes it."""
    text = matrix.PAGE.read_text(encoding="utf-8")

    assert matrix.page(text) == text
    assert "| battery |" in text
