"""Trills want a free finger; a player's positions are kept; a beginner's long notes are open."""

import pytest
from kit.fingered import COSTS, places, solved, stops
from kit.phrases import phrase
from kit.shorthand import VIOLIN

from bookgen.passage.solve import Solutions, solve
from bookgen.words.speech import ENGLISH

COMMON = "common practice, no source"


def within(text: str, *positions: str) -> Solutions:
    return solve(phrase(text), VIOLIN, COSTS, positions=frozenset(positions))


def told(solutions: Solutions) -> list[tuple[str, str]]:
    return [(bar, ENGLISH.line(problem)) for bar, problem in solutions.best.unplayable]


@pytest.mark.published(COMMON)
@pytest.mark.parametrize("word", ["A4", "E5", "B4@III", "D5+B5@I"])
def test_a_trill_is_never_played_with_the_fourth_finger(word: str) -> None:
    """Between notes below it, where the fourth finger would be the easiest."""
    plain, trilled = (f"G4 F#4 {word}{sign} G4" for sign in ("", "!trill-mark"))

    assert stops(solved(plain).best).split()[2][-1] == "4" or "+" in word
    assert stops(solved(trilled).best).split()[2][-1] != "4"


def test_a_trill_whose_finger_is_given_and_has_none_above_it_is_told() -> None:
    found = solved("B4:4@III!trill-mark A4")

    assert told(found) == [("1", "no finger is free for the trill on B4")]
    assert stops(found.best).startswith("III4")


HIGH = "E5 F#5 G5 A5 B5 A5 G5 F#5 E5 D5 C5 B4"
"""Two octaves up the string, and down: the third position is easier on its own."""


def test_the_players_positions_are_kept_wherever_they_reach() -> None:
    free = "D5:1@II E5:2@II F#5:3@II G5:4@II"

    assert places(within(HIGH, "1st").best) == [2]
    assert told(within(HIGH, "1st")) == []
    assert within(free, "1st").best.unplayable


def test_what_lies_beyond_the_players_positions_is_told_and_played() -> None:
    found = within("A4 B4 | E6 A6", "1st")

    assert told(found) == [
        ("2", "your positions do not reach these notes; the hand leaves them here")
    ]
    assert "-" not in stops(found.best)


def test_another_way_does_not_leave_the_players_positions_either() -> None:
    phrase_of_first = "A4 B4 C#5 D5 E5 F#5 G#5 A5"

    assert within(phrase_of_first, "1st").other is None
    assert within(phrase_of_first, "1st", "3rd", "2nd").other is not None


@pytest.mark.published(COMMON)
def test_a_beginners_long_notes_are_open_unless_a_finger_is_given() -> None:
    assert stops(within("F#4 G4 A4=1/2 G4", "1st").best) == "III2 III3 II0 III3"
    assert stops(within("F#4 G4 A4:4=1/2 G4", "1st").best) == "III2 III3 III4 III3"
    assert stops(within("F#4 G4 A4=1/2 G4", "1st", "3rd").best) == "III2 III3 III4 III3"


@pytest.mark.published(COMMON)
@pytest.mark.parametrize(
    ("text", "expected"),
    [("B4 A4 B4 C#5", "II1 II0 II1 II2"), ("F#4 G4 A4 G4", "III2 III3 III4 III3")],
)
def test_a_short_note_is_open_below_its_neighbours_and_the_fourth_finger_above_them(
    text: str, expected: str
) -> None:
    assert stops(solved(text).best) == expected


@pytest.mark.published(COMMON)
def test_an_earlier_chord_does_not_hold_the_hand_in_half_position() -> None:
    best = solved("F4+C#5 | Eb4 Eb4 Eb4 Eb4 | G4 Ab4 Bb4 C5 | Eb4 D4 Eb4 F4").best

    assert places(best)[-1] == 2
    assert sum(one.hand is not None and one.hand.place == 1 for one in best.placed) <= 1


def test_a_double_stop_wider_than_the_hand_is_told_as_that() -> None:
    assert told(solved("A3+B4")) == []
    assert told(solved("G#3+F5")) == [
        (
            "1",
            (
                "G♯3 and F5 need a hand of 14 half steps on strings side by side,"
                " and it opens to 7; G♯3 is left out"
            ),
        )
    ]
