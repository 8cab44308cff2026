"""Whole pages of a passage, read back from the PDF."""

from dataclasses import replace
from io import BytesIO

import pikepdf
import pypdfium2
import pytest
from kit.paper import fonts_of, stand_in
from kit.passage_pages import STUDIO, bind, bound, desk, with_ladders, words
from kit.passages import passage

from bookgen.binder.books.passage import bind_passage, passage_book
from bookgen.binder.page.imprint import CREATOR
from bookgen.binder.page.paper import PAPERS, NoRoomError
from bookgen.errors import told
from bookgen.readers.layout import layout_names


def outline(pdf: bytes) -> list[tuple[int, str, int]]:
    """Level, title and page of every entry."""
    with pypdfium2.PdfDocument(BytesIO(pdf)) as book:
        return [
            (entry.level, entry.get_title(), entry.get_dest().get_index())
            for entry in book.get_toc()
        ]


@pytest.mark.parametrize("layout", layout_names())
@pytest.mark.parametrize("paper", PAPERS)
def test_everything_stands_on_paper_of_every_size(paper: str, layout: str) -> None:
    pdf = bound(paper=paper, layout=layout)
    text = " ".join(words(pdf))
    width, height = PAPERS[paper]

    for page in pypdfium2.PdfDocument(pdf):
        assert [side * 25.4 / 72 for side in page.get_size()] == pytest.approx([width, height])
    for said in ("A hard passage", "hard spots", "Like "):
        assert said in text
    assert text.count("Stop at once if it hurts") >= len(words(pdf))


@pytest.mark.parametrize("lines", [1, 30])
def test_a_long_passage_takes_as_many_pages_as_it_needs(lines: int) -> None:
    pdf = bound(passage(), lines=lines)
    with pikepdf.open(BytesIO(pdf)) as book:
        music = [len(page.resources.get("/XObject", {})) for page in book.pages]

    assert sum(music) == lines + len(passage_book(passage(), desk()).excerpts)
    assert len(music) >= lines // 8


def test_the_outline_leads_to_parts_spots_and_drills() -> None:
    one = with_ladders()
    found = outline(bound())

    assert [title for level, title, _ in found if level == 0] == [
        "The passage",
        "What cannot be played",
        "The frames",
        "The hard spots",
        "The drills",
    ]
    numbers = [title.partition(" · ")[0] for level, title, _ in found if level == 1]
    spots = [str(spot.number) for spot in one.spots]
    drills = list(dict.fromkeys(drill for ladder in one.ladders for drill in ladder.drills))
    assert numbers == [*spots, *map(str, range(1, len(drills) + 1))]
    pages = [page for _, _, page in found]
    assert pages == sorted(pages)


def test_without_a_log_drills_have_letters_and_no_boxes() -> None:
    named = " ".join(words(bound(with_ladders(player=None))))
    numbered = " ".join(words(bound()))

    assert "first a" in named
    assert "first 1" in numbered
    assert "box: secure" in numbered
    assert "box: secure" not in named


def test_all_hands_are_told_under_their_letters() -> None:
    text = " ".join(words(bound(with_ladders(all_hands=True))))
    assert "Frame A" in text
    assert "all of A met" in text


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
        assert str(info["/Subject"]) == "Passage, Violin"
    line = stand_in(1, width_mm=100.0)
    nobody = bind(passage(), desk(studio=None), line)
    with pikepdf.open(BytesIO(nobody)) as book:
        assert str(book.trailer["/Info"]["/Author"]) == CREATOR


def test_another_passages_excerpts_are_refused() -> None:
    line = stand_in(1, width_mm=100.0)
    with pytest.raises(ValueError, match=r"\d+ excerpts, 1 engraved"):
        bind_passage(passage_book(with_ladders(), desk()), stand_in(3), line, line)


def test_music_higher_than_a_page_is_named() -> None:
    high = stand_in(1, width_mm=100.0, height_mm=280.0)
    with pytest.raises(NoRoomError) as refused:
        bind(passage(), desk(), high)
    assert "line 1 of the music needs 2" in str(refused.value.message)


def test_hostile_words_are_only_printed() -> None:
    hostile = '"}</title><b>{{ 1 }} \\markup \x00\N{CJK UNIFIED IDEOGRAPH-6F22}'
    best = replace(passage().best, unplayable=(("<i>1\n2", told("%s</item> {{x}}")),))

    text = " ".join(words(bound(replace(passage(), title=hostile, best=best))))
    assert "</title><b>{{ 1 }} \\markup \N{WHITE SQUARE}" in text
    assert "Bar <i>1 2: %s</item> {x}" in text
