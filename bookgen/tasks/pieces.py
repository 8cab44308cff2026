"""Passages of real pieces on their way to the planner and the page: read, solved, laddered."""

from collections.abc import Iterator
from datetime import date as Date  # noqa: N812

from msgspec.structs import replace

from bookgen.errors import BookgenError, Finding, Said, told
from bookgen.model.costs import Preference
from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.phrase import Phrase
from bookgen.model.spelled_like import Spelling, spelling_of
from bookgen.passage.groups import grouped
from bookgen.passage.program import Comes, climbs, drill_plan, way_there
from bookgen.passage.solve import Solutions, solve
from bookgen.plan.ahead import Deadline
from bookgen.plan.heard import heard
from bookgen.plan.passage import Fingering, Passage
from bookgen.plan.supplement import Piece as BookPiece
from bookgen.planner.request import Goal
from bookgen.readers.fingering import read_costs
from bookgen.readers.score.kinds import read_passage
from bookgen.readers.score.musicxml import musicxml_passage
from bookgen.readers.score.passage import PassageFile, Wanted
from bookgen.readers.spots import read_spots
from bookgen.readers.studio.passages import Piece
from bookgen.readers.weights import read_weights
from bookgen.tasks.studio_folder import STUDIO_NAME
from bookgen.tasks.wish import Asked, Known, Taste


def comes_from(asked: Asked, known: Known, day: Date) -> Comes:
    """From where a player comes: what is on record, or else the hand with which they begin."""
    request = asked.request(day, known)
    secure = request.secure or (asked.player.start(asked.instrument),)
    return Comes(secure, tuple(known.records), day, read_weights())


def passage_of(file: PassageFile, asked: Asked, known: Known, day: Date, taste: Taste) -> Passage:
    """The fingering of a passage with its frames, its hard spots and the ladders to them."""
    comes, instrument, phrase = comes_from(asked, known, day), asked.instrument, file.phrase
    found = fingered(file, asked, taste.prefer)
    read = instrument.reading
    best = grouped(found.best, phrase, read)
    other = None if found.other is None else grouped(found.other, phrase, read)
    sounding = heard(phrase, best, instrument)
    way = way_there(
        best,
        sounding,
        instrument,
        comes,
        read_spots(),
        most=taste.spots,
        all_hands=taste.all_hands,
    )
    numbers, first = known.numbers, known.first_number
    spelling = spelling_for(phrase, instrument)
    plan = drill_plan(way.ladders, instrument, asked.size, comes, numbers, first, spelling)
    return Passage(
        title=file.title,
        instrument=instrument.key,
        size=asked.size,
        phrase=phrase,
        best=best,
        other=other,
        spots=way.spots,
        easier=way.easier,
        ladders=way.ladders,
        plan=plan and replace(plan, player=asked.name),
        composer=file.composer,
        sounding=None if sounding is phrase else sounding,
    )


def fingered(file: PassageFile, asked: Asked, prefer: Preference | None) -> Solutions:
    """The best ways to play a passage, in the player's own positions where we know them."""
    own = None if asked.is_stranger else frozenset(asked.player.cover.positions)
    read = asked.instrument.reading
    return solve(file.phrase, read, read_costs(), prefer=prefer, positions=own)


def spelling_for(phrase: Phrase, instrument: Instrument) -> Spelling:
    """The piece's names of notes; none where drills sound otherwise than it is written."""
    return spelling_of(phrase) if instrument.written is None else {}


def goals_of(asked: Asked, known: Known, first: Date) -> tuple[Goal, ...]:
    """What a player works towards on a day and after it.

    Raises:
        BookgenError: a passage on the roster cannot be read.
    """
    comes = comes_from(asked, known, first)
    return tuple(goals(asked, comes))


def goals(asked: Asked, comes: Comes) -> Iterator[Goal]:
    """The ladders of the player's passages that are still to be ready, as goals.

    Raises:
        BookgenError: a passage on the roster cannot be read.
    """
    for number, piece in enumerate(asked.player.pieces, start=1):
        if piece.ready_by < comes.date:
            continue
        place = told(
            '{file}, player "{name}", passage {number}',
            file=STUDIO_NAME,
            name=asked.player.name,
            number=number,
        )
        file = piece_of(piece, asked, place)
        found = fingered(file, asked, piece.prefer)
        best = grouped(found.best, file.phrase, asked.instrument.reading)
        sounding = heard(file.phrase, best, asked.instrument)
        drills = drills_to(best, sounding, asked.instrument, comes)
        passage = played_of(file, best, asked.instrument, asked.size)
        spelling = spelling_for(file.phrase, asked.instrument)
        yield Goal(file.title, piece.bars, piece.ready_by, drills, spelling, passage)


def played_of(file: PassageFile, best: Fingering, instrument: Instrument, size: str) -> Passage:
    """A passage with its fingering alone."""
    return Passage(
        title=file.title,
        instrument=instrument.key,
        size=size,
        phrase=file.phrase,
        best=best,
        other=None,
        composer=file.composer,
    )


def passage_in(one: Deadline | BookPiece, instrument: Instrument, size: str) -> Passage:
    """The bars of a piece as a plan's binding has them, with the fingers that are written there.

    Raises:
        BookgenError: it is no music of the instrument.
    """
    read = instrument.reading
    wanted = Wanted(one.title, one.title, read, own=True)
    file = musicxml_passage(one.music.encode(), wanted)
    found = solve(file.phrase, read, read_costs())
    return played_of(file, grouped(found.best, file.phrase, read), instrument, size)


def drills_to(
    best: Fingering, phrase: Phrase, instrument: Instrument, comes: Comes
) -> tuple[Drill, ...]:
    """The whole way to the hard spots of a passage; where it has none, to its frames."""
    for all_hands in (False, True):
        way = way_there(best, phrase, instrument, comes, read_spots(), all_hands=all_hands)
        drills = climbs(way.ladders, instrument, comes)
        if drills:
            return drills
    return ()


def piece_of(piece: Piece, asked: Asked, place: Said) -> PassageFile:
    """Read a passage on the roster.

    Raises:
        BookgenError: it cannot be read; the finding names player and passage.
    """
    try:
        file = asked.folder / piece.file
        read = asked.instrument.reading
        return read_passage(file, read, part=piece.part, bars=piece.bars)
    except BookgenError as error:
        findings = [
            Finding(
                told("{passage}, {inside}", passage=place, inside=one.place), one.problem, one.mend
            )
            for one in error.findings
        ]
        raise BookgenError(*findings) from error
