"""Where someone begins of whom nothing is known."""

from collections import Counter
from dataclasses import replace

import pytest
from kit.knowing import day, pool_of
from kit.planning import area_of
from kit.shorthand import VIOLIN, events, names

from bookgen.model.drill import Drill
from bookgen.model.music import play
from bookgen.model.place import place_label
from bookgen.model.route import Return
from bookgen.model.spelling import UNUSUAL
from bookgen.planner.start import first_start, rings_well, starts

AREA = area_of(VIOLIN)
STARTS = starts(VIOLIN, AREA)


def test_starts_are_the_drills_of_first_position_and_stage_one_that_ring() -> None:
    slow = {
        drill
        for drill in pool_of(AREA)
        if drill.stage == 1 and place_label(drill, VIOLIN) == "1st"
        if rings_well(events(VIOLIN, drill.key.removeprefix("violin-")), VIOLIN)
    }

    assert set(STARTS) == slow
    assert len(STARTS) == len(slow) > 20


def test_every_start_comes_in_both_leads_and_both_returns() -> None:
    hands = Counter((drill.frame, drill.place, drill.strings) for drill in STARTS)
    ways = {(drill.lead, drill.back) for drill in STARTS}

    assert set(hands.values()) == {4}
    assert len(ways) == 4
    assert STARTS[0].back is Return.MIRROR, "the way up backwards is the easiest to remember"


@pytest.mark.published("common practice, no source")
@pytest.mark.parametrize(
    ("key", "notes", "rings"),
    [
        ("12-whole-place2-strings43-stage1-low-mirror", "A3 B3 E4 F#4", True),  # A and E ring
        ("34-half-place4-strings43-stage1-low-mirror", "B3 C4 F#4 G4", True),  # G, an octave up
        ("12-whole-place1-strings43-stage1-low-mirror", "Ab3 Bb3 Eb4 F4", False),
        ("12-half-place1-strings43-stage1-low-mirror", "G#3 A3 D#4 E4", True),
        ("12-whole-place3-strings43-stage1-low-mirror", "Bb3 C4 F4 G4", True),  # G rings
        ("12-half-place2-strings21-stage1-low-mirror", "B4 C5 F#5 G5", False),  # none rings
        ("12-whole-place2-strings321-stage1-low-mirror", "E4 F#4 B4 C#5", False),  # then F# G#
    ],
)
def test_a_start_is_easily_read_and_an_open_string_answers(
    key: str, notes: str, *, rings: bool
) -> None:
    played = events(VIOLIN, key)

    assert names(played[:4]) == notes
    assert rings_well(played, VIOLIN) is rings


@pytest.mark.parametrize("start", STARTS)
def test_no_start_has_a_note_with_an_unusual_name(start: Drill) -> None:
    pitches = [note.pitch for event in play(start, VIOLIN) for note in event.notes]

    assert not {pitch.name for pitch in pitches} & UNUSUAL
    assert all(abs(pitch.accidental) <= 1 for pitch in pitches)


def test_no_start_comes_again_before_all_have_been() -> None:
    shown = [first_start(VIOLIN, AREA, day(offset), seed=3) for offset in range(len(STARTS))]

    assert set(shown) == set(STARTS)
    assert first_start(VIOLIN, AREA, day(len(STARTS)), seed=3) == shown[0]


def test_the_seed_shuffles_them() -> None:
    runs = {
        tuple(first_start(VIOLIN, AREA, day(offset), seed) for offset in range(4))
        for seed in range(5)
    }

    assert len(runs) == 5


def test_an_area_without_a_start_is_refused() -> None:
    with pytest.raises(ValueError, match="plan-no-start"):
        first_start(VIOLIN, replace(AREA, frames=()), day(0), seed=0)


def test_where_nothing_rings_in_first_position_the_lowest_place_is_the_start() -> None:
    high = replace(AREA, positions=frozenset({"3rd"}))
    start = first_start(VIOLIN, high, day(0), seed=0)

    assert place_label(start, VIOLIN) == "3rd"
    assert all(one.place >= start.place for one in pool_of(high) if one.stage == 1)
