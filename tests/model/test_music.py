"""The notes of a drill: held, crossing, grouped and named."""

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from kit.refusing import refused
from kit.shorthand import VIOLA, VIOLIN, drills, events, names, specimen

from bookgen.errors import RefusedError
from bookgen.model.drill import Drill
from bookgen.model.event import Begins, Event
from bookgen.model.instrument import Instrument
from bookgen.model.interval import interval_label
from bookgen.model.music import layings, length_of, mirrors, play, turn_of
from bookgen.model.pitch import Pitch
from bookgen.model.way import way_of

PRACTICE = "common practice, no source"
BASS = specimen("double_bass")
CELLO = specimen("cello")
ALL_TUNINGS = [VIOLIN, VIOLA, specimen("five_strings"), BASS, CELLO, specimen("six_string_viol")]


def crossings(played: tuple[Event, ...]) -> tuple[list[str | None], list[str | None]]:
    """Intervals at the changes of string, on the way up and on the way back."""
    turn = next(index for index, event in enumerate(played) if event.begins is Begins.TURN)
    ways = (played[:turn], played[turn:])
    up, down = ([event.from_previous for event in way if event.crosses] for way in ways)
    return up, down


@pytest.mark.published(PRACTICE)
@pytest.mark.parametrize(
    ("spacing", "back", "up", "down"),
    [
        ("whole", "same", "P4", "M6"),
        ("whole", "mirror", "P4", "P4"),
        ("half", "same", "A4", "m6"),
        ("half", "mirror", "A4", "A4"),
    ],
)
@pytest.mark.parametrize("instrument", [VIOLIN, VIOLA], ids=lambda one: one.key)
def test_crossings_of_stage_1_from_a_whole_or_half_step(
    instrument: Instrument, spacing: str, back: str, up: str, down: str
) -> None:
    played = events(instrument, f"12-{spacing}-place2-strings4321-stage1-low-{back}")

    assert crossings(played) == ([up] * 3, [down] * 3)


@pytest.mark.published(PRACTICE)
@pytest.mark.parametrize(
    ("key", "up", "down"),
    [
        ("12-whole-place2-strings4321-stage1-high-same", "M6 M6 M6", "P4 P4 P4"),
        ("12-whole-place2-strings4321-stage2-low-same", "M6 M6 M6", "P4 P4 P4"),
        ("12-whole-place2-strings4321-stage2-high-same", "P4 P4 P4", "M6 M6 M6"),
        ("12-whole-place2-strings4321-stage3-low-mirror", "M6 P4 M6", "M6 P4 M6"),
        ("12-whole-place2-strings4321-stage3-low-same", "M6 P4 M6", "P4 M6 P4"),
        ("12-half-place2-strings4321-stage3-low-mirror", "m6 A4 m6", "m6 A4 m6"),
        ("13-minor-third-place2-strings4321-stage3-low-mirror", "m7 M3 m7", "m7 M3 m7"),
        ("24-major-third-place4-strings4321-stage1-low-same", "m3 m3 m3", "M7 M7 M7"),
        ("1234-whole.half.whole-place2-strings4321-stage3-low-mirror", "M6 m6 M6", "M6 m6 M6"),
        ("1234-whole.half.whole-place2-strings4321-stage1-low-same", "M2 M2 M2", "P8 P8 P8"),
    ],
)
def test_crossings_on_the_violin(key: str, up: str, down: str) -> None:
    assert crossings(events(VIOLIN, key)) == (up.split(), down.split())


@pytest.mark.published("Simandl's hand of the double bass, from memory; intervals common practice")
@pytest.mark.parametrize(
    ("key", "up", "down"),
    [
        ("14-whole-place1-strings4321-stage1-low-same", "m3 m3 m3", "P5 P5 P5"),
        ("14-whole-place1-strings4321-stage1-low-mirror", "m3 m3 m3", "m3 m3 m3"),
        ("14-whole-place1-strings4321-stage3-low-mirror", "P5 m3 P5", "P5 m3 P5"),
        ("12-half-place1-strings4321-stage1-low-same", "M3 M3 M3", "d5 d5 d5"),
        ("24-half-place2-strings4321-stage1-low-same", "M3 M3 M3", "d5 d5 d5"),
    ],
)
def test_crossings_on_a_double_bass_in_fourths(key: str, up: str, down: str) -> None:
    assert crossings(events(BASS, key)) == (up.split(), down.split())


@pytest.mark.published("Simandl's hand of the double bass, from memory")
def test_the_basss_half_position_on_the_g_string_is_g_sharp_a_b_flat() -> None:
    played = events(BASS, "124-half.half-place1-strings21-stage1-low-same")

    heights = [event.notes[0].pitch.midi for event in played[3:6]]
    assert heights == [Pitch.parse(name).midi for name in ("G#3", "A3", "Bb3")]
    assert names(played[2:4]) == "F3 Ab3", "a minor third over the strings, and so it is written"


@pytest.mark.published(PRACTICE)
@pytest.mark.parametrize(
    ("key", "notes"),
    [
        (
            "12-whole-place2-strings4321-stage1-low-same",
            "A3 B3 E4 F#4 B4 C#5 F#5 G#5 F#5 G#5 B4 C#5 E4 F#4 A3 B3",
        ),
        ("12-whole-place2-strings43-stage4-low-mirror", "A3 ~A3+F#4 ~F#4 F#4 ~F#4+A3 ~A3"),
        (
            "12-whole-place2-strings432-stage4-low-same",
            "A3 ~A3+F#4 ~F#4 ~F#4+B4 ~B4 B4 ~B4+F#4 ~F#4 ~F#4+A3 ~A3",
        ),
        (
            "12-whole-place2-strings4321-stage5-low-mirror",
            "A3+F#4 F#4+B4 B4+G#5 G#5+B4 B4+F#4 F#4+A3",
        ),
        (
            "12-whole-place2-strings4321-stage5-low-same",
            "A3+F#4 F#4+B4 B4+G#5 F#5+C#5 C#5+E4 E4+B3",
        ),
    ],
)
def test_notes_as_they_are_played(key: str, notes: str) -> None:
    assert names(events(VIOLIN, key)) == notes


def test_overlap_names_the_interval_when_the_note_joins_and_not_while_it_is_held() -> None:
    played = events(VIOLIN, "12-whole-place2-strings4321-stage4-low-same")

    assert [event.within for event in played[:7]] == [None, "M6", None, "P4", None, "M6", None]
    assert [event.from_previous for event in played[:8]] == [
        None,
        "M6",
        None,
        "P4",
        None,
        "M6",
        None,
        "M2",
    ]
    assert [event.crosses for event in played[:8]] == [
        False,
        True,
        False,
        True,
        False,
        True,
        False,
        False,
    ]
    assert [event.begins for event in played].count(Begins.TURN) == 1
    assert played[7].begins is Begins.TURN
    assert [note.held for note in played[1].notes] == [True, False]


def test_double_stops_are_struck_together_for_twice_as_long() -> None:
    played = events(VIOLIN, "12-whole-place2-strings4321-stage5-low-mirror")

    assert [event.within for event in played] == ["M6", "P4", "M6", "M6", "P4", "M6"]
    assert [event.from_previous for event in played] == [None, "P4", "M6", "M6", "P4", "M6"]
    assert [event.duration for event in played] == [Fraction(1, 2)] * 6
    assert not any(note.held for event in played for note in event.notes)
    assert [event.begins for event in played] == ["", "", "", "turn", "", ""]


def test_groups_begin_at_each_laying_of_the_hand() -> None:
    played = events(VIOLIN, "12-whole-place2-strings432-stage2-low-same")

    assert names(played) == "A3 F#4 E4 C#5 B4 F#4 E4 B3"
    assert [event.begins for event in played] == ["", "", "group", "", "turn", "", "group", ""]


def test_what_the_hand_does_not_take_is_not_played_and_says_why() -> None:
    with refused("no whole spacing between fingers 2 and 3"):
        events(CELLO, "23-whole-place2-strings4321-stage1-low-same")


@given(st.sampled_from(ALL_TUNINGS), st.data())
def test_play_raises_for_exactly_the_drills_that_are_refused(
    instrument: Instrument, data: st.DataObject
) -> None:
    drill = data.draw(drills(instrument))
    refusal = drill.refusal(instrument)
    if refusal is None:
        heights = [note.stop.semitones for event in play(drill, instrument) for note in event.notes]
        assert min(heights) >= drill.place
        assert max(heights) <= instrument.highest_stop
        return
    with pytest.raises(RefusedError) as raised:
        play(drill, instrument)
    assert raised.value.message == refusal


@st.composite
def playable(draw: st.DrawFn) -> tuple[Instrument, Drill]:
    instrument = draw(st.sampled_from([VIOLIN, VIOLA, specimen("five_strings")]))
    drill = draw(drills(instrument))
    assume(drill.refusal(instrument) is None)
    return instrument, drill


@settings(max_examples=60, suppress_health_check=[HealthCheck.filter_too_much])
@given(playable())
def test_laws_of_what_is_played(found: tuple[Instrument, Drill]) -> None:
    instrument, drill = found
    played = play(drill, instrument)

    every_note_sounds_where_its_finger_stands(played, drill, instrument)
    every_label_is_the_interval_of_its_two_notes(played)
    notes = [note.stop for event in played for note in event.notes]
    assert {stop.string for stop in notes} == set(drill.strings)
    assert {stop.finger for stop in notes} == set(drill.frame.fingers)
    assert [event.begins for event in played].count(Begins.TURN) == 1
    assert played[0].begins is Begins.NOTHING
    assert length_of(drill) == sum(event.duration for event in played), "without naming"


def every_note_sounds_where_its_finger_stands(
    played: tuple[Event, ...], drill: Drill, instrument: Instrument
) -> None:
    for event in played:
        for note in event.notes:
            open_string = instrument.open_pitch(note.stop.string)
            assert note.pitch.midi == open_string.midi + note.stop.semitones
            place = note.stop.semitones - drill.frame.offset(note.stop.finger)
            assert place in {drill.place, drill.place + drill.frame.shift}


def every_label_is_the_interval_of_its_two_notes(played: tuple[Event, ...]) -> None:
    assert played[0].from_previous is None
    for before, after in pairwise(played):
        new, last = after.notes[-1], before.notes[-1]
        if new.held:
            assert (after.from_previous, after.crosses) == (None, False)
            assert new.stop == last.stop
        else:
            assert after.from_previous == interval_label(last.pitch, new.pitch)
            assert after.crosses == (last.stop.string != new.stop.string)
    for event in played:
        assert (event.within is None) == (len(event.notes) == 1)
        if event.within is not None:
            assert event.within == interval_label(event.notes[0].pitch, event.notes[1].pitch)


@given(drills(VIOLIN))
def test_a_way_back_mirrors_where_the_steps_run_backwards(drill: Drill) -> None:
    if drill.refusal(VIOLIN) is not None:
        return
    way = way_of(drill)
    up, down = ([step for group in groups for step in group] for groups in (way.up, way.down))

    assert mirrors(drill, VIOLIN) == (up[::-1] == down)


@pytest.mark.parametrize(
    ("key", "mirrored"),
    [
        ("12-whole-place2-strings4321-stage1-low-mirror", True),
        ("12-whole-place2-strings4321-stage1-low-same", False),
        ("12-whole-place2-strings4321-stage4-low-mirror", True),
        ("12-whole-place2-strings321-stage3-low-same", True),  # ends with the finger that leads
        ("123-whole.half-place2-strings321-stage3-low-same", False),
    ],
)
def test_same_mirrors_where_the_finger_that_leads_also_ends_the_way_up(
    key: str, *, mirrored: bool
) -> None:
    assert mirrors(Drill.parse_key(f"violin-{key}"), VIOLIN) is mirrored


@given(drills(VIOLIN))
def test_layings_are_all_events_and_one_begins_at_the_turn(drill: Drill) -> None:
    if drill.refusal(VIOLIN) is not None:
        return
    played = play(drill, VIOLIN)
    laid = layings(played)

    assert [event for laying in laid for event in laying] == list(played)
    assert played[turn_of(played)] in [laying[0] for laying in laid]
    assert turn_of(played[: turn_of(played)]) == turn_of(played)
