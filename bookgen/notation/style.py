"""How engraved music looks: width of the line, height of the staff, family of the text."""

import re
from dataclasses import dataclass
from typing import Final

NARROWEST_LINE_MM: Final = 60.0
WIDEST_LINE_MM: Final = 400.0
LOWEST_STAFF_MM: Final = 4.0
HIGHEST_STAFF_MM: Final = 12.0
FONT_ENDINGS: Final = (".ttf", ".otf")
FAMILY: Final = re.compile(r"[A-Za-z0-9][A-Za-z0-9 -]{0,63}")


@dataclass(frozen=True, slots=True)
class Style:
    """What the engraver must know of the page.

    line_width_mm: room for a full line of music.
    staff_height_mm: from the bottom line of the staff to the top line, middle to middle.
        7.5 is read best (MOLA, Guidelines for Music Preparation, 2017, p. 5).
    text_family: family of numerals and labels; the font files must hold it.
    text_files: paths of that family's font files, .ttf or .otf.
    intervals: whether moves are named below the staff.
    """

    line_width_mm: float
    staff_height_mm: float
    text_family: str
    text_files: tuple[str, ...]
    intervals: bool = True

    def __post_init__(self) -> None:
        """Refuse what cannot be engraved, and a family that would be read as program text.

        Raises:
            ValueError: a measure lies out of its range, the family is no plain name, or a
                file is no font file.
        """
        if not NARROWEST_LINE_MM <= self.line_width_mm <= WIDEST_LINE_MM:
            msg = (
                f"a line of music of {self.line_width_mm} mm cannot be set;"
                f" give {NARROWEST_LINE_MM:g} to {WIDEST_LINE_MM:g}"
            )
            raise ValueError(msg)
        if not LOWEST_STAFF_MM <= self.staff_height_mm <= HIGHEST_STAFF_MM:
            msg = (
                f"a staff of {self.staff_height_mm} mm cannot be read;"
                f" give {LOWEST_STAFF_MM:g} to {HIGHEST_STAFF_MM:g}"
            )
            raise ValueError(msg)
        if FAMILY.fullmatch(self.text_family) is None:
            msg = f"{self.text_family!r} is no font family; use letters, digits, blanks, hyphens"
            raise ValueError(msg)
        for file in self.text_files:
            if not file.endswith(FONT_ENDINGS):
                msg = f"{file!r} is no font file; its name must end in .ttf or .otf"
                raise ValueError(msg)
