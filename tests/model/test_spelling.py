"""The names of a drill's notes: least accidentals, and the rule for ties."""

from collections.abc import Iterator
from itertools import permutations, product

import pytest
from hypothesis import given
from hypothesis import strategies as st
from kit.shorthand import (
    NEIGHBOURS,
    VIOLA,
    VIOLIN,
    drills,
    frame,
    hands,
    pair,
    specimen,
    string_sets,
    strings,
)

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.interval import Interval
from bookgen.model.music import play
from bookgen.model.pitch import LETTERS, Pitch
from bookgen.model.route import STAGES, Return
from bookgen.model.spacing import Frame, Spacing
from bookgen.model.spelling import cost, spell
from bookgen.model.units import Semitones, StringNumber

RULE = "usual practice of spelling, from memory: fewest accidentals, ties to the sharps"
FIVE_STRINGS = specimen("five_strings")
BASS = specimen("double_bass")
VIOL = specimen("six_string_viol")
ALL_TUNINGS = [VIOLIN, VIOLA, FIVE_STRINGS, BASS, specimen("cello"), VIOL]
Run = tuple[StringNumber, ...]
CHROMATIC = "Bb3 B3 C4 F4 F#4 G4 C5 C#5 D5 G5 G#5 A5"


def names(instrument: Instrument, hand: Frame, place: int, run: str) -> str:
    return " ".join(
        map(str, spell(instrument, hand, Semitones(place), strings(run)).pitches.values())
    )


@pytest.mark.published(RULE)
@pytest.mark.parametrize(
    ("spacing", "place", "run", "expected"),
    [
        (Spacing.HALF, 2, "43", "A3 Bb3 E4 F4"),
        (Spacing.HALF, 1, "43", "G#3 A3 D#4 E4"),
        (Spacing.WHOLE, 1, "43", "Ab3 Bb3 Eb4 F4"),
        (Spacing.WHOLE, 1, "4321", "Ab3 Bb3 Eb4 F4 Bb4 C5 F5 G5"),
        (Spacing.WHOLE, 2, "4321", "A3 B3 E4 F#4 B4 C#5 F#5 G#5"),
        (Spacing.HALF, 4, "43", "B3 C4 F#4 G4"),
        (Spacing.WHOLE, 3, "21", "C5 D5 G5 A5"),
        (Spacing.HALF, 5, "43", "C4 Db4 G4 Ab4"),
        (Spacing.WHOLE, 4, "43", "B3 C#4 F#4 G#4"),
        (Spacing.HALF, 1, "32", "D#4 E4 A#4 B4"),
    ],
)
def test_the_name_with_the_least_accidentals(
    spacing: Spacing, place: int, run: str, expected: str
) -> None:
    assert names(VIOLIN, pair("12", spacing), place, run) == expected


@pytest.mark.published(RULE)
@pytest.mark.parametrize(
    ("spacing", "place", "run", "sharps"),
    [
        (Spacing.WHOLE, 6, "43", "C#4 D#4 G#4 A#4"),
        (Spacing.WHOLE, 11, "43", "F#4 G#4 C#5 D#5"),
        (Spacing.HALF, 3, "43", "A#3 B3 E#4 F#4"),
    ],
)
def test_a_tie_goes_to_the_sharps(spacing: Spacing, place: int, run: str, sharps: str) -> None:
    hand = pair("12", spacing)
    flats = {
        at: pitch.up(1, Semitones(0))
        for at, pitch in spell(VIOLIN, hand, Semitones(place), strings(run)).pitches.items()
    }
    chosen = spell(VIOLIN, hand, Semitones(place), strings(run)).pitches

    assert names(VIOLIN, hand, place, run) == sharps
    assert cost(chosen)[:4] == cost(flats)[:4]
    assert cost(chosen) < cost(flats)


@pytest.mark.published(RULE)
@pytest.mark.parametrize(
    ("hand", "place", "run", "expected"),
    [
        (frame("HHH"), 2, "43", "A3 Bb3 B3 C4 E4 F4 F#4 G4"),
        (Frame((1, 2, 3), (Spacing.HALF, Spacing.HALF)), 3, "4321", CHROMATIC),
        (pair("12", Spacing.AUGMENTED), 2, "43", "A3 C4 E4 G4"),
    ],
)
def test_what_would_force_double_accidentals_is_respelled_and_says_so(
    hand: Frame, place: int, run: str, expected: str
) -> None:
    spelled = spell(VIOLIN, hand, Semitones(place), strings(run))

    assert " ".join(map(str, spelled.pitches.values())) == expected
    assert spelled.respelled


def hardness_of(names: str) -> tuple[int, ...]:
    found = (Pitch.parse(name) for name in names.split())
    return cost({(StringNumber(1), finger): one for finger, one in enumerate(found, start=1)})


@pytest.mark.published(RULE)
@pytest.mark.parametrize(
    ("easier", "harder"),
    [
        ("E#4 B#4 C#5", "E4 F##4"),
        ("F#4 C#5 G#5", "C4 E#4"),
        ("Eb4 Ab4 Db5", "G4 Cb5"),
        ("A3 F#4", "G#3 C#4"),
        ("C#4 D#4", "Db4 Eb4"),
    ],
    ids=["doubles first", "then E sharp", "then C flat", "then how many", "then sharps"],
)
def test_what_makes_a_naming_hard_in_its_order(easier: str, harder: str) -> None:
    assert hardness_of(easier) < hardness_of(harder)


@pytest.mark.parametrize("instrument", ALL_TUNINGS, ids=lambda one: one.key)
def test_no_drill_of_neighbouring_fingers_has_double_accidentals(instrument: Instrument) -> None:
    frames = [hand for low in (1, 2, 3) for hand in hands(instrument, (low, low + 1))]
    for hand, run in product(frames, string_sets(instrument)):
        for place in range(1, instrument.highest_stop + 1):
            if instrument.refused_place(hand, Semitones(place)) is None:
                spelled = spell(instrument, hand, Semitones(place), run)
                assert all(abs(pitch.accidental) <= 1 for pitch in spelled.pitches.values())
                assert spelled.respelled == (
                    hand.spacings == (Spacing.AUGMENTED,)
                    and Interval.between(*list(spelled.pitches.values())[:2]).label == "m3"
                )


def every_naming(
    instrument: Instrument, hand: Frame, place: int, run: Run
) -> Iterator[dict[tuple[StringNumber, int], Pitch]]:
    """The slow twin: any name of the first note at all, tried by its sound."""
    low = instrument.open_pitch(run[0])
    sound = low.midi + place
    for letter, accidental, octave in product(LETTERS, range(-2, 3), range(9)):
        first = Pitch(letter, accidental, octave)
        if first.midi != sound:
            continue
        try:
            found = {}
            for string, finger in product(run, hand.fingers):
                crossing = Interval.between(low, instrument.open_pitch(string))
                degrees = crossing.degrees + hand.letters(finger)
                semitones = crossing.semitones + hand.offset(finger)
                found[string, finger] = first.up(degrees, Semitones(semitones))
        except ValueError:
            continue
        yield found


def hardness(pitches: dict[tuple[StringNumber, int], Pitch]) -> tuple[int, int, int, int]:
    """The rule in the trade's words, for pairs: doubles, E# B# Cb Fb, accidentals, flats."""
    names = [pitch.name for pitch in pitches.values()]
    signs = [name[1:] for name in names]
    return (
        sum(len(sign) == 2 for sign in signs),
        sum(name in {"E#", "B#", "Cb", "Fb"} for name in names),
        sum(len(sign) for sign in signs),
        sum("b" in sign for sign in signs),
    )


@pytest.mark.parametrize("instrument", ALL_TUNINGS, ids=lambda one: one.key)
def test_no_other_naming_of_a_pair_is_easier(instrument: Instrument) -> None:
    compared = 0
    frames = [hand for fingers in ((1, 2), (1, 3), (2, 4)) for hand in hands(instrument, fingers)]
    for hand, run in product(frames, string_sets(instrument)):
        for place in range(1, instrument.highest_stop + 1):
            spelled = spell(instrument, hand, Semitones(place), run)
            if spelled.respelled:
                continue
            best = min(map(hardness, every_naming(instrument, hand, place, run)))
            assert hardness(dict(spelled.pitches)) == best
            compared += 1

    assert compared > 90


FRAMES = [frame("".join(way)) for way in product("HW", repeat=3)]


@given(st.sampled_from(ALL_TUNINGS), st.sampled_from(FRAMES), st.integers(1, 12), st.data())
def test_no_other_naming_of_a_frame_is_easier(
    instrument: Instrument, hand: Frame, place: int, data: st.DataObject
) -> None:
    run = data.draw(st.sampled_from(string_sets(instrument)))
    spelled = spell(instrument, hand, Semitones(place), run)

    assert all(
        cost(spelled.pitches) <= cost(way) for way in every_naming(instrument, hand, place, run)
    )


@given(st.sampled_from(NEIGHBOURS), st.integers(1, 12), st.sampled_from(string_sets(VIOLIN)))
def test_names_do_not_change_with_stage_order_or_return(hand: Frame, place: int, run: Run) -> None:
    if VIOLIN.refused_place(hand, Semitones(place)) is not None:
        return
    found: dict[tuple[StringNumber, int], Pitch] = {}
    for order, stage, back in product(permutations(hand.fingers), STAGES, Return):
        drill = Drill("violin", hand, order, Semitones(place), run, stage, back)
        if drill.doubled():
            continue
        for event in play(drill, VIOLIN):
            for note in event.notes:
                at = (note.stop.string, note.stop.finger)
                assert found.setdefault(at, note.pitch) == note.pitch


@given(st.sampled_from(ALL_TUNINGS), st.data())
def test_every_name_sounds_where_the_finger_stands_and_letters_rise(
    instrument: Instrument, data: st.DataObject
) -> None:
    drill = data.draw(drills(instrument))
    if drill.refusal(instrument) is not None:
        return
    spelled = spell(instrument, drill.frame, drill.place, drill.strings)
    for (string, finger), pitch in spelled.pitches.items():
        height = drill.place + drill.frame.offset(finger)
        assert pitch.midi == instrument.open_pitch(string).midi + height
    for string in drill.strings:
        letters = [spelled.pitches[string, finger].degree for finger in drill.frame.fingers]
        assert letters == sorted(letters)
        if not spelled.respelled:
            assert letters == [
                letters[0] + drill.frame.letters(finger) for finger in drill.frame.fingers
            ]
