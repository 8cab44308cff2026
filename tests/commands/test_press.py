"""Books for a printing house, as the commands make them."""

from pathlib import Path

import pikepdf
import pytest
from kit.pdfx import findings, profile
from kit.shell import bookgen, refused

from bookgen.binder.prepress.gray_profile import gray_profile

MM = 72 / 25.4
PLAN = str(Path(__file__).parents[1] / "specimens" / "plans" / "version-1-booklet.json")
STUDIO = """
name = "Harbour Lane Strings"
[players.Jo]
minutes = 4
practice_days = ["Tue", "Thu"]
"""
DECEMBER = ("booklet", "--from", "2026-12-01", "--to", "2026-12-03")


def test_a_plan_is_bound_for_the_press() -> None:
    assert bookgen("bind", PLAN, "--press").out == "output/version-1-booklet-press.pdf\n"

    with pikepdf.open("output/version-1-booklet-press.pdf") as book:
        assert findings(book) == {}
        assert profile(book) == gray_profile()


def test_an_edition_of_a_book_goes_to_the_press() -> None:
    assert bookgen("new-supplement", ".").code == 0
    words = ("supplement", "supplement.toml", "--only", "cello-de-from-memory", "--plans", ".")

    stem = "output/supplement-cello-de-from-memory-press"
    assert bookgen(*words, "--press").out == f"{stem}.pdf\n{stem}-cover.pdf\n"
    assert Path("supplement-cello-de-from-memory.json").exists()
    for name in (f"{stem}.pdf", f"{stem}-cover.pdf"):
        with pikepdf.open(name) as book:
            assert findings(book) == {}
            assert str(book.Root.Lang) == "de"


SPEC = """
title = "First Crossings"
back = "For the violin."
paper_grams = 150
paper_bulk = 2.0
isbn.violin-en-student = "978-0-306-40615-7"
[[chapter]]
title = "Half steps"
hands = ["12"]
limit = 3
"""


def test_an_edition_has_a_cover_as_wide_as_its_pages_make_it() -> None:
    Path("book.toml").write_text(SPEC, encoding="utf-8")

    made = bookgen("supplement", "book.toml", "--press").out.split()
    assert made == [f"output/book-violin-en-student-press{end}.pdf" for end in ("", "-cover")]
    with pikepdf.open(made[0]) as book, pikepdf.open(made[1]) as cover:
        assert findings(cover) == {}
        left, _, right, _ = (float(side) for side in cover.pages[0].trimbox)
        leaves = -(-len(book.pages) // 2)
        assert (right - left) / MM == pytest.approx(2 * 210 + leaves * 0.3, abs=0.01)


def test_without_a_press_or_a_paper_there_is_no_cover() -> None:
    Path("book.toml").write_text(SPEC, encoding="utf-8")
    assert len(bookgen("supplement", "book.toml").out.split()) == 1
    Path("book.toml").write_text(SPEC.replace("paper_grams", "# "), encoding="utf-8")
    assert len(bookgen("supplement", "book.toml", "--press").out.split()) == 1


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("615-7", "615-8", "line 6, isbn: the last digit of '978-0-306-40615-8' does not check, 7"),
        ('"978-0-306-40615-7"', '"Theo"', "line 6, isbn: 'Theo' is no ISBN of 13 digits; write"),
        ('"978-0-306-40615-7"', "978", "line 6, isbn.violin-en-student: 978 is no ISBN in quotes"),
        ("isbn.violin-en-student", "isbn.viola-en", "line 6, isbn: the spec has no edition"),
        ("= 150", "= 15", "line 4, paper_grams: 15 is no weight of a book's paper; give 40 to 300"),
        ("= 2.0", '= "thick"', "paper_bulk: 'thick' is no bulk of a paper; give 0.7 to 2.5"),
        ("For the violin.", "# Violin", "line 3, back:"),
    ],
)
def test_what_makes_no_cover_is_told_with_its_line(old: str, new: str, said: str) -> None:
    Path("book.toml").write_text(SPEC.replace(old, new), encoding="utf-8")

    assert said in refused("supplement", "book.toml", "--press")


def test_a_file_says_when_it_was_made(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1796083200")
    for out in ("one.pdf", "two.pdf"):
        assert bookgen("bind", PLAN, "--press", "--out", out).code == 0

    assert Path("one.pdf").read_bytes() == Path("two.pdf").read_bytes()
    with pikepdf.open("one.pdf") as book:
        assert str(book.docinfo["/CreationDate"]) == "D:20261201000000Z"


def test_a_booklet_stands_beside_the_one_for_the_screen() -> None:
    Path("studio.toml").write_text(STUDIO, encoding="utf-8")
    assert bookgen(*DECEMBER).code == 0
    Path("press.icc").write_bytes(gray_profile().replace(b"GRAY", b"CMYK", 1))
    printer = ("--press", "--profile", "press.icc", "--bleed", "5", "--no-marks")

    made = bookgen(*DECEMBER, *printer).out.split()
    assert [Path(name).name for name in made] == [
        "jo-2026-12-01-to-2026-12-03-press.pdf",
        "jo-2026-12-01-to-2026-12-03-summary.pdf",
    ]
    assert Path(made[0].replace("-press", "")).exists()
    with pikepdf.open(made[0]) as book:
        assert set(findings(book)) == {"house: one trim"}, "another bleed than 3 mm"
        assert profile(book) == Path("press.icc").read_bytes()
    with pikepdf.open(made[1]) as book:
        assert "/OutputIntents" not in book.Root


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--bleed", "0"), "--bleed: it is for a file for the press; add --press."),
        (("--no-marks",), "--no-marks: it is for a file for the press; add --press."),
        (("--profile", "a.icc"), "--profile: it is for a file for the press; add --press."),
        (("--press", "--bleed", "11"), "'11' is no width of a bleed; give 0 to 10"),
        (("--press", "--bleed", "nan"), "'nan' is no width of a bleed; give 0 to 10"),
        (("--press", "--bleed", "wide"), "'wide' is no width of a bleed; give 0 to 10"),
        (("--press", "--print"), "crop marks stand outside of the paper of an office printer"),
        (("--press", "--profile", "a.icc"), "--profile a.icc: cannot be read"),
        (("--press", "--profile", PLAN), "no ICC profile; ask the printer"),
    ],
)
def test_what_makes_no_file_for_the_press_is_told(words: tuple[str, ...], said: str) -> None:
    assert said in refused("bind", PLAN, *words)


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        (b"prtr", b"mntr", "another device (mntr), not of a press (prtr)"),
        (b"GRAY", b"RGB ", "a profile of RGB; black ink needs one of GRAY or CMYK"),
        (b"No copyright", b"No copy", "an ICC profile, but not a whole one"),
    ],
)
def test_a_profile_of_no_press_is_told(old: bytes, new: bytes, said: str) -> None:
    Path("a.icc").write_bytes(gray_profile().replace(old, new, 1))

    assert said in refused("bind", PLAN, "--press", "--profile", "a.icc")


def test_folded_sheets_are_not_for_the_press() -> None:
    Path("studio.toml").write_text(STUDIO, encoding="utf-8")
    said = "the pages of folded sheets cannot be cut; leave --press or --fold out"

    assert said in refused(*DECEMBER, "--press", "--fold")
    assert bookgen(*DECEMBER, "--fold", "--plan", "folded.json").code == 0
    assert said in refused("bind", "folded.json", "--press")


def test_the_profile_is_not_written_over() -> None:
    Path("a.pdf").write_bytes(gray_profile())

    words = ("--press", "--profile", "a.pdf", "--out", "a.pdf")
    assert "it is read by this command" in refused("bind", PLAN, *words)
