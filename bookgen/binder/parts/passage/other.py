"""Another way to finger some bars of a passage, and what the pages leave out."""

from collections.abc import Iterator

from bookgen.binder.page.canvas import Canvas
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.piece import Piece, Slot
from bookgen.binder.page.placed import Placed, placed
from bookgen.binder.page.prose import Look, draw_words, height_of, pieces_of, words_of
from bookgen.binder.page.typeset import MM_PER_POINT
from bookgen.binder.parts.passage.frames import drawn_frames, frames_of
from bookgen.binder.structure.tag import Role, Tag, head
from bookgen.notation.engraved import EngravedDrill
from bookgen.plan.passage import Passage
from bookgen.plan.passage_facts import bars_of
from bookgen.plan.passage_other import Instead
from bookgen.words import passage as words
from bookgen.words import passage_other
from bookgen.words.pictures import bars_words


def other_way(
    instead: Instead, index: int, music: EngravedDrill, passage: Passage, desk: Desk, width: float
) -> Piece:
    """Another way: what it saves and costs, and below that its music.

    index: which of the engraving's the music is; width: of a column.
    """
    speech, text = desk.speech, desk.layout.text
    bars = bars_of(instead.first, instead.last, passage.best, passage.phrase)
    title = passage_other.another_way(words.where_name(bars, speech), speech)
    said = [
        words_of(title, Look(desk.layout.passage.reason_pt), width, desk, head(1)),
        words_of(passage_other.compared(instead, speech), Look(text.body_pt), width, desk),
    ]
    over = height_of(said) + desk.layout.passage.music_gap_mm

    def heard() -> str:
        fingering = passage.other or passage.best
        run = instead.first, instead.last
        return bars_words(fingering, passage.phrase, *run, said[0].plain, speech)

    def draw(canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        draw_words(canvas, said, slot.left, slot.top)
        yield placed(slot.page, index, (slot.left, slot.top - over), Tag(Role.FIGURE, alt=heard))

    height = over + music.box.height * MM_PER_POINT
    above = desk.layout.flow.between_mm
    signs = frozenset({"frame"})
    return Piece(height, draw, above=above, ruled=True, signs=signs, called=said[0].plain)


def left_out(passage: Passage, desk: Desk, width: float) -> list[Piece]:
    """What the pages leave out, and why; nothing where that is nothing.

    width: of a column.
    """
    hidden = len(frames_of(passage)) - len(drawn_frames(passage))
    look = Look(desk.layout.text.small_pt, above=desk.layout.passage.text_above_mm)
    return pieces_of([" ".join(words.left_out(passage, hidden, desk.speech))], look, width, desk)
