"""What a message says to type instead: close words only, never a dangerous guess, else the words that are allowed."""

import pytest

from buildsheet.given.problems import near, not_known
from buildsheet.quantities import read
from buildsheet.units import KELVIN
from tests.given.files import problem, reads

DC = "motor: {kind: magnet-dc, "
WAY = "power: {way: phase-controlled-drive, "


@pytest.mark.parametrize(
    ("text", "instead"),
    [
        (DC + "protector: manual rest}", 'write "manual reset"'),
        ("site: {skill: skiled}", 'write "skilled"'),
        ("site: {where: Dry Shed}", 'write "dry shed"'),
        ("machine: {kind: belt sander}", 'write "belt-sander"'),
        ("power: {way: phase-controled-drive}", 'write "phase-controlled-drive"'),
        ("supply: 120 V, plugg", 'write "plug"'),
        ("motr: {}", "write motor: instead"),
    ],
)
def test_a_close_word_is_suggested(text: str, instead: str) -> None:
    """One or two letters off, or other capitals and hyphens."""
    assert problem(text + "\n").instead == instead


# What was written, what must not be handed out for it, and the words that must be named.
GUESSES = [
    (DC + "protector: nonee}", "none", ("none", "manual reset", "self-resetting")),
    (DC + "protector: one}", "none", ("manual reset",)),
    ("on_hand: ['potentiometer, 5 kohm, log']", "plug", ("linear", "audio")),
    ("site: {users: employees}", "builder alone", ("builder alone", "household", "club")),
    ("site: {skill: unskilled}", "skilled", ("skilled", "instructed", "lay")),
    ("machine: {reach: unguarded}", "guarded", ("guarded", "within reach")),
    ("on_hand: ['cord, 13 AWG']", "AWG", ("12 AWG", "14 AWG")),
    ("on_hand: [{kind: contactor, poles: 4-pole}]", "pole", ("2-pole", "3-pole")),
    ("on_hand: [{kind: contactor, category: AC-2}]", "AC-", ("AC-1", "AC-3")),
    (WAY + "separation: insulated}", "galvanic", ("none", "galvanic")),
]


@pytest.mark.parametrize(("text", "never", "words"), GUESSES, ids=[guess[0] for guess in GUESSES])
def test_no_guess_is_handed_out(text: str, never: str, words: tuple[str, ...]) -> None:
    """A protection, a skill, a size or a number of poles that nobody wrote; the allowed words are named instead."""
    found = problem(text + "\n")
    assert never not in found.instead
    assert all(word in found.wanted for word in words)


@pytest.mark.parametrize("word", ["unknown", "Unknown", "'?'", "'??'", "not known", "tbd", "n/a"])
@pytest.mark.parametrize(
    "text",
    [
        DC + "protector: {}}}", WAY + "separation: {}}}", WAY + "starts_from_zero: {}}}", "site: {{ambient: {}}}", "site: {{where: {}}}",
        "supply: {{breaker: {}}}",
    ],
)  # fmt: skip
def test_a_word_for_not_known_says_to_leave_the_key_out(text: str, word: str) -> None:
    """Words, flags and quantities alike; and the file without the key reads."""
    filled = text.replace("{}", word, 1).replace("{{", "{").replace("}}", "}")
    assert problem(filled + "\n").instead.startswith("leave the key out")
    key = filled.rpartition("{")[2].rpartition(", ")[2].split(":")[0]
    reads(filled.replace(f"{key}: {word}", "").replace(", }", "}") + "\n")


@pytest.mark.parametrize("text", ["supply: 120 V 60 Hz, unknown", "on_hand: ['fuse, 8 A, tbd']", "supply: 120 V, ?"])
def test_the_same_in_a_short_form(text: str) -> None:
    assert problem(text + "\n").instead.startswith("leave it out")


def test_a_key_that_must_be_there_can_not_be_left_out() -> None:
    assert "leave" not in problem("motor: {kind: unknown}\n").instead


@pytest.mark.parametrize(
    ("text", "instead"),
    [
        ("on_hand: ['fuse, 8 A 600 V, 10 kA']", 'write "breaks 10 kA"'),
        ("on_hand: ['fuse, 10 kA, 8 A']", 'write "breaks 10 kA"'),
        ("on_hand: ['contactor, 20 A 250 V, 120 V']", 'write "coil 120 V"'),
        ("supply: 120 V, 15 A", 'write "15 A breaker"'),
        ("supply: 120 V, 500 A", 'write "500 A fault"'),
        ("machine: {speed: 8-15 m/s}", 'write "8..15 m/s"'),
        ("machine: {speed: 8 – 15 m/s}", 'write "8..15 m/s"'),
        ("machine: {speed: 8 to 15 m/s}", 'write "8..15 m/s"'),
        ("machine: {speed: '8..15 m/s, never above 20-25 m/s'}", 'write one quantity, such as "20 m/s"'),
        (DC + "plate: 90-100 V}", 'write one quantity, such as "90 V"'),
        ("belts: ['1-1/2 in, V']", 'write "1 1/2 in"'),
        ("site: {ambient: 35 F}", 'write "35 degF"'),
        ("site: {ambient: 35C}", 'write "35 degC"'),
        ("site: {ambient: 95 deg F}", 'write "95 degF"'),
    ],
)
def test_what_was_nearly_right_is_put_right(text: str, instead: str) -> None:
    assert problem(text + "\n").instead == instead


def test_what_a_hint_says_reads() -> None:
    """The hints above, typed in: a breaking capacity, a range, a mixed number, a temperature (95 degF is 35 degC exactly)."""
    part = reads("on_hand: ['fuse, 8 A 600 V, breaks 10 kA']\n").on_hand[0]
    assert (float(part.current), float(part.breaking)) == (8.0, 10_000.0)
    speed = reads("machine: {speed: 8..15 m/s}\n").machine
    assert speed is not None
    assert speed.speed is not None
    assert (float(speed.speed.low), float(speed.speed.high)) == (8.0, 15.0)
    assert float(reads("belts: ['1 1/2 in, V']\n").belts[0].driver) == pytest.approx(0.0381)
    assert read("95 degF", KELVIN) == pytest.approx(308.15)


@pytest.mark.parametrize("word", ["", "known", "none", "no", "plug", "?x"])
def test_other_words_do_not_mean_unknown(word: str) -> None:
    assert not not_known(word)


def test_nothing_near_is_nothing() -> None:
    assert near("relay", ["cord", "plug"]) == []
    assert near("none", ["none", "galvanic"]) == ["none"]
