"""A passage as it is written: bars, chords, ties, given fingerings, slurs and signs."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from bookgen.errors import RefusedError
from bookgen.model.marking import NO_MARKING, Marking, Tempo, paired
from bookgen.model.pitch import Pitch
from bookgen.model.units import StringNumber

MOST_NOTES = 4
"""Notes of one chord: a bow instrument has hardly more strings that sound together."""


@dataclass(frozen=True, slots=True)
class WrittenNote:
    """One note of a chord, or a single one, as the player reads it.

    pitch: as written for the instrument.
    finger, string: given by the source and kept; None where it says nothing. Finger 0 is the
        open string.
    tied: it goes on from the note before and is not struck again.
    harmonic: the source asks for a natural harmonic at this touch or sounding place.
    """

    pitch: Pitch
    finger: int | None = None
    string: StringNumber | None = None
    tied: bool = False
    harmonic: bool = False


@dataclass(frozen=True, slots=True)
class Sound:
    """Notes that begin together, or a rest.

    at: from the beginning of the bar, in whole notes.
    duration: in whole notes as it sounds; 0 for a grace note.
    notes: from low to high; none for a rest.
    grace: a small note before the next one, without time of its own.
    marking: what stands with it.
    """

    at: Fraction
    duration: Fraction
    notes: tuple[WrittenNote, ...]
    grace: bool = False
    marking: Marking = NO_MARKING

    def __post_init__(self) -> None:
        """Refuse what is no chord.

        Raises:
            RefusedError: more notes than a bow can sound, notes that do not rise, or a time
                that is none.
        """
        if len(self.notes) > MOST_NOTES:
            raise RefusedError("chord-notes", count=len(self.notes), most=MOST_NOTES)
        heights = [note.pitch.midi for note in self.notes]
        if sorted(heights) != heights:
            raise RefusedError("chord-order")
        if self.at < 0 or self.duration < 0 or (self.duration == 0) != self.grace:
            raise RefusedError("sound-time", at=self.at, duration=self.duration)

    @property
    def is_rest(self) -> bool:
        """Nothing sounds."""
        return not self.notes

    @property
    def struck(self) -> tuple[WrittenNote, ...]:
        """The notes that begin here, without those that are tied over."""
        return tuple(note for note in self.notes if not note.tied)


@dataclass(frozen=True, slots=True)
class Bar:
    """One bar.

    number: as printed in the source, e.g. "12" or "12a"; an upbeat is "0".
    sounds: in the order of their beginnings; rests too.
    meter: beats and beat value where it changes here, else None.
    sharps: key signature where it changes here, flats are negative; None where it stays.
    length: of the bar in whole notes.
    tempo: where one is written over the bar.
    """

    number: str
    sounds: tuple[Sound, ...]
    length: Fraction
    meter: tuple[int, int] | None = None
    sharps: int | None = None
    tempo: Tempo | None = None


@dataclass(frozen=True, slots=True)
class Phrase:
    """A passage.

    bars: in their order; the first one tells meter and key.
    """

    bars: tuple[Bar, ...]

    def sounds(self) -> Iterator[tuple[int, Sound]]:
        """Every sound with the index of its bar, in the order of time; rests too."""
        for index, bar in enumerate(self.bars):
            for sound in bar.sounds:
                yield index, sound


def with_whole_lines(bars: Iterable[Bar]) -> tuple[Bar, ...]:
    """The bars without what is left of slurs, hairpins and groups that were cut."""
    found = tuple(bars)
    markings = paired(sound.marking for bar in found for sound in bar.sounds)
    return tuple(
        replace(bar, sounds=tuple(replace(sound, marking=next(markings)) for sound in bar.sounds))
        for bar in found
    )
