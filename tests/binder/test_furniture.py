"""Head and foot of a booklet's pages."""

import pytest
from booklets import a_month, desk, furniture
from paper import Recorder

from bookgen.binder.canvas import Face, Style
from bookgen.binder.furniture import furniture_of
from bookgen.binder.leaf import side_of


def drawn(page: int, paper: str = "a5") -> Recorder:
    canvas = Recorder()
    around = furniture(a_month(3), paper)
    around.draw(canvas, side_of(page, "12", around.desk.sheet), "Week 1")
    return canvas


def place(canvas: Recorder, word: str) -> tuple[float, float]:
    return next(point for point, text in canvas.texts if text == word)


def test_number_and_contents_stand_outside_the_name_inside() -> None:
    right, left = drawn(0), drawn(1)

    assert place(right, "Week 1")[0] > place(right, "Ines · December 2026")[0]
    assert place(left, "Week 1")[0] < place(left, "Ines · December 2026")[0]
    assert place(right, "12")[0] > 100.0
    assert place(left, "12")[0] < 20.0


@pytest.mark.parametrize("paper", ["a4", "a5", "letter", "half-letter"])
@pytest.mark.parametrize("page", [0, 1])
def test_every_foot_says_when_to_stop_and_what_to_do_if_not_secure(paper: str, page: int) -> None:
    foot = " ".join(text for (_, y), text in drawn(page, paper).texts if y < 30)

    assert "numb" in foot
    assert "stop" in foot
    assert "ot secure" in foot


def test_head_room_and_foot_fill_the_page() -> None:
    around = furniture()
    sheet = around.desk.sheet

    assert around.head + around.room + around.foot == pytest.approx(sheet.top - sheet.bottom)
    assert around.top - around.bottom == pytest.approx(around.room)


def test_a_long_name_leaves_room_for_what_the_page_holds() -> None:
    around = furniture_of(desk(), "W" * 300, None)

    assert around.whose.endswith("…")
    width = desk().fonts.width(around.whose, Style(Face.REGULAR, desk().layout.text.body))
    assert width <= desk().sheet.column / 2


def test_a_template_without_a_caution_still_has_a_number() -> None:
    around, canvas = furniture_of(desk(), "x", None), Recorder()
    around.draw(canvas, side_of(0, "7", desk().sheet), "y")

    assert "7" in canvas.words
