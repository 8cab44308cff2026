"""Hand placements of a passage, and the pages that lead there."""

import json
from pathlib import Path

import pypdfium2
import pytest
from kit.shell import bookgen, refused

AIR = "title: Harbour air\nkey: D major\nmeter: 3/4\nbar: 5\nD4 E4 F#4 | G4 A4 B4 | C#5:2 D5:4 |\n"


@pytest.fixture(autouse=True)
def air(here: Path) -> Path:
    path = here / "air.passage"
    path.write_text(AIR, encoding="utf-8")
    return path


def words_of(pdf: str) -> str:
    document = pypdfium2.PdfDocument(pdf)
    return "\n".join(page.get_textpage().get_text_bounded() for page in document)


def test_pages_lead_to_the_passage() -> None:
    outcome = bookgen("passage", "air.passage", "--bars", "5-6", "--plan", "air.json")

    assert (outcome.code, outcome.out) == (0, "output/air-passage.pdf\n"), outcome.err
    text = words_of("output/air-passage.pdf")
    for words in ("Harbour air", "bars 5", "1st", "frame"):
        assert words in text
    document = json.loads(Path("air.json").read_text(encoding="utf-8"))
    assert document["format"] == "bookgen-passage"
    assert len(document["bars"]) == 2


def test_musicxml_has_the_fingering() -> None:
    assert bookgen("passage", "air.passage", "--out", "air.musicxml").out == "air.musicxml\n"

    text = Path("air.musicxml").read_text(encoding="utf-8")
    assert text.count("<fingering>") + text.count("<open-string") >= 8
    assert bookgen("passage", "air.musicxml", "--out", "again.musicxml").code == 0


def test_what_cannot_be_played_is_told_and_the_rest_is_done() -> None:
    Path("low.passage").write_text("E3 G3 A3 B3 |", encoding="utf-8")
    outcome = bookgen("passage", "low.passage", "--out", "low.musicxml")

    assert outcome.code == 0
    assert "low, bar 1: " in outcome.err


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("nothing.mxl",), "nothing.mxl: "),
        (("air.passage", "--prefer", "lazy"), "--prefer: no preference 'lazy'; choose low, "),
        (("air.passage", "--out", "air.doc"), "let it end in .pdf or .musicxml or .mid"),
        (("air.passage", "--bars", "90-95"), "90"),
        (("air.passage", "--instrument", "kazoo"), "--instrument: no instrument 'kazoo'"),
        (("studio.toml",), "studio.toml: "),
    ],
)
def test_what_was_given_wrong_is_told_and_nothing_is_written(
    here: Path, words: tuple[str, ...], told: str
) -> None:
    assert told in refused("passage", *words)
    assert [path.name for path in here.iterdir()] == ["air.passage"]
