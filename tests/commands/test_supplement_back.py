"""What stands behind the chapters, read back from the finished file and compared with the plan."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path

import msgspec
import pytest
from kit.book_text import DASH, labels, pages, spread
from kit.supplements import books_in

from bookgen.plan.document import DrillEntry, Plan

SPEC = """
title = "Hands"
instruments = ["violin", "cello"]
languages = ["en", "de"]

[[chapter]]
title = "Pairs"
hands = ["12", "24", "34"]
positions = ["1st", "2nd", "4th"]
stages = [1, 3, 5]
leads = ["low"]
returns = ["mirror"]

[[chapter]]
title = "Three fingers"
hands = ["123"]
instruments = ["violin"]
positions = ["1st"]
stages = [1, 3]
leads = ["low"]
returns = ["same"]
"""
EDITIONS = [(one, language) for one in ("violin", "cello") for language in ("en", "de")]
HANDS = {"en": "What each hand makes", "de": "Was jeder Griff ergibt"}
BOARD = {"en": "The fingerboard", "de": "Das Griffbrett"}
BETWEEN = {"en": "Between neighbouring strings", "de": "Zwischen Nachbarsaiten"}
EVERYTHING = {"en": "everything it makes, page", "de": "alles, was er greift, Seite"}
LABELS = {"d5": "dim5", "A4": "aug4", "A3": "aug3", "d7": "dim7", "A8": "aug8", "d8": "dim8"}
"""As an English staff has them, where a plan document has others."""

Tables = dict[str, dict[str, set[str]]]
"""By the name of a table: the fingers of each interval, by its label."""


@dataclass(frozen=True)
class Book:
    """A finished book, its pages as text with their labels, and its plan."""

    pages: list[str]
    labels: list[str]
    plan: Plan
    language: str

    def part(self, title: str) -> list[tuple[str, list[str]]]:
        """The pages with that running head: each page's label and lines."""
        pages = zip(self.labels, self.pages, strict=True)
        found = [(label, page.splitlines()) for label, page in pages]
        return [(label, lines) for label, lines in found if title in " ".join(lines[:2])]


@pytest.fixture(scope="module")
def books(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder with all editions and their plans."""
    return books_in(tmp_path_factory.mktemp("books"), SPEC)


@pytest.fixture(params=EDITIONS, ids="-".join)
def book(books: Path, request: pytest.FixtureRequest) -> Book:
    instrument, language = request.param
    name = f"book-{instrument}-{language}-student"
    plan = msgspec.json.decode((books / f"{name}.json").read_bytes(), type=Plan)
    file = books / "output" / f"{name}.pdf"
    return Book(pages(file), labels(file), plan, language)


def hands_in(book: Book) -> dict[str, tuple[str, list[str]]]:
    """By the fingers and steps of a hand: the page on which it stands, and its lines."""
    found: dict[str, tuple[str, list[str]]] = {}
    for label, lines in book.part(HANDS[book.language]):
        name = ""
        for line in lines[2:]:
            if re.fullmatch(rf"\d(?:{DASH}\d)+ [^\d{DASH}]+", line):
                name = line
            found.setdefault(name, (label, []))[1].append(line)
    return {name: told for name, told in found.items() if name}


def tables_of(lines: list[str]) -> Tables:
    """What the tables of a hand say."""
    found: Tables = {}
    own: dict[str, set[str]] = {}
    for line in lines:
        row = re.fullmatch(rf"(\S+\d+) \D+ (\d{DASH}\d(?:, \d{DASH}\d)*)", line)
        if row:
            own.setdefault(row[1], set()).update(row[2].split(", "))
        elif not re.search(r"\d", line):
            own = found.setdefault(line, {})
    return found


def made_in(entry: DrillEntry) -> set[tuple[str, str]]:
    """Every interval of a drill between two strings, with the fingers on the low and high one."""
    found = set()
    for before, event in pairwise((entry.events[0], *entry.events)):
        label = event.within or (event.from_previous if event.crosses else None)
        if label is not None:
            stops = [*(event.stops if event.within else (before.stops[-1], event.stops[-1]))]
            low, high = sorted(stops, key=lambda stop: -stop.string)
            found.add((LABELS.get(label, label), f"{low.finger}{DASH}{high.finger}"))
    return found


def test_a_hand_makes_everything_that_its_drills_have(book: Book) -> None:
    hands = hands_in(book)
    alike: dict[str, list[DrillEntry]] = {}
    for entry in book.plan.drills:
        fingers = DASH.join(map(str, entry.fingers))
        alike.setdefault(f"{fingers} {entry.spacings}", []).append(entry)
    assert len(hands) == len(alike)

    for (name, (_, lines)), (key, entries) in zip(hands.items(), alike.items(), strict=True):
        assert name.split()[0] == key.split()[0]
        if book.language == "en":
            told = tables_of(lines)[BETWEEN["en"]]
            made = {one for entry in entries for one in made_in(entry)}
            assert made <= {(label, pair) for label, pairs in told.items() for pair in pairs}
        numbers = {entry.number for entry in entries}
        text = " ".join(lines)
        said = [text[match.end() :] for match in re.finditer(r"(?:drills?|Übung(?:en)?) ", text)]
        assert {one for words in said for one in spread(leading(words))} == numbers


def leading(words: str) -> str:
    """The numbers with which words begin."""
    found = re.match(rf"[\d{DASH}, ]+", words)
    return found[0] if found else ""


def test_every_two_fingers_stand_in_one_row_of_each_table(book: Book) -> None:
    for name, (_, lines) in hands_in(book).items():
        fingers = name.split()[0].split(DASH)
        (told,) = (
            table for head, table in tables_of(lines).items() if head == BETWEEN[book.language]
        )
        every = [pair for pairs in told.values() for pair in pairs]
        assert sorted(every) == sorted(f"{low}{DASH}{high}" for low in fingers for high in fingers)


def test_the_index_of_hands_names_the_page_of_everything_a_hand_makes(book: Book) -> None:
    stands = {name: label for name, (label, _) in reversed(hands_in(book).items())}
    text = "\n".join(book.pages).replace("\xa0", " ")
    found = re.findall(rf"^(.+)\n{EVERYTHING[book.language]} (\d+)$", text, re.MULTILINE)

    assert dict(found) == stands
    assert len(found) == len(stands)


def test_the_fingerboard_stands_where_the_contents_say(book: Book) -> None:
    name = {"en": "Contents", "de": "Inhalt"}[book.language]
    (contents,) = (page for page in book.pages if name in page.splitlines()[:3])
    for title in (HANDS[book.language], BOARD[book.language]):
        (at,) = re.findall(rf"^{title} (\d+)$", contents, re.MULTILINE)
        assert book.part(title)[0][0] == at
    (board,) = book.part(BOARD[book.language])
    names = " ".join(board[1]).replace("  ", " ")
    strings = {"violin": ("IV G", "III D", "II A", "I E"), "cello": ("IV C", "III G", "II D")}
    assert all(one in names for one in strings[book.plan.instrument])


WEEK = {"en": "Mon Tue Wed Thu Fri Sat Sun", "de": "Mo Di Mi Do Fr Sa So"}
LOG = {"en": ("Plan of days", "Practice log"), "de": ("Übeplan", "Übetagebuch")}


@pytest.mark.published("CLDR, days of the week")
def test_the_plan_to_copy_faces_the_log(book: Book) -> None:
    (plan,), (log,) = map(book.part, LOG[book.language])
    assert plan[1][2].split()[:2] == log[1][2].split()[:2], "both say that they may be copied"
    assert " ".join(plan[1]).count(WEEK[book.language]) == 3
    assert int(log[0]) == int(plan[0]) + 1


def homes_in(book: Book) -> Iterator[tuple[str, str, list[int], set[str]]]:
    """What the index of intervals says: a label, fingers, the drills and their pages."""
    entries: list[str] = []
    for line in [line for _, page in book.part("Index of intervals") for line in page[2:]]:
        if re.match(rf"\d{DASH}\d |[a-z][a-z ]+ \S+\d+$", line):
            entries.append(line)
        elif entries:
            entries[-1] += f" {line}"
    label = ""
    for entry in entries:
        home = re.match(rf"(\d{DASH}\d) (.*)", entry)
        label = label if home else entry.split()[-1]
        for part in home[2].split("; ") if home else ():
            told = re.fullmatch(r"(?:half|\d+\w\w) (.+), pages? (.+)", part)
            assert told, part
            assert home
            yield label, home[1], spread(told[1]), {*map(str, spread(told[2]))}


@pytest.mark.parametrize("book", [("violin", "en"), ("cello", "en")], indirect=True, ids="-".join)
def test_the_index_of_intervals_names_every_drill_and_its_page_and_no_other(book: Book) -> None:
    found = [*homes_in(book)]
    assert {(label, pair, one) for label, pair, numbers, _ in found for one in numbers} == {
        (label, pair, entry.number) for entry in book.plan.drills for label, pair in made_in(entry)
    }
    for number, on in ((one, on) for _, _, numbers, on in found for one in numbers):
        pages = zip(book.labels, book.pages, strict=True)
        over = rf"^{number}\s\d(?: and \d|(?: \d)+), "
        (page,) = (label for label, text in pages if re.search(over, text, re.MULTILINE))
        assert page in on
