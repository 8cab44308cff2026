"""A roster's results from a table, as a spreadsheet saves it."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date as Date  # noqa: N812
from difflib import get_close_matches
from functools import cache
from typing import Final

from bookgen.errors import BookgenError, Finding, Message, Said, told
from bookgen.plan.record import Result
from bookgen.readers.day import Calendar, Order
from bookgen.readers.names import named
from bookgen.readers.spreadsheet import Sheet, sheet_of
from bookgen.studio.entries import Marking
from bookgen.tasks.numbers import numbers_of
from bookgen.words.results import heads_of, results_of
from bookgen.words.speech import languages, speech_of

BOXES: Final = {"secure": Result.SECURE, "not yet": Result.NOT_YET}
NEEDED: Final = (("number", "result"), ("number", *BOXES))
"""Columns of a table with a word for the result, and of one with boxes as on the page."""

NUMBER_SIGN: Final = re.compile(r"(?:nos?\.?|nr\.?|#)\s*(?=\d)", re.IGNORECASE)


@cache
def heads() -> Mapping[str, str]:
    """The columns by their heads in every language."""
    return heads_of(map(speech_of, languages()))


@cache
def words() -> Mapping[str, Result | None]:
    """Results by their words in every language."""
    return results_of(map(speech_of, languages()))


Cells = Mapping[str, str]
"""A line's cells by their columns."""


@dataclass(slots=True)
class ResultsFile:
    """What a file says, and what is wrong with it.

    only_player: plays where a line names nobody; None where several do.
    left_out: lines that have no result.
    lines: the line of each place that a finding can name.
    """

    name: str
    players: Sequence[str]
    only_player: str | None
    calendar: Calendar
    markings: list[Marking] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    left_out: list[int] = field(default_factory=list)
    lines: dict[str, int] = field(default_factory=dict)

    def read(self, text: str) -> None:
        """Read every line; markings and findings stand in the file's values afterwards.

        Raises:
            BookgenError: the text is no CSV with the columns that are needed.
        """
        sheet = sheet_of(text, heads(), NEEDED, self.name)
        if sheet is None:
            problem = told("its first line does not name the columns")
            mend = told("let it be player,number,result,date; player and date can be left out")
            raise BookgenError(Finding(self.line_name(1), problem, mend))
        rows = [(line, self.cells(sheet, line, cells)) for line, cells in sheet.rows]
        order = self.calendar.order_of(row["date"] for _, row in rows if row.get("date"))
        for line, row in rows:
            self.read_line(row, line, order)

    def line_name(self, line: int) -> Message:
        """A line as the user knows it."""
        return told("{file}, line {line}", file=self.name, line=line)

    def cells(self, sheet: Sheet, line: int, cells: Sequence[str]) -> Cells:
        """The cells of the known columns; more cells than columns are noted."""
        if any(cells[len(sheet.heads) :]):
            problem = told("it has more cells than columns")
            self.note(line, Finding(self.line_name(line), problem, told("mend the line")))
            return {}
        return {head: cell for head, cell in zip(sheet.heads, cells, strict=False) if head}

    def note(self, line: int, *findings: Finding) -> None:
        """Keep what is wrong with a line."""
        self.lines |= {str(finding.place): line for finding in findings}
        self.findings += findings

    def read_line(self, row: Cells, line: int, order: Order | None) -> None:
        """Read one line of results, or note everything that is wrong with it."""
        if not any(row.values()):
            return
        place = self.line_name(line)
        self.lines[str(place)] = line
        before = len(self.findings)
        result = self.result(row, place)
        if result is None and len(self.findings) == before:
            self.left_out.append(line)
            return
        player, day, numbers = (
            self.player(row, place),
            self.calendar_day(row, place, order),
            self.numbers(row, place),
        )
        if len(self.findings) == before and player is not None and result is not None:
            self.markings += [Marking(player, number, result, day, place) for number in numbers]

    def player(self, row: Cells, place: Said) -> str | None:
        """Who played."""
        name = row.get("player", "")
        if not name and self.only_player is not None:
            return self.only_player
        found = named(name, self.players)
        if found is not None:
            return found
        near = get_close_matches(name, self.players, n=1)
        problem = told("no player {name}", name=repr(name)) if name else told("it names no player")
        names = ", ".join(self.players)
        mend = (
            told("perhaps {near}", near=repr(near[0]))
            if near
            else told("name one of {names}", names=names)
        )
        self.findings.append(Finding(place, problem, mend))
        return None

    def result(self, row: Cells, place: Said) -> Result | None:
        """What came of it; None where nothing did, or where it is not clear."""
        boxes = {} if "result" in row else {box: row.get(box, "") for box in BOXES}
        read = {key: self.word(row, key, place) for key in boxes or ("result",)}
        if not boxes:
            return read["result"]
        ticked = [BOXES[box] for box, word in read.items() if word is Result.SECURE]
        if len(ticked) > 1:
            problem = told("it is called secure and not yet")
            self.findings.append(Finding(place, problem, told("keep one of them")))
            return None
        return ticked[0] if ticked else None

    def word(self, row: Cells, column: str, place: Said) -> Result | None:
        """The result that a cell says; None where it says nothing, or no result."""
        text = row.get(column, "")
        word = " ".join(text.casefold().split())
        known = words()
        if word not in known:
            problem = told("{text} is no result", text=repr(text))
            self.findings.append(Finding(place, problem, told("write secure or not yet")))
        return known.get(word)

    def calendar_day(self, row: Cells, place: Said, order: Order | None) -> Date | None:
        """When it was played; None where the line does not say."""
        text = row.get("date", "")
        if not text:
            return None
        read = {self.calendar.day(text, one) for one in ((order,) if order else Order)}
        days = sorted(day for day in read if day is not None)
        if len(days) == 1:
            return days[0]
        mend = told("write year-month-day, e.g. 2026-12-01")
        problem = told("{text} is no date", text=repr(text))
        if days:
            first, second = days
            problem = told(
                "{text} can be {first} or {second}", text=repr(text), first=first, second=second
            )
        self.findings.append(Finding(place, problem, mend))
        return None

    def numbers(self, row: Cells, place: Said) -> list[int]:
        """Which drills; a range stands for all of them."""
        text = row.get("number", "")
        words = NUMBER_SIGN.sub("", text).replace(";", " ").split()
        try:
            return numbers_of(words or [text], place)
        except BookgenError as error:
            if self.calendar.day(text, Order.DAY) is None:
                self.findings += error.findings
            else:
                problem = told("{text} is a date, no number of a drill", text=repr(text))
                mend = told("make the column one of text, and write the numbers again, e.g. 5-8")
                self.findings.append(Finding(place, problem, mend))
            return []

    def in_order(self, findings: Sequence[Finding]) -> list[Finding]:
        """Findings in the order of the lines that they name."""
        return sorted(findings, key=lambda finding: self.lines.get(str(finding.place), 0))
