"""Facts are said in whatever language has a catalogue."""

from datetime import date

import pytest
from kit.shorthand import pitch

from bookgen.errors import Finding, RefusedError, told, why, within
from bookgen.words.marks import marks_of
from bookgen.words.names import interval_label, interval_name, position_name
from bookgen.words.speech import ENGLISH, languages, speech_of, translated

GERMAN = translated(
    "de",
    """
msgid ""
msgstr ""
"Content-Type: text/plain; charset=utf-8\\n"
"Plural-Forms: nplurals=2; plural=(n != 1);\\n"

msgctxt "note"
msgid "B"
msgstr "H"

msgctxt "note"
msgid "B♭"
msgstr "B"

msgctxt "note with its octave"
msgid "{note}{octave}"
msgstr "{note}"

msgctxt "interval"
msgid "augmented fourth"
msgstr "übermäßige Quarte"

msgctxt "mark of an interval"
msgid "aug{number}"
msgstr "ü{number}"

msgctxt "mark of a half step"
msgid "H"
msgstr "½"

msgctxt "position"
msgid "{number}th"
msgstr "{number}."

msgid "{position} position"
msgstr "{position} Lage"

msgid "{number} day"
msgid_plural "{number} days"
msgstr[0] "{number} Tag"
msgstr[1] "{number} Tage"

msgid "'{label}' is no interval; write quality and number, e.g. m3, P4 or M10"
msgstr "„{label}“ ist kein Intervall; z. B. m3, P4 oder M10"
""".encode(),
)


@pytest.mark.published("LilyPond music glossary: German H is B, and B is B flat")
def test_notes_have_the_names_of_the_language() -> None:
    assert [GERMAN.note(pitch(name)) for name in ("B3", "Bb3")] == ["H", "B"]
    assert GERMAN.pitch(pitch("B3")) == "H"


def test_intervals_marks_and_positions_are_those_of_the_language() -> None:
    assert interval_name("A4", GERMAN) == "übermäßige Quarte"
    assert interval_label("A4", GERMAN) == "ü4"
    assert marks_of(GERMAN).half == "½"
    assert [position_name(code, GERMAN) for code in ("1st", "3rd")] == ["1. Lage", "3. Lage"]


@pytest.mark.published("CLDR, de: dates, lists and plurals")
def test_dates_lists_and_plurals_are_those_of_the_language() -> None:
    day = date(2026, 12, 1)
    assert GERMAN.date(day) == "Dienstag, 1. Dezember 2026"
    assert GERMAN.skeleton(day, "yMMMM") == "Dezember 2026"
    assert GERMAN.listed([1, 2, 3]) == "1, 2 und 3"
    days = [GERMAN.count("{number} day", "{number} days", number) for number in (0, 1, 2)]
    assert days == ["0 Tage", "1 Tag", "2 Tage"]


@pytest.mark.published("CLDR, en_GB: dates and lists")
def test_english_is_british() -> None:
    assert ENGLISH.date(date(2026, 9, 1)) == "Tuesday, 1 September 2026"
    assert ENGLISH.skeleton(date(2026, 9, 1), "MMMEd") == "Tue 1 Sept"
    assert ENGLISH.listed(["1", "2", "3"]) == "1, 2 and 3"


def test_a_refusal_is_said_in_the_language() -> None:
    error = RefusedError("interval-label", label="X4")

    assert ENGLISH.line(why(error)).startswith("'X4' is no interval; write quality")
    assert GERMAN.line(why(error)) == "„X4“ ist kein Intervall; z. B. m3, P4 oder M10"


def test_a_finding_is_one_line_whatever_stands_in_the_file() -> None:
    place = within("studio.toml", "players")
    finding = Finding(place, told("no player {name}", name="A\x1b[2J\nB"), told("give a name"))

    assert ENGLISH.line(finding) == r"studio.toml, players: no player A\x1b[2J\nB; give a name."


@pytest.mark.parametrize("language", ["xx", "", "../bookgen", "en/../en"])
def test_a_language_without_a_catalogue_is_refused(language: str) -> None:
    assert "en" in languages()
    with pytest.raises(FileNotFoundError):
        speech_of(language)
