"""The indexes of a finished book compared with its pages: each drill under its page."""

import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from difflib import SequenceMatcher
from typing import Final

from bookgen.errors import told
from bookgen.model.interval import interval_label
from bookgen.model.pitch import Pitch
from bookgen.plan.document import DrillEntry, StopEntry
from bookgen.proof.fault import Fault
from bookgen.proof.located import Located
from bookgen.proof.printed import Page, bare
from bookgen.words import index as words
from bookgen.words import supplement
from bookgen.words.names import fingers_name
from bookgen.words.speech import Speech

MARKS: Final = re.compile("<[^>]*>")
"""What our words say of the face of their type."""

Home = tuple[str, tuple[int, int], int, str]
"""An interval, the fingers that play it, place and position."""


def index_faults(book: Located, entries: Sequence[DrillEntry], speech: Speech) -> Iterator[Fault]:
    """Lines of the indexes that are missing or have other pages."""
    located = {entry.number: book.label(entry.number) for entry in entries}
    if not all(label.isdecimal() for label in located.values()):
        return  # a drill that is missing has been told
    pages = {number: int(label) for number, label in located.items()}
    wholes = (
        (words.index_title(speech), interval_lines(entries, pages, speech)),
        (supplement.hands_title(speech), hand_lines(entries, pages, speech)),
    )
    for title, lines in wholes:
        on = [page for page in book.pages if titled(page, title)]
        if on:
            yield from line_faults(on, lines)


def titled(page: Page, title: str) -> bool:
    """Whether a page has a title in its head."""
    name = bare(title)
    return any(bare(run.text) == name for run in page.words)


def line_faults(pages: Sequence[Page], lines: Sequence[str]) -> Iterator[Fault]:
    """Lines that do not stand on the pages of an index as often as they should."""
    text = "".join(page.text for page in pages)
    for line, count in Counter(lines).items():
        if text.count(bare(line)) < count:
            at, found = likest(line, pages)
            problem = told(
                "the index is without the line {wanted}; nearest is {found}",
                wanted=repr(line),
                found=repr(found),
            )
            yield Fault(problem, at.label)


def likest(line: str, pages: Sequence[Page]) -> tuple[Page, str]:
    """Where on the pages of an index a line is missing, and what stands there in its place."""
    every = [
        (page, "".join(run.text for run in runs))
        for page in pages
        for one in [[*page.words]]
        for start in range(len(one))
        for runs in (one[start : start + size] for size in range(1, 7))
    ]
    return max(every, key=lambda pair: SequenceMatcher(None, line, pair[1]).ratio())


def interval_lines(
    entries: Sequence[DrillEntry], pages: Mapping[int, int], speech: Speech
) -> list[str]:
    """What the index of intervals has to say: a line for each interval and pair of fingers."""
    met: dict[Home, set[int]] = {}
    for entry in entries:
        for home in homes_in(entry):
            met.setdefault(home, set()).add(entry.number)
    lines: dict[tuple[str, tuple[int, int]], list[tuple[int, str, list[int]]]] = {}
    for (label, fingers, place, position), numbers in met.items():
        lines.setdefault((label, fingers), []).append((place, position, sorted(numbers)))
    return [
        plain(words.home_words(fingers, [*places_told(places, pages, speech)], speech))
        for (_, fingers), places in lines.items()
    ]


def places_told(
    places: Sequence[tuple[int, str, list[int]]], pages: Mapping[int, int], speech: Speech
) -> Iterator[str]:
    """Positions from the nut up, with their drills and the pages of these."""
    rising: dict[str, list[int]] = {}
    for _, position, numbers in sorted(places):
        rising.setdefault(position, []).extend(numbers)
    for position, numbers in rising.items():
        yield words.place_pages(position, numbers, [pages[one] for one in numbers], speech)


def homes_in(entry: DrillEntry) -> Iterator[Home]:
    """The intervals of a drill between two strings, named by its written notes."""
    before: StopEntry | None = None
    for event in entry.events:
        last = event.stops[-1]
        other = event.stops[0] if len(event.stops) > 1 else before
        if other is not None and other.string != last.string and not last.held:
            low, high = sorted((other, last), key=lambda stop: -stop.string)
            label = interval_label(Pitch.parse(other.pitch), Pitch.parse(last.pitch))
            yield label, (low.finger, high.finger), entry.place, entry.position
        before = last


def hand_lines(
    entries: Sequence[DrillEntry], pages: Mapping[int, int], speech: Speech
) -> list[str]:
    """What the index of hands has to say: a line for each hand and position."""
    met: dict[tuple[object, ...], list[DrillEntry]] = {}
    for entry in sorted(entries, key=lambda one: (one.place, one.number)):
        met.setdefault((entry.fingers, entry.spacings, entry.position), []).append(entry)
    lines = []
    for own in met.values():
        numbers = [entry.number for entry in own]
        on = [pages[number] for number in numbers]
        lines.append(plain(words.place_pages(own[0].position, numbers, on, speech)))
    return [*lines, *{fingers_name(entry.fingers, speech) for entry in entries}]


def plain(said: str) -> str:
    """Words without the marks of their face."""
    return MARKS.sub("", said)
