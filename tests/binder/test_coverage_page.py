"""The map as a page of its own."""

from datetime import date

import pytest
from booklets import LAYOUT, STUDIO, texts
from paper import a_drill, fonts_of, violin

from bookgen.binder.coverage_page import CoverageFacts, bind_coverage
from bookgen.binder.desk import Options
from bookgen.binder.layout import PAPERS
from bookgen.model.move import moves_of
from bookgen.plan.record import Standing

AREA = moves_of(a_drill().drill)
BEFORE = dict.fromkeys(sorted(AREA)[:3], Standing.SECURE)


def page(player: str | None = "Ines", paper: str = "a4", size: str = "4/4") -> bytes:
    facts = CoverageFacts(BEFORE, AREA, player, date(2026, 12, 1))
    return bind_coverage(facts, violin(), size, LAYOUT, Options(paper=paper, studio=STUDIO))


@pytest.mark.parametrize("paper", sorted(PAPERS))
def test_it_says_who_and_when_and_how_far(paper: str) -> None:
    (words,) = texts(page(paper=paper))

    for said in ("Ines", "Tuesday, 1 December 2026", "Violin 4/4", STUDIO, f"3 of {len(AREA)}"):
        assert said in words


def test_it_is_made_the_same_each_time_with_its_fonts() -> None:
    assert page() == page()
    assert all(embedded for _, embedded in fonts_of(page()))


def test_without_a_player_it_still_has_a_title() -> None:
    (words,) = texts(page(None))

    assert "Map of the fingerboard" in words


def test_an_unknown_size_is_refused() -> None:
    with pytest.raises(ValueError, match="no size of the violin"):
        page(size="9/8")
