"""Leaves become a book: drawn, music laid on, outline, page labels."""

from collections.abc import Sequence
from dataclasses import replace

from bookgen.binder.page.frame import Frame
from bookgen.binder.page.imprint import Imprint, Numbering
from bookgen.binder.page.leaf import Leaf, Side, roman, side_of
from bookgen.binder.page.placed import Placed
from bookgen.binder.page.reportlab_canvas import ReportLabCanvas
from bookgen.notation.engraved import Engraving


def bind_leaves(
    front: Sequence[Leaf],
    body: Sequence[Leaf],
    frame: Frame,
    engraving: Engraving,
    imprint: Imprint,
) -> bytes:
    """Bind pages: the whole PDF.

    front: numbered in small Roman numerals; body: from 1.
    imprint: without page labels it gets those of front and body.
    """
    desk = frame.desk
    canvas = ReportLabCanvas(desk.fonts, desk.sheet.width, desk.sheet.height)
    places: list[Placed] = []
    folios = [*(roman(page) for page in range(1, len(front) + 1))]
    folios += [str(page) for page in range(1, len(body) + 1)]
    for page, (leaf, folio) in enumerate(zip([*front, *body], folios, strict=True)):
        side = side_of(page, folio, desk.sheet, mirrored=frame.mirrored)
        places += draw_leaf(canvas, frame, side, leaf)
        canvas.next_page()
    labels = imprint.page_labels or (
        *([Numbering(0, roman=True)] if front else []),
        *([Numbering(len(front))] if body else []),
    )
    imprint = replace(imprint, page_labels=labels, language=desk.speech.language)
    from bookgen.binder.page.press import press  # noqa: PLC0415  slow to import

    return press(canvas.finish(), engraving, places, imprint)


def draw_leaf(canvas: ReportLabCanvas, frame: Frame, side: Side, leaf: Leaf) -> list[Placed]:
    """Draw a page and enter it in the outline."""
    for order, mark in enumerate(leaf.marks):
        canvas.bookmark(f"page-{side.page}-{order}", mark.title, mark.level)
    if not leaf.bare:
        frame.draw(canvas, side, leaf.running, leaf.signs)
    return [*leaf.draw(canvas, side)]
