"""Where drills stand in a finished book: their blocks by number, and the pages of these."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from bookgen.errors import told
from bookgen.proof.block import Answer, Block, answers_on, blocks_of
from bookgen.proof.fault import Fault
from bookgen.proof.printed import Page


@dataclass(frozen=True, slots=True)
class Located:
    """What stands where; pages: of the file, in their order."""

    pages: Sequence[Page]
    blocks: Mapping[int, Sequence[Block]]
    answers: Mapping[int, Sequence[Answer]]

    def label(self, number: int) -> str:
        """The page of a drill as printed; nothing where it stands on none."""
        return next((block.page.label for block in self.blocks.get(number, ())), "")

    def at(self, number: int) -> int:
        """The page of a drill in the file, from 0; -1 where it stands on none."""
        return next((self.pages.index(block.page) for block in self.blocks.get(number, ())), -1)

    def faults(self, numbers: Sequence[int]) -> Iterator[Fault]:
        """Drills that are missing, and those that stand there more than once."""
        for number in numbers:
            blocks = self.blocks.get(number, ())
            if not blocks:
                yield Fault(told("the drill is missing"), drill=number)
            elif len(blocks) > 1:
                on = ", ".join(block.page.label for block in blocks[1:])
                problem = told("the drill stands again on page {pages}", pages=on)
                yield Fault(problem, blocks[0].page.label, number)


def located(pages: Sequence[Page], numbers: frozenset[int], size: float, strings: int) -> Located:
    """Find the drills of a book.

    numbers: of its drills; size: of their type in points; strings: of the instrument.
    """
    blocks: dict[int, list[Block]] = {}
    answers: dict[int, list[Answer]] = {}
    for page in pages:
        found = blocks_of(page, numbers, size, strings)
        for block in found:
            blocks.setdefault(block.number, []).append(block)
        for answer in () if found else answers_on(page, numbers):
            answers.setdefault(answer.number, []).append(answer)
    return Located(pages, blocks, answers)
