"""The finished file: music put in, boxes, language, title; the same bytes every time."""

from collections.abc import Callable, Sequence
from io import BytesIO
from typing import Final

import pikepdf

from bookgen.binder.page.imprint import CREATOR, Imprint, Numbering
from bookgen.binder.page.order import bare
from bookgen.binder.page.overlay import overlay
from bookgen.binder.page.placed import Placed
from bookgen.notation.engraved import Engraving

SCREEN_VERSION: Final = "1.7"
"""Of PDF, for which PDF/UA-1 is written (ISO 14289-1:2014, 6.1)."""


def press(
    pages: bytes,
    engraving: Engraving,
    places: Sequence[Placed],
    imprint: Imprint,
    closing: Callable[[pikepdf.Pdf], None] | None = None,
) -> bytes:
    """Put the music onto our pages and close the file.

    No clock is read: the file says nothing of when it was made.

    closing: puts into the file of a screen edition what is read of it.
    """
    with pikepdf.open(BytesIO(pages)) as book:
        overlay(book, engraving, places)
        for page in book.pages:
            page.obj["/TrimBox"] = page.obj["/MediaBox"]
        book.Root["/Lang"] = pikepdf.String(imprint.language)
        book.Root["/ViewerPreferences"] = pikepdf.Dictionary(DisplayDocTitle=True)
        book.Root["/PageLabels"] = labels(imprint.page_labels)
        book.trailer["/Info"] = book.make_indirect(
            pikepdf.Dictionary(
                Title=pikepdf.String(bare(imprint.title)),
                Author=pikepdf.String(bare(imprint.author)),
                Subject=pikepdf.String(bare(imprint.subject)),
                Creator=pikepdf.String(CREATOR),
            )
        )
        if "/ID" in book.trailer:  # ReportLab's, which follows SOURCE_DATE_EPOCH
            del book.trailer["/ID"]
        if closing is not None:
            closing(book)
        out = BytesIO()
        book.save(
            out,
            min_version="" if closing is None else SCREEN_VERSION,
            object_stream_mode=pikepdf.ObjectStreamMode.generate,
            deterministic_id=True,
        )
    return out.getvalue()


def labels(runs: Sequence[Numbering]) -> pikepdf.Dictionary:
    """Page labels: a prefix and a number from 1 for each run (ISO 32000-1, 12.4.2)."""
    numbers: list[int | pikepdf.Object] = []
    for run in runs:
        style = pikepdf.Name.r if run.roman else pikepdf.Name.D
        numbers += [run.first, pikepdf.Dictionary(S=style, P=pikepdf.String(run.prefix))]
    return pikepdf.Dictionary(Nums=pikepdf.Array(numbers))
