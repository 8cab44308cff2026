"""Pages of a week, against every other way to end them."""

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as some

from bookgen.binder.layout import NoRoomError
from bookgen.binder.run_on import Cost, Piece, Run, added, cost_of, run_on

RUN = Run(room=200.0, gap=4.0, bar=8.0, verso=False)
PIECES = some.lists(
    some.builds(Piece, height=some.integers(20, 110).map(float), opens=some.booleans()),
    min_size=1,
    max_size=8,
)


def used(pieces: list[Piece], run: Run) -> float:
    bars = sum(piece.opens for piece in pieces) * run.bar
    return sum(piece.height for piece in pieces) + run.gap * (len(pieces) - 1) + bars


def cost(pieces: list[Piece], counts: tuple[int, ...], run: Run) -> Cost | None:
    total, start, verso = (0, 0, 0, 0.0), 0, run.verso
    for count in counts:
        page = pieces[start : start + count]
        spare = run.room - used(page, run)
        if spare < 0:
            return None
        total = added(total, cost_of(pieces, (start, start + count), spare, verso=verso))
        start, verso = start + count, not verso
    return total


def every_way(count: int) -> list[tuple[int, ...]]:
    cuts = [cut for size in range(count) for cut in combinations(range(1, count), size)]
    return [
        tuple(end - start for start, end in zip((0, *cut), (*cut, count), strict=True))
        for cut in cuts
    ]


@given(pieces=PIECES, verso=some.booleans())
def test_no_other_way_costs_less(pieces: list[Piece], *, verso: bool) -> None:
    run = Run(200.0, 4.0, 8.0, verso)
    found = tuple(run_on(pieces, run))

    costs = [cost(pieces, way, run) for way in every_way(len(pieces))]
    best = cost(pieces, found, run)
    assert best is not None
    assert best[:3] == min(one[:3] for one in costs if one is not None)


def test_a_day_begins_a_page_where_that_costs_none() -> None:
    day = [Piece(60.0, opens=True), Piece(60.0, opens=False)]

    assert run_on(day * 2, RUN) == [2, 2]


def test_a_day_runs_on_where_that_saves_a_page() -> None:
    day = [Piece(90.0, opens=True), Piece(90.0, opens=False), Piece(90.0, opens=False)]

    assert run_on(day * 2, RUN) == [2, 2, 2]


def test_a_day_is_not_turned_over_where_it_can_lie_open() -> None:
    days = [[80.0], [90.0, 90.0, 90.0], [40.0]]
    pieces = [Piece(height, opens=not index) for day in days for index, height in enumerate(day)]

    from_the_left = run_on(pieces, Run(200.0, 4.0, 8.0, verso=True))
    from_the_right = run_on(pieces, Run(200.0, 4.0, 8.0, verso=False))
    assert from_the_left == [2, 2, 1], "the long day lies on both pages of the first opening"
    assert from_the_right == [1, 2, 2], "and here on both pages of the next one"


def test_a_drill_higher_than_its_page_is_refused() -> None:
    with pytest.raises(NoRoomError, match="218 mm, does not fit on a page of 200 mm"):
        run_on([Piece(210.0, opens=True)], RUN)
