"""String parts of quartets from music21's corpus, as phrases: a reader for tests alone."""

from collections import defaultdict
from dataclasses import replace
from fractions import Fraction
from functools import cache

from music21 import chord, corpus, note, stream

from bookgen.model.phrase import Bar, Phrase, Sound, WrittenNote
from bookgen.model.pitch import Pitch

Element = note.Note | chord.Chord


@cache
def parts(work: str) -> tuple[Phrase, ...]:
    """The parts of a movement from the first violin down; empty bars are left out."""
    score = corpus.parse(work)
    return tuple(phrase_of(part) for part in score.parts)


def phrase_of(part: stream.Part) -> Phrase:
    bars = [bar_of(measure) for measure in part.getElementsByClass(stream.Measure)]
    return Phrase(tuple(bar for bar in bars if bar is not None))


def bar_of(measure: stream.Measure) -> Bar | None:
    length = whole(measure.barDuration.quarterLength)
    graces: dict[Fraction, list[Element]] = defaultdict(list)
    notes: dict[Fraction, list[Element]] = defaultdict(list)
    for element in measure.recurse().getElementsByClass([note.Note, chord.Chord]):
        at = whole(element.getOffsetInHierarchy(measure))
        (notes if element.quarterLength > 0 else graces)[at].append(element)
    sounds: list[Sound] = []
    starts = sorted({*graces, *notes})
    if not starts:
        return None
    for at in starts:
        sounds.extend(Sound(at, Fraction(0), written([one]), grace=True) for one in graces[at])
        if notes[at]:
            lasts = max(whole(one.quarterLength) for one in notes[at])
            sounds.append(Sound(at, lasts, written(notes[at])))
    return Bar(str(measure.number), tuple(with_rests(sounds, length)), length)


def with_rests(sounds: list[Sound], length: Fraction) -> list[Sound]:
    found: list[Sound] = []
    if sounds[0].at > 0:
        found.append(Sound(Fraction(0), sounds[0].at, ()))
    last = max(length, sounds[-1].at + sounds[-1].duration)
    for one, until in zip(sounds, [*(sound.at for sound in sounds[1:]), last], strict=True):
        if one.grace:
            found.append(one)
            continue
        end = min(one.at + one.duration, until)
        found.append(replace(one, duration=end - one.at))
        if until > end:
            found.append(Sound(end, until - end, ()))
    return found


def written(elements: list[Element]) -> tuple[WrittenNote, ...]:
    notes: dict[int, WrittenNote] = {}
    for element in elements:
        for one in element.notes if isinstance(element, chord.Chord) else [element]:
            tied = one.tie is not None and one.tie.type in {"stop", "continue"}
            pitch = Pitch.parse(one.pitch.nameWithOctave.replace("-", "b"))
            notes[pitch.midi] = WrittenNote(pitch, tied=tied)
    return tuple(notes[midi] for midi in sorted(notes)[-4:])


def whole(quarters: float | Fraction) -> Fraction:
    return Fraction(quarters).limit_denominator(3840) / 4
