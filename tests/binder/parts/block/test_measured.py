"""Blocks in every form: nothing stands on anything else, and what has no room is told."""

from dataclasses import replace
from itertools import combinations

import pytest
from kit.block_pages import FRAME, HIGH, KEYS, MIRROR, SAME, STAVES, a_desk, blocks_of, drills_for
from kit.ink import growing, larger

from bookgen.binder.page.block_measures import Kind
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.flow import FULL, flow
from bookgen.binder.page.frame import frame_of
from bookgen.binder.page.paper import PAPERS, NoRoomError
from bookgen.binder.page.signs import Sign
from bookgen.binder.page.typeset import MM_PER_POINT, line_width
from bookgen.binder.parts.block.forms import Blanks
from bookgen.binder.parts.block.measured import Block
from bookgen.binder.parts.drill_signs import crossings_in
from bookgen.binder.parts.drills_told import key_words, running_of
from bookgen.notation.drill_score import Written
from bookgen.readers.layout import layout_names, read_layout

Box = tuple[float, float, float, float]
"""Left, top, right, bottom from the block's upper left corner, in millimetres."""

TOUCH_MM = 0.2


def ink_of(block: Block, desk: Desk) -> list[tuple[str, Box]]:
    """Everything that a block prints, as boxes."""
    found = []
    for line in block.lines:
        x, y = line.at
        words = "".join(text for text, _ in line.line)
        wide = line_width(line.line, line.size, desk.fonts)
        size = line.size * MM_PER_POINT
        below = 0.0 if words.isdigit() else 0.2 * size
        found.append((words, (x, y - 0.7 * size, x + wide, y + below)))
    for x, y in block.boxes:
        found.append(("box", (x, y, x + block.box_mm, y + block.box_mm)))
    x, y = block.chart_at
    found.append(("chart", (x, y, x + block.chart.end, y + block.chart.height)))
    if block.music:
        x, y = block.music.at
        right = x + block.music.ink.width * MM_PER_POINT
        found.append(("music", (x, y, right, block.music.bottom)))
    for blank in block.blanks:
        x, y = blank.at
        found.append(("blank", (x, y - 0.1, x + blank.width, y + 1.0)))  # white below it
        label = blank.words
        top = label.at[1] - 0.7 * label.size * MM_PER_POINT
        wide = line_width(label.line, label.size, desk.fonts)
        found.append(("over a blank", (x, top, x + wide, label.at[1])))
    return found


def clashes(block: Block, desk: Desk) -> list[tuple[str, str]]:
    """Names of things that stand on each other; boxes may share an edge."""
    found = []
    for (one, a), (other, b) in combinations(ink_of(block, desk), 2):
        wide = min(a[2], b[2]) - max(a[0], b[0])
        high = min(a[3], b[3]) - max(a[1], b[1])
        if wide > TOUCH_MM and high > TOUCH_MM:
            found.append((one, other))
    return found


def beyond(block: Block, desk: Desk, width: float) -> list[str]:
    """Names of things that stand out of the block."""
    room = (-0.01, -0.01, width + 0.51, block.height + 0.01)
    return [
        name
        for name, box in ink_of(block, desk)
        if box[0] < room[0] or box[1] < room[1] or box[2] > room[2] or box[3] > room[3]
    ]


@pytest.mark.parametrize("kind", ["book", "sheet"])
@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("layout", layout_names())
@pytest.mark.parametrize("viola", [False, True])
def test_nothing_in_a_block_stands_on_anything_else(
    layout: str, paper: str, kind: Kind, *, viola: bool
) -> None:
    desk = a_desk(paper, layout, viola=viola)
    drills = drills_for(desk, *KEYS, kind=kind)
    for block in blocks_of(drills):
        assert clashes(block, desk) == [], block.number
        assert beyond(block, desk, drills.width) == [], block.number


@pytest.mark.parametrize("paper", PAPERS)
def test_type_grows_until_it_is_told_by_drill_and_part(paper: str) -> None:
    printed, told = 0, []
    for factor in growing():
        desk = a_desk(paper, larger(read_layout("ordinary"), factor))
        try:
            drills = drills_for(desk, *KEYS)
            blocks = blocks_of(drills, height_mm=28.0 * factor)
        except NoRoomError as refused:
            told.append(str(refused.message))
            continue
        printed += 1
        for block in blocks:
            assert clashes(block, desk) == [], (factor, block.number)
            assert beyond(block, desk, drills.width) == [], (factor, block.number)
    assert printed
    assert told
    assert all(message.startswith("drill ") and "mm" in message for message in told)


def test_music_that_is_wider_than_its_place_is_told() -> None:
    drills = drills_for(a_desk(), MIRROR)
    with pytest.raises(NoRoomError) as refused:
        blocks_of(drills, wider_mm=1.5)
    assert "drill 1: its music" in str(refused.value.message)


@pytest.mark.parametrize("number", [7, 42, 123, 4567])
def test_numbers_of_every_length_stand_left_of_the_chart(number: int) -> None:
    desk = a_desk()
    drills = drills_for(desk, MIRROR)
    (one,) = drills.settings
    renamed = replace(one, words=replace(one.words, number=number))
    (block,) = blocks_of(replace(drills, settings=(renamed,)))
    assert clashes(block, desk) == []


def test_a_number_too_long_for_its_place_is_told() -> None:
    drills = drills_for(a_desk(), MIRROR)
    (one,) = drills.settings
    renamed = replace(one, words=replace(one.words, number=1_000_000))
    with pytest.raises(NoRoomError, match="number"):
        blocks_of(replace(drills, settings=(renamed,)))


def test_only_the_way_up_is_written_where_the_way_back_mirrors_it() -> None:
    drills = drills_for(a_desk(), MIRROR, SAME)
    mirror, same = blocks_of(drills)
    assert [score.written for score in drills.scores] == [Written.UP, Written.TWO_LINES]
    assert mirror.music is not None
    assert mirror.music.turn is not None
    assert same.music is not None
    assert same.music.turn is None
    assert Sign.RETURN in mirror.signs
    assert Sign.RETURN not in same.signs


def test_the_return_sign_stands_right_of_the_staff_on_its_middle_line() -> None:
    (block,) = blocks_of(drills_for(a_desk(), MIRROR))
    music = block.music
    assert music is not None
    assert music.turn is not None
    x, y = music.turn
    assert x > music.at[0] + music.ink.width * MM_PER_POINT
    top = music.at[1] + (music.ink.staff_top - music.ink.top) * MM_PER_POINT
    bottom = music.at[1] + (music.ink.staff_bottom - music.ink.top) * MM_PER_POINT
    assert top < y < bottom


def test_on_small_paper_music_without_room_beside_the_chart_takes_the_whole_line() -> None:
    drills = drills_for(a_desk("a5"), MIRROR, SAME)
    beside, below = blocks_of(drills)
    assert beside.music is not None
    assert below.music is not None
    assert beside.music.at[0] > 40.0
    assert below.music.at[0] == 0.0
    assert [score.written for score in drills.scores] == [Written.UP, Written.BOTH]


def test_the_key_has_the_signs_of_these_drills_and_no_other() -> None:
    half = "12-half-place2-strings4321-stage1-low-mirror"
    assert Sign.HALF not in key_words(drills_for(a_desk(), MIRROR), "book")
    key = key_words(drills_for(a_desk(), half), "book")
    assert Sign.HALF in key
    assert Sign.WHOLE not in key
    assert Sign.ORDER not in key
    assert {Sign.ORDER, Sign.START} <= key_words(
        drills_for(a_desk(), half, kind="sheet"), "sheet"
    ).keys()


def test_a_sheet_tells_the_marks_of_intervals_that_it_has() -> None:
    (setting,) = drills_for(a_desk(), MIRROR, kind="sheet").settings
    assert "P4" in setting.signs
    assert "M6" not in setting.signs
    (both,) = drills_for(a_desk(), SAME, kind="sheet").settings
    assert {"P4", "M6"} <= both.signs
    (book,) = drills_for(a_desk(), SAME).settings
    assert "P4" not in book.signs


def plain(crossings: tuple[str, ...]) -> str:
    return " ".join(crossings).replace("\N{EN DASH}", "-")


def test_from_memory_there_is_a_blank_for_each_crossing_and_no_music() -> None:
    desk = a_desk()
    drills = drills_for(desk, MIRROR, STAVES, SAME)
    pieces = drills.memory_pieces()
    assert [piece.number for piece in pieces] == [1, 2, 3]
    up, staves, both = (crossings_in(setting.score, desk) for setting in drills.settings)
    assert plain(up) == plain(staves) == "IV-III III-II II-I"
    assert plain(both) == "IV-III III-II II-I I-II II-III III-IV"
    for setting, crossings in zip(drills.settings, (up, staves, both), strict=True):
        block = drills.block(setting, Blanks(crossings))
        assert block.music is None
        assert len(block.blanks) == len(crossings)
        assert not block.signs & {Sign.RING, Sign.RETURN, Sign.HALF, Sign.WHOLE}
        assert clashes(block, desk) == []


def test_the_head_of_a_page_tells_the_drills_on_it() -> None:
    desk = a_desk()
    drills = drills_for(desk, *[MIRROR] * 7, FRAME, HIGH)
    frame = frame_of(desk, "", "", {})
    engraving_pieces = drills.memory_pieces()
    pages = flow(engraving_pieces, lambda _: drills.room(frame), FULL)
    first, last = pages[0].pieces[0], pages[0].pieces[-1]
    assert first in engraving_pieces
    assert last in engraving_pieces
    count = len(pages[0].pieces)
    assert running_of(pages[0], "Ines", desk) == f"Ines · drills 1 to {count}"
