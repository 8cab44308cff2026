"""Blocks shared out over pages, against every other way to do it."""

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as some

from bookgen.binder.paging import share_out, unevenness


def every_way(count: int) -> list[list[int]]:
    cuts = [c for size in range(count) for c in combinations(range(1, count), size)]
    return [
        [end - start for start, end in zip((0, *cut), (*cut, count), strict=True)] for cut in cuts
    ]


def fits(counts: list[int], heights: list[float], room: float, gap: float) -> bool:
    start = 0
    for count in counts:
        page = heights[start : start + count]
        if sum(page) + gap * (count - 1) > room:
            return False
        start += count
    return True


@given(some.lists(some.floats(10, 90), min_size=1, max_size=7), some.floats(0, 6))
def test_no_other_way_has_fewer_pages_or_is_more_even(heights: list[float], gap: float) -> None:
    found = share_out(heights, lambda _: 200.0, gap)

    others = [way for way in every_way(len(heights)) if fits(way, heights, 200.0, gap)]
    fewest = min(len(way) for way in others)
    best = min((way for way in others if len(way) == fewest), key=unevenness)
    assert fits(found, heights, 200.0, gap)
    assert len(found) == fewest
    assert sum(c**2 for c in found) == sum(c**2 for c in best)


def test_six_equal_drills_make_two_equal_pages() -> None:
    assert share_out([60.0] * 6, lambda _: 250.0, 5.0) == [3, 3]


def test_the_first_page_may_be_smaller() -> None:
    assert share_out([70.0] * 3, lambda page: 100.0 if page == 0 else 200.0, 5.0) == [1, 2]


def test_a_drill_higher_than_the_page_is_refused() -> None:
    with pytest.raises(ValueError, match="does not fit"):
        share_out([300.0], lambda _: 200.0, 5.0)
