"""The finished file: music put in, boxes, language, title; the same bytes every time."""

from collections.abc import Sequence
from io import BytesIO

import pikepdf

from bookgen.binder.page.imprint import CREATOR, Imprint, Numbering
from bookgen.binder.page.order import bare
from bookgen.binder.page.overlay import overlay
from bookgen.binder.page.placed import Placed
from bookgen.notation.engraved import Engraving


def press(pages: bytes, engraving: Engraving, places: Sequence[Placed], imprint: Imprint) -> bytes:
    """Put the music onto our pages and close the file.

    No clock is read: the file says nothing of when it was made.
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
        out = BytesIO()
        book.save(
            out,
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
