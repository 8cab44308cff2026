"""The map: printed where it says something, and true to scale."""

import pytest
from kit.days_plan import a_desk
from kit.month_plan import a_coverage
from kit.paper import Recorder

from bookgen.binder.parts.map import draw_gauge, map_of, worth_a_map
from bookgen.binder.parts.map_strip import strip_of

SOME = a_coverage((2, 6), (8, 9), (0, 4))


@pytest.mark.parametrize(
    ("levels", "worth"),
    [
        (((0, 4), (0, 9)), False),
        (((10, 10), (10, 10)), False),
        (((5, 6), (5, 9)), False),
        (((0, 4), (1, 9)), True),
        (((9, 10), (10, 10)), True),
    ],
    ids=["nothing secure", "all secure", "all alike", "a beginning", "nearly all"],
)
def test_no_map_of_empty_or_of_full_boxes(
    levels: tuple[tuple[int, int], ...], *, worth: bool
) -> None:
    assert worth_a_map(a_coverage(*levels)) is worth


def test_no_map_where_nobody_counted() -> None:
    assert not worth_a_map(None)


@pytest.mark.published("common practice, no source")
def test_the_octave_lies_half_way_to_the_bridge() -> None:
    found = map_of(a_coverage(*[(1, 2)] * 24), a_desk(), 186.0)
    share = (found.x(12) - found.x(0)) / (found.x(24) - found.x(0))
    assert share == pytest.approx(0.5 / 0.75)


def test_every_place_has_its_gauge_and_its_figure() -> None:
    paper = Recorder()
    map_of(SOME, a_desk(), 186.0).draw(paper, 12.0, 280.0)
    assert len(paper.boxes) == 3 + 3
    assert {"1", "2", "3", "I", "II", "III", "IV"} <= set(paper.words)


def test_the_map_counts_its_moves() -> None:
    paper = Recorder()
    map_of(SOME, a_desk(), 186.0).draw(paper, 12.0, 280.0)
    assert "10 of 30 moves" in " ".join(" ".join(paper.words).split())


@pytest.mark.parametrize(("secure", "aimed"), [(0, 0), (1, 4), (3, 10), (10, 10)])
def test_black_is_secure_and_hatched_is_what_the_booklet_adds(secure: int, aimed: int) -> None:
    paper = Recorder()
    (gauge,) = a_coverage((secure, aimed)).gauges
    draw_gauge(paper, (0.0, 0.0), (4.0, 10.0), gauge)
    tops = [max(y for _, y in shape) for shape in paper.shapes]
    assert tops == ([pytest.approx(secure)] if secure else [])
    heights = [start[1] for start, _ in paper.lines]
    assert all(secure < height <= aimed + 1e-6 for height in heights)
    assert bool(heights) == (aimed > secure)


@pytest.mark.published("common practice, no source")
def test_the_strips_octave_lies_at_two_thirds_of_two_octaves() -> None:
    strip = strip_of([], a_desk().instrument, 60.8, 4.2, 9.0)
    assert strip.x(24) == pytest.approx(60.0)
    assert strip.x(12) == pytest.approx(40.0)
    assert strip.x(0) == 0


def test_every_place_of_the_strip_has_a_spot_on_its_string() -> None:
    paper = Recorder()
    strip = strip_of([(1, 2), (4, 2), (4, 4), (4, 4)], a_desk().instrument, 60.0, 4.2, 9.0)
    strip.draw(paper, 100.0, 50.0, a_desk())
    assert len(paper.spots) == 3
    assert len({y for _, y in paper.spots}) == 2
    assert all(100 <= x <= 160 for x, _ in paper.spots)
