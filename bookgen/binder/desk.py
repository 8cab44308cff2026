"""What every page of a book needs: instrument, layout, fonts and words, loaded once."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from bookgen.binder.block import Block, Column, block_of
from bookgen.binder.canvas import Face, Style
from bookgen.binder.chart import chart_of, room_in, stops_in
from bookgen.binder.fonts import Fonts
from bookgen.binder.layout import Layout, Sheet
from bookgen.binder.names import clean, in_visual_order
from bookgen.binder.typeset import shorten
from bookgen.binder.view import View, choose_view, common_views
from bookgen.binder.words import Words, drill_words
from bookgen.model.instrument import Instrument
from bookgen.notation.engraved import EngravedDrill
from bookgen.plan.document import PlannedDrill


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
    """What every page of a book needs."""

    instrument: Instrument
    size: str
    layout: Layout
    options: Options
    fonts: Fonts
    words: Words
    sheet: Sheet

    @property
    def stacked(self) -> bool:
        """Words stand below charts, not beside them."""
        return self.options.paper in self.layout.stacked

    @property
    def chart_width(self) -> float:
        """Width of a chart on paper, in millimetres."""
        return self.sheet.column * (1.0 if self.stacked else self.layout.chart.share)

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

    def block(self, planned: PlannedDrill, engraved: EngravedDrill, view: View) -> Block:
        """Measure the block of a drill.

        Raises:
            ValueError: the music does not fit the column.
            BookgenError: a template is damaged.
        """
        link = replace(planned.link, text=clean(planned.link.text, self.fonts.has))
        planned = replace(planned, link=link)
        facts = drill_words(planned, self.instrument, cents=self.options.cents)
        column = self.sheet.column
        chart = chart_of(
            planned,
            self.instrument,
            view,
            self.layout.chart,
            (self.chart_width, self.layout.text.small),
            self.fonts,
        )
        words = Column(self.words.block(facts), self.layout, column, self.stacked, self.fonts)
        return block_of(words, chart, engraved.box)

    def name(self, name: str | None, width: float, size: float) -> str | None:
        """A user's name as it is printed: clean, in order and no wider than that."""
        if name is None or not (cleaned := clean(name, self.fonts.has)):
            return None
        return in_visual_order(shorten(cleaned, width, Style(Face.BOLD, size), self.fonts))


def desk_of(played: tuple[Instrument, str], layout: Layout, options: Options) -> Desk:
    """Load fonts and templates.

    played: the instrument and the name of its size.

    Raises:
        ValueError: there is no such paper.
        BookgenError: a template of the layout is damaged.
    """
    instrument, size = played
    return Desk(
        instrument=instrument,
        size=size,
        layout=layout,
        options=options,
        fonts=Fonts(layout.fonts),
        words=Words(layout),
        sheet=layout.sheet(options.paper),
    )
