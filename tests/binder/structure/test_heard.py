"""What is heard of a book for the screen: charts and music in true words, all in reading order."""

import re
from collections.abc import Iterator, Sequence
from functools import cache
from typing import Final

import pytest
from kit.heard import Heard, heard
from kit.supplements import KINDS, LANGUAGES, a_supplement, edition_of

from bookgen.model.geometry import nut_distance_mm
from bookgen.model.pitch import Pitch
from bookgen.plan.document import DrillEntry, EventEntry, Plan
from bookgen.words.notes import NOTES
from bookgen.words.speech import speech_of

STRINGS: Final = ("I", "II", "III", "IV")
NAMES: Final = [f"violin-{language}-student" for language in LANGUAGES]
NAMES.extend(f"cello-en-{kind}" for kind in KINDS)

Played = tuple[int, int, str]
"""String, finger and name of a note, as a plan document writes it, without its octave."""

WORDS: Final = {
    "en": ("string", "finger", "with", "held", "at", "note", "back the same way", "Back:"),
    "de": (
        "Saite",
        "Finger",
        "mit",
        "gehalten",
        "bei",
        "Ton",
        "zurück auf demselben Weg",
        "Zurück:",
    ),
    "fr": (
        "corde",
        "doigt",
        "avec",
        "tenu",
        "à",
        "note",
        "retour par le même chemin",
        "Retour\N{NO-BREAK SPACE}:",
    ),
    "es": (
        "cuerda",
        "dedo",
        "con",
        "mantenido",
        "a",
        "nota",
        "vuelta por el mismo camino",
        "Vuelta:",
    ),
    "it": ("corda", "dito", "con", "tenuto", "a", "nota", "ritorno per la stessa via", "Ritorno:"),
}
"""The words between which notes, strings and fingers stand."""


def plan_of(name: str) -> Plan:
    return edition_of(name)[1]


@cache
def book_of(name: str) -> Heard:
    return heard(a_supplement(name))


@cache
def sections(name: str) -> dict[int, Heard]:
    """The section of each drill by its number."""
    found: dict[int, Heard] = {}
    for section in book_of(name).every("Sect"):
        number = re.match(r"(\d+) · \D*\d", section.title)
        if number and not list(section.every("Sect"))[1:] and section.kids[0].role == "H2":
            found[int(number[1])] = section
    return found


def name_in(language: str, said: str) -> str:
    """The note of that name, as a plan document writes it; octaves are figures at the end."""
    speech = speech_of(language)
    names = {speech.term(term): note for note, term in NOTES.items()}
    return names[said.rstrip("0123456789")]


def events_in(language: str, way: str) -> Iterator[list[Played]]:
    """What sounds at each moment, read back from the words of music."""
    string, finger, together, held, *_ = WORDS[language]
    note = rf"{finger} (\d) (\S+?)(?: {held})?"
    for part in re.split(r"\s?; ", way):
        sides = [side.split(":", 1) for side in part.split(f" {together} ")]
        numbers = [
            STRINGS.index(label.strip().removeprefix(f"{string} ").strip()) + 1
            for label, _ in sides
        ]
        said = [
            [re.fullmatch(note, one.strip()) for one in notes.strip().split(", ")]
            for _, notes in sides
        ]
        for sounding in zip(*said, strict=True):
            yield [
                (number, int(found[1]), name_in(language, found[2]))
                for number, found in zip(numbers, sounding, strict=True)
                if found is not None
            ]


def events_of(events: Sequence[EventEntry]) -> list[list[Played]]:
    """The same from the plan."""
    return [
        [(stop.string, stop.finger, re.sub(r"-?\d$", "", stop.pitch)) for stop in event.stops]
        for event in events
    ]


def music_of(language: str, alt: str) -> list[list[Played]]:
    """What sounds in the words of music, the way back too."""
    *_, mirrored, back = WORDS[language]
    whole = alt.split(":", 1)[1].strip().removesuffix(".")
    up = re.sub(rf"\s?; {mirrored}$", "", whole)
    if up != whole:
        way = list(events_in(language, up))
        return way + [sorted(one, key=lambda note: -note[0]) for one in way[::-1]]
    ways = re.split(rf"\. {back} ", whole)
    return [event for way in ways for event in events_in(language, way)]


@pytest.mark.parametrize("name", [one for one in NAMES if "memory" not in one])
def test_music_in_words_is_the_music_of_the_plan(name: str) -> None:
    language, plan = name.split("-")[1], plan_of(name)
    found = sections(name)

    assert sorted(found) == [entry.number for entry in plan.drills]
    for entry in plan.drills:
        chart, music = found[entry.number].every("Figure")
        assert f"{entry.number} · " in music.alt, "words name their own drill"
        assert f"{entry.number} · " in chart.alt
        wanted = [sorted(one, key=lambda note: -note[0]) for one in events_of(entry.events)]
        assert music_of(language, music.alt) == wanted, music.alt


def spots_in(language: str, alt: str) -> dict[tuple[int, int, int], int]:
    """The order of play of a chart, read back: by string, finger and millimetres."""
    string, finger, _, _, at, order, *_ = WORDS[language]
    spot = re.compile(rf"{finger} (\d) {at} (\d+) mm \({order} (\d+)\)")
    found: dict[tuple[int, int, int], int] = {}
    for part in re.split(r"; ", alt):
        number = re.search(rf"{string} ([IV]+)\s?:", part)
        assert number is not None, alt
        for played in spot.finditer(part):
            key = STRINGS.index(number[1]) + 1, int(played[1]), int(played[2])
            found[key] = int(played[3])
    return found


def order_of(entry: DrillEntry, length: float) -> dict[tuple[int, int, int], int]:
    """The same from the plan: a finger counts as it comes down."""
    found: dict[tuple[int, int, int], int] = {}
    count, lying = 0, set[tuple[int, int, int]]()
    for event in entry.events:
        keys = [
            (stop.string, stop.finger, round(nut_distance_mm(length, stop.semitones)))
            for stop in event.stops
        ]
        for stop, key in zip(event.stops, keys, strict=True):
            if not stop.held and not (len(keys) > 1 and key in lying):
                count += 1
                found.setdefault(key, count)
        lying = set(keys)
    return found


@pytest.mark.parametrize("name", NAMES)
def test_a_chart_in_words_is_the_hand_of_the_plan(name: str) -> None:
    language, plan = name.split("-")[1], plan_of(name)
    length = edition_of(name)[0].instrument.size(plan.size).string_length_mm
    found = sections(name)

    for entry in plan.drills:
        chart = next(found[entry.number].every("Figure"))
        assert spots_in(language, chart.alt) == order_of(entry, length), chart.alt


@pytest.mark.parametrize("name", NAMES)
def test_the_edition_to_be_remembered_names_no_note_before_its_answers(name: str) -> None:
    figures = [len(list(section.every("Figure"))) for section in sections(name).values()]

    assert set(figures) == {1 if "memory" in name else 2}


@pytest.mark.parametrize("name", NAMES)
def test_a_drill_is_read_from_its_number_to_its_music(name: str) -> None:
    for number, section in sections(name).items():
        head, *rest = section.kids
        assert head.text.startswith(f"{number} ")
        roles = [kid.role for kid in rest]
        assert roles.index("Figure") == 1 if rest[0].role == "P" else 0
        if "memory" not in name:
            assert roles[1:3] == ["Figure", "Figure"], roles


@pytest.mark.parametrize("name", NAMES)
def test_the_book_is_read_page_after_page(name: str) -> None:
    pages = [one.page for one in book_of(name).every() if one.page is not None]

    assert pages == sorted(pages)


@pytest.mark.parametrize("name", ["violin-en-student", "cello-en-teacher"])
def test_the_fingerboard_is_a_table_of_true_notes(name: str) -> None:
    edition, plan = edition_of(name)
    strings = edition.instrument.string_numbers()
    length = edition.instrument.size(plan.size).string_length_mm
    (fingerboard,) = (one for one in book_of(name).every("Sect") if one.title == "The fingerboard")
    rows = [row.kids for table in fingerboard.every("Table") for row in table.every("TR")]
    stops = [row for row in rows if row[0].role == "TD"]

    assert len(stops) == edition.instrument.highest_stop
    for semitones, row in enumerate(stops, start=1):
        *_, away = row
        if away.own:
            assert away.own == f"{nut_distance_mm(length, semitones):.0f}"
        for string, cell in zip(strings, row[-len(strings) - 1 : -1], strict=True):
            sounds = (edition.instrument.open_pitch(string).midi + semitones) % 12
            named = [Pitch.parse(f"{name_in('en', one)}4").midi % 12 for one in cell.own.split()]
            assert {*named} == {sounds}, cell.own


def test_a_book_is_read_in_its_order() -> None:
    book = book_of("violin-en-teacher")
    heads = [one.text for one in book.every("H1")]

    assert heads == [
        "Close Fingers",
        "Contents",
        "Preface",
        "How to use this book",
        "Chapter 1 Half steps",
        "Chapter 2 Onwards",
        "Answers",
        "What each hand makes",
        "The fingerboard",
        "Index of intervals",
        "Index of hands",
        "Plan of days",
        "Practice log",
    ]
    text = book.text
    assert "Play slowly, and listen." in text
    assert text.count("Close Fingers") == 2, "running heads are not read"
    assert text.count("Stop at once if it hurts or goes numb, and rest.") == 1
    said = ["The arm travels.", "For the teacher", "Ask for the interval.", "1 1 and 2, half step"]
    assert [text.index(one) for one in said] == sorted(text.index(one) for one in said)


@pytest.mark.parametrize("name", NAMES)
def test_links_lead_where_they_say(name: str) -> None:
    book, plan = book_of(name), plan_of(name)
    heads = [one for one in book.every("H1") if one.page is not None]
    (contents,) = book.every("TOC")
    for link in contents.every("Link"):
        assert link.link in {head.page for head in heads}, link.own
    found = sections(name)
    for entry in plan.drills:
        links = list(found[entry.number].every("Link"))
        assert bool(links) == (entry.link.to is not None)
        for link in links:
            assert isinstance(entry.link.to, int)
            assert str(entry.link.to) in link.own
            assert link.link == found[entry.link.to].kids[0].page


@pytest.mark.parametrize("name", NAMES)
def test_entries_of_indexes_lead_to_a_drill_that_they_name(name: str) -> None:
    found, entries = sections(name), [*indexed(name)]
    assert len(entries) > 2
    for link in entries:
        named = {int(one) for one in re.findall(r"\d+", link.own)} & set(found)
        assert link.link in {found[number].kids[0].page for number in named}, link.own


def indexed(name: str) -> Iterator[Heard]:
    """The entries of both indexes."""
    for listed in book_of(name).every("LBody"):
        yield from listed.every("Link")


@pytest.mark.parametrize("name", NAMES)
def test_no_two_words_run_together(name: str) -> None:
    for one in book_of(name).every("P", "H1", "H2", "H3", "Link", "LBody"):
        assert not re.search(r"[a-zäöüéèàñò][A-Z]", one.own), one.own
        assert "  " not in one.own, one.own
