"""`--screen`: a book that is read on a screen and by ear, with the music that LilyPond engraved."""

from pathlib import Path

import pikepdf
import pytest
from kit.heard import heard
from kit.pdfua import findings
from kit.shell import bookgen, refused
from kit.supplements import SPEC


def test_every_edition_is_made_beside_the_one_for_paper() -> None:
    Path("book.toml").write_text(SPEC, encoding="utf-8")
    words = ("supplement", "book.toml", "--only", "violin-en-student", "--quiet")

    assert bookgen(*words).code == 0
    outcome = bookgen(*words, "--screen")
    assert outcome.code == 0, outcome.err
    names = sorted(path.name for path in Path("output").iterdir())
    assert names == ["book-violin-en-student-screen.pdf", "book-violin-en-student.pdf"]
    file = Path("output", names[0])
    with pikepdf.open(file) as book:
        assert findings(book) == {}
        assert book.pdf_version == "1.7"
    alts = [one.alt for one in heard(file.read_bytes()).every("Figure")]
    assert any("Notes, 1 · 1 and 2, half step: string IV: finger 1 A3" in alt for alt in alts)


def sound(file: Path) -> bytes:
    """A file that keeps every rule; its bytes."""
    with pikepdf.open(file) as book:
        assert findings(book) == {}
    return file.read_bytes()


@pytest.mark.parametrize(
    ("words", "name"),
    [
        (("sheet", "--date", "2026-12-01"), "sheet-2026-12-01-screen"),
        (("sheet", "--class", "violin, cello"), "class-violin-cello-2026-12-01-screen"),
        (("booklet", "--from", "2026-12-01", "--to", "2026-12-03"), "booklet-2026-12-01-to-2026"),
        (("drill", "violin-12-whole-place2-strings4321-stage4-low-same"), "violin-12-whole-place2"),
        (("passage", "air.passage"), "air-passage-screen"),
    ],
)
def test_every_book_of_a_studio_has_an_edition_for_the_screen(
    words: tuple[str, ...], name: str
) -> None:
    Path("air.passage").write_text("meter: 2/4\nA4:8 B4 C5 E5 | D4+B4:4 A4 |\n", encoding="utf-8")
    date = ("--date", "2026-12-01") if "--class" in words else ()
    outcome = bookgen(*words, *date, "--screen", "--quiet")

    assert outcome.code == 0, outcome.err
    (file,) = [one for one in Path("output").glob("*.pdf") if "summary" not in one.name]
    assert file.name.startswith(name)
    assert file.name.endswith("-screen.pdf")
    sound(file)


def test_a_plan_document_binds_to_the_same_edition_for_the_screen() -> None:
    words = ("sheet", "--date", "2026-12-01", "--plan", "plan.json", "--screen", "--quiet")
    assert bookgen(*words).code == 0
    assert bookgen("bind", "plan.json", "--screen", "--quiet").code == 0

    assert sound(Path("output/plan-screen.pdf")) == sound(
        Path("output/sheet-2026-12-01-screen.pdf")
    )


def test_a_file_is_for_a_press_or_for_a_screen() -> None:
    Path("book.toml").write_text(SPEC, encoding="utf-8")
    words = ("supplement", "book.toml", "--press", "--screen")

    assert "--screen: a file is for a printing house or for a screen" in refused(*words)


def test_folded_sheets_are_not_for_a_screen() -> None:
    words = ("booklet", "--month", "2026-12", "--fold", "--screen")

    assert "--screen: the pages of folded sheets are in no order" in refused(*words)
