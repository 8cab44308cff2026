"""Head and foot of a page."""

from datetime import date

import pytest
from paper import Recorder, a_drill, violin

from bookgen.binder.desk import Desk, Options, desk_of
from bookgen.binder.head import Frame, draw_frame
from bookgen.binder.map import strip_of
from bookgen.binder.sheet import frame_of
from bookgen.plan.document import Character, Day
from bookgen.readers.layout import read_layout


@pytest.fixture(scope="module")
def desk() -> Desk:
    options = Options(studio="Harbour Lane Strings")
    return desk_of((violin(), "1/2"), read_layout("ordinary"), options)


def a_frame(desk: Desk, player: str | None, page: int = 1) -> Frame:
    day = Day(date(2026, 12, 1), 10.0, (a_drill(),))
    return frame_of(desk, player, day, (strip_of([], violin(), 60.0), "actual size"), (page, 2))


def drawn(frame: Frame) -> Recorder:
    paper = Recorder()
    draw_frame(paper, frame)
    return paper


def test_the_first_page_says_who_when_where_and_how_long(desk: Desk) -> None:
    words = drawn(a_frame(desk, "Ines")).words

    assert words[0] == "Ines"
    assert " ".join(words[1:3]).split() == ["Tuesday,", "1", "December", "2026", "2", "minutes"]
    assert "Violin 1/2 · 1st position · all four strings" in " ".join(words)
    assert "Harbour Lane Strings" in words
    assert "1 of 2" in words


def test_without_a_player_there_is_a_line_to_write_the_name(desk: Desk) -> None:
    named, nobody = drawn(a_frame(desk, "Ines")), drawn(a_frame(desk, None))

    assert nobody.words[0] == "Name"
    assert len(nobody.lines) == len(named.lines) + 1


def test_later_pages_have_a_head_of_one_line(desk: Desk) -> None:
    first, second = a_frame(desk, "Ines"), a_frame(desk, "Ines", page=2)

    assert second.head_height < first.head_height
    assert drawn(second).words[:2] == ["Ines", " · Tuesday, 1 December 2026"]


@pytest.mark.parametrize("page", [1, 2])
def test_every_foot_tells_to_stop_when_it_hurts(desk: Desk, page: int) -> None:
    frame = a_frame(desk, "Ines", page)
    paper = drawn(frame)

    foot = " ".join(text for (_, y), text in paper.texts if y < 30)
    assert "Stop at once if anything hurts or goes numb" in foot
    assert "Not secure?" in foot
    assert min(y for (_, y), _ in paper.texts) >= frame.sheet.bottom


def test_head_room_and_foot_fill_the_page(desk: Desk) -> None:
    frame, paper = a_frame(desk, "Ines"), Recorder()

    parts = frame.head_height + frame.room(paper) + frame.foot_height(paper)
    assert parts == pytest.approx(frame.sheet.top - frame.sheet.bottom)


def test_the_head_says_what_sort_of_day_it_is(desk: Desk) -> None:
    for character, said in ((Character.LIGHT, "lighter day"), (Character.TEST, "cold test")):
        day = Day(date(2026, 12, 1), 10.0, (a_drill(),), character)
        frame = frame_of(desk, "Ines", day, (strip_of([], violin(), 60.0), "x"), (1, 1))
        assert said in " ".join(" ".join(drawn(frame).words).split("\N{NO-BREAK SPACE}"))
