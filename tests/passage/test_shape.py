"""What a hand can hold, against every frame that its reaches make."""

from itertools import combinations, product

import pytest
from kit.fingered import BASS, CELLO, INSTRUMENTS
from kit.shorthand import VIOLIN, frame

from bookgen.model.instrument import Instrument
from bookgen.model.spacing import Frame, Spacing
from bookgen.model.stop import Stop
from bookgen.model.units import Semitones, StringNumber
from bookgen.passage.shape import Shape, Spot


def every_opening(instrument: Instrument, low: Spot, high: Spot) -> int | None:
    """The slow twin: every frame from the one finger to the other, as the instrument judges it."""
    span = high[1] - low[1]
    between = range(low[0] + 1, high[0])
    chains = [
        (low[0], *some, high[0])
        for count in range(len(between) + 1)
        for some in combinations(between, count)
    ]
    frames = [
        Frame(fingers, spacings)
        for fingers in chains
        for spacings in product(Spacing, repeat=len(fingers) - 1)
    ]
    held = [
        one
        for one in frames
        if one.span == span and instrument.refused_place(one, Semitones(low[1])) is None
    ]
    if not held:
        return None
    past = max(0, span - instrument.hand.ordinary_span)
    opened = all(instrument.stretches(one, Semitones(low[1])) for one in held)
    return past + opened


@pytest.mark.parametrize("key", INSTRUMENTS)
@pytest.mark.parametrize("place", [1, 2, 7, 11])
def test_the_opening_of_two_fingers_is_that_of_their_best_frame(key: str, place: int) -> None:
    instrument = INSTRUMENTS[key]
    shape = Shape(instrument)
    for low, high in combinations(range(1, 5), 2):
        if place < instrument.hand.room_below(low):
            continue
        for span in range(1, 10):
            if place + span <= instrument.highest_stop:
                spots = (low, place), (high, place + span)
                assert shape.opening(*spots) == every_opening(instrument, *spots), spots


@pytest.mark.published("common practice, no source")
def test_the_ordinary_hand_of_the_violin_holds_a_fourth_and_stretches_past_it() -> None:
    shape = Shape(VIOLIN)

    assert [shape.opening((1, 2), (4, 2 + span)) for span in range(2, 9)] == [
        None, 0, 0, 0, 2, 3, None,
    ]  # fmt: skip


@pytest.mark.published("common practice, no source")
def test_the_cellos_only_whole_step_between_neighbours_is_1_2_extended() -> None:
    shape = Shape(CELLO)

    assert [shape.opening((low, 3), (low + 1, 5)) for low in (1, 2, 3)] == [1, None, None]
    assert [shape.opening((low, 3), (low + 2, 5)) for low in (1, 2)] == [0, 0]
    assert shape.opening((1, 3), (4, 6)) == 0
    assert shape.opening((1, 3), (4, 7)) == 1


@pytest.mark.published("common practice, no source")
def test_the_bass_hand_has_no_finger_3() -> None:
    shape = Shape(BASS)

    assert shape.opening((1, 2), (4, 4)) == 0
    assert shape.opening((1, 2), (2, 3)) == 0
    assert all(shape.opening((1, 2), (3, 2 + span)) is None for span in (1, 2, 3))


def test_finger_1_can_be_drawn_back_where_the_file_lets_it() -> None:
    low_first = [(1, 1)]

    assert Shape(VIOLIN).laid(low_first) == [(1, 0), (2, 0)]
    assert Shape(BASS).laid(low_first) == [(1, 0)]


def test_a_drawn_back_finger_1_leaves_the_others_within_reach_of_the_place() -> None:
    assert Shape(CELLO).laid([(1, 2), (2, 3)]) == [(2, 0)]
    assert Shape(CELLO).laid([(1, 2), (2, 4)]) == [(2, 1), (3, 1)]


def test_fingers_that_would_cross_are_not_held_together() -> None:
    shape = Shape(VIOLIN)
    high_2 = Stop(StringNumber(3), 2, Semitones(4))
    low_3 = Stop(StringNumber(2), 3, Semitones(4))

    assert not shape.stays([high_2], [low_3])
    assert shape.stays([high_2], [Stop(StringNumber(2), 3, Semitones(5))])
    assert shape.together([high_2], [Stop(StringNumber(2), 3, Semitones(7))]) == 1


@pytest.mark.parametrize(
    ("spots", "expected"),
    [
        ({1: 2, 2: 4, 3: 5, 4: 7}, frame("WHW")),
        ({1: 2, 4: 7}, Frame((1, 2, 4), (Spacing.WHOLE, Spacing.MINOR_THIRD))),
        ({2: 3, 3: 6}, Frame.pair(2, 3, Spacing.AUGMENTED)),
        ({1: 2, 3: 6}, Frame.pair(1, 3, Spacing.MAJOR_THIRD)),
        ({1: 2, 3: 4}, Frame((1, 2, 3), (Spacing.HALF, Spacing.HALF))),
        ({1: 2, 2: 2}, None),
        ({3: 5}, None),
    ],
)
def test_a_frame_names_its_spacings_by_as_few_fingers_as_it_can(
    spots: dict[int, int], expected: Frame | None
) -> None:
    assert Shape(VIOLIN).frame(spots) == expected
