"""What is wrong in a finished book, as facts: the page, the drill, and what stands there."""

from dataclasses import dataclass
from typing import Final

from bookgen.errors import Finding, Message, Said, told

MEND: Final = told(
    "this is a defect of bookgen, nothing is written: report it with the spec, and leave the"
    " edition out by --only meanwhile"
)

KNOWN_LILYPOND: Final = "2.24.3"
"""The engraver whose signs the proof knows."""


def unread(file: str, signs: frozenset[str]) -> Finding:
    """That the music of a book cannot be read back; signs: those that are not known."""
    numbers = " ".join(f"U+{ord(sign):04X}" for sign in sorted(signs))
    problem = told(
        "its music is not proved: the signs {signs} are those of another LilyPond", signs=numbers
    )
    return Finding(
        file, problem, told("look at the notes, or engrave with {version}", version=KNOWN_LILYPOND)
    )


@dataclass(frozen=True, slots=True)
class Fault:
    """Something in the book is not as the plan has it.

    page: its number as printed; empty where it is about the whole book; drill: its number.
    """

    problem: Message
    page: str = ""
    drill: int | None = None

    def finding(self, file: str) -> Finding:
        """The fault as it is told."""
        place: Said = file
        if self.page:
            place = told("{file}, page {page}", file=file, page=self.page)
        if self.drill is not None:
            place = told("{place}, drill {number}", place=place, number=self.drill)
        return Finding(place, self.problem, MEND)
