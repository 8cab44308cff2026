"""The pages after the cover."""

from dataclasses import replace

import pytest
from booklets import FIRST, a_month, desk, furniture, words
from paper import Recorder

from bookgen.binder.book_words import BookletFacts
from bookgen.binder.how_to import how_to_leaves
from bookgen.binder.layout import NoRoomError, Template
from bookgen.binder.leaf import Leaf, side_of
from bookgen.binder.templates import Words

SPAN = (FIRST, FIRST.replace(day=31))
CONTENTS = [("Week 1: 1 to 6 December", "1"), ("Log", "104")]


def leaves(paper: str = "a5", *, from_memory: bool = False) -> list[Leaf]:
    plan = a_month()
    facts = BookletFacts("December 2026", from_memory=from_memory)
    book = words(plan, paper, facts)
    return how_to_leaves(plan, book, furniture(plan, paper), CONTENTS, SPAN)


def told(found: list[Leaf], paper: str = "a5") -> list[Recorder]:
    canvases = [Recorder() for _ in found]
    for number, (leaf, canvas) in enumerate(zip(found, canvases, strict=True), start=1):
        list(leaf.draw(canvas, side_of(number, "ii", desk(paper).sheet)))
    return canvases


@pytest.mark.parametrize("paper", ["a4", "a5", "letter", "half-letter"])
@pytest.mark.parametrize("from_memory", [False, True])
def test_the_cover_and_these_pages_are_even_and_nothing_leaves_them(
    paper: str, *, from_memory: bool
) -> None:
    found = leaves(paper, from_memory=from_memory)

    assert len(found) % 2 == 1
    around = furniture(a_month(), paper)
    for canvas in told(found, paper):
        heights = [y for (_, y), _ in canvas.texts]
        assert min(heights) >= around.bottom - 0.5
        assert max(heights) <= around.top


def test_cautions_contents_and_calendar_are_there() -> None:
    said = " ".join(word for canvas in told(leaves()) for word in canvas.words)

    for words_ in ("hurts or goes numb", "Warm up", "half hour", "medical", "Log", "104", "Mon"):
        assert words_ in said


def test_who_plays_from_memory_is_sent_to_the_answers() -> None:
    plain, memory = (
        " ".join(word for canvas in told(leaves(from_memory=way)) for word in canvas.words)
        for way in (False, True)
    )

    assert "among the answers" in memory
    assert "Ways over the strings" in plain
    assert "Ways over the strings" not in memory, "each drill says how it is played"


@pytest.mark.parametrize("paper", ["a4", "a5"])
def test_the_contents_of_a_year_stay_on_their_page(paper: str) -> None:
    plan = a_month()
    contents = [(f"Week {week}: {week} December", str(7 * week)) for week in range(1, 58)]
    around = furniture(plan, paper)
    found = how_to_leaves(plan, words(plan, paper), around, contents, SPAN)

    canvases = told(found, paper)
    assert sum(canvas.words.count("399") for canvas in canvases) == 1
    assert min(y for canvas in canvases for (_, y), _ in canvas.texts) >= around.bottom - 0.5


def test_more_words_than_pages_are_refused() -> None:
    plan = a_month()
    around = furniture(plan)
    long = Template("how-to.j2", "<heading>x</heading><text>" + "word " * 5000 + "</text>")
    layout = replace(around.desk.layout, templates={"how-to.j2": long})
    around = replace(around, desk=replace(around.desk, words=Words(layout)))

    with pytest.raises(NoRoomError, match="longer than their pages"):
        how_to_leaves(plan, words(plan), around, CONTENTS, SPAN)
