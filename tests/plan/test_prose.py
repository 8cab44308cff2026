"""The small part of Markdown that texts of a book may have."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookgen.errors import RefusedError
from bookgen.plan.prose import paragraphs

REFUSED = [
    "# Heading",
    "- item",
    "* item",
    "+ item",
    "1. item",
    "> quotation",
    "| a | b |",
    "```",
    "~~~",
    "---",
    "* * *",
    "Title\n=====",
    "a `word`",
    "![picture](x.png)",
    "[link](x)",
    "[1]: x",
    "<b>bold</b>",
    "<!-- note -->",
    "a &amp; b",
    "***both***",
    "_slowly_",
    "__slowly__",
    "https://example.org",
]


@pytest.mark.parametrize("text", REFUSED)
def test_what_else_markdown_has_is_refused_with_its_line(text: str) -> None:
    with pytest.raises(RefusedError) as caught:
        paragraphs(f"First.\n\nSecond.\n{text}\n")
    assert caught.value.message.text == "prose-markdown"
    assert caught.value.message.facts["line"] in {4, 5}


@pytest.mark.parametrize("text", ["**open", "open*", "a *b", "a **b* c"])
def test_an_emphasis_that_is_not_closed_is_refused(text: str) -> None:
    with pytest.raises(RefusedError) as caught:
        paragraphs(text)
    assert caught.value.message.text == "prose-open"


def test_paragraphs_bold_and_italic_are_read() -> None:
    assert paragraphs("One\n  two.\n\n\n**Three** and *four five*: 2 * 3 - 1.\n") == (
        (("One two.", "regular"),),
        (
            ("Three", "bold"),
            (" and ", "regular"),
            ("four five", "italic"),
            (": 2 * 3 - 1.", "regular"),
        ),
    )


def test_nothing_is_no_paragraph() -> None:
    assert paragraphs("") == paragraphs(" \n\n ") == ()


WORD = st.text("abcdefgäöü", min_size=1, max_size=8)
RUN = st.tuples(
    st.lists(WORD, min_size=1, max_size=4).map(" ".join), st.sampled_from(["", "*", "**"])
)


@given(st.lists(st.lists(RUN, min_size=1, max_size=5), min_size=1, max_size=4))
def test_what_is_written_is_read_back(text: list[list[tuple[str, str]]]) -> None:
    written = "\n\n".join(" ".join(f"{cut}{run}{cut}" for run, cut in one) for one in text)
    cuts = {"": "regular", "*": "italic", "**": "bold"}
    for given_runs, found in zip(text, paragraphs(written), strict=True):
        marked = [(run, cuts[cut]) for run, cut in given_runs if cut]
        assert [span for span in found if span[1] != "regular"] == marked
        plain = " ".join(run for run, _ in given_runs)
        assert "".join(run for run, _ in found) == plain
