"""One drill alone on a page that is no larger than its block."""

from bookgen.binder.block_drawing import draw_block
from bookgen.binder.desk import Options, desk_of
from bookgen.binder.layout import Layout
from bookgen.binder.overlay import placed
from bookgen.binder.press import CREATOR, Imprint, Numbering, press
from bookgen.binder.reportlab_canvas import ReportLabCanvas
from bookgen.model.instrument import Instrument
from bookgen.notation.engraved import Engraving
from bookgen.plan.document import Plan

WHITE_MM = 5.0
"""Around the block."""


def bind_block(
    plan: Plan, instrument: Instrument, engraving: Engraving, layout: Layout, options: Options
) -> bytes:
    """Bind a plan that holds one drill: a PDF of one page, trimmed to its block.

    engraving: of this drill alone, engraved for `layout.sheet(options.paper).column`.

    Raises:
        ValueError: there are more drills than one, or the music does not fit the column.
        BookgenError: a template of the layout is damaged.
    """
    planned = [planned for day in plan.days for planned in day.drills]
    if len(planned) != 1 or len(engraving.drills) != 1:
        msg = f"{len(planned)} drills planned and {len(engraving.drills)} engraved, not one"
        raise ValueError(msg)
    desk = desk_of((instrument, plan.size), layout, options)
    block = desk.block(planned[0], engraving.drills[0], desk.view_alone(planned[0]))
    width, height = desk.sheet.column + 2 * WHITE_MM, block.height + 2 * WHITE_MM
    canvas = ReportLabCanvas(desk.fonts, width, height)
    music = draw_block(canvas, block, WHITE_MM, height - WHITE_MM, 0.0)
    canvas.next_page()
    place = placed(0, 0, music)
    subject = f"A drill for the {instrument.name.lower()}"
    imprint = Imprint(block.outline, CREATOR, subject, [Numbering(0)])
    return press(canvas.finish(), engraving, [place], imprint)
