"""Plates of a PDF, and plates as a PDF again, to be looked at."""

from collections.abc import Sequence
from io import BytesIO

import pikepdf

from bookgen.binder.page.overlay import music_form, type_of
from bookgen.notation.engraved import EngravedDrill, Engraving, InkBox, Plate
from bookgen.notation.plates import drawn


def engraving_of(music: pikepdf.Pdf, boxes: Sequence[InkBox]) -> Engraving:
    """The pages of a PDF as if LilyPond had engraved them."""
    out = BytesIO()
    music.save(out, deterministic_id=True)
    pages = drawn(out.getvalue(), cased=False)
    drills = (
        EngravedDrill(0, Plate(drawing, height, box))
        for (drawing, height), box in zip(pages.drawings, boxes, strict=True)
    )
    return Engraving((pages.case,), tuple(drills))


def as_pdf(engraving: Engraving) -> bytes:
    """A page for each plate, with all of it where it was engraved."""
    out = BytesIO()
    with pikepdf.new() as pdf:
        cases = [type_of(pdf, case) for case in engraving.cases]
        for drill in engraving.drills:
            size = (drill.box.right + 40, drill.plate.height)
            page = pdf.add_blank_page(page_size=size)
            form = music_form(pdf, drill.plate, cases[drill.case])
            name = page.add_resource(form, pikepdf.Name.XObject)
            page.contents_add(f"{name} Do".encode())
        pdf.save(out, deterministic_id=True)
    return out.getvalue()
