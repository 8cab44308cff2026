"""What a table of results may say: heads of its columns, and words for secure and not yet."""

from collections.abc import Iterable, Mapping
from typing import Final

from bookgen.plan.record import Result
from bookgen.words.speech import Speech
from bookgen.words.term import Term

HEADS: Final[Mapping[str, Term]] = {
    "player": Term("heads of a column, with commas", "player, name, pupil, student"),
    "number": Term("heads of a column, with commas", "number, no., no, nr., nr, #, drill"),
    "result": Term("heads of a column, with commas", "result"),
    "date": Term("heads of a column, with commas", "date, day, on, played"),
    "secure": Term("heads of a column, with commas", "secure"),
    "not yet": Term("heads of a column, with commas", "not yet, not-yet"),
}
"""By the columns' own names."""

RESULTS: Final[Mapping[Result, Term]] = {
    Result.SECURE: Term(
        "words for secure in a table, with commas", "secure, yes, y, ok, okay, x, ✓, ✔, 1, true"
    ),
    Result.NOT_YET: Term(
        "words for not yet in a table, with commas", "not yet, not-yet, no, n, 0, false"
    ),
}
NOTHING: Final = Term("words for not played in a table, with commas", "-, \N{EN DASH}, \N{EM DASH}")


def heads_of(speeches: Iterable[Speech]) -> dict[str, str]:
    """The columns by every head under which they may stand, in small letters."""
    return {
        head: column
        for speech in speeches
        for column, term in HEADS.items()
        for head in spread(term, speech)
    }


def results_of(speeches: Iterable[Speech]) -> dict[str, Result | None]:
    """Results by every word for them, in small letters; None is: not played."""
    spoken = list(speeches)
    words: dict[str, Result | None] = {"": None}
    words |= {word: None for speech in spoken for word in spread(NOTHING, speech)}
    return words | {
        word: result
        for speech in spoken
        for result, term in RESULTS.items()
        for word in spread(term, speech)
    }


def spread(term: Term, speech: Speech) -> list[str]:
    """The words of a list, in small letters."""
    return [word.strip().casefold() for word in speech.term(term).split(",")]
