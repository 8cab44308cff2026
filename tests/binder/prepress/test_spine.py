"""How wide a spine is."""

import pytest
from kit.sources import published_rows

from bookgen.binder.prepress.spine import Stock

PAPERS = published_rows("book_papers", "papers")


@pytest.mark.published(PAPERS.title)
@pytest.mark.parametrize("name", PAPERS.values)
def test_a_leaf_is_as_thick_as_printers_say(name: str) -> None:
    grams, thickness_mm = PAPERS.values[name]
    offset_bulk = 1.3

    assert Stock(grams, offset_bulk).leaf_mm == pytest.approx(thickness_mm, rel=0.04)


@pytest.mark.parametrize(
    ("pages", "leaves"), [(0, 0), (1, 1), (2, 1), (63, 32), (64, 32), (96, 48)]
)
def test_a_spine_is_all_the_leaves(pages: int, leaves: int) -> None:
    assert Stock(100.0, 1.0).spine_mm(pages) == pytest.approx(leaves * 0.1)


@pytest.mark.parametrize(
    ("grams", "bulk"),
    [(0.0, 1.25), (1000.0, 1.25), (float("nan"), 1.25), (90.0, 0.1), (90.0, 90.0)],
)
def test_a_paper_that_is_none_is_refused(grams: float, bulk: float) -> None:
    with pytest.raises(ValueError, match="lies outside of"):
        Stock(grams, bulk)
