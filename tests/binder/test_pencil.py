"""Room for the pencil."""

import pytest
from hypothesis import given
from hypothesis import strategies as some
from paper import Recorder

from bookgen.binder.layout import PencilRoom
from bookgen.binder.pencil import Room, draw_rest, draw_rules, draw_staves, share_spare
from bookgen.readers.layout import read_layout

PENCIL = PencilRoom(page=3.0, most=30.0, line=8.0)


@given(some.floats(0, 240), some.integers(1, 5))
def test_the_spare_height_is_shared_out_whole(spare: float, blocks: int) -> None:
    each, rest = share_spare(spare, blocks, PENCIL)

    assert each >= 0
    assert rest >= -1e-9
    assert each * blocks + rest == pytest.approx(spare)


def test_lines_lie_in_the_room_at_least_a_line_apart() -> None:
    paper = Recorder()
    draw_rules(paper, Room(10, 100, 150, 30), read_layout("ordinary"), "Teacher")

    heights = [start[1] for start, _ in paper.lines]
    assert len(heights) == 2
    assert all(70 < height < 100 for height in heights)
    assert heights[0] - heights[1] >= 8
    assert paper.words == ["Teacher"]
    assert paper.lines[0][0][0] > 10


def test_too_little_room_stays_white() -> None:
    paper = Recorder()
    draw_rules(paper, Room(10, 100, 150, 7.9), read_layout("ordinary"), "Teacher")

    assert paper.lines == []
    assert paper.words == []


def test_much_room_has_staves_of_five_lines_as_high_as_told() -> None:
    paper = Recorder()
    draw_staves(paper, Room(10, 100, 150, 60), 7.5)

    assert len(paper.lines) == 3 * 5
    heights = sorted(start[1] for start, _ in paper.lines)
    assert heights[4] - heights[0] == pytest.approx(7.5)
    assert heights[0] > 40
    assert heights[-1] < 100


@pytest.mark.parametrize(("height", "staves"), [(44.0, False), (60.0, True)])
def test_the_rest_is_ruled_or_staves(height: float, *, staves: bool) -> None:
    paper = Recorder()
    draw_rest(paper, Room(10, 100, 150, height), read_layout("ordinary"), ("Notes", "Yours"))

    assert ["Yours" if staves else "Notes"] == paper.words
