"""A drill as an abjad staff: notes, ties and slurs, bars, and what hangs on the notes."""

from collections.abc import Collection, Iterator, Sequence
from fractions import Fraction
from functools import cache, lru_cache
from itertools import pairwise
from textwrap import indent
from typing import Final

import abjad

from bookgen.model.event import Begins, Event
from bookgen.model.instrument import Instrument
from bookgen.model.pitch import Pitch
from bookgen.notation.drill_score import DrillScore, Written
from bookgen.notation.label import Labels, from_low, labels_of
from bookgen.notation.leaf import (
    NoteOrChord,
    finger_commands,
    heads_of,
    length,
    named,
    octave_changes,
    sounding,
    text_of,
)
from bookgen.notation.style import Style

FINAL_BARS: Final = {Written.UP: "||", Written.BOTH: "|.", Written.TWO_LINES: "|."}
"""After the way up alone stands the double bar of the turn."""

BARS: Final = {
    Begins.NOTHING: (),
    Begins.GROUP: (r'\bar ","', r"\breakIfNeeded"),
    Begins.TURN: (r'\bar "||"', r"\breakIfNeeded"),
}
"""Before what opens: a short bar between layings of the hand, a double one at the turn. Where a
line is too short for a drill it is broken there."""


def drill_music(score: DrillScore, instrument: Instrument, style: Style, clef: str) -> str:
    """The LilyPond text of one drill's staff."""
    events = score.events(instrument)
    two_lines = score.written is Written.TWO_LINES
    labels = labels_of(events, instrument, style.marks, two_lines=two_lines)
    write = overlapping_music if overlaps(events) else struck_music
    return write(events, labels, style, clef, rf'\bar "{FINAL_BARS[score.written]}"')


def overlapping_music(
    events: Sequence[Event], labels: Sequence[Labels], style: Style, clef: str, final: str
) -> str:
    """The text of two voices, in which each note is held until the next one has joined it.

    A note alone stands in the voice of the note that joins it, so that one slur leads from the
    one to the other: that is what one bow takes. What belongs to an event hangs on its higher note.
    """
    voices, signs = voices_of(events), [*octave_signs_of(labels)]
    texts: list[list[str]] = []
    for pitches, stems, bows in zip(voices, STEMS, bows_of(events), strict=True):
        lines = [] if texts else [rf'\clef "{clef}"']
        turned = stems_of(pitches, events, stems)
        for at, (pitch, stem, bow) in enumerate(zip(pitches, turned, bows, strict=True)):
            duration, label = events[at].duration, labels[at]
            if pitch is None:
                lines += silence(duration)
            elif pitches is voices[0] or voices[0][at] is None:
                note = struck((pitch,), duration, label.naturals)
                lines += dressed(note, label, signs[at], style, commands=stem, bows=bow)
            else:
                lines += [*stem, *struck((pitch,), duration, frozenset()), *bow]
        texts.append(lines)
    upper, lower = texts
    return VOICES.format(upper=inside([*upper, final]), lower=inside(lower))


def struck_music(
    events: Sequence[Event], labels: Sequence[Labels], style: Style, clef: str, final: str
) -> str:
    """The text of one voice in which all notes of an event are struck together."""
    lines: list[str] = []
    for event, label, sign in zip(events, labels, octave_signs_of(labels), strict=True):
        note = struck(tuple(note.pitch for note in from_low(event)), event.duration, label.naturals)
        commands = [] if lines else [rf'\clef "{clef}"']
        lines += dressed(note, label, sign, style, commands=commands)
    return VOICE.format(music=inside([*lines, final]))


VOICE: Final = r"""\new Staff
{{
    \new Voice
    {{
{music}
    }}
}}"""
VOICES: Final = r"""\new Staff
<<
    \context Voice = "Upper"
    {{
{upper}
    }}
    \context Voice = "Lower"
    {{
{lower}
    }}
>>"""
"""A staff with one voice, or with two, as abjad writes it."""


def inside(lines: Sequence[str]) -> str:
    """Lines as they stand in a voice."""
    return indent("\n".join(lines), " " * 8)


def dressed(
    note: Sequence[str],
    label: Labels,
    octave_sign: tuple[int | None, bool],
    style: Style,
    *,
    commands: Sequence[str],
    bows: Sequence[str] = (),
) -> Iterator[str]:
    """The lines of a note with all that stands before it and hangs on it.

    octave_sign: how many octaves the 8va sign before it has, and whether one ends after it.
    commands: what else stands before it, in the order of their letters as abjad writes them.
    bows: ties and slurs.
    """
    octaves, ends = octave_sign
    yield from opening(label)
    yield from sorted([*commands, *([] if octaves is None else [rf"\ottava {octaves}"])])
    yield from note
    if label.strings:
        yield rf'^ \markup "{label.strings}"'
    yield from bows
    yield from hanging(label, style)
    if ends:
        yield r"\ottava 0"


def octave_signs_of(labels: Sequence[Labels]) -> Iterator[tuple[int | None, bool]]:
    """Where 8va signs begin and end, in each line of music by itself."""
    for first, end in lines_of(labels):
        yield from octave_changes([label.octave_sign for label in labels[first:end]])


@lru_cache(maxsize=4096)
def struck(
    pitches: tuple[Pitch, ...], duration: Fraction, naturals: frozenset[Pitch]
) -> tuple[str, ...]:
    """The lines of notes that are struck together, from the lowest.

    Drills have most of their notes in common: abjad writes each of them once.
    """
    leaf = sounding(pitches, duration)
    write_naturals(leaf, naturals)
    return tuple(text_of(leaf).splitlines())


def opening(label: Labels) -> Iterator[str]:
    """The bar before an event, and where the line of music ends before it."""
    yield from BARS[label.begins]
    if label.begins_line:
        yield r"\break"


def hanging(label: Labels, style: Style) -> Iterator[str]:
    """Fingers above an event; below it what sounds together, what rings, the move to the next."""
    yield from finger_commands(label.fingers, slides=label.slides)
    if label.begins is not Begins.NOTHING and not label.strings:
        yield rf'^\onNewLine "{label.on_new_line}"'
    if style.intervals and label.within:
        yield rf'\together "{label.within}"'
    if style.intervals and label.move:
        place = r"\atLineEnd " if label.ends_line else ""
        yield rf'{place}\{label.move.shape} "{label.move.text}"'
    if style.rings and label.rings:
        yield r"\ringing"


def lines_of(labels: Sequence[Labels]) -> Iterator[tuple[int, int]]:
    """Where the events of each line of music begin, and where they are over."""
    second = [index for index, label in enumerate(labels) if label.begins_line]
    return pairwise([0, *second, len(labels)])


def overlaps(events: Sequence[Event]) -> bool:
    """Notes are held while others join."""
    return any(note.held for event in events for note in event.notes)


Voices = tuple[list[Pitch | None], list[Pitch | None]]
"""Of each event the note of the higher voice and that of the lower one, if they have one."""


def voices_of(events: Sequence[Event]) -> Voices:
    """The notes of the two voices."""
    upper: list[Pitch | None] = []
    lower: list[Pitch | None] = []
    for event, after in zip(events, [*events[1:], None], strict=True):
        notes, below = from_low(event), joins_below(after)
        together = len(notes) > 1
        upper.append(notes[-1].pitch if together or not below else None)
        lower.append(notes[0].pitch if together or below else None)
    return upper, lower


def joins_below(event: Event | None) -> bool:
    """A note joins another one on the lower of two strings."""
    return event is not None and len(event.notes) > 1 and from_low(event)[0] == event.notes[-1]


STEMS: Final = (r"\voiceOne", r"\voiceTwo")
"""What turns the stems of the higher voice up, and those of the lower one down."""


def stems_of(
    pitches: Sequence[Pitch | None], events: Sequence[Event], apart: str
) -> Iterator[Sequence[str]]:
    """Stems turned apart where two voices sound; a lone note keeps its own.

    apart: what turns those of this voice.
    """
    before = 0
    for pitch, event in zip(pitches, events, strict=True):
        sound = before if pitch is None else len(event.notes)
        yield () if sound == before else [apart if sound > 1 else r"\oneVoice"]
        before = sound


def bows_of(events: Sequence[Event]) -> tuple[list[list[str]], list[list[str]]]:
    """What one bow takes, in the higher voice and in the lower one.

    A note is tied to where another joins it, and slurred to that one. The tie bends away from the
    note that joins. The bow changes on that one, alone: so it is neither tied nor slurred from
    there.
    """
    upper: list[list[str]] = [[] for _ in events]
    lower: list[list[str]] = [[] for _ in events]
    for at, event in enumerate(events[1:], start=1):
        if len(event.notes) > 1 and overlaps([event]):
            below = joins_below(event)
            voice = lower if below else upper
            voice[at - 1] += ["^ ~", "_ ("] if below else ["^ (", "_ ~"]
            voice[at].append(")")
    return upper, lower


@cache
def silence(duration: Fraction) -> tuple[str, ...]:
    """Room where a voice is silent."""
    return tuple(text_of(abjad.Skip.from_duration(length(duration))).splitlines())


def write_naturals(leaf: NoteOrChord, naturals: Collection[Pitch]) -> None:
    """Make naturals visible where the player needs them."""
    wanted = {str(named(pitch)) for pitch in naturals}
    for head in heads_of(leaf):
        if str(head.written_pitch()) in wanted:
            head.set_is_forced(True)
