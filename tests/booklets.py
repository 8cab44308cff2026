"""A booklet's plan and its parts for tests of the binder, without planner and LilyPond."""

from dataclasses import replace
from datetime import date, timedelta
from functools import cache
from io import BytesIO

import pikepdf
import pypdfium2
from paper import a_drill, stand_in

from bookgen.binder.book_words import BookletFacts, BookWords, book_words
from bookgen.binder.booklet import bind_booklet
from bookgen.binder.desk import Desk, Options, desk_of
from bookgen.binder.furniture import Furniture, furniture_of
from bookgen.binder.page_words import PageWords
from bookgen.binder.view import View
from bookgen.notation.engraved import Engraving
from bookgen.plan.document import Character, Day, Kind, Link, Plan, PlannedDrill
from bookgen.readers.instrument import read_instrument
from bookgen.readers.layout import read_layout

LAYOUT = read_layout("ordinary")
FIRST = date(2026, 12, 1)
STUDIO = "Harbour Lane Strings"
MUSIC_HEIGHT_MM = 28.0
ROUND = (
    "12-whole-place2-strings4321-stage1-low-same",
    "12-half-place2-strings4321-stage1-low-same",
    "12-whole-place2-strings4321-stage2-low-same",
    "23-half-place4-strings4321-stage1-low-same",
    "12-whole-place2-strings4321-stage3-low-mirror",
    "23-whole-place4-strings321-stage1-high-mirror",
    "12-whole-place2-strings4321-stage5-low-mirror",
)
"""The drills come in this order, day after day, and begin again."""

KINDS = (Kind.OPENING, Kind.REVIEW, Kind.NEW, Kind.VARIANT, Kind.LADDER)
A_DAY = 5
TEST_ITEMS = 4


def a_month(days: int = 31, player: str | None = "Ines", first_number: int = 1) -> Plan:
    """Days from Tuesday, 1 December 2026: Sundays free, Wednesdays light, Saturdays with a test."""
    found: list[Day] = []
    number = first_number
    for on in (FIRST + timedelta(days=offset) for offset in range(days)):
        if on.weekday() == 6:
            continue
        character = {2: Character.LIGHT, 5: Character.TEST}.get(on.weekday(), Character.ORDINARY)
        count = TEST_ITEMS if character is Character.TEST else A_DAY
        drills = tuple(numbered(number + index, index, character, number) for index in range(count))
        found.append(Day(on, 2.0 * count, drills, character))
        number += count
    return Plan("violin", "4/4", player, 0, tuple(found))


def numbered(number: int, index: int, character: Character, first: int) -> PlannedDrill:
    """One drill of a day; the first has no link, the third waits for the one before it."""
    key = ROUND[number % len(ROUND)]
    if character is Character.TEST:
        return replace(a_drill(key, number=number), kind=Kind.TEST, link=Link(None, None, ""))
    link = Link(number - 1, None, f"As No. {number - 1}: same place.") if index else None
    return replace(
        a_drill(key, number=number, link=link),
        kind=KINDS[index],
        only_if=number - 1 if KINDS[index] is Kind.NEW and number > first else None,
    )


def music_for(plan: Plan, paper: str = "a5") -> Engraving:
    """Stand-in music as wide as the paper's booklets allow."""
    count = sum(len(day.drills) for day in plan.days)
    width = LAYOUT.music_width(paper, booklet=True) - 0.5
    return stand_in(count, width_mm=width, height_mm=MUSIC_HEIGHT_MM)


def bound(plan: Plan, paper: str = "a5", facts: BookletFacts | None = None) -> bytes:
    """A whole booklet."""
    options = Options(paper=paper, studio=STUDIO)
    instrument = read_instrument(plan.instrument)
    found = facts or BookletFacts("December 2026")
    return bind_booklet(plan, instrument, music_for(plan, paper), LAYOUT, options, found)


@cache
def month_bound(paper: str = "a5", *, from_memory: bool = False) -> bytes:
    """A booklet, made once."""
    facts = BookletFacts("December 2026", note="Listen first.", from_memory=from_memory)
    return bound(month_of(paper, from_memory=from_memory), paper, facts)


def month_of(paper: str = "a5", *, from_memory: bool = False) -> Plan:
    """The plan of `month_bound`: a whole month on A5, else some days, for the sake of time."""
    return a_month(31 if paper == "a5" and not from_memory else 8)


def texts(pdf: bytes) -> list[str]:
    """The words of each page, with single spaces."""
    document = pypdfium2.PdfDocument(pdf)
    return [" ".join(page.get_textpage().get_text_range().split()) for page in document]


def labels(pdf: bytes) -> list[str]:
    """The pages' labels."""
    with pikepdf.open(BytesIO(pdf)) as book:
        return [page.label for page in book.pages]


def outline(pdf: bytes) -> list[tuple[int, str, int]]:
    """Level, title and page (from 0) of every entry of the outline."""
    document = pypdfium2.PdfDocument(pdf)
    found = []
    for entry in document.get_toc():
        destination = entry.get_dest()
        assert destination is not None
        found.append((entry.level, entry.get_title(), destination.get_index()))
    return found


@cache
def desk(paper: str = "a5") -> Desk:
    options = Options(paper=paper, studio=STUDIO)
    return desk_of((read_instrument("violin"), "4/4"), LAYOUT, options, booklet=True)


def words(plan: Plan, paper: str = "a5", facts: BookletFacts | None = None) -> BookWords:
    return book_words(plan, facts or BookletFacts("December 2026"), desk(paper), "actual size")


def pages(plan: Plan, paper: str = "a5") -> PageWords:
    return PageWords(desk(paper).words, words(plan, paper))


def views(plan: Plan, paper: str = "a5") -> list[View]:
    """What the charts show, at one scale."""
    return desk(paper).views([planned for day in plan.days for planned in day.drills])


def furniture(plan: Plan | None = None, paper: str = "a5") -> Furniture:
    found = pages(plan or a_month(7), paper)
    return furniture_of(desk(paper), found.whose, found.caution)
