"""The words that recur on a booklet's pages: the caution, the days' headings, the pencil's."""

from collections.abc import Mapping
from typing import Final

from bookgen.binder.book_words import BookWords, DayWords
from bookgen.binder.templates import Words
from bookgen.binder.typeset import Line, Paragraph

PAGE: Final = "page.j2"
PAGE_PARTS: Final = frozenset({"whose", "caution", "pencil", "own", "day"})
"""What page.j2 may print."""


class PageWords:
    """page.j2, filled for the booklet and for each of its days."""

    def __init__(self, words: Words, book: BookWords) -> None:
        """Fill what holds for every page.

        Raises:
            BookgenError: the template is damaged.
        """
        self.words = words
        self.book = book
        self.always = self.filled(None)

    def filled(self, day: DayWords | None) -> Mapping[str, Paragraph]:
        """The parts of the template.

        Raises:
            BookgenError: the template is damaged.
        """
        return self.words.named(PAGE, {"book": self.book, "day": day}, PAGE_PARTS)

    def plain(self, part: str) -> str:
        """The words of a part that every page has, without weight."""
        found = self.always.get(part)
        return found.plain if found else ""

    @property
    def whose(self) -> str:
        """Player and booklet."""
        return self.plain("whose")

    @property
    def caution(self) -> Paragraph | None:
        """When to stop, and what to do with what is not secure."""
        return self.always.get("caution")

    @property
    def pencil(self) -> str:
        """Over ruled lines."""
        return self.plain("pencil")

    @property
    def own(self) -> str:
        """Over empty staves."""
        return self.plain("own")

    def day(self, day: DayWords) -> Line:
        """A day's heading.

        Raises:
            BookgenError: the template is damaged.
        """
        found = self.filled(day)
        return found["day"].pieces if "day" in found else ()
