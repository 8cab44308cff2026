"""`bookgen booklet`: a dated run of days, for one player or the whole roster."""

import argparse
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Final

from bookgen.commands.arguments import (
    Commands,
    PageArguments,
    add_page_arguments,
    page_arguments,
    pdf_place,
)
from bookgen.commands.asking import Asked, Wish, asked_of
from bookgen.commands.kept import printed_plan
from bookgen.commands.output import OUTPUT, file_stem, refuse_places
from bookgen.commands.pages import Look, bound, engraved, look, publish
from bookgen.commands.printing import add_print_argument, print_if_wanted
from bookgen.commands.progress import told_after_a_moment
from bookgen.commands.roster import STUDIO_FILE, chosen_player, read_studio
from bookgen.commands.run_of_days import Span, add_span_arguments, read_span
from bookgen.commands.sheet import add_wish_arguments, log_of, wish_of
from bookgen.errors import BookgenError, Finding
from bookgen.model.move import Move
from bookgen.plan.document import Plan
from bookgen.plan.record import Record, Standing
from bookgen.planner.coverage import area_moves, coverage
from bookgen.readers.studio import Player, Studio
from bookgen.studio.practice_log import PracticeLog

FOLDED: Final = {"a4": "a5", "letter": "half-letter"}
"""Pages of half the size, two of which fill a sheet of these papers."""


def add(commands: Commands) -> None:
    """Describe the command to the parser."""
    parser = commands.add_parser("booklet", help="make a dated booklet of many days")
    add_span_arguments(parser)
    parser.add_argument("--player", metavar="P", help="who plays; not needed for a lone player")
    parser.add_argument(
        "--all", action="store_true", help="one for each player; --out is a folder then"
    )
    parser.add_argument(
        "--from-memory", action="store_true", help="chart and words; the notes stand at the end"
    )
    parser.add_argument(
        "--fold", action="store_true", help="two pages on each sheet, to be printed and folded"
    )
    add_wish_arguments(parser)
    add_page_arguments(parser)
    add_print_argument(parser)
    parser.set_defaults(run=run_booklet)


@dataclass(frozen=True, slots=True)
class Order:
    """A booklet that was ordered: whose, of which days, and where it goes."""

    player: Player
    asked: Asked
    dates: Sequence[date]
    span: Span
    path: Path


def run_booklet(given: argparse.Namespace) -> Path | str:
    """Plan, engrave and bind each booklet that was ordered. Returns the paths.

    Raises:
        BookgenError: something that was given does not make a booklet.
    """
    span, studio, wish = read_span(given), read_studio(), wish_of(given)
    folder = given.out if given.all else None
    pages = page_arguments(one_book(given))
    appearance = look(pages, layout=studio.layout, paper=studio.paper, studio=studio.name)
    paper = FOLDED.get(appearance.paper, appearance.paper) if given.fold else appearance.paper
    appearance = replace(appearance, paper=paper, booklet=True)
    orders = ordered(given, studio, span, wish, folder or OUTPUT)
    for number, order in enumerate(orders, start=1):
        whose = order.player.name or "nobody in particular"
        told = f"{whose}, booklet {number} of {len(orders)} …"
        with told_after_a_moment(told, quiet=given.quiet or len(orders) == 1):
            make_booklet(order, studio, given, pages, appearance)
    for order in orders:
        print_if_wanted(order.path, given)
    if len(orders) == 1:
        return orders[0].path
    return "\n".join(str(order.path) for order in orders)


def one_book(given: argparse.Namespace) -> argparse.Namespace:
    """The command line as it is for a single book; a folder for all is checked by itself.

    Raises:
        BookgenError: what is for one book was asked for all.
    """
    if not given.all:
        return given
    findings = [
        Finding(option, "that is for one player's booklet", "leave it or --all out")
        for option, value in (("--player", given.player), ("--plan", given.plan))
        if value is not None
    ]
    if given.out is not None and given.out.exists() and not given.out.is_dir():
        findings.append(Finding(f"--out {given.out}", "no folder", "give a folder for all"))
    if findings:
        raise BookgenError(*findings)
    return argparse.Namespace(**{**vars(given), "out": None})


def ordered(
    given: argparse.Namespace, studio: Studio, span: Span, wish: Wish, folder: Path
) -> list[Order]:
    """What was ordered, all of it checked before any work is done.

    Raises:
        BookgenError: there is nobody to make a booklet for, somebody has no day to practise in
            the span, or a file cannot be written.
    """
    if given.all and not studio.players:
        mend = "write one with `bookgen new-studio`"
        raise BookgenError(Finding(str(STUDIO_FILE), "no roster here", mend))
    players = [*studio.players.values()] if given.all else [chosen_player(studio, given.player)]
    orders, findings = [], []
    for player in players:
        asked = asked_of(player, wish)
        dates = span.days(asked.player.practice_days)
        if not dates:
            problem = f"no day to practise in {span.name}"
            mend = "choose other days, or change practice_days"
            findings.append(Finding(f'{STUDIO_FILE}, player "{player.name}"', problem, mend))
        ending = "-folded.pdf" if given.fold else ".pdf"
        usual = folder / f"{file_stem(player.name or 'booklet')}-{span.name}{ending}"
        path = usual if given.all else pdf_place(given.out, usual)
        orders.append(Order(player, asked, dates, span, path))
    if findings:
        raise BookgenError(*findings)
    refuse_places(*((f"{order.player.name},", order.path) for order in orders))
    return orders


def make_booklet(
    order: Order, studio: Studio, given: argparse.Namespace, pages: PageArguments, wanted: Look
) -> None:
    """Make one booklet.

    Raises:
        BookgenError: it cannot be planned, bound or written.
    """
    asked = order.asked
    with log_of(studio, order.player) as log:
        plan = printed_plan(asked, order.dates, log, wish_of(given), anew=given.anew)
        records = records_before(log, order)
    engraving = engraved(plan, asked.instrument, pages, wanted)

    from bookgen.binder.booklet import BookletFacts, bind_booklet  # noqa: PLC0415  slow to import

    facts = BookletFacts(
        title=order.span.title,
        note=order.player.note,
        before=before(records, asked, plan),
        area=area_moves(asked.instrument, asked.area),
        from_memory=given.from_memory,
        span=(order.span.first, order.span.last),
    )
    layout, options = wanted.layout, wanted.options
    made = bound(
        lambda: bind_booklet(plan, asked.instrument, engraving, layout, options, facts), wanted
    )
    if given.fold:
        from bookgen.binder.imposition import fold  # noqa: PLC0415  slow to import

        made = fold(made)
    publish(made, order.path, plan, asked.instrument, pages)


def records_before(log: PracticeLog | None, order: Order) -> list[Record]:
    """What was printed before a booklet's days, with the results up to the first of them."""
    if log is None:
        return []
    first = order.dates[0]
    return [
        record
        for record in log.records(order.player.name)
        if record.drill.instrument == order.asked.instrument.key
        and record.date < first
        and (record.marked is None or record.marked <= first)
    ]


def before(records: Sequence[Record], asked: Asked, plan: Plan) -> dict[Move, Standing]:
    """How the moves stood before the booklet."""
    request = asked.request(plan.days[0].date, tuple(records), 1)
    return {move: met.standing for move, met in coverage(records, request.secure).items()}
