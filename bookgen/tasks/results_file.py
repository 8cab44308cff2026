"""A roster's results from a CSV file, as a spreadsheet writes it."""

import csv
import io
import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from difflib import get_close_matches
from typing import Final

from bookgen.errors import BookgenError, Finding, Message, Said, told
from bookgen.plan.record import Result
from bookgen.studio.entries import Marking
from bookgen.tasks.numbers import numbers_of
from bookgen.tasks.span import iso_date

COLUMNS: Final = ("player", "number", "result", "date")
NEEDED: Final = ("number", "result")
SEPARATORS: Final = (",", ";", "\t")
WORDS: Final = {
    "secure": Result.SECURE,
    "not yet": Result.NOT_YET,
    "not-yet": Result.NOT_YET,
}


@dataclass(slots=True)
class ResultsFile:
    """What a file says, and what is wrong with it.

    only_player: plays where a line names nobody; None where several do.
    lines: the line of each place that a finding can name.
    """

    name: str
    players: Sequence[str]
    only_player: str | None
    markings: list[Marking] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    lines: dict[str, int] = field(default_factory=dict)

    def read(self, text: str) -> None:
        """Read every line; markings and findings stand in the file's values afterwards.

        Raises:
            BookgenError: the text is no CSV with the columns that are needed.
        """
        head = text.partition("\n")[0]
        separator = max(SEPARATORS, key=head.count)
        reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
        try:
            header = [cell.strip().lower() for cell in next(reader, [])]
            self.check_header(header)
            for cells in reader:
                if any(cell.strip() for cell in cells):
                    self.read_line(header, [cell.strip() for cell in cells], reader.line_num)
        except csv.Error as error:
            mend = told("save it as CSV from a spreadsheet")
            problem = told("no CSV ({reason})", reason=error)
            raise BookgenError(Finding(self.name, problem, mend)) from error

    def check_header(self, header: Sequence[str]) -> None:
        """Refuse a first line that does not name the columns.

        Raises:
            BookgenError: a needed column is missing, or one is unknown or there twice.
        """
        good = set(NEEDED) <= set(header) <= set(COLUMNS) and len(set(header)) == len(header)
        if not good:
            problem = told("its first line does not name the columns")
            columns = ",".join(COLUMNS)
            mend = told("let it be {columns}; player and date can be left out", columns=columns)
            raise BookgenError(Finding(self.line_name(1), problem, mend))

    def line_name(self, line: int) -> Message:
        """A line as the user knows it."""
        return told("{file}, line {line}", file=self.name, line=line)

    def read_line(self, header: Sequence[str], cells: Sequence[str], line: int) -> None:
        """Read one line of results, or note everything that is wrong with it."""
        place = self.line_name(line)
        self.lines[str(place)] = line
        if len(cells) > len(header):
            problem = told("it has more cells than columns")
            self.findings.append(Finding(place, problem, told("mend the line")))
            return
        row = dict(zip(header, cells, strict=False))
        before = len(self.findings)
        player, result = self.player(row, place), self.result(row, place)
        day, numbers = self.day(row, place), self.numbers(row, place)
        if len(self.findings) == before and player is not None and result is not None:
            self.markings += [
                Marking(player, number, result, day, str(place)) for number in numbers
            ]

    def player(self, row: Mapping[str, str], place: Said) -> str | None:
        """Who played."""
        name = unicodedata.normalize("NFC", row.get("player", ""))
        if not name and self.only_player is not None:
            return self.only_player
        if name in self.players:
            return name
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

    def result(self, row: Mapping[str, str], place: Said) -> Result | None:
        """What came of it."""
        word = row.get("result", "")
        found = WORDS.get(" ".join(word.lower().split()))
        if found is None:
            problem = told("{text} is no result", text=repr(word))
            self.findings.append(Finding(place, problem, told("write secure or not yet")))
        return found

    def day(self, row: Mapping[str, str], place: Said) -> date | None:
        """When it was played; None where the line does not say."""
        text = row.get("date", "")
        found = iso_date(text) if text else None
        if text and found is None:
            problem = told("{text} is no date", text=repr(text))
            mend = told("write year-month-day, e.g. 2026-12-01")
            self.findings.append(Finding(place, problem, mend))
        return found

    def numbers(self, row: Mapping[str, str], place: Said) -> list[int]:
        """Which drills; a range stands for all of them."""
        try:
            return numbers_of([row.get("number", "")], place)
        except BookgenError as error:
            self.findings += error.findings
            return []

    def in_order(self, findings: Sequence[Finding]) -> list[Finding]:
        """Findings in the order of the lines that they name."""
        return sorted(findings, key=lambda finding: self.lines.get(str(finding.place), 0))
