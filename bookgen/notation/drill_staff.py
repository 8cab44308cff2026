"""A drill as an abjad staff: notes, ties and slurs, bars, and what hangs on the notes."""

from collections.abc import Collection, Iterator, Sequence
from fractions import Fraction
from functools import lru_cache
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
    hang,
    heads_of,
    length,
    named,
    octave_changes,
    put_before,
    sounding,
    text_of,
    write_octave_signs,
    write_strings,
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
    """The text of two voices; final: the bar at the end."""
    staff, leaves = overlapping(events)
    for leaf, label in zip(leaves, labels, strict=True):
        put_before(leaf, opening(label))
        write_naturals(leaf, label.naturals)
        write_strings(leaf, label.strings)
        hang(leaf, hanging(label, style))
    for first, end in lines_of(labels):
        under = [label.octave_sign for label in labels[first:end]]
        write_octave_signs(leaves[first:end], under)
    abjad.attach(abjad.Clef(clef), next(abjad.iterate.leaves(staff)))
    abjad.attach(abjad.LilyPondLiteral(final, site="closing"), staff[0])
    return text_of(staff)


def struck_music(
    events: Sequence[Event], labels: Sequence[Labels], style: Style, clef: str, final: str
) -> str:
    """The text of one voice in which all notes of an event are struck together.

    Drills have most of their notes in common: abjad writes each of them once.
    """
    signs = [
        sign
        for first, end in lines_of(labels)
        for sign in octave_changes([label.octave_sign for label in labels[first:end]])
    ]
    lines: list[str] = []
    for event, label, (octaves, ends) in zip(events, labels, signs, strict=True):
        lines += opening(label)
        lines += [] if event is not events[0] else [rf'\clef "{clef}"']
        lines += [] if octaves is None else [rf"\ottava {octaves}"]
        pitches = tuple(note.pitch for note in from_low(event))
        lines += struck(pitches, event.duration, label.naturals)
        lines += [rf'^ \markup "{label.strings}"'] if label.strings else []
        lines += hanging(label, style)
        lines += [r"\ottava 0"] if ends else []
    return VOICE.format(music=indent("\n".join([*lines, final]), VOICE_INDENT))


VOICE: Final = r"""\new Staff
{{
    \new Voice
    {{
{music}
    }}
}}"""
VOICE_INDENT: Final = " " * 8
"""A staff with one voice, as abjad writes it."""


@lru_cache(maxsize=4096)
def struck(
    pitches: tuple[Pitch, ...], duration: Fraction, naturals: frozenset[Pitch]
) -> tuple[str, ...]:
    """The lines of notes that are struck together, from the lowest."""
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


def overlapping(events: Sequence[Event]) -> tuple[abjad.Staff, list[NoteOrChord]]:
    """Two voices, in which each note is held until the next one has joined it.

    A note alone stands in the voice of the note that joins it, so that one slur leads from the
    one to the other: that is what one bow takes.
    """
    upper, lower = voices_of(events)
    leaves = [
        next(leaf for leaf in pair if isinstance(leaf, NoteOrChord))
        for pair in zip(upper, lower, strict=True)
    ]
    for voice, number in ((upper, 1), (lower, 2)):
        turn_stems(voice, events, number)
    bow_together(upper, lower, events)
    voices = [abjad.Voice(upper, name="Upper"), abjad.Voice(lower, name="Lower")]
    return abjad.Staff(voices, simultaneous=True), leaves


def voices_of(events: Sequence[Event]) -> tuple[list[abjad.Leaf], list[abjad.Leaf]]:
    """The notes of the higher and of the lower voice, and room where one of them is silent."""
    upper: list[abjad.Leaf] = []
    lower: list[abjad.Leaf] = []
    for event, after in zip(events, [*events[1:], None], strict=True):
        notes, time = from_low(event), event.duration
        below = joins_below(after)
        high = notes[-1] if len(notes) > 1 or not below else None
        low = notes[0] if len(notes) > 1 or below else None
        for voice, note in ((upper, high), (lower, low)):
            voice.append(
                sounding([note.pitch], time)
                if note is not None
                else abjad.Skip.from_duration(length(time))
            )
    return upper, lower


def joins_below(event: Event | None) -> bool:
    """A note joins another one on the lower of two strings."""
    return event is not None and len(event.notes) > 1 and from_low(event)[0] == event.notes[-1]


def turn_stems(voice: Sequence[abjad.Leaf], events: Sequence[Event], number: int) -> None:
    """Turn stems apart where two voices sound, and leave a lone note its own stem."""
    before = 0
    for leaf, event in zip(voice, events, strict=True):
        if isinstance(leaf, abjad.Note):
            if len(event.notes) != before:
                apart = number if len(event.notes) > 1 else None
                abjad.attach(abjad.VoiceNumber(apart), leaf)
            before = len(event.notes)


def bow_together(
    upper: Sequence[abjad.Leaf], lower: Sequence[abjad.Leaf], events: Sequence[Event]
) -> None:
    """What one bow takes: a note is tied to where another joins it, and slurred to that one.

    The tie bends away from the note that joins. The bow changes on that one, alone: so it is
    neither tied nor slurred from there.
    """
    for index, there in enumerate(events[1:]):
        if len(there.notes) == 1 or not overlaps([there]):
            continue
        below = joins_below(there)
        voice = lower if below else upper
        toward, away = (abjad.DOWN, abjad.UP) if below else (abjad.UP, abjad.DOWN)
        abjad.attach(abjad.Tie(), voice[index], direction=away)
        abjad.attach(abjad.StartSlur(), voice[index], direction=toward)
        abjad.attach(abjad.StopSlur(), voice[index + 1])


def write_naturals(leaf: NoteOrChord, naturals: Collection[Pitch]) -> None:
    """Make naturals visible where the player needs them."""
    wanted = {str(named(pitch)) for pitch in naturals}
    for head in heads_of(leaf):
        if str(head.written_pitch()) in wanted:
            head.set_is_forced(True)
