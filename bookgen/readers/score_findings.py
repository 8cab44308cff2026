"""What could not be used of a passage, told once for all the bars where it happens."""

from dataclasses import dataclass, field
from typing import Final

from bookgen.errors import Finding

MOST_NAMED: Final = 12
"""Bars, or runs of bars, that one line names."""

SHORTEST_RUN: Final = 3


@dataclass(slots=True)
class Told:
    """Problems and the bars in which they were met, in the order of their first bars."""

    file: str
    found: dict[tuple[str, str], list[str]] = field(default_factory=dict)

    def add(self, bar: str, problem: str, mend: str) -> None:
        """A problem in a bar."""
        bars = self.found.setdefault((problem, mend), [])
        if not bars or bars[-1] != bar:
            bars.append(bar)

    def findings(self) -> tuple[Finding, ...]:
        """One finding for each problem; it names file and bars."""
        return tuple(
            Finding(f"{self.file}, {bars_named(bars)}", problem, mend)
            for (problem, mend), bars in self.found.items()
        )


def bars_named(bars: list[str]) -> str:
    """Some bars in words; three and more that follow each other as from and to.

    >>> bars_named(["3", "5", "6", "7", "12a"])
    'bars 3, 5 to 7, 12a'
    """
    runs: list[list[str]] = []
    for bar in bars:
        before = runs[-1][-1] if runs else ""
        if bar.isdecimal() and before.isdecimal() and int(bar) == int(before) + 1:
            runs[-1].append(bar)
        else:
            runs.append([bar])
    words = [name for run in runs for name in run_named(run)]
    more = len(words) - MOST_NAMED
    named = ", ".join(words[:MOST_NAMED]) + (f" and {more} more" if more > 0 else "")
    return f"bar {named}" if len(bars) == 1 else f"bars {named}"


def run_named(run: list[str]) -> list[str]:
    """Bars that follow each other."""
    return run if len(run) < SHORTEST_RUN else [f"{run[0]} to {run[-1]}"]
