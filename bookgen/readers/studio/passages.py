"""The passages of a player in studio.toml: which bars of which file, and when they are wanted."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date as Date  # noqa: N812
from typing import Annotated

import msgspec

from bookgen.errors import Finding, Said, told, within
from bookgen.model.costs import Preference
from bookgen.readers.shown import shown, unknown
from bookgen.readers.studio.tables import WORDS, Text
from bookgen.readers.table import converted


class PassageTable(msgspec.Struct):
    """`[[players.NAME.passage]]`."""

    file: Text | None = None
    ready_by: Date | None = None
    bars: Annotated[str, msgspec.Meta(pattern=r"\A[^-]+(-[^-]+)?\Z")] | None = None
    part: Text | None = None
    prefer: Text | None = None


@dataclass(frozen=True, slots=True)
class Piece:
    """Some bars of a piece that a player works towards.

    file: as written, from the folder of studio.toml.
    ready_by: the last day of the way there.
    bars: first and last, as printed; None takes the whole file. part: None takes the player's.
    """

    file: str
    ready_by: Date
    bars: tuple[str, str] | None = None
    part: str | None = None
    prefer: Preference | None = None


def read_pieces(
    tables: Sequence[object], place: Said, findings: list[Finding]
) -> tuple[Piece, ...]:
    """A player's passages; everything that is wrong with them is added to the findings.

    place: file and player as the user knows them.
    """
    found = []
    for number, value in enumerate(tables, start=1):
        where = told("{place}, passage {number}", place=place, number=number)
        table = converted(value, PassageTable, where, findings, words=WORDS)
        prefer = preference(table.prefer, within(where, "prefer"), findings)
        for key, given, example in (
            ("file", table.file, 'file = "minuet.musicxml"'),
            ("ready_by", table.ready_by, "ready_by = 2026-12-20"),
        ):
            if given is None and isinstance(value, dict) and key not in value:
                mend = told("write {example}", example=example)
                findings.append(Finding(within(where, key), told("is missing"), mend))
        if table.file is not None and table.ready_by is not None:
            bars = bars_of(table.bars)
            found.append(Piece(table.file, table.ready_by, bars, table.part, prefer))
    return tuple(found)


def preference(name: str | None, place: Said, findings: list[Finding]) -> Preference | None:
    """What a player would rather have, or None."""
    if name is None:
        return None
    known = tuple(Preference)
    if name not in known:
        findings.append(unknown(place, told("no preference {name}", name=shown(name)), name, known))
        return None
    return Preference(name)


def bars_of(text: str | None) -> tuple[str, str] | None:
    """First and last bar.

    >>> bars_of("5-8"), bars_of("12a"), bars_of(None)
    (('5', '8'), ('12a', '12a'), None)
    """
    if text is None:
        return None
    first, _, last = text.partition("-")
    return first.strip(), (last or first).strip()
