"""Drills that a passage asks for: a shift, one finger, a skipped string, three on two strings."""

from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from kit.refusing import refused, said
from kit.shorthand import VIOLA, VIOLIN, events, names, specimen, strings

from bookgen.model.dimension import Dimension
from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.move import Move, moves_of
from bookgen.model.music import mirrors, play
from bookgen.model.place import place_label, shift_label
from bookgen.model.route import Return
from bookgen.model.spacing import Frame, Spacing
from bookgen.model.stop import Stop
from bookgen.model.units import Semitones, StringNumber

PRACTICE = "common practice, no source"
Step = tuple[int, int, int]
"""String, finger, semitones."""


def drill_of(key: str) -> Drill:
    return Drill.parse_key(f"violin-{key}")


@pytest.mark.published(PRACTICE)
@pytest.mark.parametrize(
    ("key", "notes"),
    [
        (  # first to third position with 1 and 2, string by string, down on the next string
            "12-whole-place2to5-strings43-stage1-low-same",
            "A3 B3 C4 D4 G4 A4 E4 F#4 E4 F#4 G4 A4 C4 D4 A3 B3",
        ),
        (
            "12-whole-place2to5-strings43-stage1-low-mirror",
            "A3 B3 C4 D4 G4 A4 E4 F#4 F#4 E4 A4 G4 D4 C4 B3 A3",
        ),
        ("12-whole-place2to5-strings43-stage2-low-same", "A3 D4 G4 F#4 E4 A4 C4 B3"),
        ("12-whole-place2to5-strings43-stage3-low-same", "A3 A4 G4 B3"),
        ("1-place2to5-strings43-stage1-low-same", "A3 C4 G4 E4 E4 G4 C4 A3"),
        ("1-place2to5-strings432-stage3-low-same", "A3 G4 B4 B4 G4 A3"),
        ("1-place2-strings432-stage3-low-same", "A3 E4 B4 B4 E4 A3"),
        ("1-place2-strings432-stage5-low-same", "A3+E4 E4+B4 B4+E4 E4+A3"),
        ("12-whole-place2-strings42-stage1-low-mirror", "A3 B3 B4 C#5 C#5 B4 B3 A3"),
        ("12-whole-place2-strings42-stage3-low-same", "A3 C#5 B4 B3"),
        (
            "123-whole.half-place2-strings21-stage3-low-same",
            "B4 G#5 D5 F#5 C#5 A5 B4 F#5 C#5 A5 B4 G#5 D5 F#5",
        ),
        (
            "123-whole.half-place2-strings21-stage5-low-mirror",
            "B4+G#5 G#5+D5 D5+F#5 F#5+C#5 C#5+A5 A5+B4 B4+A5 A5+C#5 C#5+F#5 F#5+D5 D5+G#5 G#5+B4",
        ),
    ],
)
def test_as_it_is_played_on_the_violin(key: str, notes: str) -> None:
    assert names(events(VIOLIN, key)) == notes


@pytest.mark.published(PRACTICE)
@pytest.mark.parametrize(
    ("key", "label"),
    [
        ("12-whole-place2to5-strings4321-stage1-low-same", ("1st", "3rd")),
        ("1-place2to9-strings4321-stage1-low-same", ("1st", "5th")),
        ("34-half-place5to7-strings4321-stage1-low-same", ("1st", "2nd")),
        ("12-whole-place2-strings4321-stage1-low-same", ("1st", "1st")),
    ],
)
def test_both_places_have_the_trades_label(key: str, label: tuple[str, str]) -> None:
    drill = drill_of(key)

    assert (place_label(drill, VIOLIN), shift_label(drill, VIOLIN)) == label


def test_the_places_of_a_shift_are_told_where_the_hand_comes_to_them() -> None:
    played = events(VIOLIN, "12-whole-place2to5-strings43-stage1-low-same")

    assert {at: event.shifts for at, event in enumerate(played) if event.shifts} == {
        **dict.fromkeys((2, 10), 3),
        **dict.fromkeys((6, 14), -3),
    }
    assert [played[2].from_previous, played[6].from_previous] == ["m2", "P4"]


# A twin that is slow and plain: one note after the other, by counting


def counted(drill: Drill) -> list[list[Step]]:
    """The steps of the way up and of the way back, by walking the strings note by note."""
    up, hand = upwards(list(drill.strings), drill, drill.place)
    if drill.back is Return.MIRROR:
        return [up, up[::-1]]
    return [up, upwards(list(drill.strings)[::-1], drill, hand)[0]]


def upwards(run: list[StringNumber], drill: Drill, hand: int) -> tuple[list[Step], int]:
    """The steps over strings in that order from where the hand is, and where it comes to be."""
    places, found = [drill.place, drill.upper_place], list[Step]()
    other = {int(places[0]): places[1], int(places[1]): places[0]}

    def sound(string: int, finger: int) -> None:
        found.append((string, finger, hand + drill.frame.offset(finger)))

    match drill.stage:
        case 1 | 2:
            for string in run:
                first = drill.order if drill.stage == 1 else drill.order[:1]
                rest = drill.order if drill.stage == 1 else drill.order[1:]
                for finger in first:
                    sound(string, finger)
                hand = other[hand]
                for finger in rest:
                    sound(string, finger)
        case _:
            count = 7 if (len(run), len(drill.order)) == (2, 3) else len(run)
            for number in range(count):
                if number:
                    hand = other[hand]
                sound(run[number % len(run)], drill.order[number % len(drill.order)])
    return found, hand


@st.composite
def kinds(draw: st.DrawFn) -> tuple[Instrument, Drill]:
    """A drill that shifts, of any instrument; its hand may stay where no stage needs the shift."""
    instrument = draw(st.sampled_from([VIOLIN, VIOLA, specimen("cello")]))
    frames = [
        Frame((1,), ()),
        Frame((2,), ()),
        Frame((4,), ()),
        *(Frame.pair(low, low + 1, Spacing.HALF) for low in (1, 2, 3)),
        Frame.pair(1, 2, Spacing.WHOLE),
        Frame((1, 2, 4), (Spacing.HALF, Spacing.WHOLE)),
    ]
    still = draw(st.sampled_from(frames))
    frame = Frame(still.fingers, still.spacings, Semitones(draw(st.integers(1, 13))))
    drill = Drill(
        instrument.key,
        frame,
        tuple(draw(st.permutations(frame.fingers))),
        Semitones(draw(st.integers(1, 12))),
        draw(st.sampled_from([strings(run) for run in ("43", "321", "4321", "42", "31", "41")])),
        draw(st.integers(1, 3)),
        draw(st.sampled_from(Return)),
    )
    return instrument, drill


@given(kinds())
def test_a_hand_that_shifts_against_counting(found: tuple[Instrument, Drill]) -> None:
    instrument, drill = found
    if drill.refusal(instrument) is not None:
        return
    stops = [event.notes[0].stop for event in play(drill, instrument)]
    up, down = counted(drill)

    assert [(stop.string, stop.finger, stop.semitones) for stop in stops] == up + down
    assert mirrors(drill, instrument) == (up[::-1] == down)


@given(kinds())
def test_its_moves_say_where_the_hand_shifts(found: tuple[Instrument, Drill]) -> None:
    instrument, drill = found
    if drill.refusal(instrument) is not None:
        return
    steps = [step for way in counted(drill) for step in way]
    places = [semitones - drill.frame.offset(finger) for _, finger, semitones in steps]
    slow = {
        Move(stop_of(steps[at - 1]), stop_of(steps[at]), places[at - 1] != places[at])
        for at in range(1, len(steps))
        if steps[at - 1] != steps[at]
    }

    assert moves_of(drill) == slow
    assert any(move.shifts for move in slow)


def stop_of(step: Step) -> Stop:
    string, finger, semitones = step
    return Stop(StringNumber(string), finger, Semitones(semitones))


@given(kinds())
def test_one_finger_shifts_by_the_usual_interval(found: tuple[Instrument, Drill]) -> None:
    instrument, drill = found
    if drill.refusal(instrument) is not None or drill.stage > 1:
        return
    names_by_stop = {
        note.stop: note.pitch for event in play(drill, instrument) for note in event.notes
    }
    for stop, pitch in names_by_stop.items():
        above = Stop(stop.string, stop.finger, Semitones(stop.semitones + drill.frame.shift))
        if above in names_by_stop and drill.frame.shift not in {6, 12}:
            letters = names_by_stop[above].degree - pitch.degree
            usual = {1: 1, 2: 1, 3: 2, 4: 2, 5: 3, 7: 4, 8: 5, 9: 5, 10: 6, 11: 6, 13: 8}
            near = abs(letters - usual[drill.frame.shift])
            doubled = any(abs(name.accidental) > 1 for name in names_by_stop.values())
            assert near == 0 or (near == 1 and not doubled)


@pytest.mark.parametrize("order", list(permutations((1, 2, 3))))
@pytest.mark.parametrize("stage", [3, 4, 5])
@pytest.mark.parametrize("back", list(Return))
def test_three_fingers_on_two_strings_meet_all_their_double_stops(
    order: tuple[int, ...], stage: int, back: Return
) -> None:
    frame = Frame((1, 2, 3), (Spacing.WHOLE, Spacing.HALF))
    drill = Drill("violin", frame, order, Semitones(2), strings("43"), stage, back)
    crossed = {
        frozenset({(move.first.string, move.first.finger), (move.then.string, move.then.finger)})
        for move in moves_of(drill)
        if move.crosses
    }
    every = {frozenset({(4, low), (3, high)}) for low, high in permutations((1, 2, 3), 2)}

    assert drill.refusal(VIOLIN) is None
    assert crossed >= every
    assert (crossed == every) == (back is Return.MIRROR)  # else the turn is a finger on two strings
    up = play(drill, VIOLIN)[: 6 if stage == 5 else None]
    if stage == 5:
        struck = {frozenset((n.stop.string, n.stop.finger) for n in event.notes) for event in up}
        assert struck == every


@pytest.mark.parametrize(
    ("key", "told"),
    [
        ("12-whole-place2to5-strings43-stage4-low-same", "plays one note at a time"),
        ("12-whole-place2to5-strings43-stage5-low-same", "plays one note at a time"),
        ("12-whole-place2-strings42-stage5-low-same", "no neighbours to sound together"),
        ("1-place2-strings43-stage1-low-same", "there is no stage 1, give 3, 4 and 5"),
        ("1-place2-strings43-stage2-low-same", "there is no stage 2, give 3, 4 and 5"),
        ("1-place2to5-strings43-stage2-low-same", "there is no stage 2, give 1 and 3"),
        ("1-place2-strings43-stage3-low-mirror", "both ways back are one and the same"),
        ("1-place2to5-strings43-stage1-low-mirror", "both ways back are one and the same"),
        ("12-whole-place2to23-strings43-stage1-low-same", "past the fingerboard's last stop"),
        ("12-whole-place0to2-strings43-stage1-low-same", "or more semitones above the nut"),
        ("1234-whole.half.whole-place2-strings43-stage3-low-same", "without a note at stage 3"),
        ("123-whole.half-place2to4-strings43-stage3-low-same", None),
        ("1-place2-strings42-stage3-low-same", None),
        ("12-whole-place2to4-strings41-stage3-low-same", None),
    ],
)
def test_what_makes_no_sense_is_refused_as_a_fact(key: str, told: str | None) -> None:
    found = said([drill_of(key).refusal(VIOLIN)])[0]

    assert (found is None) == (told is None)
    assert told is None or told in str(found)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("place2to5", "place5to2"),
        ("place2to5", "place2to2"),
        ("place2to5", "place2to05"),
        ("1-place", "1-whole-place"),
        ("1-place", "1--place"),
        ("1-place", "15-place"),
        ("low", "high"),
        ("43", "421"),
    ],
)
def test_a_second_spelling_of_such_a_key_is_refused(old: str, new: str) -> None:
    key = "violin-1-place2to5-strings43-stage1-low-same"
    assert old in key
    with refused(r"is no |is written|are not|have \d|no order"):
        Drill.parse_key(key.replace(old, new))


@pytest.mark.parametrize(
    ("one", "other", "changes"),
    [
        ("12-whole-place2-", "12-whole-place2to5-", (Dimension.SHIFT,)),
        ("12-whole-place2to4-", "12-whole-place2to5-", (Dimension.SHIFT,)),
        ("12-whole-place2to5-", "12-whole-place3to6-", (Dimension.PLACE,)),
        ("12-whole-place2to5-", "12-whole-place14to17-", (Dimension.OCTAVE,)),
        ("12-whole-place2to5-", "12-half-place2to5-", (Dimension.SPACING,)),
        ("12-whole-place2to5-", "1-place2to5-", (Dimension.PAIR,)),
        ("12-whole-place2to5-", "2-place4to7-", (Dimension.PAIR,)),
        ("1-place2to5-", "2-place2to5-", (Dimension.PAIR,)),
        ("12-whole-place2-", "1-place2to5-", (Dimension.PAIR, Dimension.SHIFT)),
    ],
)
def test_what_one_link_changes(one: str, other: str, changes: tuple[Dimension, ...]) -> None:
    rest = "strings43-stage1-low-same"
    here, there = (drill_of(key + rest) for key in (one, other))

    assert set(here.changes_to(there)) == set(there.changes_to(here)) == set(changes)
