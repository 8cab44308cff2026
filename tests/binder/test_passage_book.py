"""Whole pages of a passage, read back from the PDF."""

from dataclasses import replace
from io import BytesIO

import pikepdf
import pypdfium2
import pytest
from booklets import outline
from paper import fonts_of, stand_in
from passage_pages import LAYOUT, STUDIO, WIDEST, bound, with_ladders, words
from passages import passage
from shorthand import VIOLIN

from bookgen.binder.desk import Options
from bookgen.binder.layout import PAPERS, NoRoomError
from bookgen.binder.passage_book import bind_passage
from bookgen.binder.press import CREATOR


@pytest.mark.parametrize("paper", PAPERS)
def test_everything_stands_on_paper_of_every_size(paper: str) -> None:
    pdf = bound(paper=paper)
    text = " ".join(words(pdf))
    width, height = PAPERS[paper]

    for page in pypdfium2.PdfDocument(pdf):
        assert [side * 25.4 / 72 for side in page.get_size()] == pytest.approx([width, height])
    for said in ("A hard passage", "The hands", "The placements", "The next best", "Towards A"):
        assert said in text
    assert text.count("Stop at once if anything hurts") >= len(words(pdf))


@pytest.mark.parametrize("lines", [1, 30])
def test_a_long_passage_takes_as_many_pages_as_it_needs(lines: int) -> None:
    pdf = bound(passage(), lines=lines)
    with pikepdf.open(BytesIO(pdf)) as book:
        music = [len(page.resources.get("/XObject", {})) for page in book.pages]

    assert sum(music) == lines
    assert len(music) >= lines // 8


def test_the_outline_leads_to_parts_groups_and_drills() -> None:
    found = outline(bound())
    levels = [level for level, _, _ in found]
    pages = [page for _, _, page in found]

    assert found[0][:2] == (0, "The passage")
    assert set(levels) == {0, 1, 2}
    assert pages == sorted(pages)


def test_the_same_passage_gives_the_same_bytes(monkeypatch: pytest.MonkeyPatch) -> None:
    first = bound()
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1")

    assert bound() == first


def test_all_fonts_are_embedded() -> None:
    assert all(embedded for _, embedded in fonts_of(bound()))


def test_the_file_says_what_it_is() -> None:
    with pikepdf.open(BytesIO(bound())) as book:
        info = book.trailer["/Info"]
        assert (str(info["/Title"]), str(info["/Author"])) == ("A hard passage", STUDIO)
        assert str(info["/Subject"]) == "A passage for the violin"
    nobody = bind_passage(
        passage(), VIOLIN, stand_in(1, width_mm=100.0), stand_in(0), LAYOUT, Options()
    )
    with pikepdf.open(BytesIO(nobody)) as book:
        assert str(book.trailer["/Info"]["/Author"]) == CREATOR


def test_another_passages_drills_are_refused() -> None:
    music = stand_in(1, width_mm=WIDEST["a4"])

    with pytest.raises(ValueError, match=r"\d+ drills and excerpts, 1 engraved"):
        bind_passage(with_ladders(), VIOLIN, music, music, LAYOUT, Options())


def test_music_higher_than_a_page_is_refused() -> None:
    high = stand_in(1, width_mm=100.0, height_mm=280.0)

    with pytest.raises(NoRoomError):
        bind_passage(passage(), VIOLIN, high, stand_in(0), LAYOUT, Options())


def test_hostile_words_are_only_printed() -> None:
    hostile = '"}</title><b>{{ 1 }} \\markup'
    best = replace(passage().best, unplayable=(("<i>1\n2", "%s</item> {% raw"),))

    text = " ".join(words(bound(replace(passage(), title=hostile, best=best))))
    assert "{{ 1 }} \\markup" in text
    assert "%s</item> {% raw" in text
