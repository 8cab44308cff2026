"""Booklets of a run of days, for one player or for the whole roster."""

import dataclasses
from collections import deque
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import ExitStack
from dataclasses import dataclass
from datetime import datetime
from functools import partial
from pathlib import Path
from typing import Final

from msgspec.structs import replace

from bookgen.errors import Message, told
from bookgen.plan.ahead import Deadline
from bookgen.plan.document import Plan, encode
from bookgen.tasks.booklet_orders import (
    BookletWish,
    Order,
    book_places,
    ordered,
    refuse_for_one,
)
from bookgen.tasks.books import Book, book_of, summary_of
from bookgen.tasks.busy import Busy
from bookgen.tasks.deadlines import deadlines_of
from bookgen.tasks.engraving import Engraver, Music, Sources
from bookgen.tasks.further import coverage_before, further_of, records_of
from bookgen.tasks.leads import lead_lines
from bookgen.tasks.look import Made, PageWish, inputs_of, places_of
from bookgen.tasks.pages import besides, publish
from bookgen.tasks.places import refuse_places
from bookgen.tasks.plans import Printing, keep, planned
from bookgen.tasks.pressed import Press, press_of, refuse_folded
from bookgen.tasks.reach import reach_lines, unreached_in
from bookgen.tasks.resting import resting_lines
from bookgen.tasks.span import Span
from bookgen.tasks.studio_folder import StudioFolder
from bookgen.tasks.wish import Wish
from bookgen.words.ahead import reached

FOLDED: Final[Mapping[str, str]] = {"a4": "a5", "letter": "half-letter"}
"""Pages of half the size, two of which fill a sheet of these papers."""

ENGRAVED_AT_ONCE: Final = 2
"""Booklets on which LilyPond works at one time: no core waits while the next is planned."""


@dataclass(frozen=True, slots=True)
class Booklet:
    """A booklet that has been planned, and whose music is still to be engraved.

    plan: with its binding; press: what is done to its finished pages.
    """

    order: Order
    printing: Printing
    plan: Plan
    book: Book
    press: Press

    @property
    def deadlines(self) -> tuple[Deadline, ...]:
        """The passages that are to be ready within it."""
        return self.plan.binding.deadlines if self.plan.binding else ()

    @property
    def told(self) -> Iterator[Message]:
        """What the user ought to know of it."""
        kept, days = self.printing.kept, self.printing.plan.days
        whose = self.order.asked.name
        if kept and len(kept) == len(days):
            yield told("{player}: all days stay as they were printed before", player=whose)
        elif kept:
            yield told(
                "{player}: as printed before stay {dates}; the others are planned around them",
                player=whose,
                dates=", ".join(map(str, kept)),
            )

    def files(
        self, music: Music, sources: Sources, folder: StudioFolder, pages: PageWish, part: str
    ) -> Iterator[tuple[Path, bytes]]:
        """Its pages, the teacher's page, and the plan and the source where they are wanted.

        part: folder inside the one for the source.

        Raises:
            BookgenError: something does not fit its page.
        """
        order = self.order
        yield order.path, self.press(self.book.bound(music))
        if order.summary is not None:
            yield order.summary, summary_of(self.plan, order.asked.instrument, order.look)
        yield from besides(folder, pages, encode(self.plan), sources, part=part)


def make_booklets(
    folder: StudioFolder,
    wish: Wish,
    wanted: BookletWish,
    pages: PageWish,
    now: datetime,
    busy: Busy,
) -> Made:
    """Plan, engrave and bind each booklet that was ordered, and write all of them together.

    Their days count as printed once the pages are written.

    now: with its time zone.

    Raises:
        BookgenError: something that was wished does not make a booklet.
    """
    if wanted.everyone:
        refuse_for_one(folder, wish, pages)
    refuse_folded("--press", pages.press, fold=wanted.fold, screen=pages.screen)
    orders = ordered(folder, wish, wanted, pages)
    inputs = list(inputs_of(folder, pages))
    refuse_places(places_of(folder, pages, list(book_places(orders, wanted))), inputs)
    booklets = []
    files: list[tuple[Path, bytes]] = []
    press = press_of(folder.path, pages.press)
    plan_one = partial(planned_booklet, folder=folder, wish=wish, wanted=wanted, press=press)
    for booklet, music, sources in engraved_in_turn(orders, plan_one, busy):
        booklets.append(booklet)
        part = booklet.order.path.stem if wanted.everyone else ""
        files += booklet.files(music, sources, folder, pages, part)
    publish(files, inputs)
    booklets.sort(key=lambda booklet: orders.index(booklet.order))
    lines = [line for one in booklets for line in kept_and_told(one, folder, wanted.span, now)]
    if wanted.everyone:
        lines += resting_lines(folder.studio, wanted.span)
    return Made(tuple(path for order in orders for path in order.places), tuple(lines))


def kept_and_told(
    booklet: Booklet, folder: StudioFolder, span: Span, now: datetime
) -> Iterator[Message]:
    """Have the log know that a booklet is printed. Returns what the user ought to know of it."""
    asked, printing = booklet.order.asked, booklet.printing
    yield from booklet.told
    yield from (reached(one, one.ready_by) for one in booklet.deadlines if one.drills)
    with folder.log_of(asked.player) as log:
        yield from lead_lines(asked, log, printing)
        yield from reach_lines(booklet.plan, span)
        keep(log, printing, now)


def engraved_in_turn(
    orders: Sequence[Order], plan_one: Callable[[Order], Booklet], busy: Busy
) -> Iterator[tuple[Booklet, Music, Sources]]:
    """Booklets with their music: while some are engraved the next is planned, the last one bound.

    The longest come first, so that no short one waits for them at the end.

    Raises:
        BookgenError: LilyPond is missing, or a booklet cannot be planned.
        EngravingError: LilyPond did not do what we meant it to do.
    """
    alone = len(orders) == 1
    with ExitStack() as shops, busy.through(len(orders)) as left:
        at_work: deque[tuple[Booklet, Engraver]] = deque()
        for order in sorted(orders, key=lambda order: -order.minutes):
            booklet = plan_one(order)
            at_work.append((booklet, shops.enter_context(booklet.book.engraving(split=alone))))
            if len(at_work) == ENGRAVED_AT_ONCE:
                first, engraver = at_work.popleft()
                yield first, *engraver.finish(left(str(first.order.asked.name)))
        for booklet, engraver in at_work:
            yield booklet, *engraver.finish(left(str(booklet.order.asked.name)))


def planned_booklet(
    order: Order, folder: StudioFolder, wish: Wish, wanted: BookletWish, press: Press
) -> Booklet:
    """Plan one booklet.

    Raises:
        BookgenError: it cannot be planned, or a drill has no room on the paper.
    """
    asked, look = order.asked, order.look
    with folder.log_of(asked.player) as log:
        printing = planned(asked, order.dates, log, wish)
        records = records_of(log, asked)
        missed = unreached_in(asked, wanted.span, log, printing)
    if wanted.fold:
        look = look.on(FOLDED.get(look.paper, look.paper))
    first = order.dates[0]
    before = coverage_before(records, asked, printing.plan, first)
    binding = replace(
        look.binding,
        coverage=before,
        deadlines=deadlines_of(printing, asked.minutes, asked.instrument),
        unreached=missed,
        further=further_of(records, asked, before, first),
    )
    plan = replace(printing.plan, binding=binding)
    book = book_of(plan, asked.instrument, dataclasses.replace(look, binding=binding))
    return Booklet(order, printing, plan, book, press)
