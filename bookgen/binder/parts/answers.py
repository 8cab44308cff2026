"""The answers of a booklet that is played from memory: the notation of each drill, by number."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.piece import Mark, Piece, Slot
from bookgen.binder.page.placed import Placed
from bookgen.binder.page.prose import Look, Words, words_of
from bookgen.binder.parts.pictures import Picture
from bookgen.binder.structure.tag import head
from bookgen.plan.document import DrillEntry
from bookgen.words.front import answers_title

BELOW_NUMBER_MM: Final = 0.6


@dataclass(frozen=True, slots=True)
class Answer:
    """A drill's number over its staff."""

    number: Words
    music: Picture

    @property
    def height(self) -> float:
        """Height in millimetres."""
        return self.number.height + BELOW_NUMBER_MM + self.music.height

    def draw(self, canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        """Draw the number.

        Yields:
            Where the music goes.
        """
        self.number.draw(canvas, slot.left, slot.top)
        top = slot.top - self.number.height - BELOW_NUMBER_MM
        yield from self.music.draw(canvas, replace(slot, top=top))


def answer_pieces(
    entries: Sequence[DrillEntry], music: Sequence[Picture], desk: Desk
) -> Iterator[Piece]:
    """A piece for each answer.

    music: of each drill.
    """
    title = answers_title(desk.speech)
    look = Look(desk.layout.text.title_pt, Face.BOLD)
    flow = desk.layout.flow
    for place, (entry, picture) in enumerate(zip(entries, music, strict=True)):
        number = str(entry.number)
        answer = Answer(words_of(number, look, picture.width, desk, head(1)), picture)
        yield Piece(
            answer.height,
            answer.draw,
            above=flow.between_mm,
            ruled=True,
            most_extra=flow.most_extra_mm,
            marks=() if place else (Mark(title, 0),),
            running=title,
            signs=picture.signs,
            called=number,
        )
