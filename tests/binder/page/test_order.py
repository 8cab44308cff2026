"""Hebrew and Arabic names stand on the line as their readers read them."""

import pypdfium2
import pytest

from bookgen.binder.page.canvas import Face, Style
from bookgen.binder.page.fonts import Fonts
from bookgen.binder.page.names import clean
from bookgen.binder.page.order import in_visual_order, isolated
from bookgen.binder.page.reportlab_canvas import ReportLabCanvas
from bookgen.readers.layout import read_layout


@pytest.fixture(scope="module")
def fonts() -> Fonts:
    return Fonts(read_layout("ordinary").fonts)


@pytest.mark.published("Unicode Standard Annex #9, Bidirectional Algorithm; examples by hand")
@pytest.mark.parametrize(
    ("logical", "visual"),
    [
        ("Ines", "Ines"),
        ("אבג", "גבא"),
        ("Ines אבג", "Ines גבא"),
        ("אב 12 גד", "דג 12 בא"),
        ("א(ב)ג", "ג(ב)א"),
    ],
)
def test_right_to_left_letters_are_in_order(logical: str, visual: str) -> None:
    assert in_visual_order(logical) == visual


@pytest.mark.published("Unicode Standard Annex #9, isolates (X5c); examples by hand")
@pytest.mark.parametrize(
    ("name", "visual"),
    [
        ("אבג", "גבא's drills 6 to 10"),
        ("אבג Ines", "Ines גבא's drills 6 to 10"),
    ],
)
def test_a_name_does_not_turn_the_sentence_around_it(name: str, visual: str) -> None:
    assert in_visual_order(f"{isolated(name)}'s drills 6 to 10") == visual


@pytest.mark.published("The Unicode Standard, Arabic Presentation Forms-B")
@pytest.mark.parametrize(
    ("name", "left_to_right"),
    [
        ("سعد", "\ufeaa\ufecc\ufeb3"),  # final dal, medial ain, initial seen
        ("محمد", "\ufeaa\ufee4\ufea4\ufee3"),
    ],
)
def test_arabic_letters_join(fonts: Fonts, name: str, left_to_right: str) -> None:
    assert "".join(run.text for run in fonts.runs(name, Face.REGULAR)) == left_to_right


def test_joined_letters_are_as_wide_as_they_are_drawn(fonts: Fonts) -> None:
    style = Style(Face.REGULAR, 40)
    name = clean("محمد", fonts.has)
    canvas = ReportLabCanvas(fonts, 100, 40)
    canvas.text((10, 15), name, style)
    pixels = pypdfium2.PdfDocument(canvas.finish())[0].render(scale=4).to_numpy()[:, :, 0]
    inked = (pixels < 128).any(axis=0).nonzero()[0] * 25.4 / 72 / 4
    assert inked[0] >= 10.0 - 0.2
    assert inked[-1] == pytest.approx(10.0 + fonts.width(name, style), abs=1.5)
    assert inked[-1] <= 10.0 + fonts.width(name, style) + 0.2


def test_what_isolates_a_name_is_not_drawn(fonts: Fonts) -> None:
    style = Style(Face.REGULAR, 12)
    assert fonts.width(isolated("אבג"), style) == fonts.width("אבג", style) > 0
