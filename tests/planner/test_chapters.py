"""Chapters of parallel books: one number for one exercise, on every instrument that has it."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from kit.drills import VIOLIN

from bookgen.model.drill import Drill, Lead
from bookgen.model.instrument import Instrument
from bookgen.model.route import Return
from bookgen.model.spacing import Frame, Spacing
from bookgen.model.units import StringNumber
from bookgen.planner.area import Area
from bookgen.planner.chapters import Asked, Exercise, entries_of, in_each_order, numbered
from bookgen.planner.selection import By, Query, chosen
from bookgen.readers.instrument import read_instrument
from bookgen.readers.weights import read_weights

THREE = {key: read_instrument(key) for key in ("violin", "viola", "cello")}
EFFORT = read_weights().effort
FRAMES = tuple(
    Frame.pair(low, low + 1, spacing)
    for low in (1, 2, 3)
    for spacing in (Spacing.HALF, Spacing.WHOLE)
)
RUN = (tuple(map(StringNumber, (4, 3, 2, 1))),)


def found(positions: set[str], stages: set[int]) -> dict[str, list[Drill]]:
    query = Query(
        Area(FRAMES, frozenset(positions), RUN, 5),
        frozenset(stages),
        frozenset(Lead),
        frozenset({Return.MIRROR}),
    )
    return {key: [*chosen(query, one)] for key, one in THREE.items()}


ASKED = [
    Asked(found({"1st"}, {1, 3}), (By.STAGE,)),
    Asked(found({"1st", "3rd"}, {1, 2, 3}), None, way=True),
    Asked(found({"half"}, {1, 5}), (By.EASIEST,), limit=5),
]
CHAPTERS = numbered(ASKED, THREE, EFFORT)


def shape(drill: Drill) -> str:
    return drill.key.split("-", 1)[1]


def test_numbers_run_from_one_through_all_chapters() -> None:
    numbers = [exercise.number for chapter in CHAPTERS for exercise in chapter]
    assert numbers == list(range(1, len(numbers) + 1))


def test_the_same_exercise_has_the_same_number_on_all_instruments() -> None:
    own = {key: {shape(drill): number for number, drill in numbers_on(key)} for key in THREE}
    shared = own["violin"].keys() & own["cello"].keys()

    assert own["violin"] == own["viola"], "the two have one hand"
    assert shared
    assert own["violin"].keys() != own["cello"].keys()
    assert all(own["violin"][one] == own["cello"][one] for one in shared)


def numbers_on(key: str) -> list[tuple[int, Drill]]:
    return [
        (exercise.number, exercise.drills[key])
        for chapter in CHAPTERS
        for exercise in chapter
        if key in exercise.drills
    ]


@pytest.mark.parametrize("key", THREE)
def test_a_chapter_without_a_limit_has_every_drill_that_none_before_it_has(key: str) -> None:
    one, two, _ = (
        {shape(own[key]) for own in drills(chapter) if key in own} for chapter in CHAPTERS
    )
    asked = [{shape(drill) for drill in chapter.found[key]} for chapter in ASKED]

    assert one == asked[0]
    assert two == asked[1] - asked[0]


def drills(chapter: list[Exercise]) -> list[dict[str, Drill]]:
    return [dict(exercise.drills) for exercise in chapter]


def test_a_limit_counts_the_drills_of_each_instrument() -> None:
    counts = {key: sum(key in own for own in drills(CHAPTERS[2])) for key in THREE}
    assert counts["violin"] == counts["viola"] == 5
    assert counts["cello"] <= 5


def test_what_one_instrument_has_already_another_may_have_later() -> None:
    query = found({"1st"}, {1})
    asked = [Asked({"violin": query["violin"]}), Asked({"cello": query["cello"]})]
    first, later = numbered(asked, THREE, EFFORT)

    assert {*map(shape, query["violin"])} & {*map(shape, query["cello"])}
    assert {one.drills["violin"] for one in first} == {*query["violin"]}
    assert {one.drills["cello"] for one in later} == {*query["cello"]}


def test_no_exercise_stands_twice() -> None:
    shapes = [shape(next(iter(exercise.drills.values()))) for each in CHAPTERS for exercise in each]
    assert len(set(shapes)) == len(shapes)


@pytest.mark.parametrize("instrument", THREE.values(), ids=THREE.keys())
def test_the_drills_of_a_book_rise_and_each_link_is_to_one_of_them(instrument: Instrument) -> None:
    entries = [
        entry for each in entries_of(CHAPTERS, instrument, [{}] * len(CHAPTERS)) for entry in each
    ]
    here = {entry.number: entry.drill for entry in entries}

    assert all(one.number < other.number for one, other in pairwise(entries))
    for entry in entries:
        if entry.link.to is not None:
            assert isinstance(entry.link.to, int)
            assert here[entry.link.to].changes_to(entry.drill) == (entry.link.changes,)


def test_picked_drills_stay_as_they_stand() -> None:
    keys = (
        "violin-12-whole-place4-strings4321-stage3-low-same",
        VIOLIN_START,
    )
    picked = [*map(Drill.parse_key, keys)]
    ((one, other),) = numbered([Asked({"violin": picked}, None)], {"violin": VIOLIN}, EFFORT)

    assert [one.drills["violin"], other.drills["violin"]] == picked


VIOLIN_START = "violin-12-whole-place2-strings4321-stage1-low-same"


@given(st.permutations("abcdefgh"), st.lists(st.sets(st.sampled_from("abcdefgh")), max_size=4))
def test_rows_of_one_order_keep_it_each(order: list[str], chosen: list[set[str]]) -> None:
    rows = [[one for one in order if one in row] for row in chosen]
    whole = [*in_each_order(rows)]

    assert sorted(whole) == sorted(set().union(*chosen))
    for row in rows:
        assert [one for one in whole if one in row] == row


@given(st.lists(st.lists(st.sampled_from("abcd"), unique=True), max_size=4))
def test_each_comes_once_whatever_rows_say(rows: list[list[str]]) -> None:
    whole = [*in_each_order(rows)]

    assert sorted(whole) == sorted({one for row in rows for one in row})
    assert [*in_each_order(rows[:1])] == [*in_each_order(rows[:1] * 2)] == (rows or [[]])[0]


def test_what_leads_to_a_drill_comes_before_it_on_each_instrument() -> None:
    """The viola has the second hand string by string first; the violin has it not at all."""
    first, second = "12-whole-place2-strings4321", "23-half-place4-strings4321"
    rows = {
        "violin": [f"{first}-stage1", f"{first}-stage3", f"{second}-stage3"],
        "viola": [f"{second}-stage1", f"{second}-stage3"],
    }
    asked = {
        key: [Drill.parse_key(f"{key}-{one}-low-same") for one in row] for key, row in rows.items()
    }
    (chapter,) = numbered([Asked(asked, None)], THREE, EFFORT)

    told = [shape(next(iter(one.drills.values()))).removesuffix("-low-same") for one in chapter]
    assert told == [*rows["violin"][:2], *rows["viola"]]
    assert [one.number for one in chapter] == [1, 2, 3, 4]
    assert chapter[3].drills.keys() == {"violin", "viola"}
