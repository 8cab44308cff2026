"""The printed fingerboard compared with its instrument: where each stop lies, what it is called."""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import inf
from typing import Final

from bookgen.errors import Message, told
from bookgen.model.instrument import NUMERALS, Instrument
from bookgen.model.pitch import Pitch
from bookgen.proof.drill_proof import Measure
from bookgen.proof.fault import Fault
from bookgen.proof.index_proof import titled
from bookgen.proof.printed import Page, Shape, bare
from bookgen.words import atlas as words
from bookgen.words.speech import Speech

MM: Final = 25.4 / 72
OFF_MM: Final = 0.15
"""A stop may lie off its place on paper by that."""

SPOT_PT: Final = 7.0
"""A stop's spot is smaller, the diamond of a harmonic is larger."""

NUT_PT: Final = 3.0
"""The nut is thicker than every other line of the page."""

ROW_PT: Final = 0.5
"""Spots of one stop lie as high as each other, but for that much."""

NAME_PT: Final = 5.0
"""The baseline of a name lies so far below the middle of its spot, at most."""

LINE_PT: Final = 100.0
"""The line through all spots of a stop is longer."""

RATIO: Final = re.compile(r"\(1:(\d+(?:[.,]\d+)?)\)")

CALLED: Final = ("C", "C# Db", "D", "D# Eb", "E", "F", "F# Gb", "G", "G# Ab", "A", "A# Bb", "B")
"""What the twelve notes of an octave are called (common practice)."""


@dataclass(frozen=True, slots=True)
class Row:
    """The spots of one stop, its names from left to right, and what stands right of them.

    y: how high it lies, in points.
    """

    y: float
    spots: Sequence[Shape]
    names: str
    figure: str


def atlas_faults(
    pages: Sequence[Page], instrument: Instrument, measure: Measure, speech: Speech
) -> Iterator[Fault]:
    """What is wrong on the pages of the fingerboard."""
    own = [page for page in pages if titled(page, words.title(speech))]
    boards = [(page, rows) for page in own if (rows := rows_of(page))]
    ratio = RATIO.search("".join(page.text for page, _ in boards))
    if ratio is None:
        yield Fault(told("the fingerboard is missing, or its scale"))
        return
    per, highest = float(ratio[1].replace(",", ".")), 0
    for page, rows in boards:
        board = Board(page, rows, instrument, measure, per, speech)
        for problem in board.faults(highest):
            yield Fault(problem, page.label)
        highest = max(highest, *board.stops(highest).values(), 0)
    if highest != instrument.highest_stop:
        problem = told(
            "the fingerboard ends at stop {found}, and should at {wanted}",
            found=highest,
            wanted=instrument.highest_stop,
        )
        yield Fault(problem, boards[-1][0].label)


@dataclass(frozen=True, slots=True)
class Board:
    """A page of the fingerboard.

    per: millimetres on the instrument for one on paper.
    """

    page: Page
    rows: Sequence[Row]
    instrument: Instrument
    measure: Measure
    per: float
    speech: Speech

    def away(self, row: Row, first: int) -> float:
        """How far a row lies from the nut on the instrument, in millimetres.

        first: the stop of the highest row, where the page has no nut.
        """
        above = nuts(self.page)
        if above:
            return (above[0].box.middle[1] - row.y) * MM * self.per
        return self.measure.from_nut(first) + (self.rows[0].y - row.y) * MM * self.per

    def stops(self, first: int) -> Mapping[float, int]:
        """The stop of each row by its height on the page, as far as it lies on one."""
        found: dict[float, int] = {}
        for row in self.rows:
            away = self.away(row, first)
            for stop in range(1, self.instrument.highest_stop + 1):
                if abs(self.measure.from_nut(stop) - away) < OFF_MM * self.per:
                    found[row.y] = stop
        return found

    def faults(self, first: int) -> Iterator[Message]:
        """What is wrong on it; first: the last stop of the page before."""
        stops, strings = self.stops(first), self.instrument.string_numbers()
        names = (self.speech.note(self.instrument.open_pitch(one)) for one in strings)
        over = "".join(NUMERALS[one] + bare(name) for one, name in zip(strings, names, strict=True))
        if over not in self.page.text:
            yield told("the strings of the fingerboard are not called {names}", names=over)
        for row in self.rows:
            if row.y not in stops:
                yield told(
                    "a stop lies {found} mm from the nut, where none is",
                    found=f"{self.away(row, first):.1f}",
                )
            else:
                yield from self.row_faults(row, stops[row.y])
        begun = max(first, 1)
        missing = {*range(begun, max(stops.values(), default=begun) + 1)} - {*stops.values()}
        for stop in sorted(missing):
            yield told("stop {stop} of the fingerboard is missing", stop=stop)

    def row_faults(self, row: Row, stop: int) -> Iterator[Message]:
        """What is wrong at one stop of all strings."""
        strings = self.instrument.string_numbers()
        if len(row.spots) != len(strings):
            yield told(
                "stop {stop} of the fingerboard has {found} spots for {wanted} strings",
                stop=stop,
                found=len(row.spots),
                wanted=len(strings),
            )
        wanted = [self.called(self.instrument.open_pitch(one).midi + stop) for one in strings]
        if row.names != "".join(wanted):
            yield told(
                "stop {stop} of the fingerboard is called {found}, and should be {wanted}",
                stop=stop,
                found=row.names,
                wanted=" ".join(wanted),
            )
        figure = f"{self.measure.from_nut(stop):.0f}"
        if row.figure not in {figure, ""}:
            yield told(
                "stop {stop} of the fingerboard has {found} mm, and should have {wanted}",
                stop=stop,
                found=row.figure,
                wanted=figure,
            )

    def called(self, midi: int) -> str:
        """A note by all its names."""
        octave, above = divmod(midi, len(CALLED))
        names = CALLED[above].split()
        return bare("".join(self.speech.note(Pitch.parse(f"{one}{octave - 1}")) for one in names))


def nuts(page: Page) -> list[Shape]:
    """The nut, where the page has it."""
    return [shape for shape in page.shapes if shape.stroke > NUT_PT]


def rows_of(page: Page) -> list[Row]:
    """The rows of spots from the top."""
    spots = [
        shape
        for shape in page.shapes
        if shape.dark
        and not shape.stroke
        and abs(shape.box.width - shape.box.height) < ROW_PT
        and shape.box.width < SPOT_PT
    ]
    rows: list[list[Shape]] = []
    for spot in sorted(spots, key=lambda one: -one.box.middle[1]):
        if rows and rows[-1][0].box.middle[1] - spot.box.middle[1] < ROW_PT:
            rows[-1].append(spot)
        else:
            rows.append([spot])
    return [row_of(row, page) for row in rows]


def row_of(spots: Sequence[Shape], page: Page) -> Row:
    """A row with its words: names beside its spots, a figure behind the line that goes through."""
    y = spots[0].box.middle[1]
    through = [
        shape.box
        for shape in page.shapes
        if shape.stroke and shape.box.width > LINE_PT and abs(shape.box.middle[1] - y) < ROW_PT
    ]
    left = min((box.left for box in through), default=spots[-1].box.left)
    right = max((box.right for box in through), default=spots[-1].box.right)
    here = sorted((run for run in page.words if 0 < y - run.y < NAME_PT), key=lambda run: run.x)

    def said(first: float, end: float) -> str:
        return bare("".join(run.text for run in here if first <= run.x < end))

    return Row(y, spots, said(left - 1, right), said(right, inf))
