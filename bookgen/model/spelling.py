"""Which of the enharmonic names a drill's notes get: the one with the least accidentals."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import product

from bookgen.model.instrument import Instrument
from bookgen.model.interval import Interval
from bookgen.model.pitch import Pitch
from bookgen.model.spacing import Frame, Spacing
from bookgen.model.units import Semitones, StringNumber

Fingered = tuple[StringNumber, int]
"""A string and a finger on it."""

Cost = tuple[int, int, int, int, int]

UNUSUAL = frozenset({"E#", "B#", "Cb", "Fb"})

RESPELLED_LETTERS = {Spacing.HALF: 0, Spacing.AUGMENTED: Spacing.MINOR_THIRD.letters}
"""Letters of a spacing where those in order would need double accidentals."""


@dataclass(frozen=True, slots=True)
class Spelled:
    """The names of a drill's notes.

    pitches: by string and finger.
    respelled: a finger shares the letter of its neighbour or skips one, because the names by
        letters in order would need double accidentals.
    """

    pitches: Mapping[Fingered, Pitch]
    respelled: bool


def spell(
    instrument: Instrument, frame: Frame, place: Semitones, strings: Sequence[StringNumber]
) -> Spelled:
    """Name the notes of a frame laid on strings at one place.

    A half step is a minor second, a whole step a major second, a string crossing with one
    finger the interval of the open strings; only the name of the starting note is chosen.
    The best name has, in this order: the fewest double accidentals, the fewest doubly
    altered intervals between neighbouring strings, the fewest of E sharp, B sharp, C flat
    and F flat, the fewest accidentals; a tie goes to the sharps. The notes are counted once
    each, so a drill's names do not change with its stage or its lead.

    Where even the best has something double, half steps may keep the letter and augmented
    seconds may be written as minor thirds.

    place: semitones from the nut to the lowest finger; strings: from low to high.
    """
    return spelled(instrument, frame, place, tuple(strings))


@lru_cache(maxsize=16_384)
def spelled(
    instrument: Instrument, frame: Frame, place: Semitones, strings: tuple[StringNumber, ...]
) -> Spelled:
    """The names as `spell` chooses them, worked out once for each hand."""
    plain = tuple(spacing.letters for spacing in frame.spacings)
    best = min(spellings(instrument, frame, place, strings, plain), key=cost)
    if not any(cost(best)[:2]) or RESPELLED_LETTERS.keys().isdisjoint(frame.spacings):
        return Spelled(best, respelled=False)
    choices = product(*(letter_steps(spacing) for spacing in frame.spacings))
    found = [
        pitches
        for steps in choices
        for pitches in spellings(instrument, frame, place, strings, steps)
    ]
    easier = min(found, key=cost)
    return Spelled(easier, respelled=cost(easier) < cost(best))


def letter_steps(spacing: Spacing) -> tuple[int, ...]:
    """Letters by which a spacing may be written, the usual one first."""
    other = RESPELLED_LETTERS.get(spacing)
    return (spacing.letters,) if other is None else (spacing.letters, other)


def spellings(
    instrument: Instrument,
    frame: Frame,
    place: Semitones,
    strings: Sequence[StringNumber],
    steps: tuple[int, ...],
) -> Iterator[dict[Fingered, Pitch]]:
    """All namings of the notes that follow from a name of the first one.

    steps: letters between neighbouring fingers of the frame.
    """
    base = instrument.open_pitch(strings[0])
    crossings = [(string, instrument.between_open(strings[0], string)) for string in strings]
    fingers = [
        (finger, sum(steps[:index]), frame.offset(finger))
        for index, finger in enumerate(frame.fingers)
    ]
    about = round(place * 7 / 12)
    for degrees in range(max(about - 2, 0), about + 3):  # other letters need triple accidentals
        try:
            first = base.up(degrees, place)
            yield {
                (string, finger): lowest.up(letters, offset)
                for string, crossing in crossings
                for lowest in [first.up(crossing.degrees, crossing.semitones)]
                for finger, letters, offset in fingers
            }
        except ValueError:  # more than two accidentals: this name cannot be written
            continue


def cost(pitches: Mapping[Fingered, Pitch]) -> Cost:
    """What makes a naming hard to read, hardest first; the last entry breaks ties."""
    names = [pitch.name for pitch in pitches.values()]
    return (
        sum(abs(pitch.accidental) > 1 for pitch in pitches.values()),
        doubly_altered(pitches),
        sum(name in UNUSUAL for name in names),
        sum(abs(pitch.accidental) for pitch in pitches.values()),
        sum(pitch.accidental < 0 for pitch in pitches.values()),
    )


def doubly_altered(pitches: Mapping[Fingered, Pitch]) -> int:
    """How many intervals between neighbouring strings are doubly augmented or diminished.

    Two fingers make none: their crossings are those of the open strings, give or take a second.
    """
    if len({finger for _, finger in pitches}) == 2:  # noqa: PLR2004
        return 0
    rows: dict[int, list[Pitch]] = {}
    for (string, _), pitch in pitches.items():
        rows.setdefault(string, []).append(pitch)
    return sum(
        not Interval.between(here, there).plain
        for low, row in rows.items()
        for here in row
        for there in rows.get(low - 1, ())
    )
