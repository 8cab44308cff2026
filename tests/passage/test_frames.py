"""The frames of a placement, string by string."""

from collections import Counter

from kit.shorthand import VIOLIN, frame

from bookgen.model.spacing import Frame, Spacing
from bookgen.model.stop import Stop
from bookgen.model.units import Semitones, StringNumber
from bookgen.passage.frames import fitting, frames_of, usual_spots
from bookgen.passage.shape import Shape

SHAPE = Shape(VIOLIN)


def counts(text: str) -> Counter[Stop]:
    """Read `3.1.2` as string, finger, semitones; each word is a note."""
    found: Counter[Stop] = Counter()
    for word in text.split():
        string, finger, semitones = map(int, word.split("."))
        found[Stop(StringNumber(string), finger, Semitones(semitones))] += 1
    return found


def test_one_string_has_one_frame() -> None:
    assert frames_of(counts("3.1.2 3.2.4 3.3.5 3.4.7"), SHAPE) == [frame("WHW")]


def test_a_low_2_on_another_string_is_another_frame_of_the_same_placement() -> None:
    found = frames_of(counts("3.1.2 3.2.4 3.3.5 3.1.2 2.1.2 2.2.3 2.3.5"), SHAPE)

    assert found == [
        Frame((1, 2, 3), (Spacing.WHOLE, Spacing.HALF)),
        Frame((1, 2, 3), (Spacing.HALF, Spacing.WHOLE)),
    ]


def test_a_string_fills_in_the_fingers_of_the_others() -> None:
    assert frames_of(counts("3.1.2 2.4.7"), SHAPE) == [
        Frame((1, 2, 4), (Spacing.WHOLE, Spacing.MINOR_THIRD))
    ]


def test_one_finger_alone_makes_no_frame() -> None:
    assert frames_of(counts("3.1.2 2.1.2"), SHAPE) == []
    assert frames_of(Counter(), SHAPE) == []


def test_a_finger_stands_where_it_plays_most_and_of_equals_first() -> None:
    assert usual_spots(counts("3.2.3 3.2.4 3.2.4 3.1.2 3.1.1")) == {2: 4, 1: 2}


def test_a_finger_that_went_elsewhere_is_left_out() -> None:
    spots = {1: 2, 2: 4, 3: 4}

    assert fitting(spots, {1: 3, 2: 2, 3: 1}, SHAPE) == Frame.pair(1, 2, Spacing.WHOLE)
    assert fitting({2: 4, 3: 4}, {2: 2, 3: 1}, SHAPE) is None
