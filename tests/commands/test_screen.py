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


@pytest.mark.parametrize("words", [("supplement", "book.toml")])
def test_a_file_is_for_a_press_or_for_a_screen(words: tuple[str, ...]) -> None:
    Path("book.toml").write_text(SPEC, encoding="utf-8")

    assert "--screen: a file is for a printing house or for a screen" in refused(
        *words, "--press", "--screen"
    )
