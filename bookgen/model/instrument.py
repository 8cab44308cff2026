"""An instrument as its data file tells it: strings, sizes, clefs and what the hand reaches."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import combinations, pairwise

from bookgen.errors import Message, RefusedError, refused
from bookgen.model.finger import THUMB, sign_of
from bookgen.model.hand import Extension, Hand
from bookgen.model.interval import Interval
from bookgen.model.pitch import Pitch
from bookgen.model.position import PositionRule
from bookgen.model.route import crossable
from bookgen.model.spacing import Frame
from bookgen.model.units import Millimetres, Semitones, StringNumber

WHOLE_STEP = Semitones(2)
FEWEST_STRINGS = 2
"""A drill crosses from one string to another."""

MIDI_NUMBERS = range(12, 128)
"""The notes that have a name: C0 to G9 (MIDI 1.0)."""

NUMERALS = ("", "I", "II", "III", "IV", "V", "VI")
"""Strings are written in Roman numerals, I the highest (common practice)."""


@dataclass(frozen=True, slots=True)
class ClefChoice:
    """A clef and the notes up to which it is read without many ledger lines.

    up_to: highest note of a passage that is read easily in it; None takes all. The clef of a drill
        is chosen by its ledger lines.
    more_lines: ledger lines that a note of a drill may have more than in another clef, so that the
        drill stays in this one where it is the instrument's own.
    drills_to: a drill with a higher note leaves this clef for one with fewer ledger lines; None
        says nothing.
    """

    clef: str
    up_to: Pitch | None
    more_lines: float = 0.5
    drills_to: Pitch | None = None


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
    family: violin, viola, cello or bass: whose sound it has, and whose part in a score; or None.
    strings: open pitches as written, string 1 (the highest) first.
    sounding: semitones from the written to the sounding note.
    sizes: the first is the one taken where nothing is said.
    clefs: in order of preference.
    octave_sign_from: lowest note that is written an octave lower under an 8va sign.
    highest_stop: semitones above the open string that are still on the fingerboard.
    ordinary: the instrument in its own tuning, where its strings are tuned otherwise.
    extension_to: the lowest note of the lowest string where it runs on behind the nut, else None.
    written: the open strings on which a passage is written as it is fingered, where these are
        not those that sound; None writes it as it sounds.
    """

    key: str
    name: str
    family: str | None
    strings: tuple[Pitch, ...]
    sounding: Semitones
    sizes: tuple[Size, ...]
    clefs: tuple[ClefChoice, ...]
    octave_sign_from: Pitch
    highest_stop: Semitones
    position_rule: PositionRule
    hand: Hand
    ordinary: "Instrument | None" = None
    extension_to: Pitch | None = None
    written: tuple[Pitch, ...] | None = None

    def __post_init__(self) -> None:
        """Refuse an instrument without strings, sizes or order.

        Raises:
            RefusedError: strings do not fall from the first, strings or sizes are missing, a note
                has no name, a clef is never reached, or an extension lies above its string.
        """
        most = len(NUMERALS) - 1
        if not FEWEST_STRINGS <= len(self.strings) <= most:
            raise RefusedError("instrument-strings", count=len(self.strings), most=most)
        if any(high.midi <= low.midi for high, low in pairwise(self.strings)):
            raise RefusedError("instrument-falling")
        if self.extension_to and self.extension_to.midi >= self.strings[-1].midi:
            raise RefusedError("instrument-extension", lowest=self.strings[-1])
        if not {*self.ends(), *self.ends(self.sounding)} <= {*MIDI_NUMBERS}:
            raise RefusedError("instrument-range")
        if not self.sizes or not self.clefs:
            raise RefusedError("instrument-bare")
        if any((clef.up_to is None) != (clef is self.clefs[-1]) for clef in self.clefs):
            raise RefusedError("instrument-clefs")

    def ends(self, up: int = 0) -> tuple[int, int]:
        """MIDI numbers of the lowest and the highest note; up: semitones that are added."""
        return self.lowest.midi + up, self.strings[0].midi + self.highest_stop + up

    @property
    def lowest(self) -> Pitch:
        """The lowest note as written."""
        return self.extension_to or self.strings[-1]

    def behind_nut(self, string: StringNumber) -> int:
        """Semitones by which a string goes below its open note."""
        last = string == len(self.strings)
        return self.strings[-1].midi - self.lowest.midi if last else 0

    @property
    def reading(self) -> "Instrument":
        """The instrument as the music of a passage is written for it."""
        if self.written is None:
            return self
        return replace(self, strings=self.written, written=None)

    def __hash__(self) -> int:
        """Return the hash of the key: one that reads all of the file would be slow."""
        return hash(self.key)

    def open_pitch(self, string: StringNumber) -> Pitch:
        """The written pitch of an open string.

        Raises:
            RefusedError: the instrument has no such string.
        """
        if not 1 <= string <= len(self.strings):
            raise RefusedError(
                "instrument-string", instrument=self.key, string=string, count=len(self.strings)
            )
        return self.strings[string - 1]

    def sounding_pitch(self, written: Pitch) -> Pitch:
        """The pitch that sounds where this one is written.

        Only whole octaves between the two keep the letter; other transpositions are counted
        in the nearest letters of a major or perfect interval.
        """
        return written.up(self.letters, self.sounding)

    def written_pitch(self, sounding: Pitch) -> Pitch:
        """The pitch that is written where this one sounds."""
        return sounding.up(-self.letters, Semitones(-self.sounding))

    @property
    def letters(self) -> int:
        """Letters from the written to the sounding note."""
        octaves, rest = divmod(self.sounding, 12)
        return 7 * octaves + round(rest * 7 / 12)

    def string_numbers(self) -> tuple[StringNumber, ...]:
        """All strings from low to high."""
        return tuple(StringNumber(number) for number in range(len(self.strings), 0, -1))

    def between_open(self, low: StringNumber, high: StringNumber) -> Interval:
        """The interval between two open strings."""
        return Interval.between(self.open_pitch(low), self.open_pitch(high))

    @property
    def first_position(self) -> str:
        """The label of the position in which players begin: finger 1 a whole step above the nut."""
        return self.position_rule.at(1, WHOLE_STEP)

    def size(self, name: str) -> Size:
        """The size of that name.

        Raises:
            RefusedError: there is no such size.
        """
        for size in self.sizes:
            if size.name == name:
                return size
        sizes = [size.name for size in self.sizes]
        raise RefusedError("instrument-size", instrument=self.key, name=name, sizes=sizes)

    def refusal(
        self, frame: Frame, place: Semitones, strings: Sequence[StringNumber]
    ) -> Message | None:
        """Why the hand cannot lay this frame at this place on these strings, or None.

        place: semitones from the nut to the lowest finger of the frame.
        strings: neighbouring, from low to high, or two with others between them.
        """
        return self.refused_strings(strings) or self.refused_place(frame, place)

    def refused_strings(self, strings: Sequence[StringNumber]) -> Message | None:
        """Why these are no strings to cross, or None."""
        for string in strings:
            if not 1 <= string <= len(self.strings):
                return refused(
                    "instrument-string", instrument=self.key, string=string, count=len(self.strings)
                )
        if not crossable(strings):
            return refused("strings-neighbours", strings=strings)
        return None

    def refused_place(self, frame: Frame, place: Semitones) -> Message | None:
        """Why the hand cannot take this frame at this place, or where it shifts to, or None."""
        if frame.shift:
            upper = Semitones(place + frame.shift)
            return self.refused_place(frame.still, place) or self.refused_place(frame.still, upper)
        highest, top = frame.fingers[-1], place + frame.span
        if below := self.refused_below(frame.fingers[0], place):
            return below
        if top > self.highest_stop:
            last = self.highest_stop
            return refused("hand-past", finger=sign_of(highest), semitones=top, last=last)
        widest = self.hand.span(place).widest
        if frame.span > widest:
            return refused("hand-span", semitones=frame.span, widest=widest)
        for (low, high), spacing in zip(pairwise(frame.fingers), frame.spacings, strict=True):
            at = place + frame.offset(low)
            if self.hand.reach(low, high, spacing, at, back=frame.back) is None:
                return refused(
                    "hand-spacing",
                    instrument=self.key,
                    spacing=spacing.word,
                    low=sign_of(low),
                    high=sign_of(high),
                    semitones=at,
                )
        return self.refused_between(frame, place)

    def refused_between(self, frame: Frame, place: Semitones) -> Message | None:
        """Why the fingers of a frame that are no neighbours cannot stand so far apart, or None."""
        reaches = self.hand.reaches_of(frame, place)
        for one, other in combinations(range(len(frame.fingers)), 2):
            if other - one == 1:
                continue
            low, high = frame.fingers[one], frame.fingers[other]
            at, span = place + frame.offset(low), frame.offset(high) - frame.offset(low)
            stretch = any(reach is not None and reach.stretch for reach in reaches[one:other])
            if self.hand.widens(low, high, span, at, stretch=stretch):
                return refused(
                    "hand-apart",
                    instrument=self.key,
                    low=sign_of(low),
                    high=sign_of(high),
                    semitones=span,
                    place=at,
                )
        return None

    def refused_below(self, lowest: int, place: Semitones) -> Message | None:
        """Why the lowest finger of a frame does not go so near the nut, or None."""
        if lowest == THUMB and not self.hand.thumb_at(place):
            return refused("hand-thumb", instrument=self.key, semitones=place)
        room = self.hand.room_below(lowest)
        if place < room:
            return refused("hand-nut", finger=sign_of(lowest), semitones=room)
        return None

    def stretches(self, frame: Frame, place: Semitones) -> bool:
        """Whether this frame, laid at this place, opens the hand beyond its ordinary shape.

        A hand that shifts is asked at both its places.
        """
        if frame.shift:
            upper = Semitones(place + frame.shift)
            return self.stretches(frame.still, place) or self.stretches(frame.still, upper)
        if frame.span > self.hand.span(place).ordinary:
            return True
        reaches = self.hand.reaches_of(frame, place)
        return any(reach is None or reach.stretch for reach in reaches)

    def extension(self, frame: Frame, place: Semitones) -> Extension | None:
        """How this frame, laid at this place, is extended, where the trade has a name for it."""
        found = (reach.extends for reach in self.hand.reaches_of(frame, place) if reach)
        return next(filter(None, found), None)

    def tires(self, frame: Frame, place: Semitones) -> bool:
        """Whether the hand is to stay there but shortly.

        So it is on the side of the thumb, with a stretch, and where the neck is heavy.
        """
        lowest = frame.fingers[0]
        if lowest == THUMB:
            return True
        if self.hand.stretch_tires and self.stretches(frame, place):
            return True
        heavy = self.hand.heavy_to
        return heavy > 0 and place - self.hand.room_below(lowest) < heavy
