"""A player's practice sheet of one day."""

from datetime import date as Date  # noqa: N812
from datetime import datetime
from pathlib import Path

from msgspec.structs import replace

from bookgen.plan.ahead import Further
from bookgen.plan.document import Binding, Plan, encode
from bookgen.readers.studio.file import Player
from bookgen.studio.practice_log import PracticeLog
from bookgen.tasks.books import book_of
from bookgen.tasks.busy import Busy
from bookgen.tasks.deadlines import close_deadlines
from bookgen.tasks.further import coverage_before, further_of, records_of
from bookgen.tasks.leads import lead_lines
from bookgen.tasks.look import MEMORY, Made, PageWish, inputs_of, look, places_of
from bookgen.tasks.pages import besides, publish
from bookgen.tasks.places import Place, refuse_places
from bookgen.tasks.plans import Printing, keep, planned
from bookgen.tasks.pressed import SCREEN
from bookgen.tasks.resting import refuse_away
from bookgen.tasks.roster import chosen_player, player_stem
from bookgen.tasks.sound import SOUNDS, refuse_tempo, sounding
from bookgen.tasks.studio_folder import StudioFolder
from bookgen.tasks.wish import Asked, Wish, asked_of
from bookgen.words.sheet import sheet_running


def make_sheet(
    folder: StudioFolder, wish: Wish, day: Date, pages: PageWish, now: datetime, busy: Busy
) -> Made:
    """Plan, engrave and bind one day.

    The same day of a player on the roster is printed again as it was, unless it is to be
    planned anew. It counts as printed once its page is written.

    now: with its time zone.

    Raises:
        BookgenError: something that was wished does not make a sheet.
    """
    player = chosen_player(folder, wish.player, wish.instrument)
    asked = asked_of(player, wish, folder.path)
    path = folder.path / pages.out if pages.out else usual_place(folder, player, day, pages)
    inputs = list(inputs_of(folder, pages))
    refuse_tempo(pages, path)
    refuse_places(places_of(folder, pages, [Place("--out", path, (".pdf", *SOUNDS))]), inputs)
    wanted = look(folder, pages, Binding(book="sheet"), player)
    printing, plan = planned_sheet(asked, day, folder, wish, wanted.binding)
    if path.suffix.lower() in SOUNDS:
        title = sheet_running(asked.name, day, wanted.speech)
        file = sounding(plan, title, asked.instrument, wanted.speech, pages, path)
        sources = None
    else:
        made = book_of(plan, asked.instrument, wanted).made(busy)
        file, sources = made.pages, made.sources
    publish([(path, file), *besides(folder, pages, encode(plan), sources)], inputs)
    with folder.log_of(player) as log:
        lines = tuple(lead_lines(asked, log, printing))
        keep(log, printing, now)
    return Made((path,), lines)


def planned_sheet(
    asked: Asked, day: Date, folder: StudioFolder, wish: Wish, binding: Binding
) -> tuple[Printing, Plan]:
    """Plan the day. Returns its plan as the log keeps it, and bound with all that it tells.

    Raises:
        BookgenError: the player is away, or the day cannot be planned.
    """
    player = asked.roster
    with folder.log_of(player) as log:
        if log is None or log.day(player.name, day) is None:
            refuse_away(player, day)
        printing = planned(asked, [day], log, wish)
        bound = replace(
            binding,
            deadlines=close_deadlines(printing, day, asked.instrument),
            further=further_on(printing.plan, log, asked, day),
        )
    return printing, replace(printing.plan, binding=bound)


def further_on(plan: Plan, log: PracticeLog | None, asked: Asked, day: Date) -> Further | None:
    """What could be added to an area of which all is secure.

    A day that has something new says without a look at the whole area that it is not.
    """
    if any(item.role.first_time for item in plan.days[0].items):
        return None
    records = records_of(log, asked)
    return further_of(records, asked, coverage_before(records, asked, plan, day), day)


def usual_place(folder: StudioFolder, player: Player, day: Date, pages: PageWish) -> Path:
    """Where the sheet goes if nothing else is said; one from memory leaves the usual one alone."""
    stem = player_stem(player, folder.studio) if player.name else "sheet"
    return (
        folder.output
        / f"{stem}-{day.isoformat()}{MEMORY * pages.from_memory}{SCREEN * pages.screen}.pdf"
    )
