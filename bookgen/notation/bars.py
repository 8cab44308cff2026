"""What the bars of a passage last and say: numbers, keys, meters that a staff can show."""

import re
from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from bookgen.model.phrase import Bar, Phrase
from bookgen.notation.rhythm import written_bar

MOST_SIGNS: Final = 7
"""Sharps or flats of a key."""

BEAT_VALUES: Final = frozenset({1, 2, 4, 8, 16, 32, 64})
MOST_BEATS: Final = 99
BAR_NUMBER: Final = re.compile(r"[1-9][0-9]{0,4}[a-z]?")
"""Numbers of bars that are printed; an upbeat, 0, has none."""

COMMON: Final = Fraction(1)
"""How long bars last before any meter."""

EIGHTH: Final = 8
THREE: Final = 3
"""Eighths and shorter values go in threes where the meter has more than one three of them."""


def bar_name(bar: Bar) -> str:
    """The number of a bar as it can be printed; upbeats and what is no number have none."""
    return bar.number if BAR_NUMBER.fullmatch(bar.number) else ""


def length_of(bar: Bar) -> Fraction:
    """How long a bar lasts with all that is written in it."""
    pieces = (piece for span in written_bar(bar) for piece in span.pieces)
    written = sum((value.length for piece in pieces for value in piece.values), Fraction())
    return max(bar.length, written)


def keys_of(phrase: Phrase) -> list[int]:
    """The sharps of each bar's key, flats where negative."""
    found: list[int] = []
    for bar in phrase.bars:
        before = found[-1] if found else 0
        found.append(before if bar.sharps is None else bar.sharps)
    return found


def writable(meter: tuple[int, int] | None) -> bool:
    """A meter that a staff can show."""
    return meter is not None and 1 <= meter[0] <= MOST_BEATS and meter[1] in BEAT_VALUES


def usual_lengths(phrase: Phrase) -> Iterator[Fraction]:
    """How long the meter makes each bar."""
    usual = COMMON
    for bar in phrase.bars:
        if bar.meter is not None and writable(bar.meter):
            usual = Fraction(*bar.meter)
        yield usual


def beat(phrase: Phrase, number: int) -> Fraction:
    """How long a beat of a bar lasts; three of them where the meter is compound."""
    meters = [bar.meter for bar in phrase.bars[: number + 1] if bar.meter is not None]
    beats, value = meters[-1] if meters else (4, 4)
    compound = value >= EIGHTH and beats % THREE == 0 and beats > THREE
    return Fraction(THREE if compound else 1, value)
