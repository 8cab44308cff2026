"""Mark-up read and broken into lines."""

import pytest
from hypothesis import given
from hypothesis import strategies as some
from paper import Recorder

from bookgen.binder.canvas import Face, Style
from bookgen.binder.typeset import (
    MarkupError,
    Paragraph,
    draw_line,
    line_height,
    paragraphs,
    shorten,
    wrap,
)

PARTS = frozenset({"title", "text"})
BODY = Style(Face.REGULAR, 10.0)


def test_weight_and_escapes_are_read() -> None:
    (found,) = paragraphs("<text>\n a <b>b &amp; c</b>\n d</text>", PARTS)

    assert found == Paragraph(
        "text", (("a ", Face.REGULAR), ("b & c", Face.BOLD), (" d", Face.REGULAR))
    )
    assert found.plain == "a b & c d"


def test_an_empty_part_is_no_paragraph() -> None:
    assert paragraphs("<text> </text><title>x</title>", PARTS)[0].part == "title"


@pytest.mark.parametrize(
    "markup",
    ["x", "<text>x", "<text><title>x</title></text>", "</text>", "<u>x</u>", "<text>a < b"],
)
def test_what_is_no_markup_is_refused(markup: str) -> None:
    with pytest.raises(MarkupError):
        paragraphs(markup, PARTS)


@given(some.text(alphabet="ab ,", min_size=1, max_size=80), some.floats(12, 60))
def test_lines_fit_and_no_word_is_lost(text: str, width: float) -> None:
    paper = Recorder()
    lines = wrap([(text, Face.REGULAR)], width, 10.0, paper)

    for line in lines:
        assert sum(paper.width(piece, BODY) for piece, _ in line) <= width + 1e-9
    set_again = " ".join("".join(piece for piece, _ in line) for line in lines).split()
    if all(paper.width(word, BODY) <= width for word in text.split()):
        assert set_again == text.split()


def test_a_word_too_wide_ends_in_an_ellipsis() -> None:
    paper = Recorder()

    short = shorten("Wolfeschlegelsteinhausenberger", 20.0, BODY, paper)
    assert short.endswith("…")
    assert paper.width(short, BODY) <= 20.0
    assert paper.width(short + "x", BODY) > 20.0


def test_a_line_is_set_piece_behind_piece() -> None:
    paper = Recorder()

    draw_line(paper, (10.0, 5.0), (("ab", Face.BOLD), ("c", Face.REGULAR)), 10.0)
    (first, _), (second, _) = paper.texts
    assert second[0] - first[0] == pytest.approx(paper.width("ab", BODY))


@pytest.mark.published("definition of the DTP point: 1/72 inch")
def test_lines_of_ten_points_lie_a_fifth_more_apart() -> None:
    assert line_height(10.0, 1.2) == pytest.approx(12 / 72 * 25.4)


def test_words_that_belong_together_stay_so() -> None:
    (found,) = paragraphs("<text>one\ntwo\N{NO-BREAK SPACE}three</text>", PARTS)
    lines = wrap(found.pieces, 18.0, 10.0, Recorder())

    assert found.plain == "one two\N{NO-BREAK SPACE}three"
    assert ["".join(text for text, _ in line) for line in lines] == [
        "one",
        "two\N{NO-BREAK SPACE}three",
    ]
