"""The practice log as a table to read in the terminal."""

from collections.abc import Collection, Sequence
from functools import cache

from bookgen.binder.english import hand_name, strings_name
from bookgen.errors import BookgenError
from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.route import Return
from bookgen.plan.document import place_label
from bookgen.readers.instrument import read_instrument
from bookgen.studio.entries import Entered, PrintedDrill
from bookgen.studio.practice_log import PracticeLog

HEAD = ("No.", "for", "result", "on", "drill")
NOT_PLAYED = "-"


def log_table(log: PracticeLog, player: str, numbers: Collection[int] | None) -> str:
    """Every printed drill of a player with its result, a line each.

    numbers: None shows all.
    """
    results = log.results(player)
    rows = [HEAD]
    for entry in log.printed(player):
        if numbers is None or entry.number in numbers:
            result, day = results.get(entry.number, (NOT_PLAYED, None))
            on = "" if day is None else str(day)
            rows.append((str(entry.number), str(entry.date), str(result), on, drill_words(entry)))
    if len(rows) == 1:
        return f"{player}: nothing was printed"
    return "\n".join((player, *lined_up(rows)))


def history_table(log: PracticeLog, player: str, numbers: Collection[int] | None) -> str:
    """Every entry for a player, a line each, in the order in which they were made.

    numbers: None shows all.
    """
    entries = [entry for entry in log.history(player) if numbers is None or entry.number in numbers]
    last = {entry.number: entry for entry in entries if entry.result and not entry.taken_back}
    rows = [
        (
            f"{entry.entered.astimezone():%Y-%m-%d %H:%M}",
            f"No. {entry.number}",
            fate(entry, last.get(entry.number)),
        )
        for entry in entries
    ]
    if not rows:
        return f"{player}: nothing was entered"
    return "\n".join((f"{player}, every entry", *lined_up(rows)))


def fate(entry: Entered, valid: Entered | None) -> str:
    """What an entry said, and what became of it.

    valid: the valid result of its drill.
    """
    if entry.undoes is not None:
        return f"took back the result of {entry.undoes.astimezone():%Y-%m-%d %H:%M}"
    what = f"{entry.result} on {entry.date}"
    if entry.taken_back:
        return f"{what}, taken back"
    return what if entry == valid else f"{what}, corrected later"


def drill_words(entry: PrintedDrill) -> str:
    """A printed drill in words; its key where this bookgen does not know it."""
    drill = entry.drill
    instrument = None if drill is None else instrument_or_none(drill.instrument)
    if drill is None or instrument is None:
        return entry.key
    try:
        return words_of(drill, instrument)
    except ValueError:
        return entry.key


@cache
def words_of(drill: Drill, instrument: Instrument) -> str:
    """A drill in one line.

    Raises:
        ValueError: the instrument or its hand cannot play the drill.
    """
    position = f"{place_label(drill, instrument)} position"
    back = "the way back mirrored" if drill.back is Return.MIRROR else "the same way back"
    begins = f"finger {drill.order[0]} begins"
    where = strings_name(drill.strings, instrument)
    return ", ".join((hand_name(drill), position, where, f"stage {drill.stage}", begins, back))


def instrument_or_none(key: str) -> Instrument | None:
    """The instrument of that name, or None where this bookgen has none."""
    try:
        return read_instrument(key)
    except BookgenError:
        return None


def lined_up(rows: Sequence[Sequence[str]]) -> list[str]:
    """Rows as lines with their columns one below the other; the first one to the right."""
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    return [
        "  ".join(
            cell.rjust(width) if index == 0 else cell.ljust(width)
            for index, (cell, width) in enumerate(zip(row, widths, strict=True))
        ).rstrip()
        for row in rows
    ]
