"""The command line's words become values, or one clear line."""

from datetime import date

import pytest

from bookgen.commands.arguments import Parser, add_page_arguments, page_wish, read_date
from bookgen.errors import BookgenError


def pages_of(*words: str) -> object:
    parser = Parser(prog="bookgen sheet")
    add_page_arguments(parser)
    return page_wish(parser.parse_args(words))


def test_a_date_is_read_as_iso_8601_writes_it() -> None:
    assert read_date("2026-12-01") == date(2026, 12, 1)


@pytest.mark.parametrize("text", ["", "today", "2026-13-01", "2026-02-30", "01.12.2026", "٢٠٢٦"])
def test_what_is_no_date_is_told(text: str) -> None:
    with pytest.raises(BookgenError, match=r"^--date: .* is no date; write year-month-day"):
        read_date(text)


def test_an_unknown_option_is_told_in_one_line() -> None:
    with pytest.raises(BookgenError) as stopped:
        pages_of("--colour", "red")

    assert str(stopped.value) == (
        "command line: unrecognized arguments: --colour red; see `bookgen sheet --help`."
    )
