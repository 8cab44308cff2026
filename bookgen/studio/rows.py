"""The rows of the practice log's tables: what may stand in them, read and written."""

from collections.abc import Callable
from datetime import date as Date  # noqa: N812
from datetime import datetime
from typing import Annotated, Final, Literal

import msgspec

from bookgen.errors import Message
from bookgen.studio.entries import instant_text
from bookgen.studio.store import Cell, DamagedError, Store

Text = Annotated[str, msgspec.Meta(pattern=r"\A[^\x00]+\Z")]
Seed = Annotated[int, msgspec.Meta(ge=-(2**63), le=2**63 - 1)]
Number = Annotated[int, msgspec.Meta(ge=1, le=2**53)]
Turn = Annotated[int, msgspec.Meta(ge=0, le=2**53)]
Instant = Annotated[datetime, msgspec.Meta(tz=True)]


class Row(msgspec.Struct, forbid_unknown_fields=True, frozen=True):
    """A row in which every field is known."""


class DayRow(Row, frozen=True, kw_only=True):
    """A printed day; `plan` is its plan document, letter by letter."""

    player: Text
    date: Date
    printed: Instant
    instrument: Text
    size: Text
    seed: Seed
    plan: Text


class DrillRow(Row, frozen=True, kw_only=True):
    """A drill by its number; `link` is that of the plan document, as JSON."""

    player: Text
    number: Number
    key: Text
    link: Text | None = None


class ItemRow(Row, frozen=True, kw_only=True):
    """A drill on a printed day; so many drills come before it as `turn` says."""

    player: Text
    date: Date
    printed: Instant
    turn: Turn
    number: Number
    role: Text


class EntryRow(Row, frozen=True, kw_only=True):
    """A result, or that the one entered at `undoes` is taken back.

    `replaces` tells which earlier results one stands for: those of its day, or every one that
    was entered for its number, as until version 2.
    """

    player: Text
    number: Number
    entered: Instant
    result: Literal["secure", "not yet"] | None = None
    date: Date | None = None
    replaces: Literal["day", "number"] | None = None
    undoes: Instant | None = None


class Table[R: Row](msgspec.Struct, frozen=True):
    """A table of the log.

    keys: how many of its columns, the first ones, make its key.
    firm: how many of them, the first ones, two logs of one studio have alike.
    order: the columns by which its rows stand as they came about.
    """

    name: str
    row: type[R]
    keys: int
    firm: int
    order: str

    @property
    def columns(self) -> tuple[str, ...]:
        """The names of its columns."""
        return self.row.__struct_fields__

    def cells(self, store: Store, player: str | None = None) -> list[tuple[Cell, ...]]:
        """All rows, or a player's, as they are kept; in the order in which they came about."""
        return store.rows(
            f"SELECT {', '.join(self.columns)} FROM {self.name}"  # noqa: S608
            f" WHERE player = coalesce(?, player) ORDER BY {self.order}",
            player,
        )

    def read(self, store: Store, player: str | None = None) -> tuple[R, ...]:
        """All rows, or a player's, as values.

        Raises:
            DamagedError: a row holds what no log holds.
        """
        return tuple(self.value(cells) for cells in self.cells(store, player))

    def value(self, cells: tuple[Cell, ...]) -> R:
        """A row from its cells."""
        named = dict(zip(self.columns, cells, strict=True))
        return sound(lambda: msgspec.convert(named, self.row))

    def add(self, store: Store, *rows: R) -> None:
        """Write rows, inside a transaction."""
        marks = ", ".join("?" * len(self.columns))
        words = f"INSERT INTO {self.name} ({', '.join(self.columns)}) VALUES ({marks})"  # noqa: S608
        for row in rows:
            store.rows(words, *cells_of(row))


DAY: Final = Table("day", DayRow, 3, 7, "printed, date, player")
DRILL: Final = Table("drill", DrillRow, 2, 3, "player, number")
ITEM: Final = Table("item", ItemRow, 4, 6, "printed, date, player, turn")
ENTRY: Final = Table("entry", EntryRow, 3, 7, "entered, player, number")


def cells_of(row: Row) -> tuple[Cell, ...]:
    """A row as the log keeps it.

    Raises:
        ValueError: an instant lies outside the calendar.
    """
    return tuple(cell_of(getattr(row, name)) for name in row.__struct_fields__)


def cell_of(value: str | int | Date | datetime | None) -> Cell:
    """A value as the log keeps it."""
    match value:
        case datetime():
            return instant_text(value)
        case Date():
            return value.isoformat()
        case _:
            return value


def sound[T](make: Callable[[], T]) -> T:
    """What is made from the log's own cells.

    Raises:
        DamagedError: it cannot be made.
    """
    try:
        return make()
    except (ValueError, RecursionError, msgspec.MsgspecError) as error:
        raise DamagedError(Message("log-odd-rows", {"why": str(error)})) from error
