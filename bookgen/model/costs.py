"""What each part of a fingering costs, and what a player may prefer: numbers as values."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from bookgen.errors import RefusedError

PARTS: Final = (
    "shift",
    "stretch",
    "finger",
    "string",
    "timbre",
    "fourth",
    "open",
    "place",
    "high",
    "beyond",
    "double",
)
"""The parts that a cost is told by."""


class Preference(StrEnum):
    """What a player would rather have, as the command line spells it."""

    LOW = "low"
    ONE_STRING = "one-string"
    FEW_SHIFTS = "few-shifts"
    FEW_STRETCHES = "few-stretches"


@dataclass(frozen=True, slots=True)
class ShiftCost:
    """The hand moves along the string.

    half_step: finger 1 goes by one semitone, or the hand is laid anew where it was.
    further: by two semitones or more; each: for every semitone past the second.
    unguided: added where no finger stays on its string to lead the way.
    double: times this where two or more fingers go together.
    """

    half_step: float
    further: float
    each: float
    unguided: float
    double: float

    def of(self, semitones: int) -> float:
        """What the way along the string costs by itself."""
        if semitones <= 1:
            return self.half_step * semitones
        return self.further + self.each * (semitones - 2)


@dataclass(frozen=True, slots=True)
class Cover:
    """What makes a shift easier: the least of these factors counts.

    rest, long_rest: silence of `rest_from` or `long_rest_from` whole notes lies between.
    long_note: the note before lasts `long_from` whole notes or more.
    open_string: the hand is free, because only open strings sound.
    harmonic: a harmonic is left or reached: the touch forgives more than a stop.
    grace: times this where a note on either side has no time of its own; more than 1.
    slur: times this within a slur; more than 1.
    """

    rest_from: float
    rest: float
    long_rest_from: float
    long_rest: float
    long_from: float
    long_note: float
    open_string: float
    harmonic: float
    grace: float
    slur: float


@dataclass(frozen=True, slots=True)
class StretchCost:
    """The hand opens or is drawn together; all of it shrinks with the spacings towards the bridge.

    drawn_back: finger 1 reaches a half step back while the hand stays.
    opened: a spacing that the instrument calls a stretch, or a span past the ordinary one.
    each: for every semitone past the ordinary span.
    together: for each finger that is drawn nearer to finger 1, or to the finger before it, than
        the instrument file has them stand by themselves: two half steps in a row on the violin.
    """

    drawn_back: float
    opened: float
    each: float
    together: float


@dataclass(frozen=True, slots=True)
class FingerCost:
    """One finger plays two notes in a row.

    fifth: it lies over to the next string at the same height, a fifth on the violin.
    elsewhere: it hops to another height of another string.
    slide: it slides on its string while the hand stays.
    quick_slide: the same where the note before lasts no longer than `quick_to` whole notes.
    fourth: each note of finger 4.
    """

    fifth: float
    elsewhere: float
    slide: float
    quick_slide: float
    quick_to: float
    fourth: float


@dataclass(frozen=True, slots=True)
class StringCost:
    """The bow goes to another string.

    following: to the next one; further: for each string past it.
    step: added where a step of one or two semitones goes over to another string and the note
        is no shorter than `timbre_from` whole notes: the sound changes within the line.
    open_note, open_long: an open string, and one that lasts `open_from` or more.
    """

    following: float
    further: float
    step: float
    timbre_from: float
    open_note: float
    open_long: float
    open_from: float


@dataclass(frozen=True, slots=True)
class PlaceCost:
    """Where on the string the hand lies; each figure is for one note.

    home: semitones of finger 1 where the hand is at ease; each: for every semitone above.
    half: in half position.
    beyond: in a position that is not among the player's, more than any way within them.
    high_from, high_each: a stop above that height, for each string below the highest and each
        semitone: thick strings speak badly there and the elbow comes round.
    """

    home: float
    each: float
    half: float
    beyond: float
    high_from: float
    high_each: float


@dataclass(frozen=True, slots=True)
class SoundCost:
    """How the note is made.

    double: two or more fingers are down together.
    bar: one finger stops two strings.
    crossed: the lower of two notes lies on the higher string.
    """

    double: float
    bar: float
    crossed: float


@dataclass(frozen=True, slots=True)
class Costs:
    """The cost table of a fingering.

    prefer: by preference, how many times each part counts; parts that it does not name count
        as they are.
    """

    shift: ShiftCost
    cover: Cover
    stretch: StretchCost
    finger: FingerCost
    string: StringCost
    place: PlaceCost
    sound: SoundCost
    prefer: Mapping[Preference, Mapping[str, float]]

    def __post_init__(self) -> None:
        """Refuse a table that leaves out a preference or names a part there is not.

        Raises:
            RefusedError: a preference is missing, or its part is unknown.
        """
        if set(self.prefer) != set(Preference):
            raise RefusedError(
                "costs-preferences", given=sorted(self.prefer), wanted=sorted(Preference)
            )
        for name, factors in self.prefer.items():
            unknown = sorted(set(factors) - set(PARTS))
            if unknown:
                raise RefusedError("costs-part", name=name, part=unknown[0], parts=PARTS)

    def scale(self, prefer: Preference | None) -> dict[str, float]:
        """How many times each part counts."""
        factors = {} if prefer is None else self.prefer[prefer]
        return {part: factors.get(part, 1.0) for part in PARTS}
