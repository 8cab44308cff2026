"""A finished cover is read back: title, spine, number; another book's is found out."""

from collections.abc import Sequence
from dataclasses import replace
from io import BytesIO
from pathlib import Path

import pikepdf
import pytest
from barcode.ean import EuropeanArticleNumber13
from kit.proofs import changed, rewrite
from kit.shell import bookgen

from bookgen.proof.bar_digits import digits_of
from bookgen.proof.cover_proof import Cover, cover_faults
from bookgen.proof.printed import Box, Shape
from bookgen.proof.reading import read_pages, trim_of

DIGITS = "9780306406157"
SPEC = """
title = "Close Fingers"
author = "Harbour Lane Strings"
paper_grams = 300
paper_bulk = 2.5
isbn.violin-en-student = "978-0-306-40615-7"

[[chapter]]
title = "Half steps"
hands = ["12", "23"]
spacings = ["half"]
positions = ["1st"]
stages = [1]
"""


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> tuple[bytes, bytes]:
    """A book and its cover."""
    folder = tmp_path_factory.mktemp("cover")
    (folder / "book.toml").write_text(SPEC, encoding="utf-8")
    outcome = bookgen("supplement", str(folder / "book.toml"), "--press", "--quiet")
    assert (outcome.code, outcome.err) == (0, "")
    stem = folder / "output" / "book-violin-en-student-press"
    return stem.with_name(f"{stem.name}.pdf").read_bytes(), stem.with_name(
        f"{stem.name}-cover.pdf"
    ).read_bytes()


@pytest.fixture
def wanted(made: tuple[bytes, bytes]) -> Cover:
    """By hand: 0.75 mm a leaf on A4."""
    with pikepdf.open(BytesIO(made[0])) as book:
        leaves = (len(book.pages) + 1) // 2
    return Cover("Close Fingers", "Harbour Lane Strings", DIGITS, 210.0, leaves * 0.75)


def faults(pdf: bytes, cover: Cover) -> Sequence[str]:
    (page,) = read_pages(pdf, [0])
    return [str(problem) for problem in cover_faults(page, trim_of(pdf), cover)]


def test_a_cover_that_is_right_passes(made: tuple[bytes, bytes], wanted: Cover) -> None:
    assert faults(made[1], wanted) == []


@pytest.mark.parametrize(
    ("other", "said"),
    [
        ({"title": "Open Fingers"}, "the title is missing on the front"),
        ({"author": "Harbour Lane"}, "the spine says 'CloseFingersHarbourLaneStrings'"),
        ({"digits": "9790060115615"}, "the bars are those of 9780306406157, and should be of 979"),
        ({"digits": None}, "the bars are those of 9780306406157, and should be of"),
        ({"spine_mm": 9.9}, "mm wide, and should be 9.90 mm"),
    ],
)
def test_the_cover_of_another_book_is_found(
    made: tuple[bytes, bytes], wanted: Cover, other: dict[str, object], said: str
) -> None:
    found = faults(made[1], replace(wanted, **other))  # type: ignore[arg-type]
    assert [fault for fault in found if said in fault], found


def without_a_bar(book: pikepdf.Pdf) -> None:
    """One of the bars of the number's third digit is not drawn."""
    bars = rb"(0 g\nn \S+ 34\.\S+ m [^f]*f\*\n)"
    rewrite(book.pages[0], bars, lambda _: b"")


def test_a_bar_that_is_missing_is_found(made: tuple[bytes, bytes], wanted: Cover) -> None:
    found = faults(changed(made[1], without_a_bar), wanted)
    assert "the bars are those of ??80306406157, and should be of 9780306406157" in found


@pytest.mark.parametrize("digits", [DIGITS, "9790060115615", "4006381333931", "0012345678905"])
def test_bars_of_another_library_are_read(digits: str) -> None:
    (modules,) = EuropeanArticleNumber13(digits[:-1]).build()
    bars = [
        Shape(Box(at * 0.94, 0.0, (at + 1) * 0.94, 65.0), 0.0, dark=True, light=False, music=None)
        for at, black in enumerate(modules)
        if black == "1"
    ]
    assert digits_of(bars) == digits
    assert digits_of([]) is None


def test_a_cover_with_another_number_is_not_written(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("book.toml").write_text(SPEC, encoding="utf-8")
    monkeypatch.setattr(
        "bookgen.binder.books.cover_sheet.BarCode.draw",
        lambda *_: None,
    )
    outcome = bookgen("supplement", "book.toml", "--press", "--quiet")

    assert outcome.code == 1, "it is our fault, not the user's"
    assert "book-violin-en-student-press-cover.pdf: the bars are those of" in outcome.err
    assert [path.name for path in Path().iterdir()] == ["book.toml"]
