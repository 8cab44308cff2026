"""Pages in the languages that there are: all words have room, and none is English."""

import re
from dataclasses import replace
from pathlib import Path

import pytest
from kit.bench import SECONDS, STYLE, workshop
from kit.books import BOOKS, a_sheet
from kit.ink import outside, overprints
from kit.month_plan import a_month
from kit.pseudo import cut_off, texts
from kit.shorthand import VIOLIN
from words.test_translations import on_paper

from bookgen.binder.books.sheet import bind_sheet, scores_of
from bookgen.binder.page.desk import Desk, desk_of
from bookgen.notation.engraver import start
from bookgen.readers.layout import layout_names, read_layout
from bookgen.words.marks import marks_of
from bookgen.words.names import instrument_name
from bookgen.words.speech import ENGLISH, SOURCE, Speech, languages, speech_of

STUDIO = "Harbour Lane Strings"
NAMES = ["Ines", STUDIO, "A hard passage", "Violin 4/4"]
OTHERS = [language for language in languages() if language != SOURCE]
WORD = re.compile(r"[^\W\d_]{3,}")
GAP = re.compile(r"\{[^{}]*\}")
PAPERS = ("a4", "a5", "letter", "half-letter")


def desk(speech: Speech, layout: str = "ordinary", paper: str = "a4") -> Desk:
    return desk_of(VIOLIN, "4/4", read_layout(layout), paper, speech, STUDIO)


def words(text: str) -> set[str]:
    """Words of three letters and more, in small letters; names of gaps are none."""
    return {word.casefold() for word in WORD.findall(GAP.sub(" ", text))}


def english_words(pdf: bytes, language: str) -> set[str]:
    """Words of our sentences on a page that no translation and no date has, nor a user typed."""
    sentences = on_paper(language)
    ours = words(" ".join(ours for ours, _ in sentences))
    theirs = words(" ".join(theirs for _, theirs in sentences)) | words(" ".join(NAMES))
    locale = speech_of(language).locale
    for table in (locale.months, locale.days):
        for names in table["format"].values():
            theirs |= words(" ".join(names.values()))
    return words(" ".join(text for _, text in texts(pdf))) & (ours - theirs)


@pytest.mark.parametrize("at", range(len(layout_names())))
@pytest.mark.parametrize("language", OTHERS)
def test_every_page_has_room_for_the_words_of_the_language(language: str, at: int) -> None:
    speech, layout = speech_of(language), layout_names()[at]
    paper = PAPERS[(at + OTHERS.index(language)) % len(PAPERS)]
    names = [*NAMES, f"{instrument_name(VIOLIN, speech)} 4/4"]
    for book in BOOKS:
        pdf = book(desk(speech, layout, paper), "Ines")
        assert english_words(pdf, language) == set(), book
        assert cut_off(pdf, names) == [], book
        assert overprints(pdf) == [], book
        assert outside(pdf) == [], book


@pytest.mark.parametrize("language", OTHERS)
def test_a_sheet_with_its_music_has_no_english_word(language: str, tmp_path: Path) -> None:
    speech = speech_of(language)
    plan, at = a_month(20, days=1), desk(speech)
    style = replace(STYLE, marks=marks_of(speech))
    running = start(scores_of(plan, at), VIOLIN, style, workshop(tmp_path))
    pdf = bind_sheet(plan, running.finish(SECONDS), at)
    assert english_words(pdf, language) == set()
    assert marks_of(speech).interval("P4") in "".join(running.sources)


def test_an_english_page_is_seen() -> None:
    assert {"string", "half", "step"} <= english_words(a_sheet(desk(ENGLISH), "Ines"), "de")
