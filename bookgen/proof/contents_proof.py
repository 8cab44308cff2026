"""The contents of a finished book compared with its pages: where parts and chapters begin."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from bookgen.errors import told
from bookgen.plan.supplement import Chapter
from bookgen.proof.fault import Fault
from bookgen.proof.located import Located
from bookgen.proof.printed import Page, Run, bare
from bookgen.words import supplement as words
from bookgen.words.speech import Speech

LABEL: Final = re.compile(r"[ivxlc]+|\d+")
SAME_LINE_PT: Final = 0.5
SAME_SIZE_PT: Final = 0.1
NEXT: Final = 1.6
"""From a line to the next one of the same words, at most, in sizes of the type."""


@dataclass(frozen=True, slots=True)
class Entry:
    """A line of the contents: title and page as printed, and all that stands under it."""

    title: str
    label: str
    more: str
    on: Page


def contents_faults(
    book: Located, chapters: Sequence[Chapter], titles: Sequence[str], speech: Speech
) -> Iterator[Fault]:
    """Lines that lead to another page than the one where their part begins, and missing ones.

    titles: of the chapters as they can be printed.
    """
    name = bare(words.contents_title(speech))
    listed = [page for page in book.pages if any(bare(run.text) == name for run in page.words)]
    entries = [entry for page in listed for entry in entries_of(page)]
    named = {bare(words.chapter_entry(at, one, speech)): at for at, one in enumerate(titles, 1)}
    for entry in entries:
        at = named.get(bare(entry.title))
        if at is None:
            yield from part_faults(entry, book.pages, listed)
            continue
        begins = opening(at, titles[at - 1], book.pages, speech)
        if begins is None or begins.label != entry.label:
            yield misled(entry, begins)
        note = words.drills_of_chapter(chapters[at - 1].numbers, speech)
        if bare(note) not in bare(entry.more):
            problem = told("the contents are without the line {line}", line=repr(note))
            yield Fault(problem, entry.on.label)
    printed = {bare(entry.title) for entry in entries}
    for title, at in named.items():
        if title not in printed:
            problem = told("the contents are without the line {line}", line=repr(titles[at - 1]))
            yield Fault(problem, listed[0].label if listed else "")
    yield from chapter_faults(book, chapters, titles, speech)


def entries_of(page: Page) -> Iterator[Entry]:
    """The lines of a page that end with the number of a page, each with the lines below it."""
    lines = lines_of(page)
    ends = [at for at, line in enumerate(lines) if len(line) > 1 and is_label(line)]
    for at, after in pairwise([*ends, len(lines)]):
        *title, label = lines[at]
        below = lines[at + 1 : after]
        yield Entry(
            "".join(run.text for run in [*title, *going_on(title[0], below)]),
            label.text,
            "".join(run.text for line in below for run in line),
            page,
        )


def going_on(first: Run, below: Sequence[Sequence[Run]]) -> Iterator[Run]:
    """What goes on of a line in those below it: in the same size, without white between them."""
    last = first
    for line in below:
        if abs(line[0].size - first.size) > SAME_SIZE_PT or last.y - line[0].y > NEXT * first.size:
            return
        yield from line
        last = line[0]


def lines_of(page: Page) -> list[list[Run]]:
    """The words of a page line by line, as they are read where there is one column."""
    lines: list[list[Run]] = []
    for run in sorted(page.words, key=lambda run: -run.y):
        if lines and abs(lines[-1][0].y - run.y) < SAME_LINE_PT:
            lines[-1].append(run)
        else:
            lines.append([run])
    return [sorted(line, key=lambda run: run.x) for line in lines]


def is_label(line: Sequence[Run]) -> bool:
    """Whether a line ends with the number of a page."""
    return bool(LABEL.fullmatch(line[-1].text)) and line[-1].x > line[-2].x


def part_faults(entry: Entry, pages: Sequence[Page], listed: Sequence[Page]) -> Iterator[Fault]:
    """That a part does not begin on the page that the contents name.

    listed: the contents themselves.
    """
    title = bare(entry.title)
    page = next((page for page in pages if page.label == entry.label), None)
    if page is None or title not in page.text:
        right = next((one for one in pages if one not in listed and title in one.text), None)
        yield misled(entry, right)
        return
    at = pages.index(page)
    before = pages[at - 1] if at else None
    if before and before not in listed and any(bare(run.text) == title for run in before.words):
        yield misled(entry, before)


def misled(entry: Entry, right: Page | None) -> Fault:
    """A line that leads to the wrong page; right: where it should."""
    if right is None:
        problem = told("the contents name {title}, which stands nowhere", title=repr(entry.title))
    else:
        problem = told(
            "the contents lead to page {found} for {title}, which begins on page {wanted}",
            found=entry.label,
            title=repr(entry.title),
            wanted=right.label,
        )
    return Fault(problem, entry.on.label)


def opening(number: int, title: str, pages: Sequence[Page], speech: Speech) -> Page | None:
    """The page on which a chapter begins: with its number on a line of its own, and its title."""
    over = bare(words.chapter_number(number, speech))
    return next(
        (
            page
            for page in pages
            if bare(title) in page.text and any(bare(run.text) == over for run in page.words)
        ),
        None,
    )


def chapter_faults(
    book: Located, chapters: Sequence[Chapter], titles: Sequence[str], speech: Speech
) -> Iterator[Fault]:
    """Drills that stand before their chapter begins, or after the next one does."""
    openings = [opening(at, title, book.pages, speech) for at, title in enumerate(titles, 1)]
    begins = [None if page is None else book.pages.index(page) for page in openings]
    for chapter, first, after in zip(chapters, begins, [*begins[1:], None], strict=True):
        for number in chapter.numbers:
            at = book.at(number)
            before = first is not None and at < first
            if at >= 0 and (before or (after is not None and at >= after)):
                problem = told("the drill stands outside its chapter {title}", title=chapter.title)
                yield Fault(problem, book.label(number), number)
