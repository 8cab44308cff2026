"""What a finished book says: its pages as text, and what its lists name."""

import re
from functools import cache
from pathlib import Path

import pypdfium2

DASH = "\N{EN DASH}"


@cache
def pages(file: Path) -> list[str]:
    with pypdfium2.PdfDocument(file) as document:
        return [page.get_textpage().get_text_range().replace("\r", "") for page in document]


def labels(file: Path) -> list[str]:
    with pypdfium2.PdfDocument(file) as document:
        return [document.get_page_label(at) for at in range(len(document))]


def drills_on(page: str) -> list[int]:
    """The drills of a page by their numbers, each over its hand."""
    return [int(number) for number in re.findall(r"^(\d+)\s\d and \d, ", page, re.MULTILINE)]


def unbroken(index: str) -> str:
    """An index whose lists are not broken into lines."""
    return re.sub(r"(,|pages?)\n", r"\1 ", index)


def spread(text: str) -> list[int]:
    """Numbers from a list with runs."""
    return [
        number
        for part in re.findall(rf"\d+(?:{DASH}\d+)?", text)
        for first, _, last in [part.partition(DASH)]
        for number in range(int(first), int(last or first) + 1)
    ]
