"""Charts of a passage's hands, side by side: where the fingers of each lie, to scale."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import batched
from typing import Final

from bookgen.binder.page.canvas import Canvas
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.piece import Piece, Slot
from bookgen.binder.page.placed import Placed
from bookgen.binder.page.prose import Look, Words, draw_words, height_of, words_of
from bookgen.binder.parts.chart import Chart, chart_of
from bookgen.binder.parts.chart_drawing import draw_chart
from bookgen.binder.parts.chart_scale import Hand, scale_of
from bookgen.plan.passage import Group, Passage
from bookgen.plan.passage_facts import notes_of
from bookgen.words import passage as words

TITLE_BELOW_MM: Final = 1.5


@dataclass(frozen=True, slots=True)
class HandChart:
    """A chart with the words over it."""

    words: Sequence[Words]
    chart: Chart


def hand_groups(passage: Passage) -> list[Group]:
    """The placements whose hands differ and have two fingers or more."""
    return [
        group for group in passage.best.groups if group.same_as is None and group.frame is not None
    ]


def hand_in(group: Group, passage: Passage) -> Hand:
    """The fingers of a placement, without its open strings."""
    notes = notes_of(group, passage.best, passage.phrase)
    return Hand(tuple(note.stop for note in notes if note.stop.finger), {})


def hand_pieces(passage: Passage, desk: Desk) -> Iterator[Piece]:
    """The charts row by row, all at one scale.

    Raises:
        NoRoomError: a hand has no room on a line.
    """
    groups = hand_groups(passage)
    if not groups:
        return
    least, gap, column = (
        desk.layout.passage.chart_mm,
        desk.layout.flow.column_gap_mm,
        desk.sheet.column,
    )
    abreast = max(int((column + gap) // (least + gap)), 1)
    width = (column - (abreast - 1) * gap) / abreast
    hands = [hand_in(group, passage) for group in groups]
    titles = [words.chart_title(group, passage, desk.speech) for group in groups]
    names = [words_of(title, Look(1.0), column, desk).plain for title in titles]
    scale = scale_of(hands, desk, width, width, names)
    charts = [
        HandChart(
            title_of(group, title, passage, desk, width),
            chart_of(hand, scale, desk, width, name, figures=True),
        )
        for group, title, hand, name in zip(groups, titles, hands, names, strict=True)
    ]
    for number, row in enumerate(batched(charts, abreast)):
        above = desk.layout.passage.music_gap_mm * (number > 0)
        yield replace(row_of(row, width + gap, desk), above=above, called=names[number * abreast])


def title_of(group: Group, title: str, passage: Passage, desk: Desk, width: float) -> list[Words]:
    """The words over a chart."""
    sizes = desk.layout.text
    lines = [words_of(title, Look(sizes.body_pt), width, desk)]
    same = words.same_hands(group, passage, desk.speech)
    return [*lines, words_of(same, Look(sizes.small_pt), width, desk)] if same else lines


def row_of(charts: Sequence[HandChart], step: float, desk: Desk) -> Piece:
    """Charts side by side; they stand on one line.

    step: from chart to chart, in millimetres.
    """
    over = max(height_of(one.words) for one in charts) + TITLE_BELOW_MM
    height = over + max(one.chart.height for one in charts)

    def draw(canvas: Canvas, slot: Slot) -> Iterator[Placed]:
        for number, one in enumerate(charts):
            left = slot.left + number * step
            draw_words(canvas, one.words, left, slot.top)
            draw_chart(canvas, one.chart, desk, left, slot.top - over)
        return iter(())

    return Piece(height, draw)
