"""Which font has a character: the text face first, then the face with the signs."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from hashlib import sha256
from itertools import groupby
from pathlib import Path
from typing import Final

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import ShapedStr, TTFont, shapeStr

from bookgen.binder.page.canvas import Face, Style
from bookgen.binder.page.layout import FontFiles
from bookgen.binder.page.order import in_visual_order, joins

POINTS_PER_MM: Final = 72 / 25.4
SHAPED_PT: Final = 10
"""Letters are shaped alike at all sizes."""

REPLACEMENT: Final = "\N{WHITE SQUARE}"
"""Printed for a character that no face has."""


class MissingGlyphError(ValueError):
    """Our own wording holds a character that no face has: a defect of ours."""


@dataclass(frozen=True, slots=True)
class Run:
    """A piece of text in one font, as it stands from left to right.

    font: ReportLab's name; width: in points, of type of one point.
    """

    font: str
    text: str
    width: float


Words = tuple[str, Face]
MEASURED: Final[
    dict[tuple[TTFont, ...], tuple[dict[Words, tuple[Run, ...]], dict[Words, float]]]
] = {}
"""By the faces: texts cut into runs, and how wide they are. Books share most of their words."""


class Fonts:
    """The faces of a layout, ready to measure and to draw with ReportLab."""

    def __init__(self, files: FontFiles) -> None:
        """Load the faces and make them known to ReportLab, which knows fonts by name only."""
        signs, bold_signs = load(Path(files.signs)), load(Path(files.signs_bold))
        self.chains: Mapping[Face, Sequence[TTFont]] = {
            Face.REGULAR: (load(Path(files.regular)), signs),
            Face.BOLD: (load(Path(files.bold)), bold_signs),
            Face.ITALIC: (load(Path(files.italic)), signs),
        }
        for chain in self.chains.values():
            for font in chain:
                pdfmetrics.registerFont(font)
        faces = tuple(font for chain in self.chains.values() for font in chain)
        self.known, self.widths = MEASURED.setdefault(faces, ({}, {}))

    @property
    def first(self) -> str:
        """ReportLab's name of the ordinary face."""
        return str(self.chains[Face.REGULAR][0].fontName)

    def runs(self, text: str, face: Face) -> tuple[Run, ...]:
        """Cut a text into pieces of one font each; letters that join are shaped.

        Raises:
            MissingGlyphError: no face has the character.
        """
        key = (text, face)
        if key not in self.known:
            self.known[key] = tuple(self.cut(text, face))
        return self.known[key]

    def cut(self, text: str, face: Face) -> Iterator[Run]:
        """The pieces of a text that was not met before.

        Raises:
            MissingGlyphError: no face has the character.
        """
        line = in_visual_order(text)
        for (font, joined), letters in groupby(
            line, key=lambda character: (self.font_of(character, face), joins(character))
        ):
            piece = "".join(letters)
            if joined:
                piece = shapeStr(piece[::-1], font, SHAPED_PT)
            yield Run(font, piece, advance(piece, font))

    def font_of(self, character: str, face: Face) -> str:
        """Name of the first font of the face's chain that has the character.

        Raises:
            MissingGlyphError: no face has the character.
        """
        for font in self.chains[face]:
            if ord(character) in font.face.charToGlyph:
                return str(font.fontName)
        msg = f"no font has {character!r} (U+{ord(character):04X})"
        raise MissingGlyphError(msg)

    def has(self, character: str) -> bool:
        """Every cut can print the character, if need be with the signs' face."""
        return all(
            any(ord(character) in font.face.charToGlyph for font in chain)
            for chain in self.chains.values()
        )

    def width(self, text: str, style: Style) -> float:
        """How wide the text runs, in millimetres."""
        key = (text, style.face)
        if key not in self.widths:
            self.widths[key] = sum(run.width for run in self.runs(*key))
        return self.widths[key] * style.size / POINTS_PER_MM


def advance(piece: str, font: str) -> float:
    """How wide a piece runs at one point; that of joined letters as they were shaped."""
    if isinstance(piece, ShapedStr):
        return sum(float(glyph.x_advance) for glyph in piece.__shapeData__) / 1000
    return float(pdfmetrics.stringWidth(piece, font, 1))


def load(path: Path) -> TTFont:
    """Read a TrueType file.

    Its name in ReportLab tells its contents: two layouts may have files of one name, and a file
    may change while we run.
    """
    return loaded(path, sha256(path.read_bytes()).hexdigest()[:12])


@cache
def loaded(path: Path, contents: str) -> TTFont:
    """Read a TrueType file with these contents, once."""
    return TTFont(f"{path.stem}-{contents}", str(path))
