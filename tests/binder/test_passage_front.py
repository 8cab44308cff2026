"""The pages before the drills."""

from dataclasses import replace

import pytest
from paper import Recorder, stand_in
from passage_pages import desk, text, with_ladders
from passages import by_hand

from bookgen.binder.leaf import side_of
from bookgen.binder.passage_flow import Thing
from bookgen.binder.passage_front import front_things, section
from bookgen.plan.passage import Passage

LINES = stand_in(3, width_mm=100.0, height_mm=20.0).drills


def things(one: Passage | None = None) -> list[Thing]:
    return list(front_things(text(one), desk(), LINES))


def words(found: list[Thing]) -> str:
    """All words in their order."""
    canvas = Recorder()
    for thing in found:
        list(thing.draw(canvas, side_of(0, "1", desk().sheet), 200.0, 0.0))
    return " ".join(" ".join(canvas.words).split())


def test_parts_stand_in_their_order_in_the_outline() -> None:
    found = [mark.title for thing in things() for mark in thing.marks]

    assert found == [
        *("The passage", "What cannot be played", "The hands", "The placements"),
        "The next best fingering",
    ]


def test_each_line_of_music_goes_to_the_left_of_the_column() -> None:
    side = side_of(0, "1", desk().sheet)
    placed = [one for thing in things() for one in thing.draw(Recorder(), side, 200.0, 0.0)]

    assert [one.drill for one in placed] == [0, 1, 2]
    assert {round(one.left * 25.4 / 72, 6) for one in placed} == {round(side.left, 6)}


def test_the_music_is_as_high_as_its_ink_and_the_key_stays_with_its_last_line() -> None:
    _, first, _, last, key = things()[:5]

    assert first.height == pytest.approx(20.0)
    assert (first.keeps, last.keeps, key.keeps) == (False, True, False)


def test_what_stands_on_the_page_is_said() -> None:
    found = words(things())

    assert "A hard passage" in found
    assert "Harbour Lane Strings" in found
    assert "bars 33\N{EN DASH}38" in found
    assert "Bar 36: F♯3 lies below" in found
    assert "By our table it costs" in found


def test_a_passage_of_notes_alone_has_neither_hands_nor_table() -> None:
    found = things(by_hand("A4 B4", "II0 II1"))

    assert [mark.title for thing in found for mark in thing.marks] == ["The passage"]
    assert "0 placements" in words(found)


def test_the_rows_of_a_table_bring_its_head_along() -> None:
    again = [thing.again for thing in things() if thing.again is not None]

    assert len(again) == len(with_ladders().best.groups) - 1
    assert len({id(one) for one in again}) == 1


def test_a_section_without_items_is_left_out() -> None:
    quiet = replace(with_ladders(), best=replace(with_ladders().best, unplayable=()))

    assert list(section(text(quiet), desk(), "unplayable", "item")) == []
