"""Engraved music onto our pages: each drill a form of its own, vector and in gray ink."""

from collections.abc import Iterable
from io import BytesIO
from typing import Final

import pikepdf

from bookgen.binder.page.placed import Placed
from bookgen.notation.engraved import Engraving, Plate

BLEED_PT: Final = 0.5
"""White kept around the ink, so that no edge is cut by rounding."""


def overlay(book: pikepdf.Pdf, engraving: Engraving, places: Iterable[Placed]) -> None:
    """Draw engraved drills on the pages of a book."""
    cases = [type_of(book, case) for case in engraving.cases]
    for place in places:
        engraved = engraving.drills[place.drill]
        form = music_form(book, engraved.plate, cases[engraved.case])
        page = book.pages[place.page]
        name = page.add_resource(form, pikepdf.Name.XObject, pikepdf.Name(f"/Music{place.drill}"))
        shift_x = place.left - engraved.box.left
        shift_y = place.top - (engraved.plate.height - engraved.box.top)
        drawing = f"q 1 0 0 1 {shift_x:.3f} {shift_y:.3f} cm {name} Do Q\n"
        page.contents_add((f"{place.mark} BDC {drawing}EMC\n" if place.mark else drawing).encode())


def type_of(book: pikepdf.Pdf, case: bytes) -> pikepdf.Object:
    """The fonts of a type case, once in a book."""
    with pikepdf.open(BytesIO(case)) as pdf:
        return book.copy_foreign(pdf.pages[0].obj["/Resources"])


def music_form(book: pikepdf.Pdf, plate: Plate, case: pikepdf.Object) -> pikepdf.Object:
    """An engraved page as a form, cut to its ink."""
    box = plate.box
    edges = (
        box.left - BLEED_PT,
        plate.height - box.bottom - BLEED_PT,
        box.right + BLEED_PT,
        plate.height - box.top + BLEED_PT,
    )
    form = pikepdf.Stream(
        book,
        b"",
        Type=pikepdf.Name.XObject,
        Subtype=pikepdf.Name.Form,
        Resources=case,
        BBox=pikepdf.Array([round(edge, 3) for edge in edges]),
    )
    form.write(plate.drawing, filter=pikepdf.Name.FlateDecode)
    return form
