"""The table for an editor: what it says of a book is what the book has."""

import csv
import json
import re
from itertools import groupby, pairwise
from pathlib import Path

import pypdfium2
import pytest
from kit.shell import bookgen, refused
from music21.interval import Interval
from music21.pitch import Pitch

SPEC = """
title = "Close Fingers"
languages = ["en", "de"]
[[chapter]]
title = "Half steps"
hands = ["12"]
spacings = ["half"]
positions = ["1st"]
returns = ["mirror"]
[[chapter]]
title = "Onwards"
hands = ["23"]
positions = ["3rd"]
stages = [1, 5]
"""
HEADS = [
    *("number", "key", "drill", "chapter", "page", "moment", "bar", "way", "string", "finger"),
    *("half steps from the nut", "position", "note", "pitch", "held"),
    *("interval from before", "interval together"),
]


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = tmp_path_factory.mktemp("table")
    (made / "book.toml").write_text(SPEC, encoding="utf-8")
    outcome = bookgen("supplement", str(made / "book.toml"), "--proof", "--plans", str(made))
    assert outcome.code == 0, outcome.err
    names = [Path(line).name for line in outcome.out.split()]
    stem = "book-violin-{}-student"
    assert names == [
        f"{stem.format(language)}{end}"
        for language in ("en", "de")
        for end in (".pdf", "-proof.pdf", "-proof.csv")
    ]
    return made


def rows(folder: Path, language: str = "en") -> list[list[str]]:
    file = folder / "output" / f"book-violin-{language}-student-proof.csv"
    with file.open(encoding="utf-8-sig", newline="") as stream:
        return [*csv.reader(stream)]


def pages(file: Path) -> dict[str, str]:
    with pypdfium2.PdfDocument(file) as document:
        texts = [page.get_textpage().get_text_range().replace("\r", "") for page in document]
        return {document.get_page_label(at): text for at, text in enumerate(texts)}


def test_every_stop_of_the_plan_has_its_row(folder: Path) -> None:
    head, *body = rows(folder)
    plan = json.loads((folder / "book-violin-en-student.json").read_text(encoding="utf-8"))
    wanted = [
        (str(drill["number"]), str(turn), str(stop["semitones"]), stop["pitch"])
        for drill in plan["drills"]
        for turn, event in enumerate(drill["events"], start=1)
        for stop in event["stops"]
    ]

    assert head == HEADS
    assert [(row[0], row[5], row[10], row[13]) for row in body] == wanted
    assert {row[3] for row in body} == {"Half steps", "Onwards"}


def test_each_drill_stands_on_the_page_that_is_told(folder: Path) -> None:
    on = pages(folder / "output" / "book-violin-en-student.pdf")
    told = {row[0]: row[4] for row in rows(folder)[1:]}

    assert told
    for number, page in told.items():
        assert re.search(rf"^{number}\s\d and \d, ", on[page], re.MULTILINE)


@pytest.mark.published("music21 10.5, intervals")
def test_intervals_are_those_of_the_notes(folder: Path) -> None:
    names = {"aug4": "A4", "dim5": "d5"}
    moments = [[*own] for _, own in groupby(rows(folder)[1:], key=lambda row: (row[0], row[5]))]
    checked = 0
    for before, here in pairwise(moments):
        if here[-1][15] and before[0][0] == here[0][0]:
            assert between(before[-1], here[-1]) == names.get(here[-1][15], here[-1][15])
            checked += 1
        if len(here) > 1:
            assert between(*here) == names.get(here[0][16], here[0][16])
    assert checked > 100


def between(one: list[str], other: list[str]) -> str:
    """The interval of two rows by music21, the lower note first."""
    notes = [Pitch(row[13].replace("b", "-")) for row in (one, other)]
    return str(Interval(*sorted(notes, key=lambda note: (note.diatonicNoteNum, note.ps))).name)


def test_the_pages_name_every_drill_once_and_every_line(folder: Path) -> None:
    text = "\n".join(pages(folder / "output" / "book-violin-en-student-proof.pdf").values())
    body = rows(folder)[1:]
    titles = {(row[0], row[2]): row[5] for row in body}

    plain = re.sub(r"\s", "", text)
    for _, title in titles:
        assert re.sub(r"\s", "", title) in plain
    for key in {row[1] for row in body}:
        assert plain.count(key) == 1


def test_the_table_speaks_the_language_of_its_book(folder: Path) -> None:
    head, *body = rows(folder, "de")
    assert head[:3] == ["Nummer", "Schlüssel", "Übung"]
    assert "H" in {row[12] for row in body}, "B natural is H in German"
    assert [row[13] for row in body] == [row[13] for row in rows(folder)[1:]]
    text = "".join(pages(folder / "output" / "book-violin-de-student-proof.pdf").values())
    assert "Tabelle fürs Lektorat" in text


def test_nothing_is_written_over() -> None:
    Path("book.toml").write_text(SPEC, encoding="utf-8")
    Path("output/book-violin-en-student-proof.csv").mkdir(parents=True)

    assert "it is a folder" in refused("supplement", "book.toml", "--proof", "--only", "violin-en")
