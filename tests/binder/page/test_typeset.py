"""Words with their cut, broken into lines."""

import pytest
from hypothesis import given
from hypothesis import strategies as some
from kit.paper import Recorder

from bookgen.binder.page.canvas import Face, Style
from bookgen.binder.page.typeset import (
    cut,
    draw_line,
    line_height,
    shorten,
    wrap,
)

BODY = Style(Face.REGULAR, 10.0)


@pytest.mark.parametrize(
    ("markup", "line"),
    [
        ("a <b>b</b>", (("a ", Face.REGULAR), ("b", Face.BOLD))),
        ("<i>a</i>b", (("a", Face.ITALIC), ("b", Face.REGULAR))),
        ("a < b <u> &amp; </p>", (("a < b <u> &amp; </p>", Face.REGULAR),)),
        ("", ()),
    ],
)
def test_two_marks_change_the_cut_and_all_else_is_words(
    markup: str, line: tuple[tuple[str, Face], ...]
) -> None:
    assert cut(markup) == line


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
    lines = wrap(cut("one two\N{NO-BREAK SPACE}three"), 18.0, 10.0, Recorder())

    assert ["".join(text for text, _ in line) for line in lines] == [
        "one",
        "two\N{NO-BREAK SPACE}three",
    ]
