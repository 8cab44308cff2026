"""A MIDI file as a phrase: the poorer second, since it tells heights and times and no names."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from bookgen.errors import BookgenError, Finding, told
from bookgen.model.phrase import WrittenNote
from bookgen.readers.score.bars import wanted_bars
from bookgen.readers.score.findings import Remarks
from bookgen.readers.score.midi_file import MidiFile, Ticks, midi_file
from bookgen.readers.score.parts import chosen_part, cleaned
from bookgen.readers.score.passage import (
    MOST_BARS,
    MOST_SOUNDS,
    PassageFile,
    RawBar,
    Shift,
    Wanted,
    phrase_of,
)
from bookgen.readers.score.spelling import likely_key, spelled
from bookgen.readers.score.voices import Timed

EXACT: Final = frozenset({1, 2, 3, 4, 5, 6, 7, 8, 12, 16})
"""Parts of a quarter note that a time may have as it stands."""

GRIDS: Final = (8, 6)
"""Parts of a quarter note to which all other times are rounded."""

SHORTEST: Final = Fraction(1, 8)
SMALL_GAP: Final = Fraction(1, 4)
"""In quarter notes: silence shorter than this is the player's, not the composer's."""

MOST_TIES: Final = 4
FEWER: Final = told("export fewer bars")


@dataclass(frozen=True, slots=True)
class Played:
    """One note: its MIDI number, when it begins and ends in quarter notes."""

    height: int
    start: Fraction
    end: Fraction


@dataclass(frozen=True, slots=True)
class Measured:
    """A bar from its beginning to its end, in quarter notes."""

    start: Fraction
    end: Fraction
    meter: tuple[int, int]


def midi_passage(data: bytes, wanted: Wanted) -> PassageFile:
    """The wanted bars of the wanted track and channel, numbered from 1.

    Raises:
        BookgenError: it is no MIDI file, goes beyond the limits, or has no such part or bars.
    """
    file = midi_file(data, wanted.file)
    names = [name for name, _ in file.parts]
    index = chosen_part(names, wanted.part, wanted.instrument, wanted.file)
    ticks = file.parts[index][1].played
    if len(ticks) > MOST_SOUNDS:
        problem = told("the part has more than {most} notes", most=MOST_SOUNDS)
        raise BookgenError(Finding(wanted.file, problem, FEWER))
    notes = in_time(ticks, file.ticks)
    measures = measured(file, notes[-1].end, wanted.file)
    numbers = [str(number) for number in range(1, len(measures) + 1)]
    chosen, findings = wanted_bars(numbers, wanted.bars, wanted.file)
    usual = likely_key(note.height for note in notes)
    remarks = Remarks(wanted.file)
    played = shared_out(measures, notes, wanted.file)
    raw = []
    for at in chosen:
        bar = measures[at]
        sharps = key_at(file, bar.start, usual)
        voice = tuple(voice_of(bar, sharps, played.get(at, ())))
        length = (bar.end - bar.start) / 4
        raw.append(RawBar(numbers[at], (voice,), length, bar.meter, sharps))
    return PassageFile(
        title=file.title or cleaned(wanted.stem) or wanted.file,
        phrase=phrase_of(raw, Shift.to_written(wanted.instrument), remarks),
        findings=(*findings, *remarks.findings()),
        part=names[index].name or None,
    )


def in_time(ticks: Sequence[Ticks], quarter: int) -> list[Played]:
    """The notes with times that can be written, from the first to the last.

    Short silence before the next note is taken as part of the note, and short overlap is cut.

    quarter: ticks of a quarter note.
    """
    played = [
        (one.height, snapped(Fraction(one.start, quarter)), snapped(Fraction(one.end, quarter)))
        for one in ticks
    ]
    starts = sorted({start for _, start, _ in played})
    result = []
    for height, start, rough in played:
        end = max(rough, start + SHORTEST)
        after = bisect_right(starts, start)
        if after < len(starts):
            end = joined_to(starts[after], start, end)
        result.append(Played(height, start, end))
    return sorted(result, key=lambda note: (note.start, note.height, note.end))


def snapped(time: Fraction) -> Fraction:
    """The time as it is where it can be written, else the nearest that can."""
    if time.denominator in EXACT:
        return time
    near = (Fraction(round(time * grid), grid) for grid in GRIDS)
    return min(near, key=lambda one: (abs(one - time), one.denominator))


def joined_to(following: Fraction, start: Fraction, end: Fraction) -> Fraction:
    """The end of a note, moved to the next beginning where it lies close before or behind it."""
    gap = following - end
    small = max(SMALL_GAP, (following - start) / 3)
    return following if -SMALL_GAP < gap < small else end


def measured(file: MidiFile, last: Fraction, name: str) -> list[Measured]:
    """The bars up to the end of the last note; a new meter begins a new one.

    name: under which the user knows the file.

    Raises:
        BookgenError: there are too many.
    """
    changes = sorted(file.meters)
    result: list[Measured] = []
    start, meter = Fraction(0), (4, 4)
    while start < last:
        if len(result) > MOST_BARS:
            problem = told("the piece has more than {most} bars", most=MOST_BARS)
            raise BookgenError(Finding(name, problem, FEWER))
        now = bisect_right(changes, start)
        meter = file.meters[changes[now - 1]] if now else meter
        end = start + Fraction(4 * meter[0], meter[1])
        if now < len(changes):
            end = min(end, changes[now])
        result.append(Measured(start, end, meter))
        start = end
    return result


def key_at(file: MidiFile, start: Fraction, usual: int) -> int:
    """The key signature that holds from there.

    usual: where the file says none.
    """
    return max(((at, key) for at, key in file.keys.items() if at <= start), default=(0, usual))[1]


def shared_out(
    measures: Sequence[Measured], notes: Sequence[Played], name: str
) -> dict[int, list[Played]]:
    """The notes by the indexes of the bars in which they sound, with their times there.

    name: under which the user knows the file.

    Raises:
        BookgenError: they are tied over too many bars.
    """
    starts = [bar.start for bar in measures]
    result: dict[int, list[Played]] = {}
    count = 0
    for note in notes:
        first = bisect_right(starts, note.start) - 1
        for index in range(first, bisect_left(starts, note.end)):
            result.setdefault(index, []).append(note)
            count += 1
        if count > MOST_TIES * MOST_SOUNDS:
            problem = told("notes are held over thousands of bars")
            raise BookgenError(Finding(name, problem, FEWER))
    return result


def voice_of(bar: Measured, sharps: int, notes: Iterable[Played]) -> Iterator[Timed]:
    """The notes of a bar, tied where they come from the bar before."""
    for note in notes:
        start, end = max(note.start, bar.start), min(note.end, bar.end)
        name = WrittenNote(spelled(note.height, sharps), tied=note.start < bar.start)
        yield Timed((start - bar.start) / 4, (end - start) / 4, (name,))
