"""What is wrong in a finished book, as facts: the page, the drill, and what stands there."""

from dataclasses import dataclass
from typing import Final

from bookgen.errors import Finding, Message, Said, told

MEND: Final = told(
    "this is a defect of bookgen, nothing is written: report it with the spec, and leave the"
    " edition out by --only meanwhile"
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
