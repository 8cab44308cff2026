"""Paragraphs under each other."""

import pytest
from hypothesis import given
from hypothesis import strategies as some
from paper import Recorder

from bookgen.binder.canvas import Face
from bookgen.binder.prose import (
    Look,
    Set,
    balanced,
    draw_prose,
    height_of,
    set_prose,
    share_columns,
)
from bookgen.binder.typeset import Paragraph

LOOKS = {"heading": Look(12.0, above=3.0, heads=True), "item": Look(10.0, 1.0, 4.0, 2.0, "*")}


def a_set(lines: int, *, heads: bool = False) -> Set:
    line = (("x", Face.REGULAR),)
    return Set(Look(10.0, above=2.0, heads=heads), (line,) * lines, 5.0)


SETS = some.lists(some.builds(a_set, some.integers(1, 5), heads=some.booleans()), max_size=25)


def test_a_part_without_a_look_is_left_out() -> None:
    found = [Paragraph("heading", (("a", Face.BOLD),)), Paragraph("other", (("b", Face.BOLD),))]

    assert len(set_prose(found, LOOKS, 100.0, 1.2, Recorder())) == 1


def test_lines_are_indented_and_begin_with_their_bullet() -> None:
    found = [Paragraph("item", (("word " * 20, Face.REGULAR),))]
    paper = Recorder()
    sets = set_prose(found, LOOKS, 50.0, 1.2, paper)
    end = draw_prose(paper, sets, 20.0, 100.0)

    (bullet, text), (first, _), (second, _), *_ = paper.texts
    assert (bullet[0], text) == (20.0, "*")
    assert first[0] == 24.0
    assert second[0] == 26.0
    assert 100.0 - end == pytest.approx(height_of(sets))


@given(SETS)
def test_no_paragraph_is_lost_and_no_column_too_high(sets: list[Set]) -> None:
    columns = share_columns(sets, 60.0)

    assert [one for column in columns for one in column] == sets
    for column in columns:
        assert height_of(column) <= 60.0 or all(one.look.heads for one in column[:-1])


@given(SETS)
def test_no_heading_ends_a_column(sets: list[Set]) -> None:
    columns = share_columns(sets, 60.0)

    for column in columns[:-1]:
        assert not column[-1].look.heads


@given(SETS)
def test_balanced_columns_are_as_few_and_lower(sets: list[Set]) -> None:
    room = height_of(sets) + 1.0
    columns = balanced(sets, room, 2)

    assert len(columns) <= 2
    assert [one for column in columns for one in column] == sets
