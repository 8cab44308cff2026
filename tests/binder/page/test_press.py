"""The finished file."""

from io import BytesIO

import pikepdf
from kit.paper import stand_in

from bookgen.binder.page.imprint import Imprint, Numbering
from bookgen.binder.page.press import labels, press

IMPRINT = Imprint(
    "Ines · Tuesday", "Harbour Lane Strings", "Pages", [Numbering(0, "2026-12-01 · ")]
)


def blank() -> bytes:
    book = pikepdf.new()
    book.add_blank_page(page_size=(600, 800))
    out = BytesIO()
    book.save(out)
    return out.getvalue()


def test_the_file_says_what_it_is_and_not_when_it_was_made() -> None:
    with pikepdf.open(BytesIO(press(blank(), stand_in(1), [], IMPRINT))) as book:
        info = {key: str(value) for key, value in book.docinfo.items()}
        assert info == {
            "/Title": "Ines · Tuesday",
            "/Author": "Harbour Lane Strings",
            "/Subject": "Pages",
            "/Creator": "bookgen",
        }
        assert str(book.Root["/Lang"]) == "en"
        assert book.pages[0].trimbox == book.pages[0].mediabox
        assert book.pages[0].label == "2026-12-01 · 1"


def test_the_same_pages_make_the_same_bytes() -> None:
    assert len({press(blank(), stand_in(1), [], IMPRINT) for _ in range(2)}) == 1


def test_labels_name_each_run() -> None:
    numbers = labels([Numbering(0, "a"), Numbering(2, "b", roman=True)])["/Nums"]

    assert [int(numbers[index]) for index in (0, 2)] == [0, 2]
    assert [str(numbers[index]["/P"]) for index in (1, 3)] == ["a", "b"]


def test_front_pages_are_numbered_in_small_roman_numerals() -> None:
    numbers = labels([Numbering(0, roman=True), Numbering(2)])["/Nums"]

    assert [str(numbers[index]["/S"]) for index in (1, 3)] == ["/r", "/D"]
