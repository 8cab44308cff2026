"""Copies of practice logs that older bookgens wrote, in which a number named one printing."""

from collections import Counter
from collections.abc import Iterator, Sequence
from datetime import date as Date  # noqa: N812
from datetime import datetime
from typing import Literal, TypedDict

from bookgen.studio.rows import DayRow, DrillRow, EntryRow, Instant, ItemRow, Number, Row, Text
from bookgen.studio.schema import ROLES


class DrillRow1(Row, frozen=True, kw_only=True):
    """A printed drill; date and instant of printing tell its day."""

    player: Text
    number: Number
    date: Date
    printed: Instant
    key: Text
    kind: Text


class EntryRow1(Row, frozen=True, kw_only=True):
    """A result, or that the one entered at `undoes` is taken back."""

    player: Text
    number: Number
    entered: Instant
    result: Literal["secure", "not yet"] | None = None
    date: Date | None = None
    undoes: Instant | None = None


class LogCopy1(Row, frozen=True, kw_only=True):
    """A whole practice log."""

    format: Literal["bookgen-practice-log"] = "bookgen-practice-log"
    version: Literal[1] = 1
    days: tuple[DayRow, ...]
    drills: tuple[DrillRow1, ...]
    entries: tuple[EntryRow1, ...]


class Rows(TypedDict):
    """What a log holds, by its tables."""

    days: tuple[DayRow, ...]
    drills: tuple[DrillRow, ...]
    items: tuple[ItemRow, ...]
    entries: tuple[EntryRow, ...]


def brought_up(old: LogCopy1) -> Rows:
    """An old copy's rows as the present schema has them, just as its step 3 makes them."""
    return Rows(
        days=old.days,
        drills=tuple(
            DrillRow(player=row.player, number=row.number, key=row.key) for row in old.drills
        ),
        items=tuple(items_of(old.drills)),
        entries=tuple(
            EntryRow(
                player=row.player,
                number=row.number,
                entered=row.entered,
                result=row.result,
                date=row.date,
                replaces=None if row.result is None else "number",
                undoes=row.undoes,
            )
            for row in old.entries
        ),
    )


def items_of(drills: Sequence[DrillRow1]) -> Iterator[ItemRow]:
    """The drills as items of their days, whose numbers rose in the order of play."""
    turns: Counter[tuple[str, Date, datetime]] = Counter()
    for row in sorted(drills, key=lambda row: row.number):
        day = (row.player, row.date, row.printed)
        yield ItemRow(
            player=row.player,
            date=row.date,
            printed=row.printed,
            turn=turns[day],
            number=row.number,
            role=ROLES.get(row.kind, row.kind),
        )
        turns[day] += 1
