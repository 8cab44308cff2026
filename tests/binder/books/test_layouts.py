"""Every layout prints a booklet and a sheet on every paper, with music as high as it gets."""

from collections.abc import Sequence

import msgspec
import pytest
from kit.block_pages import a_desk, music_for
from kit.ink import outside, overprints
from kit.month_plan import a_month

from bookgen.binder.books import booklet, sheet
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.paper import PAPERS
from bookgen.notation.drill_score import DrillScore, Written
from bookgen.notation.engraved import Engraving, put_together
from bookgen.readers.layout import layout_names

LINE = 5.43
"""Height of a line of music in staves, at most: 51.6 mm where the staff has 9.5 (measured on four
booklets: two lines of notes that overlap, on the viola)."""


def highest_music(scores: Sequence[DrillScore], desk: Desk) -> Engraving:
    line = LINE * desk.layout.music.staff_height_mm
    high = [line * (2 if one.written is Written.TWO_LINES else 1) for one in scores]
    return put_together(
        *(
            music_for([one], height_mm=height, wider_mm=-0.5)
            for one, height in zip(scores, high, strict=True)
        )
    )


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("layout", layout_names())
def test_a_booklet_has_room(layout: str, paper: str) -> None:
    desk = a_desk(paper, layout, viola=True, studio="Harbour Lane Strings")
    plan = a_month(24, instrument="viola")
    pdf = booklet.bind_booklet(plan, highest_music(booklet.scores_of(plan, desk), desk), desk)
    assert overprints(pdf) == []
    assert outside(pdf) == []


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("layout", layout_names())
def test_a_sheet_has_room(layout: str, paper: str) -> None:
    desk = a_desk(paper, layout, studio="Harbour Lane Strings")
    month = a_month(24)
    plan = msgspec.structs.replace(month, days=month.days[:2])
    pdf = sheet.bind_sheet(plan, highest_music(sheet.scores_of(plan, desk), desk), desk)
    assert overprints(pdf) == []
    assert outside(pdf) == []
