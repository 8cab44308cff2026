"""Where a page lies."""

import pytest

from bookgen.binder.layout import Margins, Sheet
from bookgen.binder.leaf import roman, side_of

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
