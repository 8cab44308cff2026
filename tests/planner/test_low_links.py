"""Cello and bass: where the fingers say the spacing, other fingers of the hand are one change."""

from datetime import date

import pytest
from kit.planning import dates_from, ordinary_pairs, request_for
from kit.shorthand import VIOLIN

from bookgen.model.dimension import Dimension
from bookgen.model.drill import Drill
from bookgen.model.place import place_label
from bookgen.plan.link import kept
from bookgen.planner.area import Area, string_sets
from bookgen.planner.framing import nested
from bookgen.planner.graph import Graph
from bookgen.planner.month import plan_days
from bookgen.planner.pool import pool
from bookgen.readers.instrument import read_instrument
from bookgen.readers.studio.file import plain_player
from bookgen.readers.weights import read_weights
from bookgen.words.drill import change_words
from bookgen.words.speech import ENGLISH

FIRST = date(2026, 11, 30)
CLOSED = {
    "cello": {(1, 2): 1, (2, 3): 1, (3, 4): 1, (1, 3): 2, (2, 4): 2},
    "double_bass": {(1, 2): 1, (2, 4): 1, (1, 4): 2},
}
"""Semitones between two fingers of the ordinary hand, half and whole steps."""


def graph_of(name: str) -> Graph:
    """First position of an instrument with every pair that its hand takes."""
    instrument = read_instrument(name)
    frames = plain_player(instrument).frames(instrument)
    area = Area(frames, frozenset({"1st"}), string_sets(instrument, 4), 5)
    return Graph(instrument, area, read_weights())


def pair(name: str, fingers: str, steps: str, place: int) -> Drill:
    return Drill.parse_key(f"{name}-{fingers}-{steps}-place{place}-strings4321-stage1-low-same")


@pytest.mark.published("cello teachers; Hause, Simandl: the closed hand")
@pytest.mark.parametrize("name", CLOSED)
def test_a_beginner_meets_every_half_and_whole_step_of_first_position_within_three_weeks(
    name: str,
) -> None:
    instrument = read_instrument(name)
    frames = plain_player(instrument).frames(instrument)
    area = Area(frames, frozenset({"1st"}), string_sets(instrument, 3), 5)
    plan = plan_days(request_for(instrument, area, minutes=20), dates_from(FIRST, 21))
    met = {entry.drill.frame for entry in plan.drills}

    assert {frame.fingers: frame.span for frame in met} == CLOSED[name]


@pytest.mark.parametrize(
    ("wide", "narrow"),
    [
        (("cello", "13", "whole", 2), ("cello", "12", "half", 2)),
        (("cello", "13", "whole", 2), ("cello", "23", "half", 3)),
        (("cello", "24", "whole", 3), ("cello", "34", "half", 4)),
        (("double_bass", "14", "whole", 2), ("double_bass", "12", "half", 2)),
        (("double_bass", "14", "whole", 2), ("double_bass", "24", "half", 3)),
    ],
)
def test_a_pair_within_a_pair_is_one_change_and_keeps_one_finger(
    wide: tuple[str, str, str, int], narrow: tuple[str, str, str, int]
) -> None:
    one, other = pair(*wide), pair(*narrow)
    graph = graph_of(wide[0])

    assert (Dimension.PAIR, other) in graph.neighbours(one)
    assert (Dimension.PAIR, one) in graph.neighbours(other)
    assert one.changes_to(other) == other.changes_to(one) == (Dimension.PAIR,)
    assert kept(one, other) == ("finger",)
    assert change_words(one, other, ENGLISH) == "other fingers, one finger stays"


@pytest.mark.parametrize(
    ("wide", "narrow", "stays"),
    [
        (("14", "minor-third"), ("12", "half"), True),
        (("14", "major-third"), ("12", "whole"), True),
        (("14", "minor-third"), ("12", "whole"), False),
        (("14", "major-third"), ("12", "half"), False),
    ],
)
def test_a_hand_that_opens_besides_is_no_pair_within_a_pair(
    wide: tuple[str, str], narrow: tuple[str, str], *, stays: bool
) -> None:
    one, other = pair("cello", *wide, 2), pair("cello", *narrow, 2)
    found = nested(one.frame, one.place, [other.frame], read_instrument("cello"))

    assert list(found) == ([(other.frame, other.place)] if stays else [])


@pytest.mark.parametrize(
    ("name", "positions"),
    [
        ("cello", ("1st", "4th")),
        ("cello", ("half", "2½", "7th")),
        ("double_bass", ("1st", "3rd", "7th")),
    ],
)
def test_positions_with_a_gap_between_them_are_all_reached(
    name: str, positions: tuple[str, ...]
) -> None:
    instrument = read_instrument(name)
    frames = plain_player(instrument).frames(instrument)
    area = Area(frames, frozenset(positions), string_sets(instrument, 4), 1)
    graph = Graph(instrument, area, read_weights())
    drills = [*pool(instrument, area)]
    reached = {drills[0]}
    last = [drills[0]]
    while last:
        near = [other for one in last for _, other in graph.neighbours(one)]
        last = [one for one in dict.fromkeys(near) if one not in reached]
        reached |= {*last}

    assert reached == {*drills}
    assert {place_label(drill, instrument) for drill in drills} == {*positions}


def test_a_gap_that_other_fingers_lead_over_takes_no_wide_step() -> None:
    area = Area(ordinary_pairs(VIOLIN), frozenset({"1st", "3rd"}), string_sets(VIOLIN, 4), 1)

    assert not Graph(VIOLIN, area, read_weights()).bridges
