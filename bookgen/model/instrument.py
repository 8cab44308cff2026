"""An instrument as its data file tells it: strings, sizes, clefs and what the hand reaches."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from bookgen.model.interval import Interval
from bookgen.model.pitch import Pitch
from bookgen.model.position import PositionRule
from bookgen.model.spacing import Frame, Spacing
from bookgen.model.units import Millimetres, Semitones, StringNumber

NONE = Semitones(0)
NUMERALS = ("", "I", "II", "III", "IV", "V", "VI")
"""Strings are written in Roman numerals, I the highest (common practice)."""


@dataclass(frozen=True, slots=True)
class Reach:
    """Two fingers and a spacing that the hand takes, and where on the string.

    lowest, highest: places of the lower finger, in semitones above the open string.
    stretch: the hand opens beyond its ordinary frame.
    """

    low: int
    high: int
    spacing: Spacing
    lowest: Semitones
    highest: Semitones
    stretch: bool

    def __post_init__(self) -> None:
        """Refuse a reach that no place of the hand can use.

        Raises:
            ValueError: the fingers or the places do not rise.
        """
        if self.low >= self.high:
            msg = f"fingers {self.low} and {self.high} do not rise from the lower to the higher"
            raise ValueError(msg)
        if self.lowest > self.highest:
            msg = f"places {self.lowest} to {self.highest} do not rise"
            raise ValueError(msg)


@dataclass(frozen=True, slots=True)
class Hand:
    """What the left hand does on this instrument.

    reaches: every pair of fingers with every spacing it takes.
    ordinary_span, widest_span: semitones from the lowest to the highest finger of a frame,
        without a stretch and at the most.
    drawn_back: semitones that finger 1 can lie behind its place while the hand stays.
    """

    reaches: tuple[Reach, ...]
    ordinary_span: Semitones
    widest_span: Semitones
    drawn_back: Semitones = NONE

    def reach(self, low: int, high: int, spacing: Spacing, place: int) -> Reach | None:
        """How the hand takes that spacing with the lower finger at that place, if it does."""
        for reach in self.reaches:
            same = (reach.low, reach.high, reach.spacing) == (low, high, spacing)
            if same and reach.lowest <= place <= reach.highest:
                return reach
        return None

    def room_below(self, finger: int) -> Semitones:
        """Fewest semitones from the nut to this finger: the fingers below it need room too."""
        closest = {1: 1}
        for reach in sorted(self.reaches, key=lambda reach: (reach.high, reach.low)):
            if reach.low in closest:
                room = closest[reach.low] + reach.spacing.semitones
                closest[reach.high] = min(room, closest.get(reach.high, room))
        return Semitones(closest.get(finger, finger))


@dataclass(frozen=True, slots=True)
class ClefChoice:
    """A clef and the notes up to which it is read without many ledger lines.

    up_to: highest note of a drill for which this clef is taken; None takes all.
    """

    clef: str
    up_to: Pitch | None


@dataclass(frozen=True, slots=True)
class Size:
    """A size the instrument is built in, with its vibrating string length."""

    name: str
    string_length_mm: Millimetres


@dataclass(frozen=True, slots=True)
class Instrument:
    """A bowed string instrument.

    key: name of its data file, used in keys of drills and plan documents.
    name: as printed.
    strings: open pitches as written, string 1 (the highest) first.
    sounding: semitones from the written to the sounding note.
    sizes: the first is the one taken where nothing is said.
    clefs: in order of preference.
    octave_sign_from: lowest note that is written an octave lower under an 8va sign.
    highest_stop: semitones above the open string that are still on the fingerboard.
    """

    key: str
    name: str
    strings: tuple[Pitch, ...]
    sounding: Semitones
    sizes: tuple[Size, ...]
    clefs: tuple[ClefChoice, ...]
    octave_sign_from: Pitch
    highest_stop: Semitones
    position_rule: PositionRule
    hand: Hand

    def __post_init__(self) -> None:
        """Refuse an instrument without strings, sizes or order.

        Raises:
            ValueError: strings do not fall from the first, strings or sizes are missing, or
                a clef is never reached.
        """
        if not 1 <= len(self.strings) < len(NUMERALS):
            msg = f"{len(self.strings)} strings; give one to {len(NUMERALS) - 1}"
            raise ValueError(msg)
        if any(high.midi <= low.midi for high, low in pairwise(self.strings)):
            msg = "string 1 is the highest; each next string is lower"
            raise ValueError(msg)
        if not self.sizes or not self.clefs:
            msg = "an instrument needs a size and a clef"
            raise ValueError(msg)
        if any((clef.up_to is None) != (clef is self.clefs[-1]) for clef in self.clefs):
            msg = "every clef but the last needs a highest note, and the last one takes the rest"
            raise ValueError(msg)

    def __hash__(self) -> int:
        """Return the hash of the key: one that reads all of the file would be slow."""
        return hash(self.key)

    def open_pitch(self, string: StringNumber) -> Pitch:
        """The written pitch of an open string.

        Raises:
            ValueError: the instrument has no such string.
        """
        if not 1 <= string <= len(self.strings):
            msg = f"the {self.key} has no string {string}; its strings are 1 to {len(self.strings)}"
            raise ValueError(msg)
        return self.strings[string - 1]

    def sounding_pitch(self, written: Pitch) -> Pitch:
        """The pitch that sounds where this one is written.

        Only whole octaves between the two keep the letter; other transpositions are counted
        in the nearest letters of a major or perfect interval.
        """
        octaves, rest = divmod(self.sounding, 12)
        letters = round(rest * 7 / 12)
        return written.up(7 * octaves + letters, self.sounding)

    def string_numbers(self) -> tuple[StringNumber, ...]:
        """All strings from low to high."""
        return tuple(StringNumber(number) for number in range(len(self.strings), 0, -1))

    def between_open(self, low: StringNumber, high: StringNumber) -> Interval:
        """The interval between two open strings."""
        return Interval.between(self.open_pitch(low), self.open_pitch(high))

    def size(self, name: str) -> Size:
        """The size of that name.

        Raises:
            ValueError: there is no such size.
        """
        for size in self.sizes:
            if size.name == name:
                return size
        names = ", ".join(size.name for size in self.sizes)
        msg = f"{name!r} is no size of the {self.key}; its sizes are {names}"
        raise ValueError(msg)

    def refusal(
        self, frame: Frame, place: Semitones, strings: Sequence[StringNumber]
    ) -> str | None:
        """Say why the hand cannot lay this frame at this place on these strings, or None.

        place: semitones from the nut to the lowest finger of the frame.
        strings: neighbouring, from low to high.
        """
        return self.refused_strings(strings) or self.refused_place(frame, place)

    def refused_strings(self, strings: Sequence[StringNumber]) -> str | None:
        """Say why these are no strings to cross, or None."""
        for string in strings:
            if not 1 <= string <= len(self.strings):
                return f"the {self.key} has no string {string}"
        if any(low - high != 1 for low, high in pairwise(strings)):
            return f"strings {tuple(strings)} are not neighbours from low to high"
        return None

    def refused_place(self, frame: Frame, place: Semitones) -> str | None:
        """Say why the hand cannot take this frame at this place, or None."""
        lowest, highest = frame.fingers[0], frame.fingers[-1]
        room, top = self.hand.room_below(lowest), place + frame.span
        if place < room:
            return f"finger {lowest} stands {room} or more semitones above the nut"
        if top > self.highest_stop:
            past = f"finger {highest} at {top} semitones lies past the fingerboard's last stop"
            return f"{past}, {self.highest_stop}"
        if frame.span > self.hand.widest_span:
            return f"{frame.span} semitones are wider than this hand, {self.hand.widest_span}"
        for (low, high), spacing in zip(pairwise(frame.fingers), frame.spacings, strict=True):
            at = place + frame.offset(low)
            if self.hand.reach(low, high, spacing, at) is None:
                hand = f"the {self.key} hand takes no {spacing.word} spacing"
                return f"{hand} between fingers {low} and {high} with finger {low} at {at}"
        return None

    def stretches(self, frame: Frame, place: Semitones) -> bool:
        """Whether this frame, laid at this place, opens the hand beyond its ordinary shape."""
        if frame.span > self.hand.ordinary_span:
            return True
        reaches = (
            self.hand.reach(low, high, spacing, place + frame.offset(low))
            for (low, high), spacing in zip(pairwise(frame.fingers), frame.spacings, strict=True)
        )
        return any(reach is None or reach.stretch for reach in reaches)
