"""The passages of a book: read, fingered, and laddered for whoever opens it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date as Date  # noqa: N812
from typing import Final

from bookgen.errors import BookgenError, Finding, told
from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.naming import Names
from bookgen.model.spelled_like import names_like, spelling_of
from bookgen.notation.musicxml import passage_musicxml
from bookgen.passage.groups import grouped
from bookgen.passage.program import Comes, way_there
from bookgen.passage.solve import solve
from bookgen.plan.passage import Passage
from bookgen.plan.supplement import Piece
from bookgen.readers.fingering import read_costs
from bookgen.readers.score.kinds import read_passage
from bookgen.readers.spots import read_spots
from bookgen.readers.supplement.chapter import Excerpt
from bookgen.readers.supplement.spec import Spec
from bookgen.readers.weights import read_weights
from bookgen.tasks.pieces import passage_in, played_of

NO_DAY: Final = Date(2000, 1, 1)
"""A book is for readers of whom nothing is on record, so that no day counts."""


@dataclass(frozen=True, slots=True)
class Led:
    """A passage of a chapter on one instrument: as its plan keeps it, and the way there."""

    piece: Piece
    passage: Passage

    @property
    def drills(self) -> list[Drill]:
        """The drills that lead there, in the order of play."""
        return drills_to(self.passage)

    def names(self, instrument: Instrument) -> dict[Drill, Names | None]:
        """What the notes of these drills are called in the passage."""
        spelling = spelling_of(self.passage.phrase)
        return {drill: names_like(drill, instrument, spelling) for drill in self.drills}


Music = Mapping[tuple[int, str], Led]
"""By chapter, from 0, and by instrument."""


def music_of(spec: Spec) -> Music:
    """The passages of all chapters, on each of their instruments.

    Raises:
        BookgenError: one cannot be read; the findings name chapter and line.
    """
    found: dict[tuple[int, str], Led] = {}
    findings: list[Finding] = []
    for index, chapter in enumerate(spec.chapters):
        if chapter.excerpt is None:
            continue
        for key in chapter.instruments:
            try:
                found[index, key] = led(spec, index, chapter.excerpt, spec.instruments[key])
            except BookgenError as error:
                findings += error.findings
    if findings:
        raise BookgenError(*findings)
    return found


def led(spec: Spec, index: int, wanted: Excerpt, instrument: Instrument) -> Led:
    """A passage on an instrument, and the way there.

    Raises:
        BookgenError: it cannot be read, or is not for the instrument.
    """
    size = spec.sizes[instrument.key]
    try:
        path = spec.folder / wanted.file
        file = read_passage(path, instrument, part=wanted.part, bars=wanted.bars)
    except BookgenError as error:
        place = spec.place("file", index)
        raise BookgenError(
            *(
                Finding(
                    told("{place}: {inside}", place=place, inside=one.place), one.problem, one.mend
                )
                for one in error.findings
            )
        ) from error
    found = solve(file.phrase, instrument, read_costs(), prefer=wanted.prefer)
    best = grouped(found.best, file.phrase, instrument)
    music = passage_musicxml(played_of(file, best, instrument, size), instrument).decode()
    piece = Piece(title=file.title, music=music, spots=wanted.spots)
    return Led(piece, passage_of(piece, instrument, size))


def passage_of(piece: Piece, instrument: Instrument, size: str) -> Passage:
    """A passage as a plan keeps it, with its hard spots and the ladders that lead there.

    Where nothing in it is hard the drills lead to its frames.

    Raises:
        BookgenError: it is no music of the instrument.
    """
    passage = passage_in(piece, instrument, size)
    comes = Comes((), (), NO_DAY, read_weights())
    for all_hands in (False, True):
        way = way_there(
            passage.best,
            passage.phrase,
            instrument,
            comes,
            read_spots(),
            most=piece.spots,
            all_hands=all_hands,
        )
        passage = replace(passage, spots=way.spots, easier=way.easier, ladders=way.ladders)
        if drills_to(passage):
            break
    return passage


def drills_to(passage: Passage) -> list[Drill]:
    """The drills of all ladders, each once."""
    ladders: Sequence[Sequence[Drill]] = [ladder.drills for ladder in passage.ladders]
    return [*dict.fromkeys(drill for drills in ladders for drill in drills)]
