"""A player's practice sheet of one day."""

from contextlib import nullcontext
from datetime import date as Date  # noqa: N812
from datetime import datetime
from pathlib import Path

from msgspec.structs import replace

from bookgen.plan.document import Binding, encode
from bookgen.readers.studio import Player
from bookgen.tasks.books import book_of
from bookgen.tasks.leads import lead_lines
from bookgen.tasks.look import MEMORY, Made, PageWish, inputs_of, look, places_of
from bookgen.tasks.pages import Busy, besides, lilypond_ready, publish
from bookgen.tasks.places import Place, refuse_places
from bookgen.tasks.plans import keep, planned
from bookgen.tasks.resting import refuse_away
from bookgen.tasks.roster import chosen_player, player_stem
from bookgen.tasks.sound import SOUNDS, refuse_tempo, sounding
from bookgen.tasks.studio_folder import StudioFolder
from bookgen.tasks.wish import Wish, asked_of
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
    sounds = path.suffix.lower() in SOUNDS
    with nullcontext() if sounds else lilypond_ready(wanted) as ready:
        with folder.log_of(player) as log:
            if log is None or log.day(player.name, day) is None:
                refuse_away(player, day)
            printing = planned(asked, [day], log, wish)
        plan = replace(printing.plan, binding=wanted.binding)
        if ready is None:
            title = sheet_running(asked.name, day, wanted.speech)
            file = sounding(plan, title, asked.instrument, wanted.speech, pages, path)
            sources = None
        else:
            made = book_of(plan, asked.instrument, wanted).made(busy, ready)
            file, sources = made.pages, made.sources
    publish([(path, file), *besides(folder, pages, encode(plan), sources)], inputs)
    with folder.log_of(player) as log:
        lines = tuple(lead_lines(asked, log, printing))
        keep(log, printing, now)
    return Made((path,), lines)


def usual_place(folder: StudioFolder, player: Player, day: Date, pages: PageWish) -> Path:
    """Where the sheet goes if nothing else is said; one from memory leaves the usual one alone."""
    stem = player_stem(player, folder.studio) if player.name else "sheet"
    return folder.output / f"{stem}-{day.isoformat()}{MEMORY * pages.from_memory}.pdf"
