"""How pitches, intervals, fingers, strings and dates are said in words."""

from collections.abc import Sequence
from datetime import date as Date  # noqa: N812
from typing import Final

from bookgen.model.drill import Drill
from bookgen.model.instrument import NUMERALS, Instrument
from bookgen.model.pitch import Pitch
from bookgen.model.spacing import Spacing
from bookgen.model.units import StringNumber

SIGNS: Final = {-2: "♭♭", -1: "♭", 0: "", 1: "♯", 2: "♯♯"}
COUNTS: Final = ("no", "one", "two", "three", "four", "five", "six")
STEPS: Final = {
    Spacing.HALF: "a half step",
    Spacing.WHOLE: "a whole step",
    Spacing.AUGMENTED: "three half steps",
    Spacing.MINOR_THIRD: "three half steps",
    Spacing.MAJOR_THIRD: "two whole steps",
}
SHORT_STEPS: Final = {
    Spacing.HALF: "half",
    Spacing.WHOLE: "whole",
    Spacing.AUGMENTED: "three half steps",
    Spacing.MINOR_THIRD: "three half steps",
    Spacing.MAJOR_THIRD: "two whole steps",
}
MOST_NAMED: Final = 3
DASH: Final = "\N{EN DASH}"
"""From one to the other: numbers, fingers, strings."""

WEEKDAYS: Final = (
    *("Monday", "Tuesday", "Wednesday", "Thursday"),
    *("Friday", "Saturday", "Sunday"),
)
MONTHS: Final = (
    *("January", "February", "March", "April", "May", "June"),
    *("July", "August", "September", "October", "November", "December"),
)


def pitch_name(pitch: Pitch) -> str:
    """A pitch as printed.

    >>> pitch_name(Pitch.parse("F#4"))
    'F♯4'
    """
    return f"{pitch.letter}{SIGNS[pitch.accidental]}{pitch.octave}"


def open_name(pitch: Pitch) -> str:
    """An open string as players call it: the letter."""
    return f"{pitch.letter}{SIGNS[pitch.accidental]}"


def listed(items: Sequence[str]) -> str:
    """Items in a sentence.

    >>> listed(["1", "2", "3"])
    '1, 2 and 3'
    """
    if len(items) < 2:  # noqa: PLR2004
        return "".join(items)
    return f"{', '.join(items[:-1])} and {items[-1]}"


def with_article(name: str) -> str:
    """A noun with a or an.

    >>> with_article("octave"), with_article("unison")
    ('an octave', 'a unison')
    """
    return f"{'an' if name[0] in 'aeio' else 'a'} {name}"


def hand_name(drill: Drill) -> str:
    """The fingers in the order in which they play, and how far apart they stand."""
    frame = drill.frame
    if len(frame.fingers) == 2:  # noqa: PLR2004
        first, second = drill.order
        return f"Fingers {first} and {second}, {STEPS[frame.spacings[0]]} apart"
    spacings = ", ".join(SHORT_STEPS[spacing] for spacing in frame.spacings)
    hand = f"Fingers {listed([str(finger) for finger in frame.fingers])} ({spacings})"
    if drill.order == frame.fingers:
        return hand
    return f"{hand}, played {' '.join(map(str, drill.order))}"


def strings_name(strings: Sequence[StringNumber], instrument: Instrument) -> str:
    """Which strings are played.

    strings: any order.
    """
    count = len(set(strings))
    if count == len(instrument.strings):
        return f"all {COUNTS[count]} strings"
    numerals = [NUMERALS[string] for string in sorted(set(strings), reverse=True)]
    return f"string {numerals[0]}" if count == 1 else f"strings {listed(numerals)}"


def positions_name(labels: Sequence[str]) -> str:
    """Positions in words, each once; of many the first and the last.

    labels: from the lowest place to the highest.

    >>> positions_name(["1st", "1st", "3rd"])
    '1st and 3rd position'
    """
    once = list(dict.fromkeys(labels))
    if len(once) > MOST_NAMED:
        return f"{once[0]} to {once[-1]} position"
    return f"{listed(once)} position"


def date_name(date: Date) -> str:
    """A date in words with its weekday.

    >>> date_name(Date(2026, 12, 1))
    'Tuesday, 1 December 2026'
    """
    month = MONTHS[date.month - 1]
    return f"{WEEKDAYS[date.weekday()]}, {date.day} {month} {date.year}"


def minutes_name(minutes: float) -> str:
    """Minutes in words; half minutes are kept.

    >>> minutes_name(2.0), minutes_name(1.5), minutes_name(1.0), minutes_name(0.5)
    ('2 minutes', '1½ minutes', '1 minute', '½ minute')
    """
    halves = round(minutes * 2)
    whole, half = divmod(max(halves, 1), 2)
    amount = f"{whole or ''}{'½' if half else ''}"
    return f"{amount} minute{'' if halves <= 2 else 's'}"  # noqa: PLR2004


def short_date(date: Date) -> str:
    """A date as short as it is still clear, without its year.

    >>> short_date(Date(2026, 12, 1))
    'Tue 1 Dec'
    """
    return f"{WEEKDAYS[date.weekday()][:3]} {date.day} {MONTHS[date.month - 1][:3]}"


def dates_name(first: Date, last: Date) -> str:
    """A run of days, without the year.

    >>> dates_name(Date(2026, 12, 1), Date(2026, 12, 6))
    '1 to 6 December'
    >>> dates_name(Date(2026, 12, 28), Date(2027, 1, 3))
    '28 December to 3 January'
    >>> dates_name(Date(2026, 12, 1), Date(2026, 12, 1))
    'Tuesday, 1 December'
    """
    end = f"{last.day} {MONTHS[last.month - 1]}"
    if first == last:
        return f"{WEEKDAYS[first.weekday()]}, {end}"
    same = (first.year, first.month) == (last.year, last.month)
    return f"{first.day}{'' if same else f' {MONTHS[first.month - 1]}'} to {end}"


def numbers_name(numbers: Sequence[int]) -> str:
    """Numbers of drills, runs of three and more from the first to the last.

    >>> numbers_name([3, 4, 5, 8, 9]) == f"3{DASH}5, 8, 9"
    True
    """
    runs: list[list[int]] = []
    for number in sorted(set(numbers)):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(
        f"{run[0]}{DASH}{run[-1]}" if len(run) > 2 else ", ".join(map(str, run))  # noqa: PLR2004
        for run in runs
    )


def crossing_name(strings: Sequence[StringNumber]) -> str:
    """A string, or two strings and more, in numerals.

    >>> crossing_name((StringNumber(4), StringNumber(3))) == f"IV{DASH}III"
    True
    """
    return DASH.join(NUMERALS[string] for string in strings)
