"""Drills are tied by the links that a break before them would cut."""

from collections.abc import Sequence

from bookgen.binder.page.flow import flow
from bookgen.binder.page.piece import CHAPTER, Page, Room
from bookgen.binder.parts.drills import DrillPiece
from bookgen.binder.parts.together import NEAR, tied

TWO_A_PAGE = Room(1, 89.0, 8.0, 100.0)


def drills(*numbers: int) -> list[DrillPiece]:
    return [DrillPiece(45.0, lambda *_: (), number=number) for number in numbers]


def ties(*links: int | str | None) -> list[float]:
    """Of drills that have these links, numbered from 1."""
    numbers = range(1, len(links) + 1)
    found = tied(drills(*numbers), dict(zip(numbers, links, strict=True)))
    return [piece.tied for piece in found]


def test_a_drill_is_tied_by_each_link_that_leads_over_the_place_before_it() -> None:
    assert ties(None, 1, 1, 3) == [0, 2, 1, 1]


def test_what_stands_elsewhere_or_far_away_ties_nothing() -> None:
    assert ties(None, 70, "violin-key", None) == [0, 0, 0, 0]
    chain = (None, *range(1, NEAR + 1))
    assert ties(*chain, 2) == [0, 1, *[2] * (NEAR - 1), 1]
    assert ties(*chain, 1) == [0, *[1] * NEAR, 0]


def numbers_on(pages: Sequence[Page]) -> list[list[int]]:
    return [
        [piece.number for piece in page.pieces if isinstance(piece, DrillPiece)] for page in pages
    ]


def test_two_that_belong_together_face_each_other() -> None:
    links = {1: None, 2: None, 3: 2, 4: 3, 5: None, 6: 5}
    filled = flow([*tied(drills(*links), links)], lambda _: TWO_A_PAGE, CHAPTER)
    assert numbers_on(filled) == [[1], [2, 3], [4], [5, 6]]
