"""A passage becomes pages: its music with groups, charts, table, and the drills that lead there."""

from bookgen.binder.booklet import draw_leaves
from bookgen.binder.desk import Desk, Options, desk_of
from bookgen.binder.furniture import furniture_of
from bookgen.binder.layout import Layout
from bookgen.binder.passage_drills import drill_things, planned_drills
from bookgen.binder.passage_flow import Labels, leaves_of, paginate
from bookgen.binder.passage_front import front_things
from bookgen.binder.passage_text import PassageText, text_of
from bookgen.binder.press import CREATOR, Imprint, Numbering, press
from bookgen.binder.reportlab_canvas import ReportLabCanvas
from bookgen.model.instrument import Instrument
from bookgen.notation.engraved import Engraving
from bookgen.notation.passage_engraver import put_together
from bookgen.plan.passage import Passage
from bookgen.plan.passage_excerpt import excerpts_of


def bind_passage(
    passage: Passage,
    instrument: Instrument,
    engraving_of_passage: Engraving,
    engraving_of_drills: Engraving,
    layout: Layout,
    options: Options,
) -> bytes:
    """Bind a passage: the whole PDF, right-hand pages odd, with an outline.

    engraving_of_passage: its lines of music, engraved for `layout.music_width(paper)`.
    engraving_of_drills: all drills of its plan in order and then its excerpts, engraved for the
        same width.

    Raises:
        ValueError: an engraving is another passage's.
        NoRoomError: a line of music, a chart or a drill does not fit its page.
        BookgenError: a template of the layout is damaged.
    """
    planned = len(planned_drills(passage)) + len(excerpts_of(passage))
    if planned != len(engraving_of_drills.drills):
        msg = f"{planned} drills and excerpts, {len(engraving_of_drills.drills)} engraved"
        raise ValueError(msg)
    desk = desk_of((instrument, passage.size), layout, options)
    text = text_of(passage, desk)
    furniture = furniture_of(desk, text.plain("whose"), text.named.get("caution"))
    lines = engraving_of_passage.drills
    things = [
        *front_things(text, desk, lines),
        *drill_things(text, desk, engraving_of_drills.drills, len(lines)),
    ]
    pages = paginate(things, furniture.room, layout.pencil.page)
    labels = Labels(text.plain("pencil"), text.plain("own"))
    canvas = ReportLabCanvas(desk.fonts, desk.sheet.width, desk.sheet.height)
    places = draw_leaves(canvas, furniture, [], list(leaves_of(pages, furniture, labels)))
    engraving = put_together(engraving_of_passage, engraving_of_drills)
    return press(canvas.finish(), engraving, places, imprint_of(text, desk))


def imprint_of(text: PassageText, desk: Desk) -> Imprint:
    """What the file says of itself."""
    return Imprint(
        title=text.facts.title,
        author=text.facts.studio or CREATOR,
        subject=f"A passage for the {desk.instrument.name.lower()}",
        page_labels=[Numbering(0)],
    )
