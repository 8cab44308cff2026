"""Whole string parts of the quartets in music21's corpus, read and solved.

Run by hand from the top folder: `PYTHONPATH=tests .venv/bin/python -m tests.benchmarks.quartets`;
with `staff` behind it every part is engraved as well, line by line on A4, Letter and A5; with
`pages` the pages of `bookgen passage` are made of each, also of the cello's, on all three. With
`123-204` behind it only these of the 204 parts.
"""

import sys
import warnings
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import islice
from pathlib import Path
from tempfile import TemporaryDirectory
from time import process_time

import music21
from pypdfium2 import PdfDocument

from bookgen.commands.progress import Telling
from bookgen.errors import BookgenError
from bookgen.model.instrument import Instrument
from bookgen.notation.engraver import start_passage
from bookgen.notation.lilypond import Workshop, find_lilypond
from bookgen.passage.event import events_of
from bookgen.passage.groups import grouped
from bookgen.passage.solve import solve
from bookgen.plan.document import Binding
from bookgen.plan.passage import Passage
from bookgen.readers.fingering import read_costs
from bookgen.readers.instrument import read_instrument
from bookgen.readers.layout import read_layout
from bookgen.readers.score.kinds import read_passage
from bookgen.readers.score.passage import PassageFile
from bookgen.tasks.look import Look
from bookgen.tasks.passage_pages import pages_of
from bookgen.tasks.pieces import passage_of
from bookgen.tasks.roster import NOBODY
from bookgen.tasks.wish import NOTHING_KNOWN, Taste, Wish, asked_of

CORPUS = Path(music21.__file__).parent / "corpus"
COMPOSERS = ("haydn", "mozart", "beethoven", "schumann_robert")
PARTS = (("1", "violin"), ("2", "violin"), ("3", "viola"), ("4", "cello"))
WIDTHS_MM = {"A4": 186.0, "Letter": 191.9, "A5": 126.0}
PAPERS = ("a4", "letter", "a5")
DAY = date(2026, 12, 1)


@dataclass(frozen=True)
class Part:
    """One part of a movement."""

    file: Path
    number: str
    instrument: Instrument

    @property
    def name(self) -> str:
        """As the table tells it."""
        return f"{self.file.relative_to(CORPUS).with_suffix('')} {self.number}"

    def read(self) -> PassageFile:
        """The whole part."""
        return read_passage(self.file, self.instrument, part=self.number)


def quartets() -> list[Path]:
    """The scores of four string parts."""
    files = (file for composer in COMPOSERS for file in sorted((CORPUS / composer).rglob("*.mxl")))
    return [file for file in files if four_parts(file)]


def four_parts(file: Path) -> bool:
    """A score of four parts, the lowest of which a violin cannot play."""
    try:
        read_passage(file, read_instrument("viola"), part="4", bars=("#1", "#1"))
    except BookgenError as error:
        return "no part" not in str(error)
    return True


def every_part() -> Iterator[Part]:
    """The four parts of every quartet."""
    for file in quartets():
        for number, key in PARTS:
            yield Part(file, number, read_instrument(key))


def solved(part: Part) -> tuple[Passage, str]:
    """A part with its fingering, and a row of the table."""
    file = part.read()
    begun = process_time()
    found = solve(file.phrase, part.instrument, read_costs())
    seconds = process_time() - begun
    best = grouped(found.best, file.phrase, part.instrument)
    events = events_of(file.phrase)
    shifts = [at for at, one in enumerate(best.placed) if one.cost.get("shift", 0.0) > 0]
    within = sum(events[at].slurred for at in shifts)
    row = (
        f"{part.name:42} {len(file.phrase.bars):5} bars {len(best.placed):5} sounds "
        f"{seconds:5.1f} s, shifts {len(shifts):3}, in slurs {within:2}, "
        f"not playable {len(best.unplayable):2}, told {len(file.findings):2}"
    )
    key, size = part.instrument.key, part.instrument.sizes[0].name
    return Passage(file.title, key, size, file.phrase, best, None), row


def engraved(passage: Passage, instrument: Instrument, width_mm: float) -> int:
    """How many lines the music of a part has on a width."""
    from kit.bench import STYLE  # noqa: PLC0415  not needed where nothing is engraved

    with TemporaryDirectory() as folder:
        shop = Workshop(find_lilypond(), Path(folder))
        return len(start_passage(passage, instrument, STYLE, width_mm, shop).finish(600).drills)


def pages_on(part: Part) -> dict[str, int]:
    """How many pages a part has on each paper: music, hard spots, and the drills to them."""
    asked = asked_of(NOBODY, Wish(instrument=part.instrument.key))
    passage = passage_of(part.read(), asked, NOTHING_KNOWN, DAY, Taste())
    found = {}
    for paper in PAPERS:
        look = Look(read_layout("ordinary"), Binding(book="sheet", paper=paper))
        pdf, _ = pages_of(passage, part.instrument, look, Telling(quiet=True))
        found[paper] = len(PdfDocument(pdf))
    return found


def of_range[T](every: Iterable[T], arguments: Sequence[str]) -> Iterator[T]:
    """Those that an argument such as `35-51` asks for, counted from 1; without one all."""
    for argument in arguments:
        if argument[0].isdigit():
            first, last = map(int, argument.split("-"))
            return islice(every, first - 1, last)
    return iter(every)


def main(arguments: Sequence[str]) -> int:
    """Print the table; returns how many parts failed."""
    staff, pages = "staff" in arguments, "pages" in arguments
    failed = 0
    for part in of_range(every_part(), arguments):
        try:
            if pages:
                print(f"{part.name:42}", pages_on(part), flush=True)  # noqa: T201
                continue
            passage, row = solved(part)
            lines = (
                {name: engraved(passage, part.instrument, mm) for name, mm in WIDTHS_MM.items()}
                if staff
                else ""
            )
            print(row, lines, flush=True)  # noqa: T201
        except BookgenError as error:
            failed += 1
            print(part.name, "FAILED", error, flush=True)  # noqa: T201
    print(failed, "failed")  # noqa: T201
    return failed


if __name__ == "__main__":
    warnings.simplefilter("ignore")
    sys.exit(main(sys.argv[1:]) > 0)
