"""How the ear's proofs are said."""

import pytest
from kit.shorthand import VIOLIN

from bookgen.model.drill import Drill
from bookgen.model.ear import pure_stops
from bookgen.model.music import play
from bookgen.model.tuned import left_over
from bookgen.words.ear import cents_line, ear_proof, tune_line
from bookgen.words.speech import ENGLISH


@pytest.mark.published("common practice, no source")
@pytest.mark.parametrize(
    ("key", "said"),
    [
        (
            "12-whole-place2-strings43-stage1-low-same",
            "<b>Ear</b> A3, finger 1 on IV, is in tune when open A rings along.",
        ),
        (
            "12-whole-place2-strings21-stage1-low-same",
            (
                "<b>Ear</b> B4, finger 1 on II: bow it with open E, until the two are at rest"
                " (perfect fourth)."
            ),
        ),
        (
            "12-half-place1-strings43-stage1-low-same",
            "<b>Ear</b> A3, finger 2 on IV, is in tune when open A rings along.",
        ),
    ],
)
def test_a_note_is_proven_by_the_open_string_that_is_easiest_to_hear(key: str, said: str) -> None:
    notes = [event.notes[0] for event in play(Drill.parse_key(f"violin-{key}"), VIOLIN)]

    assert ear_proof(notes, VIOLIN, ENGLISH) == said


def test_a_note_that_nothing_proves_is_sung_from_its_own_string() -> None:
    drill = Drill.parse_key("violin-12-half-place1-strings43-stage1-low-same")
    (first, *_) = play(drill, VIOLIN)

    assert ear_proof(first.notes, VIOLIN, ENGLISH) == (
        "<b>Ear</b> Play open G (IV), sing G♯3 above it (minor second), then play it: finger 1 on"
        " the same string."
    )


@pytest.mark.published("Helmholtz, On the Sensations of Tone, appendix XX, section D")
def test_pure_sixths_lie_16_cents_narrower_and_14_wider() -> None:
    major = Drill.parse_key("violin-12-whole-place2-strings43-stage5-low-same")
    minor = Drill.parse_key("violin-12-half-place2-strings43-stage5-low-same")

    told = [cents_line(pure_stops(play(one, VIOLIN), VIOLIN), ENGLISH) for one in (major, minor)]
    assert "pure major sixth A3–F♯4: 16 cents narrower, D3 147 Hz" in told[0]  # noqa: RUF001
    assert "pure minor sixth" in told[1]
    assert "14 cents wider" in told[1]


@pytest.mark.published("the syntonic comma, 81/80: a fourth 4/3 against a sixth 5/3 (computed)")
def test_a_note_that_cannot_be_pure_with_both_is_tuned_to_the_fourth() -> None:
    drill = Drill.parse_key("violin-12-whole-place2-strings4321-stage5-low-same")
    (left,) = left_over(play(drill, VIOLIN), VIOLIN)

    assert tune_line(left, ENGLISH, cents=False) == (
        "<b>Tune</b> F♯4 to B4 (perfect fourth); the major sixth A3–F♯4 is then a little wide."  # noqa: RUF001
    )
    assert "is then 22 cents wider than pure." in tune_line(left, ENGLISH, cents=True)


def test_an_octave_is_no_cents_narrower() -> None:
    key = "violin-1234-whole.half.whole-place2-strings4321-stage5-order1423-same"
    told = cents_line(pure_stops(play(Drill.parse_key(key), VIOLIN), VIOLIN), ENGLISH)

    assert "pure octave A3–A4: no wider, A3 220 Hz" in told  # noqa: RUF001
