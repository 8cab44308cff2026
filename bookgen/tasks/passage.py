"""A hard passage taken apart: its fingering, and the pages that lead there."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from pathlib import Path
from typing import TYPE_CHECKING, Final

from bookgen.errors import BookgenError, Finding, told
from bookgen.model.costs import Preference
from bookgen.model.drill import Drill
from bookgen.plan.document import Binding
from bookgen.plan.passage import Passage
from bookgen.readers.studio.passages import bars_of
from bookgen.studio.practice_log import PracticeLog
from bookgen.tasks.busy import Busy
from bookgen.tasks.look import Look, Made, PageWish, inputs_of, look, places_of
from bookgen.tasks.pages import besides, publish
from bookgen.tasks.places import Place, refuse_places
from bookgen.tasks.plans import TRIES, known_of, taken_again
from bookgen.tasks.pressed import SCREEN
from bookgen.tasks.roster import chosen_player, file_stem, player_stem
from bookgen.tasks.studio_folder import StudioFolder
from bookgen.tasks.wish import NOTHING_KNOWN, Asked, Taste, Wish, asked_of

if TYPE_CHECKING:
    from bookgen.readers.score.passage import PassageFile

ENDINGS: Final = (".pdf", ".musicxml", ".mid")

MOST_SPOTS: Final = 200
"""More is no choice any more."""


@dataclass(frozen=True, slots=True)
class PassageWish:
    """Which bars of which file, and what the player would rather have.

    bars, part, prefer, spots: as the user writes them, or None.
    all_hands: drills for every frame besides.
    """

    file: Path
    bars: str | None = None
    part: str | None = None
    prefer: str | None = None
    spots: str | None = None
    all_hands: bool = False


def make_passage(
    folder: StudioFolder, wish: Wish, wanted: PassageWish, pages: PageWish, day: Date, busy: Busy
) -> Made:
    """Read, solve and engrave a passage.

    day: from what is known then, the way begins.
    Returns what was written, and what could not be read or played while the rest was done.

    Raises:
        BookgenError: the file cannot be read, or something else that was wished is wrong.
    """
    from bookgen.readers.score.kinds import read_passage  # noqa: PLC0415

    taste = Taste(preference(wanted.prefer), spot_count(wanted.spots), wanted.all_hands)
    player = chosen_player(folder, wish.player, wish.instrument)
    asked = asked_of(player, wish, folder.path)
    source = folder.path / wanted.file
    whose = f"{player_stem(player, folder.studio)}-" if player.name else ""
    usual = folder.output / f"{whose}{file_stem(source.stem)}-passage{SCREEN * pages.screen}.pdf"
    path = folder.path / pages.out if pages.out else usual
    inputs = [*inputs_of(folder, pages), source]
    refuse_places(places_of(folder, pages, [Place("--out", path, ENDINGS)]), inputs)
    appearance = look(folder, pages, Binding(book="sheet"), player)
    file = read_passage(
        source, asked.instrument.reading, part=wanted.part, bars=bars_of(wanted.bars)
    )
    with busy(told("looking for the best fingering …")), folder.log_of(player) as log:
        passage = numbered(file, asked, log, day, taste)
    publish(files_of(passage, asked, path, folder, pages, appearance, busy), inputs)
    unplayable = (
        told("{title}, bar {bar}: {why}", title=file.title, bar=bar, why=why)
        for bar, why in passage.best.unplayable
    )
    return Made((path,), (*file.findings, *unplayable))


def numbered(
    file: "PassageFile",
    asked: Asked,
    log: PracticeLog | None,
    day: Date,
    taste: Taste,
) -> Passage:
    """The passage with its drills, each under its own number, which is reserved.

    Raises:
        BookgenError: other commands print for the player all the time.
    """
    from bookgen.tasks.pieces import passage_of  # noqa: PLC0415  the solver

    if log is None or asked.name is None:
        return passage_of(file, asked, NOTHING_KNOWN, day, taste)
    for _ in range(TRIES):
        passage = passage_of(file, asked, known_of(log, asked.name), day, taste)
        numbers = numbers_in(passage)
        if log.reserve(asked.name, numbers) == numbers:
            return passage
    raise BookgenError(taken_again(asked.name))


def numbers_in(passage: Passage) -> dict[Drill, int]:
    """The drills of the passage's pages with their numbers."""
    if passage.plan is None:
        return {}
    return {entry.drill: entry.number for entry in passage.plan.drills}


def spot_count(given: str | None) -> int | None:
    """How many hard spots are wanted.

    Raises:
        BookgenError: it is no number of spots.
    """
    if given is None:
        return None
    if not given.isascii() or not given.isdigit() or not 1 <= int(given) <= MOST_SPOTS:
        problem = told("{given} is no number of hard spots", given=repr(given))
        raise BookgenError(Finding("--spots", problem, told("give 1 to {most}", most=MOST_SPOTS)))
    return int(given)


def preference(name: str | None) -> Preference | None:
    """What the player would rather have.

    Raises:
        BookgenError: there is no such preference.
    """
    if name is None:
        return None
    if name not in tuple(Preference):
        problem = told("no preference {name}", name=repr(name))
        mend = told("choose {names}", names=", ".join(Preference))
        raise BookgenError(Finding("--prefer", problem, mend))
    return Preference(name)


def files_of(
    passage: Passage,
    asked: Asked,
    path: Path,
    folder: StudioFolder,
    pages: PageWish,
    wanted: Look,
    busy: Busy,
) -> Iterator[tuple[Path, bytes]]:
    """The pages, the MusicXML or the MIDI, and the placements as JSON where they are wanted.

    Raises:
        BookgenError: something does not fit its page.
    """
    from bookgen.plan.passage_encoder import encode_passage  # noqa: PLC0415

    sources = None
    if path.suffix.lower() == ".musicxml":
        from bookgen.notation.musicxml import passage_musicxml  # noqa: PLC0415

        yield path, passage_musicxml(passage, asked.instrument.reading)
    elif path.suffix.lower() == ".mid":
        from bookgen.notation.passage_midi import passage_midi  # noqa: PLC0415

        yield path, passage_midi(passage.heard, asked.instrument)
    else:
        from bookgen.tasks.passage_pages import pages_of  # noqa: PLC0415

        made, sources = pages_of(passage, asked.instrument, wanted, busy)
        yield path, made
    yield from besides(folder, pages, encode_passage(passage).encode(), sources)
