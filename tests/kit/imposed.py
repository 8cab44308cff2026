"""Pages with nothing but numbers, and what of them stands where on a folded sheet."""

from collections.abc import Sequence
from io import BytesIO

import pypdfium2
from reportlab.pdfgen.canvas import Canvas

MM = 72 / 25.4
A5, A4_ACROSS = (148.0, 210.0), (297.0, 210.0)
HALF_LETTER, LETTER_ACROSS = (139.7, 215.9), (279.4, 215.9)


def numbered(count: int, size: tuple[float, float] = A5, parts: Sequence[int] = ()) -> bytes:
    """Pages with nothing but their number, 20 mm from the left edge and from the foot.

    parts: pages that begin a part in the outline.
    """
    out = BytesIO()
    canvas = Canvas(out, (size[0] * MM, size[1] * MM), invariant=1)
    for number in range(1, count + 1):
        canvas.drawString(20 * MM, 20 * MM, f"p{number}")
        if number in parts:
            canvas.bookmarkPage(f"part-{number}")
            canvas.addOutlineEntry(f"from {number}", f"part-{number}")
        canvas.showPage()
    canvas.setTitle("Ines · December")
    canvas.save()
    return out.getvalue()


def halves(pdf: bytes) -> list[tuple[str, str]]:
    """What stands on the left and on the right half of each side, as a reader finds it."""
    found = []
    with pypdfium2.PdfDocument(pdf) as book:
        for side in book:
            width, height = side.get_size()
            text = side.get_textpage()
            left = text.get_text_bounded(0, 0, width / 2, height)
            right = text.get_text_bounded(width / 2, 0, width, height)
            found.append((str(left).strip(), str(right).strip()))
    return found


def words_at(pdf: bytes, page: int) -> list[float]:
    """Where words begin, in millimetres from the left edge, from left to right."""
    with pypdfium2.PdfDocument(pdf) as book:
        text = book[page].get_textpage()
        boxes = [text.get_charbox(index) for index in range(text.count_chars())]
        letters = [str(text.get_text_range(index, 1)) for index in range(text.count_chars())]
    return sorted(
        round(box[0] / MM, 2) for box, letter in zip(boxes, letters, strict=True) if letter == "p"
    )
