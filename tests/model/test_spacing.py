"""Spacings and the frames that fingers make."""

from itertools import product

import pytest
from kit.refusing import refused
from kit.shorthand import SPACINGS, frame
from kit.sources import published, published_words

from bookgen.model.spacing import Frame, Spacing

PLACES = published("double_stops", "place")
SCALE_STEPS = published_words("frames_in_scales", "steps")
SCALE_FRAMES = published_words("frames_in_scales", "frames")


@pytest.mark.parametrize("spacing", Spacing)
def test_a_word_reads_back_as_its_spacing(spacing: Spacing) -> None:
    assert Spacing.parse(spacing.word) is spacing


def test_an_unknown_word_is_answered_with_the_known_ones() -> None:
    with refused("'broad' is no spacing; the spacings are half, whole, "):
        Spacing.parse("broad")


@pytest.mark.published(PLACES.title)
@pytest.mark.parametrize(("finger_of_frame", "semitones"), PLACES.values.items())
def test_where_a_finger_of_the_eight_frames_stands(finger_of_frame: str, semitones: float) -> None:
    name, finger = finger_of_frame.split()

    assert frame(name).offset(int(finger)) == semitones
    assert frame(name).letters(int(finger)) == int(finger) - 1


def test_span_is_where_the_highest_finger_stands() -> None:
    assert frame("WHW").span == 5
    assert Frame((1, 3), (Spacing.MAJOR_THIRD,)).span == 4
    assert Frame((1, 2, 4), (Spacing.WHOLE, Spacing.MINOR_THIRD)).letters(4) == 3


def lies_in(scale: list[int], hand: Frame) -> bool:
    """Four neighbouring degrees, somewhere in the scale, that the four fingers stop."""
    degrees = [sum(scale[:index]) for index in range(len(scale))]
    notes = [octave + degree for octave in (0, 12) for degree in degrees]
    wanted = [hand.offset(finger) for finger in hand.fingers]
    return any(
        [note - notes[start] for note in notes[start : start + 4]] == wanted
        for start in range(len(scale))
    )


@pytest.mark.published(SCALE_FRAMES.title)
@pytest.mark.parametrize("name", SCALE_FRAMES.values)
def test_the_frames_that_a_scale_needs(name: str) -> None:
    scale = [SPACINGS[step].semitones for step in SCALE_STEPS.values[name].split()]
    found = {
        "".join(way) for way in product("HWA", repeat=3) if lies_in(list(scale), frame(way_of(way)))
    }

    assert found == set(SCALE_FRAMES.values[name].split())


def way_of(letters: tuple[str, ...]) -> str:
    return "".join(letters)


@pytest.mark.parametrize(
    ("fingers", "count", "reason"),
    [
        ((), 0, "0 fingers make no frame"),
        ((1, 2, 3, 4, 5), 4, "5 fingers make no frame"),
        ((0, 1), 1, "are not all among t .the thumb. 1 2 3 4"),
        ((4, 5), 1, "fingers 45 are not all among t .the thumb. 1 2 3 4"),
        ((2, 1), 1, "do not rise"),
        ((2, 2), 1, "do not rise"),
        ((1, 2, 3), 1, "3 fingers have 2 spacings between them"),
        ((1, 2), 2, "2 fingers have 1 spacings between them"),
    ],
)
def test_what_is_no_hand_is_refused(fingers: tuple[int, ...], count: int, reason: str) -> None:
    with refused(reason):
        Frame(fingers, (Spacing.HALF,) * count)
