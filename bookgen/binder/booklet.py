"""A dated booklet for one player: cover, weeks of days, map, index, answers, log."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from bookgen.binder.answers import answer_leaves
from bookgen.binder.book_words import BookletFacts, BookWords, book_words, span_of
from bookgen.binder.cover import cover_leaf
from bookgen.binder.coverage import Coverage, coverage_of
from bookgen.binder.coverage_map import map_leaf, map_of
from bookgen.binder.desk import Options, desk_of
from bookgen.binder.flow import Book, entries_of, week_leaves
from bookgen.binder.furniture import Furniture, furniture_of
from bookgen.binder.how_to import Contents, how_to_leaves
from bookgen.binder.interval_index import index_leaves
from bookgen.binder.layout import Arrangement, Layout
from bookgen.binder.leaf import Leaf, roman, side_of
from bookgen.binder.log_columns import LOG_PARTS, log_of
from bookgen.binder.log_page import log_leaves
from bookgen.binder.overlay import Placed
from bookgen.binder.page_words import PageWords
from bookgen.binder.press import CREATOR, Imprint, Numbering, press
from bookgen.binder.reportlab_canvas import ReportLabCanvas
from bookgen.binder.summary import LOG, SUMMARY_PARTS, summary_of, summary_sets, summary_words
from bookgen.binder.week import week_leaf, weeks_of
from bookgen.model.instrument import Instrument
from bookgen.model.move import moves_of
from bookgen.notation.engraved import Engraving
from bookgen.plan.document import Plan

__all__ = ["BookletFacts", "bind_booklet"]


def bind_booklet(
    plan: Plan,
    instrument: Instrument,
    engraving: Engraving,
    layout: Layout,
    options: Options,
    facts: BookletFacts,
) -> bytes:
    """Bind a booklet: the whole PDF, right-hand pages odd, with an outline and page labels.

    engraving: of all the plan's drills in order, engraved for `layout.sheet(paper).column`.

    Raises:
        ValueError: the engraving is another plan's.
        NoRoomError: a drill or the words of a page do not fit.
        BookgenError: a template of the layout is damaged.
    """
    drills = sum(len(day.drills) for day in plan.days)
    if drills != len(engraving.drills):
        msg = f"{drills} drills planned, {len(engraving.drills)} engraved"
        raise ValueError(msg)
    desk = desk_of((instrument, plan.size), layout, options, booklet=True)
    if facts.from_memory and desk.arrangement is Arrangement.ABREAST:
        desk = replace(desk, arrangement=Arrangement.BESIDE)  # no music stands beside the chart
    views = desk.views([planned for day in plan.days for planned in day.drills])
    words = book_words(plan, facts, desk, views[0].scale_words)
    pages = PageWords(desk.words, words)
    furniture = furniture_of(desk, pages.whose, pages.caution)
    book = Book(plan, furniture, pages, engraving.drills, views, facts.from_memory)
    body = [*week_pages(book, words, facts), *end_pages(book, facts)]
    front = front_pages(book, words, facts, contents_of(body))
    canvas = ReportLabCanvas(desk.fonts, desk.sheet.width, desk.sheet.height)
    places = draw_leaves(canvas, furniture, front, body)
    return press(canvas.finish(), engraving, places, imprint_of(words, len(front)))


def contents_of(body: Sequence[Leaf]) -> list[tuple[str, str]]:
    """The parts of a booklet with the numbers of their pages."""
    return [
        (mark.title, str(number))
        for number, leaf in enumerate(body, start=1)
        for mark in leaf.marks
        if mark.level == 0
    ]


def front_pages(
    book: Book, words: BookWords, facts: BookletFacts, contents: Contents
) -> list[Leaf]:
    """Cover, and how to use the booklet: an even number of pages."""
    plan, furniture = book.plan, book.furniture
    span = span_of(plan, facts)
    return [
        cover_leaf(plan, words, furniture.desk),
        *how_to_leaves(plan, words, furniture, contents, span),
    ]


def week_pages(book: Book, words: BookWords, facts: BookletFacts) -> Iterator[Leaf]:
    """The pages of all weeks: each at a glance, then its days; the first is a right-hand page."""
    entries = entries_of(book)
    page = 0
    for week in weeks_of(book.plan, span_of(book.plan, facts)):
        dates = {day.date for day in week.days}
        chosen = [entry for entry in entries if entry.day.date in dates]
        yield week_leaf(week, words, book.furniture)
        page += 1
        for leaf in week_leaves(book, chosen, verso=page % 2 == 1):
            yield leaf
            page += 1


def end_pages(book: Book, facts: BookletFacts) -> Iterator[Leaf]:
    """Map, index, answers, log and summary."""
    plan, furniture = book.plan, book.furniture
    desk = furniture.desk
    moves = frozenset(
        move for day in plan.days for planned in day.drills for move in moves_of(planned.drill)
    )
    before = coverage_of(facts.before, facts.area or moves)
    after = before.aimed(moves)
    yield map_leaf(map_of(desk, before, after), furniture)
    yield from index_leaves(plan, furniture)
    if facts.from_memory:
        yield from answer_leaves(plan, book.music, furniture)
    yield from log_pages(book, before, after)


def log_pages(book: Book, before: Coverage, after: Coverage) -> list[Leaf]:
    """The log and the teacher's summary.

    Raises:
        BookgenError: the template is damaged.
    """
    plan, furniture = book.plan, book.furniture
    desk = furniture.desk
    facts = {"summary": summary_words(plan, after, before, desk.instrument)}
    found = desk.words.fill(LOG, facts, LOG_PARTS | SUMMARY_PARTS)
    plain = {paragraph.part: paragraph.plain for paragraph in found}
    summary = summary_of(plan, summary_sets(found, furniture), plain, furniture)
    return log_leaves(log_of(plan.days, found, furniture), summary, found)


def draw_leaves(
    canvas: ReportLabCanvas, furniture: Furniture, front: Sequence[Leaf], body: Sequence[Leaf]
) -> list[Placed]:
    """Draw every page; the front is numbered in small Roman numerals, the rest from 1."""
    places: list[Placed] = []
    folios = [*(roman(page) for page in range(1, len(front) + 1))]
    folios += [str(page) for page in range(1, len(body) + 1)]
    for page, (leaf, folio) in enumerate(zip([*front, *body], folios, strict=True)):
        side = side_of(page, folio, furniture.desk.sheet)
        for order, mark in enumerate(leaf.marks):
            canvas.bookmark(f"page-{page}-{order}", mark.title, mark.level)
        if not leaf.bare:
            furniture.draw(canvas, side, leaf.running)
        places += leaf.draw(canvas, side)
        canvas.next_page()
    return places


def imprint_of(words: BookWords, front: int) -> Imprint:
    """What the file says of itself.

    front: pages before the first week.
    """
    return Imprint(
        title=" · ".join(filter(None, (words.player, words.title))),
        author=words.studio or CREATOR,
        subject=f"Practice booklet for the {words.instrument.lower()}",
        page_labels=[Numbering(0, roman=True), Numbering(front)],
    )
