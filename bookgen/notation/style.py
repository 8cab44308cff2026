"""How engraved music looks: height of the staff, family and sizes of the text, white."""

import re
from dataclasses import dataclass
from math import isfinite
from typing import Final

from bookgen.errors import RefusedError
from bookgen.words.marks import ENGLISH_MARKS, Marks

LOWEST_STAFF_MM: Final = 4.0
HIGHEST_STAFF_MM: Final = 16.0
SIZES: Final = (
    *("finger", "word", "numeral", "spacing", "finger_padding"),
    *("word_gap", "move_gap", "shortest_move", "move_baseline"),
)
"""The style's numbers, as its fields are called."""

FONT_ENDINGS: Final = (".ttf", ".otf")
FAMILY: Final = re.compile(r"[A-Za-z0-9][A-Za-z0-9 -]{0,63}")


@dataclass(frozen=True, slots=True)
class Style:
    """What the engraver must know of the page. Sizes of type are LilyPond's font-size steps.

    staff_height_mm: from the bottom line of the staff to the top line, middle to middle.
        7.5 is read best (MOLA, Guidelines for Music Preparation, 2017, p. 5).
    text_family: family of numerals and labels; the font files must hold it.
    text_files: paths of that family's font files, .ttf or .otf.
    finger, word, numeral: sizes of finger numbers, of words below the staff, of the strings'
        numerals.
    spacing: LilyPond's spacing-increment; the others are staff spaces too: finger_padding around
        finger numbers, word_gap beside a word below the staff, move_gap from a note's middle to
        its bracket, shortest_move of a bracket, move_baseline of the words below it.
    intervals: moves are named below the staff; rings: notes that ring along have their mark.
    marks: how intervals and steps are marked.
    """

    staff_height_mm: float
    text_family: str
    text_files: tuple[str, ...]
    finger: float = -3.0
    word: float = -1.5
    numeral: float = -1.5
    spacing: float = 1.6
    finger_padding: float = 0.65
    word_gap: float = 0.55
    move_gap: float = 0.95
    shortest_move: float = 3.4
    move_baseline: float = -1.75
    intervals: bool = True
    rings: bool = True
    marks: Marks = ENGLISH_MARKS

    def __post_init__(self) -> None:
        """Refuse what cannot be engraved, and a family that would be read as program text.

        Raises:
            RefusedError: the staff is out of range, a size is no number, the family is no plain
                name, or a file is no font file.
        """
        if not LOWEST_STAFF_MM <= self.staff_height_mm <= HIGHEST_STAFF_MM:
            raise RefusedError(
                "style-staff",
                staff=self.staff_height_mm,
                least=LOWEST_STAFF_MM,
                most=HIGHEST_STAFF_MM,
            )
        for name in SIZES:
            if not isfinite(getattr(self, name)):
                raise RefusedError("style-size", name=name)
        if FAMILY.fullmatch(self.text_family) is None:
            raise RefusedError("style-family", family=self.text_family)
        for file in self.text_files:
            if not file.endswith(FONT_ENDINGS):
                raise RefusedError("style-font", file=file)
