"""What could not be used of a passage, told once for all the bars where it happens."""

from dataclasses import dataclass, field
from typing import Final

from bookgen.errors import Finding, Message, Said, told

MOST_NAMED: Final = 12
"""Bars, or runs of bars, that one line names."""

SHORTEST_RUN: Final = 3
DASH: Final = "\u2013"
"""From and to."""

Problem = tuple[Message, Message]
"""What is wrong, and what mends it."""


class WordError(ValueError):
    """A word that someone typed cannot be read."""

    def __init__(self, problem: Said, mend: Said) -> None:
        """Say what is wrong and what mends it."""
        super().__init__(f"{problem}; {mend}")
        self.problem = problem
        self.mend = mend


@dataclass(slots=True)
class Remarks:
    """Problems and the bars in which they were met, in the order of their first bars."""

    file: str
    found: dict[str, tuple[Problem, list[str]]] = field(default_factory=dict)

    def add(self, bar: str, problem: Message, mend: Message) -> None:
        """A problem in a bar."""
        _, bars = self.found.setdefault(f"{problem}; {mend}", ((problem, mend), []))
        if not bars or bars[-1] != bar:
            bars.append(bar)

    def findings(self) -> tuple[Finding, ...]:
        """One finding for each problem; it names file and bars."""
        return tuple(
            Finding(place_of(self.file, bars), problem, mend)
            for (problem, mend), bars in self.found.values()
        )


def place_of(file: str, bars: list[str]) -> Message:
    """Some bars of a file, so many of them as a line can name."""
    names = bar_ranges(bars)
    listed = ", ".join(names[:MOST_NAMED])
    if len(bars) == 1:
        return told("{file}, bar {bar}", file=file, bar=listed)
    if len(names) > MOST_NAMED:
        more = len(names) - MOST_NAMED
        return told("{file}, bars {bars} and {more} more", file=file, bars=listed, more=more)
    return told("{file}, bars {bars}", file=file, bars=listed)


def bar_ranges(bars: list[str]) -> list[str]:
    """The numbers of bars; three and more that follow each other as one range.

    >>> bar_ranges(["3", "5", "6", "7", "12a"])
    ['3', '5\u20137', '12a']
    """
    runs: list[list[str]] = []
    for bar in bars:
        before = runs[-1][-1] if runs else ""
        if bar.isdecimal() and before.isdecimal() and int(bar) == int(before) + 1:
            runs[-1].append(bar)
        else:
            runs.append([bar])
    return [
        name
        for run in runs
        for name in (run if len(run) < SHORTEST_RUN else [f"{run[0]}{DASH}{run[-1]}"])
    ]
