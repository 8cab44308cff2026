"""What every page of a book needs: instrument, layout, fonts and words, loaded once."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from bookgen.binder.block import Block, Column, block_of
from bookgen.binder.canvas import Face, Style
from bookgen.binder.chart import Chart, Room, chart_of, room_in, stops_in
from bookgen.binder.fonts import Fonts
from bookgen.binder.layout import BLOCK, Arrangement, Layout, Sheet
from bookgen.binder.names import clean, in_visual_order
from bookgen.binder.templates import Words
from bookgen.binder.typeset import shorten
from bookgen.binder.view import View, choose_view, common_views
from bookgen.binder.words import BLOCK_PARTS, drill_words
from bookgen.model.instrument import Instrument
from bookgen.notation.engraved import EngravedDrill
from bookgen.plan.document import Kind, PlannedDrill


@dataclass(frozen=True, slots=True)
class Options:
    """What the player wants of the pages.

    paper: a name of `layout.PAPERS`; cents: figures for double stops, for grown players.
    studio: printed in the head, or None.
    """

    paper: str = "a4"
    cents: bool = False
    studio: str | None = None


@dataclass(frozen=True, slots=True)
class Desk:
    """What every page of a book needs.

    arrangement: how the parts of a block stand.
    """

    instrument: Instrument
    size: str
    layout: Layout
    options: Options
    fonts: Fonts
    words: Words
    sheet: Sheet
    arrangement: Arrangement

    @property
    def chart_width(self) -> float:
        """Width of a chart on paper, in millimetres."""
        match self.arrangement:
            case Arrangement.STACKED:
                share = 1.0
            case Arrangement.ABREAST:
                share = self.layout.booklet.share
            case _:
                share = self.layout.chart.share
        return self.sheet.column * share

    @property
    def close(self) -> bool:
        """More drills share a page: charts have no caption."""
        return self.arrangement in {Arrangement.COMPACT, Arrangement.ABREAST}

    def views(self, drills: Sequence[PlannedDrill]) -> list[View]:
        """What the charts of a day show, at one scale."""
        length = self.instrument.size(self.size).string_length_mm
        stops = [stops_in(planned) for planned in drills]
        radius = self.layout.chart.spot_radius
        return common_views(stops, length, room_in(self.chart_width), radius)

    def view_alone(self, planned: PlannedDrill) -> View:
        """What a chart shows that stands alone on its page."""
        length = self.instrument.size(self.size).string_length_mm
        radius = self.layout.chart.spot_radius
        return choose_view(stops_in(planned), length, room_in(self.chart_width), radius)

    def block(
        self,
        planned: PlannedDrill,
        engraved: EngravedDrill | None,
        view: View,
        *,
        brief: bool = False,
    ) -> Block:
        """Measure the block of a drill.

        engraved: its music; None leaves it out. brief: how it is played has been said before.

        Raises:
            ValueError: the music does not fit the column.
            BookgenError: a template is damaged.
        """
        link = replace(planned.link, text=clean(planned.link.text, self.fonts.has))
        planned = replace(planned, link=link)
        facts = drill_words(
            planned,
            self.instrument,
            cents=self.options.cents,
            brief=brief,
            close=self.arrangement is Arrangement.COMPACT,
        )
        words = Column(
            paragraphs=self.words.fill(BLOCK, {"drill": facts}, BLOCK_PARTS),
            layout=self.layout,
            width=self.sheet.column,
            arrangement=self.arrangement,
            measure=self.fonts,
            plays=0 if planned.kind is Kind.TEST else self.layout.block.plays,
        )
        return block_of(words, self.chart(planned, view), engraved.box if engraved else None)

    def chart(self, planned: PlannedDrill, view: View) -> Chart:
        """Measure the chart of a drill."""
        room = Room(self.chart_width, self.layout.text.small, self.close)
        return chart_of(planned, self.instrument, view, self.layout.chart, room, self.fonts)

    def name(self, name: str | None, width: float, size: float) -> str | None:
        """A user's name as it is printed: clean, in order and no wider than that."""
        if name is None or not (cleaned := clean(name, self.fonts.has)):
            return None
        return in_visual_order(shorten(cleaned, width, Style(Face.BOLD, size), self.fonts))


def desk_of(
    played: tuple[Instrument, str], layout: Layout, options: Options, *, booklet: bool = False
) -> Desk:
    """Load fonts and templates.

    played: the instrument and the name of its size; booklet: more drills share a page.

    Raises:
        ValueError: there is no such paper.
        BookgenError: a template of the layout is damaged.
    """
    instrument, size = played
    paper = options.paper
    return Desk(
        instrument=instrument,
        size=size,
        layout=closer(layout) if booklet else layout,
        options=options,
        fonts=Fonts(layout.fonts),
        words=Words(layout),
        sheet=layout.sheet(paper),
        arrangement=layout.arrangement(paper, booklet=booklet),
    )


def closer(layout: Layout) -> Layout:
    """The layout with the sizes of booklets."""
    measures = layout.booklet
    text = replace(layout.text, title=measures.title, link=measures.link, body=measures.body)
    return replace(layout, text=text, block=replace(layout.block, plays=measures.plays))
