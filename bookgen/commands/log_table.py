"""The practice log as a table to read in the terminal."""

from collections.abc import Sequence
from functools import cache
from typing import Final

from bookgen.commands.screen import say, speech
from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.place import place_label
from bookgen.plan.decoder import FindInstrument
from bookgen.studio.entries import Entered, KeptDrill
from bookgen.tasks.results import Shown
from bookgen.words.days import result_words
from bookgen.words.log import drill_line, heads
from bookgen.words.speech import Speech

NOT_PLAYED: Final = "-"


def log_table(shown: Shown, find: FindInstrument) -> str:
    """Every printed drill of a player with its last result, a line each."""
    rows = [heads(speech())]
    rows += [row_of(drill, find) for drill in shown.drills]
    if len(rows) == 1:
        return say("{player}: nothing was printed", player=shown.player)
    return "\n".join((shown.player, *lined_up(rows)))


def row_of(drill: KeptDrill, find: FindInstrument) -> tuple[str, ...]:
    """A drill: its number, on how many days and when last it was printed, its last result."""
    days = sorted({item.date for item in drill.items})
    last = drill.results[-1] if drill.results else None
    return (
        str(drill.number),
        str(len(days)),
        str(days[-1]),
        NOT_PLAYED if last is None else result_words(last.result, speech()),
        "" if last is None else str(last.date),
        drill_words(drill, find),
    )


def history_table(shown: Shown) -> str:
    """Every entry for a player, a line each, in the order in which they were made."""
    rows = [
        (f"{entry.entered.astimezone():%Y-%m-%d %H:%M}", number_word(entry.number), fate(entry))
        for entry in shown.history
    ]
    if not rows:
        return say("{player}: nothing was entered", player=shown.player)
    return "\n".join((say("{player}, every entry", player=shown.player), *lined_up(rows)))


def number_word(number: int) -> str:
    """A drill's number as it is said."""
    return say("No. {number}", number=number)


def fate(entry: Entered) -> str:
    """What an entry said, and what became of it."""
    if entry.undoes is not None:
        moment = f"{entry.undoes.astimezone():%Y-%m-%d %H:%M}"
        return say("took back the result of {moment}", moment=moment)
    result = "" if entry.result is None else result_words(entry.result, speech())
    if entry.taken_back:
        return say("{result} on {date}, taken back", result=result, date=entry.date)
    if entry.valid:
        return say("{result} on {date}", result=result, date=entry.date)
    return say("{result} on {date}, corrected later", result=result, date=entry.date)


def drill_words(entry: KeptDrill, find: FindInstrument) -> str:
    """A drill in words; its key where this bookgen does not know it."""
    drill = entry.drill
    instrument = None if drill is None else find(drill.instrument)
    if drill is None or instrument is None:
        return entry.key
    try:
        return words_of(drill, instrument, speech())
    except ValueError:
        return entry.key


@cache
def words_of(drill: Drill, instrument: Instrument, spoken: Speech) -> str:
    """A drill in one line.

    Raises:
        ValueError: the instrument or its hand cannot play the drill.
    """
    return drill_line(drill, place_label(drill, instrument), instrument, spoken)


def lined_up(rows: Sequence[Sequence[str]], *, flush_right: bool = True) -> list[str]:
    """Rows as lines with their columns one below the other; flush_right: the first one."""
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    return [
        "  ".join(
            cell.rjust(width) if index == 0 and flush_right else cell.ljust(width)
            for index, (cell, width) in enumerate(zip(row, widths, strict=True))
        ).rstrip()
        for row in rows
    ]
