"""Days on their pages, recorded instead of printed."""

from collections.abc import Sequence

from booklets import a_month, desk, furniture, music_for, pages, views
from paper import Recorder

from bookgen.binder.canvas import Face
from bookgen.binder.flow import Book, Entry, entries_of, spaced, week_leaves
from bookgen.binder.layout import PencilRoom
from bookgen.binder.leaf import Leaf, side_of
from bookgen.plan.document import Plan

PLAN = a_month(6)


def book(plan: Plan = PLAN, paper: str = "a5", *, from_memory: bool = False) -> Book:
    music = music_for(plan, paper).drills
    charts = views(plan, paper)
    return Book(plan, furniture(plan, paper), pages(plan, paper), music, charts, from_memory)


def leaves(found: Book) -> list[Leaf]:
    return list(week_leaves(found, entries_of(found), verso=True))


def drawn(leaf: Leaf, page: int = 1, paper: str = "a5") -> Recorder:
    canvas = Recorder()
    list(leaf.draw(canvas, side_of(page, "1", desk(paper).sheet)))
    return canvas


def test_every_drill_comes_once_in_its_order() -> None:
    titles = [mark.title for leaf in leaves(book()) for mark in leaf.marks if mark.level == 2]

    numbers = [int(title.split(" ")[0]) for title in titles]
    assert numbers == [planned.number for day in PLAN.days for planned in day.drills]


def test_a_heading_stands_above_the_first_drill_of_its_day() -> None:
    for leaf in leaves(book()):
        for before, mark in zip(leaf.marks, leaf.marks[1:], strict=False):
            if before.level == 1:
                assert mark.level == 2, "no heading ends a page"


def test_the_heading_says_what_sort_of_day_it_is() -> None:
    words = " ".join(word for leaf in leaves(book()) for word in drawn(leaf).words)

    assert "Wednesday, 2 December" in words
    assert "10 minutes" in words
    assert "lighter day" in words
    assert "cold test" in words


def test_a_page_is_named_after_its_days() -> None:
    first, *_ = leaves(book())

    assert first.running in {"Tuesday, 1 December", "1 to 2 December"}


def test_all_charts_have_one_scale() -> None:
    scales = {entry.block.chart.view.scale for entry in entries_of(book())}

    assert len(scales) == 1


def test_music_is_placed_where_it_is_not_played_from_memory() -> None:
    side = side_of(1, "2", desk().sheet)

    def places(found: Book) -> Sequence[object]:
        return [p for leaf in leaves(found) for p in leaf.draw(Recorder(), side)]

    assert len(places(book())) == len(entries_of(book()))
    assert places(book(from_memory=True)) == []


def test_how_to_play_is_told_only_where_no_notation_stands() -> None:
    def told(entries: Sequence[Entry]) -> bool:
        return any(
            piece == "Play" and face is Face.BOLD
            for entry in entries
            if entry.block.plays
            for line in (*(line for text in entry.block.texts for line in text), *entry.block.wide)
            for piece, face in line
        )

    assert not told(entries_of(book()))
    assert told(entries_of(book(from_memory=True)))


def test_an_item_of_a_test_has_one_pair_of_boxes() -> None:
    (last,) = {entry.block.plays for entry in entries_of(book()) if entry.day is PLAN.days[4]}

    assert last == 0


def test_what_is_too_little_for_the_pencil_sets_drills_apart() -> None:
    pencil = PencilRoom(page=2.0, most=30.0, line=8.0)

    assert spaced(8.0, 2, pencil) == (4.0, 0.0)
    assert spaced(28.0, 2, pencil) == (9.0, 10.0)
    assert spaced(50.0, 2, pencil) == (25.0, 0.0)
