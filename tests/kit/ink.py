"""Where words really stand on a page, read back from the PDF; and layouts with larger type."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from io import BytesIO

import msgspec
import pypdfium2
import pypdfium2.raw as pdfium

from bookgen.binder.page.layout import Layout
from bookgen.binder.page.measures import Section
from bookgen.binder.page.paper import NoRoomError

MM = 25.4 / 72
TOUCH_MM = 0.35
LEAN = 0.16
"""Boxes of neighbouring words may share so much, in millimetres and as a share of their height:
accents, and italics that lean over the white behind them."""


@dataclass(frozen=True)
class Ink:
    """A run of words: its box in millimetres from the page's lower left corner."""

    left: float
    bottom: float
    right: float
    top: float

    def over(self, other: "Ink") -> bool:
        """It stands on the other one."""
        wide = min(self.right, other.right) - max(self.left, other.left)
        high = min(self.top, other.top) - max(self.bottom, other.bottom)
        lean = LEAN * min(self.top - self.bottom, other.top - other.bottom)
        return wide > max(TOUCH_MM, lean) and high > TOUCH_MM


@lru_cache(maxsize=4)
def inks(pdf: bytes) -> Sequence[tuple[int, float, float, Sequence[Ink]]]:
    """Every page: its number, width and height in millimetres, its runs of words from the top."""
    return [*inks_of(pdf)]


def inks_of(pdf: bytes) -> Iterator[tuple[int, float, float, Sequence[Ink]]]:
    """The pages one by one."""
    with pypdfium2.PdfDocument(BytesIO(pdf)) as book:
        for number, page in enumerate(book):
            width, height = page.get_size()
            found = [
                Ink(*(edge * MM for edge in thing.get_bounds()))
                for thing in page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_TEXT], max_depth=1)
            ]
            runs = [ink for ink in found if ink.right > ink.left]
            yield number, width * MM, height * MM, sorted(runs, key=lambda ink: -ink.top)


def overprints(pdf: bytes) -> list[tuple[int, Ink, Ink]]:
    """Words that stand on other words, by page."""
    found = []
    for number, _, _, runs in inks(pdf):
        for at, ink in enumerate(runs):
            for other in runs[at + 1 :]:
                if other.top < ink.bottom:
                    break
                if ink.over(other):
                    found.append((number, ink, other))
    return found


def outside(pdf: bytes, white: float = 2.0) -> list[tuple[int, Ink]]:
    """Words nearer to the paper's edge than that, in millimetres."""
    return [
        (number, ink)
        for number, width, height, runs in inks(pdf)
        for ink in runs
        if ink.left < white
        or ink.bottom < white
        or ink.right > width - white
        or ink.top > height - white
    ]


def larger(layout: Layout, factor: float) -> Layout:
    """A layout whose type and staff are so much larger; its white stays."""

    def grown(section: Section) -> Section:
        changes = {}
        for key in section.__struct_fields__:
            value = getattr(section, key)
            if isinstance(value, Section):
                changes[key] = grown(value)
            elif key.endswith("_pt") or key == "staff_height_mm":
                changes[key] = value * factor
        return msgspec.structs.replace(section, **changes)

    found = grown(layout)
    assert isinstance(found, Layout)
    return found


def growing() -> list[float]:
    """Factors by which type grows until nothing fits."""
    return [1.0, 1.15, 1.3, 1.5, 1.75, 2.0, 2.5, 3.0, 4.0]


def refused_or_printed(make: Callable[[float], bytes]) -> None:
    """Pages with type that grows are told, or printed with nothing over other type or outside."""
    printed, told = {}, []
    for factor in growing():
        try:
            printed[factor] = make(factor)
        except NoRoomError as refused:
            told.append(str(refused.message))
    assert printed
    assert all("mm" in message for message in told)
    for factor, pdf in printed.items():
        assert overprints(pdf) == [], factor
        assert outside(pdf) == [], factor
