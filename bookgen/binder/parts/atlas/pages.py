"""The pages of the fingerboard: every stop by its name, on one page or on two."""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from bookgen.binder.page.canvas import Canvas
from bookgen.binder.page.flow import flow
from bookgen.binder.page.frame import Frame
from bookgen.binder.page.leaf import Leaf, leaves_of
from bookgen.binder.page.piece import FULL, Mark, Opens, Piece, Room, Slot
from bookgen.binder.page.placed import Placed
from bookgen.binder.page.prose import Look, piece_of, words_of
from bookgen.binder.parts.atlas.drawing import draw_atlas
from bookgen.binder.parts.atlas.measured import WHITE_MM, Span, atlas_of, head_mm, key_mm, length_of
from bookgen.binder.parts.chart.scale import STEPS
from bookgen.words import atlas as words
from bookgen.words.drill import scale_words
from bookgen.words.names import played_name


def atlas_leaves(frame: Frame) -> list[Leaf]:
    """The pages of the atlas: one, or two that face each other."""
    desk, speech, title = frame.desk, frame.desk.speech, words.title(frame.desk.speech)
    look, column = Look(desk.layout.text.body_pt), desk.sheet.column

    def intro(per: Fraction) -> Piece:
        played = played_name(desk.instrument, desk.size, speech)
        said = words.intro(played, length_of(desk), scale_words(per, speech), speech)
        over = piece_of([words_of(said, look, column, desk)], WHITE_MM)
        return replace(over, marks=(Mark(title, 0),), keeps=True)

    widest = max(intro(per).height for per in STEPS)
    rest = frame.room - head_mm(desk) - key_mm(desk)
    atlas = atlas_of(desk, [rest - widest, rest])

    def board(page: int, span: Span) -> Piece:
        def draw(canvas: Canvas, slot: Slot) -> Iterator[Placed]:
            draw_atlas(canvas, atlas, span, slot)
            return iter(())

        high = head_mm(desk) + key_mm(desk) + atlas.down(span, span.last)
        return Piece(high, draw, opens=Opens.PAGE if page else Opens.NOTHING, called=title)

    room = Room(1, column, 0.0, frame.room)
    pieces = [intro(atlas.per), *(board(page, span) for page, span in enumerate(atlas.spans))]
    return leaves_of(flow(pieces, lambda _: room, FULL), frame.top, lambda _: title)
