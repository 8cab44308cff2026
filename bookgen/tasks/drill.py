"""One drill, by its key or its number, in the form that the ending of its file asks for."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from msgspec.structs import replace

from bookgen.errors import BookgenError, Finding, told, why
from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.notation.drill_score import DrillScore, Written
from bookgen.plan.decoder import FindInstrument
from bookgen.plan.document import Binding, DrillEntry, Link, Plan, encode
from bookgen.plan.earlier import earlier_of
from bookgen.plan.entry import entry_of
from bookgen.plan.music import music_of
from bookgen.readers.own_instrument import instrument_at
from bookgen.studio.entries import KeptDrill
from bookgen.tasks.books import book_of
from bookgen.tasks.busy import Busy
from bookgen.tasks.engraving import LEAST_SECONDS, style_of
from bookgen.tasks.instruments import finder, instrument_of_drill
from bookgen.tasks.leftovers import working_folder
from bookgen.tasks.look import Look, Made, PageWish, inputs_of, look, places_of
from bookgen.tasks.pages import besides, publish
from bookgen.tasks.places import Place, refuse_places
from bookgen.tasks.pressed import SCREEN
from bookgen.tasks.results import one_player
from bookgen.tasks.roster import choose, file_stem
from bookgen.tasks.sound import SOUNDS, refuse_tempo, sounding
from bookgen.tasks.studio_folder import StudioFolder

MEND: Final = told("give the key of a drill that can be played")
NO_LINK: Final = Link(to=None, changes=None)
LINE_MM: Final = 150.0
"""Width of the music where no page tells it."""


@dataclass(frozen=True, slots=True)
class Order:
    """What is to be made of one drill; path: where it goes."""

    plan: Plan
    instrument: Instrument
    look: Look
    wish: PageWish
    path: Path
    busy: Busy

    @property
    def entry(self) -> DrillEntry:
        """The drill itself."""
        return self.plan.drills[0]

    @property
    def score(self) -> DrillScore:
        """All of its notes on one line."""
        return DrillScore(self.entry.drill, LINE_MM, Written.BOTH, music_of(self.entry))


def make_drill(
    folder: StudioFolder,
    which: str,
    player: str | None,
    size: str | None,
    pages: PageWish,
    busy: Busy,
    instrument: str | None = None,
) -> Made:
    """Make one drill.

    which: its key, or its number for a player of the practice log.
    instrument: a file of the user's own that is not found by its name alone.

    Raises:
        BookgenError: there is no such drill, or it cannot be played, or the ending names no form.
    """
    given = instrument_at(instrument, folder.path, "--instrument") if instrument else None
    plan, plays = plan_of(folder, which, player, size, finder(folder, given))
    stem = f"{file_stem(plan.player or '')}-{which}" if which.isdigit() else plan.drills[0].key
    path = (
        folder.path / pages.out
        if pages.out
        else folder.output / f"{stem}{SCREEN * pages.screen}.pdf"
    )
    make = maker(path)
    refuse_tempo(pages, path)
    inputs = list(inputs_of(folder, pages))
    refuse_places(places_of(folder, pages, [Place("--out", path)]), inputs)
    whose = folder.studio.players.get(plan.player or "")
    wanted = look(folder, pages, Binding(book="drill"), whose)
    bound = replace(plan, binding=wanted.binding)
    made = make(Order(bound, plays, wanted, pages, path, busy))
    publish([(path, made), *besides(folder, pages, encode(bound))], inputs)
    return Made((path,))


def plan_of(
    folder: StudioFolder, which: str, player: str | None, size: str | None, find: FindInstrument
) -> tuple[Plan, Instrument]:
    """A plan that holds nothing but this drill, and its instrument.

    Raises:
        BookgenError: there is no such drill, or the hand or the instrument cannot play it.
    """
    if which.isascii() and which.isdigit():
        return plan_of_number(folder, int(which), player, size, find)
    if player is not None:
        problem = told("a key names the same drill for every player")
        raise BookgenError(Finding("--player", problem, told("leave it out, or give a number")))
    try:
        drill = Drill.parse_key(which)
    except ValueError as error:
        raise BookgenError(Finding("KEY", why(error), MEND)) from error
    return planned(drill, 1, NO_LINK, None, size, {}, find)


def plan_of_number(
    folder: StudioFolder, number: int, player: str | None, size: str | None, find: FindInstrument
) -> tuple[Plan, Instrument]:
    """A plan of a player's drill by its number.

    Raises:
        BookgenError: the player has no such drill, or this bookgen does not know it.
    """
    with folder.log(make=False) as log:
        who = one_player(folder, log, player)
        found = next((kept for kept in log.drills(who) if number in kept.numbers), None)
        known = log.named(who)
    drill = known_drill(found, number, who)
    roster = folder.studio.players.get(who)
    if size is None and roster is not None and roster.instrument == drill.instrument:
        size = roster.size
    link = found.link if found is not None and found.link is not None else NO_LINK
    return planned(drill, found.number if found else number, link, who, size, known, find)


def known_drill(found: KeptDrill | None, number: int, player: str) -> Drill:
    """The drill that the log keeps under a number.

    Raises:
        BookgenError: there is none, or this bookgen does not know it.
    """
    mend = told("`bookgen log --show` lists the drills with their numbers")
    if found is None:
        problem = told("no drill of {player} has the number {number}", player=player, number=number)
        raise BookgenError(Finding("NUMBER", problem, mend))
    if found.drill is None:
        problem = told("this bookgen does not know {key}", key=repr(found.key))
        raise BookgenError(Finding("NUMBER", problem, mend))
    return found.drill


def planned(
    drill: Drill,
    number: int,
    link: Link,
    player: str | None,
    size: str | None,
    known: Mapping[int, Drill],
    find: FindInstrument,
) -> tuple[Plan, Instrument]:
    """A plan of one drill.

    known: drills by their numbers, for its link.

    Raises:
        BookgenError: the hand or the instrument cannot play it, or there is no such size.
    """
    instrument = instrument_of_drill(drill, find, "KEY")
    try:
        size = size or instrument.sizes[0].name
        instrument.size(size)
        entry = entry_of(drill, instrument, number, link)
    except ValueError as error:
        raise BookgenError(Finding("KEY", why(error), MEND)) from error
    plan = Plan(
        instrument=instrument.key,
        size=size,
        player=player,
        seed=0,
        drills=(entry,),
        earlier=earlier_of([entry], [], known),
    )
    return plan, instrument


def maker(path: Path) -> "Make":
    """What makes a file with this ending.

    Raises:
        BookgenError: nothing does.
    """
    ending = path.suffix.lower()
    if ending not in MAKERS:
        problem = told("no form with the ending {ending}", ending=repr(ending))
        raise BookgenError(Finding("--out", problem, choose(ending, list(MAKERS))))
    return MAKERS[ending]


def as_pdf(order: Order) -> bytes:
    """The drill's block on a page cut to it."""
    return book_of(order.plan, order.instrument, order.look).made(order.busy).pages


def as_png(order: Order) -> bytes:
    """The block as a picture."""
    from bookgen.binder.page.picture import png  # noqa: PLC0415

    return png(as_pdf(order))


def as_lilypond(order: Order) -> bytes:
    """The LilyPond source of the notation; fonts are looked for in `fonts` beside it."""
    from bookgen.notation.source import lilypond_source  # noqa: PLC0415

    style = style_of(order.look)
    return lilypond_source([order.score], order.instrument, style).encode()


def as_svg(order: Order) -> bytes:
    """The notation as a scalable picture."""
    from bookgen.notation.lilypond import Workshop, find_lilypond  # noqa: PLC0415
    from bookgen.notation.svg import svg_of  # noqa: PLC0415

    style = style_of(order.look)
    with working_folder() as folder:
        shop = Workshop(find_lilypond(), folder)
        return svg_of(order.score, order.instrument, style, shop, timeout=LEAST_SECONDS).encode()


def as_sound(order: Order) -> bytes:
    """The drill in a form that sounds, or that a notation program opens."""
    speech = order.look.speech
    return sounding(order.plan, "", order.instrument, speech, order.wish, order.path)


Make = Callable[[Order], bytes]

MAKERS: Final[Mapping[str, Make]] = {
    ".pdf": as_pdf,
    ".png": as_png,
    ".svg": as_svg,
    ".ly": as_lilypond,
    **dict.fromkeys(SOUNDS, as_sound),
}
