"""A finished book becomes the file that a printing house takes: PDF/X-4, in black ink alone."""

from datetime import datetime
from io import BytesIO
from typing import Final

import pikepdf

from bookgen.binder.prepress.declaration import declare
from bookgen.binder.prepress.faces import refuse_missing_faces
from bookgen.binder.prepress.icc import Profile
from bookgen.binder.prepress.ink import NotForPressError, blacken
from bookgen.binder.prepress.trim import Trim

VERSION: Final = "1.6"
"""Of PDF, as PDF/X-4 wants it (ISO 15930-7:2010, 6.2)."""

KEPT: Final = frozenset({"/Type", "/Pages", "/Lang", "/PageLabels", "/ViewerPreferences"})
"""What a printed book still needs of the file's catalogue; outline and tags are for screens."""

KEPT_OF_A_PAGE: Final = frozenset({"/Type", "/Parent", "/Contents", "/Resources", "/TrimBox"})
"""What still holds when a page lies on its sheet; notes and passages between pages do not."""

SAME_PT: Final = 0.5


def for_press(pdf: bytes, profile: Profile, moment: datetime, trim: Trim | None = None) -> bytes:
    """The same pages with bleed and crop marks, for a press. Nothing is drawn again or dotted.

    profile: the printer's, or our own of black ink.
    moment: with its time zone; written as the day on which the file was made. The same pages and
        moment give the same bytes.
    trim: the usual one if not given.

    Raises:
        NotForPressError: the pages are of several sizes, lack a face or have other ink than black.
    """
    with pikepdf.open(BytesIO(pdf)) as book:
        refuse_sizes(book)
        refuse_missing_faces(book)
        blacken(book)
        for key in set(book.Root.keys()) - KEPT:
            del book.Root[key]
        for page in book.pages:
            page.obj["/Resources"] = page.resources
            page.obj["/TrimBox"] = page.trimbox
            for key in set(page.obj.keys()) - KEPT_OF_A_PAGE:
                del page.obj[key]
            lay(page, trim or Trim())
        declare(book, profile, moment, pdf)
        out = BytesIO()
        book.remove_unreferenced_resources()
        book.save(
            out,
            force_version=VERSION,
            object_stream_mode=pikepdf.ObjectStreamMode.generate,
            deterministic_id=True,
        )
    return out.getvalue()


def lay(page: pikepdf.Page, trim: Trim) -> None:
    """Put a page onto the sheet that is cut: what was drawn moves, the boxes tell where it ends."""
    left, bottom, right, top = (float(side) for side in page.trimbox)
    size = right - left, top - bottom
    moved = f"q 1 0 0 1 {trim.edge - left:.4f} {trim.edge - bottom:.4f} cm\n"
    page.contents_add(moved.encode(), prepend=True)
    page.contents_add(b"\nQ\n" + trim.crop_marks(*size))
    for name, sides in trim.boxes(*size).items():
        page.obj[name] = pikepdf.Array(sides)


def refuse_sizes(book: pikepdf.Pdf) -> None:
    """Refuse pages that cannot be cut as one block.

    Raises:
        NotForPressError: their sizes differ.
    """
    first = [float(side) for side in book.pages[0].trimbox]
    for number, page in enumerate(book.pages, start=1):
        sides = [float(side) for side in page.trimbox]
        if any(abs(one - other) > SAME_PT for one, other in zip(sides, first, strict=True)):
            raise NotForPressError("press-size", number=number)
