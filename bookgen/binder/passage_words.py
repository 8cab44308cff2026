"""The words of a passage's pages: what passage.j2 may say of it, of its groups and its ladders."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from bookgen.binder.english import (
    COUNTS,
    DASH,
    SHORT_STEPS,
    listed,
    numbers_name,
    open_name,
    pitch_name,
)
from bookgen.model.instrument import NUMERALS, Instrument
from bookgen.model.interval import Interval, interval_words
from bookgen.model.spacing import Frame
from bookgen.notation.label import printed_interval
from bookgen.plan.passage import Group, Passage
from bookgen.plan.passage_facts import (
    bars_of,
    lowest_of,
    moves_of_group,
    notes_of,
    stops_of_group,
)

PASSAGE: Final = "passage.j2"
PASSAGE_PARTS: Final = frozenset(
    {
        *("whose", "caution", "title", "fact", "key", "pencil", "own"),
        *("passage", "hands", "groups", "marks", "unplayable", "item"),
        *("other", "other-item", "other-text", "drills", "drills-text"),
        *("chart", "chart-text", "letter", "bars", "hand", "spacings", "moves"),
        *("ladder", "ladder-text", "even", "rhythm"),
    }
)
"""What passage.j2 may print."""

Clean = Callable[[str], str]
"""Makes a text printable."""

Marks = tuple[tuple[str, int], ...]
"""Marks of intervals, each with how often it is met."""


@dataclass(frozen=True, slots=True)
class GroupWords:
    """What passage.j2 may say of a group, as `group`.

    bars: their numbers; where: the same in words; strings: numerals from the lowest.
    finger, note, string: the lowest finger that plays, its first note and that note's string;
        None for open strings alone.
    spacings: pairs of fingers with the distance between them in words; others: the same for
        strings on which a finger stands otherwise.
    steps, crossings, together: intervals on a string, over strings and of notes that sound
        together.
    opens: names of the open strings that play.
    same_as: letter of the earlier group with the same frame; higher: how far above it this one
        lies, in words. also: the later groups with this frame, each with the same.
    """

    letter: str
    bars: str
    where: str
    position: str
    strings: tuple[str, ...]
    finger: int | None
    note: str
    string: str
    spacings: tuple[tuple[str, str], ...]
    others: tuple[tuple[tuple[str, str], ...], ...]
    steps: Marks
    crossings: Marks
    together: Marks
    opens: tuple[str, ...]
    same_as: str | None
    higher: str
    also: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class LadderWords:
    """What passage.j2 may say of a ladder, as `ladder`.

    numbers: of its drills on the pages that follow, in words; shared: of those that stand under
        an earlier heading.
    """

    group: GroupWords
    numbers: str
    shared: str


def bars_name(bars: Sequence[str]) -> str:
    """Numbers of bars, from the first to the last; an upbeat is named.

    >>> bars_name(["33", "34", "35"]) == f"33{DASH}35"
    True
    >>> bars_name(["0", "1"])
    'upbeat to 1'
    """
    named = ["upbeat" if bar == "0" else bar for bar in bars if bar]
    if len(named) < 2:  # noqa: PLR2004
        return "".join(named)
    between = " to " if named[0] == "upbeat" else DASH
    return f"{named[0]}{between}{named[-1]}"


def where_name(bars: Sequence[str]) -> str:
    """Where bars lie, in words.

    >>> where_name(["33"]), where_name(["0"])
    ('bar 33', 'upbeat')
    """
    name = bars_name(bars)
    if not name or name.startswith("upbeat"):
        return name
    return f"{'bar' if sum(map(bool, bars)) == 1 else 'bars'} {name}"


def group_words(group: Group, passage: Passage, instrument: Instrument, clean: Clean) -> GroupWords:
    """Say what a group of the best fingering is."""
    best, phrase = passage.best, passage.phrase
    bars = bars_of(group, best, phrase)
    notes = notes_of(group, best, phrase)
    lowest = lowest_of(group, best, phrase)
    strings = sorted({note.stop.string for note in notes}, reverse=True)
    opens = {note.stop.string for note in notes if not note.stop.finger}
    moves = moves_of_group(group, best, phrase)
    return GroupWords(
        letter=group.letter,
        bars=clean(bars_name(bars)),
        where=clean(where_name(bars)),
        position=group.position,
        strings=tuple(NUMERALS[string] for string in strings),
        finger=lowest.stop.finger if lowest else None,
        note=pitch_name(lowest.pitch) if lowest else "",
        string=NUMERALS[lowest.stop.string] if lowest else "",
        spacings=spacings_of(group.frame) if group.frame else (),
        others=tuple(map(spacings_of, group.others)),
        steps=counted({label: n for (label, crosses), n in moves.items() if not crosses}),
        crossings=counted({label: n for (label, crosses), n in moves.items() if crosses}),
        together=counted(stops_of_group(group, best, phrase)),
        opens=tuple(
            open_name(instrument.open_pitch(string)) for string in strings if string in opens
        ),
        same_as=group.same_as,
        higher=higher_name(group.higher),
        also=tuple(
            (other.letter, higher_name(other.higher))
            for other in best.groups
            if other.same_as == group.letter
        ),
    )


def spacings_of(frame: Frame) -> tuple[tuple[str, str], ...]:
    """Pairs of neighbouring fingers of a frame, with the distance between them in words."""
    pairs = zip(frame.fingers, frame.fingers[1:], frame.spacings, strict=False)
    return tuple((f"{low}{DASH}{high}", SHORT_STEPS[spacing]) for low, high, spacing in pairs)


def counted(found: Mapping[str, int]) -> Marks:
    """Marks of intervals with how often they are met, from the narrowest."""
    return tuple((printed_interval(label), found[label]) for label in sorted(found, key=width))


def width(label: str) -> tuple[int, str]:
    """Sorts intervals from the narrowest."""
    return Interval.parse(label).semitones, label


def marks_of(passage: Passage) -> tuple[tuple[str, str], ...]:
    """The marks of all intervals that the table of groups tells, with their names."""
    best, phrase = passage.best, passage.phrase
    labels = {
        label
        for group in best.groups
        for label in (
            *(label for label, _ in moves_of_group(group, best, phrase)),
            *stops_of_group(group, best, phrase),
        )
    }
    return tuple(
        (printed_interval(label), interval_words(label)) for label in sorted(labels, key=width)
    )


def higher_name(semitones: int) -> str:
    """How much higher a hand lies, in words.

    >>> higher_name(4), higher_name(-1), higher_name(0)
    ('four half steps higher', 'one half step lower', 'in the same place')
    """
    if not semitones:
        return "in the same place"
    size = abs(semitones)
    count = COUNTS[size] if size < len(COUNTS) else str(size)
    steps = "half step" if size == 1 else "half steps"
    return f"{count} {steps} {'higher' if semitones > 0 else 'lower'}"


def ladder_words(group: GroupWords, numbers: Sequence[int], shared: Sequence[int]) -> LadderWords:
    """Say what a ladder is.

    numbers, shared: of its drills on the pages, and of those under an earlier heading.
    """
    return LadderWords(group, numbers_name(numbers), listed([str(number) for number in shared]))
