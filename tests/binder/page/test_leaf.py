"""Where a page lies."""

import pytest

from bookgen.binder.page.flow import Piece, Room, flow
from bookgen.binder.page.leaf import leaves_of, roman, side_of
from bookgen.binder.page.paper import Margins, Sheet

SHEET = Sheet(148.0, 210.0, Margins(top=10.0, right=8.0, bottom=9.0, left=14.0))


def test_left_hand_pages_have_their_margins_mirrored() -> None:
    right, left = side_of(0, "i", SHEET), side_of(1, "ii", SHEET)

    assert not right.verso
    assert left.verso
    assert (right.left, right.right) == (14.0, 140.0)
    assert (left.left, left.right) == (8.0, 134.0)
    assert left.sheet.column == right.sheet.column


@pytest.mark.parametrize(
    ("number", "numeral"), [(1, "i"), (3, "iii"), (4, "iv"), (9, "ix"), (14, "xiv"), (29, "xxix")]
)
def test_roman_numerals(number: int, numeral: str) -> None:
    assert roman(number) == numeral


def test_a_page_that_goes_on_says_what_goes_on() -> None:
    def piece(running: str) -> Piece:
        return Piece(60.0, lambda *_: (), running=running)

    pieces = [piece(""), piece("first"), piece(""), piece("second"), piece("")]
    pages = flow(pieces, lambda _: Room(1, 100.0, 0.0, 100.0))
    assert [leaf.running for leaf in leaves_of(pages, 250.0)] == [
        "",
        "first",
        "first",
        "second",
        "second",
    ]
