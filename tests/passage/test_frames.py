"""The frames of a passage: where every finger has one height on each string."""

from dataclasses import replace

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from kit.fingered import solved
from kit.phrases import phrase
from kit.shorthand import VIOLIN

from bookgen.model.units import Semitones
from bookgen.passage.frames import cuts_between, fits, placements, runs_of, spots_of
from bookgen.passage.shape import Shape
from bookgen.passage.sounds import Sounds

SHAPE = Shape(VIOLIN)
TONES = st.sampled_from(
    [
        "G3",
        "A3",
        "C4",
        "C#4",
        "D4",
        "F4",
        "F#4",
        "A4",
        "B4",
        "C5",
        "C#5",
        "E5",
        "F5",
        "F#5",
        "A5",
        "r",
        "|",
    ]
)


def sounds_of(text: str) -> Sounds:
    given_phrase = phrase(text)
    return Sounds.of(solved(given_phrase).best, given_phrase, VIOLIN)


def heights(text: str) -> list[tuple[int, int]]:
    """First and last sound of every run."""
    return [(run.first, run.last) for run in runs_of(sounds_of(text), SHAPE)]


@pytest.mark.published("common practice, no source")
def test_a_scale_of_g_major_is_one_frame_with_a_low_and_a_high_2() -> None:
    (run,) = runs_of(sounds_of("G3 A3 B3 C4 D4 E4 F#4 G4 A4 B4 C5 D5 E5 F#5 G5"), SHAPE)

    assert run.place == 2
    assert [run.map[string, 2] for string in (4, 3, 2, 1)] == [4, 4, 3, 3]


@pytest.mark.published("common practice, no source")
def test_c_sharp_after_c_on_one_string_is_another_frame() -> None:
    text = "B4 C5 B4 C5 D5 C5 B4 r D5 C#5 D5 C#5 B4 C#5 D5"
    assert heights(text) == [(0, 6), (7, 13)]


def test_the_cut_goes_to_the_rest_between_two_frames() -> None:
    sounds = sounds_of("B4 C5 B4 C5 D5 C5 D5 r D5 B4 D5 C#5 D5 C#5 B4 C#5")
    assert list(cuts_between(sounds, 0, len(sounds) - 1)) == [7]


def test_a_short_change_between_two_alike_is_only_passing() -> None:
    assert heights("B4 C5 B4 D5 C5 B4 C#5 B4 C5 D5 C5 B4") == [(0, 11)]


def test_frames_fit_where_no_finger_differs_and_the_hand_holds_each_string() -> None:
    low, high = {(2, 1): 2, (2, 2): 3}, {(2, 2): 4}
    assert not fits(low, high, SHAPE)
    assert fits(low, {(3, 2): 4}, SHAPE)
    assert not fits({(2, 1): 2}, {(2, 2): 9}, SHAPE)


def in_one_place(text: str) -> Sounds:
    """Sounds as if the hand kept first position throughout."""
    given_phrase = phrase(text)
    best = solved(given_phrase).best
    placed = tuple(
        replace(one, hand=one.hand and replace(one.hand, place=Semitones(2))) for one in best.placed
    )
    return Sounds.of(replace(best, placed=placed), given_phrase, VIOLIN)


def test_the_hand_is_laid_anew_where_fingers_cross_but_not_over_an_open_string() -> None:
    crossed = in_one_place("F#4:2@III C#5:3@II")
    over = in_one_place("F#4:2@III A4:0 C#5:3@II")

    assert list(placements(crossed, SHAPE)) == [(0, 0), (1, 1)]
    assert list(placements(over, SHAPE)) == [(0, 2)]


def slow_fewest(sounds: Sounds, first: int, last: int) -> int:
    """The slow twin: the fewest runs without a clash, by every way to cut."""
    best = [0] * (last - first + 2)
    for end in range(first, last + 1):
        ways = []
        for start in range(first, end + 1):
            seen: dict[tuple[int, int], int] = {}
            whole = [spots_of(sounds.stopped(at)) for at in range(start, end + 1)]
            if all(seen.setdefault(key, h) == h for spots in whole for key, h in spots.items()):
                ways.append(best[start - first] + 1)
        best[end - first + 1] = min(ways)
    return best[-1]


@settings(max_examples=25, deadline=None)
@given(st.lists(TONES, min_size=2, max_size=24))
@example(["C#5", "r", "C#4", "G3", "C5", "C4"])  # a cut at the rest would ask for one more
def test_no_way_to_cut_has_fewer_runs(words: list[str]) -> None:
    sounds = sounds_of(" ".join(words))
    for first, last in placements(sounds, SHAPE):
        cuts = list(cuts_between(sounds, first, last))
        assert len(cuts) + 1 == slow_fewest(sounds, first, last)
        assert all(first < cut <= last for cut in cuts)
