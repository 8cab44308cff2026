"""The cover."""

import msgspec
import pytest
from kit.days_plan import a_desk
from kit.month_plan import STUDIO, a_month, bound_with
from kit.paper import Recorder

from bookgen.binder.page.leaf import side_of
from bookgen.binder.page.order import bare
from bookgen.binder.page.paper import PAPERS
from bookgen.binder.parts.cover import cover_leaf, cover_of
from bookgen.plan.document import Plan

CONTENTS = [("Plan of days", 3), ("Drills by number", 4)]


def drawn(plan: Plan, paper: str = "a5", studio: str | None = STUDIO) -> Recorder:
    canvas, desk = Recorder(), a_desk(paper, studio)
    leaf = cover_leaf(cover_of(plan, "December 2026", desk, CONTENTS))
    list(leaf.draw(canvas, side_of(0, "1", desk.sheet)))
    return canvas


def test_the_cover_says_whose_and_when_and_from_whom() -> None:
    found = drawn(bound_with(a_month(), note="Keep the bow arm level.")).words
    text = " ".join(found)
    for said in ("Ines", "December 2026", "Violin 4/4", STUDIO, "From your teacher"):
        assert said in found
    assert "Keep the bow arm level." in text
    assert "27 days of practice, 10 minutes a day" in text
    assert "20 drills" in text


def test_the_parts_stand_on_it_with_their_pages() -> None:
    found = drawn(a_month()).words
    assert found[found.index("Plan of days") + 1] == "3"


def test_every_spot_of_the_booklet_is_on_the_fingerboard() -> None:
    plan = a_month()
    stops = {
        (stop.string, stop.semitones)
        for entry in plan.drills
        for event in entry.events
        for stop in event.stops
    }
    assert len(set(drawn(plan).spots)) == len(stops)


def test_without_a_note_there_are_lines_to_write_one_where_somebody_teaches() -> None:
    noted = drawn(bound_with(a_month(), note="x"))
    assert len(drawn(a_month()).lines) > len(noted.lines)
    alone = drawn(a_month(), studio=None)
    assert len(alone.lines) == len(noted.lines)
    assert "From your teacher" not in alone.words


def test_without_a_player_there_is_a_line_for_the_name() -> None:
    named, nobody = (drawn(bound_with(a_month(player=who), note="x")) for who in ("Jo", None))
    assert "Name" in nobody.words
    assert len(nobody.lines) == len(named.lines) + 1


def test_long_names_stay_on_the_cover() -> None:
    plan = msgspec.structs.replace(a_month(), player="W" * 60)
    shown = [word for word in drawn(plan, studio="W" * 300).words if set(word) <= {"W", "…"}]
    assert len(shown) == 2
    assert all(word.endswith("…") for word in shown)


def test_marks_in_a_note_are_printed_as_they_were_typed() -> None:
    found = drawn(bound_with(a_month(), note="a <b>b</b>")).words
    assert "a <b>b</b>" in bare(" ".join(found))


@pytest.mark.parametrize("paper", PAPERS)
def test_a_long_note_stays_above_the_contents(paper: str) -> None:
    found = drawn(bound_with(a_month(), note="word " * 900), paper)
    heights = {text: y for (_, y), text in found.texts}
    notes = [y for (_, y), text in found.texts if text.startswith("word")]
    assert len(notes) > 3
    assert min(notes) > heights["Plan of days"] + 3
