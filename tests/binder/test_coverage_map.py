"""The map, recorded instead of printed."""

import pytest
from booklets import desk, furniture
from paper import Recorder, a_drill

from bookgen.binder.coverage import coverage_of
from bookgen.binder.coverage_map import CoverageMap, draw_map, map_leaf, map_of
from bookgen.binder.leaf import side_of
from bookgen.model.move import moves_of
from bookgen.plan.record import Standing

MOVES = sorted(moves_of(a_drill().drill))
BEFORE = coverage_of({MOVES[0]: Standing.SECURE, MOVES[1]: Standing.PRACTISED}, MOVES)
AFTER = BEFORE.aimed(MOVES[:5])


def told(found: CoverageMap) -> str:
    paper = Recorder()
    draw_map(paper, found, (12.0, 190.0), 170.0)
    return " ".join(paper.words)


def test_the_map_says_how_many_moves_are_secure_and_aimed_at() -> None:
    total = len(MOVES)
    words = told(map_of(desk(), BEFORE, AFTER))

    assert f"1 of {total}" in words
    assert "aims at" in words
    assert "Before the first day" in words
    assert "Aimed at" in words


def test_the_last_row_is_the_sum_of_the_others() -> None:
    *rows, total = map_of(desk(), BEFORE, AFTER).table.values()

    for index in (0, 1):
        tallies = [row[index] for row in rows]
        whole = total[index]
        assert whole is not None
        assert sum(tally.secure for tally in tallies if tally) == whole.secure
        assert sum(tally.total for tally in tallies if tally) == whole.total


def test_alone_it_shows_what_is_now() -> None:
    words = told(map_of(desk(), BEFORE, None))

    assert "Now" in words
    assert "aimed" not in words.lower()


@pytest.mark.parametrize("paper", ["a4", "a5", "letter", "half-letter"])
def test_everything_lies_inside_the_page(paper: str) -> None:
    around, canvas = furniture(paper=paper), Recorder()
    leaf = map_leaf(map_of(desk(paper), BEFORE, AFTER), around)
    side = side_of(0, "1", around.desk.sheet)
    list(leaf.draw(canvas, side))

    heights = [y for (_, y), _ in canvas.texts] + [y for _, y in canvas.boxes]
    assert min(heights) >= around.bottom - 1.0
    assert max(heights) <= around.top
    assert all(side.left - 0.5 <= x <= side.right for (x, _), _ in canvas.texts)
