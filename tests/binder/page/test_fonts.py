"""Which font prints which character."""

import pytest

from bookgen.binder.page.canvas import Face, Style
from bookgen.binder.page.fonts import REPLACEMENT, Fonts, MissingGlyphError
from bookgen.readers.layout import read_layout


@pytest.fixture
def fonts() -> Fonts:
    return Fonts(read_layout("ordinary").fonts)


def test_signs_come_from_the_face_that_has_them(fonts: Fonts) -> None:
    runs = list(fonts.runs("F♯4", Face.BOLD))

    assert [run.text for run in runs] == ["F", "♯", "4"]
    assert runs[1].font.startswith("DejaVuSans-Bold-")
    assert runs[0].font == runs[2].font
    assert runs[0].font.startswith("PT_Serif-Web-Bold-")


def test_every_sign_of_ours_is_there(fonts: Fonts) -> None:
    assert all(fonts.has(character) for character in f"♯♭♮½·\N{EN DASH}…“”{REPLACEMENT}")


def test_a_missing_glyph_of_ours_is_a_defect(fonts: Fonts) -> None:
    assert not fonts.has("漢")
    with pytest.raises(MissingGlyphError, match=r"U\+6F22"):
        fonts.width("漢", Style(Face.REGULAR, 10.0))


def test_width_is_in_millimetres(fonts: Fonts) -> None:
    one, ten = (fonts.width("n" * count, Style(Face.REGULAR, 10.0)) for count in (1, 10))

    assert ten == pytest.approx(10 * one)
    assert 1.5 < one < 2.6
