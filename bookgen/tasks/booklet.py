"""Booklets of a run of days, for one player or for the whole roster."""

from collections import deque
from collections.abc import Iterator, Mapping, Sequence
from contextlib import ExitStack
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from datetime import datetime
from pathlib import Path
from typing import Final

from msgspec.structs import replace

from bookgen.errors import BookgenError, Finding, Message, told
from bookgen.notation.engraved import Engraving
from bookgen.plan.calendar import NO_HOLIDAYS
from bookgen.plan.document import Binding, Coverage, Plan, encode
from bookgen.planner.coverage import area_moves, coverage
from bookgen.planner.gauge import coverage_facts
from bookgen.readers.studio import Player
from bookgen.studio.practice_log import PracticeLog
from bookgen.tasks.books import Book, book_of, summary_of
from bookgen.tasks.deadlines import deadline_lines
from bookgen.tasks.leads import lead_lines
from bookgen.tasks.look import MEMORY, Look, Made, PageWish, inputs_of, look, places_of
from bookgen.tasks.pages import Busy, Engraver, Sources, besides, publish
from bookgen.tasks.places import Place, refuse_places
from bookgen.tasks.plans import Printing, keep, planned
from bookgen.tasks.reach import reach_lines
from bookgen.tasks.resting import no_day, resting_lines, rests
from bookgen.tasks.roster import chosen_player, player_stem, roster_of
from bookgen.tasks.span import Span
from bookgen.tasks.studio_folder import StudioFolder
from bookgen.tasks.wish import Asked, Wish, asked_of

FOLDED: Final[Mapping[str, str]] = {"a4": "a5", "letter": "half-letter"}
"""Pages of half the size, two of which fill a sheet of these papers."""

ENGRAVED_AT_ONCE: Final = 2
"""Booklets on which LilyPond works at one time: no core waits while the next is planned."""


@dataclass(frozen=True, slots=True)
class BookletWish:
    """What the user says of booklets.

    everyone: one for each player of the roster; the pages' `out` is a folder then.
    by_day: the drills follow day by day, not by their numbers.
    """

    span: Span
    everyone: bool = False
    by_day: bool = False
    fold: bool = False


@dataclass(frozen=True, slots=True)
class Order:
    """A booklet that was ordered: whose, of which days, and where it goes.

    summary: where the teacher's page goes; None where nobody teaches.
    look: on the paper of the whole sheets.
    """

    asked: Asked
    dates: Sequence[Date]
    path: Path
    summary: Path | None
    look: Look

    @property
    def places(self) -> tuple[Path, ...]:
        """Where its pages go."""
        return (self.path,) if self.summary is None else (self.path, self.summary)


@dataclass(frozen=True, slots=True)
class Booklet:
    """A booklet that has been planned, and whose music is still to be engraved.

    plan: with its binding.
    """

    order: Order
    printing: Printing
    plan: Plan
    book: Book

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
        self, music: Engraving, sources: Sources, folder: StudioFolder, pages: PageWish, part: str
    ) -> Iterator[tuple[Path, bytes]]:
        """Its pages, the teacher's page, and the plan and the source where they are wanted.

        part: folder inside the one for the source.

        Raises:
            BookgenError: something does not fit its page.
        """
        order = self.order
        yield order.path, self.book.bound(music)
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
    orders = ordered(folder, wish, wanted, pages)
    inputs = list(inputs_of(folder, pages))
    refuse_places(places_of(folder, pages, list(book_places(orders, wanted))), inputs)
    booklets = []
    files: list[tuple[Path, bytes]] = []
    in_turn = (planned_booklet(order, folder, wish, wanted) for order in orders)
    for booklet, music, sources in engraved_in_turn(in_turn, len(orders), busy):
        booklets.append(booklet)
        part = booklet.order.path.stem if wanted.everyone else ""
        files += booklet.files(music, sources, folder, pages, part)
    publish(files, inputs)
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
    yield from deadline_lines(printing, asked.minutes)
    with folder.log_of(asked.player) as log:
        yield from lead_lines(asked, log, printing)
        yield from reach_lines(asked, span, log, printing)
        keep(log, printing, now)


def engraved_in_turn(
    booklets: Iterator[Booklet], count: int, busy: Busy
) -> Iterator[tuple[Booklet, Engraving, Sources]]:
    """Booklets with their music: while some are engraved the next is planned, the last one bound.

    count: how many there are.

    Raises:
        BookgenError: LilyPond is missing, or a booklet cannot be planned.
        EngravingError: LilyPond did not do what we meant it to do.
    """
    with ExitStack() as shops, busy.through(count) as left:
        at_work: deque[tuple[Booklet, Engraver]] = deque()
        for booklet in booklets:
            at_work.append((booklet, shops.enter_context(booklet.book.engraving())))
            if len(at_work) == ENGRAVED_AT_ONCE:
                first, engraver = at_work.popleft()
                yield first, *engraver.finish(left(str(first.order.asked.name)))
        for booklet, engraver in at_work:
            yield booklet, *engraver.finish(left(str(booklet.order.asked.name)))


def book_places(orders: Sequence[Order], wanted: BookletWish) -> Iterator[Place]:
    """The places of the books, as the user knows them."""
    for order in orders:
        option = f"{order.asked.name}," if wanted.everyone else "--out"
        yield from (Place(option, path, (".pdf",)) for path in order.places)


def refuse_for_one(folder: StudioFolder, wish: Wish, pages: PageWish) -> None:
    """Refuse what is for one book where all were asked for.

    Raises:
        BookgenError: there is such a thing; all of it is told.
    """
    mend = told("leave it or --all out")
    findings = [
        Finding(option, told("that is for one player's booklet"), mend)
        for option, value in (("--player", wish.player), ("--plan", pages.plan))
        if value is not None
    ]
    out = folder.path / pages.out if pages.out else None
    if out is not None and out.exists() and not out.is_dir():
        mend = told("give a folder for all")
        findings.append(Finding(f"--out {pages.out}", told("no folder"), mend))
    if findings:
        raise BookgenError(*findings)


def ordered(folder: StudioFolder, wish: Wish, wanted: BookletWish, pages: PageWish) -> list[Order]:
    """What was ordered, all of it checked before any work is done.

    Raises:
        BookgenError: there is nobody to make a booklet for, or somebody has no day to practise
            in the span.
    """
    everyone = wanted.everyone
    players = (
        roster_of(folder) if everyone else [chosen_player(folder, wish.player, wish.instrument)]
    )
    resting = [player for player in players if everyone and rests(wanted.span, player)]
    if len(resting) < len(players):
        players = [player for player in players if player not in resting]
    out = folder.path / pages.out if pages.out else None
    home = out if everyone and out else folder.output
    orders, findings = [], []
    for player in players:
        asked = asked_of(player, wish, folder.path)
        dates = wanted.span.days(player.practice_days, player.calendar)
        if not dates:
            findings.append(no_day(wanted.span, player))
        stem = player_stem(player, folder.studio) if player.name else "booklet"
        ending = f"{MEMORY * pages.from_memory}{'-folded' * wanted.fold}.pdf"
        usual = home / f"{stem}-{wanted.span.name}{ending}"
        path = usual if everyone or out is None else out
        summary = summary_place(path) if folder.keeps(player) else None
        binding = binding_of(wanted, player)
        orders.append(Order(asked, dates, path, summary, look(folder, pages, binding, player)))
    if findings:
        raise BookgenError(*findings)
    return orders


def binding_of(wanted: BookletWish, player: Player) -> Binding:
    """How a player's booklet is bound."""
    calendar = player.calendar.between(wanted.span.first, wanted.span.last)
    return Binding(
        book="booklet",
        first=wanted.span.first,
        last=wanted.span.last,
        note=player.note,
        calendar=None if calendar == NO_HOLIDAYS else calendar,
        by_day=wanted.by_day,
        fold=wanted.fold,
    )


def summary_place(path: Path) -> Path:
    """Where the teacher's page goes: beside the booklet.

    >>> summary_place(Path("jo-2026-12-folded.pdf")).name
    'jo-2026-12-summary.pdf'
    """
    return path.with_name(f"{path.stem.removesuffix('-folded')}-summary.pdf")


def planned_booklet(order: Order, folder: StudioFolder, wish: Wish, wanted: BookletWish) -> Booklet:
    """Plan one booklet.

    Raises:
        BookgenError: it cannot be planned, or a drill has no room on the paper.
    """
    asked, look = order.asked, order.look
    with folder.log_of(asked.player) as log:
        printing = planned(asked, order.dates, log, wish)
        before = coverage_before(log, order, printing.plan)
    if wanted.fold:
        look = look.on(FOLDED.get(look.paper, look.paper))
    binding = replace(look.binding, coverage=before)
    plan = replace(printing.plan, binding=binding)
    book = book_of(plan, asked.instrument, Look(look.layout, binding))
    return Booklet(order, printing, plan, book)


def coverage_before(log: PracticeLog | None, order: Order, plan: Plan) -> Coverage:
    """How the moves of the player's area stood before the booklet's first day."""
    asked, first = order.asked, order.dates[0]
    records = log.records(asked.name) if log is not None and asked.name is not None else ()
    own = [record for record in records if record.drill.instrument == asked.instrument.key]
    met = coverage(own, asked.request(first).secure, first)
    drills = [entry.drill for entry in plan.drills]
    return coverage_facts(area_moves(asked.instrument, asked.area), met, drills)
