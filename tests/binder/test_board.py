"""Gauges on the fingerboard."""

import pytest
from paper import Recorder, violin

from bookgen.binder.board import Board, draw_board, draw_gauge
from bookgen.binder.coverage import Place, Tally
from bookgen.model.units import Semitones, StringNumber


def place(string: int, semitones: int) -> Place:
    return StringNumber(string), Semitones(semitones)


def board(*semitones: int) -> Board:
    tallies = {place(string, at): Tally(new=1) for string in (1, 4) for at in semitones}
    return Board(violin(), tallies, width=126.0, row=8.0, small=9.0)


@pytest.mark.published("common practice, no source")
def test_the_octave_lies_half_way_to_the_bridge() -> None:
    found = board(12, 24)

    share = (found.x(12) - found.x(0)) / (found.x(24) - found.x(0))
    assert share == pytest.approx(0.5 / 0.75)


def test_gauges_never_touch() -> None:
    found = board(*range(1, 25))
    wide, high = found.gauge

    assert wide < found.x(24) - found.x(23)
    assert high < found.row


def test_every_place_has_its_gauge_on_its_string() -> None:
    paper = Recorder()
    draw_board(paper, board(2, 4, 5), 20.0, 100.0)

    assert len(paper.boxes) == 6
    assert len({y for _, y in paper.boxes}) == 2
    assert {"1", "2", "4", "5"} & set(paper.words) == {"2", "4", "5"}
    assert {"I", "II", "III", "IV", "G", "D", "A", "E"} <= set(paper.words)
    assert all(20.0 <= x <= 20.0 + 126.0 for x, _ in paper.boxes)


@pytest.mark.parametrize("secure", [0, 1, 3, 4])
def test_the_black_part_is_the_share_that_is_secure(secure: int) -> None:
    paper = Recorder()
    draw_gauge(paper, (0.0, 0.0), (3.0, 8.0), Tally(secure=secure, new=4 - secure))

    heights = [max(y for _, y in shape) for shape in paper.shapes]
    assert heights == ([pytest.approx(8.0 * secure / 4)] if secure else [])
    assert paper.lines == []


def test_what_is_practised_is_hatched_above_what_is_secure() -> None:
    paper = Recorder()
    draw_gauge(paper, (0.0, 0.0), (3.0, 8.0), Tally(secure=1, practised=2, new=1))

    heights = [start[1] for start, _ in paper.lines]
    assert all(2.0 < height <= 6.0 for height in heights)
    assert max(heights) == pytest.approx(6.0)
    assert len(heights) > 3
