"""How pages look and where they go: layout, paper, language; what the user says of them."""

import dataclasses
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from msgspec.structs import replace

from bookgen.binder.page.desk import Desk, desk_of
from bookgen.binder.page.layout import Layout
from bookgen.binder.page.paper import PAPERS
from bookgen.errors import BookgenError, Finding, Said, told, within
from bookgen.model.instrument import Instrument
from bookgen.plan.document import Binding
from bookgen.readers.layout import layout_names, read_layout
from bookgen.readers.names import named
from bookgen.readers.studio.file import Player, Studio
from bookgen.tasks.cache import Cache
from bookgen.tasks.places import Place, files_in
from bookgen.tasks.pressed import PressWish, profiles
from bookgen.tasks.roster import choose, place_of
from bookgen.tasks.studio_folder import STUDIO_NAME, StudioFolder
from bookgen.words.speech import SOURCE, Speech, languages, speech_of

ORDINARY_LAYOUT: Final = "ordinary"
ORDINARY_PAPER: Final = "a4"
FIRST_SOURCE: Final = "drills-1.ly"

MEMORY: Final = "-from-memory"
"""At the end of a file's name whose notes are to be remembered."""


@dataclass(frozen=True, slots=True)
class PageWish:
    """What the user says of pages; paths are relative to the studio's folder.

    out: where the result goes, or None for its usual place.
    paper, layout, language: None where the studio or the ordinary choice decides.
    plan: where the plan document goes, or None.
    keep_ly: folder for the LilyPond source, or None.
    tempo: quarter notes a minute of a file that sounds, or None.
    cache: where engraved music is kept, or None.
    press: for the book of a printing house, or None.
    screen: pages that tell what is read on them.
    """

    out: Path | None = None
    paper: str | None = None
    layout: str | None = None
    language: str | None = None
    plan: Path | None = None
    keep_ly: Path | None = None
    cents: bool = False
    from_memory: bool = False
    tempo: int | None = None
    cache: Cache | None = None
    press: PressWish | None = None
    screen: bool = False


@dataclass(frozen=True, slots=True)
class Made:
    """What a task has made, and what the user ought to know of it."""

    paths: tuple[Path, ...]
    told: tuple[Said | Finding, ...] = ()


@dataclass(frozen=True, slots=True)
class Look:
    """How pages look.

    binding: how the book is bound, as its plan document tells it; the layout is named there as
        the user named it.
    cache: where engraved music is kept, or None.
    screen: pages tell what is read on them.
    """

    layout: Layout
    binding: Binding
    cache: Cache | None = None
    screen: bool = False

    @property
    def paper(self) -> str:
        """The paper's name."""
        return self.binding.paper

    def on(self, paper: str) -> "Look":
        """The same on another paper."""
        return dataclasses.replace(self, binding=replace(self.binding, paper=paper))

    def spoken(self, language: str, *, from_memory: bool) -> "Look":
        """The same in another language, with the notes to be remembered or not."""
        binding = replace(self.binding, language=language, from_memory=from_memory)
        return dataclasses.replace(self, binding=binding)

    @property
    def speech(self) -> Speech:
        """The language of the pages."""
        return speech_of(self.binding.language)

    def desk(self, instrument: Instrument, size: str) -> Desk:
        """What every page of a book needs."""
        studio, screen = self.binding.studio, self.screen
        return desk_of(
            instrument, size, self.layout, self.paper, self.speech, studio, screen=screen
        )


def look(
    folder: StudioFolder, wish: PageWish, binding: Binding, player: Player | None = None
) -> Look:
    """The look that was asked for; what the wish leaves open the player or the studio decides.

    binding: which book it is; paper, layout and all else that the wish says are filled in.

    Raises:
        BookgenError: there is no such layout or paper, or the layout's file is damaged.
    """
    studio = folder.studio
    place, name = chosen("layout", wish, player, studio, ORDINARY_LAYOUT)
    spoken = chosen("language", wish, player, studio, SOURCE)
    paper_place = "--paper" if wish.paper is not None else f"{STUDIO_NAME}, paper"
    paper = wish.paper if wish.paper is not None else studio.paper or ORDINARY_PAPER
    filled = replace(
        binding,
        paper=known_paper(paper_place, paper),
        layout=name,
        language=known_language(*spoken),
        studio=studio.name,
        cents=wish.cents,
        from_memory=wish.from_memory,
    )
    return Look(layout_of(folder, name, place), filled, wish.cache, wish.screen)


def chosen(
    key: str, wish: PageWish, player: Player | None, studio: Studio, usual: str
) -> tuple[Said, str]:
    """What the wish says of the pages, else the player, else the studio; and where it stands."""
    own = place_of(player, key) if player else ""
    for place, one in ((f"--{key}", wish), (own, player), (f"{STUDIO_NAME}, {key}", studio)):
        given: str | None = getattr(one, key, None)
        if given is not None:
            return place, given
    return "", usual


def look_again(folder: StudioFolder, wish: PageWish, binding: Binding, place: Said) -> Look:
    """The look of a book that was bound before, where the wish does not say otherwise.

    place: where the binding stands, as the user knows it.

    Raises:
        BookgenError: there is no such layout or paper, or the layout's file is damaged.
    """
    filled = replace(
        binding,
        paper=known_paper(
            "--paper" if wish.paper is not None else told("{file}, binding.paper", file=place),
            wish.paper if wish.paper is not None else binding.paper,
        ),
        layout=wish.layout if wish.layout is not None else binding.layout,
        language=known_language(
            "--language" if wish.language is not None else within(place, "binding.language"),
            wish.language if wish.language is not None else binding.language,
        ),
        cents=wish.cents or binding.cents,
        from_memory=wish.from_memory or binding.from_memory,
    )
    where = "--layout" if wish.layout is not None else told("{file}, binding.layout", file=place)
    return Look(layout_of(folder, filled.layout, where), filled, wish.cache, wish.screen)


def layout_of(folder: StudioFolder, name: str, place: Said) -> Layout:
    """A layout by its name, or by a path from the studio's folder.

    Raises:
        BookgenError: there is none, or its file is damaged.
    """
    path = name if name in layout_names() else str(folder.path / name)
    return read_layout(path, place)


def known_language(place: Said, name: str) -> str:
    """A language that has a catalogue.

    Raises:
        BookgenError: there is none.
    """
    if name not in languages():
        problem = told("there is no catalogue of the language {name}", name=repr(name))
        raise BookgenError(Finding(place, problem, choose(name, languages())))
    return name


def known_paper(place: Said, name: str) -> str:
    """The name of a paper.

    Raises:
        BookgenError: there is no such paper.
    """
    paper = named(name, PAPERS)
    if paper is None:
        problem = told("no paper {name}", name=repr(name))
        raise BookgenError(Finding(place, problem, choose(name, sorted(PAPERS))))
    return paper


def places_of(folder: StudioFolder, wish: PageWish, made: Sequence[Place]) -> list[Place]:
    """The files that a task is to write: what it makes, its plan document, its first source."""
    places = list(made)
    if wish.plan is not None:
        places.append(Place("--plan", folder.path / wish.plan, (".json",)))
    if wish.keep_ly is not None:
        places.append(Place("--keep-ly", folder.path / wish.keep_ly / FIRST_SOURCE))
    return places


def inputs_of(folder: StudioFolder, wish: PageWish) -> Iterator[Path]:
    """The files that every task reads: passages of the roster, one's own layouts, a profile."""
    yield from profiles(folder.path, wish.press)
    players = folder.studio.players.values()
    for player in players:
        yield from (folder.path / piece.file for piece in player.pieces)
    own = wish.layout, folder.studio.layout, *(player.layout for player in players)
    for layout in {*own} - {None, *layout_names()}:
        yield from files_in(folder.path / str(layout))
