"""What sounds of a passage that is written as fingered, on strings that are tuned otherwise."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from bookgen.model.heard_names import spellings
from bookgen.model.instrument import Instrument
from bookgen.model.phrase import Bar, Phrase, Sound
from bookgen.model.pitch import Pitch
from bookgen.model.units import Semitones
from bookgen.plan.passage import Fingering

STAYS: Final = (0, Semitones(0))


def up(pitch: Pitch, letters: int, semitones: Semitones) -> Pitch:
    """A pitch so much higher; where that has no name of two accidentals at most, by its sound."""
    try:
        return pitch.up(letters, semitones)
    except ValueError:
        return next(spellings(pitch.midi + semitones))


def heard(phrase: Phrase, fingering: Fingering, instrument: Instrument) -> Phrase:
    """The phrase in the notes that sound, as the instrument writes them.

    Each note is as much higher or lower as its string is tuned; what cannot be played stays.
    """
    if instrument.written is None:
        return phrase
    read = instrument.reading
    moved = {
        string: (new.degree - old.degree, Semitones(new.midi - old.midi))
        for string in instrument.string_numbers()
        for new, old in [(instrument.open_pitch(string), read.open_pitch(string))]
    }
    stops = {(one.bar, one.sound): one.stops for one in fingering.placed}
    last: dict[int, tuple[int, Semitones]] = {}

    def sounds(at: int, bar: Bar) -> Iterator[Sound]:
        for index, sound in enumerate(bar.sounds):
            for note, stop in zip(sound.notes, stops.get((at, index), ()), strict=False):
                last[note.pitch.midi] = moved[stop.string] if stop is not None else STAYS
            yield replace(
                sound,
                notes=tuple(
                    replace(note, pitch=up(note.pitch, *last.get(note.pitch.midi, STAYS)))
                    for note in sound.notes
                ),
            )

    bars = (replace(bar, sounds=tuple(sounds(at, bar))) for at, bar in enumerate(phrase.bars))
    return replace(phrase, bars=tuple(bars))
