"""What of a sound can be played, and the one line for what cannot."""

import pytest
from kit.fingered import BASS
from kit.phrases import phrase
from kit.refusing import said
from kit.shorthand import VIOLIN

from bookgen.model.instrument import Instrument
from bookgen.passage.event import events_of
from bookgen.passage.placement import Poses
from bookgen.passage.playable import Playable, numeral, playable
from bookgen.passage.shape import Shape


def found(text: str, instrument: Instrument = VIOLIN) -> Playable:
    """What can be played of the last event."""
    return playable(events_of(phrase(text))[-1], Poses(Shape(instrument)))


def test_what_can_be_played_is_kept_as_it_is() -> None:
    whole = found("E4:1+C#5")

    assert (whole.kept, whole.told) == ((0, 1), ())
    assert {pose.stops[0].finger for pose in whole.poses} == {1}


@pytest.mark.parametrize(
    ("text", "kept", "told"),
    [
        ("F3", (), ["F3 lies below the lowest string, G3"]),
        ("F7", (), ["F7 lies 25 semitones above string I; the last stop is 24"]),
        ("G3+A3", (1,), ["no hand on the violin takes G3 and A3 together; G3 is left out"]),
        ("F3+D4", (1,), ["F3 lies below the lowest string, G3"]),
        (
            "G3+A3+B3",
            (2,),
            [
                "no hand on the violin takes G3, A3 and B3 together; G3 is left out",
                "no hand on the violin takes G3, A3 and B3 together; A3 is left out",
            ],
        ),
    ],
)
def test_what_cannot_is_left_out_and_told(
    text: str, kept: tuple[int, ...], told: list[str]
) -> None:
    some = found(text)

    assert some.kept == kept
    assert said(some.told) == told
    assert bool(some.poses) == bool(kept)


def test_left_out_notes_have_no_stop() -> None:
    some = found("G3+A3")

    assert some.spread(some.poses[0].stops) == (None, some.poses[0].stops[0])


def test_marks_that_cannot_be_are_told_and_dropped() -> None:
    free = found("G#3:3@IV+D4")

    assert said(free.told) == [
        "G♯3 cannot be played as given on the violin (finger 3 and string IV); solved without",
    ]
    assert free.kept == (0, 1)


def test_a_harmonic_that_no_string_has_is_stopped() -> None:
    stopped = found("G#4:o")

    assert said(stopped.told) == [
        "G♯4 cannot be played as given on the violin (harmonic); solved without",
    ]
    assert not any(pose.touched for pose in stopped.poses)


def test_a_chord_past_the_hand_of_the_bass_keeps_its_upper_note() -> None:
    assert found("A2+C3", BASS).kept == (0, 1)
    assert found("E2+C#4", BASS).kept == (1,)


def test_ties_hold_over_what_is_played_of_both_sounds() -> None:
    first, then = (
        playable(event, Poses(Shape(VIOLIN))) for event in events_of(phrase("E4+C5 ~E4+D5"))
    )

    assert then.ties(first) == ((0, 0),)


def test_a_tie_into_what_is_left_out_is_none() -> None:
    first, then = (
        playable(event, Poses(Shape(VIOLIN))) for event in events_of(phrase("G3+A3 ~G3+B3"))
    )

    assert first.kept == (1,)
    assert then.ties(first) == ()


def test_strings_are_told_as_numerals_also_those_that_are_not_there() -> None:
    assert [numeral(string) for string in (1, 4, 0, 9)] == ["I", "IV", "0", "9"]
