"""The catalogues of the languages: whole, in step with the code, and right by outside tables."""

import re
from datetime import date
from functools import cache
from io import BytesIO
from pathlib import Path
from string import Formatter

import pytest
from babel import Locale
from babel.messages.catalog import Catalog, Message
from babel.messages.pofile import read_po
from house.catalogue import language_files, language_text
from music21.pitch import Pitch as Music21Pitch

from bookgen.notation.lilypond import find_lilypond
from bookgen.words.marks import marks_of
from bookgen.words.names import position_name, position_short
from bookgen.words.notes import NOTES
from bookgen.words.speech import SOURCE, languages, speech_of

OTHERS = [language for language in languages() if language != SOURCE]
PAGES = ("bookgen/words/", "bookgen/binder/")
NOT_ON_PAGES = {
    f"bookgen/words/{name}.py" for name in ("refusals", "log", "reach", "results", "wishes")
}
LILYPOND = {"de": "deutsch", "fr": "français", "es": "español", "it": "italiano"}
LETTERS = {"c": "C", "d": "D", "e": "E", "f": "F", "g": "G", "a": "A", "b": "B"}
GLUE = re.compile(r"<[^<>]*>|&\w+;")


@cache
def catalogue(language: str) -> Catalog:
    """The catalogue of a language."""
    (file,) = (file for file in language_files() if file.stem == language)
    return read_po(BytesIO(file.read_bytes()), locale=language)


def pairs(message: Message) -> list[tuple[str, str]]:
    """The sentences of a message, each with its translation; a plural's is that of its own form."""
    if isinstance(message.id, str):
        return [(message.id, str(message.string))]
    return list(zip(message.id, message.string or (), strict=True))


def translated(language: str) -> list[tuple[str, str]]:
    """Every sentence that a catalogue has, with its translation."""
    found = [pair for message in catalogue(language) if message.id for pair in pairs(message)]
    return [(ours, theirs) for ours, theirs in found if theirs]


def on_paper(language: str) -> list[tuple[str, str]]:
    """Every sentence of a page, with its translation."""
    found = [one for one in catalogue(language) if one.id and on_pages(one)]
    return [pair for message in found for pair in pairs(message)]


def gaps(text: str) -> list[str]:
    """The gaps of a sentence as they are written, in any order."""
    parts = Formatter().parse(text)
    return sorted(f"{name}!{how}:{spec}" for _, name, spec, how in parts if name is not None)


def on_pages(message: Message) -> bool:
    """The message stands on a printed page."""
    places = {place for place, _ in message.locations} - NOT_ON_PAGES
    return any(place.startswith(PAGES) for place in places)


@pytest.mark.parametrize("file", language_files(), ids=lambda file: file.stem)
def test_a_catalogue_has_the_sentences_that_the_code_has(file: Path) -> None:
    written = file.read_text(encoding="utf-8")
    assert written == language_text(file), "write it anew: python -m tests.house.catalogue"


@pytest.mark.parametrize("language", OTHERS)
def test_every_sentence_of_a_page_is_translated(language: str) -> None:
    wanted = [one for one in catalogue(language) if one.id and on_pages(one)]
    open_ones = [one.id for one in wanted if one.fuzzy or not all(dict(pairs(one)).values())]
    assert open_ones == []


@pytest.mark.published("Babel's checkers of translations")
@pytest.mark.parametrize("language", OTHERS)
def test_a_catalogue_is_sound(language: str) -> None:
    found = [(message.id, errors) for message, errors in catalogue(language).check()]
    assert found == []


@pytest.mark.parametrize("language", OTHERS)
def test_a_translation_has_the_gaps_and_the_markup_of_its_sentence(language: str) -> None:
    for ours, theirs in translated(language):
        numberless = ours.replace("{octave}", "") if ours == "{note}{octave}" else ours
        assert gaps(theirs) == gaps(numberless), theirs
        assert sorted(GLUE.findall(theirs)) == sorted(GLUE.findall(ours)), theirs
        assert theirs.startswith(" ") == ours.startswith(" "), theirs
        assert theirs.endswith(" ") == ours.endswith(" "), theirs


@pytest.mark.published("CLDR: plural rules, through Babel")
@pytest.mark.parametrize("language", OTHERS)
def test_plurals_are_those_of_the_language(language: str) -> None:
    speech = speech_of(language)
    form = Locale.parse(language).plural_form
    for number in (0, 0.5, 1, 1.5, 2, 5, 11, 21, 100):
        assert speech.singular(number) == (form(number) == "one")
        if isinstance(number, int):
            days = speech.translations.ngettext("{number} drill", "{number} drills", number)
            assert days == speech.translations.ngettext(
                "{number} drill", "{number} drills", 1 if form(number) == "one" else 2
            )


@pytest.mark.published("CLDR: names of months and weekdays, through Babel")
@pytest.mark.parametrize("language", OTHERS)
def test_a_date_has_the_names_of_the_language(language: str) -> None:
    locale, speech = Locale.parse(language), speech_of(language)
    for month in range(1, 13):
        day = date(2026, month, 15)
        said = speech.date(day)
        assert locale.months["format"]["wide"][month] in said
        assert locale.days["format"]["wide"][day.weekday()] in said
        assert speech.skeleton(day, "yMMMM").startswith(locale.months["stand-alone"]["wide"][month])


@pytest.mark.published("music21, names of pitches")
@pytest.mark.parametrize("language", OTHERS)
def test_notes_are_called_as_music21_calls_them(language: str) -> None:
    speech = speech_of(language)
    for name, term in NOTES.items():
        other = Music21Pitch(name.replace("b", "-"))
        theirs = {"de": other.german, "fr": other.french, "es": other.spanish, "it": other.italian}
        assert spelled_out(speech.term(term), language) == theirs[language].replace("Ases", "Asas")


def spelled_out(name: str, language: str) -> str:
    """A note with words for its signs."""
    signs = {
        "fr": ("double dièse", "dièse", "double bémol", "bémol"),
        "es": ("doble sostenido", "sostenido", "doble bemol", "bemol"),
        "it": ("doppio diesis", "diesis", "doppio bemolle", "bemolle"),
    }
    if language not in signs:
        return name
    for sign, word in zip(("♯♯", "♯", "♭♭", "♭"), signs[language], strict=True):
        name = name.replace(sign, f" {word}")
    return name


@pytest.mark.published("LilyPond, note names by languages")
@pytest.mark.parametrize("language", OTHERS)
def test_notes_are_called_as_lilypond_calls_them(language: str) -> None:
    speech, named = speech_of(language), lilypond_names(LILYPOND[language])
    for name, term in NOTES.items():
        theirs = named[name]
        ours = speech.term(term).lower().replace("♭", "b").replace("♯", "s")
        assert ours in theirs, name


def lilypond_names(language: str) -> dict[str, set[str]]:
    """Every name of a note in a language of LilyPond, by ours; s stands for its sharps."""
    folder = find_lilypond().resolve().parent.parent / "share" / "lilypond"
    (file,) = folder.glob("*/scm/lily/define-note-names.scm")
    table = file.read_text(encoding="utf-8").partition(f"    ({language} . (")[2]
    table = table.partition("\n    (")[0]
    signs = {"DOUBLE-FLAT": "bb", "FLAT": "b", "NATURAL": "", "SHARP": "#", "DOUBLE-SHARP": "##"}
    found: dict[str, set[str]] = {}
    for written, degree, sign in re.findall(
        r"\((\S+) \. ,\(ly:make-pitch -1 (\d) ([A-Z-]+)\)\)", table
    ):
        if sign in signs:
            ours = "CDEFGAB"[int(degree)] + signs[sign]
            flats = written if language == "deutsch" else re.sub(r"d(d?)$", r"s\1", written)
            found.setdefault(ours, set()).add(flats.replace("sd", "ss"))
    return found


@pytest.mark.parametrize("language", OTHERS)
def test_marks_are_no_names_of_notes(language: str) -> None:
    speech = speech_of(language)
    marks = marks_of(speech)
    notes = {speech.term(term).casefold() for term in NOTES.values()}
    for label in ("m2", "M2", "m3", "M3", "P4", "A4", "d5", "P5", "m6", "M6", "m7", "M7", "P8"):
        mark = marks.interval(label)
        assert mark.casefold().rstrip("0123456789") not in notes or mark[0].isdigit(), mark
    assert marks.half == "½"
    assert marks.whole == "1"


@pytest.mark.parametrize("language", OTHERS)
def test_a_position_beside_a_staff_has_no_sign_that_the_engraver_reads(language: str) -> None:
    speech = speech_of(language)
    for code in ("half", "1st", "2nd", "3rd", "4th", "11th"):
        assert not set(position_short(code, speech)) & set('"\\{}#%$'), code


@pytest.mark.published("common practice, no source: French ordinals, of which CLDR has none here")
def test_the_first_of_a_month_is_an_ordinal_in_french() -> None:
    first, other = date(2026, 12, 1), date(2026, 12, 11)
    assert speech_of("fr").date(first) == "mardi 1er décembre 2026"
    assert speech_of("fr").date(other) == "vendredi 11 décembre 2026"
    assert speech_of("fr").skeleton(first, "MMMEd") == "mar. 1er déc."
    assert speech_of("es").date(first) == "martes, 1 de diciembre de 2026"
    assert speech_of("it").date(first) == "martedì 1 dicembre 2026"


def test_positions_have_the_form_of_the_language() -> None:
    said = {
        language: [position_name(code, speech_of(language)) for code in ("half", "1st", "2nd")]
        for language in ("de", "fr", "es", "it")
    }
    assert said == {
        "de": ["halbe Lage", "1. Lage", "2. Lage"],
        "fr": ["demi-position", "1re position", "2e position"],
        "es": ["media posición", "1.ª posición", "2.ª posición"],
        "it": ["mezza posizione", "1ª posizione", "2ª posizione"],
    }


BLANK = re.compile(r" [;:!?»]|« |“[^”]*$")


def test_french_signs_hold_to_their_words() -> None:
    assert [theirs for _, theirs in translated("fr") if BLANK.search(theirs)] == []


def test_questions_open_in_spanish_and_quotations_are_german_in_german() -> None:
    for _, theirs in translated("es"):
        assert theirs.count("¿") == len(re.findall(r"[\w}]\?", theirs)), theirs
    for ours, theirs in translated("de"):
        assert "”" not in theirs, theirs
        assert theirs.count("„") == theirs.count("“"), theirs
        assert "„" in theirs or "“" not in ours, theirs
