"""The page of a class that plays together: one day, several instruments."""

from collections.abc import Iterator
from contextlib import ExitStack
from datetime import date as Date  # noqa: N812
from pathlib import Path

import msgspec

from bookgen.errors import BookgenError, Finding, told
from bookgen.notation.engraved import put_together
from bookgen.plan.decoder import FindInstrument
from bookgen.plan.document import Binding, Plan, encode
from bookgen.plan.ensemble import plans_of
from bookgen.tasks.books import Pages, clefs_of
from bookgen.tasks.busy import Busy
from bookgen.tasks.class_members import Seat, seats_of
from bookgen.tasks.class_plan import class_of, planned_class
from bookgen.tasks.engraving import Sources, engraving
from bookgen.tasks.look import Look, Made, PageWish, inputs_of, look, places_of
from bookgen.tasks.pages import besides, bound, publish
from bookgen.tasks.places import Place, refuse_places
from bookgen.tasks.pressed import SCREEN
from bookgen.tasks.roster import NOBODY, minutes_of_day, player_of
from bookgen.tasks.studio_folder import StudioFolder
from bookgen.tasks.wish import Wish


def make_class_sheet(
    folder: StudioFolder, names: str, wish: Wish, day: Date, pages: PageWish, busy: Busy
) -> Made:
    """Plan, engrave and bind one day of a class. Nothing of it is kept in a practice log.

    names: of the instruments, with commas between them. A player who is named lends minutes,
        layout and language, and the area of the first instrument where that is the player's.

    Raises:
        BookgenError: something that was wished does not make a page for all of them.
    """
    findings = [*not_for_classes(wish, pages)]
    if findings:
        raise BookgenError(*findings)
    seats = seats_of(names, folder.path)
    player = None if wish.player is None else player_of(folder, wish.player)
    minutes = minutes_of_day(wish.minutes, player or NOBODY)
    path = folder.path / pages.out if pages.out else usual_place(folder, seats, day, pages)
    inputs = list(inputs_of(folder, pages))
    refuse_places(places_of(folder, pages, [Place("--out", path, (".pdf",))]), inputs)
    wanted = look(folder, pages, Binding(book="class"), player)
    plan, parts = planned_class(class_of(player, seats, wish.today), minutes, day, wish.seed)
    binding = msgspec.structs.replace(wanted.binding, parts=parts)
    plan = msgspec.structs.replace(plan, binding=binding)
    instruments = {seat.instrument.key: seat.instrument for seat in seats}
    made = class_pages(plan, instruments.get, wanted, busy)
    publish([(path, made.pages), *besides(folder, pages, encode(plan), made.sources)], inputs)
    return Made((path,))


def not_for_classes(wish: Wish, pages: PageWish) -> Iterator[Finding]:
    """Findings for options that mean one player."""
    given = {
        "--instrument": wish.instrument is not None,
        "--size": wish.size is not None,
        "--from-memory": pages.from_memory,
        "--tempo": pages.tempo is not None,
    }
    mends = {
        "--instrument": told("name it in --class"),
        "--size": told('write it behind the instrument, e.g. --class "violin 3/4, cello"'),
    }
    for option, there in given.items():
        if there:
            problem = told("a class page does not take it")
            yield Finding(option, problem, mends.get(option, told("leave it out")))


def usual_place(folder: StudioFolder, seats: list[Seat], day: Date, pages: PageWish) -> Path:
    """Where the page goes if nothing else is said."""
    keys = "-".join(seat.instrument.key for seat in seats)
    return folder.output / f"class-{keys}-{day.isoformat()}{SCREEN * pages.screen}.pdf"


def class_pages(plan: Plan, find: FindInstrument, wanted: Look, busy: Busy) -> Pages:
    """The pages of a class, each instrument's music engraved by itself, all at one time.

    find: has every instrument of the plan.

    Raises:
        BookgenError: LilyPond is missing, or something does not fit its page.
        EngravingError: LilyPond did not do what we meant it to do.
    """
    from bookgen.binder.books.class_sheet import bind_class, scores_of  # noqa: PLC0415  slow

    plans = plans_of(plan, find)
    desks = [wanted.desk(instrument, own.size) for own, instrument in plans]
    own = [one for one, _ in plans]
    scores = bound(lambda: scores_of(own, desks), wanted)
    with ExitStack() as stack:
        engravers = [
            stack.enter_context(
                engraving(each, clefs_of(one, each, instrument), instrument, wanted, split=False)
            )
            for each, (one, instrument) in zip(scores, plans, strict=True)
        ]
        music = [engraver.finish(busy) for engraver in engravers]
    texts = [source.texts for _, source in music]
    sources = Sources(lambda: [text for each in texts for text in each()], music[0][1].style)
    whole = put_together(*(one.drills for one, _ in music))
    return Pages(bound(lambda: bind_class(own, whole, desks), wanted), sources)
