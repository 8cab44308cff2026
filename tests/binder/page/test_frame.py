"""Head and foot: whose page it is, its number, the key of what it shows."""

import pytest
from kit.paper import Recorder

from bookgen.binder.page.desk import Desk, desk_of
from bookgen.binder.page.frame import Frame, frame_of, lowest
from bookgen.binder.page.leaf import Leaf, side_of
from bookgen.binder.page.piece import Slot
from bookgen.binder.page.signs import Sign
from bookgen.binder.parts.key import key_pieces
from bookgen.readers.instrument import read_instrument
from bookgen.readers.layout import layout_names, read_layout
from bookgen.words.speech import ENGLISH

CAUTION = "Stop at once if it hurts or goes numb, and rest. Not secure? Play the drill it is like."
KEY: dict[str, str] = {
    Sign.RING: "an open string rings along",
    Sign.RETURN: "back the same way, last note again",
    Sign.HALF: "<i>H</i> half step",
    Sign.BOX: "box: secure",
}


def desk(paper: str = "a4", layout: str = "ordinary") -> Desk:
    return desk_of(read_instrument("violin"), "4/4", read_layout(layout), paper, ENGLISH)


def frame(whose: str = "Harbour Lane Strings", *, mirrored: bool = False, **where: str) -> Frame:
    return frame_of(desk(**where), whose, CAUTION, KEY, mirrored=mirrored)


def drawn(
    one: Frame, page: int = 0, running: str = "Ines's drills 6 to 10", signs: tuple[str, ...] = ()
) -> Recorder:
    paper = Recorder()
    side = side_of(page, "7", one.desk.sheet, mirrored=one.mirrored)
    one.draw(paper, side, running, frozenset(signs))
    return paper


def x_of(paper: Recorder, words: str) -> float:
    return next(start[0] for start, text in paper.texts if text.startswith(words))


def test_the_key_has_what_the_page_has_and_nothing_else() -> None:
    assert not any("rings along" in text for text in drawn(frame()).words)
    paper = drawn(frame(), signs=(Sign.RING, Sign.BOX))
    assert "an open string rings along" in paper.words
    assert "box: secure" in paper.words
    assert not any("back the same" in text for text in paper.words)
    assert len(paper.rings) == 1


@pytest.mark.parametrize("name", layout_names())
@pytest.mark.parametrize("where", ["a4", "a5", "letter", "half-letter"])
def test_the_foot_holds_every_line_inside_the_margins(name: str, where: str) -> None:
    one = frame(paper=where, layout=name)
    paper = drawn(one, signs=tuple(KEY))
    sheet = one.desk.sheet
    for (x, y), text in paper.texts:
        assert x >= sheet.margins.left - 0.01, text
        assert sheet.bottom <= y <= sheet.top, text
    rules = sorted({start[1] for start, _ in paper.lines})
    foot = [y for (_, y), text in paper.texts if y < sheet.height / 2]
    assert max(foot) < rules[0] < one.bottom
    assert one.top < rules[1]
    assert one.room > 100.0


def test_the_ordinary_head_and_foot_are_as_low_as_they_were_tried() -> None:
    one = frame()
    assert one.head == pytest.approx(7.0, abs=0.3)
    assert one.foot == pytest.approx(10.2, abs=0.3)


def test_the_caution_stands_behind_the_key_where_that_has_room() -> None:
    short = frame_of(desk(), "", "Stop at once if it hurts.", KEY)
    paper = drawn(short, signs=(Sign.BOX,))
    heights = {text: y for (_, y), text in paper.texts}
    assert heights["box: secure"] == heights["Stop at once if it hurts."]
    assert x_of(paper, "box") < x_of(paper, "Stop")


def leaves(*signs: str) -> list[list[Leaf]]:
    return [[Leaf("", (), lambda _canvas, _side: (), signs=frozenset({one})) for one in signs]]


def test_a_foot_is_as_high_as_the_longest_key_of_a_page_not_of_the_book() -> None:
    one = frame(paper="a5")
    apart, _ = lowest(one, lambda _: leaves(*KEY))
    together, _ = lowest(one, lambda _: [[Leaf("", (), lambda *_: (), signs=frozenset(KEY))]])
    assert apart.foot < together.foot == one.foot
    assert apart.room > together.room


def test_a_key_too_long_for_a_foot_stands_apart() -> None:
    large = desk("a5", "large-print")
    one = frame_of(large, "", CAUTION, KEY, apart=True)
    assert {entry.sign for entry in one.apart} == set(KEY)
    said = drawn(one, signs=tuple(KEY)).words
    assert "box: secure" not in said
    (piece,) = key_pieces(one, 1.0)
    paper = Recorder()
    list(piece.draw(paper, Slot(0, 10.0, 100.0, 128.0, 0.0)))
    assert "box: secure" in paper.words
    assert all(100.0 - piece.height < y < 100.0 for (_, y), _ in paper.texts)
    assert list(key_pieces(frame(), 1.0)) == []


def test_in_a_book_number_and_contents_stand_at_the_outer_edge() -> None:
    book = frame(mirrored=True)
    right, left = drawn(book, page=0), drawn(book, page=1)
    middle = 105.0
    assert x_of(right, "Ines") > middle > x_of(right, "Harbour")
    assert x_of(left, "Ines") < middle < x_of(left, "Harbour")
    assert x_of(right, "7") > middle > x_of(left, "7")


def test_loose_pages_are_alike_on_both_sides() -> None:
    one = frame()
    assert drawn(one, page=0).texts == drawn(one, page=1).texts


def test_a_long_name_ends_before_what_stands_beside_it() -> None:
    one = frame(whose="Harbour Lane Strings " * 20)
    paper = drawn(one, running="Ines Wilhelmina " * 20)
    (left, words), (right, _), *_ = paper.texts
    assert words.endswith("…")
    running = one.desk.layout.frame.running_pt
    assert left[0] + len(words) * running * 0.5 * 25.4 / 72 < right[0]
