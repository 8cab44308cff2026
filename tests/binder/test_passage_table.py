"""Rows of the table of groups."""

import pytest
from paper import Recorder
from passage_pages import desk, text

from bookgen.binder.leaf import side_of
from bookgen.binder.passage_table import COLUMNS, ROW_WHITE_MM, row_of


def test_the_columns_fill_the_page() -> None:
    assert sum(COLUMNS.values()) == pytest.approx(1.0)


@pytest.mark.parametrize("paper", ["a4", "half-letter"])
def test_words_stay_in_their_columns(paper: str) -> None:
    one = desk(paper)
    side = side_of(0, "1", one.sheet)
    for _, found in text(paper=paper).groups:
        row = row_of(found, one, one.layout.text.small)
        canvas = Recorder()
        list(row.draw(canvas, side, 200.0, 0.0))
        starts = [side.left + one.sheet.column * share for share in shares()]

        assert {round(x, 3) for (x, _), _ in canvas.texts if near(x, starts)} <= {
            round(start, 3) for start in starts
        }
        assert all(side.left <= x <= side.right for (x, _), _ in canvas.texts)
        assert min(y for (_, y), _ in canvas.texts) > 200.0 - row.height + ROW_WHITE_MM / 2


def shares() -> list[float]:
    """Where each column begins."""
    return [sum([*COLUMNS.values()][:at]) for at in range(len(COLUMNS))]


def near(x: float, starts: list[float]) -> bool:
    return min(abs(x - start) for start in starts) < 0.01


def test_a_row_is_as_high_as_its_highest_cell() -> None:
    one = desk()
    rows = [row_of(found, one, one.layout.text.small) for _, found in text().groups]

    assert all(row.height > 2 * ROW_WHITE_MM for row in rows)
    assert len({round(row.height, 3) for row in rows}) > 1
