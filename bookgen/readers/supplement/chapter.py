"""What a chapter of a book's spec asks for, checked against the instruments that it is for."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise, product
from math import inf
from typing import Final

from bookgen.errors import Message, Said, open_sentence, told, why
from bookgen.model.costs import Preference
from bookgen.model.drill import Drill, Lead
from bookgen.model.finger import THUMB_SIGN, fingers_in
from bookgen.model.instrument import NUMERALS, Instrument
from bookgen.model.position import THUMB_POSITION
from bookgen.model.route import Return
from bookgen.model.spacing import Frame, Spacing
from bookgen.model.units import StringNumber
from bookgen.readers.hands import (
    crowded,
    every_hand,
    positions_of,
    takes_all,
    usual_pairs,
)
from bookgen.readers.instrument import instrument_keys
from bookgen.readers.shown import shown
from bookgen.readers.studio.passages import bars_of
from bookgen.readers.supplement.tables import ChapterTable

Wrong = tuple[str, Said, Said]
"""A key of the chapter, what is wrong with it, and what mends it."""

EVERY: Final = "every"
WAY: Final = "way"
PICKED: Final = "picked"
PASSAGE: Final = "passage"

ANY: Final = (0.0, inf)
"""Drills of every difficulty."""

NO_HAND: Final = open_sentence("none of the instruments has a hand {name}")
NO_POSITION: Final = open_sentence("none of the instruments has a position {name}")


@dataclass(frozen=True, slots=True)
class Search:
    """What the drills of one instrument have in common.

    positions: labels, or None for everywhere; strings: runs from the lowest up.
    """

    frames: tuple[Frame, ...]
    positions: frozenset[str] | None
    strings: tuple[tuple[StringNumber, ...], ...]
    stages: frozenset[int]
    leads: frozenset[Lead]
    backs: frozenset[Return]


@dataclass(frozen=True, slots=True)
class Excerpt:
    """Which bars of which file a chapter leads to, and how they are fingered.

    file: as written, from the folder of the spec; bars: first and last, as printed; None takes
        the whole file. part: None takes the instrument's own.
    spots: how many hard spots; None takes as many as suit the length.
    """

    file: str
    bars: tuple[str, str] | None
    part: str | None
    prefer: Preference | None
    spots: int | None


@dataclass(frozen=True, slots=True)
class Chapter:
    """A chapter of a spec.

    take: "every", "way", "picked" or "passage"; order: words by which its drills are sorted.
    difficulty: of its drills, at least and at most.
    searches: by instruments; picked: the drills of each instrument.
    """

    instruments: tuple[str, ...]
    take: str
    order: tuple[str, ...]
    limit: int | None
    difficulty: tuple[float, float]
    searches: Mapping[str, Search]
    picked: Mapping[str, Sequence[Drill]]
    excerpt: Excerpt | None


def chapter_of(
    table: ChapterTable, instruments: Mapping[str, Instrument]
) -> tuple[Chapter, list[Wrong]]:
    """A chapter, and everything that is wrong with it.

    instruments: those that the chapter is for, by their keys.
    """
    drills, wrong = picked_of(table.drills, instruments)
    wrong = [*wrong, *contradictions(table), *unknown_names(table, instruments)]
    wrong += string_faults(table, instruments)
    asks = table.take in {EVERY, WAY}
    searches = (
        {}
        if not asks or wrong
        else {key: search_of(table, one) for key, one in instruments.items()}
    )
    return (
        Chapter(
            instruments=tuple(instruments),
            take=table.take,
            order=tuple(dict.fromkeys(table.order or ())),
            limit=table.limit,
            difficulty=bounds_of(table),
            searches=searches,
            picked=drills,
            excerpt=excerpt_of(table),
        ),
        wrong,
    )


def excerpt_of(table: ChapterTable) -> Excerpt | None:
    """The bars that the chapter leads to, or None."""
    if table.take != PASSAGE or table.file is None:
        return None
    prefer = None if table.prefer is None else Preference(table.prefer)
    return Excerpt(table.file, bars_of(table.bars), table.part, prefer, table.spots)


def bounds_of(table: ChapterTable) -> tuple[float, float]:
    """The difficulty of the chapter's drills, at least and at most."""
    match table.difficulty:
        case None:
            return ANY
        case (least, most):
            return least, most
        case most:
            return 0.0, most


def contradictions(table: ChapterTable) -> Iterator[Wrong]:
    """Keys that do not go together."""
    if table.take == PICKED and not table.drills:
        yield (
            "drills",
            told("the chapter picks no drills"),
            told("write their keys, in their order"),
        )
    if table.take != PICKED and table.drills:
        mend = told('write take = "picked", or leave them out')
        yield "drills", told("drills are picked, but others are taken"), mend
    least, most = bounds_of(table)
    if not 0 <= least <= most:
        problem = told(
            "there is nothing from {least} to {most}", least=f"{least:g}", most=f"{most:g}"
        )
        yield "difficulty", problem, told("write two numbers from 0 on, the lower one first")
    yield from of_others(table)
    if table.take != EVERY and table.order is not None:
        problem = told("the chapter has an order of its own")
        yield "order", problem, told('leave it out, or write take = "every"')


def of_others(table: ChapterTable) -> Iterator[Wrong]:
    """Keys of chapters that take their drills in another way."""
    if table.take == PASSAGE and table.file is None:
        yield (
            "file",
            told("the chapter has no passage"),
            told('write e.g. file = "minuet.musicxml"'),
        )
    queried = ("hands", "positions", "strings", "difficulty")
    own = {PASSAGE: queried, PICKED: ("difficulty",)}
    of_passage = ("file", "bars", "part", "prefer", "spots")
    for key in own.get(table.take, ()):
        if getattr(table, key) is not None:
            problem = told("the drills of this chapter are not looked for")
            yield key, problem, told('leave it out, or write take = "every"')
    if table.take != PASSAGE:
        for key in of_passage:
            if getattr(table, key) is not None:
                problem = told("the chapter leads to no passage")
                yield key, problem, told('write take = "passage", or leave it out')


def unknown_names(table: ChapterTable, instruments: Mapping[str, Instrument]) -> Iterator[Wrong]:
    """Hands and positions that none of the instruments has."""
    kinds: tuple[
        tuple[str, Sequence[str] | None, Message, Callable[[Instrument], Sequence[str]]], ...
    ] = (
        ("hands", table.hands, NO_HAND, every_hand),
        ("positions", table.positions, NO_POSITION, positions_of),
    )
    for key, given, problem, names_of in kinds:
        known = dict.fromkeys(name for one in instruments.values() for name in names_of(one))
        for name in (given or ()) if known else ():
            if name not in known:
                mend = told("choose {known}", known=", ".join(known))
                yield key, problem.about(name=shown(name)), mend


def string_faults(table: ChapterTable, instruments: Mapping[str, Instrument]) -> Iterator[Wrong]:
    """Runs of strings that no instrument has, or that are no neighbours."""
    most = max((len(one.strings) for one in instruments.values()), default=0)
    for run in table.strings or ():
        numbers = strings_of(run)
        if any(low - high != 1 for low, high in pairwise(numbers)):
            problem = told("{strings} are no neighbours from the lowest up", strings=" ".join(run))
            yield "strings", problem, told('write e.g. [["IV", "III", "II"]]')
        elif most and max(numbers) > most:
            problem = told("none of the instruments has a string {name}", name=run[0])
            yield (
                "strings",
                problem,
                told("choose {known}", known=", ".join(NUMERALS[1 : most + 1])),
            )


def search_of(table: ChapterTable, instrument: Instrument) -> Search:
    """What the chapter asks for on one instrument."""
    own = tuple(map(strings_of, table.strings or ()))
    count = len(instrument.strings)
    return Search(
        frames=tuple(frames_of(table, instrument)),
        positions=where(table, instrument),
        strings=tuple(run for run in own if max(run) <= count) or ()
        if own
        else (instrument.string_numbers(),),
        stages=frozenset(table.stages),
        leads=frozenset(map(Lead, table.leads)),
        backs=frozenset(map(Return, table.returns)),
    )


def where(table: ChapterTable, instrument: Instrument) -> frozenset[str] | None:
    """The positions of a chapter, None is everywhere; the thumb comes where it is asked for."""
    if table.positions is not None:
        return frozenset(table.positions)
    everywhere = positions_of(instrument)
    if THUMB_POSITION not in everywhere or any(THUMB_SIGN in hand for hand in table.hands or ()):
        return None
    return frozenset(everywhere) - {THUMB_POSITION}


def frames_of(table: ChapterTable, instrument: Instrument) -> Iterator[Frame]:
    """Every hand with every spacing that the instrument's hand takes without a stretch."""
    positions = where(table, instrument) or positions_of(instrument)
    hands = table.hands or usual_pairs(instrument, tuple(positions))
    spacings = tuple(map(Spacing.parse, dict.fromkeys(table.spacings)))
    for hand in dict.fromkeys(hands):
        for between in product(spacings, repeat=len(hand) - 1):
            frame = Frame(fingers_in(hand), between)
            if takes_all(instrument, frame) and not crowded(instrument, frame):
                yield frame


def strings_of(run: Sequence[str]) -> tuple[StringNumber, ...]:
    """Strings by their numerals."""
    return tuple(StringNumber(NUMERALS.index(numeral)) for numeral in run)


def picked_of(
    keys: Sequence[str], instruments: Mapping[str, Instrument]
) -> tuple[dict[str, list[Drill]], list[Wrong]]:
    """The drills of keys, which may leave the instrument out; each instrument has its own.

    One that names no instrument must be playable on one of them at least.
    """
    found: dict[str, list[Drill]] = {key: [] for key in instruments}
    wrong: list[Wrong] = []
    for given in dict.fromkeys(keys):
        refusal: Said | None = None
        taken = False
        own = given.partition("-")[0] in {*instruments, *instrument_keys()}
        for name, instrument in instruments.items():
            if own and not given.startswith(f"{name}-"):
                continue
            try:
                drill = Drill.parse_key(given if own else f"{name}-{given}")
            except ValueError as error:
                refusal = why(error)
                continue
            refusal = drill.refusal(instrument) or refusal
            if drill.refusal(instrument) is None:
                found[name].append(drill)
                taken = True
        if not taken and instruments:
            problem = refusal or told("{key} is for another instrument", key=shown(given))
            mend = told("give the key of a drill that can be played")
            wrong.append(("drills", problem, mend))
    return found, wrong
