"""Leaves become a book: music where the pieces stand, rules, outline, numbers of pages."""

from collections.abc import Iterator
from dataclasses import replace
from io import BytesIO

import pikepdf
import pypdfium2
import pytest
from kit.paper import Recorder, stand_in

from bookgen.binder.page.bind import bind_leaves
from bookgen.binder.page.canvas import Canvas, Face, Style
from bookgen.binder.page.desk import Desk, desk_of
from bookgen.binder.page.flow import Mark, Opens, Piece, Room, Slot, flow
from bookgen.binder.page.frame import Frame, frame_of
from bookgen.binder.page.imprint import Imprint
from bookgen.binder.page.leaf import Leaf, leaves_of, side_of
from bookgen.binder.page.placed import Placed, placed
from bookgen.notation.engraved import Engraving, put_together
from bookgen.readers.instrument import read_instrument
from bookgen.readers.layout import read_layout
from bookgen.words.speech import ENGLISH

FOLIOS = ["i", "ii", "iii", "1", "2", "3"]
IMPRINT = Imprint("Ines", "Harbour Lane Strings", "Pages")


@pytest.fixture(scope="module")
def desk() -> Desk:
    return desk_of(read_instrument("violin"), "4/4", read_layout("ordinary"), "a4", ENGLISH)


@pytest.fixture
def frame(desk: Desk) -> Frame:
    return frame_of(desk, "Harbour Lane Strings", "Stop at once if it hurts.", {}, mirrored=True)


def music(index: int, height: float = 30.0) -> Piece:
    def draw(canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        canvas.text((slot.left, slot.top - 5), f"piece {index}", Style(Face.REGULAR, 10))
        yield placed(slot.page, index, (slot.left, slot.top))

    return Piece(height, draw, above=4.0, ruled=True, marks=(Mark(f"No. {index}", 0),))


def leaves(pieces: list[Piece], frame: Frame, columns: int = 1) -> list[Leaf]:
    return leaves_of(flow(pieces, lambda _: frame.columns(columns)), frame.top)


def test_front_pages_have_roman_numbers_and_the_rest_begins_at_one(frame: Frame) -> None:
    pages = [replace(music(0), opens=Opens.PAGE) for _ in range(3)]
    front, body = leaves(pages, frame), leaves(pages, frame)
    pdf = bind_leaves(front, body, frame, stand_in(1), IMPRINT)
    with pikepdf.open(BytesIO(pdf)) as book:
        assert [page.label for page in book.pages] == FOLIOS
    with pypdfium2.PdfDocument(BytesIO(pdf)) as read:
        shown = [page.get_textpage().get_text_range().split() for page in read]
        assert len(list(read.get_toc())) == 6
    assert all(folio in words for folio, words in zip(FOLIOS, shown, strict=True))


def test_the_file_tells_its_language(frame: Frame) -> None:
    pdf = bind_leaves([], leaves([music(0)], frame), frame, stand_in(1), IMPRINT)
    with pikepdf.open(BytesIO(pdf)) as book:
        assert str(book.Root["/Lang"]) == "en"


def test_music_lies_where_its_piece_stands_on_both_sides(desk: Desk, frame: Frame) -> None:
    narrow = replace(desk, layout=read_layout("ordinary"), paper="a4")
    margins = narrow.sheet.margins
    pieces = [replace(music(index), opens=Opens.PAGE) for index in range(2)]
    found = []
    for page, leaf in enumerate(leaves(pieces, frame)):
        side = side_of(page, "1", desk.sheet)
        found += list(leaf.draw(Recorder(), side))
    assert [one.page for one in found] == [0, 1]
    assert [one.drill for one in found] == [0, 1]
    assert found[0].left * 25.4 / 72 == pytest.approx(margins.left)
    assert found[1].left * 25.4 / 72 == pytest.approx(margins.right)
    assert found[0].top * 25.4 / 72 == pytest.approx(frame.top)


def test_a_rule_parts_columns_and_pieces_but_none_stands_over_the_first(frame: Frame) -> None:
    pieces = [music(index) for index in range(4)]
    (page,) = flow(pieces, lambda _: frame.columns(2))
    (leaf,) = leaves_of([page], frame.top)
    paper = Recorder()
    list(leaf.draw(paper, side_of(0, "1", frame.desk.sheet)))
    upright = [line for line in paper.lines if line[0][0] == line[1][0]]
    level = [line for line in paper.lines if line[0][1] == line[1][1]]
    assert len(upright) == 1
    assert [line[0][1] for line in level] == pytest.approx([frame.top - 30.0 - 2.0] * 2)


def test_a_blank_page_is_bare(frame: Frame) -> None:
    pieces = [music(0), replace(music(1), opens=Opens.RIGHT)]
    found = leaves(pieces, frame)
    assert [leaf.bare for leaf in found] == [False, True, False]


def test_engravings_become_one(frame: Frame) -> None:
    one = put_together(stand_in(2), Engraving((), ()), stand_in(1))
    assert len(one.drills) == 3
    assert len(one.cases) == 1, "the same type is there once"
    pdf = bind_leaves([], leaves([music(2), music(0)], frame), frame, one, IMPRINT)
    with pikepdf.open(BytesIO(pdf)) as book:
        assert len(book.pages[0].resources["/XObject"]) == 2


def test_columns_share_the_width(desk: Desk, frame: Frame) -> None:
    room = frame.columns(2)
    assert room == Room(2, 89.0, 8.0, frame.room, ruled=True)
    assert frame.columns().width == pytest.approx(desk.sheet.column)
