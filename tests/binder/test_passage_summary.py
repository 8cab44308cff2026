"""What is said of a passage as a whole."""

from dataclasses import replace

import pytest
from passage_pages import with_ladders
from passages import by_hand, passage
from shorthand import VIOLIN

from bookgen.binder.passage_summary import (
    PassageWords,
    costs_apart,
    differences,
    drills_as_one_day,
    passage_words,
    played,
    with_signs,
)
from bookgen.plan.passage import Fingering, Passage

DASH = "\N{EN DASH}"


def words_of(one: Passage) -> PassageWords:
    return passage_words(one, VIOLIN, ("Title", None), ("actual size", "half"), str)


def with_other(one: Passage, other: Passage) -> Passage:
    return replace(one, other=other.best)


def test_a_passage_counts_its_placements_and_its_hands() -> None:
    found = words_of(passage())
    groups = passage().best.groups

    assert (found.groups, found.hands) == (
        len(groups),
        len([group for group in groups if group.same_as is None]),
    )
    assert found.where == f"bars 33{DASH}38"
    assert found.crosses


def test_what_cannot_be_played_is_told_by_its_bar_with_signs() -> None:
    (one,) = words_of(passage()).unplayable

    assert one[0] == "bar 36"
    assert "F♯3" in one[1]


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("F#3 and Bb-1", "F♯3 and B♭-1"),
        ("A4 to C5", "A4 to C5"),
        ("B##4", "B♯♯4"),
        ("Abb4x", "Abb4x"),
    ],
)
def test_altered_pitches_are_written_as_on_the_page(text: str, shown: str) -> None:
    assert with_signs(text) == shown


def test_where_the_next_best_differs_is_told_by_fingers_and_strings() -> None:
    one = by_hand("A4 B4 C5 D5 | E5 F5", "II0 II1 II2 II3 I0 I1")
    other = by_hand("A4 B4 C5 D5 | E5 F5", "III4 II1 II2 II3 II4 I1")
    found = list(differences(with_other(one, other), str))

    assert [(each.where, each.best, each.other) for each in found] == [
        ("bar 33", "0 on II", "4 on III"),
        ("bar 34", "0 on I", "4 on II"),
    ]


def test_positions_are_told_where_groups_have_them_and_long_runs_are_cut() -> None:
    grouped = by_hand("A4 B4 C5 D5", "II0 II1 II2 II3", [(0, 3)])
    long = by_hand("A4 " * 16, "II0 " * 16)
    zigzag = by_hand("A4 E5 A4 E5 A4 E5", "II0 I0 II0 I0 II0 I0")
    chord = by_hand("D4+B4 F#3", "III0+II1 -")

    assert told(grouped, 3) == "1st position, 0 1 2 3 on II"
    assert told(long, 15) == "0 0 0 0 0 0 0 0 0 0 on II …"
    assert told(zigzag, 5) == "0 on II, 0 on I, 0 on II, 0 on I …"
    assert told(chord, 1) == f"0+1 on III+II, {DASH} on no string"


def told(one: Passage, last: int) -> str:
    return played(one.best, one.phrase, 0, last)


def test_the_parts_of_the_cost_are_named_from_the_greatest() -> None:
    one = by_hand("A4 B4", "II0 II1").best

    def priced(*costs: dict[str, float]) -> Fingering:
        placed = (replace(each, cost=cost) for each, cost in zip(one.placed, costs, strict=True))
        return replace(one, placed=tuple(placed))

    best = priced({"shift": 1.0, "open": 0.5}, {"string": 0.2})
    other = priced({"shift": 1.5}, {"string": 0.22, "high": 2.0})

    found = costs_apart(best, other)
    assert list(found) == ["high", "open", "shift"]
    assert list(found.values()) == pytest.approx([2.0, -0.5, 0.5])


def test_the_next_best_of_a_solved_passage_costs_more_for_a_reason() -> None:
    found = words_of(passage())

    assert found.differences
    assert found.dearer
    assert found.by >= 0


def test_without_another_fingering_and_without_drills_nothing_is_said() -> None:
    found = words_of(replace(passage(), other=None))

    assert (found.differences, found.dearer, found.by) == ((), (), 0)
    assert (found.steps, found.intervals, found.dashed) == ((), (), False)
    assert drills_as_one_day(passage()) is None


def test_the_signs_of_the_drills_are_explained_as_on_a_sheet() -> None:
    found = words_of(with_ladders())

    assert found.steps == ("half", "whole")
    assert ("P4", "perfect fourth") in found.intervals
    assert found.dashed
