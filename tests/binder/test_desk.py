"""What the pages of a book share."""

import pytest
from paper import a_drill, stand_in, violin

from bookgen.binder.canvas import Face, Style
from bookgen.binder.desk import Desk, Options, desk_of
from bookgen.plan.document import Link
from bookgen.readers.layout import read_layout


@pytest.fixture(scope="module")
def desk() -> Desk:
    return desk_of((violin(), "4/4"), read_layout("ordinary"), Options())


def test_a_name_is_shortened_to_its_room(desk: Desk) -> None:
    name = desk.name("Ines " * 100, 60.0, 17.0)

    assert name is not None
    assert name.endswith("…")
    assert desk.fonts.width(name, Style(Face.BOLD, 17.0)) <= 60.0


@pytest.mark.parametrize("name", [None, "", "  ", "\x00\x1b"])
def test_nobody_is_nobody(desk: Desk, name: str | None) -> None:
    assert desk.name(name, 60.0, 17.0) is None


def test_what_no_font_has_is_shown_as_such(desk: Desk) -> None:
    assert desk.name("Ines 漢", 60.0, 17.0) == "Ines □"
    drill = a_drill(link=Link(None, None, "like 漢"))
    block = desk.block(drill, stand_in(1).drills[0], desk.view_alone(drill))
    assert "".join(text for text, _ in block.link[0]) == "New moves. like □"


def test_an_unknown_paper_is_refused() -> None:
    with pytest.raises(ValueError, match="no paper"):
        desk_of((violin(), "4/4"), read_layout("ordinary"), Options(paper="b5"))
