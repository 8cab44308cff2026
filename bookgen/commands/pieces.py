"""Passages of real pieces on their way to the planner and the page: read, solved, laddered."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path

from bookgen.commands.asking import Asked
from bookgen.commands.roster import STUDIO_FILE
from bookgen.errors import BookgenError, Finding
from bookgen.model.costs import Preference
from bookgen.model.instrument import Instrument
from bookgen.passage.groups import grouped
from bookgen.passage.program import Comes, drill_plan, ladders_to, needs_of
from bookgen.passage.solve import solve
from bookgen.plan.passage import Passage
from bookgen.plan.record import Record
from bookgen.planner.request import Goal
from bookgen.readers.fingering import read_costs
from bookgen.readers.score import read_passage
from bookgen.readers.score_passage import PassageFile
from bookgen.readers.studio_passages import Piece
from bookgen.readers.weights import read_weights


def comes_from(asked: Asked, records: Sequence[Record], day: date) -> Comes:
    """From where a player comes: what is on record, or else the hand with which they begin."""
    request = asked.request(day, tuple(records), 1)
    secure = request.secure or (asked.player.start(asked.instrument),)
    return Comes(secure, tuple(records), day, read_weights())


def passage_of(file: PassageFile, asked: Asked, comes: Comes, prefer: Preference | None) -> Passage:
    """The fingering of a passage with its groups and the ladders that lead to them."""
    instrument = asked.instrument
    found = solve(file.phrase, instrument, read_costs(), prefer=prefer)
    best = grouped(found.best, file.phrase, instrument)
    other = None if found.other is None else grouped(found.other, file.phrase, instrument)
    ladders = ladders_to(needs_of(best, file.phrase, instrument), instrument, comes)
    plan = drill_plan(ladders, instrument, asked.size, comes)
    if plan is not None:
        plan = replace(plan, player=asked.name)
    return Passage(
        title=file.title,
        instrument=instrument.key,
        size=asked.size,
        phrase=file.phrase,
        best=best,
        other=other,
        ladders=ladders,
        plan=plan,
    )


def goals_of(asked: Asked, records: Sequence[Record], first: date) -> tuple[Goal, ...]:
    """What a player works towards on a day and after it.

    Raises:
        BookgenError: a passage on the roster cannot be read.
    """
    comes = comes_from(asked, records, first)
    return tuple(goals(asked, comes))


def goals(asked: Asked, comes: Comes) -> Iterator[Goal]:
    """The ladders of the player's passages that are still to be ready, as goals.

    Raises:
        BookgenError: a passage on the roster cannot be read.
    """
    for number, piece in enumerate(asked.player.pieces, start=1):
        if piece.ready_by < comes.date:
            continue
        place = f'{STUDIO_FILE}, player "{asked.player.name}", passage {number}'
        file = piece_of(piece, asked.instrument, place)
        found = solve(file.phrase, asked.instrument, read_costs(), prefer=piece.prefer)
        best = grouped(found.best, file.phrase, asked.instrument)
        needs = needs_of(best, file.phrase, asked.instrument)
        ladders = ladders_to(needs, asked.instrument, comes)
        drills = tuple(drill for ladder in ladders for drill in ladder.drills)
        if drills:
            yield Goal(aim(file.title, piece.bars), piece.ready_by, drills)


def piece_of(piece: Piece, instrument: Instrument, place: str) -> PassageFile:
    """Read a passage on the roster.

    Raises:
        BookgenError: it cannot be read; the finding names player and passage.
    """
    try:
        return read_passage(Path(piece.file), instrument, part=piece.part, bars=piece.bars)
    except BookgenError as error:
        findings = [
            Finding(f"{place}, {one.place}", one.problem, one.mend) for one in error.findings
        ]
        raise BookgenError(*findings) from error


def aim(title: str, bars: tuple[str, str] | None) -> str:
    """A passage as it stands in a link line.

    >>> aim("Minuet", ("5", "8")), aim("Minuet", ("5", "5")), aim("Minuet", None)
    ('Minuet, bars 5 to 8', 'Minuet, bar 5', 'Minuet')
    """
    if bars is None:
        return title
    first, last = bars
    return f"{title}, bar {first}" if first == last else f"{title}, bars {first} to {last}"
