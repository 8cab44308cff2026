"""A passage as a MIDI file, to be listened to: what is tied sounds on, grace notes come before."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from bookgen.model.instrument import Instrument
from bookgen.model.marking import Tempo
from bookgen.model.phrase import Phrase
from bookgen.notation.midi import Struck, file_of, program_of, struck, ticks
from bookgen.notation.played import BEATS_A_MINUTE
from bookgen.notation.sounds import timed
from bookgen.notation.tie import NO_TIES, ties_of

GRACE: Final = Fraction(1, 32)
"""Whole notes of a grace note, taken from what comes before it (own choice)."""

Tone = tuple[int, Fraction, Fraction]
"""MIDI note number as written, beginning and end in whole notes."""


def passage_midi(phrase: Phrase, instrument: Instrument) -> bytes:
    """A passage at the speeds that the file gives, or slow enough to listen."""
    import mido  # noqa: PLC0415  seldom needed

    speeds = (
        (at, mido.MetaMessage("set_tempo", tempo=mido.bpm2tempo(beats)))
        for at, beats in speeds_of(phrase)
    )
    notes = struck(turns_of(phrase, instrument))
    return file_of([(0, program_of(instrument)), *speeds, *notes])


def speeds_of(phrase: Phrase) -> Iterator[tuple[int, float]]:
    """When, in ticks, how many quarter notes go into a minute from there on."""
    begins = Fraction(0)
    for index, bar in enumerate(phrase.bars):
        speed = quarters_a_minute(bar.tempo)
        if speed is not None:
            yield ticks(begins), speed
        elif index == 0:
            yield 0, BEATS_A_MINUTE
        begins += bar.length


def quarters_a_minute(tempo: Tempo | None) -> float | None:
    """Quarter notes a minute; None where no number is given."""
    if tempo is None or tempo.beat is None or tempo.per_minute is None:
        return None
    return float(tempo.per_minute * tempo.beat * 4)


def turns_of(phrase: Phrase, instrument: Instrument) -> Iterator[Struck]:
    """Where each tone begins and ends."""
    for number, start, end in tones_of(phrase):
        yield ticks(start), True, number + instrument.sounding
        yield ticks(end), False, number + instrument.sounding


def tones_of(phrase: Phrase) -> Iterator[Tone]:
    """The tones of a phrase, tied notes joined; grace notes right before the beat."""
    ties, going = ties_of(phrase), dict[int, Tone]()
    for one in timed(phrase):
        here = ties.get(one.place, NO_TIES)
        tones: dict[int, Tone] = {}
        for index, note in enumerate(one.sound.notes):
            number = note.pitch.midi
            start = going.pop(number)[1] if index in here.back and number in going else one.start
            tones[number] = (number, start, one.end)
        yield from going.values()
        going = tones
    yield from going.values()
    yield from grace_tones(phrase)


def grace_tones(phrase: Phrase) -> Iterator[Tone]:
    """Grace notes one after the other, up to the time at which they are written."""
    begins = Fraction(0)
    for bar in phrase.bars:
        graces = [sound for sound in bar.sounds if sound.grace]
        for index, sound in enumerate(graces):
            later = sum(other.at == sound.at for other in graces[index:])
            start = max(begins + sound.at - GRACE * later, Fraction(0))
            for note in sound.notes:
                yield note.pitch.midi, start, start + GRACE
        begins += bar.length
