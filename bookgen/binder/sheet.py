"""A plan and its engraved drills become pages: one sheet a day, one or many days."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import count

from bookgen.binder.block import Block
from bookgen.binder.block_drawing import draw_block
from bookgen.binder.canvas import Face
from bookgen.binder.desk import Desk, Options, desk_of
from bookgen.binder.english import date_name
from bookgen.binder.head import STRIP_GAP_MM, STRIP_SHARE, Frame, draw_frame
from bookgen.binder.layout import SHEET, Layout
from bookgen.binder.map import Strip, strip_of
from bookgen.binder.names import clean
from bookgen.binder.overlay import Placed, placed
from bookgen.binder.paging import share_out
from bookgen.binder.pencil import Room, draw_rest, share_spare
from bookgen.binder.press import CREATOR, Imprint, Numbering, press
from bookgen.binder.reportlab_canvas import ReportLabCanvas
from bookgen.binder.sheet_words import SHEET_PARTS, sheet_words
from bookgen.binder.single import bind_block
from bookgen.binder.typeset import Line, Paragraph, wrap
from bookgen.model.instrument import Instrument
from bookgen.notation.engraved import EngravedDrill, Engraving
from bookgen.plan.document import Day, Plan, PlannedDrill

__all__ = ["Options", "bind", "bind_block"]


def bind(
    plan: Plan,
    instrument: Instrument,
    engraving: Engraving,
    layout: Layout,
    options: Options,
) -> bytes:
    """Bind a plan: the whole PDF, with an outline of days and drills.

    engraving: of all the plan's drills in order, engraved for `layout.sheet(paper).column`.

    Raises:
        ValueError: the engraving is another plan's.
        NoRoomError: a drill does not fit its page.
        BookgenError: a template of the layout is damaged.
    """
    drills = sum(len(day.drills) for day in plan.days)
    if drills != len(engraving.drills):
        msg = f"{drills} drills planned, {len(engraving.drills)} engraved"
        raise ValueError(msg)
    desk = desk_of((instrument, plan.size), layout, options)
    canvas = ReportLabCanvas(desk.fonts, desk.sheet.width, desk.sheet.height)
    places: list[Placed] = []
    labels: list[Numbering] = []
    done = 0
    for day in plan.days:
        engraved = engraving.drills[done : done + len(day.drills)]
        labels.append(Numbering(canvas.page, f"{day.date.isoformat()} · "))
        places += draw_day(canvas, desk, plan.player, day, (done, engraved))
        done += len(day.drills)
    return press(canvas.finish(), engraving, places, imprint_of(desk, plan, labels))


def imprint_of(desk: Desk, plan: Plan, labels: Sequence[Numbering]) -> Imprint:
    """What the file says of itself."""
    has = desk.fonts.has
    player = clean(plan.player, has) if plan.player else ""
    first, last = plan.days[0].date, plan.days[-1].date
    dates = date_name(first) if first == last else f"{date_name(first)} to {date_name(last)}"
    studio = clean(desk.options.studio, has) if desk.options.studio else ""
    return Imprint(
        title=" · ".join(filter(None, (player, dates))),
        author=studio or CREATOR,
        subject=f"Practice pages for the {desk.instrument.name.lower()}",
        page_labels=labels,
    )


def draw_day(
    canvas: ReportLabCanvas,
    desk: Desk,
    player: str | None,
    day: Day,
    engraved: tuple[int, Sequence[EngravedDrill]],
) -> Iterator[Placed]:
    """Draw the pages of one day.

    engraved: number of the day's first drill in the engraving, and the day's drills.

    Yields:
        Where the music of each drill goes.
    """
    first, music = engraved
    views = desk.views(day.drills)
    blocks = [
        desk.block(planned, drill, view)
        for planned, drill, view in zip(day.drills, music, views, strict=True)
    ]
    stops = {note.stop for p in day.drills for event in p.events for note in event.notes}
    strip = strip_of(stops, desk.instrument, desk.sheet.column * STRIP_SHARE)
    layout = desk.layout
    scale = views[0].scale_words
    probes = [frame_of(desk, player, day, (strip, scale), (page, 2)) for page in (1, 2)]
    room = [probe.room(canvas) for probe in probes]
    counts = share_out(
        [block.height for block in blocks],
        lambda page: room[min(page, 1)] - layout.pencil.page,
        layout.block.between,
    )
    queue = iter(zip(count(first), day.drills, blocks, strict=False))
    for page, amount in enumerate(counts, start=1):
        frame = frame_of(desk, player, day, (strip, scale), (page, len(counts)))
        if page == 1:
            canvas.bookmark(f"day-{day.date.isoformat()}", date_name(day.date), 0)
        draw_frame(canvas, frame)
        chosen = [next(queue) for _ in range(amount)]
        yield from draw_page(canvas, desk, frame, chosen)
        canvas.next_page()


def frame_of(
    desk: Desk, player: str | None, day: Day, map_of_day: tuple[Strip, str], page: tuple[int, int]
) -> Frame:
    """Head and foot of one page of a day.

    map_of_day: the strip of the fingerboard, and the scale of the day's charts in words.
    page: its number and how many there are.
    """
    strip, scale = map_of_day
    sizes, column = desk.layout.text, desk.sheet.column
    size = sizes.name if page[0] == 1 else sizes.body
    name = desk.name(player, column * (1 - STRIP_SHARE) - STRIP_GAP_MM, size)
    studio = desk.name(desk.options.studio, column * STRIP_SHARE, sizes.body)
    words = sheet_words(day, (desk.instrument, desk.size), (name, studio), page, scale)
    parts = desk.words.named(SHEET, {"sheet": words}, SHEET_PARTS)
    beside = column * (1 - STRIP_SHARE) - STRIP_GAP_MM
    today = parts["today"].pieces if "today" in parts else ()
    return Frame(
        words=parts,
        when=tuple(wrap(when(parts), beside, sizes.link, desk.fonts)),
        today=tuple(wrap(today, beside, sizes.link, desk.fonts)),
        sheet=desk.sheet,
        layout=desk.layout,
        strip=strip,
        first=page[0] == 1,
        named=name is not None,
    )


def when(parts: Mapping[str, Paragraph]) -> Line:
    """The date and the minutes of the day, the minutes in bold."""
    date = parts["date"].plain if "date" in parts else ""
    total = parts["total"].plain if "total" in parts else ""
    gap = "\N{NO-BREAK SPACE} " if date and total else ""
    total = total.replace(" ", "\N{NO-BREAK SPACE}")
    return ((date + gap, Face.REGULAR), (total, Face.BOLD))


def draw_page(
    canvas: ReportLabCanvas,
    desk: Desk,
    frame: Frame,
    chosen: Sequence[tuple[int, PlannedDrill, Block]],
) -> Iterator[Placed]:
    """Draw the drills of one page; the height they leave becomes room for the pencil.

    Yields:
        Where the music of each drill goes.
    """
    layout, sheet = desk.layout, desk.sheet
    gap = layout.block.between
    used = sum(block.height for _, _, block in chosen) + gap * (len(chosen) - 1)
    pencil, rest = share_spare(frame.room(canvas) - used, len(chosen), layout.pencil)
    top = sheet.top - frame.head_height
    for order, (index, planned, block) in enumerate(chosen):
        key = f"drill-{index}"
        canvas.bookmark(key, f"{planned.number} · {block.outline}", 1)
        if order:
            middle = top + gap / 2
            right = sheet.margins.left + sheet.column
            canvas.line((sheet.margins.left, middle), (right, middle), width=0.2)
        music = draw_block(canvas, block, sheet.margins.left, top, pencil)
        yield placed(canvas.page, index, music)
        top -= block.height + pencil + gap
    room = Room(sheet.margins.left, top + gap, sheet.column, rest)
    draw_rest(canvas, room, layout, (frame.plain("pencil"), frame.plain("own")))
