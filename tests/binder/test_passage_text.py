"""passage.j2, filled for everything that it is filled for."""

from dataclasses import replace

import pytest
from passage_pages import desk, text, with_ladders
from passages import by_hand

from bookgen.binder.layout import Template
from bookgen.binder.passage_text import fill, text_of
from bookgen.binder.templates import Words
from bookgen.errors import BookgenError


def test_each_group_has_its_row_and_hands_that_differ_their_chart() -> None:
    found = text()

    assert [words.letter for words, _ in found.groups] == [
        group.letter for group in found.passage.best.groups
    ]
    different = [
        group
        for group in found.passage.best.groups
        if group.same_as is None and group.frame is not None
    ]
    assert sum(len(row.charts) for row in found.hands) == len(different)


def test_a_title_is_printed_as_far_as_it_fits() -> None:
    hostile = with_ladders('<b>\x00"{{ 7 * 7 }}" \N{CJK UNIFIED IDEOGRAPH-6F22}' + "x" * 600)

    title = text(hostile).facts.title
    assert title.startswith('<b> "{{ 7 * 7 }}" \N{WHITE SQUARE}')
    assert title.endswith("…")
    assert text(hostile).plain("title") == title


def test_a_passage_without_groups_has_no_charts() -> None:
    found = text(by_hand("A4 B4", "II0 II1"))

    assert (found.groups, found.hands, found.facts.scale) == ([], [], "")
    assert found.plain("unplayable") == ""


def test_a_damaged_template_is_told() -> None:
    layout = desk().layout
    templates = {
        **layout.templates,
        "passage.j2": Template("mine/passage.j2", "<title>{{ x }}</title>"),
    }
    words = Words(replace(layout, templates=templates))

    with pytest.raises(BookgenError, match=r"mine/passage.j2"):
        fill(replace(desk(), words=words))


@pytest.mark.parametrize("paper", ["a4", "a5", "letter", "half-letter"])
def test_it_is_filled_for_every_paper(paper: str) -> None:
    assert text_of(with_ladders(), desk(paper)).plain("caution").startswith("Stop at once")
