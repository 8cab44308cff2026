"""All ways to lay the hand for a sound, against a search over every finger and place."""

from collections.abc import Iterator
from itertools import pairwise, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kit.fingered import INSTRUMENTS, notes_of, sounding
from kit.shorthand import VIOLIN

from bookgen.model.instrument import Instrument
from bookgen.model.phrase import WrittenNote
from bookgen.model.stop import Stop
from bookgen.model.units import Semitones
from bookgen.passage.placement import Poses
from bookgen.passage.shape import Shape

Laid = tuple[tuple[Stop, ...], int]


def poses(text: str, instrument: Instrument = VIOLIN) -> set[str]:
    return {
        " ".join(f"{stop.string}.{stop.finger}" for stop in pose.stops) + f" @{pose.place}"
        for pose in Poses(Shape(instrument)).of(notes_of(text))
    }


def every_stop(instrument: Instrument, note: WrittenNote) -> list[Stop]:
    heights = [
        (string, Semitones(note.pitch.midi - instrument.open_pitch(string).midi))
        for string in instrument.string_numbers()
    ]
    return [
        Stop(string, finger, above)
        for string, above in heights
        for finger in range(5)
        if (finger == 0) == (above == 0) and 0 <= above <= instrument.highest_stop
    ]


def every_pose(instrument: Instrument, notes: tuple[WrittenNote, ...]) -> Iterator[Laid]:
    """The slow twin: every stop of every note with every place below thumb position."""
    for stops in product(*(every_stop(instrument, note) for note in notes)):
        strings = sorted(stop.string for stop in stops)
        if any(high - low != 1 for low, high in pairwise(strings)):
            continue
        held = sorted((one for one in stops if one.finger), key=lambda one: one.finger)
        if not held:
            yield stops, 0
        elif possible(held):
            for place in map(Semitones, range(1, instrument.highest_stop + 1)):
                if instrument.position_rule.at(1, place) != "thumb" and lies(
                    Shape(instrument), held, place
                ):
                    yield stops, place


def possible(held: list[Stop]) -> bool:
    """Fingers rise with their heights; one finger at most on two neighbours at one height."""
    for low, high in pairwise(held):
        if low.finger == high.finger:
            if low.semitones != high.semitones or abs(low.string - high.string) != 1:
                return False
        elif low.semitones >= high.semitones:
            return False
    return all(sum(one.finger == stop.finger for one in held) <= 2 for stop in held)


def lies(shape: Shape, held: list[Stop], place: int) -> bool:
    spots = [(stop.finger, int(stop.semitones)) for stop in held]
    others = [spot for spot in spots if spot[0] > 1]
    first = [spot for spot in spots if spot[0] == 1]
    if first and not place - shape.hand.drawn_back <= first[0][1] <= place:
        return False
    hands = [[(1, place), *others], *([[first[0], *others]] if first else [])]
    return all(
        low == high or shape.opening(low, high) is not None
        for hand in hands
        for low, high in product(hand, hand)
        if low[0] < high[0]
    )


@pytest.mark.parametrize("key", INSTRUMENTS)
@settings(max_examples=12)
@given(data=st.data())
def test_no_way_is_missed_and_none_is_invented(key: str, data: st.DataObject) -> None:
    instrument = INSTRUMENTS[key]
    lowest = instrument.strings[-1].midi
    top = instrument.strings[0].midi + instrument.highest_stop
    first = data.draw(st.integers(lowest, top))
    steps = data.draw(st.lists(st.integers(0, 9), max_size=3))
    heights = [first + sum(steps[:count]) for count in range(len(steps) + 1)]
    notes = tuple(note_at(height) for height in heights)
    laid = [
        (pose.stops, pose.place) for pose in Poses(Shape(instrument)).of(notes) if not pose.touched
    ]

    assert len(laid) == len(set(laid))
    assert set(laid) == set(every_pose(instrument, notes))
    assert all([sounding(instrument, stop) for stop in stops] == heights for stops, _ in laid)


def note_at(height: int) -> WrittenNote:
    letters = ("C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B")
    return notes_of(f"{letters[height % 12]}{height // 12 - 1}")[0]


def test_a_given_finger_and_string_are_kept() -> None:
    assert poses("C4:1@IV") == {"4.1 @5", "4.1 @6"}
    assert poses("E5:0") == {"1.0 @0"}
    assert poses("E5:0@II") == set()


def test_a_unison_is_an_open_string_or_a_stretch_from_1_to_4() -> None:
    assert "2.4 1.0 @2" in poses("E5+E5")
    assert "3.4 2.1 @7" in poses("E5+E5")
    assert "3.3 2.1 @7" not in poses("E5+E5")


def test_a_fifth_is_stopped_by_one_finger() -> None:
    assert {pose for pose in poses("A3+E4") if "@2" in pose} == {"4.1 3.1 @2"}
    assert poses("A3+E4+B4") == set()  # but no finger stops three strings


def test_a_chord_of_four_notes_lies_on_all_strings_in_one_placement() -> None:
    assert "4.0 3.0 2.1 1.2 @2" in poses("G3+D4+B4+G5")
    assert poses("A3+E4+B4+F#5") == set()  # one finger does not stop four strings


def test_two_notes_on_the_lowest_string_alone_cannot_sound_together() -> None:
    assert poses("G3+A3") == set()


def test_nothing_is_touched_that_nobody_asked_for() -> None:
    assert not any(pose.touched for pose in Poses(Shape(VIOLIN)).of(notes_of("A5")))


@pytest.mark.parametrize(
    ("written", "touches"),
    [
        ("D5:o", {(4, 7), (4, 19), (3, 12)}),  # sounds so: an octave, and an octave and a fifth
        ("A4:o", {(3, 7)}),  # no string sounds it: touched on III
        ("A5:o@I", {(1, 5)}),
        ("G#4:o", set()),
    ],
)
def test_a_harmonic_that_is_asked_for_is_read_as_sound_or_else_as_touch(
    written: str, touches: set[tuple[int, int]]
) -> None:
    found = Poses(Shape(VIOLIN)).of(notes_of(written))

    assert {(pose.stops[0].string, pose.stops[0].semitones) for pose in found} == touches
    assert all(pose.touched == (0,) for pose in found)
