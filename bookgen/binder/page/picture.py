"""A page of a PDF as a picture."""

from io import BytesIO

POINTS_PER_INCH = 72


def png(pdf: bytes, *, page: int = 0, dpi: int = 144) -> bytes:
    """Render one page.

    page: from 0.

    Raises:
        ValueError: there is no such page, or no dot to the inch.
    """
    import pypdfium2  # noqa: PLC0415 - only pictures need it

    if dpi <= 0:
        msg = f"{dpi} dots to the inch make no picture"
        raise ValueError(msg)
    document = pypdfium2.PdfDocument(pdf)
    try:
        if not 0 <= page < len(document):
            msg = f"no page {page + 1}; there are {len(document)}"
            raise ValueError(msg)
        out = BytesIO()
        document[page].render(scale=dpi / POINTS_PER_INCH).to_pil().save(out, format="PNG")
    finally:
        document.close()
    return out.getvalue()
