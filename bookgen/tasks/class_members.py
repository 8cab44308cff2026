"""Which instruments a class has, from the words of the command line."""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from bookgen.errors import BookgenError, Finding, told
from bookgen.model.instrument import Instrument
from bookgen.readers.own_instrument import instrument_at
from bookgen.tasks.roster import choose

OPTION: Final = "--class"
COUNTS: Final = range(2, 7)
"""Instruments of a class: each drill of more would not stand on a page (own choice)."""


@dataclass(frozen=True, slots=True)
class Seat:
    """An instrument of a class, in the size that is played."""

    instrument: Instrument
    size: str


def seats_of(given: str, folder: Path) -> list[Seat]:
    """The instruments of a class in their order, e.g. of "violin 3/4, viola, cello".

    folder: of the studio, to which paths of instrument files are relative.

    Raises:
        BookgenError: there is no such instrument or size, one stands twice, or there are too few
            or too many.
    """
    seats: list[Seat] = []
    findings: list[Finding] = []
    for name in filter(None, map(str.strip, given.split(","))):
        try:
            seats.append(seat_of(name, folder))
        except BookgenError as error:
            findings += error.findings
    findings += faults(seats) if not findings else ()
    if findings:
        raise BookgenError(*findings)
    return seats


def seat_of(name: str, folder: Path) -> Seat:
    """An instrument by its name, with a size after it or in the usual one.

    Raises:
        BookgenError: there is no such instrument, or it is not built in that size.
    """
    words, _, last = name.rpartition(" ")
    if "/" not in last or not words or last.endswith(".toml"):
        words, last = name, ""
    instrument = instrument_at(words.strip(), folder, OPTION)
    sizes = [size.name for size in instrument.sizes]
    if last and last not in sizes:
        problem = told("no {instrument} size {name}", instrument=instrument.key, name=repr(last))
        raise BookgenError(Finding(OPTION, problem, choose(last, sizes)))
    return Seat(instrument, last or sizes[0])


def faults(seats: list[Seat]) -> Iterator[Finding]:
    """Findings where a class is none, or has an instrument twice."""
    keys = [seat.instrument.key for seat in seats]
    for key in sorted({key for key in keys if keys.count(key) > 1}):
        problem = told("the {instrument} stands twice in the class", instrument=key)
        yield Finding(OPTION, problem, told("name each instrument once"))
    if len(seats) not in COUNTS:
        problem = told(
            "a class has {least} to {most} instruments, not {count}",
            least=COUNTS[0],
            most=COUNTS[-1],
            count=len(seats),
        )
        mend = told("put commas between them, e.g. {example}", example='--class "violin, cello"')
        yield Finding(OPTION, problem, mend)
