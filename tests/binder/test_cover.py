"""The cover."""

from dataclasses import replace

import pytest
from booklets import STUDIO, a_month, desk, words
from paper import Recorder

from bookgen.binder.book_words import BookletFacts
from bookgen.binder.cover import cover_leaf
from bookgen.binder.leaf import side_of
from bookgen.plan.document import Plan


def drawn(plan: Plan, note: str | None, paper: str = "a5") -> Recorder:
    canvas = Recorder()
    leaf = cover_leaf(plan, words(plan, paper, BookletFacts("December 2026", note)), desk(paper))
    list(leaf.draw(canvas, side_of(0, "i", desk(paper).sheet)))
    return canvas


def test_the_cover_says_whose_and_when_and_from_whom() -> None:
    found = drawn(a_month(), "Keep the bow arm level.").words

    for said in ("Ines", "December 2026", "Violin 4/4", STUDIO, "From your teacher"):
        assert said in found
    assert "Keep the bow arm level." in found


def test_every_spot_of_the_booklet_is_on_the_fingerboard() -> None:
    plan = a_month()
    stops = {
        (note.stop.string, note.stop.semitones)
        for day in plan.days
        for planned in day.drills
        for event in planned.events
        for note in event.notes
    }

    assert len(set(drawn(plan, None).spots)) == len(stops)


def test_without_a_note_there_are_lines_to_write_one() -> None:
    assert len(drawn(a_month(), None).lines) > len(drawn(a_month(), "x").lines)


def test_without_a_player_there_is_a_line_for_the_name() -> None:
    named, nobody = drawn(a_month(), "x"), drawn(a_month(player=None), "x")

    assert "Name" in nobody.words
    assert len(nobody.lines) == len(named.lines) + 1


def test_long_names_stay_on_the_cover() -> None:
    canvas = Recorder()
    plan, found = a_month(2, player="W" * 60), desk()
    long = replace(words(plan), studio="W" * 300)
    list(cover_leaf(plan, long, found).draw(canvas, side_of(0, "i", found.sheet)))

    shown = [word for word in canvas.words if set(word) <= {"W", "…"}]
    assert len(shown) == 2
    assert all(word.endswith("…") for word in shown)


@pytest.mark.parametrize("paper", ["a5", "a4"])
def test_a_long_note_stays_on_the_page(paper: str) -> None:
    found = drawn(a_month(), "word " * 400, paper)

    assert min(y for (_, y), _ in found.texts) > desk(paper).sheet.bottom
