"""How far two fingers stand apart, and the frame that several fingers make."""

from dataclasses import dataclass, replace
from enum import Enum
from itertools import pairwise
from typing import Self

from bookgen.errors import RefusedError
from bookgen.model.finger import LEFT_HAND, signs_of
from bookgen.model.units import Semitones

FEWEST_FINGERS = 1
MOST_FINGERS = 4
STAYS = Semitones(0)
HALF_STEP = Semitones(1)


class Spacing(Enum):
    """The distance between two fingers on one string: its word, half steps and letters."""

    HALF = ("half", 1, 1)
    WHOLE = ("whole", 2, 1)
    AUGMENTED = ("augmented", 3, 1)
    MINOR_THIRD = ("minor-third", 3, 2)
    MAJOR_THIRD = ("major-third", 4, 2)
    FOURTH = ("fourth", 5, 3)

    def __init__(self, word: str, semitones: int, letters: int) -> None:
        """Give each spacing its measures."""
        self.word = word
        self.semitones = Semitones(semitones)
        self.letters = letters

    @classmethod
    def parse(cls, word: str) -> "Spacing":
        """Read the word of a spacing.

        >>> Spacing.parse("whole").semitones
        2

        Raises:
            RefusedError: the word names no spacing.
        """
        for spacing in cls:
            if spacing.word == word:
                return spacing
        raise RefusedError("spacing", word=word, spacings=[spacing.word for spacing in cls])


@dataclass(frozen=True, slots=True)
class Frame:
    """Fingers and the spacings between them; a pair is a frame of two.

    fingers: rising, one to four of the thumb and 1 2 3 4.
    spacings: one fewer than fingers, from the lowest finger up.
    shift: how far above its place the hand is laid a second time; 0 where it stays.
    back: the hand is extended back: finger 1 goes a half step down while the others stay.
    """

    fingers: tuple[int, ...]
    spacings: tuple[Spacing, ...]
    shift: Semitones = STAYS
    back: bool = False

    def __post_init__(self) -> None:
        """Refuse what is no hand.

        Raises:
            RefusedError: too few, too many, unknown or unordered fingers, a spacing missing, or
                a hand that is extended back without finger 1.
        """
        if not FEWEST_FINGERS <= len(self.fingers) <= MOST_FINGERS:
            raise RefusedError("frame-count", count=len(self.fingers))
        if not {*self.fingers} <= {*LEFT_HAND}:
            raise RefusedError("frame-fingers", fingers=signs_of(self.fingers))
        if any(low >= high for low, high in pairwise(self.fingers)):
            raise RefusedError("frame-order", fingers=signs_of(self.fingers))
        if len(self.spacings) != len(self.fingers) - 1:
            count = len(self.fingers)
            raise RefusedError("frame-spacings", count=count, between=count - 1)
        if self.shift < 0:
            raise RefusedError("frame-shift", shift=self.shift)
        if self.back and (self.fingers[0] != 1 or not self.spacings):
            raise RefusedError("frame-back")

    @classmethod
    def pair(cls, low: int, high: int, spacing: Spacing) -> Self:
        """Two fingers and their spacing."""
        return cls((low, high), (spacing,))

    def offset(self, finger: int) -> Semitones:
        """Half steps from the lowest finger up to this one.

        >>> Frame((1, 2, 3), (Spacing.WHOLE, Spacing.HALF)).offset(3)
        3
        """
        below = self.spacings[: self.fingers.index(finger)]
        return Semitones(sum(spacing.semitones for spacing in below))

    def letters(self, finger: int) -> int:
        """Letters from the lowest finger up to this one."""
        return sum(spacing.letters for spacing in self.spacings[: self.fingers.index(finger)])

    @property
    def drawn(self) -> Semitones:
        """How far finger 1 stands below the place of the closed hand."""
        return HALF_STEP if self.back else STAYS

    @property
    def still(self) -> "Frame":
        """The same hand where it stays."""
        return replace(self, shift=STAYS)

    @property
    def span(self) -> Semitones:
        """Half steps from the lowest to the highest finger."""
        return self.offset(self.fingers[-1])


def joins(frame: Frame, place: Semitones, other: Frame, at: Semitones) -> bool:
    """One finger joins two or three others, or leaves them; they stay where they are.

    place, at: where the lowest finger of each frame stands.
    """
    (few, low), (many, there) = sorted(
        ((frame, place), (other, at)), key=lambda laid: len(laid[0].fingers)
    )
    if len(few.fingers) == 1 or len(many.fingers) != len(few.fingers) + 1:
        return False
    return not (few.shift or many.shift) and all(
        finger in many.fingers and low + few.offset(finger) == there + many.offset(finger)
        for finger in few.fingers
    )


def nests(frame: Frame, place: Semitones, other: Frame, at: Semitones) -> bool:
    """One pair lies within another: a finger of both stays, and one between the two plays.

    place, at: where the lower finger of each pair stands.
    """
    shared = {*frame.fingers} & {*other.fingers}
    pairs = len(frame.spacings) == len(other.spacings) == len(shared) == 1
    if not pairs or frame.shift or other.shift or frame.back != other.back:
        return False
    (stays,) = shared
    wide, narrow = (frame, other) if frame.span > other.span else (other, frame)
    within = wide.fingers[0] <= narrow.fingers[0] and narrow.fingers[-1] <= wide.fingers[-1]
    stands = place + frame.offset(stays) == at + other.offset(stays)
    return within and stands and narrow.span < wide.span
