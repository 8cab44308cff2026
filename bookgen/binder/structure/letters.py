"""Which letters the signs of a font are: an engraver's signs have places of their own."""

import re
from typing import Final

import pikepdf

NOTHING: Final = re.compile(rb"<0000>(?=\s*(?:\n|$))")
"""At the end of a line of a font's table of letters: a sign that is no letter."""

PRIVATE: Final = b"<E000>"
"""The first of the places that Unicode leaves to everyone's own signs: clefs, heads of notes."""


def mend_letters(book: pikepdf.Pdf) -> None:
    """Give a place of their own to signs that a font calls nothing.

    PDF/UA-1 allows no U+0000 (ISO 14289-1, 7.21.7). The words of the figure in which such a sign
    stands are read instead of it.
    """
    for thing in book.objects:
        if isinstance(thing, pikepdf.Dictionary) and "/ToUnicode" in thing:
            table = thing["/ToUnicode"]
            said = table.read_bytes()
            mended = NOTHING.sub(PRIVATE, said)
            if mended != said:
                table.write(mended)
