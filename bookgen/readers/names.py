"""Names that a user types: of players, papers, instruments; large and small letters are alike."""

import unicodedata
from collections.abc import Iterable


def named(given: str, known: Iterable[str]) -> str | None:
    """The name that is meant, or None; one that is written just so goes before its likes.

    >>> named("anna", ["Anna", "Jo"]), named("A4", ["a4", "a5"]), named("Ann", ["Anna"])
    ('Anna', 'a4', None)
    """
    composed, alike = unicodedata.normalize("NFC", given), folded(given)
    names = list(known)
    return next(
        (name for name in names if name == composed),
        next((name for name in names if folded(name) == alike), None),
    )


def folded(name: str) -> str:
    """A name in small letters, one sign for each, without white around it."""
    return unicodedata.normalize("NFKC", name.strip()).casefold()
