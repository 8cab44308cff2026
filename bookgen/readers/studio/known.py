"""What a player knows at the start, in studio.toml: hands in positions, to a stage."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Annotated

import msgspec

from bookgen.errors import Finding, Said, told, within
from bookgen.model.instrument import NUMERALS, Instrument
from bookgen.model.place import place_label
from bookgen.model.spacing import Frame, Spacing
from bookgen.model.units import StringNumber
from bookgen.readers.hands import (
    fingers_of,
    hands,
    pairs_of,
    positions_of,
    spacings_of,
    takes,
)
from bookgen.readers.shown import shown
from bookgen.readers.studio.area import NO_PAIR, NO_POSITION, NO_SPACING, Choice, Cover
from bookgen.readers.studio.tables import WORDS, Pair, SpacingWord, Text
from bookgen.readers.table import converted

Numerals = Annotated[tuple[Text, ...], msgspec.Meta(min_length=2)]


class KnownTable(msgspec.Struct):
    """`[[players.NAME.known]]`; what is None is all that the player is to cover."""

    positions: Annotated[tuple[Text, ...], msgspec.Meta(min_length=1)] | None = None
    pairs: Annotated[tuple[Pair, ...], msgspec.Meta(min_length=1)] | None = None
    spacings: Annotated[tuple[SpacingWord, ...], msgspec.Meta(min_length=1)] | None = None
    strings: Numerals | None = None
    stage: Annotated[int, msgspec.Meta(ge=1, le=5)] | None = None


@dataclass(frozen=True, slots=True)
class KnownHands:
    """Hands that a player knows when the log begins.

    positions: the trade's labels.
    strings: those on which the hands are known, from low to high; None is all of them.
    stage: up to this one they count as secure.
    """

    positions: tuple[str, ...]
    frames: tuple[Frame, ...]
    strings: tuple[StringNumber, ...] | None
    stage: int


def read_known(
    tables: Sequence[object],
    cover: Cover,
    instrument: Instrument,
    place: Said,
    findings: list[Finding],
) -> tuple[KnownHands, ...]:
    """What a player knows; everything that is wrong with it is added to the findings.

    place: file and player as the user knows them.
    """
    found = []
    for number, value in enumerate(tables, start=1):
        where = told("{place}, known {number}", place=place, number=number)
        faults: list[Finding] = []
        table = converted(value, KnownTable, where, faults, words=WORDS)
        if table.stage is None and isinstance(value, dict) and "stage" not in value:
            mend = told("write {example}", example="stage = 3")
            faults.append(Finding(within(where, "stage"), told("is missing"), mend))
        faults += unknown_names(table, instrument, where)
        findings += faults
        if not faults and table.stage is not None:
            known = known_hands(table, table.stage, cover, instrument)
            findings += idle(known, instrument, where)
            found.append(known)
    return tuple(found)


def unknown_names(table: KnownTable, instrument: Instrument, place: Said) -> Iterator[Finding]:
    """Findings for what the instrument does not have."""
    for choice in (
        Choice("positions", NO_POSITION, table.positions, positions_of(instrument)),
        Choice("pairs", NO_PAIR, table.pairs, pairs_of(instrument)),
        Choice("spacings", NO_SPACING, table.spacings, spacings_of(instrument)),
    ):
        yield from choice.findings(instrument, place)
    if table.strings is not None and not runs_up(table.strings, instrument):
        count = len(instrument.strings)
        problem = told(
            "{strings} are no neighbouring strings of the {instrument}",
            strings=", ".join(map(str, map(shown, table.strings))),
            instrument=instrument.key,
        )
        example = ", ".join(f'"{numeral}"' for numeral in reversed(NUMERALS[1 : count + 1]))
        mend = told("write the lowest first, e.g. [{example}]", example=example)
        yield Finding(within(place, "strings"), problem, mend)


def runs_up(names: Sequence[str], instrument: Instrument) -> bool:
    """Whether these are strings next to one another, the lowest first."""
    every = [NUMERALS[number] for number in instrument.string_numbers()]
    starts = range(len(every) - len(names) + 1)
    return any(every[start : start + len(names)] == list(names) for start in starts)


def known_hands(table: KnownTable, stage: int, cover: Cover, instrument: Instrument) -> KnownHands:
    """The hands of a table without faults; what it leaves open is taken from the area."""
    pairs = map(fingers_of, table.pairs) if table.pairs else cover.pairs
    spacings = tuple(map(Spacing.parse, table.spacings)) if table.spacings else cover.spacings
    numbers = tuple(StringNumber(NUMERALS.index(one)) for one in table.strings or ())
    return KnownHands(
        positions=table.positions or cover.positions,
        frames=tuple(
            Frame(pair, (spacing,))
            for pair in pairs
            for spacing in spacings
            if takes(instrument, pair, spacing)
        ),
        strings=numbers or None,
        stage=stage,
    )


def idle(known: KnownHands, instrument: Instrument, place: Said) -> Iterator[Finding]:
    """Findings for positions in which the hand takes none of the frames."""
    strings = instrument.string_numbers()
    labels = {
        place_label(drill, instrument)
        for frame in known.frames
        for drill in hands(frame, strings, instrument)
    }
    for position in known.positions:
        if position not in labels:
            problem = told("the hand takes none of these pairs in {position}", position=position)
            mend = told("choose other fingers or another position")
            yield Finding(within(place, "positions"), problem, mend)
