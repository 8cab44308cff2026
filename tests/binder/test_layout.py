"""Layouts refuse what no page can be."""

from dataclasses import replace

import pytest

from bookgen.binder.layout import PAPERS, Arrangement, Margins, Sheet
from bookgen.readers.layout import read_layout


@pytest.mark.published("ISO 216: A4 210 x 297, A5 148 x 210")
def test_papers_are_as_standardised() -> None:
    assert PAPERS["a4"] == (210.0, 297.0)
    assert PAPERS["a5"] == (148.0, 210.0)
    assert PAPERS["letter"] == pytest.approx((8.5 * 25.4, 11 * 25.4))
    assert PAPERS["half-letter"] == pytest.approx((5.5 * 25.4, 8.5 * 25.4))


def test_the_column_is_what_the_margins_leave() -> None:
    sheet = Sheet(210.0, 297.0, Margins(10, 14, 12, 16))

    assert (sheet.column, sheet.top, sheet.bottom) == (180.0, 287.0, 12.0)


@pytest.mark.parametrize(
    ("margins", "problem"),
    [((10, 70, 10, 70), "left and right"), ((120, 10, 100, 10), "top and bottom")],
)
def test_margins_that_leave_no_room_are_refused(
    margins: tuple[float, float, float, float], problem: str
) -> None:
    with pytest.raises(ValueError, match=problem):
        Sheet(210.0, 297.0, Margins(*margins))


def test_a_margin_is_not_negative() -> None:
    with pytest.raises(ValueError, match="right = -1"):
        Margins(1, -1, 1, 1)


@pytest.mark.parametrize("height", [5.9, 10.1])
def test_a_staff_that_cannot_be_read_is_refused(height: float) -> None:
    with pytest.raises(ValueError, match="a staff of"):
        replace(read_layout("ordinary"), staff_height_mm=height)


def test_every_paper_has_margins() -> None:
    layout = read_layout("ordinary")

    assert layout.sheet("a5").width == 148.0
    with pytest.raises(ValueError, match="'a3' is no paper; choose a4, a5, letter"):
        layout.sheet("a3")
    with pytest.raises(ValueError, match="no margins for the paper letter"):
        replace(layout, margins={paper: layout.margins[paper] for paper in ("a4", "a5")})


def test_booklets_have_their_own_arrangements() -> None:
    layout = read_layout("ordinary")

    assert layout.arrangement("a4", booklet=False) is Arrangement.BESIDE
    assert layout.arrangement("a5", booklet=False) is Arrangement.STACKED
    assert layout.arrangement("a4", booklet=True) is Arrangement.ABREAST
    assert layout.arrangement("half-letter", booklet=True) is Arrangement.COMPACT


def test_music_beside_a_chart_is_engraved_narrower() -> None:
    layout = read_layout("ordinary")

    for paper in PAPERS:
        column = layout.sheet(paper).column
        assert layout.music_width(paper) == column
        abreast = layout.arrangement(paper, booklet=True) is Arrangement.ABREAST
        assert (layout.music_width(paper, booklet=True) < column) == abreast
