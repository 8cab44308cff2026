"""A hard spot on the page: its number, why it is hard, its music and where its fingers stand."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.piece import Mark, Piece, Slot
from bookgen.binder.page.placed import Placed, placed
from bookgen.binder.page.typeset import ASCENT, MM_PER_POINT, line_height, shorten
from bookgen.binder.parts.chart import Chart
from bookgen.binder.parts.chart_drawing import draw_chart
from bookgen.binder.parts.chart_scale import Hand
from bookgen.binder.parts.small_chart import bare_height, has_room, small, small_chart
from bookgen.errors import told
from bookgen.notation.engraved import EngravedDrill, InkBox
from bookgen.plan.passage import Ladder, Passage, Spot
from bookgen.words import passage as headings
from bookgen.words import passage_spots as words

RING_LINE_MM: Final = 0.6
BESIDE_RING_MM: Final = 2.0
LINE_MM: Final = 0.3
BOX_GAP_MM: Final = 1.0
BOX_WORD_MM: Final = 0.8
MUSIC_GAP_MM: Final = 0.6
WORDS_GAP_MM: Final = 3.0
"""The ring's line and the white beside it; of the boxes; around the music; between the two ends of
a line of words."""

HALF_FIGURE: Final = 0.123
"""Half the height of a figure in millimetres, for each point of its size."""


@dataclass(frozen=True, slots=True)
class SpotBlock:
    """A hard spot, measured.

    reason: why it is hard; where: its bars and frames; first: its drills, right of that.
    music: which of the engraving's; chart: None where only open strings sound.
    beside: the chart stands right of the music, else below it.
    """

    number: int
    reason: str
    where: str
    first: str
    music: int
    ink: InkBox
    chart: Chart | None
    beside: bool
    desk: Desk

    @property
    def music_top(self) -> float:
        """From the top to the music."""
        measures = self.desk.layout.passage
        return max(words_mm(self.desk), measures.ring_mm) + MUSIC_GAP_MM

    @property
    def height(self) -> float:
        """Height of all of it."""
        chart = bare_height(self.chart) if self.chart else 0.0
        measures, music = self.desk.layout.passage, self.ink.height * MM_PER_POINT
        boxes = 2 * measures.box_mm + BOX_GAP_MM
        if self.chart is None or self.beside:
            return self.music_top + max(music, chart, boxes)
        return self.music_top + max(music, boxes) + MUSIC_GAP_MM + chart

    def draw(self, canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        """Draw it; tells where its music goes."""
        measures = self.desk.layout.passage
        left, top = slot.left, slot.top
        radius = measures.ring_mm / 2
        centre = (left + radius, top - radius)
        canvas.ring(centre, radius=radius - RING_LINE_MM / 2, width=RING_LINE_MM)
        style = Style(Face.BOLD, measures.number_pt)
        x = centre[0] - canvas.width(str(self.number), style) / 2
        drop = measures.number_pt * HALF_FIGURE
        canvas.text((x, centre[1] - drop), str(self.number), style)
        self.draw_words(canvas, slot)
        self.draw_boxes(canvas, left, top - self.music_top)
        yield placed(slot.page, self.music, (left + music_left(self.desk), top - self.music_top))
        if self.chart is not None:
            x, y = left + slot.width - self.chart.width, top - self.music_top
            if not self.beside:
                x = left + music_left(self.desk)
                y = top - self.height + bare_height(self.chart)
            draw_chart(canvas, self.chart, small(self.desk), x, y)

    def draw_words(self, canvas: Canvas, slot: Slot) -> None:
        """Why it is hard; below it where it is, and its drills at the right."""
        measures = self.desk.layout.passage
        left = slot.left + measures.ring_mm + BESIDE_RING_MM
        baseline = slot.top - measures.reason_pt * ASCENT * MM_PER_POINT
        canvas.text((left, baseline), self.reason, Style(Face.BOLD, measures.reason_pt))
        baseline -= line_height(measures.told_pt, self.desk.layout.text.leading)
        plain = Style(Face.REGULAR, measures.told_pt)
        slanted = Style(Face.ITALIC, measures.told_pt)
        canvas.text((left, baseline), self.where, plain)
        right = slot.left + slot.width - canvas.width(self.first, slanted)
        canvas.text((right, baseline), self.first, slanted)

    def draw_boxes(self, canvas: Canvas, left: float, top: float) -> None:
        """One box for evenly, one for in rhythm."""
        measures = self.desk.layout.passage
        style = Style(Face.ITALIC, measures.told_pt)
        side = measures.box_mm
        for row, letter in enumerate(words.box_letters(self.desk.speech)):
            bottom = top - side - row * (side + BOX_GAP_MM)
            canvas.box((left + LINE_MM / 2, bottom), (side, side), width=LINE_MM)
            baseline = bottom + side / 2 - measures.told_pt * HALF_FIGURE / 2
            canvas.text((left + side + BOX_WORD_MM, baseline), letter, style)


def words_mm(desk: Desk) -> float:
    """Height of the two lines of words."""
    measures = desk.layout.passage
    first = measures.reason_pt * ASCENT * MM_PER_POINT
    return first + line_height(measures.told_pt, desk.layout.text.leading)


def music_left(desk: Desk) -> float:
    """Where a spot's music begins: right of the boxes and their letters."""
    measures = desk.layout.passage
    wide = max(
        desk.fonts.width(letter, Style(Face.ITALIC, measures.told_pt))
        for letter in words.box_letters(desk.speech)
    )
    return measures.box_mm + BOX_WORD_MM + wide + BOX_WORD_MM


def music_mm(desk: Desk, width: float) -> float:
    """The most width of a spot's music in a block of that width."""
    return width - music_left(desk)


def fitting(ways: Iterable[str], room: float, style: Style, desk: Desk) -> str:
    """The first way to say something that has room; else as much of the last one as has."""
    found = list(ways)
    fits = (way for way in found if desk.fonts.width(way, style) <= room)
    return next(fits, shorten(found[-1], room, style, desk.fonts) if found else "")


def block_of(
    spot: Spot,
    ladder: Ladder,
    labels: Sequence[str],
    passage: Passage,
    music: tuple[int, EngravedDrill],
    desk: Desk,
    width: float,
) -> SpotBlock:
    """Measure a spot's block.

    labels: of its drills; music: which of the engraving's, and its ink.
    """
    measures, speech = desk.layout.passage, desk.speech
    room = width - measures.ring_mm - BESIDE_RING_MM
    bold = Style(Face.BOLD, measures.reason_pt)
    slanted, plain = (Style(face, measures.told_pt) for face in (Face.ITALIC, Face.REGULAR))
    ways = list(words.where(spot, passage, speech))
    least = desk.fonts.width(ways[-1], plain) + WORDS_GAP_MM
    drills = words.first_drills(ladder, labels, speech)
    first = fitting(drills, max(room - least, room / 3), slanted, desk)
    left = room - desk.fonts.width(first, slanted) - WORDS_GAP_MM
    index, engraved = music
    hand = hand_of_spot(spot, passage)
    beside = music_mm(desk, width) - engraved.box.width * MM_PER_POINT - 2 * MUSIC_GAP_MM
    chart, stands_beside = charted(hand, desk, beside, width)
    return SpotBlock(
        number=spot.number,
        reason=fitting(words.reasons(spot, passage, speech), room, bold, desk),
        where=fitting(ways, left, plain, desk),
        first=first,
        music=index,
        ink=engraved.box,
        chart=chart,
        beside=stands_beside,
        desk=desk,
    )


def hand_of_spot(spot: Spot, passage: Passage) -> Hand | None:
    """Where the fingers of a spot stand; of one with a shift, where it arrives."""
    sounds = passage.best.placed[spot.first : spot.last + 1]
    places = [one.hand.place for one in sounds if one.hand is not None]
    stops = dict.fromkeys(
        stop
        for one in sounds
        if one.hand is not None and one.hand.place == places[-1]
        for stop in one.stops
        if stop is not None and stop.finger
    )
    return Hand(tuple(stops), {}) if stops else None


def charted(
    hand: Hand | None, desk: Desk, beside: float, width: float
) -> tuple[Chart | None, bool]:
    """The chart of a spot's hand, and whether it stands beside the music.

    beside: room there; width: of the block, in millimetres.
    """
    if hand is None:
        return None, True
    own, narrow = small(desk), desk.layout.passage.spot_chart_mm
    for room in (narrow, beside):
        if room <= beside and has_room(hand, own, room):
            return small_chart(hand, own, room), True
    return small_chart(hand, own, min(width - music_left(desk), 2 * narrow)), False


def spot_pieces(
    passage: Passage,
    labels: Sequence[Sequence[str]],
    music: Sequence[tuple[int, EngravedDrill]],
    desk: Desk,
    width: float,
) -> list[Piece]:
    """The hard spots in the order of the passage.

    labels: of each spot's drills; music: of each; width: of a column.
    """
    head = headings.headings(desk.speech)["spots"]
    pieces = []
    ladders = [ladder for ladder in passage.ladders if ladder.spot]
    for spot, ladder, own, played in zip(passage.spots, ladders, labels, music, strict=True):
        block = block_of(spot, ladder, own, passage, played, desk, width)
        called = told("spot {number}", number=spot.number)
        marks = (*([Mark(head, 0)] if spot.number == 1 else []), Mark(outline(block), 1))
        pieces.append(
            Piece(
                block.height,
                block.draw,
                above=desk.layout.flow.between_mm,
                ruled=True,
                marks=marks,
                running=head,
                signs=frozenset({"spot"}),
                called=called,
            )
        )
    return pieces


def outline(block: SpotBlock) -> str:
    """A spot in the outline."""
    return f"{block.number} · {block.reason}"
