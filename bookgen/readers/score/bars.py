"""Bar numbers as printed, and the run of bars that is wanted."""

import re
from collections.abc import Iterable, Sequence
from typing import Final

from bookgen.errors import BookgenError, Finding, Message, told
from bookgen.readers.shown import shown

PRINTED: Final = re.compile(r"(?P<number>[0-9]{1,5})(?P<letter>[a-z]?)")
ORDER: Final = re.compile(r"#(?P<order>[1-9][0-9]{0,5})")
"""A bar by its order in the file, where numbers come twice."""

LETTERS: Final = "abcdefghijklmnopqrstuvwxyz"


def is_printed(text: str) -> bool:
    """Whether this is a bar number as we print it: digits, and one small letter at most."""
    return PRINTED.fullmatch(text) is not None


def printed_numbers(given: Iterable[str | None], *, upbeat: bool) -> list[str]:
    """A name for each bar: its printed number, or one that follows from the bar before.

    Where no bar has a number they are counted, from 0 where the first is an upbeat. Else a bar
    without one is the rest of a divided bar and gets a letter. Numbers that come twice stay as
    they are printed.

    given: None or what is no number where nothing is printed.
    upbeat: the first bar is shorter than its meter.
    """
    numbers = [plain_number(text) for text in given]
    if not any(numbers):
        first = 0 if upbeat else 1
        return [str(first + index) for index in range(len(numbers))]
    taken = {number for number in numbers if number}
    names: list[str] = []
    for number in numbers:
        if number:
            names.append(number)
        elif not names:
            names.append("0" if upbeat or "1" in taken else "1")
        else:
            names.append(lettered(names[-1], taken))
        taken.add(names[-1])
    return names


def plain_number(text: str | None) -> str:
    """The number without zeros before it, or nothing where the text is none."""
    match = PRINTED.fullmatch((text or "").strip().lower())
    return f"{int(match['number'])}{match['letter']}" if match else ""


def following(number: str) -> str:
    """The number that a bar has after another one, 12a → 13."""
    return str(int(number.rstrip(LETTERS)) + 1)


def lettered(before: str, taken: set[str]) -> str:
    """The number of the bar before with the first letter that is free, 12 → 12a → 12b."""
    number = before.rstrip(LETTERS)
    return next((name for name in map(number.__add__, LETTERS) if name not in taken), before)


def wanted_bars(
    names: Sequence[str], wanted: tuple[str, str] | None, file: str
) -> tuple[range, list[Finding]]:
    """The indexes of the bars from the first to the last that is wanted, both included.

    wanted: printed numbers, or `#` and the order in the file. Of a number that comes twice the
        first bar is taken, for the end the first one that does not come before the beginning.

    Raises:
        BookgenError: there is no such bar, or the end comes before the beginning.
    """
    if wanted is None:
        return range(len(names)), []
    first = position(names, wanted[0], 0)
    last = position(names, wanted[1], first or 0)
    for text, found in zip(wanted, (first, last), strict=True):
        if found is None:
            there = position(names, text, 0) is not None
            problem = before(text, wanted[0]) if there else missing(text, names)
            mend = told("give --bars A-B with numbers that are printed there")
            raise BookgenError(Finding(file, problem, mend))
    chosen = range(first or 0, (last or 0) + 1)
    return chosen, [*twice(names, wanted, chosen, file)]


def position(names: Sequence[str], text: str, start: int) -> int | None:
    """The index of the first bar of that name from there on, or None."""
    order = ORDER.fullmatch(text.strip())
    if order is not None:
        index = int(order["order"]) - 1
        return index if start <= index < len(names) else None
    number = plain_number(text)
    return next((index for index in range(start, len(names)) if names[index] == number), None)


def before(text: str, first: str) -> Message:
    """That the end comes before the beginning."""
    return told("bar {bar} comes before bar {first}", bar=shown(text), first=shown(first))


def missing(text: str, names: Sequence[str]) -> Message:
    """That there is no such bar, and which there are."""
    if not names:
        return told("there is no bar {bar}, nor any other", bar=shown(text))
    return told(
        "there is no bar {bar}; the {count} bars are numbered {first} to {last}",
        bar=shown(text),
        count=len(names),
        first=names[0],
        last=names[-1],
    )


def twice(
    names: Sequence[str], wanted: tuple[str, str], chosen: range, file: str
) -> Iterable[Finding]:
    """A finding where a wanted number stands over several bars."""
    for text, index in dict(zip(wanted, (chosen[0], chosen[-1]), strict=True)).items():
        count = names.count(names[index])
        if count > 1 and ORDER.fullmatch(text.strip()) is None:
            problem = told(
                "{count} bars have the number {number}; the one at place {place} is taken",
                count=count,
                number=names[index],
                place=index + 1,
            )
            mend = told("give --bars by their order in the file, e.g. #{place}", place=index + 1)
            yield Finding(file, problem, mend)
