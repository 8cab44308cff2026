"""Sheets that are folded: the order, and what is really on each half."""

from collections.abc import Sequence
from dataclasses import replace
from io import BytesIO

import pikepdf
import pypdfium2
import pytest
from kit.imposed import A4_ACROSS, A5, HALF_LETTER, LETTER_ACROSS, MM, halves, numbered, words_at
from kit.paper import fonts_of
from kit.sources import published_rows
from reportlab.pdfgen.canvas import Canvas

from bookgen.binder.page.bind import bind_leaves
from bookgen.binder.page.desk import desk_of
from bookgen.binder.page.flow import Mark, Opens, Room, flow
from bookgen.binder.page.fold import fold
from bookgen.binder.page.frame import frame_of
from bookgen.binder.page.imposition import PrintSide, padded, saddle_stitch, sections_of
from bookgen.binder.page.imprint import Imprint
from bookgen.binder.page.leaf import leaves_of
from bookgen.binder.page.paper import PAPERS
from bookgen.binder.page.prose import Look, piece_of, words_of
from bookgen.notation.engraved import Engraving
from bookgen.readers.instrument import read_instrument
from bookgen.readers.layout import read_layout
from bookgen.words.speech import ENGLISH

SPREADS = published_rows("saddle_stitch", "spreads")
RULE = "print shops' rule for stapled booklets: front N-2(s-1), 2s-1; back 2s, N-2s+1"
SIZES = range(4, 65, 4)


def shown(order: Sequence[int | None]) -> str:
    """Pages as they come, blank ones as hyphens."""
    return " ".join(str(page or "-") for page in order)


def as_read(sides: Sequence[PrintSide]) -> list[int]:
    """Fold the printed sheets into one another and turn the leaves: the pages as they come.

    A leaf is a half of a sheet: the right half of its front and the left half of its back are
    one leaf; the left half of its front and the right half of its back are the other.
    """
    fronts = [side for side in sides if not side.back]
    backs = {side.sheet: side for side in sides if side.back}
    opening = [page for front in fronts for page in (front.right, backs[front.sheet].left)]
    closing = [
        page for front in reversed(fronts) for page in (backs[front.sheet].right, front.left)
    ]
    return opening + closing


@pytest.mark.published(SPREADS.title)
@pytest.mark.parametrize(("pages", "spreads"), SPREADS.values.items())
def test_the_order_is_the_printers(pages: str, spreads: list[float]) -> None:
    sides = saddle_stitch(int(pages))

    assert [page for side in sides for page in (side.left, side.right)] == spreads
    assert [side.label for side in sides[:2]] == ["1r", "1v"]


@pytest.mark.published(RULE)
@pytest.mark.parametrize("pages", SIZES)
def test_every_sheet_follows_the_rule(pages: int) -> None:
    sides = iter(saddle_stitch(pages))

    for s in range(1, pages // 4 + 1):
        assert next(sides) == PrintSide(s, back=False, left=pages - 2 * (s - 1), right=2 * s - 1)
        assert next(sides) == PrintSide(s, back=True, left=2 * s, right=pages - 2 * s + 1)
    assert not list(sides)


@pytest.mark.parametrize("pages", SIZES)
def test_folded_sheets_read_from_the_first_page_to_the_last(pages: int) -> None:
    assert as_read(saddle_stitch(pages)) == list(range(1, pages + 1))


@pytest.mark.parametrize("pages", [-4, 0, 1, 6, 63])
def test_other_numbers_of_pages_do_not_fold(pages: int) -> None:
    with pytest.raises(ValueError, match="a folded sheet has four"):
        saddle_stitch(pages)


@pytest.mark.parametrize(
    ("count", "pages"),
    [
        (1, "1 - - -"),
        (2, "1 - - 2"),
        (3, "1 2 3 -"),
        (4, "1 2 3 4"),
        (5, "1 2 3 4 - - 5 -"),
        (6, "1 2 3 4 5 - - 6"),
        (7, "1 2 3 4 5 6 7 -"),
    ],
)
def test_blank_pages_come_where_nobody_misses_a_page(count: int, pages: str) -> None:
    assert shown(padded(count)) == pages


def test_an_ending_of_several_pages_stays_together() -> None:
    assert shown(padded(6, ending=2)) == "1 2 3 4 - - 5 6"
    assert shown(padded(2, ending=9)) == "1 - - 2", "the first page stays the cover"


@pytest.mark.parametrize("ending", range(5))
@pytest.mark.parametrize("count", range(1, 65))
def test_no_page_changes_its_side(count: int, ending: int) -> None:
    order = padded(count, ending)

    assert len(order) % 4 == 0
    assert len(order) - count < 4
    assert [page for page in order if page] == list(range(1, count + 1))
    assert all((page - place) % 2 == 0 for place, page in enumerate(order, 1) if page)


@pytest.mark.parametrize(("count", "ending"), [(0, 1), (4, -1)])
def test_no_pages_make_no_booklet(count: int, ending: int) -> None:
    with pytest.raises(ValueError, match="make no booklet"):
        padded(count, ending)


@pytest.mark.parametrize("count", [*range(1, 13), 40])
def test_each_half_of_the_paper_has_its_page(count: int) -> None:
    order = padded(count)
    names = [f"p{page}" if page else "" for page in order]

    sides = saddle_stitch(len(order))
    assert halves(fold(numbered(count))) == [
        (names[side.left - 1], names[side.right - 1]) for side in sides
    ]


@pytest.mark.parametrize(
    ("parts", "pages"),
    [
        ((1, 7), "1 2 3 4 5 6 - - 7 8 9 10"),
        ((1, 10), "1 2 3 4 5 6 7 8 9 - - 10"),
        ((1, 2), "1 2 3 4 5 6 7 8 9 - - 10"),
        ((1,), "1 2 3 4 5 6 7 8 9 - - 10"),
    ],
)
def test_the_last_part_is_not_torn_apart(parts: Sequence[int], pages: str) -> None:
    names = [f"p{page}" if page != "-" else "" for page in pages.split()]

    assert halves(fold(numbered(10, parts=parts))) == [
        (names[side.left - 1], names[side.right - 1]) for side in saddle_stitch(12)
    ]


@pytest.mark.parametrize(
    ("count", "starts", "sections"),
    [
        (40, (), "1-40"),
        (41, (), "1-18 19-41"),
        (48, (1, 5, 21, 41), "1-20 21-48"),
        (100, (1, 35, 69), "1-34 35-68 69-100"),
        (60, (1, 5, 55), "1-28 29-60"),
    ],
)
def test_more_than_ten_sheets_are_folded_in_sections(
    count: int, starts: Sequence[int], sections: str
) -> None:
    found = [f"{section[0]}-{section[-1]}" for section in sections_of(count, starts)]
    assert " ".join(found) == sections


@pytest.mark.parametrize("count", range(1, 200, 7))
def test_no_section_is_thicker_than_ten_sheets_and_none_begins_on_the_left(count: int) -> None:
    sections = sections_of(count, ())
    assert [page for section in sections for page in section] == list(range(1, count + 1))
    assert all(len(section) <= 40 and section[0] % 2 for section in sections)
    assert len(sections) == -(-count // 40)


def test_a_section_cannot_begin_on_the_left() -> None:
    with pytest.raises(ValueError, match="page 22 is a left-hand page"):
        sections_of(60, (1, 22))


def test_each_section_is_folded_by_itself() -> None:
    folded = fold(numbered(46), starts=(1, 21))
    names = halves(folded)
    assert names[0] == ("p20", "p1")
    assert names[10] == ("p46", "p21")  # 26 pages: the last one is the back cover
    with pikepdf.open(BytesIO(folded)) as book:
        labels = [page.label for page in book.pages]
    assert labels[:2] == ["1.1r", "1.1v"]
    assert labels[10] == "2.1r"


@pytest.mark.published("ISO 216 (A4, A5) and ANSI Y14.1 (Letter) sizes of paper")
@pytest.mark.parametrize(("page", "sheet"), [(A5, A4_ACROSS), (HALF_LETTER, LETTER_ACROSS)])
def test_pages_keep_their_size_and_lie_against_the_fold(
    page: tuple[float, float], sheet: tuple[float, float]
) -> None:
    folded = fold(numbered(8, page))

    with pikepdf.open(BytesIO(folded)) as book:
        for side in book.pages:
            assert [float(edge) / MM for edge in side.mediabox[2:]] == pytest.approx(sheet, abs=0.1)
            assert side.trimbox == side.mediabox
    middle = sheet[0] / 2
    first = words_at(numbered(1, page), 0)[0]
    assert words_at(folded, 0) == pytest.approx(
        [middle - page[0] + first, middle + first], abs=0.05
    )


def test_inner_sheets_move_towards_the_fold() -> None:
    plain, crept = (fold(numbered(16), creep_mm=creep) for creep in (0.0, 0.15))

    for index in range(8):
        left, right = words_at(plain, index)
        shift = 0.15 * (index // 2)
        assert words_at(crept, index) == pytest.approx([left + shift, right - shift], abs=0.03)


@pytest.mark.parametrize("creep", [-0.1, 0.6, float("nan")])
def test_a_creep_that_no_paper_has_is_refused(creep: float) -> None:
    with pytest.raises(ValueError, match=r"give 0 to 0\.5"):
        fold(numbered(4), creep_mm=creep)


def test_nothing_of_a_page_passes_the_fold() -> None:
    out = BytesIO()
    canvas = Canvas(out, (A5[0] * MM, A5[1] * MM), invariant=1)
    for number in range(1, 9):
        if number == 3:
            canvas.rect(0, 0, A5[0] * MM, A5[1] * MM, fill=1)
        canvas.showPage()
    canvas.save()

    with pypdfium2.PdfDocument(fold(out.getvalue(), creep_mm=0.5)) as book:
        picture = book[2].render(scale=2, grayscale=True).to_pil()

    assert picture.getpixel((picture.width // 2 - 2, 100)) == 255
    assert picture.getpixel((picture.width // 2 + 2, 100)) == 0


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_pages_that_fill_no_sheet_are_refused(paper: str) -> None:
    with pytest.raises(ValueError, match=r"cannot be folded; a5 \(148 x 210 mm\) and half"):
        fold(numbered(4, PAPERS[paper]))


def test_pages_that_lie_across_are_refused() -> None:
    with pytest.raises(ValueError, match="pages of 210 x 148 mm cannot be folded"):
        fold(numbered(4, (210.0, 148.0)))


def test_pages_of_two_sizes_are_refused() -> None:
    with (
        pikepdf.open(BytesIO(numbered(3))) as book,
        pikepdf.open(BytesIO(numbered(1, HALF_LETTER))) as other,
    ):
        book.pages.extend(other.pages)
        out = BytesIO()
        book.save(out)

    with pytest.raises(ValueError, match="page 4 is 140 x 216 mm, page 1 is 148 x 210 mm"):
        fold(out.getvalue())


def test_a_page_that_is_turned_stands_upright_on_the_sheet() -> None:
    with pikepdf.open(BytesIO(numbered(4, (210.0, 148.0)))) as book:
        for page in book.pages:
            page.rotate(90, relative=False)
        out = BytesIO()
        book.save(out)

    assert halves(fold(out.getvalue())) == [("p4", "p1"), ("p2", "p3")]


def a_booklet() -> bytes:
    """Pages of words on A5, with an outline."""
    desk = desk_of(read_instrument("violin"), "4/4", read_layout("ordinary"), "a5", ENGLISH)
    frame = frame_of(desk, "Harbour", "Stop at once if it hurts.", {}, mirrored=True)
    days = [
        replace(
            piece_of([words_of(f"Day <b>{number}</b> ♯", Look(12.0), 100.0, desk)]),
            opens=Opens.PAGE,
            marks=(Mark(f"Day {number}", 0),),
            running=f"{number} December 2026",
        )
        for number in range(1, 11)
    ]
    pages = flow(days, lambda _: Room(1, desk.sheet.column, 0.0, frame.room))
    imprint = Imprint("Ines", "Harbour", "Pages")
    return bind_leaves([], leaves_of(pages, frame.top), frame, Engraving((), ()), imprint)


def test_the_file_keeps_its_title_and_loses_what_no_longer_holds() -> None:
    flat = a_booklet()
    with pikepdf.open(BytesIO(flat)) as before, pikepdf.open(BytesIO(fold(flat))) as book:
        assert "/Outlines" in before.Root
        assert "/Outlines" not in book.Root
        assert {key: str(value) for key, value in book.docinfo.items()} == {
            key: str(value) for key, value in before.docinfo.items()
        }
        assert str(book.Root["/Lang"]) == "en"
        labels = [page.label for page in book.pages]
    assert labels[:3] == ["1r", "1v", "2r"]


@pytest.mark.published("ISO 32000-1, 12.2: viewer preferences")
def test_the_file_asks_for_both_sides_in_actual_size() -> None:
    with pikepdf.open(BytesIO(fold(numbered(4)))) as book:
        wishes = book.Root["/ViewerPreferences"]
        assert str(wishes["/Duplex"]) == "/DuplexFlipShortEdge"
        assert str(wishes["/PrintScaling"]) == "/None"
        assert book.pdf_version >= "1.7"


def test_fonts_stay_embedded_and_are_not_doubled() -> None:
    flat = a_booklet()

    assert sorted(fonts_of(fold(flat))) == sorted(fonts_of(flat))
    assert all(embedded for _, embedded in fonts_of(fold(flat)))


def test_words_can_still_be_searched() -> None:
    assert any("1 December 2026" in right for _, right in halves(fold(a_booklet())))


def test_the_same_pages_make_the_same_bytes() -> None:
    flat = a_booklet()

    assert fold(flat, creep_mm=0.1) == fold(flat, creep_mm=0.1)
