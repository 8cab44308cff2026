"""The faces of a file for the press: each of them in the file, cut to the letters that it needs."""

import re
from typing import Final

import pikepdf

from bookgen.binder.prepress.ink import NotForPressError

PROGRAMS: Final = ("/FontFile", "/FontFile2", "/FontFile3")
SUBSET: Final = re.compile(r"/[A-Z]{6}\+")
"""Stands before the name of a face that is cut to its letters (ISO 32000-1, 9.6.4)."""

COMPOSED: Final = {"/Type0", "/Type3"}
"""Fonts that hold other fonts, or drawings in place of a face."""


def refuse_missing_faces(book: pikepdf.Pdf) -> None:
    """Refuse a book that needs a face which it does not hold.

    Raises:
        NotForPressError: there is one, or a whole one in place of the letters that are needed.
    """
    for thing in book.objects:
        if not isinstance(thing, pikepdf.Dictionary) or thing.get("/Type") != "/Font":
            continue
        name = str(thing.get("/BaseFont"))
        if str(thing.get("/Subtype")) in COMPOSED:
            continue
        held = thing.get("/FontDescriptor", pikepdf.Dictionary())
        if not any(key in held for key in PROGRAMS):
            raise NotForPressError("press-face", name=name)
        if not SUBSET.match(name):
            raise NotForPressError("press-whole-face", name=name)
