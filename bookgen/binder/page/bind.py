"""Leaves become a book: drawn, music laid on, outline, page labels."""

from collections.abc import Callable, Sequence
from dataclasses import replace

from bookgen.binder.page.desk import Desk
from bookgen.binder.page.frame import Frame
from bookgen.binder.page.imprint import Imprint, Numbering
from bookgen.binder.page.leaf import Leaf, Side, roman, side_of
from bookgen.binder.page.placed import Placed
from bookgen.binder.page.reportlab_canvas import ReportLabCanvas
from bookgen.binder.structure.tag import HEADER, head
from bookgen.notation.engraved import Engraving


def bind_leaves(
    front: Sequence[Leaf],
    body: Sequence[Leaf],
    frame: Frame,
    engraving: Engraving,
    imprint: Imprint,
    heard: Callable[[int], str] | None = None,
) -> bytes:
    """Bind pages: the whole PDF.

    front: numbered in small Roman numerals; body: from 1.
    imprint: without page labels it gets those of front and body.
    heard: the engraving's music in words, for screen editions.
    """
    desk = frame.desk
    canvas = canvas_of(desk, (desk.sheet.width, desk.sheet.height), engraving, heard)
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

    return press(canvas.finish(), engraving, places, imprint, canvas.closing(folios))


def canvas_of(
    desk: Desk,
    size: tuple[float, float],
    engraving: Engraving,
    heard: Callable[[int], str] | None,
) -> ReportLabCanvas:
    """The canvas of a book, which on a screen tells what it draws.

    size: of its pages, in millimetres; heard: the engraving's music in words.
    """
    if not desk.screen:
        return ReportLabCanvas(desk.fonts, *size)
    from bookgen.binder.page.screen_canvas import ScreenCanvas  # noqa: PLC0415  few want it

    return ScreenCanvas(desk.fonts, *size, engraving, heard)


def draw_leaf(canvas: ReportLabCanvas, frame: Frame, side: Side, leaf: Leaf) -> list[Placed]:
    """Draw a page and enter it in the outline.

    Where the outline names what the page's head says, that is the head of a section.
    """
    for order, mark in enumerate(leaf.marks):
        canvas.bookmark(f"page-{side.page}-{order}", mark.title, mark.level)
    if not leaf.bare:
        opened = next((mark for mark in leaf.marks if mark.title == leaf.running), None)
        if opened is not None:
            canvas.begin(opened.title, opened.level)
        tag = HEADER if opened is None else head()
        frame.draw(canvas, side, leaf.running, leaf.signs, tag)
    return [canvas.music(place) for place in leaf.draw(canvas, side)]
