"""Engraved music onto our pages: each drill a form of its own, vector and in gray ink."""

import re
from collections.abc import Iterable, Sequence
from io import BytesIO
from typing import Final

import pikepdf

from bookgen.binder.page.placed import Placed
from bookgen.notation.engraved import EngravedDrill, Engraving

RGB_BLACK: Final = re.compile(rb"(?<![^\s])0 0 0 (rg|RG)(?![^\s])")
"""The engraver's black is RGB; print shops want plain black ink (ISO 32000-1, 8.6.4.2)."""

BLEED_PT: Final = 0.5
"""White kept around the ink, so that no edge is cut by rounding."""


def overlay(book: pikepdf.Pdf, engraving: Engraving, places: Iterable[Placed]) -> None:
    """Draw engraved drills on the pages of a book."""
    sources = [pikepdf.open(BytesIO(file)) for file in engraving.files]
    for place in places:
        engraved = engraving.drills[place.drill]
        form = book.copy_foreign(music_form(sources, engraved))
        page = book.pages[place.page]
        name = page.add_resource(form, pikepdf.Name.XObject, pikepdf.Name(f"/Music{place.drill}"))
        shift_x = place.left - engraved.box.left
        height = float(sources[engraved.file].pages[engraved.page].mediabox[3])
        shift_y = place.top - (height - engraved.box.top)
        page.contents_add(f"q 1 0 0 1 {shift_x:.3f} {shift_y:.3f} cm {name} Do Q\n".encode())


def music_form(sources: Sequence[pikepdf.Pdf], engraved: EngravedDrill) -> pikepdf.Object:
    """The engraved page as a form, cut to its ink, in gray."""
    page = sources[engraved.file].pages[engraved.page]
    form = page.as_form_xobject(handle_transformations=False)
    form.write(RGB_BLACK.sub(gray, form.read_bytes()))
    if "/Group" in form:
        del form["/Group"]
    height, box = float(page.mediabox[3]), engraved.box
    edges = (
        box.left - BLEED_PT,
        height - box.bottom - BLEED_PT,
        box.right + BLEED_PT,
        height - box.top + BLEED_PT,
    )
    form["/BBox"] = pikepdf.Array([round(edge, 3) for edge in edges])
    return form


def gray(found: re.Match[bytes]) -> bytes:
    """The gray operator for an RGB black one."""
    return b"0 g" if found[1] == b"rg" else b"0 G"
