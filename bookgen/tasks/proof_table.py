"""The table of a book for its editor: pages to mark by hand, and rows to sort."""

import csv
import io
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Final

from bookgen.model.finger import sign_of
from bookgen.model.instrument import NUMERALS, Instrument
from bookgen.model.pitch import Pitch
from bookgen.model.units import StringNumber
from bookgen.plan.document import Plan
from bookgen.plan.moments import Moment, moments_of
from bookgen.tasks.look import Look
from bookgen.tasks.pages import bound
from bookgen.words import proof as words
from bookgen.words.drill_title import drill_title
from bookgen.words.names import interval_label, position_short
from bookgen.words.speech import Speech

ENDING: Final = "-proof"
"""At the end of the names of its files."""

ENCODING: Final = "utf-8-sig"
"""Spreadsheets take a file without the mark for one in the letters of their own system."""


def proof_files(
    stem: Path, plan: Plan, pages: Mapping[int, str], instrument: Instrument, look: Look
) -> Iterator[tuple[Path, bytes]]:
    """Both files of the table.

    stem: the book, whose names theirs begin with; pages: of the drills, as they were read back.

    Raises:
        BookgenError: a row does not fit its page.
    """
    from bookgen.binder.books.proof_table import bind_proof_table  # noqa: PLC0415  slow to import

    desk = look.desk(instrument, plan.size)
    sheet, rows = proof_places(stem)
    yield sheet, bound(lambda: bind_proof_table(plan, pages, desk), look)
    yield rows, as_csv(plan, pages, look.speech)


def proof_places(book: Path) -> tuple[Path, Path]:
    """Where the table goes: the pages, and the rows."""
    return book.with_name(f"{book.stem}{ENDING}.pdf"), book.with_name(f"{book.stem}{ENDING}.csv")


def as_csv(plan: Plan, pages: Mapping[int, str], speech: Speech) -> bytes:
    """The rows as a file: a head, then a row for each stop of each drill."""
    out = io.StringIO(newline="")
    writer = csv.writer(out)
    writer.writerow(words.heads(speech))
    writer.writerows(rows_of(plan, pages, speech))
    return out.getvalue().encode(ENCODING)


def rows_of(plan: Plan, pages: Mapping[int, str], speech: Speech) -> Iterator[Sequence[object]]:
    """A row for each stop: its drill, when it is played, where it lies, how it sounds."""
    book = plan.binding.supplement if plan.binding is not None else None
    chapters = book.chapters if book is not None else ()
    chapter = {number: one.title for one in chapters for number in one.numbers}
    for entry in plan.drills:
        title = drill_title(entry, speech)
        what = [entry.number, entry.key, title, chapter.get(entry.number, ""), pages[entry.number]]
        for moment in moments_of(entry):
            for stop in stop_rows(moment, entry.position, speech):
                yield [*what, *stop]


def stop_rows(moment: Moment, position: str, speech: Speech) -> Iterator[Sequence[object]]:
    """The stops of a moment."""
    before, together = moment.event.from_previous, moment.event.within
    for stop in moment.event.stops:
        yield (
            moment.turn,
            moment.bar,
            words.way(back=moment.back, speech=speech),
            NUMERALS[StringNumber(stop.string)],
            sign_of(stop.finger),
            stop.semitones,
            position_short(position, speech),
            speech.note(Pitch.parse(stop.pitch)),
            stop.pitch,
            words.held(held=stop.held, speech=speech),
            interval_label(before, speech) if before and stop == moment.event.stops[-1] else "",
            interval_label(together, speech) if together else "",
        )
