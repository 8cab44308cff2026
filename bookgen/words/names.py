"""How the facts of the trade are named: notes, intervals, positions, spacings, fingers, strings."""

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Final

from bookgen.model.finger import THUMB
from bookgen.model.instrument import NUMERALS, Instrument
from bookgen.model.interval import Interval
from bookgen.model.pitch import Pitch
from bookgen.model.position import THUMB_POSITION
from bookgen.model.spacing import Spacing
from bookgen.model.units import StringNumber
from bookgen.words.intervals import NAMES
from bookgen.words.marks import marks_of
from bookgen.words.speech import Speech
from bookgen.words.term import Term

DASH: Final = "\N{EN DASH}"
"""From one to the other: numbers, fingers, strings."""

HALF: Final = "half"
"""The code of half position."""

NUMBERED: Final = re.compile(r"([1-9]\d?)(?:st|nd|rd|th)")
"""The code of a position that has a number, as in the plan document."""

BETWEEN: Final = "-"
"""In the code of a position that lies between two others."""

MOST_POSITIONS: Final = 3
"""Positions that are told one by one; of more, the first and the last."""

RUN: Final = 3
"""Numbers in a row that are said by the first and the last."""

OCTAVE: Final = 7
"""Letters of an octave."""

CALLED_BY: Final = "_by_"
"""In the key of an instrument before the table by which its positions are called."""

INSTRUMENTS: Final[Mapping[str, Term]] = {
    "violin": Term("instrument", "Violin"),
    "viola": Term("instrument", "Viola"),
    "cello": Term("instrument", "Cello"),
    "double_bass": Term("instrument", "Double bass"),
    "double_bass_134": Term("instrument", "Double bass with fingers 1-3-4"),
    "double_bass_c_extension": Term("instrument", "Double bass with C extension"),
    "double_bass_fifths": Term("instrument", "Double bass in fifths"),
    "double_bass_four_finger": Term("instrument", "Double bass with four fingers"),
    "double_bass_high_c": Term("instrument", "Double bass with high C"),
    "double_bass_low_b": Term("instrument", "Double bass with low B"),
    "double_bass_low_c": Term("instrument", "Double bass with low C"),
    "double_bass_solo": Term("instrument", "Double bass in solo tuning"),
    "five_string_cello": Term("instrument", "Five-string cello"),
    "five_string_violin": Term("instrument", "Five-string violin"),
}
"""By key; an instrument of the user's own is called as its file says."""


def instrument_name(instrument: Instrument, speech: Speech) -> str:
    """An instrument where it stands alone, as in a heading."""
    term = term_of(instrument)
    return speech.term(term) if term else instrument.name


def term_of(instrument: Instrument) -> Term | None:
    """What an instrument of the package is called; None for one of the user's own."""
    own = instrument.ordinary or instrument
    return INSTRUMENTS.get(own.key.partition(CALLED_BY)[0])


def instrument_within(instrument: Instrument, speech: Speech) -> str:
    """An instrument within a row of others; one of the user's own is written as its file has it."""
    term = term_of(instrument)
    return speech.small(speech.term(term)) if term else instrument.name


def played_name(instrument: Instrument, size: str, speech: Speech) -> str:
    """An instrument with its size."""
    name = instrument_name(instrument, speech)
    return speech.say("{instrument} {size}", instrument=name, size=size)


def open_string(pitch: Pitch, speech: Speech) -> str:
    """An open string as players call it: by its note."""
    return speech.note(pitch)


def interval_label(label: str, speech: Speech) -> str:
    """An interval's mark on the staff.

    Raises:
        RefusedError: the label names no interval.
    """
    return marks_of(speech).interval(label)


def interval_name(label: str, speech: Speech) -> str:
    """An interval in words; the widest by what is left of them without whole octaves.

    >>> from bookgen.words.speech import ENGLISH
    >>> interval_name("A4", ENGLISH), interval_name("P8", ENGLISH), interval_name("M16", ENGLISH)
    ('augmented fourth', 'octave', 'major second and 2 octaves')

    Raises:
        RefusedError: the label names no interval.
    """
    interval = Interval.parse(label)
    if label in NAMES:
        return speech.term(NAMES[label])
    octaves, left = divmod(interval.degrees - 1, OCTAVE)
    simple = f"{label.rstrip('0123456789')}{left + 2}"
    return speech.count(
        "{interval} and {number} octave",
        "{interval} and {number} octaves",
        octaves,
        interval=speech.term(NAMES[simple]),
    )


def position_short(position: str, speech: Speech) -> str:
    """A position where little room is, or in a list.

    position: as the plan document has it: half, 1st, 2nd; any other name is one that an
        instrument file gives, and stays.

    >>> from bookgen.words.speech import ENGLISH
    >>> position_short("half", ENGLISH), position_short("3rd", ENGLISH)
    ('half', '3rd')
    >>> position_short("2nd-3rd", ENGLISH) == f"2nd{DASH}3rd"
    True
    """
    if position == HALF:
        return speech.say_in("position", "half")
    if position == THUMB_POSITION:
        return speech.say_in("position", "thumb")
    numbered = [NUMBERED.fullmatch(part) for part in position.split(BETWEEN)]
    return DASH.join(
        ordinal(int(found[1]), speech) if found else part
        for found, part in zip(numbered, position.split(BETWEEN), strict=True)
    )


def ordinal(number: int, speech: Speech) -> str:
    """Which position, by its number.

    >>> from bookgen.words.speech import ENGLISH
    >>> [ordinal(number, ENGLISH) for number in (1, 2, 3, 4, 11, 12, 21)]
    ['1st', '2nd', '3rd', '4th', '11th', '12th', '21st']
    """
    forms: Mapping[str, str] = {
        "one": speech.say_in("position", "{number}st", number=number),
        "two": speech.say_in("position", "{number}nd", number=number),
        "few": speech.say_in("position", "{number}rd", number=number),
    }
    form = speech.locale.ordinal_form(number)
    return forms.get(form) or speech.say_in("position", "{number}th", number=number)


def position_name(position: str, speech: Speech) -> str:
    """A position in words.

    >>> from bookgen.words.speech import ENGLISH
    >>> position_name("1st", ENGLISH)
    '1st position'
    """
    if position == HALF:
        return speech.say("half position")
    if position == THUMB_POSITION:
        return speech.say("thumb position")
    return speech.say("{position} position", position=position_short(position, speech))


def place_short(position: str, speech: Speech) -> str:
    """A position where there is little room."""
    if position == THUMB_POSITION:
        return position_name(position, speech)
    return speech.say("{position} pos.", position=position_short(position, speech))


def positions_name(positions: Iterable[str], speech: Speech) -> str:
    """Positions in words, each once; of many the first and the last.

    positions: from the lowest place to the highest.

    >>> from bookgen.words.speech import ENGLISH
    >>> positions_name(["1st", "1st", "3rd"], ENGLISH)
    '1st and 3rd position'
    """
    different = list(dict.fromkeys(positions))
    if len(different) == 1:
        return position_name(different[0], speech)
    if THUMB_POSITION in different:
        named = positions_name((one for one in different if one != THUMB_POSITION), speech)
        return speech.say("{positions} and thumb position", positions=named)
    once = [position_short(position, speech) for position in different]
    if len(once) > MOST_POSITIONS:
        return speech.say("{first} to {last} position", first=once[0], last=once[-1])
    return speech.say("{position} position", position=speech.listed(once))


def spacing_name(spacing: Spacing, speech: Speech) -> str:
    """How far two fingers of a frame stand apart, where it is clear that fingers are meant."""
    named: Mapping[Spacing, str] = {
        Spacing.HALF: speech.say_in("between two fingers", "half"),
        Spacing.WHOLE: speech.say_in("between two fingers", "whole"),
        Spacing.AUGMENTED: speech.say_in("between two fingers", "three half steps"),
        Spacing.MINOR_THIRD: speech.say_in("between two fingers", "three half steps"),
        Spacing.MAJOR_THIRD: speech.say_in("between two fingers", "two whole steps"),
        Spacing.FOURTH: speech.say_in("between two fingers", "a fourth"),
    }
    return named[spacing]


def step_name(spacing: Spacing, speech: Speech) -> str:
    """How far two fingers stand apart, alone.

    >>> from bookgen.words.speech import ENGLISH
    >>> step_name(Spacing.WHOLE, ENGLISH)
    'whole step'
    """
    named: Mapping[Spacing, str] = {
        Spacing.HALF: speech.say("half step"),
        Spacing.WHOLE: speech.say("whole step"),
    }
    return named.get(spacing) or spacing_name(spacing, speech)


def finger_word(finger: int, speech: Speech) -> str:
    """A finger in a row of others: its figure, or the thumb.

    >>> from bookgen.words.speech import ENGLISH
    >>> finger_word(2, ENGLISH), finger_word(THUMB, ENGLISH)
    ('2', 'thumb')
    """
    return speech.say("thumb") if finger == THUMB else str(finger)


def alone_name(finger: int, speech: Speech) -> str:
    """A hand of one finger."""
    return speech.say("{finger} alone", finger=finger_name(finger, speech))


def finger_name(finger: int, speech: Speech) -> str:
    """A finger in a sentence.

    >>> from bookgen.words.speech import ENGLISH
    >>> finger_name(2, ENGLISH), finger_name(THUMB, ENGLISH)
    ('finger 2', 'thumb')
    """
    if finger == THUMB:
        return finger_word(finger, speech)
    return speech.say("finger {finger}", finger=finger)


def fingers_name(fingers: Iterable[int], speech: Speech) -> str:
    """A pair or a frame in figures.

    >>> from bookgen.words.speech import ENGLISH
    >>> fingers_name((1, 2), ENGLISH) == f"1{DASH}2"
    True
    """
    return DASH.join(finger_word(finger, speech) for finger in fingers)


def strings_name(strings: Iterable[StringNumber], instrument: Instrument, speech: Speech) -> str:
    """Which strings are played.

    strings: any order.
    """
    played = sorted(set(strings), reverse=True)
    if len(played) == len(instrument.strings):
        return speech.count("the string", "all {number} strings", len(played))
    numerals = speech.listed(NUMERALS[string] for string in played)
    return speech.count("string {strings}", "strings {strings}", len(played), strings=numerals)


def numbers_name(numbers: Sequence[int]) -> str:
    """Numbers of drills, runs of three and more from the first to the last.

    >>> numbers_name([9, 3, 4, 5, 8]) == f"3{DASH}5, 8, 9"
    True
    """
    runs: list[list[int]] = []
    for number in sorted(set(numbers)):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(
        f"{run[0]}{DASH}{run[-1]}" if len(run) >= RUN else ", ".join(map(str, run)) for run in runs
    )
