"""The map of what the hand knows as a page of its own, for a player on a day."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812

from bookgen.binder.canvas import Canvas, Face, Style
from bookgen.binder.coverage import coverage_of
from bookgen.binder.coverage_map import CoverageMap, draw_map, map_of
from bookgen.binder.desk import Desk, Options, desk_of
from bookgen.binder.english import date_name
from bookgen.binder.layout import Layout
from bookgen.binder.press import CREATOR, Imprint, Numbering, press
from bookgen.binder.reportlab_canvas import ReportLabCanvas
from bookgen.binder.typeset import ASCENT, MM_PER_POINT, line_height
from bookgen.model.instrument import Instrument
from bookgen.model.move import Move
from bookgen.notation.engraved import Engraving
from bookgen.plan.record import Standing

WHITE_MM = 4.0
"""Below the head, and below the rule under it."""


@dataclass(frozen=True, slots=True)
class CoverageFacts:
    """What the map shows, and of whom.

    before: the moves that the player has met; area: the moves that the player is to learn.
    """

    before: Mapping[Move, Standing]
    area: frozenset[Move]
    player: str | None
    date: Date


def bind_coverage(
    facts: CoverageFacts, instrument: Instrument, size: str, layout: Layout, options: Options
) -> bytes:
    """Draw the map on one page of a PDF.

    Raises:
        ValueError: the instrument has no such size, or there is no such paper.
        BookgenError: a template of the layout is damaged.
    """
    instrument.size(size)
    desk = desk_of((instrument, size), layout, options, booklet=True)
    found = map_of(desk, coverage_of(facts.before, facts.area), None)
    canvas = ReportLabCanvas(desk.fonts, desk.sheet.width, desk.sheet.height)
    top = draw_head(canvas, desk, found, facts)
    draw_map(canvas, found, (desk.sheet.margins.left, top), top - desk.sheet.bottom)
    canvas.next_page()
    player = desk.name(facts.player, desk.sheet.column, desk.layout.text.name)
    imprint = Imprint(
        title=" · ".join(filter(None, (player, found.plain("running"), date_name(facts.date)))),
        author=desk.name(options.studio, desk.sheet.column, desk.layout.text.name) or CREATOR,
        subject=f"Coverage of the {instrument.name.lower()}",
        page_labels=[Numbering(0)],
    )
    return press(canvas.finish(), Engraving((), ()), [], imprint)


def draw_head(canvas: Canvas, desk: Desk, found: CoverageMap, facts: CoverageFacts) -> float:
    """Player, date, instrument and studio. Returns where the map begins."""
    sizes, sheet = desk.layout.text, desk.sheet
    left, right = sheet.margins.left, sheet.margins.left + sheet.column
    name, small = Style(Face.BOLD, sizes.name), Style(Face.REGULAR, sizes.body)
    baseline = sheet.top - sizes.name * ASCENT * MM_PER_POINT
    studio = desk.name(desk.options.studio, sheet.column / 2, sizes.body) or ""
    beside = canvas.width(studio, small)
    player = desk.name(facts.player, sheet.column - beside - WHITE_MM, sizes.name)
    canvas.text((left, baseline), player or found.plain("running"), name)
    canvas.text((right - beside, baseline), studio, small)
    baseline -= line_height(sizes.link, sizes.leading) * 1.1
    day = f"{date_name(facts.date)} · {desk.instrument.name} {desk.size}"
    canvas.text((left, baseline), day, Style(Face.REGULAR, sizes.link))
    rule = baseline - WHITE_MM / 2
    canvas.line((left, rule), (right, rule), width=0.35)
    return rule - WHITE_MM
