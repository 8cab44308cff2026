"""Where drills stand in a finished book: their blocks by number, and the pages of these."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from bookgen.errors import told
from bookgen.proof.block import Answer, Block, answers_on, blocks_of
from bookgen.proof.fault import Fault
from bookgen.proof.printed import Page


@dataclass(frozen=True, slots=True)
class Found:
    """A page, and the drills that stand on it."""

    page: Page
    blocks: Sequence[Block]
    answers: Sequence[Answer]


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

    @property
    def unread(self) -> frozenset[str]:
        """Signs of which nothing can be said, where all its music has some: another font's."""
        blocks = (block.music for held in self.blocks.values() for block in held)
        answers = (answer.music for held in self.answers.values() for answer in held)
        unknown = [music.unknown for music in (*blocks, *answers) if music is not None]
        return frozenset().union(*unknown) if all(unknown) else frozenset()

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


def found_on(page: Page, numbers: frozenset[int], size: float, strings: int) -> Found:
    """Find the drills of a page.

    numbers: of the book's drills; size: of their type in points; strings: of the instrument.
    """
    blocks = blocks_of(page, numbers, size, strings)
    return Found(page, blocks, () if blocks else [*answers_on(page, numbers)])


def located(found: Sequence[Found]) -> Located:
    """A book of these pages."""
    blocks: dict[int, list[Block]] = {}
    answers: dict[int, list[Answer]] = {}
    for one in found:
        for block in one.blocks:
            blocks.setdefault(block.number, []).append(block)
        for answer in one.answers:
            answers.setdefault(answer.number, []).append(answer)
    return Located([one.page for one in found], blocks, answers)
