"""Everything a hand makes, against the notes of its drills and the intervals of music21."""

from itertools import combinations, product

import pytest
from kit.shorthand import SPECIMEN_KEYS, VIOLA, VIOLIN, specimen
from music21 import interval as m21_interval
from music21 import pitch as m21_pitch

from bookgen.model.instrument import Instrument
from bookgen.model.made import Made, makes, stops_of
from bookgen.model.names_at import names_at
from bookgen.model.naming import names_of
from bookgen.model.spacing import Frame, Spacing
from bookgen.model.units import Semitones

INSTRUMENTS = [VIOLIN, VIOLA, *map(specimen, SPECIMEN_KEYS)]
PAIR = Frame.pair(1, 2, Spacing.WHOLE)
SPACINGS = (Spacing.HALF, Spacing.WHOLE)
FINGERS = [one for count in (1, 2, 3, 4) for one in combinations((1, 2, 3, 4), count)]


def hands(instrument: Instrument) -> list[tuple[Frame, Semitones]]:
    """Every ninth hand of half and whole steps, wherever the instrument takes it."""
    found = [
        (hand, Semitones(place))
        for fingers in FINGERS
        for spacings in product(SPACINGS, repeat=len(fingers) - 1)
        for hand in [Frame(fingers, spacings)]
        for place in range(1, instrument.highest_stop)
        if instrument.refused_place(hand, Semitones(place)) is None
    ]
    return found[::9]


def pairs(made: tuple[Made, ...]) -> dict[tuple[int, int], str]:
    """The label of each two fingers; no two fingers have two."""
    found = [(fingers, one.label) for one in made for fingers in one.fingers]
    assert len(found) == len(dict(found))
    return dict(found)


@pytest.mark.published("music21 10.5, interval names")
@pytest.mark.parametrize("instrument", INSTRUMENTS, ids=lambda one: one.key)
def test_every_two_fingers_make_what_music21_calls_their_notes(instrument: Instrument) -> None:
    strings = instrument.string_numbers()
    for hand, place in hands(instrument):
        named = names_of(instrument, hand, place, strings)
        notes = {
            (stop.string, stop.finger): m21_pitch.Pitch(str(pitch).replace("b", "-"))
            for stop, pitch in named.items()
        }
        found = makes(instrument, hand, place)

        alone = pairs(found.alone)
        assert alone.keys() == {*combinations(hand.fingers, 2)}
        for string, (low, high) in product(strings, alone):
            assert alone[low, high] == label(notes[string, low], notes[string, high])
        for apart, every in ((1, found.neighbours), (2, found.skipped)):
            twos = [two for across in every for two in across.strings]
            assert sorted(twos) == sorted(zip(strings, strings[apart:], strict=False))
            for across in every:
                made = pairs(across.made)
                assert made.keys() == {*product(hand.fingers, repeat=2)}
                for (low, high), (one, other) in product(across.strings, made):
                    assert made[one, other] == label(notes[low, one], notes[high, other])


def label(one: m21_pitch.Pitch, other: m21_pitch.Pitch) -> str:
    low, high = sorted((one, other), key=lambda pitch: (pitch.diatonicNoteNum, pitch.ps))
    return str(m21_interval.Interval(low, high).name)


@pytest.mark.published("common practice, no source")
def test_first_and_second_finger_a_whole_step_apart_on_a_violin() -> None:
    found = makes(VIOLIN, PAIR, Semitones(2))

    assert pairs(found.alone) == {(1, 2): "M2"}
    (across,) = found.neighbours
    assert pairs(across.made) == {(2, 1): "P4", (1, 1): "P5", (2, 2): "P5", (1, 2): "M6"}
    (over,) = found.skipped
    assert pairs(over.made) == {(2, 1): "P8", (1, 1): "M9", (2, 2): "M9", (1, 2): "M10"}


def test_strings_that_stand_otherwise_apart_have_a_table_of_their_own() -> None:
    viol = specimen("six_string_viol")
    found = makes(viol, PAIR, Semitones(2))

    thirds = [one for one in found.neighbours if one.strings == ((4, 3),)]
    assert pairs(thirds[0].made)[1, 1] == "M3"
    (fourths,) = (one for one in found.neighbours if one not in thirds)
    assert len(fourths.strings) == 4
    assert pairs(fourths.made)[1, 1] == "P4"


def test_a_hand_has_each_of_its_fingers_on_every_string() -> None:
    stops = [*stops_of(VIOLIN, Frame((1, 3, 4), (Spacing.WHOLE, Spacing.HALF)), Semitones(2))]

    assert {stop.string for stop in stops} == {1, 2, 3, 4}
    assert [(stop.finger, stop.semitones) for stop in stops if stop.string == 1] == [
        (1, 2),
        (3, 4),
        (4, 5),
    ]


@pytest.mark.parametrize("midi", range(21, 109))
def test_a_note_has_its_natural_name_or_two_that_sound_alike(midi: int) -> None:
    found = [m21_pitch.Pitch(str(one).replace("b", "-")) for one in names_at(midi)]

    assert {one.midi for one in found} == {midi}
    plain = m21_pitch.Pitch(midi=midi).accidental is None
    assert [one.accidental and one.accidental.alter for one in found] in (
        [[None], [0.0]] if plain else [[1.0, -1.0]]
    )
