"""Paper for tests of the binder: a canvas that remembers, and stand-in music."""

from collections.abc import Sequence
from contextlib import AbstractContextManager, nullcontext
from dataclasses import dataclass, field
from functools import cache
from io import BytesIO

import pikepdf
from kit.plates import engraving_of

from bookgen.binder.page.canvas import Point, Style
from bookgen.binder.structure.tag import Tag
from bookgen.model.instrument import Instrument
from bookgen.notation.engraved import Engraving, InkBox
from bookgen.readers.instrument import read_instrument

PT_PER_MM = 72 / 25.4


@dataclass
class Recorder:
    """A canvas that remembers what was drawn; a letter is half as wide as its size."""

    lines: list[tuple[Point, Point]] = field(default_factory=list)
    dashed: list[tuple[Point, Point]] = field(default_factory=list)
    spots: list[Point] = field(default_factory=list)
    rings: list[Point] = field(default_factory=list)
    boxes: list[Point] = field(default_factory=list)
    curves: list[tuple[Point, Point]] = field(default_factory=list)
    shapes: list[list[Point]] = field(default_factory=list)
    texts: list[tuple[Point, str]] = field(default_factory=list)

    def width(self, text: str, style: Style) -> float:
        return len(text) * style.size * 0.5 / PT_PER_MM

    def line(self, start: Point, end: Point, *, width: float, gray: float = 0.0) -> None:
        self.lines.append((start, end))

    def dashes(self, start: Point, end: Point, *, width: float) -> None:
        self.dashed.append((start, end))

    def spot(self, centre: Point, *, radius: float, gray: float = 0.0) -> None:
        if gray == 0.0:
            self.spots.append(centre)

    def ring(self, centre: Point, *, radius: float, width: float) -> None:
        self.rings.append(centre)

    def box(self, corner: Point, size: Point, *, width: float) -> None:
        self.boxes.append(corner)

    def shape(self, corners: Sequence[Point], *, gray: float = 0.0) -> None:
        if gray == 0.0:
            self.shapes.append(list(corners))

    def curve(self, start: Point, one: Point, other: Point, end: Point, *, width: float) -> None:
        self.curves.append((start, end))

    def text(self, start: Point, text: str, style: Style, *, gray: float = 0.0) -> None:
        self.texts.append((start, text))

    def tagged(self, tag: Tag) -> AbstractContextManager[None]:
        return nullcontext()

    def reading(self, *tags: Tag) -> None:
        pass

    def begin(self, title: str, level: int) -> None:
        pass

    @property
    def words(self) -> list[str]:
        return [text for _, text in self.texts]


@cache
def stand_in(count: int, width_mm: float = 150.0, height_mm: float = 26.0) -> Engraving:
    """Music that is a black box, as wide and high as told, away from its page's corner."""
    left, top = 12.0, 9.0
    width, height = width_mm * PT_PER_MM, height_mm * PT_PER_MM
    page_height = height + 40
    music = pikepdf.new()
    for _ in range(count):
        page = music.add_blank_page(page_size=(width + 40, page_height))
        ink = f"0 0 0 rg {left} {page_height - top - height} {width} {height} re f"
        page.contents_add(ink.encode())
    box = InkBox(left, top, left + width, top + height, top + 20, top + 41, 1)
    return engraving_of(music, [box] * count)


def violin() -> Instrument:
    return read_instrument("violin")


def fonts_of(pdf: bytes) -> list[tuple[str, bool]]:
    """Every font of a PDF: its name, and whether its program is embedded."""
    found = []
    with pikepdf.open(BytesIO(pdf)) as book:
        for thing in book.objects:
            if isinstance(thing, pikepdf.Dictionary) and thing.get("/Type") == "/Font":
                embedded = is_embedded(thing)
                if embedded is not None:
                    found.append((str(thing["/BaseFont"]), embedded))
    return found


def is_embedded(font: pikepdf.Object) -> bool | None:
    """None for a composite font, whose descendant tells."""
    if font.get("/Subtype") in {"/Type0", "/Type3"}:
        return None
    descriptor = font.get("/FontDescriptor")
    return descriptor is not None and any(
        key in descriptor for key in ("/FontFile", "/FontFile2", "/FontFile3")
    )
