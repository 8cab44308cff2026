"""A run of drills: how each is printed, at which scale their charts are, and their pieces."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from bookgen.binder.page.block_measures import Arrangement, FormMeasures, FormsByPaper, Kind
from bookgen.binder.page.canvas import Canvas
from bookgen.binder.page.desk import Desk
from bookgen.binder.page.frame import Frame
from bookgen.binder.page.piece import Mark, Piece, Room, Slot
from bookgen.binder.page.placed import Placed
from bookgen.binder.parts.block.drawing import draw_block
from bookgen.binder.parts.block.forms import (
    Blanks,
    Music,
    block_of,
    chart_room,
    music_left,
    wide_chart,
)
from bookgen.binder.parts.block.measured import Block, called
from bookgen.binder.parts.block.words import BlockWords
from bookgen.binder.parts.chart.hand import Hand, hand_of
from bookgen.binder.parts.chart.measured import Chart, chart_of
from bookgen.binder.parts.chart.scale import Scale, clear, needs_mm, scale_of
from bookgen.binder.parts.chart.shift import charted
from bookgen.binder.parts.drill_lines import cut_score, score_of
from bookgen.binder.parts.drill_signs import (
    OFF_STAFF,
    ON_STAFF,
    crossings_in,
    intervals_in,
    signs_of,
)
from bookgen.errors import Said
from bookgen.notation.drill_score import DrillScore, Written
from bookgen.notation.engraved import EngravedDrill
from bookgen.plan.document import DrillEntry
from bookgen.plan.music import music_of


@dataclass(frozen=True, slots=True)
class DrillPiece(Piece):
    """A drill as a piece of a page; number: of the drill."""

    number: int = 0


@dataclass(frozen=True, slots=True)
class Setting:
    """How one drill is printed, before it is engraved.

    form: of its block; chart: measured; score: what is engraved of it.
    signs: on its staff, its chart and beside them.
    """

    entry: DrillEntry
    words: BlockWords
    form: FormMeasures
    chart: Chart
    score: DrillScore
    signs: frozenset[str]

    @property
    def turns(self) -> bool:
        """Only its way up is written, with the sign to come back."""
        return self.score.written is Written.UP

    @property
    def staff_signs(self) -> frozenset[str]:
        """Those of its signs that stand on the staff or beside it."""
        return self.signs - OFF_STAFF


@dataclass(frozen=True, slots=True)
class Drills:
    """Drills of a book in their order.

    width: of a column, in millimetres; columns: of a page; level: in the outline.
    """

    settings: tuple[Setting, ...]
    desk: Desk
    columns: int
    width: float
    level: int = 1

    @property
    def scores(self) -> tuple[DrillScore, ...]:
        """What is engraved, in their order."""
        return tuple(setting.score for setting in self.settings)

    def room(self, frame: Frame) -> Room:
        """The columns of a page with that head and foot."""
        return frame.columns(self.columns)

    def pieces(self, music: Sequence[EngravedDrill], first: int = 0) -> list[DrillPiece]:
        """The drills as pieces, each with its music.

        first: which of the engraving's the first one is.

        Raises:
            NoRoomError: something is wider than its place.
        """
        return [
            self.piece(setting, Music(index, drill.box, setting.turns))
            for index, (setting, drill) in enumerate(
                zip(self.settings, music, strict=True), start=first
            )
        ]

    def memory_pieces(self) -> list[DrillPiece]:
        """The drills as pieces in which the intervals are left to be named.

        Raises:
            NoRoomError: something is wider than its place.
        """
        return [
            self.piece(setting, Blanks(crossings_in(setting.score, self.desk)))
            for setting in self.settings
        ]

    def block(self, setting: Setting, contents: Music | Blanks) -> Block:
        """Measure the block of a drill.

        Raises:
            NoRoomError: something is wider than its place.
        """
        signs = setting.signs
        if isinstance(contents, Blanks):
            signs -= {*ON_STAFF, *intervals_in(setting.score, self.desk)}
        return block_of(
            setting.words, setting.chart, contents, setting.form, self.desk, self.width, signs
        )

    def piece(self, setting: Setting, contents: Music | Blanks) -> DrillPiece:
        """A drill as a piece."""
        block, desk = self.block(setting, contents), self.desk

        def draw(canvas: Canvas, slot: Slot) -> Iterator[Placed]:
            return draw_block(canvas, block, desk, slot)

        flow = desk.layout.flow
        return DrillPiece(
            height=block.height,
            draw=draw,
            above=flow.between_mm,
            most_extra=flow.most_extra_mm,
            ruled=True,
            marks=(Mark(block.outline, self.level),),
            signs=block.signs,
            called=called(block.number),
            number=block.number,
        )


def drills_of(
    entries: Sequence[DrillEntry], told_of: Sequence[BlockWords], desk: Desk, kind: Kind
) -> Drills:
    """Settle how drills are printed.

    All charts have one scale; those of a passage, where a hand may lie anywhere, each its own.

    told_of: the words of each; kind: of the book.

    Raises:
        NoRoomError: a chart or a line of music has no room.
    """
    block = desk.layout.block
    form = form_on(desk, kind)
    gaps = (form.columns - 1) * desk.layout.flow.column_gap_mm
    width = (desk.sheet.column - gaps) / form.columns
    beside = block.half if form.columns > 1 else block.long
    other = beside if form.arrangement is Arrangement.BESIDE else form
    hands = [hand_of(music_of(entry)) for entry in entries]
    names = [called(entry.number) for entry in entries]
    whole = chart_room(form, width)
    narrow = min(form.chart_mm, other.chart_mm, whole)
    chart = whole if form.arrangement is Arrangement.FIRST else narrow
    still = [at for at, hand in enumerate(hands) if not hand.shifted]
    scales = scales_of(
        [hands[at] for at in still], desk, chart, whole, [names[at] for at in still], kind
    )
    charts = charted(hands, scales, desk, chart, min(whole, chart_room(other, width)), names)
    return Drills(
        tuple(
            setting_of(entry, one, hand, scale, form, other, desk, width, kind)
            for entry, one, (hand, scale) in zip(entries, told_of, charts, strict=True)
        ),
        desk,
        form.columns,
        width,
    )


def scales_of(
    hands: Sequence[Hand],
    desk: Desk,
    width: float,
    widest: float,
    called: Sequence[Said],
    kind: Kind,
) -> list[Scale]:
    """The scales of hands that stay where they are.

    Raises:
        NoRoomError: a hand has no room on the whole line.
    """
    if kind == "passage" and hands:
        return near_scales(hands, desk, width, widest, called)
    return [scale_of(hands, desk, width, widest, called)] * len(hands)


def near_scales(
    hands: Sequence[Hand], desk: Desk, width: float, widest: float, called: Sequence[Said]
) -> list[Scale]:
    """Scales for hands that may lie anywhere.

    One for all, but for those whose fingers would lie on each other at it.

    width, widest: of a chart, and of one that takes the whole line, in millimetres.
    called: the hands in a finding.

    Raises:
        NoRoomError: a hand has no room on the whole line.
    """
    own = [
        scale_of([hand], desk, width, widest, [name])
        for hand, name in zip(hands, called, strict=True)
    ]
    common = replace(own[0], per=min(max(one.per for one in own), SMALLEST))
    return [
        common if clear(hand, common, desk) and needs_mm(hand, common, desk) <= widest else one
        for hand, one in zip(hands, own, strict=True)
    ]


SMALLEST: Final = Fraction(5)
"""Hands that would need a smaller scale beside their music take the whole line; own choice."""


def form_on(desk: Desk, kind: Kind) -> FormMeasures:
    """The form of drills in a kind of book, on the desk's paper."""
    block = desk.layout.block
    papers: FormsByPaper = getattr(block, kind)
    return block.form(getattr(papers, desk.paper.replace("-", "_")))


def setting_of(
    entry: DrillEntry,
    said: BlockWords,
    hand: Hand,
    scale: Scale,
    form: FormMeasures,
    other: FormMeasures,
    desk: Desk,
    width: float,
    kind: Kind,
) -> Setting:
    """Settle how one drill is printed.

    other: the form that is taken where its music has no room beside the chart.

    Raises:
        NoRoomError: chart or music have no room in either.
    """
    needs = needs_mm(hand, scale, desk)
    one, wide = form, wide_chart(form, needs)
    room, ways = width - music_left(form, wide=wide), (Written.BOTH, Written.TWO_LINES)
    score = score_of(entry, room, desk, ways if room == width else ways[:1])
    if score is None:
        one, wide = other, wide_chart(other, needs)
        score = score_of(entry, width, desk, ways) or cut_score(entry, width, desk)
    whole = wide or one.arrangement is Arrangement.FIRST
    chart_width = chart_room(one, width) if whole else one.chart_mm
    chart = chart_of(hand, scale, desk, chart_width, called(entry.number), figures=one.millimetres)
    return Setting(entry, said, one, chart, score, signs_of(score, said, desk, kind))
