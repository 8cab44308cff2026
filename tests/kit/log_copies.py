"""Whole practice logs drawn at random, with names and plans as odd as they come."""

from datetime import date, datetime, timedelta, timezone
from typing import Literal

from hypothesis import strategies as st

from bookgen.studio.log_copy import LogCopy
from bookgen.studio.rows import DayRow, DrillRow, EntryRow, ItemRow

LETTERS = st.characters(exclude_categories=["Cs"], exclude_characters="\x00")
TEXTS = st.text(LETTERS, min_size=1, max_size=8) | st.sampled_from(["null", "1", "=1+1", '",\r\n;'])
PLAYERS = TEXTS | st.sampled_from(["Ines", "Jo"])
LINKS = st.sampled_from([None, '{"to":null,"changes":null}', '{"to":1,"changes":"stage"}'])
ZONES = st.integers(-14 * 60, 14 * 60).map(lambda minutes: timezone(timedelta(minutes=minutes)))
"""Zones without summer time: Python holds no instant of a doubled hour equal to another one."""

FIRST, LAST = datetime(2020, 1, 1), datetime(2030, 1, 1)  # noqa: DTZ001  zones are drawn
INSTANTS = st.datetimes(FIRST, LAST, timezones=ZONES)
RESULTS: st.SearchStrategy[Literal["secure", "not yet"]] = st.sampled_from(["secure", "not yet"])
REPLACES: st.SearchStrategy[Literal["day", "number"]] = st.sampled_from(["day", "number"])
DATES = st.dates(date(2020, 1, 1), date(2030, 1, 1))


@st.composite
def log_copies(draw: st.DrawFn) -> LogCopy:
    """A log that could be: days, drills, items on them, results and what takes them back."""
    days = draw(st.lists(day_rows(), max_size=4, unique_by=lambda d: (d.player, d.date, d.printed)))
    players = sorted({day.player for day in days})
    drills = [
        DrillRow(player=player, number=number, key=draw(TEXTS), link=draw(LINKS))
        for player in players
        for number in range(1, draw(st.integers(2, 4)))
    ]
    items = [
        ItemRow(
            player=day.player,
            date=day.date,
            printed=day.printed,
            turn=turn,
            number=number,
            role=draw(TEXTS),
        )
        for day in days
        for turn, number in enumerate(
            draw(st.lists(st.sampled_from(numbers_of(drills, day.player)), max_size=4))
        )
    ]
    instants = sorted(draw(st.sets(INSTANTS, max_size=8)))
    entries: list[EntryRow] = []
    for instant in instants if drills else ():
        drill = draw(st.sampled_from(drills))
        entries.append(entry_row(draw, drill, instant, entries))
    return LogCopy(
        days=tuple(days), drills=tuple(drills), items=tuple(items), entries=tuple(entries)
    )


def numbers_of(drills: list[DrillRow], player: str) -> list[int]:
    """The numbers of a player."""
    return [drill.number for drill in drills if drill.player == player]


@st.composite
def day_rows(draw: st.DrawFn) -> DayRow:
    """A printed day."""
    return DayRow(
        player=draw(PLAYERS),
        date=draw(DATES),
        printed=draw(INSTANTS),
        instrument=draw(TEXTS),
        size=draw(TEXTS),
        seed=draw(st.integers(-(2**63), 2**63 - 1)),
        plan=draw(TEXTS) * draw(st.sampled_from((1, 40_000))),
    )


def entry_row(
    draw: st.DrawFn, drill: DrillRow, instant: datetime, before: list[EntryRow]
) -> EntryRow:
    """A result of a drill, or the taking back of an earlier one."""
    results = [
        entry.entered
        for entry in before
        if (entry.player, entry.number) == (drill.player, drill.number) and entry.result
    ]
    undone = draw(st.sampled_from([None, *results]))
    if undone is not None:
        return EntryRow(player=drill.player, number=drill.number, entered=instant, undoes=undone)
    return EntryRow(
        player=drill.player,
        number=drill.number,
        entered=instant,
        result=draw(RESULTS),
        date=draw(DATES),
        replaces=draw(REPLACES),
    )
