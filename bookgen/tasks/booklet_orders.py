"""Booklets as they are ordered: whose, of which days, where they go."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from pathlib import Path
from typing import Final

from bookgen.errors import BookgenError, Finding, told
from bookgen.plan.calendar import NO_HOLIDAYS
from bookgen.plan.document import Binding
from bookgen.readers.studio.file import Player
from bookgen.tasks.look import MEMORY, Look, PageWish, look
from bookgen.tasks.places import Place
from bookgen.tasks.pressed import MARKED, SCREEN, mark_of
from bookgen.tasks.resting import no_day, rests
from bookgen.tasks.roster import chosen_player, player_stem, roster_of
from bookgen.tasks.span import Span
from bookgen.tasks.studio_folder import StudioFolder
from bookgen.tasks.wish import Asked, Wish, asked_of

FOLDED: Final = "-folded"
"""At the end of a file's name whose pages stand on sheets to be folded."""


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

    @property
    def minutes(self) -> float:
        """Of practice in it."""
        return len(self.dates) * self.asked.minutes


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
        ending = f"{MEMORY * pages.from_memory}{FOLDED * wanted.fold}"
        ending += f"{mark_of(pages.press, screen=pages.screen)}.pdf"
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
    stem = path.stem.removesuffix(FOLDED).removesuffix(MARKED).removesuffix(SCREEN)
    return path.with_name(f"{stem}-summary.pdf")
