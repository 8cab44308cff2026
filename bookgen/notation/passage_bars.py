"""What stands before the notes of a bar: number, clef, key and meter, as LilyPond reads them."""

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Final

from bookgen.model.phrase import Bar, Phrase
from bookgen.notation.passage_rhythm import written_bar

KEYS: Final = (
    *("cf", "gf", "df", "af", "ef", "bf", "f", "c", "g", "d", "a", "e", "b", "fs", "cs"),
)
"""Major keys from seven flats to seven sharps."""

MOST_SIGNS: Final = 7
BEAT_VALUES: Final = frozenset({1, 2, 4, 8, 16, 32, 64})
MOST_BEATS: Final = 99
BAR_NUMBER: Final = re.compile(r"[1-9][0-9]{0,4}[a-z]?")
"""Numbers of bars that are printed; an upbeat, 0, has none."""

COMMON: Final = Fraction(1)
"""How long LilyPond's bars last before any meter."""


def bar_names(phrase: Phrase) -> str:
    """A command that hands the bars' numbers to what prints them, in their order."""
    names = " ".join(f'"{bar_name(bar)}"' for bar in phrase.bars)
    return f"\\barNames #'({names})"


def bar_name(bar: Bar) -> str:
    """The number of a bar as it can be printed; upbeats and what is no number have none."""
    return bar.number if BAR_NUMBER.fullmatch(bar.number) else ""


def length_of(bar: Bar) -> Fraction:
    """How long a bar lasts with all that is written in it."""
    pieces = (piece for span in written_bar(bar) for piece in span.pieces)
    written = sum((value.length for piece in pieces for value in piece.values), Fraction())
    return max(bar.length, written)


def bar_signs(phrase: Phrase, clefs: Sequence[str]) -> Iterator[list[str]]:
    """The commands before the notes of each bar.

    clefs: of each bar.
    """
    running, keys = COMMON, keys_of(phrase)
    for number, bar in enumerate(phrase.bars):
        first = number == 0
        signs = [f'\\clef "{clefs[number]}"'] if first or clefs[number] != clefs[number - 1] else []
        if first or keys[number] != keys[number - 1]:
            signs.append(f"\\key {key_name(keys[number])} \\major")
        if bar.meter is not None and writable(bar.meter):
            signs.append(f"\\time {bar.meter[0]}/{bar.meter[1]}")
            running = Fraction(*bar.meter)
        elif first:
            signs.append("\\once \\omit Staff.TimeSignature")
        length = length_of(bar)
        if first and length < running:
            signs.append(f"\\partial 1*{length.numerator}/{length.denominator}")
        elif length != running:
            running = length
            signs.append(f"\\set Timing.measureLength = #(ly:make-moment {length})")
        yield signs


def keys_of(phrase: Phrase) -> list[int]:
    """The sharps of each bar's key, flats where negative."""
    found: list[int] = []
    for bar in phrase.bars:
        before = found[-1] if found else 0
        found.append(before if bar.sharps is None else bar.sharps)
    return found


def key_name(sharps: int) -> str:
    """The major key with so many sharps, or flats where negative; none where there is no such."""
    return KEYS[sharps + MOST_SIGNS] if abs(sharps) <= MOST_SIGNS else "c"


def writable(meter: tuple[int, int]) -> bool:
    """A meter that a staff can show."""
    return 1 <= meter[0] <= MOST_BEATS and meter[1] in BEAT_VALUES
