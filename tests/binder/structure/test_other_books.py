"""Sheets, booklets and passages for the screen: the same rules, and music of passages in words."""

import re
from collections.abc import Callable
from functools import cache
from io import BytesIO

import pikepdf
import pytest
from kit.books import a_booklet, a_passage, a_sheet
from kit.heard import Heard, heard
from kit.month_plan import a_month
from kit.passage_pages import with_ladders
from kit.pdfua import findings
from kit.shorthand import VIOLIN

from bookgen.binder.page.desk import Desk, desk_of
from bookgen.model.instrument import NUMERALS
from bookgen.plan.document import Gauge
from bookgen.readers.layout import read_layout
from bookgen.words.pictures import map_words
from bookgen.words.speech import ENGLISH

Book = Callable[[Desk, str], bytes]
BOOKS: list[Book] = [a_sheet, a_booklet, a_passage]
NOTE = re.compile(r"(?:finger (\d)|(open)) ([A-G][♯♭]*\d)(?: held)?")


@cache
def on_screen(book: Book) -> bytes:
    layout = read_layout("ordinary")
    desk = desk_of(VIOLIN, "4/4", layout, "a4", ENGLISH, "Harbour Lane Strings", screen=True)
    return book(desk, "Jo")


def figures(book: Book) -> list[Heard]:
    return list(heard(on_screen(book)).every("Figure"))


@pytest.mark.parametrize("book", BOOKS)
def test_every_rule_is_kept(book: Book) -> None:
    with pikepdf.open(BytesIO(on_screen(book))) as made:
        assert findings(made) == {}


@pytest.mark.published("ISO 14289-1 (PDF/UA-1), by page-validation")
@pytest.mark.parametrize("book", BOOKS)
def test_a_validator_of_others_finds_nothing(book: Book) -> None:
    page = pytest.importorskip("page", reason="page-validation is in the extra dev")
    report = page.validate_pdf_bytes(on_screen(book), profile="ua1")

    assert [(one.rule_id, one.message) for one in report.failures] == []


def notes_in(alt: str) -> list[tuple[str, int, str]]:
    """String, finger and note, one after the other, read back from the words of music."""
    found: list[tuple[str, int, str]] = []
    string = ""
    for part in re.split(r"(string [IV]+: )", alt):
        named = re.fullmatch(r"string ([IV]+): ", part)
        string = named[1] if named else string
        found += [(string, int(one[1] or 0), one[3]) for one in NOTE.finditer(part)]
    return found


def test_the_music_of_a_passage_in_words_is_its_fingering() -> None:
    passage = with_ladders("Jo")
    alts = [one.alt for one in figures(a_passage) if one.alt.startswith("Notes, ")]
    wanted = [
        (NUMERALS[stop.string], stop.finger, ENGLISH.pitch(note.pitch))
        for placed in passage.best.placed
        for note, stop in zip(
            passage.phrase.bars[placed.bar].sounds[placed.sound].notes, placed.stops, strict=True
        )
        if stop is not None
    ]

    whole, *spots = alts[: 1 + len(passage.spots)]
    assert notes_in(whole) == wanted
    bars = dict.fromkeys(placed.bar for placed in passage.best.placed)
    assert re.findall(r"bar (\w+), ", whole) == [passage.phrase.bars[at].number for at in bars]
    for alt, spot in zip(spots, passage.spots, strict=True):
        sounds = passage.best.placed[spot.first : spot.last + 1]
        assert len(notes_in(alt)) == sum(stop is not None for one in sounds for stop in one.stops)


def test_each_number_of_the_plan_of_days_is_read_with_its_role() -> None:
    plan = a_month(12, days=9)
    said = [one.alt for one in figures(a_booklet) if re.match(r"\d+: ", one.alt)]
    wanted = [(item.number, item.only_if) for day in plan.days for item in day.items]

    found = [re.fullmatch(r"(\d+): [^;]+(?:; if (\d+))?", one) for one in said]
    assert [(int(one[1]), int(one[2]) if one[2] else None) for one in found if one] == wanted
    assert any(": new" in one for one in said)


def test_a_map_in_words_has_every_gauge() -> None:
    gauges = [
        Gauge(string=string, semitones=place, secure=place % 3, practised=1, new=2, aimed=2)
        for string in (1, 4)
        for place in (2, 4, 5)
    ]
    said = map_words(gauges, ENGLISH)

    assert re.findall(r"string (\w+)", said) == ["IV", "I"]
    found = [tuple(map(int, one)) for one in re.findall(r"(\d+): (\d+) of (\d+) secure", said)]
    assert found == [(place, place % 3, place % 3 + 3) for _ in range(2) for place in (2, 4, 5)]
