"""Words as pieces: lines, items, headings that stay with what they head."""

import pytest
from kit.paper import Recorder

from bookgen.binder.page.canvas import Face
from bookgen.binder.page.desk import Desk, desk_of
from bookgen.binder.page.flow import FULL, Room, Slot, flow
from bookgen.binder.page.prose import Look, heading, piece_of, pieces_of, words_of
from bookgen.readers.instrument import read_instrument
from bookgen.readers.layout import read_layout
from bookgen.words.speech import ENGLISH

LOOK = Look(10.0, above=2.0, indent=4.0, bullet="•")


@pytest.fixture(scope="module")
def desk() -> Desk:
    return desk_of(read_instrument("violin"), "4/4", read_layout("ordinary"), "a4", ENGLISH)


def test_an_item_hangs_beside_its_bullet(desk: Desk) -> None:
    paper = Recorder()
    words = words_of("one word after the other " * 9, LOOK, 80.0, desk)
    list(piece_of([words]).draw(paper, Slot(0, 10.0, 100.0, 80.0, 0.0)))

    (bullet, *starts) = [start for start, _ in paper.texts]
    assert bullet[0] == 10.0
    assert {x for x, _ in starts} == {14.0}
    assert len(starts) == len(words.lines) > 1
    assert min(y for _, y in starts) > 100.0 - words.height


def test_marked_words_change_their_cut_in_a_bold_line_too(desk: Desk) -> None:
    line = words_of("Towards <i>B</i>", Look(12.0, Face.BOLD), 80.0, desk).lines[0]
    assert line == (("Towards ", Face.BOLD), ("B", Face.ITALIC))


def test_empty_words_take_no_room(desk: Desk) -> None:
    assert pieces_of(["", ""], LOOK, 80.0, desk) == []


def test_a_heading_goes_overleaf_with_its_first_line(desk: Desk) -> None:
    items = pieces_of(["one", "two", "three"], LOOK, 80.0, desk)
    title = heading("Heading", Look(12.0, above=5.0), 80.0, desk, below=1.0)
    high = items[0].height
    room = Room(1, 80.0, 0.0, 2 * high + items[0].above + title.above + title.height + 0.5)
    pages = flow([items[0], items[1], title, items[2]], lambda _: room, FULL)
    assert [page.pieces[0] for page in pages] == [items[0], title]
