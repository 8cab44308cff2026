"""Which font has a character: the text face first, then the face with the signs."""

from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from itertools import groupby
from pathlib import Path
from typing import Final

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

from bookgen.binder.canvas import Face, Style
from bookgen.binder.layout import FontFiles

POINTS_PER_MM: Final = 72 / 25.4
REPLACEMENT: Final = "\N{WHITE SQUARE}"
"""Printed for a character that no face has."""


class MissingGlyphError(ValueError):
    """Our own wording holds a character that no face has: a defect of ours."""


class Fonts:
    """The faces of a layout, ready to measure and to draw with ReportLab."""

    def __init__(self, files: FontFiles) -> None:
        """Load the faces and make them known to ReportLab.

        ReportLab knows fonts by name only, so each is registered under its file's name.
        """
        signs, bold_signs = load(files.signs), load(files.signs_bold)
        self.chains: Mapping[Face, Sequence[TTFont]] = {
            Face.REGULAR: (load(files.regular), signs),
            Face.BOLD: (load(files.bold), bold_signs),
            Face.ITALIC: (load(files.italic), signs),
        }
        for chain in self.chains.values():
            for font in chain:
                pdfmetrics.registerFont(font)

    @property
    def first(self) -> str:
        """ReportLab's name of the ordinary face."""
        return str(self.chains[Face.REGULAR][0].fontName)

    def runs(self, text: str, face: Face) -> Iterator[tuple[str, str]]:
        """Cut a text into pieces of one font each: the font's name and the piece.

        Raises:
            MissingGlyphError: no face has the character.
        """
        for font, piece in groupby(text, key=lambda character: self.font_of(character, face)):
            yield font, "".join(piece)

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
        points = sum(
            float(pdfmetrics.stringWidth(piece, font, style.size))
            for font, piece in self.runs(text, style.face)
        )
        return points / POINTS_PER_MM


@cache
def load(path: Path) -> TTFont:
    """Read a TrueType file; its name in ReportLab is the file's."""
    return TTFont(path.stem, str(path))
