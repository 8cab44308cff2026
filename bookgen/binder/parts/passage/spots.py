"""A hard spot on the page: its number, why it is hard, its music and where its fingers stand."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from bookgen.binder.page.canvas import Canvas, Face, Style
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.piece import Mark, Piece, Slot
from bookgen.binder.page.placed import Placed, placed
from bookgen.binder.page.prose import Look, Words, draw_words, height_of, words_of
from bookgen.binder.page.typeset import ASCENT, MM_PER_POINT
from bookgen.binder.parts.chart.drawing import chart_tag, draw_chart
from bookgen.binder.parts.chart.hand import Hand
from bookgen.binder.parts.chart.measured import Chart
from bookgen.binder.parts.chart.small import bare_height, has_room, small, small_chart
from bookgen.binder.structure.tag import ARTIFACT, Role, Tag, head, paragraph
from bookgen.errors import told
from bookgen.notation.engraved import EngravedDrill, InkBox
from bookgen.plan.passage import Ladder, Passage, Spot
from bookgen.words import passage as headings
from bookgen.words import passage_spots as words
from bookgen.words.pictures import bars_words

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

    said: why it is hard, its bars and frames, and its drills where these have no room beside them.
    first: its drills, right of the last line, or empty.
    music: which of the engraving's; chart: None where only open strings sound.
    beside: the chart stands right of the music, else below it; heard: the music in words.
    """

    number: int
    said: tuple[Words, ...]
    first: str
    music: int
    ink: InkBox
    chart: Chart | None
    beside: bool
    desk: Desk
    heard: Callable[[], str]

    @property
    def music_top(self) -> float:
        """From the top to the music."""
        measures = self.desk.layout.passage
        return max(height_of(self.said), measures.ring_mm) + MUSIC_GAP_MM

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
        with canvas.tagged(ARTIFACT):
            canvas.ring(centre, radius=radius - RING_LINE_MM / 2, width=RING_LINE_MM)
        style = Style(Face.BOLD, measures.number_pt)
        x = centre[0] - canvas.width(str(self.number), style) / 2
        drop = measures.number_pt * HALF_FIGURE
        with canvas.tagged(self.said[0].tag):
            canvas.text((x, centre[1] - drop), str(self.number), style)
        self.draw_words(canvas, slot)
        with canvas.tagged(ARTIFACT):
            self.draw_boxes(canvas, left, top - self.music_top)
        corner = (left + music_left(self.desk), top - self.music_top)
        yield placed(slot.page, self.music, corner, Tag(Role.FIGURE, alt=self.heard))
        if self.chart is not None:
            x, y = left + slot.width - self.chart.width, top - self.music_top
            if not self.beside:
                x = left + music_left(self.desk)
                y = top - self.height + bare_height(self.chart)
            tag = chart_tag(self.chart, self.desk, x, y, outline(self))
            draw_chart(canvas, self.chart, small(self.desk), x, y, tag)

    def draw_words(self, canvas: Canvas, slot: Slot) -> None:
        """Why it is hard; below it where it is, and its drills at the right."""
        measures = self.desk.layout.passage
        left = slot.left + measures.ring_mm + BESIDE_RING_MM
        bottom = draw_words(canvas, self.said, left, slot.top)
        style, step = Style(Face.ITALIC, measures.told_pt), self.said[-1].step
        right = slot.left + slot.width - canvas.width(self.first, style)
        baseline = bottom + step - measures.told_pt * ASCENT * MM_PER_POINT
        with canvas.tagged(paragraph()):
            canvas.text((right, baseline), self.first, style)

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


def fitting(ways: Iterable[str], room: float, style: Style, desk: Desk) -> str | None:
    """The first way to say something that has room on a line; None where none has."""
    return next((way for way in ways if desk.fonts.width(way, style) <= room), None)


def said_of(
    spot: Spot,
    ladder: Ladder,
    labels: Sequence[str],
    passage: Passage,
    desk: Desk,
    room: float,
    depth: int,
) -> tuple[tuple[Words, ...], str]:
    """The words of a spot in lines, and its drills where they stand beside the last one.

    room: for them, in millimetres; depth: of the first as a head.
    """
    measures, speech = desk.layout.passage, desk.speech
    why = Look(measures.reason_pt, Face.BOLD)
    plain, slanted = Look(measures.told_pt), Look(measures.told_pt, Face.ITALIC)
    reasons = words.reasons(spot, passage, speech)
    reason = fitting(reasons, room, Style(why.face, why.size), desk) or reasons[-1]
    places = list(words.where(spot, passage, speech))
    drills = list(words.first_drills(ladder, labels, speech))
    for first in drills:
        left = room - WORDS_GAP_MM - desk.fonts.width(first, Style(slanted.face, slanted.size))
        place = fitting(places, left, Style(plain.face, plain.size), desk)
        if place is not None:
            over = words_of(reason, why, room, desk, head(depth))
            return (over, words_of(place, plain, room, desk)), first
    place = fitting(places, room, Style(plain.face, plain.size), desk) or places[-1]
    over = words_of(reason, why, room, desk, head(depth))
    said = (place, plain), (drills[0], slanted)
    return (over, *(words_of(text, look, room, desk) for text, look in said)), ""


def block_of(
    spot: Spot,
    ladder: Ladder,
    labels: Sequence[str],
    passage: Passage,
    music: tuple[int, EngravedDrill],
    desk: Desk,
    width: float,
    depth: int,
) -> SpotBlock:
    """Measure a spot's block.

    labels: of its drills; music: which of the engraving's, and its ink; depth: of its head.
    """
    room = width - desk.layout.passage.ring_mm - BESIDE_RING_MM
    said, first = said_of(spot, ladder, labels, passage, desk, room, depth)
    index, engraved = music
    hand = hand_of_spot(spot, passage)
    beside = music_mm(desk, width) - engraved.box.width * MM_PER_POINT - 2 * MUSIC_GAP_MM
    chart, stands_beside = charted(hand, desk, beside, width)
    return SpotBlock(
        number=spot.number,
        said=said,
        first=first,
        music=index,
        ink=engraved.box,
        chart=chart,
        beside=stands_beside,
        desk=desk,
        heard=lambda: bars_words(
            passage.best, passage.phrase, spot.first, spot.last, said[0].plain, desk.speech
        ),
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
    depth: int = 0,
) -> list[Piece]:
    """The hard spots in the order of the passage.

    labels: of each spot's drills; music: of each; width: of a column.
    depth: of their heads below that of a section, where the outline does not name them.
    """
    head = headings.headings(desk.speech)["spots"]
    pieces = []
    ladders = [ladder for ladder in passage.ladders if ladder.spot]
    for spot, ladder, own, played in zip(passage.spots, ladders, labels, music, strict=True):
        block = block_of(spot, ladder, own, passage, played, desk, width, depth)
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
    return f"{block.number} · {block.said[0].plain}"
