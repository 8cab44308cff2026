"""A page for the screen looks as on paper; what paper does not need is not in its file."""

from collections.abc import Iterator
from io import BytesIO

import numpy as np
import numpy.typing as npt
import pikepdf
import pypdfium2
import pytest
from kit.heard import heard
from kit.supplements import KINDS, a_supplement

from bookgen.binder.page.canvas import Face, Style
from bookgen.binder.page.fonts import Fonts
from bookgen.binder.page.screen_canvas import ScreenCanvas
from bookgen.binder.structure.letters import mend_letters
from bookgen.binder.structure.screen_file import for_screen
from bookgen.binder.structure.tag import ARTIFACT, Role, Tag, head, paragraph
from bookgen.notation.engraved import Engraving
from bookgen.readers.layout import read_layout

PLAIN = Style(Face.REGULAR, 10.0)
Dots = npt.NDArray[np.uint8]


def dots(pdf: bytes) -> Iterator[Dots]:
    """The pages as an eye sees them."""
    with pypdfium2.PdfDocument(pdf) as book:
        for page in book:
            yield np.asarray(page.render(scale=1.5, grayscale=True).to_numpy()).copy()


@pytest.mark.parametrize("kind", KINDS)
def test_a_page_looks_as_on_paper(kind: str) -> None:
    name = f"violin-en-{kind}"
    paper, screen = (dots(a_supplement(name, screen=on)) for on in (False, True))

    assert all(np.array_equal(one, other) for one, other in zip(paper, screen, strict=True))


def test_a_file_for_paper_tells_nothing_of_what_is_read() -> None:
    with pikepdf.open(BytesIO(a_supplement("violin-en-student", screen=False))) as book:
        assert not {"/StructTreeRoot", "/MarkInfo", "/Metadata"} & set(book.Root.keys())
        assert not any("/StructParents" in page.obj for page in book.pages)
        operators = {
            str(step.operator) for page in book.pages for step in pikepdf.parse_content_stream(page)
        }
    assert "BDC" not in operators


def test_a_file_for_the_screen_is_the_same_each_time() -> None:
    first = a_supplement("violin-en-student")
    a_supplement.cache_clear()

    assert a_supplement("violin-en-student") == first


def test_the_file_tells_its_language_and_its_pages_have_their_numbers() -> None:
    with pikepdf.open(BytesIO(a_supplement("violin-de-student"))) as book:
        assert str(book.Root.Lang) == "de"
        assert [page.label for page in book.pages][:8] == [
            "i",
            "ii",
            "iii",
            "iv",
            "v",
            "vi",
            "vii",
            "viii",
        ]
        assert "1" in [page.label for page in book.pages]
        with book.open_outline() as outline:
            assert [one.title for one in outline.root][:2] == ["Close Fingers", "Inhalt"]


def canvas() -> ScreenCanvas:
    return ScreenCanvas(Fonts(read_layout("ordinary").fonts), 100, 50, Engraving((), ()), None)


def read(paper: ScreenCanvas) -> list[tuple[str, str]]:
    """What is heard of the pages of a canvas: roles and words."""
    paper.next_page()
    out = BytesIO()
    with pikepdf.open(BytesIO(paper.finish())) as book:
        book.trailer["/Info"] = pikepdf.Dictionary(Title="T", Author="A", Subject="S", Creator="C")
        book.Root["/Lang"] = pikepdf.String("en")
        for_screen(book, paper.tree, ["1"])
        book.save(out)
    return [(one.role, one.own) for one in heard(out.getvalue()).every()]


def test_what_is_drawn_without_a_tag_is_loose() -> None:
    paper = canvas()
    paper.text((10, 10), "lost", PLAIN)
    paper.line((0, 0), (9, 9), width=1)

    assert ("Loose", "lost") in read(paper)


def test_an_artifact_keeps_all_that_is_drawn_in_it() -> None:
    paper = canvas()
    with paper.tagged(ARTIFACT), paper.tagged(paragraph()):
        paper.text((10, 10), "decoration", PLAIN)

    assert read(paper) == [("Document", "")]


def test_a_head_that_is_printed_again_is_read_once() -> None:
    paper, tag = canvas(), head(1, once=True)
    for y in (40, 20):
        with paper.tagged(tag):
            paper.text((10, y), "Thirds", PLAIN)

    assert read(paper) == [("Document", ""), ("H2", "Thirds")]


def test_a_paragraph_goes_on_where_its_tag_comes_again() -> None:
    paper, one, other = canvas(), paragraph(), paragraph()
    paper.reading(one, other)
    for tag, words in ((other, "third"), (one, "first"), (one, "second")):
        with paper.tagged(tag):
            paper.text((10, 40 - 2 * len(words)), words, PLAIN)

    assert read(paper)[1:] == [("P", "first second"), ("P", "third")]


def test_words_that_touch_are_one_word() -> None:
    paper = canvas()
    with paper.tagged(paragraph()):
        paper.text((10, 10), "cross", PLAIN)
        paper.text((10 + paper.width("cross", PLAIN), 10), "ing", Style(Face.BOLD, 10.0))

    assert ("P", "crossing") in read(paper)


def test_a_link_that_leads_out_of_the_book_is_plain_words() -> None:
    paper = canvas()
    with paper.tagged(Tag(Role.LINK, within=paragraph(), goal="drill-9")):
        paper.text((10, 10), "Like 9", PLAIN)

    assert read(paper)[1:] == [("P", ""), ("Span", "Like 9")]


def test_an_engraver_s_signs_get_places_of_their_own() -> None:
    table = b"1 begincodespacerange\n<0000> <ffff>\n2 beginbfchar\n<0000> <0041>\n<0002> <0000>\n"
    with pikepdf.new() as book:
        font = pikepdf.Dictionary(Type=pikepdf.Name.Font, ToUnicode=book.make_stream(table))
        book.Root["/Kept"] = book.make_indirect(font)
        mend_letters(book)
        mended = font.ToUnicode.read_bytes()

    assert mended == table.replace(b"<0002> <0000>", b"<0002> <E000>")
