"""A drill's block, recorded: what is where, and that nothing covers anything else."""

import pytest
from paper import LADDER, Recorder, a_drill, stand_in, violin

from bookgen.binder.block_drawing import draw_block
from bookgen.binder.desk import Desk, Options, desk_of
from bookgen.binder.typeset import MM_PER_POINT
from bookgen.readers.layout import read_layout


@pytest.fixture(scope="module")
def desk() -> Desk:
    return desk_of((violin(), "4/4"), read_layout("ordinary"), Options())


@pytest.mark.parametrize("key", LADDER)
def test_parts_stand_below_each_other_in_their_order(desk: Desk, key: str) -> None:
    engraved = stand_in(1).drills[0]
    block = desk.block(a_drill(key), engraved, desk.view_alone(a_drill(key)))
    paper = Recorder()
    _, music = draw_block(paper, block, 10.0, 250.0, 0.0)

    heights = {text: start[1] for start, text in paper.texts}
    assert heights[" Start here"] > max(y for _, y in paper.spots)
    assert min(y for _, y in paper.spots) > music
    below_music = music - engraved.box.height * MM_PER_POINT
    assert all(y + block.layout.block.tick <= below_music for _, y in paper.boxes)
    lowest = min(*(y for _, y in paper.boxes), *heights.values())
    assert lowest >= 250.0 - block.height - 0.01


def test_there_are_boxes_for_times_played_secure_and_not_yet(desk: Desk) -> None:
    block = desk.block(a_drill(), stand_in(1).drills[0], desk.view_alone(a_drill()))
    paper = Recorder()
    draw_block(paper, block, 10.0, 250.0, 0.0)

    assert len(paper.boxes) == block.layout.block.plays + 2
    for word in ("Played", "secure", "not yet"):
        assert word in paper.words


def test_pencil_room_is_ruled_below_the_ticks(desk: Desk) -> None:
    block = desk.block(a_drill(), stand_in(1).drills[0], desk.view_alone(a_drill()))
    paper = Recorder()
    draw_block(paper, block, 10.0, 250.0, 30.0)

    (teacher,) = [start for start, text in paper.texts if text == "Teacher"]
    assert teacher[1] < 250.0 - block.height
