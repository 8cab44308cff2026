"""Whole phrases: what the best way does, what it says of its cost, and its laws."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kit.fingered import COSTS, INSTRUMENTS, places, solved, sounding, stops
from kit.phrases import bar, phrase
from kit.shorthand import SPECIMEN_KEYS, VIOLIN, specimen

from bookgen.model.costs import PARTS, Preference
from bookgen.model.phrase import Phrase
from bookgen.plan.passage import Fingering
from bookgen.words.speech import ENGLISH


def told(fingering: Fingering) -> list[tuple[str, str]]:
    """What cannot be played, in words."""
    return [(bar, ENGLISH.line(problem)) for bar, problem in fingering.unplayable]


SCALE_TONES = "G3 A3 Bb3 C4 D4 Eb4 F#4 G4 A4 B4 C5 D5 E5 F5 G5 A5 B5 C6"
LINES = st.lists(st.sampled_from(SCALE_TONES.split()), min_size=1, max_size=8)


def text_of(notes: list[str]) -> str:
    return " ".join(notes)


# --- what is kept -----------------------------------------------------------------------------


def test_given_fingers_and_strings_are_kept() -> None:
    assert stops(solved("E4:2 A4:4 B4:3@III").best) == "III2 III4 III3"


def test_what_is_given_and_cannot_be_is_told_and_the_rest_is_solved() -> None:
    best = solved("A3 | G#3:3 A3:1@III | B3").best

    assert told(best) == [
        ("2", "G♯3 cannot be played as given on the violin (finger 3); solved without"),
        (
            "2",
            "A3 cannot be played as given on the violin (finger 1 and string III); solved without",
        ),
    ]
    assert "-" not in stops(best)


def test_notes_out_of_range_are_left_out_and_told_by_bar() -> None:
    solutions = solved("A4 B4 | F3 C#5 | D5 C9")

    assert told(solutions.best) == [
        ("2", "F3 lies below the lowest string, G3"),
        ("3", "C9 lies 44 semitones above string I; the last stop is 24"),
    ]
    assert stops(solutions.best) == "II0 II1 - II2 II3 -"


def test_of_an_impossible_double_stop_the_upper_note_is_played() -> None:
    best = solved("C4 G3+A3 C4").best

    assert stops(best) == "IV3 -+IV1 IV3"
    assert told(best) == [("1", "no hand on the violin takes G3 and A3 together; G3 is left out")]


def test_a_phrase_of_which_nothing_can_be_played_has_no_cost() -> None:
    solutions = solved("C2 D2")

    assert (solutions.best.cost, solutions.other) == (0.0, None)
    assert stops(solutions.best) == "- -"
    assert len(solutions.best.unplayable) == 2


def test_rests_and_mere_ties_have_no_stops_of_their_own() -> None:
    best = solved("C4 r | ~E4=1/2 | ~E4 r").best

    assert [(one.bar, one.sound) for one in best.placed] == [(0, 0), (1, 0)]


def test_a_tied_note_of_a_double_stop_keeps_its_stop() -> None:
    first, then = solved("E4+C5=1/4 ~E4+D5=1/4").best.placed

    assert first.stops[0] == then.stops[0]
    assert first.hand is not None
    assert then.hand is not None
    assert first.hand.place == then.hand.place


def test_a_tie_that_no_hand_can_hold_is_told() -> None:
    best = solved("E4:1@III+C5 | ~E4:2@III+C#5").best

    assert told(best) == [("2", "no hand can hold the tie into this note")]


def test_a_group_that_no_hand_takes_is_told() -> None:
    best = solved("[A3 B3 | A6 B6]").best

    assert told(best) == [("2", "no hand takes this group without moving; it moves once here")]


def test_a_finger_at_a_groups_first_note_is_enough() -> None:
    """The hand of the whole group follows from it."""
    assert stops(solved("[C#5:4 B4 A4 G#4 A4 G#4]").best) == "III4 III3 III2 III1 III2 III1"
    assert stops(solved("[C#5:2 B4 A4 G#4 A4 G#4]").best) == "II2 II1 II0 III3 III4 III3"


def test_a_harmonic_that_is_asked_for_is_touched() -> None:
    (only,) = solved("A5:o").best.placed

    assert only.touched == (0,)
    assert only.stops[0] is not None
    assert only.stops[0].semitones in {7, 12, 19}


def test_an_open_string_alone_leaves_the_hand_free() -> None:
    placed = solved("D4 E4").best.placed

    assert placed[0].hand is None
    assert placed[1].hand is not None


# --- where the hand goes ----------------------------------------------------------------------


def test_the_hand_shifts_while_an_open_string_sounds() -> None:
    over, without = solved("B4:1@II E5:0 E6:4@I"), solved("B4:1@II D5:3@II E6:4@I")

    assert over.best.placed[1].hand is None
    assert over.best.placed[2].cost["shift"] < without.best.placed[2].cost["shift"]


def test_a_rest_and_a_long_note_make_the_shift_easier() -> None:
    plain, rest, long = (solved(text).best.cost for text in ("B3 B6", "B3 r=1/2 B6", "B3=1/2 B6"))

    assert rest < long < plain


def test_a_grace_note_makes_it_harder() -> None:
    assert solved("B4 gB4 B6").best.cost > solved("B4 B4 B6").best.cost


CLIMB = "C5 D5 E5 F5 | G5 A5 B5 C6 | D6 E6 D6 C6 | A4 Bb3 Eb4 Ab4"
FLATS = "A3 C4 Eb4 F4 A4:4 Bb4 D5 Eb5:4"


@pytest.mark.parametrize(
    ("prefer", "part", "passage"),
    [
        (Preference.LOW, "place", CLIMB),
        (Preference.FEW_SHIFTS, "shift", CLIMB),
        (Preference.FEW_STRETCHES, "stretch", FLATS),
        (Preference.ONE_STRING, "string", CLIMB),
    ],
)
def test_a_preference_buys_less_of_what_it_avoids(
    prefer: Preference, part: str, passage: str
) -> None:
    def amount(preferred: Preference | None) -> float:
        best = solved(passage, VIOLIN, preferred).best
        whole = sum(one.cost.get(part, 0.0) for one in best.placed)
        return whole / COSTS.scale(preferred)[part]

    assert amount(prefer) < amount(None)


def test_low_keeps_the_hand_lower() -> None:
    passage = "E5:4@II F5 G5 A5 B5 C6 D6 C6 B5 A5 G5 F5"

    assert max(places(solved(passage, VIOLIN, Preference.LOW).best)) <= max(
        places(solved(passage).best)
    )


def test_one_string_stays_on_it() -> None:
    best = solved("C5 D5 E5 F5 G5 F5 E5 D5", VIOLIN, Preference.ONE_STRING).best

    assert len({stop[:-1] for stop in stops(best).split()}) == 1


# --- laws -------------------------------------------------------------------------------------


@settings(max_examples=15)
@given(LINES, LINES)
def test_another_bar_never_makes_it_cheaper(first: list[str], more: list[str]) -> None:
    short = solved(text_of(first)).best.cost
    long = solved(f"{text_of(first)} | {text_of(more)}").best.cost

    assert long >= short - 1e-9


@settings(max_examples=15)
@given(LINES)
def test_a_given_finger_never_makes_it_cheaper(notes: list[str]) -> None:
    free = solved(text_of(notes)).best
    marked = solved(f"{text_of(notes)}:2").best

    assert marked.unplayable or marked.cost >= free.cost - 1e-9


@settings(max_examples=15)
@given(LINES)
def test_one_more_string_below_never_makes_it_dearer(notes: list[str]) -> None:
    five = solved(text_of(notes), specimen("five_strings")).best.cost

    assert five <= solved(text_of(notes)).best.cost + 1e-9


@settings(max_examples=15)
@given(LINES)
def test_longer_rests_never_make_it_dearer(notes: list[str]) -> None:
    costs = [solved(f" r={rest} ".join(notes)).best.cost for rest in ("1/16", "1/8", "1/2", "2")]

    assert costs == sorted(costs, reverse=True)


@settings(max_examples=15)
@given(st.lists(st.sampled_from(["E", "F", "F#", "G", "A"]), min_size=2, max_size=6))
def test_a_string_higher_the_same_stops_cost_the_same(letters: list[str]) -> None:
    fifth = {"E": "B4", "F": "C5", "F#": "C#5", "G": "D5", "A": "E5"}
    lower = solved(" ".join(f"{letter}4@III" for letter in letters)).best
    upper = solved(" ".join(f"{fifth[letter]}@II" for letter in letters)).best

    assert lower.cost == pytest.approx(upper.cost)
    assert [one[-1] for one in stops(lower).split()] == [one[-1] for one in stops(upper).split()]


@pytest.mark.parametrize("key", ["violin", "viola", *SPECIMEN_KEYS])
@settings(max_examples=6)
@given(data=st.data())
def test_every_way_is_told_in_full(key: str, data: st.DataObject) -> None:
    instrument = INSTRUMENTS[key]
    low = instrument.strings[-1].midi
    heights = data.draw(st.lists(st.integers(low, low + 30), min_size=1, max_size=12))
    names = ("C", "C#", "D", "Eb", "E", "F", "F#", "G", "G#", "A", "Bb", "B")
    words = [f"{names[height % 12]}{height // 12 - 1}" for height in heights]
    solutions = solved(text_of(words), instrument)
    for way in (solutions.best, solutions.other):
        if way is not None:
            assert way.cost == pytest.approx(sum(sum(one.cost.values()) for one in way.placed))
            assert all(set(one.cost) <= set(PARTS) for one in way.placed)
            assert all(amount > 0 for one in way.placed for amount in one.cost.values())
            for one, height in zip(way.placed, heights, strict=True):
                assert all(
                    stop is None or sounding(instrument, stop) == height for stop in one.stops
                )
    if solutions.other is not None:
        assert solutions.other.cost >= solutions.best.cost - 1e-9
        assert stops(solutions.other) != stops(solutions.best)


def test_the_spelling_of_a_note_changes_nothing() -> None:
    sharp, flat = solved("C#5 D#5 F5 F#5"), solved("Db5 Eb5 F5 Gb5")

    assert stops(sharp.best) == stops(flat.best)
    assert sharp.best.cost == flat.best.cost


def test_the_same_phrase_gives_the_same_twice() -> None:
    passage = phrase("C5 D5 E5 F5 G5 A5 B5 C6 | A3+F4 B3+G4 C4+A4")

    assert solved(passage) == solved(passage)


def test_bars_of_one_number_keep_their_order() -> None:
    one = bar("7", "C2 D4", Fraction(1, 8))
    two = replace(bar("8", "C1 D4", Fraction(1, 8)))

    assert [number for number, _ in solved(Phrase((one, two))).best.unplayable] == ["7", "8"]
