"""Where pages end, by the optimiser and by first fit: pages, white, links that are turned over.

Run by hand from the top folder: `.venv/bin/python -m tests.benchmarks.page_breaks`.

Blocks drawn by chance, as high as real ones are, in groups of two to four that belong together; and
the chapters of a book of a thousand drills, engraved (some half a minute the first time), sorted
and as a way. Each chapter begins on a right-hand page. Times are those of the process.
"""

import sys
import tempfile
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from random import Random
from time import process_time
from typing import Final

from kit.thousand import thousand

from bookgen.binder.books.supplement import Making
from bookgen.binder.page.flow import flow
from bookgen.binder.page.piece import CHAPTER, LINKED, Page, Piece, Put, Room
from bookgen.binder.parts.drills import DrillPiece
from bookgen.binder.parts.together import NEAR, tied
from bookgen.commands.arguments import user_cache
from bookgen.commands.progress import Telling
from bookgen.readers.supplement.file import parse_spec
from bookgen.tasks.books import book_of
from bookgen.tasks.supplement import look_of
from bookgen.tasks.supplement_plans import chapters_of, editions_of, plan_of

BLOCKS: Final = 1000
BETWEEN_MM: Final = 1.6
COLUMNS: Final = Room(2, 89.0, 8.0, 261.0)
FULL_WIDTH: Final = Room(1, 186.0, 0.0, 261.0)

Links = Mapping[int, int | str | None]
Chapters = Sequence[Sequence[DrillPiece]]
Breaks = Callable[[Sequence[DrillPiece]], Sequence[Page]]


@dataclass(frozen=True, slots=True)
class Case:
    """Chapters to be set: their drills tied by their links, in pages with that room."""

    name: str
    chapters: Chapters
    links: Links
    room: Room

    def ways(self) -> Iterator[tuple[str, Breaks]]:
        """The ways of setting them that are compared."""
        yield "first fit", lambda drills: first_fit(drills, self.room)
        for name, costs in (("fewest pages", LINKED), ("as a chapter", CHAPTER)):
            yield name, partial(flow, room=lambda _: self.room, costs=costs)


def first_fit(drills: Sequence[Piece], room: Room) -> list[Page]:
    """Each drill stands below the one before it, or else begins the next column."""
    columns: list[list[Put]] = [[]]
    down = 0.0
    for piece in drills:
        if columns[-1] and down + piece.above + piece.height > room.height:
            columns.append([])
        down = down + piece.above if columns[-1] else 0.0
        columns[-1].append(Put(piece, down, 0.0))
        down += piece.height
    count = room.columns
    return [
        Page(room, tuple(map(tuple, columns[at : at + count])))
        for at in range(0, len(columns), count)
    ]


def by_chance(heights: Callable[[Random], float], name: str, room: Room) -> Case:
    """One chapter of blocks in groups of two to four; each names the one before it."""
    dice = Random(1)
    links: dict[int, int | str | None] = {}
    while len(links) < BLOCKS:
        first = len(links) + 1
        links |= {
            first: None,
            **{first + at: first + at - 1 for at in range(1, dice.randint(2, 4))},
        }
    drills = [
        DrillPiece(heights(dice), lambda *_: (), above=BETWEEN_MM, number=number)
        for number in range(1, BLOCKS + 1)
    ]
    return Case(name, [[*tied(drills, links)]], links, room)


def of_a_book(name: str, *, way: bool) -> Case:
    """The chapters of a book of a thousand drills."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "thousand.toml"
        spec = parse_spec(thousand(way=way), str(file), file.parent)
        (edition,) = editions_of(spec)
        look = look_of(spec, file, user_cache()).spoken("en", from_memory=False)
        plan = plan_of(spec, chapters_of(spec), edition, look.binding)
        book = book_of(plan, edition.instrument, look)
        with book.engraving() as engraver:
            music, _ = engraver.finish(Telling())
    making = Making(plan, music.drills, look.desk(edition.instrument, plan.size))
    links = {entry.number: entry.link.to for entry in plan.drills}
    chapters = [
        [*tied([making.pieces[number] for number in chapter.numbers], links)]
        for chapter in making.book.chapters
    ]
    return Case(name, chapters, links, making.drills.room(making.frame))


def cut(pages: Sequence[Page], links: Links) -> tuple[int, int]:
    """How many near links lead over a turn of the page, and how many to the facing page."""
    on = {
        piece.number: page
        for page, filled in enumerate(pages)
        for piece in filled.pieces
        if isinstance(piece, DrillPiece)
    }
    order: dict[int | str | None, int] = {number: at for at, number in enumerate(on)}
    turned = facing = 0
    for number, page in on.items():
        to = links[number]
        if isinstance(to, int) and to in on and order[number] - order[to] <= NEAR:
            turned += (on[to] + 1) // 2 != (page + 1) // 2
            facing += on[to] != page and (on[to] + 1) // 2 == (page + 1) // 2
    return turned, facing


def white(pages: Sequence[Page]) -> float:
    """Empty columns' worth of white, but for the last column that is filled."""
    filled = [(page.room.height, column) for page in pages for column in page.columns if column]
    return sum(
        1 - (column[-1].down + column[-1].piece.height) / high for high, column in filled[:-1]
    )


def told(case: Case) -> Iterator[str]:
    """A line for each way of setting a case."""
    for name, breaks in case.ways():
        begun = process_time()
        chapters = [breaks(drills) for drills in case.chapters]
        took = 1000 * (process_time() - begun)
        cuts = [cut(pages, case.links) for pages in chapters]
        pages, leaves = sum(map(len, chapters)), sum((len(one) + 1) // 2 for one in chapters)
        yield (
            f"| {case.name} | {name} | {pages} | {leaves} | {sum(map(white, chapters)):.1f} | "
            f"{sum(turned for turned, _ in cuts)} | {sum(facing for _, facing in cuts)} | "
            f"{took:.0f} ms |\n"
        )


def main() -> None:
    """Print the table."""
    in_columns = by_chance(
        lambda dice: dice.choices((51.0, 60.0, 84.0, 100.0), (72, 12, 10, 6))[0],
        "by chance, two columns",
        COLUMNS,
    )
    wide = by_chance(lambda dice: dice.uniform(30.0, 45.0), "by chance, full width", FULL_WIDTH)
    books = (of_a_book("a book, sorted", way=False), of_a_book("a book, ways", way=True))
    for case in (in_columns, wide, *books):
        sys.stdout.writelines(told(case))


if __name__ == "__main__":
    main()
