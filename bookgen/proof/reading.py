"""A PDF file as printed pages, read by a library that had no part in making it."""

import ctypes
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Final, Protocol

import msgspec
import pypdfium2
from pypdfium2 import raw

from bookgen.proof.printed import Box, Page, Run, Shape, around

LONGEST_NAME: Final = 200
"""Bytes of a font's name."""

DARK: Final = 128
"""Of 255 steps from black to white."""

HYPHEN: Final = "\x02"
"""What the library gives for a hyphen at the end of a line."""


class Thing(Protocol):
    """Something that is drawn, as the library keeps it."""

    contents: ctypes.Structure


NOWHERE: Final = Box(0.0, 0.0, 0.0, 0.0)

Matrix = tuple[float, float, float, float, float, float]
UNMOVED: Final[Matrix] = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


def count_pages(pdf: bytes) -> int:
    """How many pages a file has."""
    with pypdfium2.PdfDocument(pdf) as document:
        return len(document)


def read_pages(pdf: bytes, pages: Iterable[int]) -> Iterator[Page]:
    """Some pages of a file; pages: from 0."""
    with pypdfium2.PdfDocument(pdf) as document:
        for at in pages:
            yield read_page(document, at)


def trim_of(pdf: bytes, at: int = 0) -> Box:
    """A page as it is cut; at: from 0."""
    with pypdfium2.PdfDocument(pdf) as document:
        return Box(*document[at].get_trimbox())


def read_page(document: pypdfium2.PdfDocument, at: int) -> Page:
    """One page.

    at: from 0.
    """
    page = document[at]
    reader = Reader()
    for index in range(raw.FPDFPage_CountObjects(page)):
        reader.take(raw.FPDFPage_GetObject(page, index), UNMOVED, None)
    words = page.get_textpage()
    runs = tuple(reader.runs(words))
    words.close()
    page.close()
    label = document.get_page_label(at)
    return Page(label, runs, tuple(reader.shapes), tuple(reader.music))


class Type(msgspec.Struct, frozen=True, gc=False):
    """How characters are set that are drawn together.

    order: when, among all that is drawn; white, box: of words alone, in music each letter is asked.
    """

    order: int
    face: str
    white: bool
    box: Box
    music: int | None


@dataclass
class Reader:
    """Gathers what is drawn on a page; types: by where the library keeps the drawn thing."""

    types: dict[int, Type] = field(default_factory=dict)
    shapes: list[Shape] = field(default_factory=list)
    music: list[Box] = field(default_factory=list)

    def take(self, thing: Thing, moved: Matrix, music: int | None) -> None:
        """Take a thing and all that is in it.

        moved: from its own measure to the page's; music: in which piece of music it lies.
        """
        kind = raw.FPDFPageObj_GetType(thing)
        if kind == raw.FPDF_PAGEOBJ_FORM:
            if music is None:
                music = len(self.music)
                self.music.append(box_of(thing, moved))
            inner = joined(matrix_of(thing), moved)
            for index in range(raw.FPDFFormObj_CountObjects(thing)):
                self.take(raw.FPDFFormObj_GetObject(thing, index), inner, music)
        elif kind == raw.FPDF_PAGEOBJ_TEXT:
            box = box_of(thing, moved) if music is None else NOWHERE
            white = music is None and not is_dark(thing)
            own = Type(len(self.types), face_of(thing), white, box, music)
            self.types[address(thing)] = own
        elif kind == raw.FPDF_PAGEOBJ_PATH:
            self.shapes.append(shape_of(thing, box_of(thing, moved), music))

    def runs(self, words: pypdfium2.PdfTextPage) -> Iterator[Run]:
        """The characters of the page in the order in which they are drawn."""
        last: list[Letter] = []
        for here in sorted(self.letters(words), key=lambda letter: letter.type.order):
            if last and here.apart(last[-1]):
                yield run_of(last)
                last = []
            last.append(here)
        if last:
            yield run_of(last)

    def letters(self, words: pypdfium2.PdfTextPage) -> Iterator["Letter"]:
        """The characters one by one, as the library believes that they are read.

        Of words that are set together only the first letter's place is asked for.
        """
        firsts: dict[int, Letter] = {}
        for index in range(raw.FPDFText_CountChars(words)):
            thing = raw.FPDFText_GetTextObject(words, index)
            letter = chr(raw.FPDFText_GetUnicode(words, index)).replace(HYPHEN, "-")
            if not thing:  # a space or a new line that the library has put in
                continue
            own = self.types[address(thing)]
            first = firsts.get(own.order)
            if own.music is None and first is not None:
                yield Letter(letter, first.x, first.y, first.size, own, own.box)
            elif own.music is None or not letter.isspace():
                size = size_of(words, index) if first is None else first.size
                firsts[own.order] = letter_of(words, index, letter, size, own)
                yield firsts[own.order]


class Letter(msgspec.Struct, frozen=True, gc=False):
    """A character: where it begins, how large it is, and where its ink lies."""

    text: str
    x: float
    y: float
    size: float
    type: Type
    box: Box

    def apart(self, last: "Letter") -> bool:
        """Whether it is drawn by itself, or far from the last one: music is drawn so."""
        if self.type is not last.type or max(self.text, last.text) >= SIGN:
            return True
        far = FAR * self.size
        return self.type.music is not None and (
            abs(self.box.left - last.box.right) > far or abs(self.y - last.y) > far
        )


SIGN: Final = "\ue000"
"""Signs of music have no place among letters (The Unicode Standard, private use area)."""

FAR: Final = 0.3
"""White between two letters of one word, at most, in sizes of the type."""


def letter_of(
    words: pypdfium2.PdfTextPage, index: int, text: str, size: float, own: Type
) -> Letter:
    """A character of the page; the ink of one letter is looked for in music alone."""
    x, y = ctypes.c_double(), ctypes.c_double()
    raw.FPDFText_GetCharOrigin(words, index, x, y)
    if own.music is None:
        return Letter(text, x.value, y.value, size, own, own.box)
    left, right, bottom, top = (ctypes.c_double() for _ in range(4))
    raw.FPDFText_GetCharBox(words, index, left, right, bottom, top)
    box = Box(left.value, bottom.value, right.value, top.value)
    return Letter(text, x.value, y.value, size, own, box)


def run_of(letters: Sequence[Letter]) -> Run:
    """Letters that are set together."""
    first = letters[0]
    text = "".join(letter.text for letter in letters)
    box = around({letter.box for letter in letters})
    own = first.type
    return Run(text, first.x, first.y, first.size, own.face, own.white, box, own.music)


def address(thing: Thing) -> int:
    """Where the library keeps a thing: the same for the same thing."""
    return ctypes.addressof(thing.contents)


def box_of(thing: Thing, moved: Matrix) -> Box:
    """Where a thing lies on the page."""
    left, bottom, right, top = (ctypes.c_float() for _ in range(4))
    raw.FPDFPageObj_GetBounds(thing, left, bottom, right, top)
    x1, y1 = placed(left.value, bottom.value, moved)
    x2, y2 = placed(right.value, top.value, moved)
    return Box(min(x1, x2), min(y1, y2), max(x1, x2), max(y1, y2))


def placed(x: float, y: float, by: Matrix) -> tuple[float, float]:
    """A point in the measure of what holds it (ISO 32000-1, 8.3.3)."""
    return x * by[0] + y * by[2] + by[4], x * by[1] + y * by[3] + by[5]


def joined(one: Matrix, then: Matrix) -> Matrix:
    """Two changes of measure, one after the other."""
    a, b = placed(one[0], one[1], (*then[:4], 0.0, 0.0))
    c, d = placed(one[2], one[3], (*then[:4], 0.0, 0.0))
    return (a, b, c, d, *placed(one[4], one[5], then))


def matrix_of(thing: Thing) -> Matrix:
    """From the measure inside of a form to that of what holds it."""
    found = raw.FS_MATRIX()
    raw.FPDFPageObj_GetMatrix(thing, found)
    return found.a, found.b, found.c, found.d, found.e, found.f


def face_of(thing: Thing) -> str:
    """The name of the type in which characters are set, without the letters of a subset."""
    name = ctypes.create_string_buffer(LONGEST_NAME)
    raw.FPDFFont_GetBaseFontName(raw.FPDFTextObj_GetFont(thing), name, LONGEST_NAME)
    return name.value.decode(errors="replace").rpartition("+")[2]


def is_dark(thing: Thing) -> bool:
    """Whether it is filled in black rather than in white."""
    red, green, blue, opacity = (ctypes.c_uint() for _ in range(4))
    raw.FPDFPageObj_GetFillColor(thing, red, green, blue, opacity)
    return red.value < DARK


def size_of(words: pypdfium2.PdfTextPage, index: int) -> float:
    """The size of a character on the page."""
    found = raw.FS_MATRIX()
    raw.FPDFText_GetMatrix(words, index, found)
    size: float = raw.FPDFText_GetFontSize(words, index) * abs(found.d or found.b)
    return size


def shape_of(thing: Thing, box: Box, music: int | None) -> Shape:
    """A line or an area."""
    fill, stroked = ctypes.c_int(), ctypes.c_int()
    raw.FPDFPath_GetDrawMode(thing, fill, stroked)
    thick = ctypes.c_float()
    if stroked.value:
        raw.FPDFPageObj_GetStrokeWidth(thing, thick)
    filled = bool(fill.value)
    dark = filled and is_dark(thing)
    return Shape(box, thick.value, dark, filled and not dark, music)
